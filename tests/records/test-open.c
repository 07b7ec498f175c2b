/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening: one clear error for each thing that can be wrong with a file, which is left as it was.
 */
#include "fixture.h"
#include "records/store-private.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void
expect_error (Fixture *fixture, SwOpenMode mode, SwRecordsError code)
{
  g_autoptr (GError) error = NULL;

  fixture->store = sw_store_open (fixture->path, mode, &fixture->clock, &error);
  g_assert_null (fixture->store);
  g_assert_error (error, SW_RECORDS_ERROR, (int)code);
  g_assert_nonnull (strstr (error->message, "plant.swlog"));
}

/* (transfer full) */
static char *
list_folder (Fixture *fixture)
{
  return g_strchomp (fixture_run ("ls %s | tr '\\n' ' '", fixture->folder));
}

static void
assert_alone (Fixture *fixture)
{
  g_autofree char *list = list_folder (fixture);

  g_assert_cmpstr (list, ==, "plant.swlog");
}

static void
close_sound (Fixture *fixture)
{
  FixturePlant plant;

  fixture_plant (fixture, &plant);
  fixture_close (fixture);
}

/* ---- at rest ---- */

/* Bytes 18 and 19 of the header: 1 = rollback journal, 2 = WAL (sqlite.org/fileformat2.html 1.3.3);
 * bytes 68..71 the application id, 60..63 the user version. */
static void
test_at_rest (Fixture *fixture, gconstpointer data)
{
  g_autofree char *bytes = NULL;
  g_autofree char *while_open = NULL;
  gsize length;

  g_assert_true (sw_store_get_path (fixture->store) != NULL);
  close_sound (fixture);
  assert_alone (fixture);
  g_assert_true (g_file_get_contents (fixture->path, &bytes, &length, NULL));
  g_assert_cmpint (bytes[18], ==, 1);
  g_assert_cmpint (bytes[19], ==, 1);
  g_assert_cmpmem (bytes + 68, 4, "Swlg", 4);
  g_assert_cmpmem (bytes + 60, 4, "\0\0\0\2", 4);

  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_setting_put (fixture->store, "theme", "light", NULL));
  fixture_commit (fixture);
  while_open = list_folder (fixture);
  g_assert_nonnull (strstr (while_open, "plant.swlog-wal"));
  g_assert_nonnull (strstr (while_open, "plant.swlog.lock"));
  fixture_close (fixture);
  assert_alone (fixture);
}

static void
test_settings (Fixture *fixture, gconstpointer data)
{
  static const struct
  {
    const char *pragma;
    gint64 value;
  } rows[] = {
    { "PRAGMA foreign_keys", 1 },   { "PRAGMA recursive_triggers", 1 },
    { "PRAGMA trusted_schema", 0 }, { "PRAGMA cell_size_check", 1 },
    { "PRAGMA synchronous", 2 },
  };
  gint64 value;
  int defensive = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (sw_sql_integer (fixture->store, rows[i].pragma, NULL, 0, &value, NULL));
      g_assert_cmpint (value, ==, rows[i].value);
    }
  sqlite3_db_config (fixture->store->db, SQLITE_DBCONFIG_DEFENSIVE, -1, &defensive);
  g_assert_cmpint (defensive, ==, 1);
  g_assert_cmpint (sqlite3_limit (fixture->store->db, SQLITE_LIMIT_ATTACHED, -1), ==, 0);
}

static void
test_new_site (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwSite) site = sw_site_get (fixture->store, NULL);

  g_assert_true (g_uuid_string_is_valid (site->uuid));
  g_assert_cmpint (site->record.id, ==, 1);
  g_assert_cmpint (sw_store_get_schema_version (fixture->store), ==, SW_SCHEMA_VERSION);
  g_assert_cmpint (sw_store_now (fixture->store), ==, FIXTURE_START_MS);
  g_assert_cmpint (sw_store_offset_at (fixture->store, 0), ==, FIXTURE_OFFSET_MIN);
  fixture_assert_sound (fixture);
}

/* ---- what can be wrong ---- */

static void
test_missing (Fixture *fixture, gconstpointer data)
{
  g_autofree char *list = NULL;

  expect_error (fixture, SW_OPEN_WRITE, SW_RECORDS_ERROR_NOT_FOUND);
  expect_error (fixture, SW_OPEN_READ_ONLY, SW_RECORDS_ERROR_NOT_FOUND);
  list = list_folder (fixture);
  g_assert_cmpstr (list, ==, "");
  g_free (fixture->path);
  fixture->path = g_build_filename (fixture->folder, "no-such-folder", "plant.swlog", NULL);
  expect_error (fixture, SW_OPEN_CREATE, SW_RECORDS_ERROR_NOT_FOUND);
}

static void
test_exists (Fixture *fixture, gconstpointer data)
{
  g_assert_true (g_file_set_contents (fixture->path, "something", -1, NULL));
  expect_error (fixture, SW_OPEN_CREATE, SW_RECORDS_ERROR_EXISTS);
  assert_alone (fixture);
}

