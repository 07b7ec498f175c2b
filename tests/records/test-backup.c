/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing backups while the file is open, listing them without touching them, letting go of old
 * ones, and the backup that comes before every migration. */
#include "records/backup-private.h"
#include "stored.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define NOBODY 65534
#define DAY_MS G_GINT64_CONSTANT (86400000)

static char *
backup_folder (Fixture *fixture)
{
  return sw_backup_default_folder (fixture->path);
}

static SwBackupInfo *
write_backup (Fixture *fixture, SwBackupWhy why)
{
  GError *error = NULL;
  SwBackupInfo *info
      = sw_backup_write (fixture->path, NULL, why, fixture->now_ms, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (info);
  return info;
}

static char *
site_uuid (Fixture *fixture)
{
  g_autofree char *answer = fixture_sql (fixture, "SELECT uuid FROM site");

  return g_strdup (g_strchomp (answer));
}

static void
assert_list (Fixture *fixture, const char *expected)
{
  g_autofree char *folder = backup_folder (fixture);
  g_autofree char *list = fixture_run ("ls -A '%s'", folder);

  g_assert_cmpstr (list, ==, expected);
}

/* ---- writing ---- */

/* The acts are only in the -wal file; the window goes on writing afterwards. */
static void
test_open_file (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) info = NULL;
  g_autofree char *head = NULL;
  g_autofree char *uuid = NULL;

  fixture_add_person (fixture, "A1");
  head = sw_journal_head (fixture->store, NULL);
  info = write_backup (fixture, SW_BACKUP_DAILY);
  fixture_add_person (fixture, "A2");
  uuid = site_uuid (fixture);
  g_assert_cmpstr (info->name, ==, "plant.swlog-20260504T060000Z.stillwarden");
  g_assert_cmpstr (info->head, ==, head);
  g_assert_cmpstr (info->uuid, ==, uuid);
  /* a row for each version of the schema, the site, the person */
  g_assert_cmpint (info->seq, ==, SW_SCHEMA_VERSION + 2);
}

/* The backup is a file at rest that anybody may read and nobody write, and is sound. */
static void
test_at_rest (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) info = write_backup (fixture, SW_BACKUP_BY_HAND);
  GStatBuf status;

  assert_list (fixture, "plant.swlog-20260504T060000Z-by-hand.stillwarden\n");
  g_assert_cmpint (g_stat (info->path, &status), ==, 0);
  g_assert_cmpint ((int)(status.st_mode & 0777), ==, 0444);
  g_assert_cmpint (info->bytes, ==, (gint64)status.st_size);
  g_free (fixture->path);
  fixture_close (fixture);
  fixture->path = g_strdup (info->path);
  g_autofree char *mode = fixture_sql (fixture, "PRAGMA journal_mode");
  g_assert_cmpstr (mode, ==, "delete\n");
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  fixture_assert_sound (fixture);
}

static void
test_two_in_a_second (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) one = write_backup (fixture, SW_BACKUP_DAILY);
  g_autoptr (SwBackupInfo) two = write_backup (fixture, SW_BACKUP_DAILY);

  assert_list (fixture, "plant.swlog-20260504T060000Z.stillwarden\n"
                        "plant.swlog-20260504T060001Z.stillwarden\n");
}

static void
test_counts (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) info = NULL;
  FixturePlant plant;

  fixture_plant (fixture, &plant);
  info = write_backup (fixture, SW_BACKUP_DAILY);
  g_assert_cmpint (info->machines, ==, fixture_ask (fixture, "SELECT count(*) FROM machine"));
  g_assert_cmpint (info->machines, ==, 1);
  g_assert_cmpint (info->tests, ==, 1);
  g_assert_cmpint (info->doses, ==, 1);
  g_assert_nonnull (info->last_test);
  g_assert_cmpint (info->last_ms, ==, fixture_ask (fixture, "SELECT max(utc_ms) FROM journal"));
}

/* ---- what must not become a backup ---- */

