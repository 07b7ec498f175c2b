/* SPDX-License-Identifier: GPL-3.0-or-later */
/* verify: a file as the program left it, one that another tool changed, and what is no file of
 * ours. */
#include "records/checkpoint.h"
#include "records/verify.h"
#include "spawn.h"
#include "support/plant.h"

#include <glib/gstdio.h>
#include <string.h>

/* @options may be "". */
static SwSpawned *
verify_with (const char *path, const char *options)
{
  g_autofree char *quoted = g_shell_quote (path);
  g_autofree char *arguments = g_strconcat ("verify ", quoted, " ", options, NULL);

  return sw_spawn (arguments, NULL);
}

static SwSpawned *
verify (const char *path)
{
  return verify_with (path, "");
}

static void
close_plant (SwTestPlant *plant)
{
  g_clear_pointer (&plant->store, sw_store_close);
}

/* Another tool: the sqlite3 shell. (transfer full) */
static char *
run_sql (const char *path, const char *sql)
{
  const char *const argv[] = { "sqlite3", path, sql, NULL };
  g_autoptr (GError) error = NULL;
  char *output = NULL;
  int status = 0;

  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &output, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return g_strchomp (output);
}

static void
test_fine (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *hash = NULL;
  g_autofree char *rows = NULL;
  g_autofree char *line = NULL;
  g_autofree char *count = NULL;
  g_autoptr (SwSpawned) spawned = NULL;

  close_plant (plant);
  hash = run_sql (plant->path, "SELECT hash FROM journal ORDER BY seq DESC LIMIT 1");
  rows = run_sql (plant->path, "SELECT count(*) FROM journal");
  line = g_strconcat ("head\t", hash, NULL);
  count = g_strconcat ("journal_rows\t", rows, NULL);
  spawned = verify (plant->path);
  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  g_assert_cmpint ((int)strlen (hash), ==, 64);
  g_assert_true (sw_spawned_has_line (spawned, line));
  g_assert_true (sw_spawned_has_line (spawned, count));
  g_assert_null (strstr (spawned->out, "finding"));
}

typedef struct
{
  const char *name;
  const char *sql;
  const char *line; /* start of a finding */
} Row;

static const Row rows[] = {
  { "a trigger gone", "DROP TRIGGER machine_delete", "finding\tschema\t" },
  { "a view more", "CREATE VIEW extra AS SELECT 1", "finding\tschema\t" },
  { "a name changed", "DROP TRIGGER machine_update; UPDATE machine SET name = 'Other' WHERE id = 1",
    "finding\trow_changed\t" },
  { "a row gone",
    "PRAGMA foreign_keys = OFF; DROP TRIGGER solvent_delete; DELETE FROM solvent WHERE id = 1",
    "finding\trow_missing\t" },
};

static void
test_changed (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *output = NULL;
  g_autofree char *line = NULL;
  g_autoptr (SwSpawned) spawned = NULL;

  close_plant (plant);
  output = run_sql (plant->path, row->sql);
  spawned = verify (plant->path);
  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 3);
  line = g_strconcat ("\n", row->line, NULL);
  if (!g_str_has_prefix (spawned->out, row->line) && strstr (spawned->out, line) == NULL)
    g_error ("no %s in:\n%s", row->line, spawned->out);
  g_assert_nonnull (strstr (spawned->out, "\nhead\t"));
}

/* What another tool wrote into the file cannot pass for a line of ours, nor for no text at all. */
static void
test_forged_line (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *output = NULL;
  g_autoptr (SwSpawned) spawned = NULL;
  g_auto (GStrv) lines = NULL;
  guint heads = 0;

  close_plant (plant);
  output = run_sql (plant->path,
                    "DROP TRIGGER machine_update; UPDATE machine SET name ="
                    " 'x' || char(10) || 'head' || char(9) || 'forged' || CAST(x'ae' AS TEXT);"
                    "CREATE VIEW extra AS SELECT 1 AS\nhead\t, 2 AS b");
  spawned = verify (plant->path);
  g_assert_cmpint (spawned->code, ==, 3);
  g_assert_true (g_utf8_validate (spawned->out, -1, NULL));
  lines = g_strsplit (spawned->out, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    heads += g_str_has_prefix (lines[i], "head");
  g_assert_cmpuint (heads, ==, 1);
  g_assert_nonnull (strstr (spawned->out, "forged"));
}

/* Exit 1, one line, nothing printed, the file as it was. */
static void
assert_refused (const char *path)
{
  g_autoptr (SwSpawned) spawned = verify (path);

  g_assert_cmpint (spawned->code, ==, 1);
  g_assert_cmpstr (spawned->out, ==, "");
  g_assert_true (g_str_has_prefix (spawned->err, "stillwarden: "));
  g_assert_true (strchr (spawned->err, '\n') == spawned->err + strlen (spawned->err) - 1);
}

static void
test_refused (void)
{
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "text.txt", NULL);
  g_autofree char *missing = g_build_filename (folder, "missing", NULL);
  g_autofree char *contents = NULL;

  g_assert_true (g_file_set_contents (path, "no database", -1, NULL));
  assert_refused (path);
  assert_refused (missing);
  assert_refused (folder);
  g_assert_true (g_file_get_contents (path, &contents, NULL, NULL));
  g_assert_cmpstr (contents, ==, "no database");
  g_assert_false (g_file_test (missing, G_FILE_TEST_EXISTS));
}

