/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays a history out: data in, places out; nothing is drawn here.
 *
 *   y = 0   title and legend
 *           two rows of labels for doses, events and the next test
 *           plot: the lane of test results
 *           dates
 */
#include "charts/history-geometry.h"

#include <math.h>

#define MS_PER_DAY G_GINT64_CONSTANT (86400000)
#define LEAST_SPAN_MS (7 * MS_PER_DAY)
#define LEFT 34.0
#define RIGHT 12.0
#define TOP 46.0
#define BOTTOM 20.0
#define LEAST_HIGH 3.0    /* steps that a history of passes is drawn against */
#define BELOW_ZERO_PT 9.0 /* room for the discs of passed tests */
#define ABOVE_PT 14.0     /* room for the arrow over an over-range bar */
#define BAR_LEAST 2.0
#define BAR_MOST 6.0

/* The factor that turns steps of @test into steps of the newest test; 1 where one is not known. */
static double
scale_steps (const SwHistory *history, const SwHistoryTest *test)
{
  const SwHistoryTest *newest
      = &g_array_index (history->tests, SwHistoryTest, history->tests->len - 1);
  const double factor = test->per_step / newest->per_step;

  return isfinite (factor) && factor > 0.0 ? factor : 1.0;
}

static void
include_time (gint64 at_ms, gint64 *from_ms, gint64 *to_ms)
{
  if (at_ms == 0)
    return;
  *from_ms = MIN (*from_ms, at_ms);
  *to_ms = MAX (*to_ms, at_ms);
}

static void
find_time_span (SwHistoryChart *chart, const SwHistory *history)
{
  gint64 from_ms = history->now_ms, to_ms = history->now_ms, pad_ms;

  for (guint i = 0; i < history->tests->len; i++)
    include_time (g_array_index (history->tests, SwHistoryTest, i).at_ms, &from_ms, &to_ms);
  for (guint i = 0; i < history->doses->len; i++)
    include_time (g_array_index (history->doses, SwHistoryDose, i).at_ms, &from_ms, &to_ms);
  for (guint i = 0; i < history->events->len; i++)
    include_time (g_array_index (history->events, SwHistoryEvent, i).at_ms, &from_ms, &to_ms);
  include_time (history->due_ms, &from_ms, &to_ms);
  from_ms = MIN (from_ms, to_ms - LEAST_SPAN_MS);
  pad_ms = (to_ms - from_ms) / 50;
  chart->from_ms = from_ms - pad_ms;
  chart->to_ms = to_ms + 2 * pad_ms;
}

static void
include_bound (double steps, double *low, double *high)
{
  if (!isfinite (steps))
    return;
  *low = MIN (*low, steps);
  *high = MAX (*high, steps);
}

/* The scale leaves room in points below 0 and above the highest mark, whatever the height. */
static void
find_value_span (SwHistoryChart *chart, const SwHistory *history)
{
  const double height = MAX (chart->plot.height - BELOW_ZERO_PT - ABOVE_PT, 1.0);
  double low = 0.0, high = LEAST_HIGH, per_point;

  for (guint i = 0; i < history->tests->len; i++)
    {
      const SwHistoryTest *test = &g_array_index (history->tests, SwHistoryTest, i);
      const double factor = scale_steps (history, test);

      include_bound (test->net.low * factor, &low, &high);
      include_bound (test->net.high * factor, &low, &high);
    }
  per_point = (high - low) / height;
  chart->low = low - BELOW_ZERO_PT * per_point;
  chart->high = high + ABOVE_PT * per_point;
}

double
sw_history_chart_x (const SwHistoryChart *chart, gint64 at_ms)
{
  const double share = (double)(at_ms - chart->from_ms) / (double)(chart->to_ms - chart->from_ms);

  return chart->plot.x + chart->plot.width * CLAMP (share, 0.0, 1.0);
}

