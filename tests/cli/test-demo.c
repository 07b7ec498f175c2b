/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demo plant: whole, sound, the same each time, and with something to do, whenever it ends. */
#include "cli/demo.h"
#include "records/export.h"
#include "records/verify.h"
#include "support/support.h"
#include "workflow/due.h"
#include "workflow/recompute.h"

#include <glib/gstdio.h>

#define S(seconds) (G_GINT64_CONSTANT (seconds) * 1000)

typedef struct
{
  const char *name;
  gint64 at_ms;
} EndRow;

/* TZ=Europe/Berlin date -d '...' +%s */
static const EndRow end_rows[] = {
  { "forenoon", S (1795000000) },           /* 2026-11-18 12:06:40 */
  { "after midnight", S (1795048200) },     /* 2026-11-19 01:30 */
  { "before midnight", S (1795042680) },    /* 2026-11-18 23:58 */
  { "summer time begins", S (1774758600) }, /* 2026-03-29 06:30 */
  { "summer time ends", S (1792902600) },   /* 2026-10-25 05:30 */
  { "leap day", S (1835427600) },           /* 2028-02-29 10:00 */
};

static SwStore *
open_demo (const char *path, gint64 at_ms)
{
  GError *error = NULL;
  SwDemoCounts counts;
  SwStore *store;

  g_assert_true (sw_demo_create (path, at_ms, &counts, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (counts.machines, ==, 4);
  g_assert_cmpuint (counts.tests, >, 250);
  g_assert_cmpuint (counts.doses, >, 25);
  store = sw_store_open (path, SW_OPEN_READ_ONLY, NULL, &error);
  g_assert_no_error (error);
  return store;
}

static void
assert_sound (SwStore *store)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwVerifyReport) report = sw_verify_full (store, NULL, NULL, &error);

  g_assert_no_error (error);
  sw_recompute_all (store, report, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_cmpint (report->record_rows, >, 2000);
}

static const SwTodo *
find_todo (const GArray *todos, SwTodoKind kind, gint64 machine)
{
  for (guint i = 0; i < todos->len; i++)
    {
      const SwTodo *todo = &g_array_index (todos, SwTodo, i);

      if (todo->kind == kind && todo->due && (machine == 0 || todo->machine == machine))
        return todo;
    }
  return NULL;
}

static gint64
find_machine (SwStore *store, const char *tag)
{
  g_autoptr (GArray) ids = sw_record_ids_by_text (store, SW_TABLE_MACHINE, "tag", tag, NULL);

  g_assert_cmpuint (ids->len, ==, 1);
  return g_array_index (ids, gint64, 0);
}

/* One test to resume, one re-test due, one test due today, one lot about to expire. */
static void
assert_something_to_do (SwStore *store, gint64 at_ms)
{
  GError *error = NULL;
  g_autoptr (GArray) todos = sw_todo_list (store, at_ms, &error);
  const SwTodo *due;

  g_assert_no_error (error);
  g_assert_nonnull (find_todo (todos, SW_TODO_RESUME, find_machine (store, "M-14")));
  g_assert_nonnull (find_todo (todos, SW_TODO_RETEST, find_machine (store, "M-07")));
  due = find_todo (todos, SW_TODO_TEST, find_machine (store, "M-03"));
  g_assert (due != NULL);
  g_assert_cmpint (due->due_ms - at_ms, <, S (86400));
  g_assert_cmpint (due->due_ms, >=, at_ms);
  g_assert_nonnull (find_todo (todos, SW_TODO_LOT, 0));
}

static double
sum_doses (const SwHistory *history, guint from, guint to)
{
  double sum = 0.0;

  for (guint i = from; i < to; i++)
    sum += g_array_index (history->doses, SwHistoryDose, i).steps;
  return sum;
}

static SwHistory *
load_history (SwStore *store, const char *tag, gint64 at_ms)
{
  GError *error = NULL;
  SwHistory *history = sw_machine_history (store, find_machine (store, tag), at_ms, 0, &error);

  g_assert_no_error (error);
  return history;
}

/* Neutraliser a day in the first and the second half of the doses. */
static double
compare_halves (const SwHistory *history)
{
  const guint n = history->doses->len, middle = n / 2;
  const SwHistoryDose *doses = (const SwHistoryDose *)(gpointer)history->doses->data;
  const double early
      = sum_doses (history, 0, middle) / (double)(doses[middle].at_ms - doses[0].at_ms);
  const double late
      = sum_doses (history, middle, n - 1) / (double)(doses[n - 1].at_ms - doses[middle].at_ms);

  return late / early;
}

/* Each machine is what plant.ini says of it. */
static void
assert_four_stories (SwStore *store, gint64 at_ms)
{
  g_autoptr (SwHistory) calm = load_history (store, "M-03", at_ms);
  g_autoptr (SwHistory) sour = load_history (store, "M-07", at_ms);
  g_autoptr (SwHistory) recovering = load_history (store, "M-11", at_ms);
  g_autoptr (SwHistory) few = load_history (store, "M-14", at_ms);
  guint n_fills = 0;

  g_assert_cmpuint (calm->doses->len, <=, 3);
  g_assert_cmpuint (sour->doses->len, >, 15);
  g_assert_cmpfloat (compare_halves (sour), >, 1.3);
  g_assert_cmpuint (recovering->doses->len, >, 5);
  for (guint i = 0; i < recovering->events->len; i++)
    n_fills += g_array_index (recovering->events, SwHistoryEvent, i).kind == SW_HISTORY_FILL;
  g_assert_cmpuint (n_fills, ==, 2);
  /* the last dose long ago: the new solvent stays neutral */
  g_assert_cmpint (
      at_ms - g_array_index (recovering->doses, SwHistoryDose, recovering->doses->len - 1).at_ms, >,
      40 * S (86400));
  g_assert_cmpuint (few->tests->len, <, 6);
}

static void
test_demo (gconstpointer data)
{
  const EndRow *row = data;
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "demo.swlog", NULL);
  g_autoptr (SwStore) store = open_demo (path, row->at_ms);
  g_autoptr (SwSite) site = sw_site_get (store, NULL);

  g_assert_true (site->demo);
  assert_sound (store);
  assert_something_to_do (store, row->at_ms);
  assert_four_stories (store, row->at_ms);
}

