/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules of dosing.
 *
 * The refusals are asked in this order, the most fundamental first; the first that applies is told:
 *   1. over range, or no acid found: nothing to dose
 *   2. another dose of the machine is not recorded, or waits for its re-test
 *   3. the solvent was changed since, or the figure is older than 8 h
 *   4. the sampling point is no basis
 *   5. set-up: product, limits, place, circulation time, volume, jug; strengths
 *   6. the last step was too wide
 *   7. the fill's total limit; the jug too coarse
 */
#include "workflow/dosing-private.h"

#include "calc/monte_carlo.h"
#include "workflow/check-private.h"
#include "workflow/guided-private.h"
#include "workflow/result-private.h"

#define MS_PER_HOUR 3600000.0
#define RELEASE_SHARE 0.5

#define FEW_STEPS 5.0
#define TRIALS 20000
#define SEED 101

typedef struct
{
  SwStore *store;
  const SwTitration *titration;
  const SwSample *sample;
  gint64 now_ms;
  SwMethodVersion *version; /* Owned */
  SwDosingPlant plant;      /* Owned */
  SwDoseProposal *proposal;
} Work;

/* Stops with a fact: no error, and nothing more to work out. */
static gboolean
refuse (Work *work, SwFactCode code, const char *text)
{
  work->proposal->refusal = sw_fact_with_text (code, text);
  return TRUE;
}

static gboolean
is_refused (const Work *work)
{
  return work->proposal->refusal.code != SW_FACT_NONE;
}

/* ---- 1 to 4: may this test be dosed from ---- */

static gboolean
check_outcome (Work *work, GError **error)
{
  if (work->titration->outcome == SW_OUTCOME_OVER_RANGE)
    return refuse (work, SW_FACT_NO_DOSE_OVER_RANGE, NULL);
  if (!sw_guided_leads_to_dose (work->titration->outcome, work->sample->purpose))
    return refuse (work, SW_FACT_NO_DOSE_OUTCOME, NULL);
  return TRUE;
}

static gboolean
check_other_doses (Work *work, GError **error)
{
  g_autoptr (GArray) open
      = sw_dose_ids_in_state (work->store, work->sample->machine, SW_DOSE_OPEN, error);
  g_autoptr (GArray) unanswered = NULL;

  if (open == NULL)
    return FALSE;
  for (guint i = 0; i < open->len; i++)
    {
      g_autoptr (SwDoseRow) dose
          = sw_dose_row_load (work->store, g_array_index (open, gint64, i), error);

      if (dose == NULL)
        return FALSE;
      if (dose->titration != work->titration->record.id)
        return refuse (work, SW_FACT_MACHINE_LOCKED, NULL);
    }
  unanswered = sw_dose_unanswered_ids (work->store, work->sample->machine, error);
  if (unanswered == NULL)
    return FALSE;
  for (guint i = 0; i < unanswered->len; i++)
    if (g_array_index (unanswered, gint64, i) != work->sample->answers_dose)
      return refuse (work, SW_FACT_RETEST_FIRST, NULL);
  return TRUE;
}

/* A figure speaks of the solvent it was measured in, and for 8 h after the test closed. */
static gboolean
check_age (Work *work, GError **error)
{
  /* On the Result page nothing is closed yet: the figure is of this moment. */
  gint64 closed_ms = work->titration->closed_ms != 0 ? work->titration->closed_ms : work->now_ms;
  double age_h = (double)(work->now_ms - closed_ms) / MS_PER_HOUR;
  GError *failure = NULL;
  gint64 fill = sw_machine_fill (work->store, work->sample->machine, &failure);

  if (!sw_answered (failure, error))
    return FALSE;
  if (fill != work->sample->fill || age_h > SW_DOSE_LAPSES_H)
    return refuse (work, SW_FACT_NO_DOSE_LAPSED, NULL);
  return TRUE;
}

static gboolean
check_point (Work *work, GError **error)
{
  g_autoptr (SwSamplingPoint) point = NULL;

  if (work->sample->point == 0)
    return refuse (work, SW_FACT_NO_DOSE_POINT, NULL);
  point = sw_sampling_point_load (work->store, work->sample->point, error);
  if (point == NULL)
    return FALSE;
  return point->dose_basis || refuse (work, SW_FACT_NO_DOSE_POINT, point->name);
}

/* ---- 5: set-up ---- */

static gboolean
check_plant (Work *work, GError **error)
{
  g_autoptr (GArray) missing = NULL;

  if (!sw_dosing_plant_load (work->store, work->sample->machine, &work->plant, error))
    return FALSE;
  missing = sw_dosing_plant_missing (&work->plant);
  if (missing->len > 0)
    {
      work->proposal->refusal = g_array_index (missing, SwFact, 0);
      return TRUE;
    }
  work->proposal->product = work->plant.product->record.id;
  work->proposal->wait_min = sw_dosing_wait_min (work->plant.machine, work->plant.product);
  return TRUE;
}

