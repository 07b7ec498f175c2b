/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing backups.
 *
 *   room? --> NAME.new, copied in one read transaction --> full verify, head as copied
 *         --> synced, mode 0444 --> renamed, folder synced
 *
 * Invariants
 * 1. A file that has the name of a backup was proved: whatever fails before leaves nothing behind.
 * 2. Nothing is ever written to a file that is there.
 * 3. The source is only read, through a connection of its own.
 */
#include "records/backup-private.h"
#include "records/copy-private.h"
#include "records/error-private.h"
#include "records/path-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#define BACKUP_MODE 0444
#define ROOM_MARGIN (1024 * 1024) /* bytes: the rollback journal of the copy, and folders */
#define NAME_TRIES 60             /* seconds to move on when a name is taken */
#define SECOND_MS 1000

typedef struct
{
  const SwStoreOptions *options;
  SwProgress progress;
  gpointer data;
} How;

/* ---- proof ---- */

static gboolean
refuse_findings (const char *path, SwVerifyReport *report, GError **error)
{
  const SwFinding *first = report->findings->len > 0 ? report->findings->pdata[0] : NULL;

  if (first == NULL)
    return FALSE;
  g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_UNVERIFIED,
               "%s: verify found %u differences, the first in %s %s", path, report->findings->len,
               first->table != NULL ? first->table : "the file",
               first->text != NULL ? first->text : "");
  return TRUE;
}

gboolean
sw_backup_prove (const char *path,
                 const char *head,
                 const SwStoreOptions *options,
                 SwProgress progress,
                 gpointer data,
                 GError **error)
{
  g_autoptr (SwStore) store = sw_store_peek (path, TRUE, options, error);
  g_autoptr (SwVerifyReport) report = NULL;

  if (store == NULL)
    return FALSE;
  report = sw_verify_full (store, progress, data, error);
  if (report == NULL || refuse_findings (path, report, error))
    return FALSE;
  if (head == NULL || g_strcmp0 (report->head, head) == 0)
    return TRUE;
  return sw_path_error (error, SW_RECORDS_ERROR_UNVERIFIED, path, "has another head");
}

/* ---- room ---- */

static gint64
ask_free_bytes (const char *folder)
{
  struct statvfs status;

  if (statvfs (folder, &status) != 0)
    return G_MAXINT64; /* the write itself will say what is wrong */
  return (gint64)MIN ((guint64)status.f_bavail * status.f_frsize, (guint64)G_MAXINT64);
}

/* What is still in the -wal file becomes pages of the copy. */
static gint64
count_bytes (const char *path)
{
  g_autofree char *wal = g_strconcat (path, "-wal", NULL);
  GStatBuf status;
  gint64 bytes = g_stat (path, &status) == 0 ? (gint64)status.st_size : 0;

  return bytes + (g_stat (wal, &status) == 0 ? (gint64)status.st_size : 0);
}

gboolean
sw_backup_check_room (const char *path, const char *folder, gint64 free_bytes, GError **error)
{
  gint64 needed = count_bytes (path) + ROOM_MARGIN;
  gint64 there = free_bytes >= 0 ? free_bytes : ask_free_bytes (folder);

  if (there >= needed)
    return TRUE;
  g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DISK_FULL,
               "%s: %" G_GINT64_FORMAT " bytes needed, %" G_GINT64_FORMAT " free", folder, needed,
               there);
  return FALSE;
}

/* ---- writing ---- */

/* One read transaction around both, so that the head is that of the pages. (transfer full) */
static char *
copy_with_head (SwStore *source, const char *fresh, const SwStoreOptions *options, GError **error)
{
  g_autofree char *head = NULL;
  gboolean copied;

  if (!sw_sql_execute (source, "BEGIN", error))
    return NULL;
  head = sw_journal_head (source, error);
  copied
      = head != NULL && sw_copy_write (source, fresh, options != NULL ? options->vfs : NULL, error);
  sw_sql_execute (source, "ROLLBACK", NULL);
  return copied ? g_steal_pointer (&head) : NULL;
}

static gboolean
write_fresh (const char *path, const char *fresh, const How *how, GError **error)
{
  g_autoptr (SwStore) source = sw_store_peek (path, FALSE, how->options, error);
  g_autofree char *head = NULL;

  if (source == NULL)
    return FALSE;
  head = copy_with_head (source, fresh, how->options, error);
  return head != NULL
         && sw_backup_prove (fresh, head, how->options, how->progress, how->data, error)
         && (g_chmod (fresh, BACKUP_MODE) == 0
             || sw_path_error (error, SW_RECORDS_ERROR_IO, fresh, g_strerror (errno)))
         && sw_path_sync (fresh, error);
}

