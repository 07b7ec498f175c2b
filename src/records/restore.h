/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Putting a backup in the place of the file, and what that would mean.
 *
 * This layer asks nobody for their right; workflow/restore.h does, and is what others call.
 */
#pragma once

#include "records/backup.h"

G_BEGIN_DECLS

/* ---- preview ---- */

typedef enum
{
  SW_RESTORE_SAME,       /* the file stands where the backup stands: nothing to restore */
  SW_RESTORE_ANCESTOR,   /* the backup's head is in the file's journal: an earlier state of it */
  SW_RESTORE_DIVERGED,   /* same site; the journals part after common_seq */
  SW_RESTORE_OTHER_SITE, /* another UUID: is refused */
  SW_RESTORE_NO_FILE,    /* the file is not there, damaged, or no file of ours */
  SW_N_RESTORE_RELATIONS
} SwRestoreRelation;

/* An act of the file that the backup does not know. Texts Owned, NULL = none. */
typedef struct
{
  gint64 act; /* seq of its first journal row */
  gint64 utc_ms;
  int offset_min;
  char *kind;   /* "test", "dose", ... as in the journal */
  char *action; /* of its first row, as the next two */
  char *table;
  char *identified_by;
  char *workstation;
  char *person; /* name */
  char *reason;
} SwLostAct;

#define SW_RESTORE_SHOWN 5 /* lost acts that a preview holds */

typedef struct
{
  SwRestoreRelation relation;
  SwBackupInfo *backup; /* Owned */
  guint n_findings;     /* of a full verify of the backup; any: is refused */
  gint64 common_seq;    /* the last journal row that both have */
  gint64 file_seq;      /* the file's last; 0 where it cannot be read */
  char *file_head;      /* Owned */
  gint64 n_lost;        /* acts after common_seq in the file */
  GPtrArray *lost;      /* Owned SwLostAct, newest first, at most SW_RESTORE_SHOWN */
} SwRestorePreview;

void sw_restore_preview_free (SwRestorePreview *preview);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRestorePreview, sw_restore_preview_free)

/* Reads both; the file may be open in a window. A worker may run it. (transfer full); NULL when the
 * backup cannot be read at all. */
SwRestorePreview *sw_restore_preview (
    const char *path, const char *backup, SwProgress progress, gpointer data, GError **error);

/* ---- the deed ---- */

typedef struct
{
  const char *path;   /* the file; closed here and everywhere, or not there at all */
  const char *backup; /* is only read */
  const char *folder; /* for the backup of the file as it stands; NULL = the default one */
  SwActor actor;      /* the person and why; ids are those of the backup's people */
  const char *who;    /* the person's name: where the backup has nobody of that id and name, the row
                         is written by the system with "NAME: REASON" */
} SwRestoreOrder;

/* Backs up the file as it stands, copies the backup, brings the copy up to date, writes the
 * restoration into it, proves it, and only then renames it over the file. A file that cannot be
 * backed up because it is damaged is moved aside as NAME-TIME-damaged.stillwarden beside it, never
 * deleted. Whatever fails or whenever the program dies: the old file is there, or the new one.
 * @clock: NULL = system. Errors: SW_RECORDS_ERROR_BUSY when somebody has the file open, _FOREIGN
 * when the backup is of another site. */
gboolean sw_backup_restore (const SwRestoreOrder *order, const SwClock *clock, GError **error);

G_END_DECLS
