/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame of a correction, and what holds at its end (correction-private.h). */
#include "workflow/correction-private.h"

#include "workflow/guided-private.h"
#include "workflow/incident-private.h"
#include "workflow/schedule-private.h"
#include "workflow/state-private.h"

gboolean
sw_correction_begin (
    SwCorrection *correction, SwStore *store, const SwActor *actor, SwActKind kind, GError **error)
{
  SwFact refusal;

  if (!sw_guided_check_writable (store, &refusal))
    return sw_workflow_refuse (error, &refusal);
  if (!sw_check_text (SW_QUANTITY_REASON, actor->reason, SW_LONGEST_TEXT, error)
      || !sw_act_begin (store, kind, actor, error))
    return FALSE;
  correction->store = store;
  correction->now_ms = sw_act_now (store);
  correction->running = TRUE;
  return TRUE;
}

void
sw_correction_clear (SwCorrection *correction)
{
  if (correction->running)
    sw_act_cancel (correction->store);
  correction->running = FALSE;
}

/* ---- what is due ---- */

static gint64
get_earlier (gint64 one_ms, gint64 other_ms)
{
  if (one_ms == 0 || other_ms == 0)
    return MAX (one_ms, other_ms);
  return MIN (one_ms, other_ms);
}

/* 0 = the plan has no decision, or is not followed. */
static gboolean
find_plan_due (SwStore *store, gint64 plan_id, gint64 *due_ms, GError **error)
{
  g_autoptr (SwPlan) plan = NULL;
  g_autoptr (SwDecision) decision = NULL;
  GError *failure = NULL;
  gint64 id;

  *due_ms = 0;
  if (plan_id == 0)
    return TRUE;
  plan = sw_plan_load (store, plan_id, error);
  if (plan == NULL)
    return FALSE;
  id = sw_decision_last (store, plan_id, &failure);
  if (!sw_answered (failure, error))
    return FALSE;
  if (id == 0 || !plan->active || plan->record.voided)
    return TRUE;
  decision = sw_decision_load (store, id, error);
  if (decision == NULL)
    return FALSE;
  *due_ms = decision->due_ms;
  return TRUE;
}

/* Acid that no dose has answered asks for something to be done at once, whatever the plan says. */
static gboolean
find_due (const SwCorrection *correction,
          gint64 *machine_due_ms,
          gint64 *plan_due_ms,
          gint64 *first_plan,
          GError **error)
{
  SwMachineState state;

  if (!sw_machine_state (correction->store, correction->machine, correction->now_ms, &state, error))
    return FALSE;
  *machine_due_ms = state.due_ms;
  if (sw_outcome_is_acid (state.last) && state.retest_dose == 0 && state.plan != 0)
    *machine_due_ms = get_earlier (state.due_ms, state.last_ms);
  *first_plan = state.plan;
  return find_plan_due (correction->store, correction->plan, plan_due_ms, error);
}

gboolean
sw_correction_watch (SwCorrection *correction, gint64 machine, gint64 plan, GError **error)
{
  gint64 first_plan;

  correction->machine = machine;
  correction->plan = plan;
  return find_due (correction, &correction->machine_due_ms, &correction->plan_due_ms, &first_plan,
                   error);
}

/* Days, not milliseconds: a test is due on the whole of its day, and one that is late is due now.
 */
static gboolean
is_put_off (const SwCorrection *correction, gint64 before_ms, gint64 after_ms)
{
  gint64 now_ms = correction->now_ms;

  if (before_ms == 0)
    return FALSE;
  return after_ms == 0
         || sw_schedule_end_of_day (correction->store, MAX (after_ms, now_ms))
                > sw_schedule_end_of_day (correction->store, MAX (before_ms, now_ms));
}

/* By the plan of the test where it is still followed, else by the machine's first one. */
static gboolean
keep_due (const SwCorrection *correction, gint64 first_plan, GError **error)
{
  gint64 due_ms = get_earlier (correction->machine_due_ms, correction->plan_due_ms);
  g_autoptr (SwPlan) plan = NULL;
  g_autoptr (SwDecision) decision = NULL;
  gint64 id = correction->plan_due_ms != 0 ? correction->plan : first_plan;

  if (id == 0)
    return TRUE;
  plan = sw_plan_load (correction->store, id, error);
  decision = plan != NULL ? sw_schedule_keep_due (correction->store, plan, 0, due_ms, error) : NULL;
  return decision != NULL && sw_decision_insert (correction->store, decision, error);
}

static gboolean
hold_due (const SwCorrection *correction, GError **error)
{
  gint64 machine_due_ms;
  gint64 plan_due_ms;
  gint64 first_plan;

  if (!find_due (correction, &machine_due_ms, &plan_due_ms, &first_plan, error))
    return FALSE;
  if (is_put_off (correction, correction->machine_due_ms, machine_due_ms)
      || is_put_off (correction, correction->plan_due_ms, plan_due_ms))
    return keep_due (correction, first_plan, error);
  return TRUE;
}

/* ---- incident ---- */

static gboolean
hold_incident (const SwCorrection *correction, GError **error)
{
  GError *failure = NULL;
  g_autoptr (SwTitration) last
      = sw_state_last_test (correction->store, correction->machine, &failure);

  if (!sw_answered (failure, error))
    return FALSE;
  return last == NULL || !sw_outcome_is_acid (last->outcome)
         || sw_incident_note_acid (correction->store, correction->machine, last, error);
}

gboolean
sw_correction_finish (SwCorrection *correction, GError **error)
{
  if (correction->machine != 0
      && (!hold_incident (correction, error) || !hold_due (correction, error)))
    return FALSE;
  if (!sw_act_commit (correction->store, error))
    return FALSE;
  correction->running = FALSE;
  return TRUE;
}
