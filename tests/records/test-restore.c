/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Restoring: what the file holds afterwards, what became of the old one, and what is refused. In
 * every case the backup is, byte by byte, what it was. */
#include "records/backup-private.h"
#include "records/restore.h"
#include "stored.h"

#include <glib/gstdio.h>
#include <string.h>

#define RESTORATION                                                                                \
  "SELECT backup, kept_seq, kept_head, coalesce(lost_seq, 'none'), coalesce(lost_head, 'none')"    \
  " FROM restoration"

/* A file with A1, a backup of it, and A2 after that. */
typedef struct
{
  Fixture *fixture;
  SwBackupInfo *backup; /* Owned */
  char *digest;         /* Owned: of the backup */
  char *head;           /* Owned: of the file before the restore */
  gint64 seq;
} Scene;

static char *
digest_of (const char *path)
{
  return fixture_run ("sha256sum < '%s'", path);
}

static void
set_scene (Scene *scene, Fixture *fixture)
{
  GError *error = NULL;

  scene->fixture = fixture;
  fixture_add_person (fixture, "A1");
  scene->backup
      = sw_backup_write (fixture->path, NULL, SW_BACKUP_DAILY, fixture->now_ms, NULL, NULL, &error);
  g_assert_no_error (error);
  scene->digest = digest_of (scene->backup->path);
  fixture->now_ms += 60000;
  fixture_add_person (fixture, "A2");
  scene->head = sw_journal_head (fixture->store, NULL);
  scene->seq = fixture_ask (fixture, "SELECT max(seq) FROM journal");
  fixture_close (fixture);
}

static void
clear_scene (Scene *scene)
{
  g_autofree char *digest = digest_of (scene->backup->path);

  g_assert_cmpstr (digest, ==, scene->digest);
  sw_backup_info_free (scene->backup);
  g_free (scene->digest);
  g_free (scene->head);
}

static gboolean
restore (Fixture *fixture, const char *backup, GError **error)
{
  const SwRestoreOrder order = {
    .path = fixture->path,
    .backup = backup,
    .actor = { .person = 1,
               .identified = SW_IDENTIFIED_SECRET,
               .workstation = "bench-2",
               .reason = "wrong machine" },
    .who = "N. Invented",
  };

  return sw_backup_restore (&order, &fixture->clock, error);
}

static void
restore_fine (Scene *scene)
{
  GError *error = NULL;

  restore (scene->fixture, scene->backup->path, &error);
  g_assert_no_error (error);
}

/* The file is what it was, and nothing lies beside it that was not there. */
static void
assert_refused (Scene *scene, const char *backup, SwRecordsError code)
{
  Fixture *fixture = scene->fixture;
  g_autofree char *before = digest_of (fixture->path);
  g_autofree char *after = NULL;
  g_autofree char *list = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (restore (fixture, backup, &error));
  g_assert_error (error, SW_RECORDS_ERROR, (int)code);
  after = digest_of (fixture->path);
  g_assert_cmpstr (before, ==, after);
  list = fixture_run ("ls '%s' | grep -E 'restoring|damaged' || true", fixture->folder);
  g_assert_cmpstr (list, ==, "");
}

/* ---- what it does ---- */

static void
test_earlier (Fixture *fixture, gconstpointer data)
{
  Scene scene;
  g_autofree char *list = NULL;
  g_autofree char *row = NULL;
  g_autofree char *expected = NULL;
  g_autofree char *act = NULL;

  set_scene (&scene, fixture);
  restore_fine (&scene);
  list = fixture_run ("ls -A '%s'", fixture->folder);
  g_assert_cmpstr (list, ==, "plant.swlog\nplant.swlog backups\n");
  row = fixture_sql (fixture, RESTORATION);
  expected
      = g_strdup_printf ("%s|%" G_GINT64_FORMAT "|%s|%" G_GINT64_FORMAT "|%s\n", scene.backup->name,
                         scene.backup->seq, scene.backup->head, scene.seq, scene.head);
  g_assert_cmpstr (row, ==, expected);
  act = fixture_sql (fixture, "SELECT kind, person, identified_by, reason, table_name FROM journal"
                              " ORDER BY seq DESC LIMIT 1");
  g_assert_cmpstr (act, ==, "restore|1|secret|wrong machine|restoration\n");
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 1);
  clear_scene (&scene);
}

