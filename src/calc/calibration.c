/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dropper calibration.
 *
 * Each weighing or count gives one estimate of the drop; their mean is the value, their spread the
 * type A part, the density or the mark's volume the type B part. Counts become volumes first,
 * because it is the volume that is wanted: the mean of V/n is not V over the mean of n.
 */
#include "calc/calibration.h"

#include "calc/budget.h"
#include "calc/range.h"

#include <gsl/gsl_statistics_double.h>

/* Grubbs' test, two-sided, ISO 5725-2:1994 7.3.4: a warning at this level. */
#define GRUBBS_ALPHA 0.05

/* Ph. Eur. 2.1.1 (from memory): mass of 20 drops of water at 20 degC, g. */
#define PHARMACOPOEIAL_LOW_G 0.950
#define PHARMACOPOEIAL_HIGH_G 1.050

static gboolean
check_number_of_series (gsize k, GError **error)
{
  /* One estimate has no spread; more than a thousand were not counted by hand. */
  return sw_fault_check_range (SW_QUANTITY_COUNT, (double)k, 2.0, 1000.0, SW_UNIT_NONE, error);
}

static gboolean
check_series (SwQuantityName quantity, const double *values, gsize k, GError **error)
{
  for (gsize i = 0; i < k; i++)
    if (!sw_range_check (quantity, values[i], error))
      return FALSE;
  return check_number_of_series (k, error);
}

/* Critical value of G for k estimates: Student t at alpha / (2 k) with k - 2 degrees of freedom. */
static double
get_grubbs_critical (gsize k)
{
  double n = (double)k;
  double t;

  if (k < 3)
    return NAN;
  t = sw_student_t (GRUBBS_ALPHA / (2.0 * n), n - 2.0);
  return (n - 1.0) / sqrt (n) * sqrt (t * t / (n - 2.0 + t * t));
}

static void
find_outlier (const double *drops_ml, gsize k, SwCalibrationResult *result)
{
  double farthest = 0.0;

  for (gsize i = 0; i < k; i++)
    if (fabs (drops_ml[i] - result->drop_ml.value) > farthest)
      {
        farthest = fabs (drops_ml[i] - result->drop_ml.value);
        result->outlier_index = i;
      }
  /* Without any spread nothing stands out. */
  result->grubbs = result->sd_ml > 0.0 ? farthest / result->sd_ml : 0.0;
  result->grubbs_critical = get_grubbs_critical (k);
  result->outlier = result->grubbs > result->grubbs_critical;
}

/* @scale: the quantity that every estimate is proportional or inversely proportional to. */
static gboolean
evaluate (
    const double *drops_ml, gsize k, SwQuantity scale, SwCalibrationResult *result, GError **error)
{
  SwCalibrationResult found = { 0 };
  double mean = gsl_stats_mean (drops_ml, 1, k);
  SwQuantity spread = { mean, 0.0, (double)k - 1.0 };
  SwBudget budget;

  found.sd_ml = gsl_stats_sd_m (drops_ml, 1, k, mean);
  spread.u = found.sd_ml / sqrt ((double)k);
  sw_budget_init (&budget);
  sw_budget_add (&budget, SW_LINE_DROP_VOLUME, spread, SW_DISTRIBUTION_NORMAL, 1.0);
  sw_budget_add (&budget, SW_LINE_OTHER, scale, SW_DISTRIBUTION_NORMAL, mean / scale.value);
  sw_budget_finish (&budget);
  found.drop_ml = (SwQuantity){ mean, budget.u, budget.freedom };
  if (!sw_range_check_quantity (SW_QUANTITY_DROP_VOLUME, found.drop_ml, error))
    return FALSE;

  find_outlier (drops_ml, k, &found);
  *result = found;
  return TRUE;
}

gboolean
sw_calibration_by_weight (const double *weighings_g,
                          gsize k,
                          double drops,
                          SwQuantity density_g_ml,
                          SwCalibrationResult *result,
                          GError **error)
{
  g_autofree double *drops_ml = NULL;

  g_return_val_if_fail ((weighings_g != NULL || k == 0) && result != NULL, FALSE);
  if (!check_series (SW_QUANTITY_WEIGHING, weighings_g, k, error)
      || !sw_range_check (SW_QUANTITY_DROP_COUNT, drops, error)
      || !sw_range_check_quantity (SW_QUANTITY_DENSITY, density_g_ml, error))
    return FALSE;

  drops_ml = g_new (double, k);
  for (gsize i = 0; i < k; i++)
    drops_ml[i] = weighings_g[i] / (drops * density_g_ml.value);
  return evaluate (drops_ml, k, density_g_ml, result, error);
}

gboolean
sw_calibration_by_count (const double *counts,
                         gsize k,
                         SwQuantity volume_ml,
                         SwCalibrationResult *result,
                         GError **error)
{
  g_autofree double *drops_ml = NULL;

  g_return_val_if_fail ((counts != NULL || k == 0) && result != NULL, FALSE);
  if (!check_series (SW_QUANTITY_DROP_COUNT, counts, k, error)
      || !sw_range_check_quantity (SW_QUANTITY_GRADUATION, volume_ml, error))
    return FALSE;

  drops_ml = g_new (double, k);
  for (gsize i = 0; i < k; i++)
    drops_ml[i] = volume_ml.value / counts[i];
  return evaluate (drops_ml, k, volume_ml, result, error);
}

gboolean
sw_calibration_is_pharmacopoeial (double mass_of_20_drops_g)
{
  return mass_of_20_drops_g >= PHARMACOPOEIAL_LOW_G && mass_of_20_drops_g <= PHARMACOPOEIAL_HIGH_G;
}
