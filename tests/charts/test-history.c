/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Geometry of a history: where each kind of result lies, and the invariants of history-geometry.h
 * for histories and pictures of all sizes. */
#include "chart-fixture.h"
#include "support/support.h"

typedef struct
{
  const char *name;
  SwOutcomeKind kind;
  double low, high; /* of the result */
  double drawn_low, drawn_high;
  gboolean open_low, open_high;
} MarkRow;

static const MarkRow mark_rows[] = {
  { "passed", SW_OUTCOME_PASSED, -INFINITY, 0.0, 0.0, 0.0, TRUE, FALSE },
  { "passed above an addition", SW_OUTCOME_PASSED, -INFINITY, 2.4, 2.4, 2.4, TRUE, FALSE },
  { "acid", SW_OUTCOME_ACID_FOUND, 2.0, 3.0, 2.0, 3.0, FALSE, FALSE },
  { "over range", SW_OUTCOME_OVER_RANGE, 20.0, INFINITY, 20.0, 20.0, FALSE, TRUE },
  { "reserve", SW_OUTCOME_RESERVE_FOUND, -4.0, -3.0, -4.0, -3.0, FALSE, FALSE },
  { "no reserve", SW_OUTCOME_NO_RESERVE, 0.0, INFINITY, 0.0, 0.0, FALSE, TRUE },
  { "reserve over range", SW_OUTCOME_RESERVE_OVER_RANGE, -INFINITY, -8.0, -8.0, -8.0, TRUE, FALSE },
};

static void
test_mark (gconstpointer data)
{
  const MarkRow *row = data;
  g_autoptr (SwHistory) history = sw_history_new ();
  g_autoptr (SwHistoryChart) chart = NULL;
  const SwChartMark *mark;

  chart_add_test (history, 3.0, row->kind, row->low, row->high);
  chart = chart_lay_out (history, 800.0, 300.0);
  g_assert_cmpuint (chart->marks->len, ==, 1);
  mark = &g_array_index (chart->marks, SwChartMark, 0);
  g_assert_cmpint (mark->titration, ==, 1);
  sw_assert_close (mark->x, sw_history_chart_x (chart, CHART_START_MS + 3 * CHART_DAY_MS), 1e-12);
  sw_assert_close (mark->y_low, sw_history_chart_y (chart, row->drawn_low), 1e-12);
  sw_assert_close (mark->y_high, sw_history_chart_y (chart, row->drawn_high), 1e-12);
  g_assert_cmpint (mark->open_low, ==, row->open_low);
  g_assert_cmpint (mark->open_high, ==, row->open_high);
}

static gboolean
boxes_overlap (const SwChartBox *a, const SwChartBox *b)
{
  return a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height
         && b->y < a->y + a->height;
}

static void
check_labels (const SwHistoryChart *chart)
{
  for (guint i = 0; i < chart->labels->len; i++)
    {
      const SwChartLabel *label = chart->labels->pdata[i];

      g_assert_cmpfloat (label->box.x, >=, 0.0);
      g_assert_cmpfloat (label->box.y, >=, 0.0);
      g_assert_cmpfloat (label->box.x + label->box.width, <=, chart->width);
      g_assert_cmpfloat (label->box.y + label->box.height, <=, chart->height);
      for (guint k = 0; k < i; k++)
        g_assert_false (
            boxes_overlap (&label->box, &((const SwChartLabel *)chart->labels->pdata[k])->box));
    }
}

static void
check_inside (const SwHistoryChart *chart, double x, double y)
{
  const SwChartBox *plot = &chart->plot;

  g_assert_cmpfloat (x, >=, plot->x);
  g_assert_cmpfloat (x, <=, plot->x + plot->width);
  g_assert_cmpfloat (y, >=, plot->y);
  g_assert_cmpfloat (y, <=, plot->y + plot->height);
}

typedef struct
{
  const char *name;
  guint n;
  double width, height;
} SizeRow;

static const SizeRow size_rows[] = {
  { "empty", 0, 1000.0, 300.0 },      { "one test", 1, 1000.0, 300.0 },
  { "two small", 2, 600.0, 200.0 },   { "half a year", 180, 1000.0, 300.0 },
  { "crowded", 180, 600.0, 200.0 },   { "5000 tests", 5000, 1000.0, 300.0 },
  { "tiny picture", 50, 90.0, 60.0 }, { "no picture", 5, 0.0, 0.0 },
};

