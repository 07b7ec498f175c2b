/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The history chart on screen. Signal "test-chosen" (gint64 titration): a mark was pressed. */
#pragma once

#include <gtk/gtk.h>

#include "calc/history.h"
#include "wording/wording.h"

G_BEGIN_DECLS

#define SW_TYPE_CHART_VIEW (sw_chart_view_get_type ())
G_DECLARE_FINAL_TYPE (SwChartView, sw_chart_view, SW, CHART_VIEW, GtkWidget)

/* Takes @history (transfer full, NULL = nothing to show) and a reference on @wording. */
void sw_chart_view_set_history (SwChartView *self, SwHistory *history, SwWording *wording);

G_END_DECLS
