/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What writing, listing and restoring of backups share. */
#pragma once

#include "records/backup.h"
#include "records/store-private.h"

G_BEGIN_DECLS

/* The public functions with what a test may ask for. */
SwBackupInfo *sw_backup_write_with (const char *path,
                                    const char *folder,
                                    SwBackupWhy why,
                                    gint64 now_ms,
                                    const SwStoreOptions *options,
                                    GError **error);

/* A backup of the older file @path, before it is migrated. */
gboolean sw_backup_before_migration (const char *path,
                                     gint64 now_ms,
                                     const SwStoreOptions *options,
                                     GError **error);

/* Full verify of a file at rest; SW_RECORDS_ERROR_UNVERIFIED when it finds something. @head: what
 * the journal's must be, NULL = any. */
gboolean sw_backup_prove (const char *path,
                          const char *head,
                          const SwStoreOptions *options,
                          SwProgress progress,
                          gpointer data,
                          GError **error);

/* Whether a disk has room for a copy of @path in @folder. @free_bytes: pretend so many, -1 = ask.
 */
gboolean
sw_backup_check_room (const char *path, const char *folder, gint64 free_bytes, GError **error);

/* Fills what can be read of an open file. */
gboolean sw_backup_info_fill (SwBackupInfo *info, SwStore *store, GError **error);

G_END_DECLS
