/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which mark a pointer means. A test's bar is hit along its length, a dose along its line; where
 * both are near, the test is meant, unless the dose's line is clearly nearer. */
#include "charts/history-geometry.h"

#include <math.h>

#define REACH 16.0
/* A dose stands in the column of the test that asked for it: its line must not take the test's
 * place. */
#define DOSE_HANDICAP 6.0

static double
measure_to_column (double x, double y, double column_x, double top, double bottom)
{
  const double nearest = CLAMP (y, top, bottom);

  return hypot (x - column_x, y - nearest);
}

/* Where the mark's body lies: bars reach from 0 to their end. */
static void
get_column (const SwHistoryChart *chart, const SwChartMark *mark, double *top, double *bottom)
{
  *top = mark->y_high;
  *bottom = mark->y_low;
  if (mark->kind == SW_OUTCOME_ACID_FOUND || mark->kind == SW_OUTCOME_OVER_RANGE)
    *bottom = MAX (chart->zero_y, mark->y_low);
  else if (mark->kind == SW_OUTCOME_PASSED)
    *bottom = MAX (chart->zero_y, mark->y_high);
}

static double
find_mark (const SwHistoryChart *chart, double x, double y, SwChartHit *hit)
{
  double best = INFINITY;

  for (guint i = 0; i < chart->marks->len; i++)
    {
      const SwChartMark *mark = &g_array_index (chart->marks, SwChartMark, i);
      double top, bottom, distance;

      get_column (chart, mark, &top, &bottom);
      distance = measure_to_column (x, y, mark->x, top, bottom);
      /* of two in one place the later one: it was drawn last */
      if (distance > best)
        continue;
      best = distance;
      *hit = (SwChartHit){ .titration = mark->titration,
                           .x = mark->x,
                           .y = mark->kind == SW_OUTCOME_PASSED ? chart->zero_y : top };
    }
  return best;
}

static double
find_dose (const SwHistoryChart *chart, double x, double y, SwChartHit *hit)
{
  double best = INFINITY;

  for (guint i = 0; i < chart->lines->len; i++)
    {
      const SwChartLine *line = &g_array_index (chart->lines, SwChartLine, i);
      const double distance = measure_to_column (x, y, line->x, line->top, line->bottom);

      if (line->kind != SW_CHART_LINE_DOSE || distance >= best)
        continue;
      best = distance;
      *hit = (SwChartHit){ .dose = line->row, .x = line->x, .y = line->top };
    }
  return best;
}

gboolean
sw_history_chart_hit (const SwHistoryChart *chart, double x, double y, SwChartHit *hit)
{
  SwChartHit test = { 0 }, dose = { 0 };
  const double to_test = find_mark (chart, x, y, &test);
  const double to_dose = find_dose (chart, x, y, &dose);

  if (to_test <= REACH && to_test <= to_dose + DOSE_HANDICAP)
    *hit = test;
  else if (to_dose <= REACH)
    *hit = dose;
  else
    return FALSE;
  return TRUE;
}
