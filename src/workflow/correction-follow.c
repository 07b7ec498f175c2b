/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What follows from a corrected result (amend.h), always to the safe side. */
#include "workflow/correction-private.h"

#include "workflow/guided-private.h"
#include "workflow/incident-private.h"
#include "workflow/recompute.h"
#include "workflow/schedule-private.h"

/* What a result says, before and after. */
typedef struct
{
  gboolean acid;
  gboolean over_range;
  gboolean goes_back; /* so much that the interval starts again */
} Findings;

/* ---- doses ---- */

/* What only rounds differently is not rewritten: the journal tells of changes. */
static void
settle (double *stored, double computed)
{
  if (!sw_result_is_same (computed, *stored))
    *stored = computed;
}

/* No dose follows from such a test: its figures go, and say so (calculation 0, as where nothing was
 * computed). What a step is worth in the machine depends on no reading. */
static void
clear_figures (SwDoseRow *dose, const SwDoseInput *input)
{
  SwDoseInput one_step = *input;
  SwDose worth;

  dose->low_ml = dose->high_ml = dose->best_ml = dose->best_u_ml = NAN;
  dose->computed_ml = dose->measured_ml = dose->supplier_ml = NAN;
  dose->calc_version = 0;
  one_step.acid_at = 0.0;
  one_step.pass_at = 1.0;
  one_step.blank = one_step.extra = 0.0;
  settle (&dose->per_step_ml,
          sw_dose_compute (&one_step, NULL, &worth, NULL) ? worth.per_step_ml : NAN);
}

static void
store_figures (SwDoseRow *dose, const SwDose *amount)
{
  settle (&dose->per_step_ml, amount->per_step_ml);
  settle (&dose->low_ml, amount->bounds_ml.low);
  settle (&dose->high_ml, amount->bounds_ml.high);
  settle (&dose->best_ml, amount->best_ml.value);
  settle (&dose->best_u_ml, amount->best_ml.u);
  settle (&dose->computed_ml, amount->dose_ml.value);
  settle (&dose->measured_ml, amount->measure_ml);
  dose->calc_version = SW_CALC_VERSION;
}

/* The figure by the supplier's chart beside ours; where it governs, the dose itself is made with
 * it. */
static void
store_supplier (SwDoseRow *dose, const SwMethodVersion *version, const SwDoseInput *input)
{
  SwDoseInput supplier;
  SwDose theirs;
  double figure_ml = NAN;

  sw_result_supplier_input (input, version->supplier_factor_ml_l, &supplier);
  if (!isnan (version->supplier_factor_ml_l) && sw_dose_compute (&supplier, NULL, &theirs, NULL)
      && !theirs.step_too_wide)
    figure_ml = theirs.dose_ml.value - theirs.extra_ml;
  settle (&dose->supplier_ml, figure_ml);
}

static gboolean
write_figures (SwStore *store,
               SwDoseRow *dose,
               const SwTitration *titration,
               const SwMethodVersion *version,
               GError **error)
{
  const SwDoseRules rules = { dose->graduation_ml, INFINITY, INFINITY };
  SwDoseInput input;
  SwDose amount;

  sw_result_stored_input (dose, titration, version, &input);
  if (titration->outcome == SW_OUTCOME_ACID_FOUND
      && sw_dose_compute (&input, &rules, &amount, NULL))
    {
      store_figures (dose, &amount);
      store_supplier (dose, version, &input);
    }
  else
    clear_figures (dose, &input);
  return sw_dose_row_update (store, dose, error);
}

static gboolean
follow_doses (SwCorrection *correction,
              const SwTitration *titration,
              const SwMethodVersion *version,
              GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (correction->store, SW_TABLE_DOSE, "titration", titration->record.id, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwDoseRow) dose
          = sw_dose_row_load (correction->store, g_array_index (ids, gint64, i), error);

      if (dose == NULL || !write_figures (correction->store, dose, titration, version, error))
        return FALSE;
    }
  return ids != NULL;
}

/* ---- what the test answered ---- */

/* Only the link is taken from the dose: it was never covered by a signature on its test. */
static gboolean
unlink_dose (SwCorrection *correction, const SwSample *sample, GError **error)
{
  g_autoptr (SwDoseRow) dose = NULL;

  if (sample->answers_dose == 0)
    return TRUE;
  dose = sw_dose_row_load (correction->store, sample->answers_dose, error);
  if (dose == NULL || dose->retest_sample != sample->record.id)
    return dose != NULL;
  dose->retest_sample = 0;
  return sw_dose_row_update (correction->store, dose, error);
}

gboolean
sw_correction_unanswer (SwCorrection *correction, const SwSample *sample, GError **error)
{
  g_autoptr (GPtrArray) portions
      = sw_correction_load_portions (correction->store, sample->record.id, error);

  if (portions == NULL || !unlink_dose (correction, sample, error))
    return FALSE;
  for (guint i = 0; i < portions->len; i++)
    if (!sw_incident_reopen (correction->store, ((SwRecord *)portions->pdata[i])->id, error))
      return FALSE;
  return TRUE;
}

