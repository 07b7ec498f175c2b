/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Individuals, EWMA and CUSUM, by the forms of the NIST/SEMATECH e-Handbook. */
#include "calc/control-chart.h"

#include <math.h>

/* d2 and D4 for ranges of two (e-Handbook 6.3.2.2). */
#define D2_OF_TWO 1.128
#define D4_OF_TWO 3.267

#define NINE 9

gboolean
sw_individuals_compute (const double *values, gsize n, SwIndividuals *limits)
{
  double sum = 0.0;
  double ranges = 0.0;

  g_return_val_if_fail (values != NULL && limits != NULL, FALSE);
  if (n < 2)
    return FALSE;
  for (gsize i = 0; i < n; i++)
    {
      sum += values[i];
      ranges += i > 0 ? fabs (values[i] - values[i - 1]) : 0.0;
    }
  if (!isfinite (sum))
    return FALSE;
  limits->mean = sum / (double)n;
  limits->mean_range = ranges / (double)(n - 1);
  limits->sigma = limits->mean_range / D2_OF_TWO;
  limits->low = limits->mean - 3.0 * limits->sigma;
  limits->high = limits->mean + 3.0 * limits->sigma;
  limits->range_high = D4_OF_TWO * limits->mean_range;
  return TRUE;
}

/* How far on the bad side, in sigma. */
static double
get_badness (double value, double mean, double sigma, SwSide bad)
{
  return (bad == SW_SIDE_HIGH ? value - mean : mean - value) / sigma;
}

void
sw_rules_apply (const double *values, gsize n, double mean, double sigma, SwSide bad, guint *broken)
{
  guint in_a_row = 0;

  g_return_if_fail (values != NULL && broken != NULL && sigma > 0.0);
  for (gsize i = 0; i < n; i++)
    {
      double here = get_badness (values[i], mean, sigma, bad);
      int beyond_two = 0;

      for (gsize j = i >= 2 ? i - 2 : 0; j <= i; j++)
        beyond_two += get_badness (values[j], mean, sigma, bad) > 2.0;
      in_a_row = here > 0.0 ? in_a_row + 1 : 0;
      broken[i] = (here > 3.0 ? SW_RULE_BEYOND : 0)
                  | (here > 2.0 && beyond_two >= 2 ? SW_RULE_TWO_OF_THREE : 0)
                  | (in_a_row >= NINE ? SW_RULE_NINE : 0);
    }
}

double
sw_ewma_limit (double lambda, double l, double start, double sigma, SwSide side)
{
  double half = l * sigma * sqrt (lambda / (2.0 - lambda));

  return side == SW_SIDE_HIGH ? start + half : start - half;
}

void
sw_ewma_compute (const double *values,
                 gsize n,
                 double lambda,
                 double l,
                 double start,
                 double sigma,
                 SwSide bad,
                 double *averages,
                 gboolean *beyond)
{
  double limit = sw_ewma_limit (lambda, l, start, sigma, bad);
  double average = start;

  g_return_if_fail (values != NULL && averages != NULL && lambda > 0.0 && lambda <= 1.0);
  for (gsize i = 0; i < n; i++)
    {
      average += lambda * (values[i] - average);
      averages[i] = average;
      if (beyond != NULL)
        beyond[i] = bad == SW_SIDE_HIGH ? average > limit : average < limit;
    }
}

void
sw_cusum_compute (const double *values, gsize n, double target, double k, SwSide bad, double *sums)
{
  double sum = 0.0;

  g_return_if_fail (values != NULL && sums != NULL && k >= 0.0);
  for (gsize i = 0; i < n; i++)
    {
      double away = bad == SW_SIDE_HIGH ? values[i] - target : target - values[i];

      sum = MAX (0.0, sum + away - k);
      sums[i] = sum;
    }
}
