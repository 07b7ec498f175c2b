/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Backups and restores cut short: by a power cut or a full disk at the operations of the engine,
 * and by a kill after each step. The file is the old one or the new one, whole; the backup is what
 * it was; a name of a backup never stands for half a copy.
 */
#include "records/backup-private.h"
#include "records/restore-private.h"
#include "records/verify.h"
#include "script.h"
#include "vfs-cut.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#define STRIDE 7 /* every seventh operation, from another one on in each row */
#define ACTS_IN_BACKUP 3
#define ACTS 6       /* in the file that is replaced */
#define NO_ACTS (-1) /* a restored file has a head of its own */
#define STEPS 5      /* of a restore */

/* A file of six acts, the last of them in its -wal file only, and a backup of three. */
typedef struct
{
  Script script;
  char *backup; /* Owned */
  char *digest; /* Owned: of the backup */
} Scene;

static char *
digest_of (const char *path)
{
  g_autofree char *contents = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
  return g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *)contents, length);
}

static void
run_acts (Script *script, SwStore *store, int from, int to)
{
  GError *error = NULL;

  for (int i = from; i < to; i++)
    {
      script_run (script, store, i, &error);
      g_assert_no_error (error);
    }
}

/* As a kill leaves it: copied while it is open. */
static void
leave_wal (Scene *scene, SwStore *store)
{
  g_autofree char *command = g_strdup_printf (
      "cd '%s' && mkdir k && cp plant.swlog plant.swlog-wal k", scene->script.folder);
  g_autofree char *back = g_strdup_printf ("cd '%s' && mv k/* . && rmdir k", scene->script.folder);

  g_assert_cmpint (system (command), ==, 0);
  sw_store_close (store);
  g_assert_cmpint (system (back), ==, 0);
}

static void
set_scene (Scene *scene)
{
  GError *error = NULL;
  g_autoptr (SwBackupInfo) info = NULL;
  SwStore *store;

  script_set_up (&scene->script);
  store = script_open (&scene->script, NULL, &error);
  g_assert_no_error (error);
  run_acts (&scene->script, store, 0, ACTS_IN_BACKUP);
  scene->backup = g_build_filename (scene->script.folder, "backup.stillwarden", NULL);
  info = sw_backup_write_as (scene->script.path, scene->backup, NULL, NULL, &error);
  g_assert_no_error (error);
  scene->digest = digest_of (scene->backup);
  run_acts (&scene->script, store, ACTS_IN_BACKUP, ACTS);
  leave_wal (scene, store);
}

static void
clear_scene (Scene *scene)
{
  g_autofree char *digest = digest_of (scene->backup);

  g_assert_cmpstr (digest, ==, scene->digest);
  g_free (scene->backup);
  g_free (scene->digest);
  script_tear_down (&scene->script);
}

static gboolean
restore (Scene *scene, const SwRestoreOptions *options, GError **error)
{
  const SwRestoreOrder order = { .path = scene->script.path,
                                 .backup = scene->backup,
                                 .actor = { .identified = SW_IDENTIFIED_SYSTEM } };

  return sw_backup_restore_with (&order, &scene->script.clock, options, error);
}

/* ---- what is found afterwards ---- */

