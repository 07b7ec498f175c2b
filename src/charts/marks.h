/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shapes of test results, for lane and legend alike. */
#pragma once

#include "charts/history-geometry.h"

G_BEGIN_DECLS

#define SW_MARK_RADIUS 3.2 /* of a disc, points */

/* A result where it lies in the lane. */
void sw_chart_draw_mark (cairo_t *cr, const SwHistoryChart *chart, const SwChartMark *mark);
/* The same shape in the legend, its centre at (x, y). */
void sw_chart_draw_key (cairo_t *cr, const SwHistoryChart *chart, const SwChartKey *key);
void sw_chart_set_colour (cairo_t *cr, const SwColour *colour);

G_END_DECLS
