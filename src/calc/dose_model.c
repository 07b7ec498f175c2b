/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The formula of the dose, its derivatives, and what may go into it. */
#include "calc/dose_model.h"

#include "calc/range.h"

/* mL per L. */
#define MILLI 1000.0

static gboolean
refuse (SwFaultCode code,
        SwQuantityName quantity,
        double value,
        double low,
        double high,
        GError **error)
{
  SwFault fault = { .code = code,
                    .quantity = quantity,
                    .value = value,
                    .low = low,
                    .high = high,
                    .unit = SW_UNIT_STEP };

  return sw_fault_set (error, &fault);
}

/* Steps are plain numbers, but an unknown one is missing, not "no number". */
static gboolean
check_steps (SwQuantityName quantity, double value, GError **error)
{
  return sw_range_check_quantity (quantity, SW_EXACT (value), error);
}

static double
get_caustic (const SwDoseInput *input)
{
  return input->caustic_counts ? input->caustic_mmol.value : 0.0;
}

static gboolean
check_strengths (const SwDoseInput *input, GError **error)
{
  gboolean by_ratio = sw_dose_model_by_ratio (input);
  gboolean needs_titrant = !by_ratio || get_caustic (input) > 0.0;

  if ((needs_titrant || sw_quantity_is_known (input->titrant))
      && !sw_range_check_quantity (SW_QUANTITY_TITRANT_STRENGTH, input->titrant, error))
    return FALSE;
  if ((!by_ratio || sw_quantity_is_known (input->product))
      && !sw_range_check_quantity (SW_QUANTITY_PRODUCT_STRENGTH, input->product, error))
    return FALSE;
  return !by_ratio
         || sw_range_check_quantity (SW_QUANTITY_STRENGTH_RATIO, input->strength_ratio, error);
}

/* An addition that does not count is the test's threshold: it never enters the dose, but it must be
 * known whether there was one, for the blank's sake. */
static gboolean
check_caustic (const SwDoseInput *input, GError **error)
{
  if (!sw_range_check_quantity (SW_QUANTITY_CAUSTIC, input->caustic_mmol, error))
    return FALSE;
  if (input->caustic_mmol.value > 0.0 && input->direction == SW_DIRECTION_ACID)
    return refuse (SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC, input->caustic_mmol.value, 0.0, 0.0,
                   error);
  return TRUE;
}

static gboolean
check_blank (const SwDoseInput *input, GError **error)
{
  gboolean excluded = input->caustic_mmol.value > 0.0 || input->direction == SW_DIRECTION_ACID;

  if (!check_steps (SW_QUANTITY_BLANK, input->blank, error))
    return FALSE;
  if (input->blank > 0.0 && excluded)
    return refuse (SW_FAULT_COMBINATION, SW_QUANTITY_BLANK, input->blank, 0.0, 0.0, error);
  /* A pass at or below the blank is no acid. */
  if (input->blank > 0.0 && input->pass_at <= input->blank)
    return refuse (SW_FAULT_ORDER, SW_QUANTITY_PASS_AT, input->pass_at, input->blank, INFINITY,
                   error);
  return TRUE;
}

static gboolean
check_band (const SwDoseInput *input, GError **error)
{
  if (input->direction == SW_DIRECTION_BASE)
    {
      if (input->reserve_high == 0.0)
        return TRUE;
      return refuse (SW_FAULT_COMBINATION, SW_QUANTITY_RESERVE_HIGH, input->reserve_high, 0.0, 0.0,
                     error);
    }
  if (!check_steps (SW_QUANTITY_RESERVE_HIGH, input->reserve_high, error))
    return FALSE;
  /* The reserve is at least m: a mark at or below it asks for no dose. */
  if (input->reserve_high <= input->acid_at)
    return refuse (SW_FAULT_RANGE, SW_QUANTITY_RESERVE_HIGH, input->reserve_high, input->acid_at,
                   INFINITY, error);
  return TRUE;
}

gboolean
sw_dose_model_check (const SwDoseInput *input, GError **error)
{
  if (!sw_range_check_quantity (SW_QUANTITY_DROP_VOLUME, input->step_ml, error)
      || !sw_range_check_quantity (SW_QUANTITY_SAMPLE_VOLUME, input->sample_ml, error)
      || !sw_range_check_quantity (SW_QUANTITY_SYSTEM_VOLUME, input->system_l, error)
      || !check_caustic (input, error) || !check_strengths (input, error)
      || !check_steps (SW_QUANTITY_ACID_AT, input->acid_at, error)
      || !check_steps (SW_QUANTITY_PASS_AT, input->pass_at, error))
    return FALSE;

  if (input->pass_at <= input->acid_at)
    return refuse (SW_FAULT_ORDER, SW_QUANTITY_PASS_AT, input->pass_at, input->acid_at, INFINITY,
                   error);
  return check_blank (input, error) && check_band (input, error)
         && check_steps (SW_QUANTITY_EXTRA, input->extra, error);
}

