/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trend tests. Sources: US EPA QA/G-9S (Mann-Kendall, ties, the worked example in tests/reference);
 * Sen 1968 (from memory) for the slope. */
#include "calc/trend.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

/* ---- Mann-Kendall ---- */

static double
get_sign (double value)
{
  return (double)((value > 0.0) - (value < 0.0));
}

/* n (n - 1) (2 n + 5) / 18 less the same of each group of equal values. */
static double
get_variance (const double *y, gsize n)
{
  g_autofree double *sorted = g_memdup2 (y, sizeof *y * n);
  double size = (double)n;
  double sum = size * (size - 1.0) * (2.0 * size + 5.0);

  gsl_sort (sorted, 1, n);
  for (gsize i = 0, tied; i < n; i += tied)
    {
      for (tied = 1; i + tied < n && sorted[i + tied] == sorted[i];)
        tied++;
      sum -= (double)tied * ((double)tied - 1.0) * (2.0 * (double)tied + 5.0);
    }
  return sum / 18.0;
}

static gboolean
has_ties (const double *y, gsize n)
{
  g_autofree double *sorted = g_memdup2 (y, sizeof *y * n);

  gsl_sort (sorted, 1, n);
  for (gsize i = 1; i < n; i++)
    if (sorted[i] == sorted[i - 1])
      return TRUE;
  return FALSE;
}

/* P (S >= s) for n values in random order. The number of falling pairs, k, of m values is that of m
 * - 1 values plus 0 to m - 1, each as likely; S = n (n - 1) / 2 - 2 k. */
static double
get_exact_p (gsize n, double s)
{
  gsize pairs = n * (n - 1) / 2;
  gsize most = (gsize)(((double)pairs - s) / 2.0);
  g_autofree double *share = g_new0 (double, pairs + 1);
  double p = 0.0;

  share[0] = 1.0;
  for (gsize m = 2; m <= n; m++)
    {
      g_autofree double *next = g_new0 (double, pairs + 1);

      for (gsize k = 0; k <= m * (m - 1) / 2; k++)
        for (gsize added = 0; added < m && added <= k; added++)
          next[k] += share[k - added] / (double)m;
      for (gsize k = 0; k <= pairs; k++)
        share[k] = next[k];
    }
  for (gsize k = 0; k <= most; k++)
    p += share[k];
  return p;
}

static double
get_sen_slope (const double *x, const double *y, gsize n)
{
  g_autofree double *slopes = g_new (double, n *(n - 1) / 2);
  gsize m = 0;

  for (gsize i = 0; i < n; i++)
    for (gsize j = i + 1; j < n; j++)
      slopes[m++] = (y[j] - y[i]) / (x[j] - x[i]);
  gsl_sort (slopes, 1, m);
  return gsl_stats_median_from_sorted_data (slopes, 1, m);
}

gboolean
sw_trend_compute (const double *x, const double *y, gsize n, SwTrend *trend)
{
  g_return_val_if_fail (x != NULL && y != NULL && trend != NULL, FALSE);
  if (n < 3)
    return FALSE;

  *trend = (SwTrend){ .variance = get_variance (y, n), .slope = get_sen_slope (x, y, n) };
  for (gsize i = 0; i < n; i++)
    for (gsize j = i + 1; j < n; j++)
      trend->s += get_sign (y[j] - y[i]);
  if (trend->variance > 0.0)
    trend->z = (trend->s - get_sign (trend->s)) / sqrt (trend->variance);
  if (n <= SW_MANN_KENDALL_EXACT && !has_ties (y, n))
    trend->p = get_exact_p (n, fabs (trend->s));
  else
    trend->p = gsl_cdf_ugaussian_Q (fabs (trend->z));
  return TRUE;
}

/* ---- cycles ---- */

#define FIRST_CYCLES 6
#define LAST_CYCLES 3

static double
get_use (const SwCycle *cycles, gsize n)
{
  double used = 0.0;
  double length = 0.0;

  for (gsize i = 0; i < n; i++)
    {
      used += cycles[i].used;
      length += cycles[i].length;
    }
  return used / length;
}

double
sw_cycles_ratio (const SwCycle *cycles, gsize n)
{
  double before;

  if (n < SW_CYCLES_NEEDED)
    return NAN;
  before = get_use (cycles, FIRST_CYCLES);
  return before > 0.0 ? get_use (cycles + n - LAST_CYCLES, LAST_CYCLES) / before : NAN;
}

/* ---- bench ---- */

double
sw_passes_bound (guint k)
{
  return k == 0 ? 1.0 : -expm1 (log (0.05) / (double)k);
}

double
sw_repeatability (const double *differences, gsize k)
{
  double sum = 0.0;

  if (k == 0)
    return NAN;
  for (gsize i = 0; i < k; i++)
    sum += differences[i] * differences[i];
  return sqrt (sum / (2.0 * (double)k));
}
