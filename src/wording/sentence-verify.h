/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What verify found, in whole sentences, and what to do about it. All (transfer full) unless said.
 */
#pragma once

#include "wording/wording.h"

G_BEGIN_DECLS

/* Kinds of findings and notes; the order is that of records/verify.h. */
typedef enum
{
  SW_TOLD_INTEGRITY,
  SW_TOLD_SCHEMA,
  SW_TOLD_CHAIN,
  SW_TOLD_ROW_CHANGED,
  SW_TOLD_ROW_UNKNOWN,
  SW_TOLD_ROW_MISSING,
  SW_TOLD_RESULT,
  SW_TOLD_CHECKPOINT,
  SW_TOLD_HEAD,
  SW_TOLD_VERSION,
  SW_N_TOLD
} SwTold;

/* Texts are borrowed; NULL = none. Numbers 0 = none. */
typedef struct
{
  SwTold kind;
  const char *record; /* "Sample M-07-260504-1", or table and number where there is no such row */
  const char *table;  /* of the file */
  const char *column; /* as people call it where they have a word for it, else as the file does */
  const char *expected;
  const char *found;
  const char *text;
  gint64 seq;
  gint64 utc_ms;
  const char *person; /* name */
  gint64 kept_seq;
  gint64 count;
} SwVerifyFact;

char *sw_say_finding (const SwWording *wording, const SwVerifyFact *fact);
char *sw_say_note (const SwWording *wording, const SwVerifyFact *fact);
/* What to do about findings of a kind. (transfer none) */
const char *sw_say_finding_advice (const SwWording *wording, SwTold kind);

/* "Nothing was found", "Three findings" */
char *sw_say_verify_headline (const SwWording *wording, guint n_findings);
/* What was looked at. @outside: checkpoints that could be compared; -1 = none was asked for. */
char *sw_say_verify_scope (const SwWording *wording,
                           gint64 journal_rows,
                           gint64 record_rows,
                           gint64 chain_from,
                           gint64 outside);
/* What no verify can find, the @i-th; NULL after the last. (transfer none) */
const char *sw_say_verify_limit (const SwWording *wording, guint i);

/* The file lacks what this PC has signed. */
typedef struct
{
  gint64 seq;         /* newest checkpoint that is lost */
  gint64 utc_ms;      /* when it was signed */
  gint64 kept_seq;    /* newest before it that is there; 0 = none */
  gint64 kept_utc_ms; /* when that was signed */
  gboolean read_only; /* the file is only looked at: perhaps a backup */
} SwLossFacts;
/* For the banner. */
char *sw_say_loss (const SwWording *wording, const SwLossFacts *facts);
/* The checkpoints' folder cannot be written, and what that means; @why: an error in words. */
char *sw_say_trust_failed (const SwWording *wording, const char *folder, const char *why);

G_END_DECLS
