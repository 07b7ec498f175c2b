/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a pointer means, by offsets from the places of known marks. */
#include "chart-fixture.h"
#include "support/support.h"

typedef enum
{
  NOTHING,
  TEST,
  DOSE
} What;

typedef struct
{
  const char *name;
  double day;    /* pointer: at this day ... */
  double steps;  /* ... and height ... */
  double dx, dy; /* ... moved by points */
  What what;
  gint64 id;
} HitRow;

/* Tests 1 (day 0, passed), 2 (day 10, acid 3), 3 (day 20, over range at 8); dose 77 on day 30. */
static const HitRow hit_rows[] = {
  { "on a disc", 0.0, 0.0, 0.0, 0.0, TEST, 1 },
  { "beside a disc", 0.0, 0.0, 15.0, 0.0, TEST, 1 },
  { "too far from a disc", 0.0, 0.0, 17.0, 0.0, NOTHING, 0 },
  { "above a disc", 0.0, 0.0, 0.0, -15.0, TEST, 1 },
  { "far above a disc", 0.0, 0.0, 0.0, -40.0, NOTHING, 0 },
  { "top of a bar", 10.0, 3.0, 0.0, 0.0, TEST, 2 },
  { "foot of a bar", 10.0, 0.0, 3.0, 0.0, TEST, 2 },
  { "middle of a bar", 10.0, 1.5, -12.0, 0.0, TEST, 2 },
  { "over range, on its bar", 20.0, 4.0, 5.0, 0.0, TEST, 3 },
  { "a dose's line", 30.0, 5.0, 2.0, 0.0, DOSE, 77 },
  { "off a dose's line", 30.0, 5.0, 16.5, 0.0, NOTHING, 0 },
};

static void
test_hit (gconstpointer data)
{
  const HitRow *row = data;
  g_autoptr (SwHistory) history = sw_history_new ();
  g_autoptr (SwHistoryChart) chart = NULL;
  SwChartHit hit = { 0 };
  gboolean found;

  chart_add_test (history, 0.0, SW_OUTCOME_PASSED, -INFINITY, 0.0);
  chart_add_test (history, 10.0, SW_OUTCOME_ACID_FOUND, 2.0, 3.0);
  chart_add_test (history, 20.0, SW_OUTCOME_OVER_RANGE, 8.0, INFINITY);
  chart_add_dose (history, 30.0, 77, 1260.0);
  history->now_ms = CHART_START_MS + 40 * CHART_DAY_MS;
  chart = chart_lay_out (history, 1000.0, 300.0);
  found = sw_history_chart_hit (
      chart,
      sw_history_chart_x (chart, CHART_START_MS + (gint64)(row->day * (double)CHART_DAY_MS))
          + row->dx,
      sw_history_chart_y (chart, row->steps) + row->dy, &hit);
  g_assert_cmpint (found, ==, row->what != NOTHING);
  g_assert_cmpint (hit.titration, ==, row->what == TEST ? row->id : 0);
  g_assert_cmpint (hit.dose, ==, row->what == DOSE ? row->id : 0);
}

/* A dose stands an hour after its test: on the bar the test is meant, high above it the dose. */
static void
test_dose_beside_test (void)
{
  g_autoptr (SwHistory) history = sw_history_new ();
  g_autoptr (SwHistoryChart) chart = NULL;
  SwChartHit hit = { 0 };
  double x;

  chart_add_test (history, 0.0, SW_OUTCOME_OVER_RANGE, 9.0, INFINITY);
  chart_add_test (history, 50.0, SW_OUTCOME_ACID_FOUND, 1.0, 2.0);
  chart_add_dose (history, 50.04, 5, 840.0);
  chart = chart_lay_out (history, 1000.0, 300.0);
  x = g_array_index (chart->marks, SwChartMark, 1).x;
  g_assert_true (sw_history_chart_hit (chart, x + 1.0, sw_history_chart_y (chart, 1.0), &hit));
  g_assert_cmpint (hit.titration, ==, 2);
  g_assert_true (sw_history_chart_hit (chart, x + 1.0, chart->plot.y + 5.0, &hit));
  g_assert_cmpint (hit.dose, ==, 5);
  g_assert_cmpint (hit.titration, ==, 0);
}

static void
test_nothing_there (void)
{
  g_autoptr (SwHistory) history = sw_history_new ();
  g_autoptr (SwHistoryChart) chart = chart_lay_out (history, 600.0, 200.0);
  SwChartHit hit;

  g_assert_false (sw_history_chart_hit (chart, 300.0, 100.0, &hit));
}

/* Every mark of a crowded history is found where it says it is. */
static void
test_every_mark (void)
{
  g_autoptr (SwHistory) history = chart_make_history (120);
  g_autoptr (SwHistoryChart) chart = chart_lay_out (history, 2400.0, 300.0);

  for (guint i = 0; i < chart->marks->len; i++)
    {
      const SwChartMark *mark = &g_array_index (chart->marks, SwChartMark, i);
      SwChartHit hit = { 0 };

      g_assert_true (sw_history_chart_hit (chart, mark->x, mark->y_high, &hit));
      g_assert_cmpint (hit.titration, ==, mark->titration);
      sw_assert_close (hit.x, mark->x, 1e-12);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/charts/hit", hit_rows, test_hit);
  g_test_add_func ("/charts/hit/dose-beside-test", test_dose_beside_test);
  g_test_add_func ("/charts/hit/nothing-there", test_nothing_there);
  g_test_add_func ("/charts/hit/every-mark", test_every_mark);
  return g_test_run ();
}