static void
test_invariants (gconstpointer data)
{
  const SizeRow *row = data;
  g_autoptr (SwHistory) history = chart_make_history (row->n);
  g_autoptr (SwHistoryChart) chart = chart_lay_out (history, row->width, row->height);
  double before = -INFINITY;

  g_assert_cmpuint (chart->marks->len, ==, row->n);
  for (guint i = 0; i < chart->marks->len; i++)
    {
      const SwChartMark *mark = &g_array_index (chart->marks, SwChartMark, i);

      check_inside (chart, mark->x, mark->y_low);
      check_inside (chart, mark->x, mark->y_high);
      g_assert_cmpfloat (mark->y_high, <=, mark->y_low);
      g_assert_cmpfloat (mark->x, >=, before);
      before = mark->x;
    }
  g_assert_cmpuint (chart->lines->len, ==,
                    history->doses->len + history->events->len + (history->due_ms != 0));
  for (guint i = 0; i < chart->lines->len; i++)
    check_inside (chart, g_array_index (chart->lines, SwChartLine, i).x, chart->plot.y);
  check_labels (chart);
}

/* Half the strength per step in the old test: its 4 drops are 2 of today's. */
static void
test_steps_of_all_years (void)
{
  g_autoptr (SwHistory) history = sw_history_new ();
  g_autoptr (SwHistoryChart) chart = NULL;

  chart_add_test (history, 0.0, SW_OUTCOME_ACID_FOUND, 2.0, 4.0);
  g_array_index (history->tests, SwHistoryTest, 0).per_step = 0.2;
  chart_add_test (history, 300.0, SW_OUTCOME_ACID_FOUND, 1.0, 2.0);
  chart = chart_lay_out (history, 800.0, 300.0);
  for (guint i = 0; i < 2; i++)
    {
      const SwChartMark *mark = &g_array_index (chart->marks, SwChartMark, i);

      sw_assert_close (mark->y_high, sw_history_chart_y (chart, 2.0), 1e-12);
      sw_assert_close (mark->y_low, sw_history_chart_y (chart, 1.0), 1e-12);
    }
}

/* The next test is named, whatever else wants the room. */
static void
test_due_is_named (void)
{
  g_autoptr (SwHistory) history = chart_make_history (400);
  g_autoptr (SwHistoryChart) chart = chart_lay_out (history, 600.0, 200.0);
  gboolean found = FALSE;

  for (guint i = 0; i < chart->labels->len; i++)
    {
      const SwChartLabel *label = chart->labels->pdata[i];

      found |= g_str_has_prefix (pango_layout_get_text (label->layout), "next test ");
    }
  g_assert_true (found);
}

static void
test_describe (void)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "Europe/Berlin");
  g_autoptr (SwHistory) empty = sw_history_new ();
  g_autoptr (SwHistory) history = sw_history_new ();
  g_autofree char *nothing = sw_history_chart_describe (empty, wording);
  g_autofree char *text = NULL;

  g_assert_cmpstr (nothing, ==, "No test yet.");
  chart_add_test (history, 0.0, SW_OUTCOME_PASSED, -INFINITY, 0.0);
  chart_add_test (history, 1.0, SW_OUTCOME_ACID_FOUND, 2.0, 3.0);
  chart_add_test (history, 2.0, SW_OUTCOME_PASSED, -INFINITY, 0.0);
  chart_add_dose (history, 1.1, 9, 1260.0);
  history->due_ms = CHART_START_MS + 5 * CHART_DAY_MS;
  text = sw_history_chart_describe (history, wording);
  g_assert_cmpstr (text, ==,
                   "3 tests from 4 May 2026 to 6 May 2026. 1 of them found acid, on 5 May 2026. "
                   "1 dose of neutraliser: 1260\u202fmL on 5 May 2026. Next test: 9 May 2026.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/charts/history/mark", mark_rows, test_mark);
  SW_TEST_ROWS ("/charts/history/invariants", size_rows, test_invariants);
  g_test_add_func ("/charts/history/steps-of-all-years", test_steps_of_all_years);
  g_test_add_func ("/charts/history/due-is-named", test_due_is_named);
  g_test_add_func ("/charts/history/describe", test_describe);
  return g_test_run ();
}