double
sw_history_chart_y (const SwHistoryChart *chart, double steps)
{
  const double share = (steps - chart->low) / (chart->high - chart->low);

  return chart->plot.y + chart->plot.height * (1.0 - CLAMP (share, 0.0, 1.0));
}

static void
add_mark (SwHistoryChart *chart, const SwHistory *history, const SwHistoryTest *test)
{
  const double factor = scale_steps (history, test);
  const gboolean open_low = !isfinite (test->net.low), open_high = !isfinite (test->net.high);
  const double low = open_low ? test->net.high : test->net.low;
  const double high = open_high ? test->net.low : test->net.high;
  SwChartMark mark = { .titration = test->titration,
                       .kind = test->kind,
                       .retest = test->retest,
                       .open_low = open_low,
                       .open_high = open_high };

  mark.x = sw_history_chart_x (chart, test->at_ms);
  /* an interval without any end (an open test) has nowhere to be but at 0 */
  mark.y_low = sw_history_chart_y (chart, isfinite (low) ? low * factor : 0.0);
  mark.y_high = sw_history_chart_y (chart, isfinite (high) ? high * factor : 0.0);
  g_array_append_val (chart->marks, mark);
}

static int
compare_marks_cb (gconstpointer a, gconstpointer b)
{
  const double left = ((const SwChartMark *)a)->x, right = ((const SwChartMark *)b)->x;

  return left < right ? -1 : left > right;
}

static void
add_marks (SwHistoryChart *chart, const SwHistory *history)
{
  const guint n = history->tests->len;

  for (guint i = 0; i < n; i++)
    add_mark (chart, history, &g_array_index (history->tests, SwHistoryTest, i));
  g_array_sort (chart->marks, compare_marks_cb);
  chart->bar_width = CLAMP (chart->plot.width / (2.5 * MAX (n, 1)), BAR_LEAST, BAR_MOST);
}

static void
allocate (SwHistoryChart *chart)
{
  chart->value_y = g_array_new (FALSE, FALSE, sizeof (double));
  chart->time_x = g_array_new (FALSE, FALSE, sizeof (double));
  chart->marks = g_array_new (FALSE, FALSE, sizeof (SwChartMark));
  chart->lines = g_array_new (FALSE, FALSE, sizeof (SwChartLine));
  chart->keys = g_array_new (FALSE, FALSE, sizeof (SwChartKey));
  chart->labels = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_chart_label_free);
}

SwHistoryChart *
sw_history_chart_new (const SwHistory *history,
                      const SwChartStyle *style,
                      const SwWording *wording,
                      double width,
                      double height)
{
  PangoContext *context = sw_chart_context_new (style);
  SwHistoryChart *chart = g_new0 (SwHistoryChart, 1);

  chart->style = *style;
  chart->width = MAX (width, 0.0);
  chart->height = MAX (height, 0.0);
  chart->plot = (SwChartBox){ .x = LEFT,
                              .y = TOP,
                              .width = MAX (width - LEFT - RIGHT, 1.0),
                              .height = MAX (height - TOP - BOTTOM, 1.0) };
  allocate (chart);
  find_time_span (chart, history);
  find_value_span (chart, history);
  chart->zero_y = sw_history_chart_y (chart, 0.0);
  add_marks (chart, history);
  /* in the order in which they may take the room for labels */
  sw_history_chart_add_axes (chart, context, history, wording);
  sw_history_chart_add_legend (chart, context, history, wording);
  sw_history_chart_add_lines (chart, context, history, wording);
  g_object_unref (context);
  return chart;
}

void
sw_history_chart_free (SwHistoryChart *chart)
{
  if (chart == NULL)
    return;
  g_array_unref (chart->value_y);
  g_array_unref (chart->time_x);
  g_array_unref (chart->marks);
  g_array_unref (chart->lines);
  g_array_unref (chart->keys);
  g_ptr_array_unref (chart->labels);
  g_free (chart);
}
