/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a full verify share one run. */
#pragma once

#include "records/store-private.h"
#include "records/verify.h"

G_BEGIN_DECLS

typedef struct
{
  SwStore *store;         /* Borrowed */
  SwVerifyReport *report; /* Borrowed; findings are added to it */
  /* By SwTable: row id (gint64) to the last journal row that speaks of it (gint64). Owned. */
  GHashTable *heads[SW_N_TABLES];
  SwProgress progress;
  gpointer data;
  gint64 total; /* journal rows */
} SwVerifyRun;

/* Adds a finding; @finding's texts are copied. */
void sw_verify_add (SwVerifyRun *run, const SwFinding *finding);
/* FALSE with G_IO_ERROR_CANCELLED when the caller wants to stop. */
gboolean sw_verify_step (SwVerifyRun *run, gint64 done, GError **error);

/* FALSE only when the file could not be read, or to stop. */
gboolean sw_verify_integrity (SwVerifyRun *run, GError **error);
gboolean sw_verify_schema (SwVerifyRun *run, GError **error);
gboolean sw_verify_journal (SwVerifyRun *run, GError **error);
gboolean sw_verify_rows (SwVerifyRun *run, GError **error);

G_END_DECLS
