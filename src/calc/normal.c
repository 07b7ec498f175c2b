/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Source of the forms: the asymptotic series of the normal tail is Abramowitz & Stegun 26.2.12
 * (from memory); log(1 - e^-x) in its two halves is M. Maechler, "Accurately computing log(1 -
 * exp(-|a|))" (from memory). The values that they must give were recomputed with 60 digits. */
#include "calc/normal.h"

#include <math.h>

#define HALF_LOG_2_PI 0.91893853320467274178

/* Below this the ratio of tail and density is taken from its series; erfc still has all its digits
 * there, its logarithm has none to lose. */
#define SERIES_BELOW (-30.0)

double
sw_normal_log_density (double z)
{
  return -0.5 * z * z - HALF_LOG_2_PI;
}

/* 1 - 1/z^2 + 1*3/z^4 - 1*3*5/z^6 + ...: at z = -30 the sixth term is 1e-14 of the first. */
static double
log_tail_series (double z)
{
  double term = 1.0;
  double sum = 1.0;

  for (int k = 1; k <= 6; k++)
    {
      term *= -(2 * k - 1) / (z * z);
      sum += term;
    }
  return sw_normal_log_density (z) - log (-z) + log (sum);
}

double
sw_normal_log_below (double z)
{
  if (z <= SERIES_BELOW)
    return isinf (z) ? -INFINITY : log_tail_series (z);
  if (z > 0.0)
    return log1p (-0.5 * erfc (z * M_SQRT1_2));
  return log (0.5 * erfc (-z * M_SQRT1_2));
}

/* log (1 - e^-x), x > 0 */
static double
log_one_minus_exp (double x)
{
  return x < M_LN2 ? log (-expm1 (-x)) : log1p (-exp (-x));
}

/* a < 0 < b: what is outside, when that is little; else what is inside. */
static double
log_between_straddling (double a, double b)
{
  double outside = 0.5 * erfc (-a * M_SQRT1_2) + 0.5 * erfc (b * M_SQRT1_2);

  if (outside < 0.5)
    return log1p (-outside);
  return log (0.5 * (erf (b * M_SQRT1_2) - erf (a * M_SQRT1_2)));
}

double
sw_normal_log_between (double a, double b)
{
  g_return_val_if_fail (a < b, NAN);

  if (a >= 0.0)
    return sw_normal_log_between (-b, -a);
  if (b > 0.0)
    return log_between_straddling (a, b);

  double below_b = sw_normal_log_below (b);
  return below_b + log_one_minus_exp (below_b - sw_normal_log_below (a));
}
