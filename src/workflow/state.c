/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a machine stands. The first that applies is its state:
 *
 *   retired; over range (until a later test says otherwise); dose worked out, not recorded; acid
 *   found, dose not yet decided; test open; nobody knows whether a dose was added; re-test due;
 * else what the last signed test said.
 */
#include "workflow/state-private.h"

#include "workflow/check-private.h"

/* Control tests may stand before the last test of the machine itself; so many are passed over. */
#define SEARCH_BACK 50

/* ---- last test ---- */

static gboolean
is_test_of_machine (SwStore *store, const SwTitration *titration, gboolean *is, GError **error)
{
  g_autoptr (SwSample) sample = NULL;

  *is = FALSE;
  if (titration->signed_ms == 0)
    return TRUE;
  sample = sw_sample_load (store, titration->sample, error);
  if (sample == NULL)
    return FALSE;
  *is = sample->purpose != SW_PURPOSE_CONTROL;
  return TRUE;
}

SwTitration *
sw_state_last_test (SwStore *store, gint64 machine, GError **error)
{
  g_autoptr (GArray) ids = sw_titration_closed_ids (store, machine, 0, 0, SEARCH_BACK, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwTitration) titration
          = sw_titration_load (store, g_array_index (ids, gint64, i), error);
      gboolean is;

      if (titration == NULL || !is_test_of_machine (store, titration, &is, error))
        return NULL;
      if (is)
        return g_steal_pointer (&titration);
    }
  return NULL;
}

/* ---- plans ---- */

static gboolean
load_decision (SwStore *store, gint64 plan, SwDecision **decision, GError **error)
{
  GError *failure = NULL;
  gint64 id = sw_decision_last (store, plan, &failure);

  *decision = NULL;
  if (!sw_answered (failure, error))
    return FALSE;
  if (id != 0)
    *decision = sw_decision_load (store, id, error);
  return id == 0 || *decision != NULL;
}

gboolean
sw_state_next_decision (
    SwStore *store, gint64 machine, gint64 *first_plan, SwDecision **decision, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PLAN, "machine", machine, error);
  g_autoptr (SwDecision) next = NULL;

  *first_plan = 0;
  *decision = NULL;
  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwPlan) plan = sw_plan_load (store, g_array_index (ids, gint64, i), error);
      g_autoptr (SwDecision) last = NULL;

      if (plan == NULL)
        return FALSE;
      if (!plan->active)
        continue;
      if (*first_plan == 0)
        *first_plan = plan->record.id;
      if (!load_decision (store, plan->record.id, &last, error))
        return FALSE;
      if (last != NULL && (next == NULL || last->due_ms < next->due_ms))
        {
          sw_decision_free (next);
          next = g_steal_pointer (&last);
        }
    }
  *decision = g_steal_pointer (&next);
  return TRUE;
}

/* ---- the parts of a state ---- */

static gboolean
fill_last (SwStore *store, SwMachineState *state, SwFact *reserve, GError **error)
{
  GError *failure = NULL;
  g_autoptr (SwTitration) last = sw_state_last_test (store, state->machine, &failure);

  *reserve = sw_fact (SW_FACT_STATE_RESERVE);
  if (!sw_answered (failure, error))
    return FALSE;
  if (last == NULL)
    return TRUE;
  state->last = last->outcome;
  state->last_titration = last->record.id;
  state->last_ms = last->closed_ms;
  /* Net acid is negative there: its upper end is the reserve that is certain. */
  reserve->number[0] = MAX (0.0, -last->net_high);
  return TRUE;
}

static gboolean
fill_plan (SwStore *store, SwMachineState *state, GError **error)
{
  g_autoptr (SwDecision) decision = NULL;

  if (!sw_state_next_decision (store, state->machine, &state->plan, &decision, error))
    return FALSE;
  if (decision == NULL)
    return TRUE;
  state->due_ms = decision->due_ms;
  state->reason = decision->reason;
  state->interval_days = decision->interval_days;
  return TRUE;
}

static gboolean
fill_open (SwStore *store, SwMachineState *state, SwStep *step, GError **error)
{
  g_autoptr (GArray) ids = sw_titration_open_ids (store, state->machine, error);
  g_autoptr (GArray) doses = NULL;
  g_autoptr (SwTitration) titration = NULL;

  if (ids == NULL || ids->len == 0)
    return ids != NULL;
  state->open_titration = g_array_index (ids, gint64, 0);
  titration = sw_titration_load (store, state->open_titration, error);
  if (titration == NULL)
    return FALSE;
  *step = titration->step;
  if (titration->step != SW_STEP_ADDED)
    return TRUE;
  doses = sw_record_ids (store, SW_TABLE_DOSE, "titration", state->open_titration, error);
  if (doses == NULL)
    return FALSE;
  if (doses->len > 0)
    state->open_dose = g_array_index (doses, gint64, doses->len - 1);
  return TRUE;
}

