/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a full verify share one run. */
#pragma once

#include "records/checkpoint-private.h"
#include "records/verify.h"

G_BEGIN_DECLS

/* What stands outside, and what the file says about it. */
typedef struct
{
  char *uuid;              /* Owned */
  GArray *lines;           /* Owned SwTrustLine; empty without a trust folder */
  GPtrArray *restorations; /* Owned SwRestoration */
  char own_key[SW_KEY_LENGTH + 1];
  guint n_unreadable;
} SwTrust;

typedef struct
{
  SwStore *store;         /* Borrowed */
  SwVerifyReport *report; /* Borrowed; findings are added to it */
  /* By SwTable: row id (gint64) to the last journal row that speaks of it (gint64). Owned. */
  GHashTable *heads[SW_N_TABLES];
  SwProgress progress;
  gpointer data;
  gint64 total;                   /* journal rows and record rows */
  const SwVerifyOptions *options; /* Borrowed, never NULL */
  SwTrust trust;
} SwVerifyRun;

/* Adds a finding; @finding's texts are copied. */
void sw_verify_add (SwVerifyRun *run, const SwFinding *finding);
void sw_verify_note (SwVerifyRun *run, const SwFinding *finding);
/* FALSE with G_IO_ERROR_CANCELLED when the caller wants to stop. */
gboolean sw_verify_step (SwVerifyRun *run, gint64 done, GError **error);

/* FALSE only when the file could not be read, or to stop. */
gboolean sw_verify_integrity (SwVerifyRun *run, GError **error);
gboolean sw_verify_schema (SwVerifyRun *run, GError **error);
gboolean sw_verify_journal (SwVerifyRun *run, GError **error);
gboolean sw_verify_rows (SwVerifyRun *run, GError **error);
/* Reads the trust folder, before anything is compared with it. */
gboolean sw_verify_load_trust (SwVerifyRun *run, GError **error);
/* The newest checkpoint outside that is in the journal and rightly signed, or NULL. */
gboolean sw_verify_find_start (SwVerifyRun *run, const SwTrustLine **start, GError **error);
gboolean sw_verify_trust (SwVerifyRun *run, GError **error);
void sw_verify_clear_trust (SwTrust *trust);

G_END_DECLS
