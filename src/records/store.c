/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening, creating and closing a file.
 *
 *   at rest          open for writing              open for reading
 *   FILE             FILE, FILE-wal, FILE-shm,     whatever is there
 *   (DELETE mode)    FILE.lock (WAL mode)
 *
 * Invariants
 * 1. FILE is either absent or whole: it is made under the name FILE.new and renamed.
 * 2. Who writes holds FILE.lock, from before the first look at FILE to after the last.
 * 3. Nothing is written before FILE is known to be ours, whole and of a known version.
 */
#include "records/plant.h"
#include "records/backup-private.h"
#include "records/schema-private.h"
#include "records/error-private.h"
#include "records/lock-private.h"
#include "records/path-private.h"

#include <errno.h>
#include <fcntl.h>
#include <unistd.h>

/* ---- the connection ---- */

static gboolean
open_connection (
    SwStore *store, const char *path, int flags, const SwStoreOptions *options, GError **error)
{
  if (!sw_connection_open (path, flags, options != NULL ? options->vfs : NULL, &store->db, error))
    return FALSE;
  if (!store->read_only)
    sw_act_install_hooks (store);
  return TRUE;
}

/* Checkpoint, then back to one file. Refused by SQLite while somebody else reads: the WAL file
 * stays then, and the next clean close tidies up. */
static void
leave_wal (SwStore *store)
{
  sqlite3_busy_timeout (store->db, 0);
  sqlite3_exec (store->db, "PRAGMA wal_checkpoint(TRUNCATE)", NULL, NULL, NULL);
  sqlite3_exec (store->db, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL);
}

static void
close_connection (SwStore *store)
{
  if (store->db == NULL)
    return;
  sw_act_cancel (store);
  g_hash_table_remove_all (store->statements);
  if (!store->read_only)
    leave_wal (store);
  sqlite3_close (g_steal_pointer (&store->db));
}

/* ---- is it ours? ---- */

static gboolean
check_there (const char *path, SwOpenMode mode, GError **error)
{
  gboolean there = g_file_test (path, G_FILE_TEST_EXISTS);

  if (mode == SW_OPEN_CREATE)
    return !there || sw_path_error (error, SW_RECORDS_ERROR_EXISTS, path, "is there already");
  if (!there)
    return sw_path_error (error, SW_RECORDS_ERROR_NOT_FOUND, path, "no such file");
  if (!g_file_test (path, G_FILE_TEST_IS_REGULAR))
    return sw_path_error (error, SW_RECORDS_ERROR_FOREIGN, path, "is no file");
  if (faccessat (AT_FDCWD, path, R_OK, AT_EACCESS) != 0)
    return sw_path_error (error, SW_RECORDS_ERROR_IO, path, g_strerror (errno));
  return TRUE;
}

static gboolean
check_identity (SwStore *store, GError **error)
{
  gint64 application = 0;
  gint64 version = 0;

  if (!sw_sql_integer (store, "PRAGMA application_id", NULL, 0, &application, error)
      || !sw_sql_integer (store, "PRAGMA user_version", NULL, 0, &version, error))
    return FALSE;
  if (application != SW_APPLICATION_ID || version < 1)
    return sw_path_error (error, SW_RECORDS_ERROR_FOREIGN, store->path,
                          "is a database of another program");
  if (version > SW_SCHEMA_VERSION)
    return sw_path_error (error, SW_RECORDS_ERROR_NEWER, store->path,
                          "was written by a newer version");
  store->schema_version = (int)version;
  return TRUE;
}

/* Cheaper than integrity_check, which verify runs; damage must not be found in the middle of a
 * test. */
static gboolean
check_pages (SwStore *store, GError **error)
{
  g_autofree char *answer = NULL;

  if (!sw_sql_text (store, "PRAGMA quick_check(1)", NULL, 0, &answer, error))
    return FALSE;
  if (g_strcmp0 (answer, "ok") == 0)
    return TRUE;
  return sw_path_error (error, SW_RECORDS_ERROR_DAMAGED, store->path, answer);
}

/* Before anything of an older file changes, its journal mode included. No backup, no migration. */
static gboolean
back_up_older (SwStore *store, const SwStoreOptions *options, GError **error)
{
  return store->schema_version == SW_SCHEMA_VERSION || (options != NULL && options->is_copy)
         || sw_backup_before_migration (store->path, sw_store_now (store), options, error);
}

static gboolean
prepare_writing (SwStore *store, const SwStoreOptions *options, GError **error)
{
  g_autofree char *mode = NULL;

  /* SQLite opens a file that cannot be written for reading, without a word. */
  if (sqlite3_db_readonly (store->db, "main") != 0)
    return sw_path_error (error, SW_RECORDS_ERROR_READ_ONLY, store->path, "cannot be written");
  if (!back_up_older (store, options, error)
      || !sw_sql_text (store, "PRAGMA journal_mode = WAL", NULL, 0, &mode, error))
    return FALSE;
  if (g_strcmp0 (mode, "wal") != 0)
    return sw_path_error (error, SW_RECORDS_ERROR_BUSY, store->path,
                          "another program is reading it");
  return sw_schema_migrate (store, error);
}

/* ---- create ---- */

