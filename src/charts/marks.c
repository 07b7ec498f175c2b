/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shapes of test results. A shape says what a colour says, for those who do not see it:
 *
 *   bar            acid found; its hollow end is the step between the last acid and the first pass
 *   bar, octagon   over range; the arrow points to where the truth may lie
 *   disc, tail     passed; the tail says that nothing is known below
 *   square         reserve found, with its bounds
 *   ring           not known on one side
 */
#include "charts/marks.h"

#include <math.h>

#define ARROW 2.6
#define OCTAGON 5.6
#define OCTAGON_ABOVE 8.0
#define SQUARE 5.8
#define TAIL 3.2
#define HOLLOW_LEAST 3.0 /* a hollow end smaller than this would be a smear */

void
sw_chart_set_colour (cairo_t *cr, const SwColour *colour)
{
  cairo_set_source_rgb (cr, colour->red, colour->green, colour->blue);
}

static void
stroke_line (cairo_t *cr, double x1, double y1, double x2, double y2, double line_width)
{
  cairo_set_line_width (cr, line_width);
  cairo_move_to (cr, x1, y1);
  cairo_line_to (cr, x2, y2);
  cairo_stroke (cr);
}

/* From (x, y) by @length points; negative is up. */
static void
stroke_arrow (cairo_t *cr, double x, double y, double length)
{
  const double tip = y + length, back = length < 0.0 ? ARROW : -ARROW;

  stroke_line (cr, x, y, x, tip, 1.2);
  cairo_move_to (cr, x - ARROW, tip + back);
  cairo_line_to (cr, x, tip);
  cairo_line_to (cr, x + ARROW, tip + back);
  cairo_stroke (cr);
}

static void
trace_disc (cairo_t *cr, double x, double y, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, radius, 0.0, 2.0 * G_PI);
}

static void
stroke_octagon (cairo_t *cr, double x, double y, double radius)
{
  for (int i = 0; i < 8; i++)
    cairo_line_to (cr, x + radius * cos ((i + 0.5) * G_PI / 4.0),
                   y + radius * sin ((i + 0.5) * G_PI / 4.0));
  cairo_close_path (cr);
  cairo_set_line_width (cr, 1.3);
  cairo_stroke (cr);
}

/* Solid from @y_zero to @y_low, hollow from there to @y_high; no line behind shows through. */
static void
fill_bar (cairo_t *cr,
          const SwChartStyle *style,
          double x,
          double width,
          double y_zero,
          double y_low,
          double y_high)
{
  const double hollow = y_low - y_high;

  sw_chart_set_colour (cr, &style->acid);
  if (width < HOLLOW_LEAST || hollow < HOLLOW_LEAST)
    {
      cairo_rectangle (cr, x - width / 2.0, y_high, width, y_zero - y_high);
      cairo_fill (cr);
      return;
    }
  cairo_rectangle (cr, x - width / 2.0, y_low, width, y_zero - y_low);
  cairo_fill (cr);
  cairo_rectangle (cr, x - width / 2.0 + 0.6, y_high + 0.6, width - 1.2, hollow - 0.6);
  sw_chart_set_colour (cr, &style->ground);
  cairo_fill_preserve (cr);
  sw_chart_set_colour (cr, &style->acid);
  cairo_set_line_width (cr, 1.2);
  cairo_stroke (cr);
}

static void
draw_over_range (cairo_t *cr, const SwChartStyle *style, double x, double y)
{
  sw_chart_set_colour (cr, &style->acid);
  stroke_octagon (cr, x, y, OCTAGON);
  stroke_arrow (cr, x, y + 3.2, -6.4);
}

