/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A machine's history as a picture: drops as bars or points with open-ended marks for censored
 * results, doses as labelled markers, the next test as a line. Geometry is computed once, then
 * drawn and hit-tested. */
#pragma once

#include <cairo.h>

#include "calc/history.h"
#include "charts/chart-style.h"
#include "wording/wording.h"

G_BEGIN_DECLS

typedef struct _SwHistoryChart SwHistoryChart;

/* Lays @history out in width x height points. The history is only read here. (transfer full) */
SwHistoryChart *sw_history_chart_new (const SwHistory *history,
                                      const SwChartStyle *style,
                                      const SwWording *wording,
                                      double width,
                                      double height);
void sw_history_chart_free (SwHistoryChart *chart);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwHistoryChart, sw_history_chart_free)

/* Draws inside cairo_save and cairo_restore; changes nothing else of the context. */
void sw_history_chart_draw (const SwHistoryChart *chart, cairo_t *cr);

typedef struct
{
  gint64 titration; /* 0 = none */
  gint64 dose;
  double x, y; /* where the mark is, points */
} SwChartHit;

/* The mark nearest to a point within 16 points; FALSE when there is none. */
gboolean sw_history_chart_hit (const SwHistoryChart *chart, double x, double y, SwChartHit *hit);

/* The picture's message in words: for the accessible label. (transfer full) */
char *sw_history_chart_describe (const SwHistory *history, const SwWording *wording);

G_END_DECLS