/* What was lost is not: it is a backup, and can be restored in its turn. */
static void
test_back_again (Fixture *fixture, gconstpointer data)
{
  Scene scene;
  g_autoptr (GPtrArray) list = NULL;
  const SwBackupInfo *before;
  GError *error = NULL;

  set_scene (&scene, fixture);
  restore_fine (&scene);
  list = sw_backup_list (fixture->path, NULL, scene.backup->uuid, NULL);
  g_assert_cmpuint (list->len, ==, 2);
  before = list->pdata[0];
  g_assert_cmpint ((int)before->why, ==, SW_BACKUP_BEFORE_RESTORE);
  g_assert_cmpstr (before->head, ==, scene.head);
  fixture->now_ms += 60000;
  restore (fixture, before->path, &error);
  g_assert_no_error (error);
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 2);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM restoration"), ==, 1);
  clear_scene (&scene);
}

/* After a kill acknowledged acts stand in the -wal file only. They are in the backup made before,
 * and never in the restored file. */
static void
test_after_a_kill (Fixture *fixture, gconstpointer data)
{
  Scene scene;
  g_autoptr (GPtrArray) list = NULL;
  g_autofree char *killed = g_build_filename (fixture->folder, "killed", NULL);

  set_scene (&scene, fixture);
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_add_person (fixture, "A3");
  g_free (scene.head);
  scene.head = sw_journal_head (fixture->store, NULL);
  g_free (fixture_run ("mkdir '%s' && cp '%s' '%s-wal' '%s'", killed, fixture->path, fixture->path,
                       killed));
  fixture_close (fixture);
  g_free (fixture->path);
  fixture->path = g_build_filename (killed, "plant.swlog", NULL);
  restore_fine (&scene);
  list = sw_backup_list (fixture->path, NULL, scene.backup->uuid, NULL);
  g_assert_cmpuint (list->len, ==, 1);
  g_assert_cmpstr (((SwBackupInfo *)list->pdata[0])->head, ==, scene.head);
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 1);
  clear_scene (&scene);
}

/* Damaged beyond reading, or changed by another tool: moved aside, to the byte. */
static void
test_damaged (Fixture *fixture, gconstpointer data)
{
  const char *harm = data;
  Scene scene;
  g_autofree char *before = NULL;
  g_autofree char *aside = NULL;
  g_autofree char *row = NULL;
  g_autofree char *wal = g_strconcat (fixture->path, "-wal", NULL);

  set_scene (&scene, fixture);
  g_free (fixture_run ("FILE='%s'; %s", fixture->path, harm));
  before = digest_of (fixture->path);
  restore_fine (&scene);
  aside = fixture_run ("sha256sum < '%s/plant.swlog-20260504T060100Z-damaged.stillwarden'",
                       fixture->folder);
  g_assert_cmpstr (aside, ==, before);
  g_assert_false (g_file_test (wal, G_FILE_TEST_EXISTS));
  row = fixture_sql (fixture, "SELECT coalesce(lost_seq, 'none'), coalesce(lost_head, 'none')"
                              " FROM restoration");
  g_assert_cmpstr (row, ==, "none|none\n");
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 1);
  clear_scene (&scene);
}

static void
test_missing (Fixture *fixture, gconstpointer data)
{
  Scene scene;

  set_scene (&scene, fixture);
  g_assert_cmpint (g_unlink (fixture->path), ==, 0);
  restore_fine (&scene);
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
  clear_scene (&scene);
}

/* A number that is nobody in the backup is not taken for a person of it. */
static void
test_stranger (Fixture *fixture, gconstpointer data)
{
  Scene scene;
  g_autofree char *act = NULL;
  GError *error = NULL;

  set_scene (&scene, fixture);
  const SwRestoreOrder order = {
    .path = fixture->path,
    .backup = scene.backup->path,
    .actor = { .person = 2, .identified = SW_IDENTIFIED_SECRET, .reason = "wrong machine" },
    .who = "B. Later",
  };
  sw_backup_restore (&order, &fixture->clock, &error);
  g_assert_no_error (error);
  act = fixture_sql (fixture,
                     "SELECT coalesce(person, 'nobody'), identified_by, reason FROM journal"
                     " ORDER BY seq DESC LIMIT 1");
  g_assert_cmpstr (act, ==, "nobody|system|B. Later: wrong machine\n");
  clear_scene (&scene);
}