gboolean
sw_dose_model_by_ratio (const SwDoseInput *input)
{
  const SwQuantity *ratio = &input->strength_ratio;

  if (!sw_quantity_is_known (input->titrant) || !sw_quantity_is_known (input->product))
    return TRUE;
  /* The product itself is the titrant: b and s are one number, so its uncertainty must not count
   * twice. */
  return ratio->value == 1.0 && ratio->u == 0.0 && input->titrant.value == input->product.value;
}

SwInterval
sw_dose_model_steps (const SwDoseInput *input)
{
  if (input->direction == SW_DIRECTION_ACID)
    return (SwInterval){ input->reserve_high - input->pass_at,
                         input->reserve_high - input->acid_at };
  return sw_net_acid (input->acid_at, input->pass_at, input->blank, 0.0);
}

/* 1000 V_m / V_s: mL of solvent in the machine per mL in the flask. */
static double
get_scale (const SwDoseInput *input)
{
  return MILLI * input->system_l.value / input->sample_ml.value;
}

/* b/s, whichever way it is known. */
static double
get_ratio (const SwDoseInput *input)
{
  if (sw_dose_model_by_ratio (input))
    return input->strength_ratio.value;
  return input->titrant.value / input->product.value;
}

double
sw_dose_model_per_step (const SwDoseInput *input)
{
  return input->step_ml.value * get_ratio (input) * get_scale (input);
}

double
sw_dose_model_value (const SwDoseInput *input, double steps)
{
  double caustic = get_caustic (input);
  double volume = steps * input->step_ml.value;

  if (caustic > 0.0)
    volume += caustic / input->titrant.value;
  return volume * get_ratio (input) * get_scale (input);
}

static void
add_normal (SwBudget *budget, SwBudgetLineName name, SwQuantity input, double sensitivity)
{
  sw_budget_add (budget, name, input, SW_DISTRIBUTION_NORMAL, sensitivity);
}

/* Derivatives of (x v_d b + A) K / s, with K = 1000 V_m / V_s. */
static void
add_by_strengths (const SwDoseInput *input, double steps, SwBudget *budget)
{
  double dose = sw_dose_model_value (input, steps);
  double per_mmol = get_scale (input) / input->product.value;

  add_normal (budget, SW_LINE_TITRANT, input->titrant, steps * input->step_ml.value * per_mmol);
  add_normal (budget, SW_LINE_PRODUCT, input->product, -dose / input->product.value);
  if (get_caustic (input) > 0.0)
    add_normal (budget, SW_LINE_CAUSTIC, input->caustic_mmol, per_mmol);
}

/* Derivatives of (x v_d + A / b) r K. */
static void
add_by_ratio (const SwDoseInput *input, double steps, SwBudget *budget)
{
  double dose = sw_dose_model_value (input, steps);
  double per_ml = get_ratio (input) * get_scale (input);
  double caustic = get_caustic (input);
  double b = input->titrant.value;

  add_normal (budget, SW_LINE_STRENGTH_RATIO, input->strength_ratio,
              dose / input->strength_ratio.value);
  if (!(caustic > 0.0))
    return;
  add_normal (budget, SW_LINE_TITRANT, input->titrant, -caustic * per_ml / (b * b));
  add_normal (budget, SW_LINE_CAUSTIC, input->caustic_mmol, per_ml / b);
}

void
sw_dose_model_budget (const SwDoseInput *input, SwQuantity steps, SwBudget *budget)
{
  double x = steps.value;
  double dose = sw_dose_model_value (input, x);

  sw_budget_init (budget);
  if (steps.u > 0.0)
    sw_budget_add (budget, SW_LINE_END_POINT, steps, SW_DISTRIBUTION_RECTANGULAR,
                   sw_dose_model_per_step (input));
  add_normal (budget, SW_LINE_DROP_VOLUME, input->step_ml,
              x * get_ratio (input) * get_scale (input));
  add_normal (budget, SW_LINE_SAMPLE_VOLUME, input->sample_ml, -dose / input->sample_ml.value);
  add_normal (budget, SW_LINE_SYSTEM_VOLUME, input->system_l, dose / input->system_l.value);
  if (sw_dose_model_by_ratio (input))
    add_by_ratio (input, x, budget);
  else
    add_by_strengths (input, x, budget);
  sw_budget_finish (budget);
}
