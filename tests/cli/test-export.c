/* SPDX-License-Identifier: GPL-3.0-or-later */
/* demo and export as people run them: exit codes, one line of complaint, what is in the workbook.
 * Rows are counted by openpyxl, and beside it by the sqlite3 shell in the file itself. */
#include "spawn.h"
#include "support/support.h"

#include <string.h>

#define AT "2026-11-18T12:00:00+01:00"

/* A demo plant for all tests of this program. */
static SwTestFolder *folder;

static SwSpawned *run (const char *format, ...) G_GNUC_PRINTF (1, 2);

static SwSpawned *
run (const char *format, ...)
{
  g_autofree char *arguments = NULL;
  va_list args;

  va_start (args, format);
  arguments = g_strdup_vprintf (format, args);
  va_end (args);
  return sw_spawn (arguments, NULL);
}

static char *
run_tool (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  char *output = NULL;
  int status = 0;

  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &output, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return g_strchomp (output);
}

static int
count_rows (const char *book, const char *sheet)
{
  const char *const argv[]
      = { "/usr/bin/python3",
          "-c",
          "import sys, openpyxl\n"
          "sheet = openpyxl.load_workbook(sys.argv[1])[sys.argv[2]]\n"
          "print(sum(1 for row in sheet.iter_rows(min_row=2, max_col=1) if row[0].value))",
          book,
          sheet,
          NULL };
  g_autofree char *text = run_tool (argv);

  return atoi (text);
}

static int
count_in_file (const char *sql)
{
  g_autofree char *path = g_build_filename (folder, "demo.swlog", NULL);
  const char *const argv[] = { "sqlite3", "-readonly", path, sql, NULL };
  g_autofree char *text = run_tool (argv);

  return atoi (text);
}

static void
assert_complaint (const SwSpawned *spawned, int code, const char *part)
{
  const char *end = strchr (spawned->err, '\n');

  g_assert_cmpint (spawned->code, ==, code);
  g_assert_cmpstr (spawned->out, ==, "");
  g_assert_nonnull (strstr (spawned->err, part));
  g_assert_nonnull (end);
  g_assert_cmpstr (end, ==, "\n");
}

static void
test_demo_again (void)
{
  g_autoptr (SwSpawned) spawned = run ("demo '%s/demo.swlog'", folder);

  assert_complaint (spawned, 1, "already a file of that name");
}

static void
test_demo_verifies (void)
{
  g_autoptr (SwSpawned) spawned = run ("verify '%s/demo.swlog'", folder);

  g_assert_cmpint (spawned->code, ==, 0);
}

static void
test_export (void)
{
  g_autofree char *book = g_build_filename (folder, "all.xlsx", NULL);
  g_autoptr (SwSpawned) spawned = run ("export '%s/demo.swlog' --xlsx '%s' --at " AT, folder, book);
  g_autofree char *head = NULL;
  const char *const sql[] = { "sqlite3", "-readonly", NULL,
                              "select hash from journal order by seq desc limit 1", NULL };
  g_autofree char *path = g_build_filename (folder, "demo.swlog", NULL);
  const char *argv[G_N_ELEMENTS (sql)];
  g_autofree char *wanted = NULL;

  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  memcpy (argv, sql, sizeof argv);
  argv[2] = path;
  wanted = run_tool (argv);
  head = sw_spawned_value (spawned, "head");
  g_assert_cmpstr (head, ==, wanted);
  g_assert_cmpint (count_rows (book, "Machines"), ==, 4);
  g_assert_cmpint (count_rows (book, "Tests"), ==,
                   count_in_file ("select count(*) from titration"));
  g_assert_cmpint (count_rows (book, "Readings"), ==,
                   count_in_file ("select count(*) from reading"));
  g_assert_cmpint (count_rows (book, "Doses"), ==, count_in_file ("select count(*) from dose"));
}