/* ---- heads and checkpoints ---- */

static char *
get_trust (SwTestPlant *plant)
{
  g_autofree char *folder = g_path_get_dirname (plant->path);

  return g_build_filename (folder, "trust", NULL);
}

static void
test_head (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *head = sw_journal_head (plant->store, NULL);
  g_autofree char *first = NULL;
  g_autofree char *both = NULL;
  g_autofree char *other = NULL;
  g_autoptr (SwSpawned) good = NULL;
  g_autoptr (SwSpawned) bad = NULL;
  g_autoptr (SwSpawned) slip = NULL;
  g_autofree char *line = NULL;

  close_plant (plant);
  first = run_sql (plant->path, "SELECT hash FROM journal WHERE seq = 1");
  both = g_strdup_printf ("--head %s --head=%s", head, first);
  good = verify_with (plant->path, both);
  g_assert_cmpstr (good->err, ==, "");
  g_assert_cmpint (good->code, ==, 0);
  head[3] = head[3] == '0' ? '1' : '0';
  other = g_strdup_printf ("--head %s --head %s", first, head);
  bad = verify_with (plant->path, other);
  g_assert_cmpint (bad->code, ==, 3);
  line = g_strdup_printf ("finding\thead\texpected=%s", head);
  g_assert_true (sw_spawned_has_line (bad, line));
  slip = verify_with (plant->path, "--head 12ab");
  g_assert_cmpint (slip->code, ==, 2);
  g_assert_true (g_str_has_prefix (slip->err, "stillwarden: --head: "));
}

static void
test_trust (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *trust = get_trust (plant);
  g_autofree char *saved = g_strconcat (plant->path, ".saved", NULL);
  g_autofree char *options = g_strdup_printf ("--trust '%s' --quick", trust);
  g_autoptr (SwSpawned) good = NULL;
  g_autoptr (SwSpawned) bad = NULL;
  g_autoptr (SwSpawned) elsewhere = NULL;
  g_autoptr (SwSpawned) nowhere = NULL;
  g_autofree char *from = NULL;
  GError *error = NULL;
  gint64 seq;

  sw_store_copy (plant->store, saved, &error);
  g_assert_no_error (error);
  sw_test_plant_add_machine (plant, "M-08");
  sw_checkpoint_sign (plant->store, trust, &seq, &error);
  g_assert_no_error (error);
  close_plant (plant);
  from = g_strdup_printf ("chain_from\t%" G_GINT64_FORMAT, seq + 1);
  good = verify_with (plant->path, options);
  g_assert_cmpint (good->code, ==, 0);
  g_assert_true (sw_spawned_has_line (good, from));
  g_assert_true (sw_spawned_has_line (good, "checkpoints_outside\t1"));
  nowhere = verify_with (plant->path, "--trust /nonexistent");
  g_assert_cmpint (nowhere->code, ==, 2);
  g_assert_true (g_str_has_prefix (nowhere->err, "stillwarden: --trust: "));
  elsewhere = verify_with (plant->path, "--trust /usr/share");
  g_assert_cmpint (elsewhere->code, ==, 0);
  g_assert_nonnull (strstr (elsewhere->out, "note\tcheckpoint\ttable=checkpoint column=key"));
  g_assert_true (sw_spawned_has_line (elsewhere, "checkpoints_outside\t0"));
  g_assert_cmpint (g_rename (saved, plant->path), ==, 0);
  bad = verify_with (plant->path, options);
  g_assert_cmpint (bad->code, ==, 3);
  g_assert_nonnull (strstr (bad->out, "finding\thead\tseq="));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  sw_spawn_init (argc, argv);
  g_test_add_func ("/verify/fine", test_fine);
  SW_TEST_ROWS ("/verify/changed", rows, test_changed);
  g_test_add_func ("/verify/forged-line", test_forged_line);
  g_test_add_func ("/verify/refused", test_refused);
  g_test_add_func ("/verify/head", test_head);
  g_test_add_func ("/verify/trust", test_trust);
  return g_test_run ();
}
