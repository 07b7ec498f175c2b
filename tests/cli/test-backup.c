/* SPDX-License-Identifier: GPL-3.0-or-later */
/* backup and snapshot: while the file is open, in a folder that nobody can write to, and refused.
 */
#include "spawn.h"
#include "support/plant.h"

#include "records/verify.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define NOBODY 65534

static SwSpawned *
run (const char *command, const char *path, const char *out)
{
  g_autofree char *quoted = g_shell_quote (path);
  g_autofree char *quoted_out = out != NULL ? g_shell_quote (out) : g_strdup ("");
  g_autofree char *arguments = g_strjoin (" ", command, quoted, quoted_out, NULL);

  return sw_spawn (arguments, NULL);
}

static char *
beside (SwTestPlant *plant, const char *name)
{
  g_autofree char *folder = g_path_get_dirname (plant->path);

  return g_build_filename (folder, name, NULL);
}

/* Acts that are only in the -wal file of the window are in the copy. */
static void
test_open (gconstpointer data)
{
  const char *command = data;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *out = beside (plant, "copy.stillwarden");
  g_autofree char *head = sw_journal_head (plant->store, NULL);
  g_autofree char *line = g_strconcat ("head\t", head, NULL);
  g_autofree char *written = g_strconcat ("written\t", out, NULL);
  g_autoptr (SwSpawned) spawned = run (command, plant->path, out);
  g_autoptr (SwSpawned) verified = NULL;
  GStatBuf status;

  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  g_assert_true (sw_spawned_has_line (spawned, line));
  g_assert_true (sw_spawned_has_line (spawned, written));
  g_assert_cmpint (g_stat (out, &status), ==, 0);
  g_assert_cmpint ((int)(status.st_mode & 0777), ==, 0444);
  verified = run ("verify", out, NULL);
  g_assert_cmpint (verified->code, ==, 0);
  g_assert_true (sw_spawned_has_line (verified, line));
}

static void
test_folder (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *folder = beside (plant, "kept here");
  g_autoptr (SwSpawned) spawned = NULL;
  g_autofree char *written = NULL;
  g_autofree char *name = NULL;

  g_assert_cmpint (g_mkdir (folder, 0755), ==, 0);
  spawned = run ("backup", plant->path, folder);
  g_assert_cmpstr (spawned->err, ==, "");
  written = sw_spawned_value (spawned, "written");
  name = g_path_get_basename (written);
  g_assert_true (g_str_has_prefix (written, folder));
  g_assert_true (
      g_regex_match_simple ("^plant\\.swlog-\\d{8}T\\d{6}Z-by-hand\\.stillwarden$", name, 0, 0));
}

/* Somebody without any right to write there reads all of it, and nothing is left beside it. The
 * permissions of a folder do not bind root, so the child is nobody. */
static int
read_as_nobody (const char *out)
{
  g_autoptr (SwStore) store = NULL;
  g_autoptr (SwVerifyReport) report = NULL;

  if (getuid () == 0 && setuid (NOBODY) != 0)
    return 2;
  store = sw_store_open (out, SW_OPEN_READ_ONLY, NULL, NULL);
  report = store != NULL ? sw_verify_full (store, NULL, NULL, NULL) : NULL;
  return report != NULL && report->findings->len == 0 ? 0 : 1;
}

static void
test_read_only_folder (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *above = g_path_get_dirname (plant->path);
  g_autofree char *folder = beside (plant, "auditor");
  g_autofree char *out = g_build_filename (folder, "snapshot.stillwarden", NULL);
  g_autoptr (SwSpawned) spawned = NULL;
  g_autoptr (GDir) dir = NULL;
  int status = -1;
  pid_t child;

  g_assert_cmpint (g_chmod (above, 0755), ==, 0);
  g_assert_cmpint (g_mkdir (folder, 0755), ==, 0);
  spawned = run ("snapshot", plant->path, out);
  g_assert_cmpint (spawned->code, ==, 0);
  g_assert_cmpint (g_chmod (folder, 0555), ==, 0);
  child = fork ();
  if (child == 0)
    _exit (read_as_nobody (out));
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
  dir = g_dir_open (folder, 0, NULL);
  g_assert_cmpstr (g_dir_read_name (dir), ==, "snapshot.stillwarden");
  g_assert_null (g_dir_read_name (dir));
  g_assert_cmpint (g_chmod (folder, 0755), ==, 0);
}

/* One line on standard error, the exit code, nothing printed. */
static void
assert_refused (SwSpawned *spawned, int code)
{
  g_autoptr (SwSpawned) owned = spawned;

  g_assert_cmpint (owned->code, ==, code);
  g_assert_cmpstr (owned->out, ==, "");
  g_assert_true (g_str_has_prefix (owned->err, "stillwarden: "));
}

static void
test_refused (gconstpointer data)
{
  const char *command = data;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *taken = beside (plant, "taken.stillwarden");
  g_autofree char *missing = beside (plant, "missing.stillwarden");
  g_autofree char *nowhere = beside (plant, "no-such-folder/x.stillwarden");
  g_autofree char *contents = NULL;

  g_assert_true (g_file_set_contents (taken, "somebody's", -1, NULL));
  assert_refused (run (command, plant->path, NULL), 2);
  assert_refused (run (command, plant->path, taken), 1);
  assert_refused (run (command, plant->path, nowhere), 1);
  assert_refused (run (command, missing, nowhere), 1);
  assert_refused (run (command, taken, missing), 1);
  g_assert_true (g_file_get_contents (taken, &contents, NULL, NULL));
  g_assert_cmpstr (contents, ==, "somebody's");
  g_assert_false (g_file_test (missing, G_FILE_TEST_EXISTS));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  sw_spawn_init (argc, argv);
  g_test_add_data_func ("/backup/open", "backup", test_open);
  g_test_add_data_func ("/snapshot/open", "snapshot", test_open);
  g_test_add_func ("/backup/folder", test_folder);
  g_test_add_func ("/snapshot/read-only-folder", test_read_only_folder);
  g_test_add_data_func ("/backup/refused", "backup", test_refused);
  g_test_add_data_func ("/snapshot/refused", "snapshot", test_refused);
  return g_test_run ();
}
