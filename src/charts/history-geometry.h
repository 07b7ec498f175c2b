/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A laid-out history: everything that is drawn, where it is. Private to src/charts and its tests.
 *
 * Invariants, held by sw_history_chart_new:
 *   1. Every mark, line and tick lies inside `plot` horizontally, marks also vertically.
 *   2. marks are ordered by x; there is one per test, also where several fall on one column.
 *   3. No two labels overlap, and none leaves the picture; one that has no room is not there, its
 *      line is.
 *   4. Steps of all years are shown in steps of the newest test (per_step).
 */
#pragma once

#include <pango/pango.h>

#include "charts/history-chart.h"

G_BEGIN_DECLS

typedef struct
{
  double x, y, width, height;
} SwChartBox;

typedef struct
{
  PangoLayout *layout; /* Owned */
  SwChartBox box;
  const SwColour *colour; /* Borrowed from the chart's style */
} SwChartLabel;

/* One test. The truth lies between y_high (above) and y_low; where an end is open, the mark's arrow
 * points that way. */
typedef struct
{
  gint64 titration;
  SwOutcomeKind kind;
  gboolean retest;
  double x;
  double y_low, y_high; /* bounds; an open end stands at the bound that is known */
  gboolean open_low, open_high;
} SwChartMark;

typedef enum
{
  SW_CHART_LINE_DOSE, /* dashed */
  SW_CHART_LINE_FILL, /* dotted */
  SW_CHART_LINE_DUE,  /* solid, accent */
  SW_CHART_LINE_INCIDENT
} SwChartLineKind;

typedef struct
{
  SwChartLineKind kind;
  gint64 row; /* dose, fill or incident */
  double x;
  double top, bottom;
} SwChartLine;

typedef struct
{
  SwOutcomeKind kind;
  double x, y; /* centre of the sample mark */
} SwChartKey;

struct _SwHistoryChart
{
  SwChartStyle style;
  double width, height;
  SwChartBox plot;
  double zero_y;     /* of 0 steps */
  double bar_width;  /* of acid found */
  GArray *value_y;   /* Owned: double, grid lines */
  GArray *time_x;    /* Owned: double, grid lines */
  GArray *marks;     /* Owned: SwChartMark */
  GArray *lines;     /* Owned: SwChartLine */
  GArray *keys;      /* Owned: SwChartKey, the legend's marks */
  GPtrArray *labels; /* Owned: SwChartLabel */
  /* scales, for tests and hit.c */
  gint64 from_ms, to_ms;
  double low, high;
};

double sw_history_chart_x (const SwHistoryChart *chart, gint64 at_ms);
double sw_history_chart_y (const SwHistoryChart *chart, double steps);

/* ---- chart-label.c ---- */

void sw_chart_label_free (SwChartLabel *label);
/* A context whose text is as wide on paper as on any screen. (transfer full) */
PangoContext *sw_chart_context_new (const SwChartStyle *style);
/* A line of text, its box at (0, 0). (transfer full) */
SwChartLabel *sw_chart_label_new (
    PangoContext *context, const char *text, double size_pt, gboolean bold, const SwColour *colour);
/* Puts @label (transfer full) at its box when it stays inside the picture and clear of all others,
 * @gap points of room on each side; frees it otherwise. */
gboolean sw_chart_place_label (SwHistoryChart *chart, SwChartLabel *label, double gap);

/* ---- axis.c ---- */
void sw_history_chart_add_axes (SwHistoryChart *chart,
                                PangoContext *context,
                                const SwHistory *history,
                                const SwWording *wording);
/* ---- legend.c ---- */
void sw_history_chart_add_legend (SwHistoryChart *chart,
                                  PangoContext *context,
                                  const SwHistory *history,
                                  const SwWording *wording);
/* ---- lines.c ---- */
void sw_history_chart_add_lines (SwHistoryChart *chart,
                                 PangoContext *context,
                                 const SwHistory *history,
                                 const SwWording *wording);

G_END_DECLS