static void
assert_refused (Fixture *fixture, const char *folder, SwRecordsError code)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (sw_backup_write (fixture->path, folder, SW_BACKUP_DAILY, fixture->now_ms, NULL,
                                  NULL, &error));
  g_assert_error (error, SW_RECORDS_ERROR, (int)code);
}

static void
test_changed_source (Fixture *fixture, gconstpointer data)
{
  fixture_add_person (fixture, "A1");
  fixture_close (fixture);
  g_free (fixture_sql (fixture, "DROP TRIGGER person_update; UPDATE person SET name = 'X'"));
  assert_refused (fixture, NULL, SW_RECORDS_ERROR_UNVERIFIED);
  assert_list (fixture, "");
}

/* Garbage in a page that is not the first. */
static void
test_damaged_source (Fixture *fixture, gconstpointer data)
{
  FILE *file;

  fixture_close (fixture);
  file = fopen (fixture->path, "r+b");
  for (int page = 2; page < 12; page++)
    {
      fseek (file, page * 4096, SEEK_SET);
      fputs ("garbage garbage garbage", file);
    }
  fclose (file);
  g_autoptr (GError) error = NULL;
  g_assert_null (
      sw_backup_write (fixture->path, NULL, SW_BACKUP_DAILY, fixture->now_ms, NULL, NULL, &error));
  g_assert_nonnull (error);
  assert_list (fixture, "");
}

