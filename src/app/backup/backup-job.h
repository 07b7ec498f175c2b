/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a worker does for the keeper of backups, with its own copies of all it needs. */
#pragma once

#include <gio/gio.h>

#include "records/backup.h"

G_BEGIN_DECLS

typedef enum
{
  SW_BACKUP_JOB_LIST,
  SW_BACKUP_JOB_DAILY, /* written when it is due */
  SW_BACKUP_JOB_WRITE,
  SW_BACKUP_JOB_SNAPSHOT
} SwBackupJobKind;

typedef struct
{
  SwBackupJobKind kind;
  char *path; /* Owned, as all texts */
  char *folder;
  char *out; /* of a snapshot */
  char *uuid;
  char *head;
  gint64 now_ms;
  int offset_min;
  GCancellable *cancellable; /* Owned */
  gint done;                 /* atomic, thousandths */
  gint users;                /* atomic: the keeper and the worker */

  /* the answer */
  GPtrArray *list;
  char *written;
  gboolean tried; /* a copy into the folder */
  GError *failure;
} SwBackupJob;

/* Accepts NULL; the last of both users frees it. */
void sw_backup_job_unref (SwBackupJob *job);
/* In the worker. */
void sw_backup_job_run (SwBackupJob *job);

G_END_DECLS
