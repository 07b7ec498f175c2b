/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The form of a journal entry, shared by its writer and by verify. */
#pragma once

#include "records/store-private.h"
#include "sw-config.h"

G_BEGIN_DECLS

/* A journal row without its entry and hash. All texts are borrowed. */
typedef struct
{
  gint64 seq;
  gint64 act;
  const char *kind;
  gint64 utc_ms;
  gint64 offset_min;
  gint64 person;
  const char *identified_by;
  const char *workstation;
  const char *version;
  const char *reason;
  gint64 clock_back_ms;
  gint64 clock_ahead_ms;
  const char *action;
  const char *table;
  gint64 row;
  gint64 prior_seq;
} SwJournalRow;

/* The previous hash and the header lines, without a newline at the end. (transfer full) */
GString *sw_journal_header (const SwJournalRow *row, const char *previous_hash);
/* SHA-256 of the entry and one LF, hex. (transfer full) */
char *sw_journal_hash (const char *entry, gsize length);

G_END_DECLS
