/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What backups there are, read without altering any: each through a connection that writes nothing,
 * not even beside the file. */
#include "records/backup-private.h"
#include "records/error-private.h"
#include "records/path-private.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

#define UNFINISHED ".new"
#define UNFINISHED_S 86400

void
sw_backup_info_free (SwBackupInfo *info)
{
  if (info == NULL)
    return;
  g_free (info->path);
  g_free (info->name);
  g_free (info->uuid);
  g_free (info->head);
  g_free (info->last_test);
  g_free (info);
}

/* ---- one ---- */

static gboolean
read_last_row (SwBackupInfo *info, SwStore *store, GError **error)
{
  char hash[SW_HASH_LENGTH + 1];
  gint64 offset = 0;

  if (!sw_journal_last (store, &info->seq, hash, &info->last_ms, error)
      || !sw_sql_integer (store, "SELECT offset_min FROM journal ORDER BY seq DESC LIMIT 1", NULL,
                          0, &offset, error))
    return FALSE;
  info->head = g_strdup (hash);
  info->last_offset_min = (int)offset;
  return TRUE;
}

/* Columns that every version of the schema has. */
gboolean
sw_backup_info_fill (SwBackupInfo *info, SwStore *store, GError **error)
{
  info->schema_version = store->schema_version;
  return sw_sql_text (store, "SELECT uuid FROM site WHERE id = 1", NULL, 0, &info->uuid, error)
         && read_last_row (info, store, error)
         && sw_sql_integer (store, "SELECT count(*) FROM machine WHERE voided = 0", NULL, 0,
                            &info->machines, error)
         && sw_sql_integer (store, "SELECT count(*) FROM titration WHERE voided = 0", NULL, 0,
                            &info->tests, error)
         && sw_sql_integer (store, "SELECT count(*) FROM dose WHERE voided = 0", NULL, 0,
                            &info->doses, error)
         && sw_sql_text (store,
                         "SELECT code FROM sample WHERE voided = 0 ORDER BY happened_ms DESC, id "
                         "DESC LIMIT 1",
                         NULL, 0, &info->last_test, error)
         && sw_sql_integer (store, "SELECT max(happened_ms) FROM sample WHERE voided = 0", NULL, 0,
                            &info->last_test_ms, error);
}

static SwBackupState
judge (const SwBackupInfo *info, const char *uuid, const GError *failure)
{
  if (g_error_matches (failure, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NEWER))
    return SW_BACKUP_NEWER;
  if (failure != NULL || info->uuid == NULL)
    return SW_BACKUP_UNREADABLE;
  return uuid == NULL || g_strcmp0 (info->uuid, uuid) == 0 ? SW_BACKUP_GOOD : SW_BACKUP_OTHER_SITE;
}

SwBackupInfo *
sw_backup_read (const char *path, const char *uuid, GError **error)
{
  g_autoptr (SwBackupInfo) info = g_new0 (SwBackupInfo, 1);
  g_autoptr (SwStore) store = NULL;
  g_autoptr (GError) failure = NULL;
  GStatBuf status;

  g_return_val_if_fail (path != NULL, NULL);
  if (g_stat (path, &status) != 0)
    {
      sw_path_error (error, errno == ENOENT ? SW_RECORDS_ERROR_NOT_FOUND : SW_RECORDS_ERROR_IO,
                     path, g_strerror (errno));
      return NULL;
    }
  info->path = sw_path_resolve (path);
  info->name = g_path_get_basename (path);
  info->bytes = (gint64)status.st_size;
  if (!sw_backup_name_parse (NULL, info->name, &info->made_ms, &info->why))
    info->made_ms = (gint64)status.st_mtime * 1000;
  store = sw_store_peek (path, TRUE, NULL, &failure);
  if (store != NULL)
    sw_backup_info_fill (info, store, &failure);
  info->state = judge (info, uuid, failure);
  return g_steal_pointer (&info);
}

/* ---- all ---- */

static int
compare_newest_first (gconstpointer a, gconstpointer b)
{
  const SwBackupInfo *one = *(const SwBackupInfo *const *)a;
  const SwBackupInfo *two = *(const SwBackupInfo *const *)b;

  if (one->made_ms != two->made_ms)
    return one->made_ms < two->made_ms ? 1 : -1;
  return strcmp (two->name, one->name);
}

/* Another file's backup may lie in the same folder: it is shown only when it is of this site. */
static gboolean
belongs (const char *path, const SwBackupInfo *info, const char *uuid)
{
  gint64 made_ms;
  SwBackupWhy why;

  return sw_backup_name_parse (path, info->name, &made_ms, &why)
         || (uuid != NULL && info->state == SW_BACKUP_GOOD);
}