/* A re-test answers its dose whether it passes or not; one that says nothing does not. */
static gboolean
follow_answers (SwCorrection *correction,
                const SwTitration *titration,
                const SwSample *sample,
                GError **error)
{
  SwOutcomeKind kind = titration->outcome;

  if (kind == SW_OUTCOME_OPEN || kind == SW_OUTCOME_NO_RESERVE)
    return sw_correction_unanswer (correction, sample, error);
  return sw_outcome_shows_no_acid (kind)
         || sw_incident_reopen (correction->store, titration->record.id, error);
}

/* ---- schedule ---- */

gboolean
sw_correction_void_decisions (SwCorrection *correction, gint64 titration, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (correction->store, SW_TABLE_DECISION, "titration", titration, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (!sw_record_void (correction->store, SW_TABLE_DECISION, g_array_index (ids, gint64, i),
                         error))
      return FALSE;
  return ids != NULL;
}

/* Acid where there was none: the interval is halved from what counts without this test, and the
 * next one is due at once. */
static gboolean
decide_acid (SwCorrection *correction,
             const SwPlan *plan,
             const SwTitration *titration,
             GError **error)
{
  g_autoptr (SwDecision) decision = NULL;

  if (!sw_correction_void_decisions (correction, titration->record.id, error))
    return FALSE;
  decision
      = sw_schedule_decide_amended (correction->store, plan, titration, correction->now_ms, error);
  return decision != NULL && sw_decision_insert (correction->store, decision, error);
}

static gboolean
is_worse (const Findings *before, const Findings *after)
{
  return (after->acid && !before->acid) || (after->over_range && !before->over_range)
         || (after->goes_back && !before->goes_back);
}

/* A test that is no longer acid keeps its decision: a shorter interval than need be hurts nobody.
 */
static gboolean
follow_schedule (SwCorrection *correction,
                 const SwTitration *titration,
                 const SwSample *sample,
                 const Findings *before,
                 const Findings *after,
                 GError **error)
{
  g_autoptr (SwPlan) plan = NULL;

  if (!after->acid && titration->outcome == SW_OUTCOME_OPEN)
    return sw_correction_void_decisions (correction, titration->record.id, error);
  if (sample->purpose == SW_PURPOSE_DUPLICATE || sample->plan == 0 || !is_worse (before, after))
    return TRUE;
  plan = sw_plan_load (correction->store, sample->plan, error);
  return plan != NULL && decide_acid (correction, plan, titration, error);
}

/* ---- the result ---- */

static gboolean
find_out (SwCorrection *correction,
          const SwTitration *titration,
          const SwSample *sample,
          const SwMethodVersion *version,
          Findings *findings,
          GError **error)
{
  g_autoptr (SwPlan) plan = NULL;

  findings->acid = sw_outcome_found_acid (titration, version);
  findings->over_range = titration->outcome == SW_OUTCOME_OVER_RANGE;
  findings->goes_back = FALSE;
  if (sample->plan == 0)
    return TRUE;
  plan = sw_plan_load (correction->store, sample->plan, error);
  if (plan != NULL)
    findings->goes_back = sw_schedule_goes_back (plan, titration);
  return plan != NULL;
}

/* The Dose page of a test that leads to no dose any more has nothing to decide. */
static gboolean
write_result (SwCorrection *correction,
              SwTitration *titration,
              const SwSample *sample,
              const SwMethodVersion *version,
              GError **error)
{
  g_autoptr (GPtrArray) readings
      = sw_result_load_readings (correction->store, titration->record.id, error);
  SwOutcome outcome;

  if (readings == NULL || !sw_result_outcome (titration, version, readings, &outcome, error))
    return FALSE;
  sw_result_store_outcome (titration, &outcome);
  if (titration->step == SW_STEP_DOSE
      && !sw_guided_leads_to_dose (titration->outcome, sample->purpose))
    {
      titration->step = SW_STEP_DONE;
      titration->ended_ms = correction->now_ms;
    }
  return sw_titration_update (correction->store, titration, error)
         && follow_doses (correction, titration, version, error);
}

static gboolean
follow_findings (SwCorrection *correction,
                 const SwTitration *titration,
                 const SwSample *sample,
                 const Findings *before,
                 const Findings *after,
                 GError **error)
{
  if (!follow_answers (correction, titration, sample, error))
    return FALSE;
  if (is_worse (before, after)
      && !sw_incident_note_acid (correction->store, sample->machine, titration, error))
    return FALSE;
  return follow_schedule (correction, titration, sample, before, after, error);
}

gboolean
sw_correction_follow (SwCorrection *correction,
                      SwTitration *titration,
                      const SwSample *sample,
                      GError **error)
{
  g_autoptr (SwMethodVersion) version = NULL;
  Findings before;
  Findings after;

  version = sw_method_version_load (correction->store, titration->method_version, error);
  if (version == NULL || !find_out (correction, titration, sample, version, &before, error)
      || !write_result (correction, titration, sample, version, error)
      || !find_out (correction, titration, sample, version, &after, error))
    return FALSE;
  /* A portion that was given up, and a control test, have no say about the machine. */
  return titration->signed_ms == 0 || sample->purpose == SW_PURPOSE_CONTROL
         || follow_findings (correction, titration, sample, &before, &after, error);
}
