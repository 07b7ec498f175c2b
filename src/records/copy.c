/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Copies, through the engine's backup interface: a plain copy of the file would miss what still
 * stands in its -wal file.
 *
 * The copy is made under another name, put into the form of a file at rest, read through, and only
 * then given its name: whatever goes wrong, no half copy is ever taken for a backup.
 */
#include "records/copy-private.h"

#include "records/error-private.h"
#include "records/path-private.h"

static gboolean
transfer_pages (SwStore *store, sqlite3 *target, GError **error)
{
  sqlite3_backup *backup = sqlite3_backup_init (target, "main", store->db, "main");
  int code;

  if (backup == NULL)
    return sw_records_error_set (error, target, sqlite3_errcode (target), "the copy");
  /* All pages in one step: a copy of one moment, whatever is written meanwhile. */
  code = sqlite3_backup_step (backup, -1);
  sqlite3_backup_finish (backup);
  if (code == SQLITE_DONE)
    return TRUE;
  return sw_records_error_set (error, target, code, "the copy");
}

static int
keep_first_cb (void *data, int n_columns, char **values, char **names)
{
  char **first = data;

  if (*first == NULL)
    *first = g_strdup (values[0]);
  return 0;
}

/* Pages copied from an open file say WAL; at rest a file says DELETE. */
static gboolean
put_to_rest (sqlite3 *target, GError **error)
{
  g_autofree char *answer = NULL;
  int code = sqlite3_exec (target, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL);

  if (code == SQLITE_OK)
    code = sqlite3_exec (target, "PRAGMA quick_check(1)", keep_first_cb, &answer, NULL);
  if (code != SQLITE_OK)
    return sw_records_error_set (error, target, code, "the copy");
  if (g_strcmp0 (answer, "ok") == 0)
    return TRUE;
  g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DAMAGED, "the copy: %s", answer);
  return FALSE;
}

gboolean
sw_copy_write (SwStore *store, const char *path, const char *vfs, GError **error)
{
  sqlite3 *target = NULL;
  gboolean made;
  int code = sqlite3_open_v2 (
      path, &target, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_EXRESCODE, vfs);

  if (code == SQLITE_OK)
    made = transfer_pages (store, target, error) && put_to_rest (target, error);
  else
    made = sw_records_error_set (error, target, code, path);
  sqlite3_close (target);
  return made;
}

gboolean
sw_store_copy (SwStore *store, const char *path, GError **error)
{
  g_autofree char *whole = NULL;
  g_autofree char *fresh = NULL;

  g_return_val_if_fail (store != NULL && path != NULL, FALSE);
  if (store->act.open)
    return sw_path_error (error, SW_RECORDS_ERROR_FAILED, path, "an act is running");
  whole = sw_path_resolve (path);
  if (g_file_test (whole, G_FILE_TEST_EXISTS))
    return sw_path_error (error, SW_RECORDS_ERROR_EXISTS, whole, "is there already");
  fresh = g_strconcat (whole, ".new", NULL);
  sw_path_remove (fresh);
  if (sw_copy_write (store, fresh, NULL, error) && sw_path_move (fresh, whole, error))
    return TRUE;
  sw_path_remove (fresh);
  return FALSE;
}
