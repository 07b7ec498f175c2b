/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Backups of the file that a window has open: the daily one by itself, others when asked, all in
 * the background. One per context.
 *
 * Signals: "changed" (something to show anew: list, progress, failure); "written" (string path, int
 * why or SW_KEEPER_SNAPSHOT) after a copy that somebody asked for.
 */
#pragma once

#include "app/context.h"
#include "records/backup.h"

G_BEGIN_DECLS

#define SW_KEEPER_SNAPSHOT ((int)SW_N_BACKUP_WHYS)

#define SW_TYPE_BACKUP_KEEPER (sw_backup_keeper_get_type ())
G_DECLARE_FINAL_TYPE (SwBackupKeeper, sw_backup_keeper, SW, BACKUP_KEEPER, GObject)

/* Made when first asked for; lives as long as the context. (transfer none) */
SwBackupKeeper *sw_backup_keeper_of (SwContext *context);

/* Looks after the daily backup from now on: at once, and every hour. Not for a file that is only
 * read, nor for the invented plant. */
void sw_backup_keeper_start (SwBackupKeeper *self);
/* Whether a daily one is made by itself here. */
gboolean sw_backup_keeper_looks_after (SwBackupKeeper *self);
/* What an hour does, now. */
void sw_backup_keeper_check (SwBackupKeeper *self);
/* One by hand; after what is being done now. */
void sw_backup_keeper_back_up (SwBackupKeeper *self);
/* An auditor's snapshot. */
void sw_backup_keeper_snapshot (SwBackupKeeper *self, const char *path);
/* Reads the list again. */
void sw_backup_keeper_refresh (SwBackupKeeper *self);

/* Newest first; empty until it was read. (transfer none) */
GPtrArray *sw_backup_keeper_get_list (SwBackupKeeper *self);
gboolean sw_backup_keeper_is_busy (SwBackupKeeper *self);
/* 0 to 1 while busy. */
double sw_backup_keeper_get_progress (SwBackupKeeper *self);
/* Why the last try failed, NULL after one that went well. Stays until then. (transfer none) */
const GError *sw_backup_keeper_get_failure (SwBackupKeeper *self);

/* Of this PC, for every file: a key of the settings. @beside: whether it is the default one.
 * (transfer full) */
char *sw_backup_keeper_dup_folder (SwBackupKeeper *self, gboolean *beside);
/* NULL = beside the file. */
void sw_backup_keeper_set_folder (SwBackupKeeper *self, const char *folder);
/* The same for a file that is not open. (transfer full) */
char *sw_backup_folder_of (const char *path, gboolean *beside);

G_END_DECLS
