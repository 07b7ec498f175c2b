/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dose: bounds, best estimate, rounding to the jug, splitting.
 *
 * Invariants of a dose that was worked out:
 * 1. bounds_ml.low <= best_ml.value <= bounds_ml.high, and doubt_ml encloses bounds_ml.
 * 2. measure_ml is a whole number of graduations and never below dose_ml (within ROUND_OFF).
 * 3. Nothing is rounded before the total is.
 */
#include "calc/dose.h"

#include "calc/content.h"
#include "calc/dose_model.h"
#include "calc/range.h"

/* Relative: 63.0000000000001 graduations are 63, not 64. */
#define ROUND_OFF 1e-9

/* 2.3: what rounding up may add at most, of the dose and of one step's worth. */
#define COARSE_SHARE 0.10
#define COARSE_STEP 0.5

/* 2.3: a supplier's figure that differs by more is flagged. */
#define SUPPLIER_DIFFERENCE 0.10

/* More additions than this for one dose is a mistyped limit. */
#define MOST_PARTS 1000.0

static gboolean
refuse (SwFaultCode code,
        SwQuantityName quantity,
        double value,
        double low,
        double high,
        GError **error)
{
  SwFault fault = {
    .code = code, .quantity = quantity, .value = value, .low = low, .high = high, .unit = SW_UNIT_ML
  };

  return sw_fault_set (error, &fault);
}

static gboolean
check_limit (SwQuantityName quantity, double limit_ml, double low, GError **error)
{
  if (isnan (limit_ml))
    return refuse (SW_FAULT_MISSING, quantity, limit_ml, low, INFINITY, error);
  if (limit_ml < low)
    return refuse (SW_FAULT_RANGE, quantity, limit_ml, low, INFINITY, error);
  return TRUE;
}

/* A total limit that is used up is 0 or below: then any dose is above it, and that is said later.
 */
static gboolean
check_rules (const SwDoseRules *rules, GError **error)
{
  if (rules == NULL)
    return TRUE;
  if (!isnan (rules->graduation_ml)
      && !sw_range_check (SW_QUANTITY_GRADUATION, rules->graduation_ml, error))
    return FALSE;
  return check_limit (SW_QUANTITY_LIMIT_EACH, rules->limit_each_ml, ROUND_OFF, error)
         && check_limit (SW_QUANTITY_LIMIT_TOTAL, rules->limit_total_ml, -INFINITY, error);
}

/* EURACHEM/CITAC CG 4 and JCGM 100 4.3.7: a count to a change is rectangular; the blank is a second
 * one, one step wide. Variance of a rectangle of width w: w^2/12. */
static SwQuantity
get_end_point (const SwDoseInput *input)
{
  SwInterval steps = sw_dose_model_steps (input);
  double width = input->pass_at - input->acid_at;
  double blank_width = input->blank > 0.0 ? 1.0 : 0.0;
  double variance = (width * width + blank_width * blank_width) / 12.0;

  return (SwQuantity){ (steps.low + steps.high) / 2.0, sqrt (variance), INFINITY };
}

static void
fill_bounds (const SwDoseInput *input, SwDose *dose)
{
  SwInterval steps = sw_dose_model_steps (input);
  SwBudget low;
  SwBudget high;

  dose->bounds_ml.low = sw_dose_model_value (input, steps.low);
  dose->bounds_ml.high = sw_dose_model_value (input, steps.high);

  /* |low| f U_f is the expanded uncertainty of that end, so that taking it off gives low f (1 -
   * U_f) for a positive end and low f (1 + U_f) for a negative one. */
  sw_dose_model_budget (input, SW_EXACT (steps.low), &low);
  sw_dose_model_budget (input, SW_EXACT (steps.high), &high);
  dose->doubt_ml.low = dose->bounds_ml.low - low.expanded;
  dose->doubt_ml.high = dose->bounds_ml.high + high.expanded;
}

static void
fill_best (const SwDoseInput *input, SwDose *dose)
{
  SwQuantity end_point = get_end_point (input);

  sw_dose_model_budget (input, end_point, &dose->budget);
  dose->best_ml.value = sw_dose_model_value (input, end_point.value);
  dose->best_ml.u = dose->budget.u;
  dose->best_ml.freedom = dose->budget.freedom;
  dose->best_expanded_ml = dose->budget.expanded;
  dose->coverage = dose->budget.coverage;
}

static void
fill_net (const SwDoseInput *input, SwDose *dose)
{
  double caustic_steps = 0.0;

  if (input->direction == SW_DIRECTION_ACID)
    {
      dose->net = (SwInterval){ -input->pass_at, -input->acid_at };
      return;
    }
  if (input->caustic_counts && input->caustic_mmol.value > 0.0)
    caustic_steps = sw_caustic_in_steps (input->caustic_mmol.value, input->step_ml.value,
                                         input->titrant.value);
  dose->net = sw_net_acid (input->acid_at, input->pass_at, input->blank, caustic_steps);
}

static void
fill_content (const SwDoseInput *input, SwDose *dose)
{
  double per_step = NAN;

  if (sw_quantity_is_known (input->titrant))
    sw_content_per_step (input->step_ml.value, input->titrant.value, input->sample_ml.value,
                         &per_step, NULL);
  dose->content_mmol_l.low = dose->net.low * per_step;
  dose->content_mmol_l.high = dose->net.high * per_step;
  dose->content_best_mmol_l = (dose->net.low + dose->net.high) / 2.0 * per_step;
}