static void
test_no_room (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (sw_backup_check_room (fixture->path, fixture->folder, 100000000, &error));
  g_assert_no_error (error);
  g_assert_false (sw_backup_check_room (fixture->path, fixture->folder, 100000, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DISK_FULL);
}

/* A folder that cannot be made: a file has its name. */
static void
test_no_folder (Fixture *fixture, gconstpointer data)
{
  g_autofree char *folder = backup_folder (fixture);

  g_assert_true (g_file_set_contents (folder, "in the way", -1, NULL));
  assert_refused (fixture, NULL, SW_RECORDS_ERROR_IO);
}

static gboolean
stop_cb (gint64 done, gint64 total, gpointer data)
{
  return FALSE;
}

static void
test_stopped (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (sw_backup_write (fixture->path, NULL, SW_BACKUP_DAILY, fixture->now_ms, stop_cb,
                                  NULL, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  assert_list (fixture, "");
}

/* ---- snapshot ---- */

static void
test_write_as (Fixture *fixture, gconstpointer data)
{
  g_autofree char *out = g_build_filename (fixture->folder, "for-the-auditor.stillwarden", NULL);
  GError *error = NULL;
  g_autoptr (SwBackupInfo) info = sw_backup_write_as (fixture->path, out, NULL, NULL, &error);
  g_autofree char *head = sw_journal_head (fixture->store, NULL);

  g_assert_no_error (error);
  g_assert_cmpstr (info->head, ==, head);
  g_assert_null (sw_backup_write_as (fixture->path, out, NULL, NULL, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_EXISTS);
  g_error_free (error);
}

/* ---- listing ---- */

/* A digest and a listing before and after: nothing moved, nothing beside them. */
static void
test_list (Fixture *fixture, gconstpointer data)
{
  g_autofree char *folder = backup_folder (fixture);
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  g_autofree char *uuid = site_uuid (fixture);
  g_autofree char *bad = NULL;
  g_autoptr (GPtrArray) list = NULL;

  sw_backup_info_free (write_backup (fixture, SW_BACKUP_DAILY));
  fixture->now_ms += DAY_MS;
  fixture_add_person (fixture, "A1");
  sw_backup_info_free (write_backup (fixture, SW_BACKUP_BY_HAND));
  bad = g_build_filename (folder, "plant.swlog-20260601T000000Z.stillwarden", NULL);
  g_assert_true (g_file_set_contents (bad, "no database", -1, NULL));
  before = fixture_run ("cd '%s'; ls -lA --time-style=full-iso; sha256sum *", folder);
  list = sw_backup_list (fixture->path, NULL, uuid, NULL);
  after = fixture_run ("cd '%s'; ls -lA --time-style=full-iso; sha256sum *", folder);
  g_assert_cmpstr (before, ==, after);
  g_assert_cmpuint (list->len, ==, 3);
  g_assert_cmpint ((int)((SwBackupInfo *)list->pdata[0])->state, ==, SW_BACKUP_UNREADABLE);
  g_assert_cmpint ((int)((SwBackupInfo *)list->pdata[1])->why, ==, SW_BACKUP_BY_HAND);
  g_assert_true (sw_backup_list_newest (list) == list->pdata[1]);
  g_assert_cmpint (((SwBackupInfo *)list->pdata[2])->seq + 1, ==,
                   ((SwBackupInfo *)list->pdata[1])->seq);
}

static void
test_list_none (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) list = sw_backup_list (fixture->path, NULL, NULL, NULL);

  g_assert_cmpuint (list->len, ==, 0);
  g_assert_null (sw_backup_list_newest (list));
}

/* ---- letting go ---- */

/* Two of one day and one of the next: the first goes. A file of another name, one of another site
 * and one that cannot be read stay, however old. */
static void
test_prune (Fixture *fixture, gconstpointer data)
{
  g_autofree char *uuid = site_uuid (fixture);
  g_autofree char *folder = backup_folder (fixture);
  GError *error = NULL;

  for (int i = 0; i < 3; i++)
    {
      sw_backup_info_free (write_backup (fixture, SW_BACKUP_DAILY));
      fixture->now_ms += DAY_MS / 2;
    }
  g_free (fixture_run (
      "cd '%s' && cp plant.swlog-20260504T060000Z.stillwarden other-20100101T000000Z.stillwarden"
      " && echo x > plant.swlog-20100101T000000Z.stillwarden"
      " && cp plant.swlog-20260504T060000Z.stillwarden plant.swlog-20100102T000000Z.stillwarden"
      " && chmod u+w plant.swlog-20100102T000000Z.stillwarden"
      " && sqlite3 plant.swlog-20100102T000000Z.stillwarden"
      " \"DROP TRIGGER site_update; UPDATE site SET uuid = 'another'\"",
      folder));
  g_assert_cmpint (
      sw_backup_prune (fixture->path, NULL, uuid, fixture->now_ms, FIXTURE_OFFSET_MIN, &error), ==,
      1);
  g_assert_no_error (error);
  assert_list (fixture, "other-20100101T000000Z.stillwarden\n"
                        "plant.swlog-20100101T000000Z.stillwarden\n"
                        "plant.swlog-20100102T000000Z.stillwarden\n"
                        "plant.swlog-20260504T180000Z.stillwarden\n"
                        "plant.swlog-20260505T060000Z.stillwarden\n");
}

/* A copy that was killed goes after a day; a young one may be somebody's work. */
static void
test_prune_unfinished (Fixture *fixture, gconstpointer data)
{
  g_autofree char *uuid = site_uuid (fixture);
  g_autofree char *folder = backup_folder (fixture);

  fixture->now_ms = g_get_real_time () / 1000;
  g_free (fixture_run ("mkdir '%s' && cd '%s' && touch plant.swlog-20260101T000000Z.stillwarden.new"
                       " && touch -d '2 days ago' plant.swlog-20260102T000000Z.stillwarden.new"
                       " && touch -d '2 days ago' other-20260102T000000Z.stillwarden.new",
                       folder, folder));
  g_assert_cmpint (sw_backup_prune (fixture->path, NULL, uuid, fixture->now_ms, 0, NULL), ==, 0);
  assert_list (fixture, "other-20260102T000000Z.stillwarden.new\n"
                        "plant.swlog-20260101T000000Z.stillwarden.new\n");
}

/* ---- before a migration ---- */

static void
test_migration (Fixture *fixture, gconstpointer data)
{
  const Stored *stored = data;
  g_autofree char *head
      = fixture_sql (fixture, "SELECT hash FROM journal ORDER BY seq DESC LIMIT 1");
  g_autoptr (GPtrArray) list = NULL;
  const SwBackupInfo *info;

  fixture_open (fixture, SW_OPEN_WRITE);
  list = sw_backup_list (fixture->path, NULL, NULL, NULL);
  g_assert_cmpuint (list->len, ==, 1);
  info = list->pdata[0];
  g_assert_cmpint ((int)info->why, ==, SW_BACKUP_BEFORE_MIGRATION);
  g_assert_cmpint ((int)info->state, ==, SW_BACKUP_GOOD);
  g_assert_cmpint (info->schema_version, ==, stored->version);
  g_assert_cmpint (info->seq, ==, stored->journal_rows);
  g_assert_cmpstr (info->head, ==, g_strchomp (head));
  g_assert_cmpint (sw_store_get_schema_version (fixture->store), ==, SW_SCHEMA_VERSION);
}

/* No backup, no migration: the file stays as it is, to the byte. */
static void
test_migration_refused (Fixture *fixture, gconstpointer data)
{
  g_autofree char *folder = backup_folder (fixture);
  g_autofree char *before = fixture_run ("sha256sum %s", fixture->path);
  g_autofree char *after = NULL;
  g_autofree char *list = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (folder, "in the way", -1, NULL));
  g_assert_null (sw_store_open (fixture->path, SW_OPEN_WRITE, &fixture->clock, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_IO);
  after = fixture_run ("sha256sum %s", fixture->path);
  g_assert_cmpstr (before, ==, after);
  list = fixture_run ("ls %s", fixture->folder);
  g_assert_cmpstr (list, ==, "plant.swlog\nplant.swlog backups\n");
}

/* A folder for backups that the person may not write to. Root may write anywhere, so the child that
 * tries is nobody. */
static void
test_migration_read_only (Fixture *fixture, gconstpointer data)
{
  g_autofree char *folder = backup_folder (fixture);
  g_autofree char *before = fixture_run ("sha256sum %s", fixture->path);
  g_autofree char *after = NULL;
  int status = -1;
  pid_t child;

  g_free (fixture_run ("mkdir '%s' && chmod 0555 '%s' && chmod 0777 %s && chmod 0666 %s", folder,
                       folder, fixture->folder, fixture->path));
  child = fork ();
  if (child == 0)
    {
      g_autoptr (GError) error = NULL;

      if (getuid () == 0 && setuid (NOBODY) != 0)
        _exit (2);
      _exit (sw_store_open (fixture->path, SW_OPEN_WRITE, &fixture->clock, &error) == NULL
                     && g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_READ_ONLY)
                 ? 0
                 : 1);
    }
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
  after = fixture_run ("sha256sum %s", fixture->path);
  g_assert_cmpstr (before, ==, after);
  g_free (fixture_run ("chmod 0755 '%s'", folder));
}

static void
add (const char *name, void (*func) (Fixture *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/records/backup/", name, NULL);

  g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down);
}

static void
add_stored (const char *name, const Stored *stored, void (*func) (Fixture *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/records/backup/", name, "/", stored->name, NULL);

  g_test_add (path, Fixture, stored, stored_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("open-file", test_open_file);
  add ("at-rest", test_at_rest);
  add ("two-in-a-second", test_two_in_a_second);
  add ("counts", test_counts);
  add ("changed-source", test_changed_source);
  add ("damaged-source", test_damaged_source);
  add ("no-room", test_no_room);
  add ("no-folder", test_no_folder);
  add ("stopped", test_stopped);
  add ("write-as", test_write_as);
  add ("list", test_list);
  add ("list-none", test_list_none);
  add ("prune", test_prune);
  add ("prune-unfinished", test_prune_unfinished);
  for (gsize i = 0; i < stored_n_files; i++)
    {
      add_stored ("migration", &stored_files[i], test_migration);
      add_stored ("migration-refused", &stored_files[i], test_migration_refused);
      add_stored ("migration-read-only", &stored_files[i], test_migration_read_only);
    }
  return g_test_run ();
}
