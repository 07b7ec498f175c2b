/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws a laid-out history. The context is left as it was found: save and restore, transforms only,
 * and the caller's path kept. */
#include "charts/marks.h"

#include <math.h>
#include <pango/pangocairo.h>

#define N_KINDS (SW_N_OUTCOMES + 1)

/* On the middle of a unit, so that a line one wide is sharp at scale 1. */
static double
sharpen (double at)
{
  return floor (at) + 0.5;
}

static void
draw_ground (cairo_t *cr, const SwHistoryChart *chart)
{
  sw_chart_set_colour (cr, &chart->style.ground);
  cairo_rectangle (cr, 0.0, 0.0, chart->width, chart->height);
  cairo_fill (cr);
}

static void
draw_grid (cairo_t *cr, const SwHistoryChart *chart)
{
  const SwChartBox *plot = &chart->plot;
  const double right = plot->x + plot->width, bottom = plot->y + plot->height;

  cairo_set_line_width (cr, 1.0);
  sw_chart_set_colour (cr, &chart->style.grid);
  for (guint i = 0; i < chart->value_y->len; i++)
    {
      const double y = sharpen (g_array_index (chart->value_y, double, i));

      cairo_move_to (cr, plot->x, y);
      cairo_line_to (cr, right, y);
    }
  for (guint i = 0; i < chart->time_x->len; i++)
    {
      const double x = sharpen (g_array_index (chart->time_x, double, i));

      cairo_move_to (cr, x, plot->y);
      cairo_line_to (cr, x, bottom + 12.0);
    }
  cairo_stroke (cr);
  sw_chart_set_colour (cr, &chart->style.unknown);
  cairo_move_to (cr, plot->x, sharpen (chart->zero_y));
  cairo_line_to (cr, right, sharpen (chart->zero_y));
  cairo_stroke (cr);
}

static void
draw_incident (cairo_t *cr, const SwHistoryChart *chart, const SwChartLine *line)
{
  sw_chart_set_colour (cr, &chart->style.acid);
  cairo_set_line_width (cr, 1.0);
  cairo_move_to (cr, line->x - 3.0, line->top);
  cairo_line_to (cr, line->x + 3.0, line->top);
  cairo_line_to (cr, line->x, line->top + 4.5);
  cairo_close_path (cr);
  cairo_stroke (cr);
}

static void
draw_line (cairo_t *cr, const SwHistoryChart *chart, const SwChartLine *line)
{
  static const double dashes[] = { 4.0, 3.0 }, dots[] = { 1.5, 2.5 };
  const double x = sharpen (line->x);

  switch (line->kind)
    {
    case SW_CHART_LINE_INCIDENT:
      draw_incident (cr, chart, line);
      return;
    case SW_CHART_LINE_DOSE:
      sw_chart_set_colour (cr, &chart->style.dose);
      cairo_set_dash (cr, dashes, 2, 0.0);
      cairo_set_line_width (cr, 1.0);
      break;
    case SW_CHART_LINE_FILL:
      sw_chart_set_colour (cr, &chart->style.ink);
      cairo_set_dash (cr, dots, 2, 0.0);
      cairo_set_line_width (cr, 1.2);
      break;
    case SW_CHART_LINE_DUE:
      sw_chart_set_colour (cr, &chart->style.accent);
      cairo_set_line_width (cr, 2.0);
      break;
    }
  cairo_move_to (cr, x, line->top);
  cairo_line_to (cr, x, line->bottom);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
}

static gboolean
is_bar (const SwChartMark *mark)
{
  return mark->kind == SW_OUTCOME_ACID_FOUND || mark->kind == SW_OUTCOME_OVER_RANGE;
}

/* Bars first, so that no bar hides a disc. A mark that would fall on the same half point as the one
 * before it, alike in kind and bounds, is not drawn again: years of daily tests stay fluent, and
 * nothing that could be seen is missing. */
static void
draw_marks (cairo_t *cr, const SwHistoryChart *chart, gboolean bars)
{
  const SwChartMark *last[N_KINDS] = { NULL };

  for (guint i = 0; i < chart->marks->len; i++)
    {
      const SwChartMark *mark = &g_array_index (chart->marks, SwChartMark, i);
      const SwChartMark *before = last[mark->kind];

      if (is_bar (mark) != bars
          || (before != NULL && mark->x - before->x < 0.5 && mark->y_low == before->y_low
              && mark->y_high == before->y_high && mark->open_high == before->open_high))
        continue;
      sw_chart_draw_mark (cr, chart, mark);
      last[mark->kind] = mark;
    }
}

static void
draw_labels (cairo_t *cr, const SwHistoryChart *chart)
{
  for (guint i = 0; i < chart->labels->len; i++)
    {
      const SwChartLabel *label = chart->labels->pdata[i];

      sw_chart_set_colour (cr, label->colour);
      cairo_move_to (cr, label->box.x, label->box.y);
      pango_cairo_show_layout (cr, label->layout);
    }
}

void
sw_history_chart_draw (const SwHistoryChart *chart, cairo_t *cr)
{
  cairo_path_t *path = cairo_copy_path (cr);

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
  draw_ground (cr, chart);
  draw_grid (cr, chart);
  for (guint i = 0; i < chart->lines->len; i++)
    draw_line (cr, chart, &g_array_index (chart->lines, SwChartLine, i));
  draw_marks (cr, chart, TRUE);
  draw_marks (cr, chart, FALSE);
  for (guint i = 0; i < chart->keys->len; i++)
    sw_chart_draw_key (cr, chart, &g_array_index (chart->keys, SwChartKey, i));
  draw_labels (cr, chart);
  cairo_restore (cr);
  cairo_new_path (cr);
  cairo_append_path (cr, path);
  cairo_path_destroy (path);
}