/* The re-test comes before anything planned; the first of several is the one that is due first. */
static gboolean
fill_retest (SwStore *store, SwMachineState *state, SwDoseState *dose_state, GError **error)
{
  g_autoptr (GArray) ids = sw_dose_unanswered_ids (store, state->machine, error);
  gint64 due_ms = G_MAXINT64;

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwDoseRow) dose = sw_dose_row_load (store, g_array_index (ids, gint64, i), error);

      if (dose == NULL)
        return FALSE;
      if (dose->retest_due_ms >= due_ms)
        continue;
      due_ms = dose->retest_due_ms;
      *dose_state = dose->state;
      state->retest_dose = state->locked_until_retest = dose->record.id;
    }
  if (state->retest_dose != 0)
    state->due_ms = due_ms;
  return TRUE;
}

/* ---- which one it is ---- */

static SwFact
get_result_state (SwOutcomeKind kind, const SwFact *reserve)
{
  switch (kind)
    {
    case SW_OUTCOME_PASSED:
      return sw_fact (SW_FACT_STATE_PASSED);
    case SW_OUTCOME_ACID_FOUND:
      return sw_fact (SW_FACT_STATE_ACID);
    case SW_OUTCOME_OVER_RANGE:
      return sw_fact (SW_FACT_STATE_OVER_RANGE);
    case SW_OUTCOME_RESERVE_FOUND:
    case SW_OUTCOME_NO_RESERVE:
    case SW_OUTCOME_RESERVE_OVER_RANGE:
      return *reserve;
    case SW_OUTCOME_OPEN:
    case SW_N_OUTCOMES:
    default:
      return sw_fact (SW_FACT_STATE_NEVER_TESTED);
    }
}

static SwFact
get_open_state (SwStep step)
{
  if (step == SW_STEP_ADDED)
    return sw_fact (SW_FACT_STATE_DOSE_DUE);
  return sw_fact (step == SW_STEP_DOSE ? SW_FACT_STATE_ACID : SW_FACT_STATE_TEST_OPEN);
}

static SwFact
get_state (const SwMachine *machine,
           const SwMachineState *state,
           SwStep step,
           SwDoseState dose_state,
           const SwFact *reserve)
{
  if (machine->service == SW_SERVICE_RETIRED)
    return sw_fact (SW_FACT_STATE_RETIRED);
  if (state->last == SW_OUTCOME_OVER_RANGE)
    return sw_fact (SW_FACT_STATE_OVER_RANGE);
  if (state->open_titration != 0)
    return get_open_state (step);
  if (state->retest_dose != 0)
    return sw_fact (dose_state == SW_DOSE_NOT_KNOWN ? SW_FACT_STATE_DOSE_UNKNOWN
                                                    : SW_FACT_STATE_RETEST_DUE);
  return get_result_state (state->last, reserve);
}

gboolean
sw_state_is_undosed_acid (const SwMachineState *state)
{
  return state->state.code == SW_FACT_STATE_ACID && state->open_titration == 0;
}

gboolean
sw_machine_state (
    SwStore *store, gint64 machine_id, gint64 now_ms, SwMachineState *state, GError **error)
{
  g_autoptr (SwMachine) machine = NULL;
  SwStep step = SW_STEP_DRAW;
  SwDoseState dose_state = SW_DOSE_OPEN;
  SwFact reserve;

  g_return_val_if_fail (store != NULL && state != NULL, FALSE);
  *state = (SwMachineState){ .machine = machine_id, .last = SW_OUTCOME_OPEN };
  machine = sw_machine_load (store, machine_id, error);
  if (machine == NULL || !fill_last (store, state, &reserve, error)
      || !fill_plan (store, state, error) || !fill_open (store, state, &step, error)
      || !fill_retest (store, state, &dose_state, error))
    return FALSE;
  state->state = get_state (machine, state, step, dose_state, &reserve);
  if (sw_state_is_undosed_acid (state) && state->plan != 0)
    state->due_ms = state->last_ms;
  return TRUE;
}
