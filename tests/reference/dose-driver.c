/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in, numbers out, for comparison with other programs: one question a line, one answer a
 * line.
 *
 *   dose <28 numbers>   -> best, u, freedom, U, low, high, dose, u, doubt low, doubt high, per step
 *   t <freedom>         -> t factor at 95 %
 *   grubbs <k>          -> critical value for k weighings
 *
 * The 28: value, u, freedom of drop, sample, system, titrant, product, ratio, caustic; then whether
 * the caustic counts, acid at, pass at, blank, extra, direction (0 base), high mark of the reserve.
 * "nan" is unknown.
 */
#include "calc/calibration.h"
#include "calc/dose.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static double
next_number (char **cursor)
{
  return strtod (*cursor, cursor);
}

static SwQuantity
next_quantity (char **cursor)
{
  SwQuantity quantity;

  quantity.value = next_number (cursor);
  quantity.u = next_number (cursor);
  quantity.freedom = next_number (cursor);
  return quantity;
}

static void
answer_dose (char *cursor)
{
  g_autoptr (GError) error = NULL;
  SwDoseInput input = { 0 };
  SwDose dose;

  input.step_ml = next_quantity (&cursor);
  input.sample_ml = next_quantity (&cursor);
  input.system_l = next_quantity (&cursor);
  input.titrant = next_quantity (&cursor);
  input.product = next_quantity (&cursor);
  input.strength_ratio = next_quantity (&cursor);
  input.caustic_mmol = next_quantity (&cursor);
  input.caustic_counts = next_number (&cursor) > 0;
  input.acid_at = next_number (&cursor);
  input.pass_at = next_number (&cursor);
  input.blank = next_number (&cursor);
  input.extra = next_number (&cursor);
  input.direction = next_number (&cursor) > 0 ? SW_DIRECTION_ACID : SW_DIRECTION_BASE;
  input.reserve_high = next_number (&cursor);

  if (!sw_dose_compute (&input, NULL, &dose, &error))
    {
      printf ("error %s\n", error->message);
      return;
    }
  printf ("%.17g %.17g %.17g %.17g ", dose.best_ml.value, dose.best_ml.u, dose.best_ml.freedom,
          dose.best_expanded_ml);
  printf ("%.17g %.17g %.17g %.17g ", dose.bounds_ml.low, dose.bounds_ml.high, dose.dose_ml.value,
          dose.dose_ml.u);
  printf ("%.17g %.17g %.17g\n", dose.doubt_ml.low, dose.doubt_ml.high, dose.per_step_ml);
}

static void
answer_grubbs (char *cursor)
{
  gsize k = (gsize)next_number (&cursor);
  g_autofree double *weighings = g_new (double, k);
  SwCalibrationResult result = { 0 };

  for (gsize i = 0; i < k; i++)
    weighings[i] = 1.0 + 0.001 * (double)i;
  sw_calibration_by_weight (weighings, k, 20, SW_EXACT (1), &result, NULL);
  printf ("%.17g\n", result.grubbs_critical);
}

int
main (void)
{
  char line[4096];

  while (fgets (line, sizeof line, stdin) != NULL)
    {
      if (g_str_has_prefix (line, "dose "))
        answer_dose (line + strlen ("dose "));
      else if (g_str_has_prefix (line, "grubbs "))
        answer_grubbs (line + strlen ("grubbs "));
      else if (g_str_has_prefix (line, "t "))
        printf ("%.17g\n", sw_coverage_95 (strtod (line + 2, NULL)));
      else
        return 1;
    }
  return 0;
}
