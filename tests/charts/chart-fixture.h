/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Invented histories for the chart tests. */
#pragma once

#include "charts/history-geometry.h"

G_BEGIN_DECLS

#define CHART_DAY_MS G_GINT64_CONSTANT (86400000)
/* 2026-05-04 06:00:00 UTC */
#define CHART_START_MS G_GINT64_CONSTANT (1777874400000)

/* Titration ids are 1, 2, ... in the order added. */
void chart_add_test (SwHistory *history, double day, SwOutcomeKind kind, double low, double high);
void chart_add_dose (SwHistory *history, double day, gint64 id, double added_ml);
void chart_add_event (SwHistory *history, double day, SwHistoryEventKind kind);
/* @n daily tests, seeded: passes, acid found with doses, some over range, reserves. */
SwHistory *chart_make_history (guint n);
SwHistoryChart *chart_lay_out (const SwHistory *history, double width, double height);

G_END_DECLS
