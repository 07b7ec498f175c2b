/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file of an earlier version as an auditor has it: read-only, in a folder of its own. The
 * commands that read do their work on it, and folder and file stay as they are to the byte. What
 * they say is compared with the sqlite3 shell. */
#include "spawn.h"
#include "support/support.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct
{
  SwTestFolder *folder;    /* Owned; 0555 */
  SwTestFolder *elsewhere; /* Owned: where exports go */
  char *path;              /* Owned; 0444 */
  char *before;            /* Owned: what describe said */
} Older;

static char *run_shell (const char *format, ...) G_GNUC_PRINTF (1, 2);

/* The standard output of a command line; a failure fails the test. (transfer full) */
static char *
run_shell (const char *format, ...)
{
  g_autofree char *command = NULL;
  g_autoptr (GError) error = NULL;
  char *output = NULL;
  int status = 0;
  va_list args;

  va_start (args, format);
  command = g_strdup_vprintf (format, args);
  va_end (args);
  g_spawn_sync (NULL, (char *[]){ (char *)"/bin/sh", (char *)"-c", command, NULL }, NULL,
                G_SPAWN_DEFAULT, NULL, NULL, &output, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return g_strchomp (output);
}

/* The folder itself, too: a file that came and went has changed its time. */
static char *
describe (Older *older)
{
  return run_shell ("cd '%s' && ls -lad --time-style=full-iso . * && sha256sum *", older->folder);
}

static void
set_up (Older *older, gconstpointer data)
{
  g_autofree char *source = sw_test_source_path (data);
  g_autofree char *copied = NULL;

  older->folder = sw_test_folder_new ();
  older->elsewhere = sw_test_folder_new ();
  older->path = g_build_filename (older->folder, "snapshot.stillwarden", NULL);
  copied = run_shell ("cp '%s' '%s'", source, older->path);
  g_assert_cmpint (g_chmod (older->path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (older->folder, 0555), ==, 0);
  older->before = describe (older);
}

static void
tear_down (Older *older, gconstpointer data)
{
  g_autofree char *after = describe (older);

  g_assert_cmpstr (after, ==, older->before);
  g_assert_cmpint (g_chmod (older->folder, 0755), ==, 0);
  sw_test_folder_free (older->folder);
  sw_test_folder_free (older->elsewhere);
  g_free (older->path);
  g_free (older->before);
}

static char *
ask (Older *older, const char *sql)
{
  return run_shell ("sqlite3 'file:%s?immutable=1' \"%s\"", older->path, sql);
}

static SwSpawned *
run (Older *older, const char *command, const char *rest)
{
  g_autofree char *line = g_strdup_printf ("%s '%s' %s", command, older->path, rest);

  return sw_spawn (line, NULL);
}

static void
test_verify (Older *older, gconstpointer data)
{
  g_autofree char *head = ask (older, "select hash from journal order by seq desc limit 1");
  g_autofree char *line = g_strconcat ("head\t", head, NULL);
  g_autoptr (SwSpawned) spawned = run (older, "verify", "");

  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  g_assert_null (strstr (spawned->out, "finding"));
  g_assert_true (sw_spawned_has_line (spawned, line));
}

static void
test_export (Older *older, gconstpointer data)
{
  g_autofree char *book = g_build_filename (older->elsewhere, "all.xlsx", NULL);
  g_autofree char *rest = g_strdup_printf ("--xlsx '%s' --at 2026-11-27T12:00:00+01:00", book);
  g_autofree char *titrations = ask (older, "select count(*) from titration");
  g_autofree char *version = ask (older, "pragma user_version");
  g_autoptr (SwSpawned) spawned = run (older, "export", rest);
  g_autofree char *rows = NULL;
  g_autofree char *schema = NULL;

  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  rows = run_shell (
      "/usr/bin/python3 -c \"import openpyxl; s = openpyxl.load_workbook('%s')['Tests'];"
      " print(sum(1 for r in s.iter_rows(min_row=2, max_col=1) if r[0].value))\"",
      book);
  g_assert_cmpint (atoi (titrations), >, 0);
  g_assert_cmpstr (rows, ==, titrations);
  /* the provenance tells the version that the file has */
  schema = run_shell ("/usr/bin/python3 -c \"import openpyxl; b = openpyxl.load_workbook('%s');"
                      " print(*[r[1].value for s in b for r in s.iter_rows(max_col=2)"
                      " if r[0].value and str(r[0].value).endswith('tables')])\"",
                      book);
  g_assert_cmpstr (schema, ==, version);
}

/* The journal in words. */
static void
test_journal (Older *older, gconstpointer data)
{
  g_autoptr (SwSpawned) spawned = run (older, "journal", "");

  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  g_assert_nonnull (strstr (spawned->out, "Invented"));
}

/* A snapshot of it is a file of the same version, with the same head, and sound. */
static void
test_snapshot (Older *older, gconstpointer data)
{
  g_autofree char *out = g_build_filename (older->elsewhere, "copy.stillwarden", NULL);
  g_autofree char *rest = g_strdup_printf ("'%s'", out);
  g_autofree char *head = ask (older, "select hash from journal order by seq desc limit 1");
  g_autofree char *version = ask (older, "pragma user_version");
  g_autofree char *arguments = g_strdup_printf ("verify '%s'", out);
  g_autoptr (SwSpawned) spawned = run (older, "snapshot", rest);
  g_autoptr (SwSpawned) verified = sw_spawn (arguments, NULL);
  g_autofree char *copied_head = NULL;
  g_autofree char *copied_version = NULL;

  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  g_assert_cmpint (verified->code, ==, 0);
  copied_head = sw_spawned_value (verified, "head");
  g_assert_cmpstr (copied_head, ==, head);
  copied_version = run_shell ("sqlite3 'file:%s?immutable=1' 'pragma user_version'", out);
  g_assert_cmpstr (copied_version, ==, version);
}

int
main (int argc, char **argv)
{
  static const char file[] = "tests/records/data/version-1.stillwarden";

  g_test_init (&argc, &argv, NULL);
  sw_spawn_init (argc, argv);
  g_test_add ("/older/version-1/verify", Older, file, set_up, test_verify, tear_down);
  g_test_add ("/older/version-1/export", Older, file, set_up, test_export, tear_down);
  g_test_add ("/older/version-1/journal", Older, file, set_up, test_journal, tear_down);
  g_test_add ("/older/version-1/snapshot", Older, file, set_up, test_snapshot, tear_down);
  return g_test_run ();
}
