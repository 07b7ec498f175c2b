/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Is it getting worse? Trend over cycles, use over cycles, one companion; repeatability; what
 * passes alone prove (2-calculations 2.6 to 2.9).
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

typedef struct
{
  double s;        /* pairs that rise less pairs that fall */
  double variance; /* of s without a trend, ties counted */
  double z;        /* with the correction for continuity */
  double p;        /* one-sided, of a trend in the direction of s; exact without ties up to
                      SW_MANN_KENDALL_EXACT values, else from z */
  double slope;    /* Sen's: the median of the slopes of all pairs, per unit of x */
} SwTrend;

#define SW_MANN_KENDALL_EXACT 40

/* Mann-Kendall and Sen on @n >= 3 values at @x, which rises strictly. */
gboolean sw_trend_compute (const double *x, const double *y, gsize n, SwTrend *trend);

/* One dose-to-dose cycle: what was used, and how long it took (days, or loads). */
typedef struct
{
  double used;
  double length; /* > 0 */
} SwCycle;

#define SW_CYCLES_NEEDED 9
#define SW_CYCLES_WARN 1.3
/* Use per unit of length over the last three cycles against the first six: from the ninth cycle on;
 * NAN before, or where the first six used nothing. */
double sw_cycles_ratio (const SwCycle *cycles, gsize n);

typedef struct
{
  double rho;
  double
      p; /* two-sided, by permutation: exact up to 8 values, else 99,999 draws with a fixed seed */
} SwSpearman;

/* Rank correlation of @n >= 4 pairs. FALSE for fewer, or where one of the two never changes. */
gboolean sw_spearman_compute (const double *x, const double *y, gsize n, SwSpearman *result);

/* After @k passes and no acid, at this interval or a longer one: the share of acid that would still
 * have given that with 5 % probability, 1 - 0.05^(1/k). 1 for k = 0. */
double sw_passes_bound (guint k);

/* s = sqrt (sum d^2 / (2 k)) of @k >= 1 pairs of duplicates; NAN for none. */
double sw_repeatability (const double *differences, gsize k);

G_END_DECLS