/* ACTS for the old file, NO_ACTS for a restored one; anything else fails. */
static int
assert_whole (Script *script)
{
  GError *error = NULL;
  SwStore *store = script_open (script, NULL, &error);
  g_autoptr (SwVerifyReport) report = NULL;
  gint64 restorations = -1;
  int acts;

  g_assert_no_error (error);
  report = sw_verify_full (store, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_true (
      sw_sql_integer (store, "SELECT count(*) FROM restoration", NULL, 0, &restorations, NULL));
  acts = script_count_acts (store);
  g_assert_cmpint (acts, ==, restorations == 1 ? NO_ACTS : ACTS);
  sw_store_close (store);
  return acts;
}

/* Whatever has the name of a backup is one, and holds the file as it stood. */
static void
assert_backups (Script *script)
{
  g_autoptr (GPtrArray) list = sw_backup_list (script->path, NULL, NULL, NULL);

  for (guint i = 0; i < list->len; i++)
    {
      const SwBackupInfo *info = list->pdata[i];
      GError *error = NULL;

      g_assert_cmpint ((int)info->state, ==, SW_BACKUP_GOOD);
      sw_backup_prove (info->path, script_heads ()[ACTS], NULL, NULL, NULL, &error);
      g_assert_no_error (error);
    }
}

/* ---- power ---- */

/* The real folder is what the program left; the survivors are what a machine would find. Both must
 * be whole: the rename itself comes after the last operation. FALSE when nothing struck. */
static gboolean
cut_restore (int at, CutLoss loss)
{
  const SwRestoreOptions options = { .store.vfs = CUT_VFS };
  Scene scene;
  Script after;
  gboolean struck;

  set_scene (&scene);
  cut_arm (CUT_POWER, at);
  restore (&scene, &options, NULL);
  struck = cut_has_struck ();
  if (struck)
    {
      script_set_up_empty (&after);
      after.now_ms = scene.script.now_ms;
      image_write_survivors (after.folder, loss, (guint32)at);
      cut_arm (CUT_NEVER, 0);
      if (g_file_test (after.path, G_FILE_TEST_EXISTS))
        g_assert_cmpint (assert_whole (&after), ==, ACTS);
      script_tear_down (&after);
    }
  cut_arm (CUT_NEVER, 0);
  g_assert_cmpint (assert_whole (&scene.script), ==, struck ? ACTS : NO_ACTS);
  assert_backups (&scene.script);
  clear_scene (&scene);
  return struck;
}

static void
test_power (gconstpointer data)
{
  int loss = GPOINTER_TO_INT (data);
  int at = 1 + loss;
  int cuts = 0;

  for (; cut_restore (at, (CutLoss)loss); at += STRIDE)
    cuts++;
  g_test_message ("%d cuts, the last at operation %d", cuts, at - STRIDE);
  g_assert_cmpint (at, >, 200); /* two copies of a file of some eighty pages */
}

/* ---- disk full ---- */

/* Refused with the reason, or done. FALSE when nothing struck. */
static gboolean
fill_restore (int at)
{
  const SwRestoreOptions options = { .store.vfs = CUT_VFS };
  g_autoptr (GError) error = NULL;
  Scene scene;
  gboolean struck;
  gboolean done;

  set_scene (&scene);
  cut_arm (CUT_FULL, at);
  done = restore (&scene, &options, &error);
  struck = cut_has_struck ();
  cut_arm (CUT_NEVER, 0);
  if (!done)
    g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DISK_FULL);
  g_assert_cmpint (assert_whole (&scene.script), ==, done ? NO_ACTS : ACTS);
  assert_backups (&scene.script);
  clear_scene (&scene);
  return struck;
}

static void
test_full (void)
{
  int at = 1;

  for (; fill_restore (at); at += STRIDE)
    ;
  g_assert_cmpint (at, >, 200);
}

/* A backup alone: refused with the reason and nothing left, or done. */
static gboolean
fill_backup (int at)
{
  const SwStoreOptions options = { .vfs = CUT_VFS };
  g_autoptr (GError) error = NULL;
  g_autoptr (SwBackupInfo) info = NULL;
  g_autoptr (GDir) folder = NULL;
  g_autofree char *path = NULL;
  gboolean struck;
  Scene scene;

  set_scene (&scene);
  cut_arm (CUT_FULL, at);
  info = sw_backup_write_with (scene.script.path, NULL, SW_BACKUP_DAILY, scene.script.now_ms,
                               &options, &error);
  struck = cut_has_struck ();
  cut_arm (CUT_NEVER, 0);
  if (info == NULL)
    {
      g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DISK_FULL);
      path = sw_backup_default_folder (scene.script.path);
      folder = g_dir_open (path, 0, NULL);
      g_assert_null (g_dir_read_name (folder));
    }
  assert_backups (&scene.script);
  clear_scene (&scene);
  return struck;
}

static void
test_full_backup (void)
{
  int at = 1;

  for (; fill_backup (at); at += STRIDE)
    ;
  g_assert_cmpint (at, >, 80);
}

static int
version_cb (void *data, int n_columns, char **values, char **names)
{
  *(int *)data = atoi (values[0]);
  return 0;
}

/* Through SQLite alone, which rolls back what it left half written and migrates nothing. */
static int
ask_version (const char *path)
{
  sqlite3 *db = NULL;
  int version = -1;

  g_assert_cmpint (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (db, "PRAGMA user_version", version_cb, &version, NULL), ==,
                   SQLITE_OK);
  g_assert_cmpint (sqlite3_close (db), ==, SQLITE_OK);
  return version;
}

/* A file of version 1 that is to be migrated: no backup, no migration. FALSE when nothing struck.
 */