static gboolean
check_strengths (Work *work, GError **error)
{
  SwDoseInput *input = &work->proposal->input;

  work->version = sw_method_version_load (work->store, work->titration->method_version, error);
  if (work->version == NULL)
    return FALSE;
  sw_result_dose_input (work->titration, work->version, input);
  input->system_l = work->plant.system_l;
  return sw_dosing_fill_strengths (&work->plant, work->version->titrant, input)
         || refuse (work, SW_FACT_NO_DOSE_STRENGTH, work->plant.product->name);
}

/* ---- 6 and 7: the amount ---- */

static double
get_limit (double limit_ml_l, double system_l)
{
  /* Only a named person's "the sheet gives none" lets a missing limit through to here. */
  return isnan (limit_ml_l) ? INFINITY : limit_ml_l * system_l;
}

static gboolean
fill_rules (Work *work, GError **error)
{
  const SwProduct *product = work->plant.product;
  SwDoseRules *rules = &work->proposal->rules;
  double system_l = work->plant.system_l.value;
  double dosed_ml;

  if (!sw_dose_total (work->store, work->sample->fill, product->record.id, &dosed_ml, error))
    return FALSE;
  rules->graduation_ml = work->plant.machine->graduation.value;
  rules->limit_each_ml = get_limit (product->limit_each_ml_l, system_l);
  rules->limit_total_ml = get_limit (product->limit_total_ml_l, system_l) - dosed_ml;
  return TRUE;
}

/* The supplier's figure is worked out for the same counted steps; where it governs, the dose is
 * made with it. */
static gboolean
compare_supplier (Work *work, GError **error)
{
  SwDoseProposal *proposal = work->proposal;
  double factor = work->version->supplier_factor_ml_l;
  SwDoseInput supplier;
  SwDose ours;
  SwDose theirs;

  if (isnan (factor))
    return TRUE;
  sw_result_supplier_input (&proposal->input, factor, &supplier);
  if (!sw_dose_compute (&proposal->input, NULL, &ours, error)
      || !sw_dose_compute (&supplier, NULL, &theirs, error))
    return FALSE;
  if (ours.step_too_wide)
    return TRUE;
  proposal->supplier_ml = theirs.dose_ml.value - theirs.extra_ml;
  proposal->supplier_ratio = sw_dose_supplier_ratio (
      ours.dose_ml.value - ours.extra_ml, proposal->supplier_ml, &proposal->supplier_flagged);
  proposal->supplier_governs = work->version->supplier_governs;
  if (proposal->supplier_governs)
    proposal->input = supplier;
  return TRUE;
}

/* Which rule of the amount a fault of the calculation speaks of; FALSE when it is another. */
static gboolean
refuse_by_fault (Work *work, const GError *failure)
{
  const SwFault *fault = sw_fault_get (failure);
  SwFact fact = sw_fact (SW_FACT_NONE);

  if (fault != NULL && fault->code == SW_FAULT_COARSE)
    {
      fact = sw_fact (SW_FACT_NO_DOSE_COARSE);
      fact.number[0] = work->proposal->rules.graduation_ml;
    }
  else if (fault != NULL && fault->code == SW_FAULT_RANGE
           && fault->quantity == SW_QUANTITY_LIMIT_TOTAL)
    {
      fact = sw_fact (SW_FACT_NO_DOSE_TOTAL);
      fact.number[0] = MAX (0.0, work->proposal->rules.limit_total_ml);
    }
  work->proposal->refusal = fact;
  return fact.code != SW_FACT_NONE;
}

/* 2.4: below five steps +-U on the count says too little, so the interval is drawn (JCGM 101). The
 * seed is fixed: the same dose always shows the same interval. */
static gboolean
find_likely (SwDoseProposal *proposal, GError **error)
{
  const SwDose *dose = &proposal->dose;

  if (proposal->input.pass_at < FEW_STEPS)
    return sw_dose_monte_carlo (&proposal->input, TRIALS, SEED, &proposal->likely_ml, error);
  proposal->likely_ml = (SwInterval){ dose->best_ml.value - dose->best_expanded_ml,
                                      dose->best_ml.value + dose->best_expanded_ml };
  return TRUE;
}

static gboolean
compute (Work *work, GError **error)
{
  SwDoseProposal *proposal = work->proposal;
  g_autoptr (GError) failure = NULL;

  if (!sw_dose_compute (&proposal->input, NULL, &proposal->dose, error))
    return FALSE;
  if (proposal->dose.step_too_wide)
    return refuse (work, SW_FACT_NO_DOSE_STEP_WIDE, NULL);
  if (sw_dose_compute (&proposal->input, &proposal->rules, &proposal->dose, &failure))
    proposal->parts = sw_dose_split (proposal->dose.measure_ml, &proposal->rules, &failure);
  if (failure == NULL)
    return find_likely (proposal, error);
  if (refuse_by_fault (work, failure))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&failure));
  return FALSE;
}