/* Row 1 of site: the one UUID by which files and exports know each other. */
static gboolean
insert_site (SwStore *store, GError **error)
{
  const SwActor actor = { .identified = SW_IDENTIFIED_SYSTEM };
  g_autoptr (SwSite) site = sw_site_new ();

  site->uuid = g_uuid_string_random ();
  if (!sw_act_begin (store, SW_ACT_SETUP, &actor, error))
    return FALSE;
  if (sw_site_insert (store, site, error) && sw_act_commit (store, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

static gboolean
create_file (SwStore *store, const SwStoreOptions *options, GError **error)
{
  g_autofree char *fresh = g_strconcat (store->path, ".new", NULL);
  gboolean made;

  sw_path_remove (fresh);
  made = open_connection (store, fresh, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, options, error)
         && sw_schema_migrate (store, error) && insert_site (store, error);
  close_connection (store);
  if (made && sw_path_move (fresh, store->path, error))
    return TRUE;
  sw_path_remove (fresh);
  return FALSE;
}

/* ---- open and close ---- */

static void
finalize_cb (gpointer statement)
{
  sqlite3_finalize (statement);
}

static SwStore *
new_store (const char *path, SwOpenMode mode, const SwClock *clock)
{
  SwStore *store = g_new0 (SwStore, 1);

  store->path = sw_path_resolve (path);
  store->clock = clock != NULL ? *clock : *sw_clock_system ();
  store->read_only = mode == SW_OPEN_READ_ONLY;
  store->lock_fd = -1;
  store->statements = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, finalize_cb);
  store->unjournalled = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  sw_act_start_clocks (store);
  return store;
}

/* Before the first look at the file, so that nobody writes between looking and locking. */
static gboolean
become_owner (SwStore *store, const SwStoreOptions *options, GError **error)
{
  gint64 now = sw_store_now (store);
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (now / 1000);
  g_autoptr (GTimeZone) zone = g_time_zone_new_offset (60 * sw_store_offset_at (store, now));
  g_autoptr (GDateTime) local = utc != NULL ? g_date_time_to_timezone (utc, zone) : NULL;
  g_autofree char *since = local != NULL ? g_date_time_format_iso8601 (local) : g_strdup ("?");

  if (store->read_only)
    return TRUE;
  if (!sw_network_check (store->path, options != NULL ? options->fs_type : 0, error))
    return FALSE;
  store->lock_fd = sw_lock_take (store->path, since, error);
  return store->lock_fd >= 0;
}

static gboolean
open_file (SwStore *store, SwOpenMode mode, const SwStoreOptions *options, GError **error)
{
  int flags = store->read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;

  if (!check_there (store->path, mode, error) || !become_owner (store, options, error))
    return FALSE;
  /* Somebody may have made the file while we waited for the lock. */
  if (mode == SW_OPEN_CREATE
      && (!check_there (store->path, mode, error) || !create_file (store, options, error)))
    return FALSE;
  if (!open_connection (store, store->path, flags, options, error) || !check_identity (store, error)
      || !check_pages (store, error))
    return FALSE;
  return store->read_only ? sw_schema_read_as_newest (store, error)
                          : prepare_writing (store, options, error);
}

static void
free_store (SwStore *store)
{
  if (store->db != NULL)
    sqlite3_close (store->db);
  sw_lock_drop (store->path, store->lock_fd);
  g_hash_table_unref (store->statements);
  g_hash_table_unref (store->unjournalled);
  g_free (store->path);
  g_free (store);
}

SwStore *
sw_store_open_with (const char *path,
                    SwOpenMode mode,
                    const SwClock *clock,
                    const SwStoreOptions *options,
                    GError **error)
{
  SwStore *store;

  g_return_val_if_fail (path != NULL, NULL);
  store = new_store (path, mode, clock);
  if (open_file (store, mode, options, error))
    return store;
  /* A file that was refused is left as it was found: no change of its journal mode. */
  g_hash_table_remove_all (store->statements);
  free_store (store);
  return NULL;
}

SwStore *
sw_store_open (const char *path, SwOpenMode mode, const SwClock *clock, GError **error)
{
  return sw_store_open_with (path, mode, clock, NULL, error);
}

/* (transfer full) */
static char *
make_resting_uri (const char *path, GError **error)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, error);

  return uri != NULL ? g_strconcat (uri, "?immutable=1", NULL) : NULL;
}

SwStore *
sw_store_peek (const char *path, gboolean at_rest, const SwStoreOptions *options, GError **error)
{
  SwStore *store;
  g_autofree char *name = NULL;

  g_return_val_if_fail (path != NULL, NULL);
  store = new_store (path, SW_OPEN_READ_ONLY, NULL);
  name = at_rest ? make_resting_uri (store->path, error) : g_strdup (store->path);
  if (name != NULL && check_there (store->path, SW_OPEN_READ_ONLY, error)
      && open_connection (store, name, SQLITE_OPEN_READONLY | (at_rest ? SQLITE_OPEN_URI : 0),
                          options, error)
      && check_identity (store, error) && sw_schema_read_as_newest (store, error))
    return store;
  g_hash_table_remove_all (store->statements);
  free_store (store);
  return NULL;
}

void
sw_store_close (SwStore *store)
{
  if (store == NULL)
    return;
  close_connection (store);
  free_store (store);
}

gboolean
sw_store_is_read_only (SwStore *store)
{
  g_return_val_if_fail (store != NULL, TRUE);
  return store->read_only;
}

const char *
sw_store_get_path (SwStore *store)
{
  g_return_val_if_fail (store != NULL, NULL);
  return store->path;
}

gint64
sw_store_now (SwStore *store)
{
  g_return_val_if_fail (store != NULL, 0);
  return store->clock.now_ms (store->clock.data);
}

int
sw_store_offset_at (SwStore *store, gint64 utc_ms)
{
  g_return_val_if_fail (store != NULL, 0);
  return store->clock.offset_min (store->clock.data, utc_ms);
}

int
sw_store_get_schema_version (SwStore *store)
{
  g_return_val_if_fail (store != NULL, 0);
  return store->schema_version;
}