typedef struct
{
  const char *name;
  const char *command; /* makes the file; %s is its path */
  SwRecordsError code;
} WrongCase;

static const WrongCase wrong_cases[] = {
  { "text", "printf 'date;drops\\n1;2\\n' > plant.swlog", SW_RECORDS_ERROR_FOREIGN },
  { "long-text", "yes 'a log of something else' | head -n 5000 > plant.swlog",
    SW_RECORDS_ERROR_FOREIGN },
  { "empty", ": > plant.swlog", SW_RECORDS_ERROR_FOREIGN },
  { "other-database", "sqlite3 plant.swlog 'CREATE TABLE t (x); INSERT INTO t VALUES (1)'",
    SW_RECORDS_ERROR_FOREIGN },
  { "only-the-id", "sqlite3 plant.swlog 'PRAGMA application_id = 0x53776c67; CREATE TABLE t (x)'",
    SW_RECORDS_ERROR_FOREIGN },
  { "folder", "mkdir plant.swlog", SW_RECORDS_ERROR_FOREIGN },
  { "newer",
    "sqlite3 plant.swlog 'PRAGMA application_id = 0x53776c67; PRAGMA user_version = 99;"
    " CREATE TABLE t (x)'",
    SW_RECORDS_ERROR_NEWER },
};

static void
test_wrong (Fixture *fixture, gconstpointer data)
{
  const WrongCase *row = data;
  g_autofree char *made = fixture_run ("cd %s && %s", fixture->folder, row->command);
  g_autofree char *before
      = fixture_run ("cd %s && ls -lR --time-style=full-iso && cat *.swlog | cksum"
                     " 2>&1; true",
                     fixture->folder);
  g_autofree char *after = NULL;

  expect_error (fixture, SW_OPEN_READ_ONLY, row->code);
  expect_error (fixture, SW_OPEN_WRITE, row->code);
  after = fixture_run ("cd %s && ls -lR --time-style=full-iso && cat *.swlog | cksum 2>&1; true",
                       fixture->folder);
  g_assert_cmpstr (before, ==, after);
}

/* A page in the middle overwritten. */
static void
test_damaged (Fixture *fixture, gconstpointer data)
{
  g_autofree char *output = NULL;

  close_sound (fixture);
  output = fixture_run ("yes x | tr -d '\\n' | dd of=%s bs=4096 seek=3 count=9 conv=notrunc"
                        " iflag=fullblock 2>/dev/null",
                        fixture->path);
  expect_error (fixture, SW_OPEN_READ_ONLY, SW_RECORDS_ERROR_DAMAGED);
  expect_error (fixture, SW_OPEN_WRITE, SW_RECORDS_ERROR_DAMAGED);
  assert_alone (fixture);
}

static void
test_cut_short (Fixture *fixture, gconstpointer data)
{
  close_sound (fixture);
  g_assert_cmpint (truncate (fixture->path, 20000), ==, 0);
  expect_error (fixture, SW_OPEN_WRITE, SW_RECORDS_ERROR_DAMAGED);
}

/* A -wal file that belongs to another file: what it would make of this one is refused, and not
 * written into it on the way out. Without it the file is as good as it was. */
static void
test_foreign_wal (Fixture *fixture, gconstpointer data)
{
  g_autofree char *before = NULL;
  g_autofree char *made = NULL;
  g_autofree char *after = NULL;

  close_sound (fixture);
  before = fixture_run ("sha256sum < %s", fixture->path);
  made = fixture_run (
      "cd %s && sqlite3 other 'PRAGMA journal_mode = WAL; CREATE TABLE t (x);"
      " INSERT INTO t VALUES (randomblob(90000));' '.shell cp other-wal plant.swlog-wal'"
      " && rm other*",
      fixture->folder);
  expect_error (fixture, SW_OPEN_WRITE, SW_RECORDS_ERROR_FOREIGN);
  after = fixture_run ("sha256sum < %s", fixture->path);
  g_assert_cmpstr (after, ==, before);
  g_free (fixture_run ("rm -f %s-wal %s-shm", fixture->path, fixture->path));
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
}

/* ---- folders and files that cannot be written ---- */

