/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The work behind the keeper: what is due is written, old ones go, the list is read again. */
#include "app/backup/backup-job.h"

void
sw_backup_job_unref (SwBackupJob *job)
{
  if (job == NULL || !g_atomic_int_dec_and_test (&job->users))
    return;
  g_free (job->path);
  g_free (job->folder);
  g_free (job->out);
  g_free (job->uuid);
  g_free (job->head);
  g_free (job->written);
  g_object_unref (job->cancellable);
  g_clear_pointer (&job->list, g_ptr_array_unref);
  g_clear_error (&job->failure);
  g_free (job);
}

static gboolean
progress_cb (gint64 done, gint64 total, gpointer data)
{
  SwBackupJob *job = data;

  g_atomic_int_set (&job->done, total > 0 ? (gint)(1000 * done / total) : 0);
  return !g_cancellable_is_cancelled (job->cancellable);
}

static void
write_backup (SwBackupJob *job, SwBackupWhy why)
{
  g_autoptr (SwBackupInfo) info
      = sw_backup_write (job->path, job->folder, why, job->now_ms, progress_cb, job, &job->failure);

  job->tried = TRUE;
  if (info == NULL)
    return;
  job->written = g_strdup (info->path);
  /* An old one that stays does no harm. */
  sw_backup_prune (job->path, job->folder, job->uuid, job->now_ms, job->offset_min, NULL);
}

static void
write_snapshot (SwBackupJob *job)
{
  g_autoptr (SwBackupInfo) info
      = sw_backup_write_as (job->path, job->out, progress_cb, job, &job->failure);

  if (info != NULL)
    job->written = g_strdup (info->path);
}

static void
read_list (SwBackupJob *job, GError **error)
{
  g_clear_pointer (&job->list, g_ptr_array_unref);
  job->list = sw_backup_list (job->path, job->folder, job->uuid, error);
}

/* A folder that cannot be read is a failure of its own, even when nothing is due. */
static void
write_when_due (SwBackupJob *job)
{
  read_list (job, &job->failure);
  job->tried = job->list == NULL;
  if (job->list != NULL
      && sw_backup_is_due (sw_backup_list_newest (job->list), job->head, job->now_ms))
    write_backup (job, SW_BACKUP_DAILY);
}

void
sw_backup_job_run (SwBackupJob *job)
{
  switch (job->kind)
    {
    case SW_BACKUP_JOB_DAILY:
      write_when_due (job);
      break;
    case SW_BACKUP_JOB_WRITE:
      write_backup (job, SW_BACKUP_BY_HAND);
      break;
    case SW_BACKUP_JOB_SNAPSHOT:
      write_snapshot (job);
      break;
    case SW_BACKUP_JOB_LIST:
    default:
      break;
    }
  read_list (job, NULL);
}