/* ---- release, and what went before ---- */

static gboolean
count_earlier_doses (Work *work, guint *n, GError **error)
{
  GError *failure = NULL;
  gint64 incident = sw_incident_open_id (work->store, work->sample->machine, &failure);
  g_autoptr (GArray) ids = NULL;

  *n = 0;
  if (!sw_answered (failure, error))
    return FALSE;
  if (incident == 0)
    return TRUE;
  ids = sw_record_ids (work->store, SW_TABLE_DOSE, "incident", incident, error);
  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwDoseRow) dose
          = sw_dose_row_load (work->store, g_array_index (ids, gint64, i), error);

      if (dose == NULL)
        return FALSE;
      if (dose->state == SW_DOSE_ADDED || dose->state == SW_DOSE_NOT_KNOWN)
        (*n)++;
    }
  return TRUE;
}

static gboolean
check_release (Work *work, GError **error)
{
  SwDoseProposal *proposal = work->proposal;
  const SwProduct *product = work->plant.product;
  double system_l = work->plant.system_l.value;
  double limit_ml = MIN (get_limit (product->limit_each_ml_l, system_l),
                         get_limit (product->limit_total_ml_l, system_l));
  guint earlier;

  if (!count_earlier_doses (work, &earlier, error))
    return FALSE;
  if (earlier > 0)
    proposal->release = sw_fact (SW_FACT_NEEDS_RELEASE_SECOND);
  else if (work->titration->pass_at >= SW_RELEASE_DROPS)
    proposal->release = sw_fact (SW_FACT_NEEDS_RELEASE_DROPS);
  else if (proposal->dose.measure_ml >= RELEASE_SHARE * limit_ml)
    proposal->release = sw_fact (SW_FACT_NEEDS_RELEASE_LIMIT);
  return TRUE;
}

/* The outcome that the sample drawn as a re-test ended with. */
static gboolean
find_retest (Work *work, gint64 sample, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (work->store, SW_TABLE_TITRATION, "sample", sample, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = ids->len; i > 0; i--)
    {
      g_autoptr (SwTitration) titration
          = sw_titration_load (work->store, g_array_index (ids, gint64, i - 1), error);

      if (titration == NULL)
        return FALSE;
      if (titration->signed_ms == 0)
        continue;
      work->proposal->last_retest = titration->outcome;
      return TRUE;
    }
  return TRUE;
}

static gboolean
find_last_dose (Work *work, GError **error)
{
  g_autoptr (GArray) ids
      = sw_dose_ids_in_state (work->store, work->sample->machine, SW_DOSE_ADDED, error);
  g_autoptr (SwDoseRow) dose = NULL;

  if (ids == NULL || ids->len == 0)
    return ids != NULL;
  dose = sw_dose_row_load (work->store, g_array_index (ids, gint64, ids->len - 1), error);
  if (dose == NULL)
    return FALSE;
  work->proposal->last_dose = dose->record.id;
  return dose->retest_sample == 0 || find_retest (work, dose->retest_sample, error);
}

/* ---- public ---- */

static gboolean
propose (Work *work, double extra, GError **error)
{
  static gboolean (*const checks[]) (Work *, GError **)
      = { check_outcome, check_other_doses, check_age, check_point, check_plant, check_strengths };

  for (gsize i = 0; i < G_N_ELEMENTS (checks); i++)
    if (!checks[i](work, error) || is_refused (work))
      return is_refused (work);
  work->proposal->input.extra = extra;
  if (!fill_rules (work, error) || !compare_supplier (work, error) || !compute (work, error))
    return FALSE;
  return is_refused (work) || (check_release (work, error) && find_last_dose (work, error));
}

gboolean
sw_dosing_propose (SwStore *store,
                   const SwTitration *titration,
                   const SwSample *sample,
                   double extra,
                   gint64 now_ms,
                   SwDoseProposal *proposal,
                   GError **error)
{
  Work work = {
    .store = store, .titration = titration, .sample = sample, .now_ms = now_ms, .proposal = proposal
  };
  gboolean done;

  g_return_val_if_fail (store != NULL && titration != NULL && sample != NULL, FALSE);
  g_return_val_if_fail (proposal != NULL, FALSE);
  *proposal = (SwDoseProposal){ .wait_min = NAN, .supplier_ml = NAN, .supplier_ratio = NAN };
  done = sw_check_number (SW_QUANTITY_EXTRA, extra, NULL, error) && propose (&work, extra, error);
  sw_dosing_plant_clear (&work.plant);
  sw_method_version_free (work.version);
  return done;
}

void
sw_dose_proposal_clear (SwDoseProposal *proposal)
{
  g_clear_pointer (&proposal->parts, g_array_unref);
}