static void
test_read_only_folder (Fixture *fixture, gconstpointer data)
{
  close_sound (fixture);
  g_assert_cmpint (g_chmod (fixture->path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (fixture->folder, 0555), ==, 0);
  fixture_drop_rights ();
  expect_error (fixture, SW_OPEN_WRITE, SW_RECORDS_ERROR_READ_ONLY);
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  fixture_assert_sound (fixture);
  fixture_close (fixture);
  g_free (fixture->path);
  fixture->path = g_build_filename (fixture->folder, "new-plant.swlog", NULL);
  expect_error (fixture, SW_OPEN_CREATE, SW_RECORDS_ERROR_READ_ONLY);
  fixture_regain_rights ();
  g_assert_cmpint (g_chmod (fixture->folder, 0755), ==, 0);
  assert_alone (fixture);
}

static void
test_read_only_file (Fixture *fixture, gconstpointer data)
{
  close_sound (fixture);
  g_assert_cmpint (g_chmod (fixture->path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (fixture->folder, 0777), ==, 0);
  fixture_drop_rights ();
  expect_error (fixture, SW_OPEN_WRITE, SW_RECORDS_ERROR_READ_ONLY);
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  fixture_close (fixture);
  fixture_regain_rights ();
  assert_alone (fixture);
}

static void
test_unreadable (Fixture *fixture, gconstpointer data)
{
  close_sound (fixture);
  g_assert_cmpint (g_chmod (fixture->path, 0), ==, 0);
  g_assert_cmpint (g_chmod (fixture->folder, 0777), ==, 0);
  fixture_drop_rights ();
  expect_error (fixture, SW_OPEN_READ_ONLY, SW_RECORDS_ERROR_IO);
  expect_error (fixture, SW_OPEN_WRITE, SW_RECORDS_ERROR_IO);
  fixture_regain_rights ();
}

/* ---- network folders ---- */

/* f_type values of statfs(2) */
static const struct
{
  const char *name;
  long type;
  gboolean refused;
} network_cases[] = {
  { "nfs", 0x6969, TRUE },        { "smb", 0x517B, TRUE },      { "smb2", 0xFE534D42, TRUE },
  { "cifs", 0xFF534D42, TRUE },   { "afs", 0x5346414F, TRUE },  { "ceph", 0x00C36400, TRUE },
  { "9p", 0x01021997, TRUE },     { "ext4", 0xEF53, FALSE },    { "btrfs", 0x9123683E, FALSE },
  { "tmpfs", 0x01021994, FALSE }, { "xfs", 0x58465342, FALSE },
};

static void
test_network (Fixture *fixture, gconstpointer data)
{
  gsize i = GPOINTER_TO_SIZE (data);
  const SwStoreOptions options = { .fs_type = network_cases[i].type };
  g_autoptr (GError) error = NULL;

  fixture->store
      = sw_store_open_with (fixture->path, SW_OPEN_CREATE, &fixture->clock, &options, &error);
  if (!network_cases[i].refused)
    {
      g_assert_no_error (error);
      return;
    }
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NETWORK);
  g_clear_error (&error);
  /* reading is safe enough: nothing is locked for writing */
  fixture_open (fixture, SW_OPEN_CREATE);
  fixture_close (fixture);
  fixture->store
      = sw_store_open_with (fixture->path, SW_OPEN_WRITE, &fixture->clock, &options, &error);
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NETWORK);
  g_clear_error (&error);
  fixture->store
      = sw_store_open_with (fixture->path, SW_OPEN_READ_ONLY, &fixture->clock, &options, &error);
  g_assert_no_error (error);
}

/* What an interrupted create left behind does not stop the next one. */
static void
test_leftover (Fixture *fixture, gconstpointer data)
{
  g_autofree char *leftover = g_strconcat (fixture->path, ".new", NULL);

  g_assert_true (g_file_set_contents (leftover, "half a file", -1, NULL));
  fixture_open (fixture, SW_OPEN_CREATE);
  fixture_close (fixture);
  assert_alone (fixture);
}

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add (const char *name, gconstpointer data, TestFunc set_up, TestFunc func)
{
  g_autofree char *path = g_strconcat ("/records/open/", name, NULL);

  g_test_add (path, Fixture, data, set_up, func, fixture_tear_down);
}

static void
add_cases (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (wrong_cases); i++)
    {
      g_autofree char *name = g_strconcat ("wrong/", wrong_cases[i].name, NULL);

      add (name, &wrong_cases[i], fixture_set_up_folder, test_wrong);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (network_cases); i++)
    {
      g_autofree char *name = g_strconcat ("network/", network_cases[i].name, NULL);

      add (name, GSIZE_TO_POINTER (i), fixture_set_up_folder, test_network);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("at-rest", NULL, fixture_set_up, test_at_rest);
  add ("settings", NULL, fixture_set_up, test_settings);
  add ("new-site", NULL, fixture_set_up, test_new_site);
  add ("missing", NULL, fixture_set_up_folder, test_missing);
  add ("exists", NULL, fixture_set_up_folder, test_exists);
  add_cases ();
  add ("damaged", NULL, fixture_set_up, test_damaged);
  add ("cut-short", NULL, fixture_set_up, test_cut_short);
  add ("foreign-wal", NULL, fixture_set_up, test_foreign_wal);
  add ("read-only-folder", NULL, fixture_set_up, test_read_only_folder);
  add ("read-only-file", NULL, fixture_set_up, test_read_only_file);
  add ("unreadable", NULL, fixture_set_up, test_unreadable);
  add ("leftover", NULL, fixture_set_up_folder, test_leftover);
  return g_test_run ();
}
