/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two axes: round steps at the left, the calendar below. */
#include "charts/axis-date.h"
#include "charts/history-geometry.h"
#include "wording/number.h"

#define POINTS_PER_VALUE 22.0 /* least distance of grid lines */
#define POINTS_PER_DATE 52.0
#define GAP 5.0

static void
add_value_label (SwHistoryChart *chart,
                 PangoContext *context,
                 const SwWording *wording,
                 double value)
{
  g_autofree char *text = sw_number_format (wording, value, 3);
  SwChartLabel *label
      = sw_chart_label_new (context, text, chart->style.small_pt, FALSE, &chart->style.faint);

  label->box.x = chart->plot.x - 6.0 - label->box.width;
  label->box.y = sw_history_chart_y (chart, value) - label->box.height / 2.0;
  sw_chart_place_label (chart, label, 0.0);
}

static void
add_value_axis (SwHistoryChart *chart,
                PangoContext *context,
                const SwHistory *history,
                const SwWording *wording)
{
  const guint most = (guint)MAX (chart->plot.height / POINTS_PER_VALUE, 2.0);
  SwValueTicks ticks;

  /* nobody counts half a drop */
  sw_value_ticks (chart->low, chart->high, most, history->burette ? 0.0 : 1.0, &ticks);
  for (guint i = 0; i < ticks.n; i++)
    {
      const double value = ticks.first + i * ticks.step;
      const double y = sw_history_chart_y (chart, value);

      g_array_append_val (chart->value_y, y);
      add_value_label (chart, context, wording, value);
    }
}

static int
get_year (const SwWording *wording, gint64 at_ms)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (at_ms / 1000);
  g_autoptr (GDateTime) local = g_date_time_to_timezone (utc, sw_wording_get_zone (wording));

  return g_date_time_get_year (local);
}

static gboolean
add_date_label (SwHistoryChart *chart, PangoContext *context, const char *text, double x)
{
  SwChartLabel *label
      = sw_chart_label_new (context, text, chart->style.small_pt, FALSE, &chart->style.faint);

  label->box.x = x + 3.0;
  label->box.y = chart->plot.y + chart->plot.height + 4.0;
  return sw_chart_place_label (chart, label, GAP);
}

static void
add_time_axis (SwHistoryChart *chart, PangoContext *context, const SwWording *wording)
{
  const guint most = (guint)MAX (chart->plot.width / POINTS_PER_DATE, 2.0);
  SwTimeStep step = { 0 };
  g_autoptr (GArray) ticks
      = sw_time_ticks (chart->from_ms, chart->to_ms, most, sw_wording_get_zone (wording), &step);
  int said_year = 0;

  for (guint i = 0; i < ticks->len; i++)
    {
      const gint64 at_ms = g_array_index (ticks, gint64, i);
      const double x = sw_history_chart_x (chart, at_ms);
      const int year = get_year (wording, at_ms);
      /* the year stands with the first date of each year; months say it in January */
      const gboolean with_year = year != said_year && (step.days > 0 || said_year == 0);
      g_autofree char *text = sw_axis_date_format (wording, at_ms, &step, with_year);

      g_array_append_val (chart->time_x, x);
      if (add_date_label (chart, context, text, x))
        said_year = year;
    }
}

void
sw_history_chart_add_axes (SwHistoryChart *chart,
                           PangoContext *context,
                           const SwHistory *history,
                           const SwWording *wording)
{
  add_value_axis (chart, context, history, wording);
  add_time_axis (chart, context, wording);
}
