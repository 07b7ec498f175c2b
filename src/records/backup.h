/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Backups: whole copies of the file, each proved by a full verify before it has its name.
 *
 *   NAME-YYYYMMDDTHHMMSSZ.stillwarden            daily
 *   NAME-YYYYMMDDTHHMMSSZ-WHY.stillwarden        by-hand, before-migration, before-restore
 *   NAME-YYYYMMDDTHHMMSSZ-damaged.stillwarden    a file that a restore moved aside: no backup
 *
 * NAME is the file's name without ".stillwarden", the time is UTC. Without a folder given they go
 * into "NAME backups" beside the file. A backup is a file at rest (DELETE mode, nothing beside it)
 * that nobody may write (mode 0444); no function here ever writes to one that is there.
 *
 * All of this works with connections of its own, by path: a worker may run it while the window that
 * has the file open goes on writing.
 */
#pragma once

#include "records/store.h"
#include "records/verify.h"

G_BEGIN_DECLS

typedef enum
{
  SW_BACKUP_DAILY,
  SW_BACKUP_BY_HAND,
  SW_BACKUP_BEFORE_MIGRATION,
  SW_BACKUP_BEFORE_RESTORE,
  SW_N_BACKUP_WHYS
} SwBackupWhy;

typedef enum
{
  SW_BACKUP_GOOD,       /* can be read, and is of this site */
  SW_BACKUP_UNREADABLE, /* has the name of a backup, and cannot be read */
  SW_BACKUP_OTHER_SITE, /* has the name of a backup, and the UUID of another site */
  SW_BACKUP_NEWER,      /* written by a newer program version */
  SW_N_BACKUP_STATES
} SwBackupState;

/* What a backup is, and what it holds; numbers are 0 and texts NULL where it cannot be read. */
typedef struct
{
  char *path; /* Owned, as all texts here */
  char *name; /* without folders */
  SwBackupWhy why;
  SwBackupState state;
  gint64 made_ms; /* as its name says, UTC */
  gint64 bytes;
  char *uuid;
  int schema_version;
  gint64 seq; /* of the journal's last row */
  char *head; /* its hash */
  gint64 last_ms;
  int last_offset_min;
  gint64 machines; /* voided ones left out, as below */
  gint64 tests;
  gint64 doses;
  char *last_test; /* code of the sample drawn last */
  gint64 last_test_ms;
} SwBackupInfo;

void sw_backup_info_free (SwBackupInfo *info);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwBackupInfo, sw_backup_info_free)

/* ---- names ---- */

/* "/x/Plant backups" for "/x/Plant.stillwarden". (transfer full) */
char *sw_backup_default_folder (const char *path);
/* The name of a backup of the file @path made then. (transfer full) */
char *sw_backup_name (const char *path, gint64 made_ms, SwBackupWhy why);
/* Whether @name is that of a backup of @path; @path NULL: of any file. */
gboolean
sw_backup_name_parse (const char *path, const char *name, gint64 *made_ms, SwBackupWhy *why);

/* ---- writing ---- */

/* Copies the file @path into @folder (NULL = the default one, made when it is not there), proves
 * the copy, and only then gives it its name; what fails leaves nothing behind. Head and seq of the
 * copy are those of the file at the moment of copying. Errors: SW_RECORDS_ERROR_DISK_FULL before
 * anything is written when there is no room, _UNVERIFIED when verify finds something in the copy.
 * (transfer full) */
SwBackupInfo *sw_backup_write (const char *path,
                               const char *folder,
                               SwBackupWhy why,
                               gint64 now_ms,
                               SwProgress progress,
                               gpointer data,
                               GError **error);
/* The same under a name of the caller's; a file that is there is refused. This is also the
 * auditor's snapshot: one file in DELETE mode that opens in a folder nobody can write to. */
SwBackupInfo *sw_backup_write_as (
    const char *path, const char *out, SwProgress progress, gpointer data, GError **error);

/* ---- what there is ---- */

/* Reads one without altering it or leaving anything beside it. (transfer full); NULL only when
 * there is no such file or its name is not a file's. @uuid: of the site it should be of, NULL =
 * any. */
SwBackupInfo *sw_backup_read (const char *path, const char *uuid, GError **error);
/* The backups of the file @path in @folder (NULL = default), newest first: those of its name, and
 * those of another name and of site @uuid. A folder that is not there has none. (transfer full) */
GPtrArray *sw_backup_list (const char *path, const char *folder, const char *uuid, GError **error);
/* The newest of a list that is good, or NULL. (transfer none) */
const SwBackupInfo *sw_backup_list_newest (GPtrArray *list);

/* ---- rotation ---- */

typedef struct
{
  gint64 made_ms;
  SwBackupWhy why;
} SwBackupMark;

#define SW_BACKUP_DAYS 7
#define SW_BACKUP_WEEKS 5
#define SW_BACKUP_MONTHS 12

/* Which stay: keep[i] for each of @marks, in any order. Of the daily ones and those made by hand
 * the last of each of the last 7 days, 5 weeks (from Monday) and 12 months that have one at all; of
 * those made before a migration or a restore all of the last 365 days. Days are counted by the
 * backups themselves and not by the clock: a plant that stood still loses none. */
void sw_backup_rotate (
    const SwBackupMark *marks, gsize n, gint64 now_ms, int offset_min, gboolean *keep);
/* Removes from a list's folder what rotation lets go; only files of @path's name and of site @uuid
 * that can be read; and what a kill left of a copy over a day ago. The number of backups removed,
 * or -1. */
int sw_backup_prune (const char *path,
                     const char *folder,
                     const char *uuid,
                     gint64 now_ms,
                     int offset_min,
                     GError **error);

/* Whether a daily one is due: the last good one is older than 24 h (or of the future) and the
 * journal has another head. @last may be NULL. */
gboolean sw_backup_is_due (const SwBackupInfo *last, const char *head, gint64 now_ms);

G_END_DECLS
