/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The data sets of tests/reference/data as observations. */
#pragma once

#include "calc/demand.h"

G_BEGIN_DECLS

#define SERIES_MOST_ROWS 32

typedef struct
{
  SwInterval y[SERIES_MOST_ROWS];
  double x[SERIES_MOST_ROWS * SW_CENSORED_MOST];
  SwDemandPoint points[SERIES_MOST_ROWS]; /* the same, of a straight line */
  SwCensoredData data;
} Series;

/* Lines of a CSV file below its header, each split. (transfer full) */
GPtrArray *series_read_rows (const char *name);
/* drop-series-1.csv, columns lo and hi; or lo_a and hi_a, where every 0-drop row is open below. */
void series_load_drops (Series *series, gboolean open_below);

G_END_DECLS