static void
test_same_bytes (void)
{
  char *paths[2] = { NULL };
  char *contents[2] = { NULL };
  gsize lengths[2];

  for (int i = 0; i < 2; i++)
    {
      g_autoptr (SwSpawned) spawned = NULL;

      paths[i] = g_strdup_printf ("%s/same-%d.xlsx", folder, i);
      spawned = run ("export '%s/demo.swlog' --xlsx '%s' --at " AT, folder, paths[i]);
      g_assert_cmpint (spawned->code, ==, 0);
      g_assert_true (g_file_get_contents (paths[i], &contents[i], &lengths[i], NULL));
    }
  g_assert_cmpmem (contents[0], lengths[0], contents[1], lengths[1]);
  for (int i = 0; i < 2; i++)
    {
      g_free (paths[i]);
      g_free (contents[i]);
    }
}

/* From 1 to 30 June by the plant's days; the plant is in a zone two hours east of UTC then. */
static void
test_filter (void)
{
  g_autofree char *book = g_build_filename (folder, "june.xlsx", NULL);
  g_autoptr (SwSpawned) spawned
      = run ("export '%s/demo.swlog' --xlsx '%s' --machine M-07 --from 2026-06-01 --to 2026-06-30",
             folder, book);
  int n;

  g_assert_cmpstr (spawned->err, ==, "");
  n = count_in_file ("select count(*) from titration join sample on sample.id = titration.sample"
                     " join machine on machine.id = sample.machine where machine.tag = 'M-07' and"
                     " date(sample.happened_ms / 1000 + 7200, 'unixepoch')"
                     " between '2026-06-01' and '2026-06-30'");
  g_assert_cmpint (n, >, 10);
  g_assert_cmpint (count_rows (book, "Tests"), ==, n);
  g_assert_cmpint (count_rows (book, "Machines"), ==, 1);
}

static void
test_existing (void)
{
  g_autofree char *book = g_build_filename (folder, "there.xlsx", NULL);
  g_autoptr (SwSpawned) refused = NULL;
  g_autoptr (SwSpawned) forced = NULL;

  g_assert_true (g_file_set_contents (book, "mine", -1, NULL));
  refused = run ("export '%s/demo.swlog' --xlsx '%s'", folder, book);
  assert_complaint (refused, 1, "there already");
  forced = run ("export '%s/demo.swlog' --xlsx '%s' --force", folder, book);
  g_assert_cmpint (forced->code, ==, 0);
  g_assert_cmpint (count_rows (book, "Machines"), ==, 4);
}

typedef struct
{
  const char *name;
  const char *options; /* behind export FILE */
  int code;
  const char *part; /* of the complaint */
} ComplaintRow;

static const ComplaintRow complaint_rows[] = {
  { "no workbook", "", 2, "--xlsx" },
  { "bad date", "--xlsx /no/such/x.xlsx --from yesterday", 2, "--from" },
  { "day that is not", "--xlsx /no/such/x.xlsx --to 2026-02-30", 2, "--to" },
  { "unknown machine", "--xlsx /no/such/x.xlsx --machine M-99", 1, "M-99" },
  { "unknown language", "--xlsx /no/such/x.xlsx --language qq", 2, "--language" },
  { "unknown option", "--xlsx /no/such/x.xlsx --csv x", 2, "--csv" },
  { "no folder", "--xlsx /no/such/x.xlsx", 1, "No such file" },
};

static void
test_complaint (gconstpointer data)
{
  const ComplaintRow *row = data;
  g_autoptr (SwSpawned) spawned = run ("export '%s/demo.swlog' %s", folder, row->options);

  assert_complaint (spawned, row->code, row->part);
}

int
main (int argc, char **argv)
{
  g_autoptr (SwSpawned) spawned = NULL;
  int result;

  g_test_init (&argc, &argv, NULL);
  sw_spawn_init (argc, argv);
  folder = sw_test_folder_new ();
  spawned = run ("demo '%s/demo.swlog' --at " AT, folder);
  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_true (sw_spawned_has_line (spawned, "machines\t4"));
  g_test_add_func ("/cli/export/demo-again", test_demo_again);
  g_test_add_func ("/cli/export/demo-verifies", test_demo_verifies);
  g_test_add_func ("/cli/export/all", test_export);
  g_test_add_func ("/cli/export/same-bytes", test_same_bytes);
  g_test_add_func ("/cli/export/filter", test_filter);
  g_test_add_func ("/cli/export/existing", test_existing);
  SW_TEST_ROWS ("/cli/export/complaint", complaint_rows, test_complaint);
  result = g_test_run ();
  sw_test_folder_free (folder);
  return result;
}