/* The backup made before a migration is brought up to date, and the file's people stay. */
static void
test_older (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) list = NULL;
  const SwBackupInfo *backup;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  g_autofree char *folder_list = NULL;
  GError *error = NULL;

  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_close (fixture);
  list = sw_backup_list (fixture->path, NULL, NULL, NULL);
  backup = list->pdata[0];
  before = digest_of (backup->path);
  fixture->now_ms += 60000;
  restore (fixture, backup->path, &error);
  g_assert_no_error (error);
  after = digest_of (backup->path);
  g_assert_cmpstr (before, ==, after);
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT kept_seq FROM restoration"), ==, backup->seq);
  folder_list = fixture_run ("ls -A '%s'", fixture->folder);
  g_assert_null (strstr (folder_list, "restoring"));
}

/* ---- what is refused ---- */

static void
test_refused_damaged_backup (Fixture *fixture, gconstpointer data)
{
  Scene scene;
  g_autofree char *bad = g_build_filename (fixture->folder, "bad.stillwarden", NULL);
  g_autofree char *changed = g_build_filename (fixture->folder, "changed.stillwarden", NULL);
  g_autofree char *nothing = g_build_filename (fixture->folder, "nothing.stillwarden", NULL);

  set_scene (&scene, fixture);
  g_free (fixture_run ("head -c 6000 '%s' > '%s'", scene.backup->path, bad));
  g_free (
      fixture_run ("cp '%s' '%s' && chmod u+w '%s' && sqlite3 '%s' \"DROP TRIGGER person_update;"
                   " UPDATE person SET name = 'X'\"",
                   scene.backup->path, changed, changed, changed));
  assert_refused (&scene, bad, SW_RECORDS_ERROR_DAMAGED);
  assert_refused (&scene, changed, SW_RECORDS_ERROR_UNVERIFIED);
  assert_refused (&scene, nothing, SW_RECORDS_ERROR_NOT_FOUND);
  clear_scene (&scene);
}

static void
test_refused_other_site (Fixture *fixture, gconstpointer data)
{
  Scene scene;
  g_autofree char *other = g_build_filename (fixture->folder, "other.stillwarden", NULL);
  SwStore *store;

  set_scene (&scene, fixture);
  store = sw_store_open (other, SW_OPEN_CREATE, &fixture->clock, NULL);
  sw_store_close (store);
  assert_refused (&scene, other, SW_RECORDS_ERROR_FOREIGN);
  clear_scene (&scene);
}

static void
test_refused_open (Fixture *fixture, gconstpointer data)
{
  Scene scene;

  set_scene (&scene, fixture);
  fixture_open (fixture, SW_OPEN_WRITE);
  assert_refused (&scene, scene.backup->path, SW_RECORDS_ERROR_BUSY);
  clear_scene (&scene);
}

/* Without a backup of the old file there is no restore. */
static void
test_refused_no_folder (Fixture *fixture, gconstpointer data)
{
  Scene scene;
  g_autofree char *elsewhere = g_build_filename (fixture->folder, "elsewhere.stillwarden", NULL);
  g_autofree char *folder = sw_backup_default_folder (fixture->path);

  set_scene (&scene, fixture);
  g_assert_cmpint (g_rename (scene.backup->path, elsewhere), ==, 0);
  g_free (scene.backup->path);
  scene.backup->path = g_strdup (elsewhere);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_assert_true (g_file_set_contents (folder, "in the way", -1, NULL));
  assert_refused (&scene, elsewhere, SW_RECORDS_ERROR_IO);
  clear_scene (&scene);
}

static void
add (const char *name, gconstpointer data, void (*func) (Fixture *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/records/restore/", name, NULL);

  g_test_add (path, Fixture, data, fixture_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("earlier", NULL, test_earlier);
  add ("back-again", NULL, test_back_again);
  add ("after-a-kill", NULL, test_after_a_kill);
  add ("damaged/short", "truncate -s 9000 $FILE", test_damaged);
  add ("damaged/no-database", "echo garbage > $FILE", test_damaged);
  add ("damaged/empty", ": > $FILE", test_damaged);
  add ("damaged/changed",
       "sqlite3 $FILE \"DROP TRIGGER person_update; UPDATE person SET name = 'X'\"", test_damaged);
  add ("missing", NULL, test_missing);
  add ("stranger", NULL, test_stranger);
  add ("refused/damaged-backup", NULL, test_refused_damaged_backup);
  add ("refused/other-site", NULL, test_refused_other_site);
  add ("refused/open", NULL, test_refused_open);
  add ("refused/no-folder", NULL, test_refused_no_folder);
  for (gsize i = 0; i < stored_n_files; i++)
    {
      g_autofree char *path = g_strconcat ("/records/restore/", stored_files[i].name, NULL);

      g_test_add (path, Fixture, &stored_files[i], stored_set_up, test_older, fixture_tear_down);
    }
  return g_test_run ();
}