/* SQLite would only say that there is no such file. */
static gboolean
check_writable (const char *folder, GError **error)
{
  if (faccessat (AT_FDCWD, folder, W_OK | X_OK, AT_EACCESS) == 0
      || (errno != EACCES && errno != EROFS && errno != EPERM))
    return TRUE;
  return sw_path_error (error, SW_RECORDS_ERROR_READ_ONLY, folder, g_strerror (errno));
}

/* (transfer full) */
static SwBackupInfo *
write_as (const char *path, const char *out, const How *how, GError **error)
{
  g_autofree char *whole = sw_path_resolve (out);
  g_autofree char *folder = g_path_get_dirname (whole);
  g_autofree char *fresh = g_strconcat (whole, ".new", NULL);

  if (g_file_test (whole, G_FILE_TEST_EXISTS))
    {
      sw_path_error (error, SW_RECORDS_ERROR_EXISTS, whole, "is there already");
      return NULL;
    }
  if (!check_writable (folder, error) || !sw_backup_check_room (path, folder, -1, error))
    return NULL;
  sw_path_remove (fresh);
  if (write_fresh (path, fresh, how, error) && sw_path_move (fresh, whole, error))
    return sw_backup_read (whole, NULL, error);
  sw_path_remove (fresh);
  return NULL;
}

static gboolean
make_folder (const char *folder, GError **error)
{
  SwRecordsError code = SW_RECORDS_ERROR_IO;

  if (g_mkdir_with_parents (folder, 0755) == 0)
    return TRUE;
  if (errno == EACCES || errno == EROFS || errno == EPERM)
    code = SW_RECORDS_ERROR_READ_ONLY;
  else if (errno == ENOSPC || errno == EDQUOT)
    code = SW_RECORDS_ERROR_DISK_FULL;
  return sw_path_error (error, code, folder, g_strerror (errno));
}

/* A name that is free: two in one second would have the same. (transfer full) */
static char *
find_free_path (const char *path, const char *folder, SwBackupWhy why, gint64 now_ms)
{
  char *free_path = NULL;

  for (int i = 0; i < NAME_TRIES; i++)
    {
      g_autofree char *name = sw_backup_name (path, now_ms + i * SECOND_MS, why);

      g_free (free_path);
      free_path = g_build_filename (folder, name, NULL);
      if (!g_file_test (free_path, G_FILE_TEST_EXISTS))
        break;
    }
  return free_path;
}

/* (transfer full) */
static SwBackupInfo *
write_into (const char *path,
            const char *folder,
            SwBackupWhy why,
            gint64 now_ms,
            const How *how,
            GError **error)
{
  g_autofree char *real = sw_path_resolve (path);
  g_autofree char *beside = folder == NULL ? sw_backup_default_folder (real) : NULL;
  g_autofree char *out = NULL;

  folder = folder != NULL ? folder : beside;
  if (!make_folder (folder, error))
    return NULL;
  out = find_free_path (real, folder, why, now_ms);
  return write_as (real, out, how, error);
}

SwBackupInfo *
sw_backup_write (const char *path,
                 const char *folder,
                 SwBackupWhy why,
                 gint64 now_ms,
                 SwProgress progress,
                 gpointer data,
                 GError **error)
{
  const How how = { .progress = progress, .data = data };

  g_return_val_if_fail (path != NULL && (int)why >= 0 && why < SW_N_BACKUP_WHYS, NULL);
  return write_into (path, folder, why, now_ms, &how, error);
}

SwBackupInfo *
sw_backup_write_with (const char *path,
                      const char *folder,
                      SwBackupWhy why,
                      gint64 now_ms,
                      const SwStoreOptions *options,
                      GError **error)
{
  const How how = { .options = options };

  return write_into (path, folder, why, now_ms, &how, error);
}

SwBackupInfo *
sw_backup_write_as (
    const char *path, const char *out, SwProgress progress, gpointer data, GError **error)
{
  const How how = { .progress = progress, .data = data };
  g_autofree char *real = NULL;

  g_return_val_if_fail (path != NULL && out != NULL, NULL);
  real = sw_path_resolve (path);
  return write_as (real, out, &how, error);
}

gboolean
sw_backup_before_migration (const char *path,
                            gint64 now_ms,
                            const SwStoreOptions *options,
                            GError **error)
{
  g_autoptr (SwBackupInfo) info
      = sw_backup_write_with (path, NULL, SW_BACKUP_BEFORE_MIGRATION, now_ms, options, error);

  if (info == NULL)
    g_prefix_error (error, "backup before the file is brought up to date: ");
  return info != NULL;
}
