/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Backups, restoring and snapshots in words.
 *
 * Kinds are counted as records/backup.h and restore.h count them; wording knows no records, so they
 * come as plain numbers. NULL for a number that is none of them.
 */
#pragma once

#include "wording/sentence.h"

G_BEGIN_DECLS

/* ---- (transfer none) ---- */
const char *sw_say_backup_why (const SwWording *wording, guint why);     /* SwBackupWhy */
const char *sw_say_backup_state (const SwWording *wording, guint state); /* SwBackupState */
/* What a restore of it would be: SwRestoreRelation. */
const char *sw_say_restore_relation (const SwWording *wording, guint relation);

/* ---- all below (transfer full) ---- */
/* "1.4 MB", in steps of 1000. */
char *sw_say_bytes (const SwWording *wording, gint64 bytes);
/* "Daily, 1.4 MB, 204 tests" */
char *sw_say_backup_line (const SwWording *wording, guint why, gint64 bytes, gulong tests);
/* When the last good one was made, 0 = there is none, and whether another comes by itself. */
char *sw_say_backup_last (const SwWording *wording, gint64 made_ms, gboolean by_itself);
/* Where they are kept, and whether that is beside the file. */
char *sw_say_backup_folder (const SwWording *wording, const char *folder, gboolean beside);
char *sw_say_backup_done (const SwWording *wording, const char *name);
char *sw_say_snapshot_done (const SwWording *wording, const char *path);
/* Why no backup could be written: what is true of the file is not true of its copy. */
char *sw_say_backup_error (const SwWording *wording, const GError *error);
/* The banner that stays: @last_ms of the last good one, 0 = none. */
char *sw_say_backup_failed (const SwWording *wording, const char *why, gint64 last_ms);

typedef struct
{
  gulong tests;
  gulong doses;
  gulong machines;
  const char *last_test; /* code of its sample; NULL = none */
  gint64 last_test_ms;
  gint64 last_ms; /* the journal's last entry */
} SwBackupFacts;

/* "It holds 204 tests and 31 doses of 4 machines." */
char *sw_say_backup_holds (const SwWording *wording, const SwBackupFacts *facts);
char *sw_say_backup_last_test (const SwWording *wording, const SwBackupFacts *facts);
/* How many acts of the file would be lost with it. */
char *sw_say_restore_lost (const SwWording *wording, gulong n);
/* Verify found something in the backup: it is not restored. */
char *sw_say_backup_findings (const SwWording *wording, gulong n);
/* "Restore the backup of 24 November 2026 06:00", for the box that asks who does it. */
char *sw_say_restore_subject (const SwWording *wording, gint64 made_ms);
char *sw_say_restore_done (const SwWording *wording, gint64 made_ms);

G_END_DECLS