static gboolean
fill_migration (int at, const char *contents, gsize length)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) list = NULL;
  Script script;
  SwStore *store;
  gboolean struck;
  int version;

  script_set_up_empty (&script);
  g_assert_true (g_file_set_contents (script.path, contents, (gssize)length, NULL));
  cut_arm (CUT_FULL, at);
  store = script_open (&script, CUT_VFS, &error);
  struck = cut_has_struck ();
  if (store == NULL)
    g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DISK_FULL);
  sw_store_close (store);
  cut_arm (CUT_NEVER, 0);
  version = ask_version (script.path);
  list = sw_backup_list (script.path, NULL, NULL, NULL);
  /* whatever was migrated has its backup; what has none is as it was */
  if (list->len == 0)
    g_assert_cmpint (version, ==, 1);
  script_tear_down (&script);
  return struck;
}

static void
test_full_migration (void)
{
  g_autofree char *path = sw_test_source_path ("tests/records/data/version-1.stillwarden");
  g_autofree char *contents = NULL;
  gsize length;
  int at = 1;

  g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
  for (; fill_migration (at, contents, length); at += STRIDE)
    ;
  g_assert_cmpint (at, >, 80);
}

/* ---- kills ---- */

typedef struct
{
  int at;
  int seen;
} Kill;

static void
step_cb (int number, gpointer data)
{
  Kill *plan = data;

  plan->seen = number;
  if (number == plan->at)
    raise (SIGKILL);
}

static void
damage (Scene *scene)
{
  g_autofree char *wal = g_strconcat (scene->script.path, "-wal", NULL);

  g_assert_true (g_file_set_contents (scene->script.path, "no database", -1, NULL));
  g_assert_true (g_file_test (wal, G_FILE_TEST_EXISTS));
}

/* In a child, as the kernel does it. */
static void
run_killed (Scene *scene, int at)
{
  Kill plan = { .at = at };
  const SwRestoreOptions options = { .step = step_cb, .data = &plan };
  int status = 0;
  pid_t child = fork ();

  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    _exit (restore (scene, &options, NULL) ? 0 : 1);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (at <= STEPS ? WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL
                             : WIFEXITED (status) && WEXITSTATUS (status) == 0);
}

/* Killed after the last step but one the old file is there, after the last the new one. */
static void
test_kill (gconstpointer data)
{
  int at = GPOINTER_TO_INT (data);
  Scene scene;

  set_scene (&scene);
  run_killed (&scene, at);
  g_assert_cmpint (assert_whole (&scene.script), ==, at < STEPS ? ACTS : NO_ACTS);
  assert_backups (&scene.script);
  clear_scene (&scene);
}

/* A damaged one is never missing, never mended by half, and a second try goes through. */
static void
test_kill_damaged (gconstpointer data)
{
  const SwRestoreOptions options = { 0 };
  int at = GPOINTER_TO_INT (data);
  g_autofree char *contents = NULL;
  GError *error = NULL;
  Scene scene;

  set_scene (&scene);
  damage (&scene);
  run_killed (&scene, at);
  if (at < STEPS)
    {
      g_assert_true (g_file_get_contents (scene.script.path, &contents, NULL, NULL));
      g_assert_cmpstr (contents, ==, "no database");
      scene.script.now_ms += 60000;
      restore (&scene, &options, &error);
      g_assert_no_error (error);
    }
  g_assert_cmpint (assert_whole (&scene.script), ==, NO_ACTS);
  clear_scene (&scene);
}

static void
add_rows (const char *prefix, int from, int to, void (*function) (gconstpointer))
{
  for (int i = from; i <= to; i++)
    {
      g_autofree char *path = g_strdup_printf ("%s/%d", prefix, i);

      g_test_add_data_func (path, GINT_TO_POINTER (i), function);
    }
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  cut_register ();
  script_make_master ();
  add_rows ("/fault/restore/kill", 1, STEPS + 1, test_kill);
  add_rows ("/fault/restore/kill-damaged", 1, STEPS + 1, test_kill_damaged);
  add_rows ("/fault/restore/power", 0, CUT_N_LOSSES - 1, test_power);
  g_test_add_func ("/fault/restore/full", test_full);
  g_test_add_func ("/fault/backup/full", test_full_backup);
  g_test_add_func ("/fault/backup/full-before-migration", test_full_migration);
  status = g_test_run ();
  script_free_master ();
  return status;
}