static void
draw_passed (cairo_t *cr, const SwChartStyle *style, double x, double y_zero, double y_bound)
{
  sw_chart_set_colour (cr, &style->passed);
  /* where a caustic addition counts, up to that much acid may be there and still pass */
  if (y_zero - y_bound > 2.0 * SW_MARK_RADIUS)
    {
      stroke_line (cr, x - 3.5, y_bound, x + 3.5, y_bound, 1.2);
      stroke_line (cr, x, y_bound, x, y_zero, 1.0);
    }
  stroke_line (cr, x, y_zero, x, y_zero + SW_MARK_RADIUS + TAIL, 1.2);
  trace_disc (cr, x, y_zero, SW_MARK_RADIUS);
  cairo_fill (cr);
}

static void
fill_square (cairo_t *cr, const SwChartStyle *style, double x, double y)
{
  sw_chart_set_colour (cr, &style->alkaline);
  cairo_rectangle (cr, x - SQUARE / 2.0, y - SQUARE / 2.0, SQUARE, SQUARE);
  cairo_fill (cr);
}

static void
draw_reserve (cairo_t *cr, const SwChartStyle *style, const SwChartMark *mark)
{
  sw_chart_set_colour (cr, &style->alkaline);
  stroke_line (cr, mark->x, mark->y_low, mark->x, mark->y_high, 1.2);
  fill_square (cr, style, mark->x, (mark->y_low + mark->y_high) / 2.0);
}

static void
draw_ring (cairo_t *cr, const SwChartStyle *style, double x, double y, gboolean open_high)
{
  sw_chart_set_colour (cr, &style->unknown);
  cairo_set_line_width (cr, 1.5);
  trace_disc (cr, x, y, SW_MARK_RADIUS);
  cairo_stroke (cr);
  if (open_high)
    stroke_arrow (cr, x, y - SW_MARK_RADIUS, -8.0);
}

void
sw_chart_draw_mark (cairo_t *cr, const SwHistoryChart *chart, const SwChartMark *mark)
{
  const SwChartStyle *style = &chart->style;

  switch (mark->kind)
    {
    case SW_OUTCOME_ACID_FOUND:
    case SW_OUTCOME_OVER_RANGE:
      fill_bar (cr, style, mark->x, chart->bar_width, chart->zero_y, mark->y_low, mark->y_high);
      if (mark->open_high)
        draw_over_range (cr, style, mark->x, mark->y_high - OCTAGON_ABOVE);
      break;
    case SW_OUTCOME_PASSED:
      draw_passed (cr, style, mark->x, chart->zero_y, mark->y_high);
      break;
    case SW_OUTCOME_RESERVE_FOUND:
      draw_reserve (cr, style, mark);
      break;
    case SW_OUTCOME_RESERVE_OVER_RANGE:
      fill_square (cr, style, mark->x, mark->y_high);
      stroke_arrow (cr, mark->x, mark->y_high, 9.0);
      break;
    case SW_OUTCOME_NO_RESERVE:
    case SW_OUTCOME_OPEN:
    case SW_N_OUTCOMES:
      draw_ring (cr, style, mark->x, chart->zero_y, mark->open_high);
      break;
    }
}

void
sw_chart_draw_key (cairo_t *cr, const SwHistoryChart *chart, const SwChartKey *key)
{
  const SwChartStyle *style = &chart->style;

  switch (key->kind)
    {
    case SW_OUTCOME_ACID_FOUND:
      fill_bar (cr, style, key->x, 4.0, key->y + 4.5, key->y, key->y - 4.0);
      break;
    case SW_OUTCOME_OVER_RANGE:
      draw_over_range (cr, style, key->x, key->y);
      break;
    case SW_OUTCOME_PASSED:
      draw_passed (cr, style, key->x, key->y - 1.0, key->y - 1.0);
      break;
    case SW_OUTCOME_RESERVE_FOUND:
    case SW_OUTCOME_RESERVE_OVER_RANGE:
      fill_square (cr, style, key->x, key->y);
      break;
    case SW_OUTCOME_NO_RESERVE:
    case SW_OUTCOME_OPEN:
    case SW_N_OUTCOMES:
      draw_ring (cr, style, key->x, key->y, FALSE);
      break;
    }
}
