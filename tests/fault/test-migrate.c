/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A power cut, or a full disk, at every single operation of a migration. What a machine finds
 * afterwards is the file of the old version or that of the new one, whole; the next opening makes
 * it the new one. */
#include "records/verify.h"
#include "script.h"
#include "vfs-cut.h"

#define OLD_VERSION 1
#define OLD_LAST_MS G_GINT64_CONSTANT (1795674840000) /* of its journal */

static char *stored;
static gsize stored_length;

static void
load_stored (void)
{
  g_autofree char *path = sw_test_source_path ("tests/records/data/version-1.stillwarden");
  GError *error = NULL;

  g_file_get_contents (path, &stored, &stored_length, &error);
  g_assert_no_error (error);
}

static void
set_up (Script *script)
{
  script_set_up_empty (script);
  g_assert_true (g_file_set_contents_full (script->path, stored, (gssize)stored_length,
                                           G_FILE_SET_CONTENTS_NONE, 0644, NULL));
  script->now_ms = OLD_LAST_MS + 60000;
  script->no_backup = TRUE; /* that is test-restore.c's matter */
}

static gint64
ask (SwStore *store, const char *sql)
{
  gint64 value = -1;

  g_assert_true (sw_sql_integer (store, sql, NULL, 0, &value, NULL));
  return value;
}

/* Verify finds nothing, in the version that the file has. */
static void
assert_sound (SwStore *store)
{
  GError *error = NULL;
  g_autoptr (SwVerifyReport) report = sw_verify_full (store, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_cmpint (ask (store, "SELECT count(*) FROM titration"), ==, 4);
}

/* What a cut leaves for SQLite to roll back or forward it does at the first opening that may write,
 * and that is all that this one does. */
static void
let_sqlite_recover (const char *path)
{
  sqlite3 *db = NULL;

  g_assert_cmpint (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (db, "SELECT count(*) FROM sqlite_schema", NULL, NULL, NULL), ==,
                   SQLITE_OK);
  g_assert_cmpint (sqlite3_close (db), ==, SQLITE_OK);
}

/* The file as found: read only first, so that no migration of ours mends it unseen; then for
 * writing. Gives the version found. */
static int
assert_whole (Script *script)
{
  GError *error = NULL;
  SwStore *store;
  int version;

  let_sqlite_recover (script->path);
  store = sw_store_open (script->path, SW_OPEN_READ_ONLY, &script->clock, &error);
  g_assert_no_error (error);
  version = sw_store_get_schema_version (store);
  g_assert_cmpint (version, >=, OLD_VERSION);
  g_assert_cmpint (version, <=, SW_SCHEMA_VERSION);
  assert_sound (store);
  sw_store_close (store);

  store = script_open (script, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_store_get_schema_version (store), ==, SW_SCHEMA_VERSION);
  g_assert_cmpint (ask (store, "SELECT count(*) FROM journal WHERE kind = 'migrate'"), ==,
                   SW_SCHEMA_VERSION);
  assert_sound (store);
  sw_store_close (store);
  return version;
}

/* ---- power ---- */

/* FALSE when the migration ended before the cut came. */
static gboolean
cut_once (int at, CutLoss loss, int *version)
{
  Script before;
  Script after;
  gboolean struck;

  set_up (&before);
  cut_arm (CUT_POWER, at);
  sw_store_close (script_open (&before, CUT_VFS, NULL));
  struck = cut_has_struck ();
  script_set_up_empty (&after);
  after.now_ms = before.now_ms;
  after.no_backup = TRUE;
  image_write_survivors (after.folder, loss, (guint32)at);
  cut_arm (CUT_NEVER, 0);
  *version = assert_whole (&after);
  script_tear_down (&after);
  script_tear_down (&before);
  return struck;
}

static void
test_power (gconstpointer data)
{
  CutLoss loss = (CutLoss)GPOINTER_TO_INT (data);
  guint found[SW_SCHEMA_VERSION + 1] = { 0 };
  int version;
  int at = 1;

  while (cut_once (at, loss, &version))
    {
      found[version]++;
      at++;
    }
  for (int i = OLD_VERSION; i <= SW_SCHEMA_VERSION; i++)
    g_test_message ("version %d after %u cuts", i, found[i]);
  g_assert_cmpint (at, >, 10);
  /* some cuts came before the commit, some after it */
  g_assert_cmpuint (found[OLD_VERSION], >, 0);
  g_assert_cmpuint (found[SW_SCHEMA_VERSION], >, 0);
}

/* ---- disk full ---- */

/* The error is told, and the file opens once there is space. FALSE when nothing struck. */
static gboolean
fill_once (int at)
{
  g_autoptr (GError) error = NULL;
  Script script;
  SwStore *store;
  gboolean struck;

  set_up (&script);
  cut_arm (CUT_FULL, at);
  store = script_open (&script, CUT_VFS, &error);
  struck = cut_has_struck ();
  if (store == NULL)
    g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DISK_FULL);
  sw_store_close (store);
  cut_arm (CUT_NEVER, 0);
  assert_whole (&script);
  script_tear_down (&script);
  return struck;
}

static void
test_full (void)
{
  int at = 1;

  while (fill_once (at))
    at++;
  g_test_message ("%d times full", at - 1);
  g_assert_cmpint (at, >, 10);
}

int
main (int argc, char **argv)
{
  static const char *const names[] = { "lose-all", "keep-all", "lose-some" };
  int status;

  g_test_init (&argc, &argv, NULL);
  G_STATIC_ASSERT (G_N_ELEMENTS (names) == CUT_N_LOSSES);
  cut_register ();
  load_stored ();
  for (int i = 0; i < CUT_N_LOSSES; i++)
    {
      g_autofree char *path = g_strconcat ("/fault/migrate/power/", names[i], NULL);

      g_test_add_data_func (path, GINT_TO_POINTER (i), test_power);
    }
  g_test_add_func ("/fault/migrate/full", test_full);
  status = g_test_run ();
  g_free (stored);
  return status;
}
