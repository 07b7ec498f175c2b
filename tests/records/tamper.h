/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Alters a copy of a plant's file through the sqlite3 shell, and asks verify what it finds. */
#pragma once

#include "fixture.h"
#include "records/verify.h"

G_BEGIN_DECLS

/* Makes the file that every test starts from; @fixture keeps it until its tear-down. */
void tamper_make_master (Fixture *fixture);
/* For g_test_add: a copy of it, closed. */
void tamper_set_up (Fixture *fixture, gconstpointer data);
/* Runs @sql on the closed file with the table's triggers out of the way and back after. */
void tamper_run (Fixture *fixture, const char *table, const char *sql);
/* (transfer full) */
SwVerifyReport *tamper_verify (Fixture *fixture);
/* The first finding of the kind at that place; NULL column: any. */
const SwFinding *tamper_find (
    SwVerifyReport *report, SwFindingKind kind, const char *table, gint64 row, const char *column);
guint tamper_count (SwVerifyReport *report, SwFindingKind kind);

G_END_DECLS