static void
fill_dose (const SwDoseInput *input, SwDose *dose)
{
  double steps = sw_dose_model_steps (input).high + input->extra;
  SwBudget budget;

  dose->extra_ml = input->extra * dose->per_step_ml;
  if (dose->step_too_wide)
    {
      dose->dose_ml = SW_UNKNOWN;
      return;
    }
  sw_dose_model_budget (input, SW_EXACT (steps), &budget);
  dose->dose_ml.value = sw_dose_model_value (input, steps);
  dose->dose_ml.u = budget.u;
  dose->dose_ml.freedom = budget.freedom;
}

/* The number of graduations in @amount_ml, rounded up unless it is whole already. */
static double
count_graduations (double amount_ml, double graduation_ml)
{
  double quotient = amount_ml / graduation_ml;
  double nearest = round (quotient);

  return fabs (quotient - nearest) <= ROUND_OFF * MAX (1.0, quotient) ? nearest : ceil (quotient);
}

static gboolean
round_dose (const SwDoseRules *rules, SwDose *dose, GError **error)
{
  double exact = dose->dose_ml.value;
  double allowed = MIN (COARSE_SHARE * exact, COARSE_STEP * dose->per_step_ml);

  if (rules == NULL || isnan (rules->graduation_ml))
    return TRUE;
  dose->measure_ml = count_graduations (exact, rules->graduation_ml) * rules->graduation_ml;
  if (dose->measure_ml - exact > allowed * (1.0 + ROUND_OFF))
    return refuse (SW_FAULT_COARSE, SW_QUANTITY_GRADUATION, rules->graduation_ml, 0.0, allowed,
                   error);
  return TRUE;
}

static gboolean
check_total (const SwDoseRules *rules, const SwDose *dose, GError **error)
{
  double amount = isnan (dose->measure_ml) ? dose->dose_ml.value : dose->measure_ml;

  if (rules == NULL || amount <= rules->limit_total_ml * (1.0 + ROUND_OFF))
    return TRUE;
  return refuse (SW_FAULT_RANGE, SW_QUANTITY_LIMIT_TOTAL, amount, 0.0,
                 MAX (0.0, rules->limit_total_ml), error);
}

gboolean
sw_dose_compute (const SwDoseInput *input, const SwDoseRules *rules, SwDose *dose, GError **error)
{
  SwDose result = { .measure_ml = NAN };

  g_return_val_if_fail (input != NULL && dose != NULL, FALSE);
  if (!sw_dose_model_check (input, error) || !check_rules (rules, error))
    return FALSE;

  result.per_step_ml = sw_dose_model_per_step (input);
  result.step_too_wide = sw_step_is_wide (input->acid_at, input->pass_at);
  fill_net (input, &result);
  fill_content (input, &result);
  fill_bounds (input, &result);
  fill_best (input, &result);
  fill_dose (input, &result);

  if (!result.step_too_wide
      && (!round_dose (rules, &result, error) || !check_total (rules, &result, error)))
    return FALSE;
  *dose = result;
  return TRUE;
}

/* The largest single addition: within the limit and on a mark. */
static double
get_largest_part (double measure_ml, const SwDoseRules *rules)
{
  double most = MIN (measure_ml, rules->limit_each_ml);

  if (isnan (rules->graduation_ml))
    return most;
  return floor (most / rules->graduation_ml * (1.0 + ROUND_OFF)) * rules->graduation_ml;
}

static gboolean
check_split (double measure_ml, const SwDoseRules *rules, GError **error)
{
  double part;

  if (!sw_range_check (SW_QUANTITY_ADDED_AMOUNT, measure_ml, error) || !check_rules (rules, error))
    return FALSE;
  if (!isnan (rules->graduation_ml))
    {
      double marks = count_graduations (measure_ml, rules->graduation_ml);

      if (marks * rules->graduation_ml > measure_ml * (1.0 + ROUND_OFF))
        return refuse (SW_FAULT_COARSE, SW_QUANTITY_GRADUATION, rules->graduation_ml, 0.0,
                       measure_ml, error);
    }
  part = get_largest_part (measure_ml, rules);
  if (measure_ml > 0.0 && part <= 0.0)
    return refuse (SW_FAULT_COARSE, SW_QUANTITY_GRADUATION, rules->graduation_ml, 0.0,
                   rules->limit_each_ml, error);
  if (measure_ml > MOST_PARTS * part)
    return refuse (SW_FAULT_RANGE, SW_QUANTITY_LIMIT_EACH, rules->limit_each_ml,
                   measure_ml / MOST_PARTS, INFINITY, error);
  return TRUE;
}

GArray *
sw_dose_split (double measure_ml, const SwDoseRules *rules, GError **error)
{
  GArray *parts;
  double part;
  guint n;

  g_return_val_if_fail (rules != NULL, NULL);
  if (!check_split (measure_ml, rules, error))
    return NULL;

  parts = g_array_new (FALSE, FALSE, sizeof (double));
  part = get_largest_part (measure_ml, rules);
  /* At most MOST_PARTS: checked above. */
  n = measure_ml > 0.0 ? (guint)count_graduations (measure_ml, part) : 0;
  for (guint i = 1; i <= n; i++)
    {
      double amount = i < n ? part : measure_ml - (n - 1) * part;

      /* What is left of whole marks is whole marks again, whatever the subtraction leaves behind.
       */
      if (!isnan (rules->graduation_ml))
        amount = round (amount / rules->graduation_ml) * rules->graduation_ml;
      g_array_append_val (parts, amount);
    }
  return parts;
}

double
sw_dose_supplier_ratio (double ours_ml, double supplier_ml, gboolean *flagged)
{
  double ratio;

  g_return_val_if_fail (ours_ml > 0.0 && supplier_ml > 0.0, NAN);
  ratio = supplier_ml / ours_ml;
  if (flagged != NULL)
    *flagged = fabs (ratio - 1.0) > SUPPLIER_DIFFERENCE + ROUND_OFF;
  return ratio;
}