static void
add_backup (
    GPtrArray *list, const char *path, const char *folder, const char *name, const char *uuid)
{
  g_autofree char *whole = g_build_filename (folder, name, NULL);
  g_autoptr (SwBackupInfo) info = NULL;
  gint64 made_ms;
  SwBackupWhy why;

  if (!sw_backup_name_parse (NULL, name, &made_ms, &why)
      || !g_file_test (whole, G_FILE_TEST_IS_REGULAR))
    return;
  info = sw_backup_read (whole, uuid, NULL);
  if (info != NULL && belongs (path, info, uuid))
    g_ptr_array_add (list, g_steal_pointer (&info));
}

GPtrArray *
sw_backup_list (const char *path, const char *folder, const char *uuid, GError **error)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_backup_info_free);
  g_autofree char *real = NULL;
  g_autofree char *beside = NULL;
  g_autoptr (GDir) dir = NULL;
  g_autoptr (GError) failure = NULL;
  const char *name;

  g_return_val_if_fail (path != NULL, NULL);
  real = sw_path_resolve (path);
  beside = sw_backup_default_folder (real);
  folder = folder != NULL ? folder : beside;
  dir = g_dir_open (folder, 0, &failure);
  if (g_error_matches (failure, G_FILE_ERROR, G_FILE_ERROR_NOENT))
    return g_steal_pointer (&list);
  if (dir == NULL)
    {
      sw_path_error (error, SW_RECORDS_ERROR_IO, folder, failure->message);
      return NULL;
    }
  while ((name = g_dir_read_name (dir)) != NULL)
    add_backup (list, real, folder, name, uuid);
  g_ptr_array_sort (list, compare_newest_first);
  return g_steal_pointer (&list);
}

const SwBackupInfo *
sw_backup_list_newest (GPtrArray *list)
{
  g_return_val_if_fail (list != NULL, NULL);
  for (guint i = 0; i < list->len; i++)
    {
      const SwBackupInfo *info = list->pdata[i];

      if (info->state == SW_BACKUP_GOOD)
        return info;
    }
  return NULL;
}

/* ---- rotation ---- */

/* Only what is beyond doubt ours: this name, this site, readable. */
static GPtrArray *
list_ours (const char *path, const char *folder, const char *uuid, GError **error)
{
  g_autoptr (GPtrArray) list = sw_backup_list (path, folder, uuid, error);
  g_autofree char *real = sw_path_resolve (path);

  if (list == NULL)
    return NULL;
  for (guint i = list->len; i-- > 0;)
    {
      const SwBackupInfo *info = list->pdata[i];
      gint64 made_ms;
      SwBackupWhy why;

      if (info->state != SW_BACKUP_GOOD || !sw_backup_name_parse (real, info->name, &made_ms, &why))
        g_ptr_array_remove_index (list, i);
    }
  return g_steal_pointer (&list);
}

/* What a kill left of a copy that never got its name. Another program may be writing a young one.
 */
static void
remove_unfinished (const char *path, const char *folder, gint64 now_ms)
{
  g_autofree char *beside = folder == NULL ? sw_backup_default_folder (path) : NULL;
  g_autoptr (GDir) dir = g_dir_open (folder != NULL ? folder : beside, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *whole = g_build_filename (folder != NULL ? folder : beside, name, NULL);
      g_autofree char *stem = g_strdup (name);
      GStatBuf status;
      gint64 made_ms;
      SwBackupWhy why;

      if (!g_str_has_suffix (stem, UNFINISHED))
        continue;
      stem[strlen (stem) - strlen (UNFINISHED)] = '\0';
      if (sw_backup_name_parse (path, stem, &made_ms, &why) && g_stat (whole, &status) == 0
          && now_ms / 1000 - (gint64)status.st_mtime > UNFINISHED_S)
        sw_path_remove (whole);
    }
}

int
sw_backup_prune (const char *path,
                 const char *folder,
                 const char *uuid,
                 gint64 now_ms,
                 int offset_min,
                 GError **error)
{
  g_autoptr (GPtrArray) list = NULL;
  g_autofree SwBackupMark *marks = NULL;
  g_autofree gboolean *keep = NULL;
  g_autofree char *real = NULL;
  int removed = 0;

  g_return_val_if_fail (path != NULL && uuid != NULL, -1);
  list = list_ours (path, folder, uuid, error);
  if (list == NULL)
    return -1;
  real = sw_path_resolve (path);
  remove_unfinished (real, folder, now_ms);
  marks = g_new0 (SwBackupMark, list->len);
  keep = g_new0 (gboolean, list->len);
  for (guint i = 0; i < list->len; i++)
    {
      const SwBackupInfo *info = list->pdata[i];

      marks[i] = (SwBackupMark){ .made_ms = info->made_ms, .why = info->why };
    }
  sw_backup_rotate (marks, list->len, now_ms, offset_min, keep);
  for (guint i = 0; i < list->len; i++)
    if (!keep[i] && g_unlink (((const SwBackupInfo *)list->pdata[i])->path) == 0)
      removed++;
  return removed;
}