static GString *
list_tests (SwStore *store)
{
  const SwExportFilter filter = { 0 };
  g_autoptr (GArray) ids = sw_export_ids (store, SW_TABLE_TITRATION, &filter, NULL);
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwTitration) titration
          = sw_titration_load (store, g_array_index (ids, gint64, i), NULL);

      g_string_append_printf (out, "%" G_GINT64_FORMAT " %d %g %g\n", titration->record.happened_ms,
                              titration->outcome, titration->acid_at, titration->pass_at);
    }
  return out;
}

static void
test_same_each_time (void)
{
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *first_path = g_build_filename (folder, "first.swlog", NULL);
  g_autofree char *second_path = g_build_filename (folder, "second.swlog", NULL);
  g_autoptr (SwStore) first = open_demo (first_path, end_rows[0].at_ms);
  g_autoptr (SwStore) second = open_demo (second_path, end_rows[0].at_ms);
  g_autoptr (GString) one = list_tests (first);
  g_autoptr (GString) other = list_tests (second);

  g_assert_cmpstr (one->str, ==, other->str);
}

static void
test_refuses_existing (void)
{
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "mine", NULL);
  g_autofree char *contents = NULL;
  GError *error = NULL;

  g_assert_true (g_file_set_contents (path, "mine", -1, NULL));
  g_assert_false (sw_demo_create (path, end_rows[0].at_ms, NULL, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_EXISTS);
  g_clear_error (&error);
  g_assert_true (g_file_get_contents (path, &contents, NULL, NULL));
  g_assert_cmpstr (contents, ==, "mine");
}

/* One file at rest; nothing beside it. */
static void
test_leaves_one_file (void)
{
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "demo.swlog", NULL);
  g_autoptr (GDir) dir = NULL;
  const char *name;

  g_assert_true (sw_demo_create (path, end_rows[0].at_ms, NULL, NULL));
  dir = g_dir_open (folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    g_assert_cmpstr (name, ==, "demo.swlog");
}

static void
test_no_folder (void)
{
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "no", "demo.swlog", NULL);
  GError *error = NULL;

  g_assert_false (sw_demo_create (path, end_rows[0].at_ms, NULL, &error));
  g_assert_nonnull (error);
  g_assert_cmpint (error->domain, ==, SW_RECORDS_ERROR);
  g_clear_error (&error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/cli/demo/ends", end_rows, test_demo);
  g_test_add_func ("/cli/demo/same-each-time", test_same_each_time);
  g_test_add_func ("/cli/demo/refuses-existing", test_refuses_existing);
  g_test_add_func ("/cli/demo/leaves-one-file", test_leaves_one_file);
  g_test_add_func ("/cli/demo/no-folder", test_no_folder);
  return g_test_run ();
}
