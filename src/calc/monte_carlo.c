/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Monte Carlo interval of a dose.
 *
 * Sources: JCGM 101:2008 6.4.2 (rectangle), 6.4.7 (normal), 6.4.9 (scaled and shifted t), 7.7
 * (coverage interval from the sorted draws). A volume, strength or ratio is never 0 or negative:
 * such a draw is drawn again, which only matters for a t with very few degrees of freedom.
 */
#include "calc/monte_carlo.h"

#include "calc/dose_model.h"
#include "calc/range.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_sort.h>

/* JCGM 101 7.2.2 asks for about 10^6 trials at 95 %; below a thousand the ends mean nothing. */
#define FEWEST_TRIALS 1000.0
#define MOST_TRIALS 10000000.0

#define COVERAGE 0.95

static double
draw_quantity (const gsl_rng *rng, SwQuantity quantity)
{
  if (isinf (quantity.freedom))
    return quantity.value + gsl_ran_gaussian (rng, quantity.u);
  return quantity.value + quantity.u * gsl_ran_tdist (rng, quantity.freedom);
}

static SwQuantity
draw_positive (const gsl_rng *rng, SwQuantity quantity)
{
  double value;

  if (!sw_quantity_is_known (quantity) || quantity.u == 0.0)
    return quantity;
  do
    value = draw_quantity (rng, quantity);
  while (!(value > 0.0));
  return SW_EXACT (value);
}

/* The net acid somewhere between the last two readings; a blank is a second count, one step wide.
 */
static double
draw_steps (const gsl_rng *rng, const SwDoseInput *input)
{
  SwInterval steps = sw_dose_model_steps (input);
  double width = input->pass_at - input->acid_at;
  double drawn = steps.low + gsl_ran_flat (rng, 0.0, width);

  return input->blank > 0.0 ? drawn + gsl_ran_flat (rng, 0.0, 1.0) : drawn;
}

static double
draw_dose (const gsl_rng *rng, const SwDoseInput *input)
{
  SwDoseInput drawn = *input;

  drawn.step_ml = draw_positive (rng, input->step_ml);
  drawn.sample_ml = draw_positive (rng, input->sample_ml);
  drawn.system_l = draw_positive (rng, input->system_l);
  drawn.titrant = draw_positive (rng, input->titrant);
  if (input->caustic_mmol.value > 0.0)
    drawn.caustic_mmol = draw_positive (rng, input->caustic_mmol);
  if (sw_dose_model_by_ratio (input))
    {
      drawn.strength_ratio = draw_positive (rng, input->strength_ratio);
      /* Not known: so the ratio is used for this draw too, whatever the titrant came out as. */
      drawn.product = SW_UNKNOWN;
    }
  else
    {
      drawn.strength_ratio = SW_UNKNOWN;
      drawn.product = draw_positive (rng, input->product);
    }
  return sw_dose_model_value (&drawn, draw_steps (rng, input));
}

/* JCGM 101 7.7.1 and 7.7.2: the probabilistically symmetric interval of sorted draws y(1) .. y(M).
 */
static SwInterval
get_interval (const double *sorted, gsize trials)
{
  gsize q = (gsize)floor (COVERAGE * (double)trials + 0.5);
  gsize r = (trials - q + 1) / 2;

  return (SwInterval){ sorted[r - 1], sorted[r + q - 1] };
}

gboolean
sw_dose_monte_carlo (
    const SwDoseInput *input, gsize trials, guint32 seed, SwInterval *interval_ml, GError **error)
{
  g_autofree double *draws = NULL;
  gsl_rng *rng;

  g_return_val_if_fail (input != NULL && interval_ml != NULL, FALSE);
  if (!sw_dose_model_check (input, error)
      || !sw_fault_check_range (SW_QUANTITY_COUNT, (double)trials, FEWEST_TRIALS, MOST_TRIALS,
                                SW_UNIT_NONE, error))
    return FALSE;

  draws = g_new (double, trials);
  rng = gsl_rng_alloc (gsl_rng_mt19937);
  gsl_rng_set (rng, seed);
  for (gsize i = 0; i < trials; i++)
    draws[i] = draw_dose (rng, input);
  gsl_rng_free (rng);
  gsl_sort (draws, 1, trials);
  *interval_ml = get_interval (draws, trials);
  return TRUE;
}
