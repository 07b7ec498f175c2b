/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: Check and sign. In one act with the signature: what follows from the result.
 *
 *   schedule   routine test and re-test: the plan's next decision. A duplicate is about
 * repeatability: it would count one sample twice incident   acid found, or over range: one is
 * opened, unless one is open; a passing test after which no dose waits for its re-test: it waits
 * for its reviewer dose       a re-test answers the dose it was drawn for, whether it passes or not
 *
 * Control tests are about the bench, not the machine: none of the three.
 */
#include "workflow/guided-private.h"

#include "calc/schedule.h"
#include "workflow/schedule-private.h"
#include "workflow/signature-private.h"

static gboolean
found_acid (SwOutcomeKind kind)
{
  return kind == SW_OUTCOME_ACID_FOUND || kind == SW_OUTCOME_OVER_RANGE;
}

/* A reserve is the opposite of acid. No reserve alone says nothing: do a base test. */
static gboolean
shows_no_acid (SwOutcomeKind kind)
{
  return kind == SW_OUTCOME_PASSED || kind == SW_OUTCOME_RESERVE_FOUND
         || kind == SW_OUTCOME_RESERVE_OVER_RANGE;
}

/* ---- dose ---- */

static gboolean
answer_dose (SwGuidedMove *move, GError **error)
{
  const SwSample *sample = move->state->sample;
  g_autoptr (SwDoseRow) dose = NULL;

  if (sample->answers_dose == 0 || move->titration->outcome == SW_OUTCOME_NO_RESERVE)
    return TRUE;
  dose = sw_dose_row_load (move->test->store, sample->answers_dose, error);
  if (dose == NULL)
    return FALSE;
  dose->retest_sample = sample->record.id;
  return sw_dose_row_update (move->test->store, dose, error);
}

/* ---- incident ---- */

static gboolean
open_incident (SwGuidedMove *move, GError **error)
{
  g_autoptr (SwIncident) incident = sw_incident_new ();

  incident->machine = move->state->machine->record.id;
  incident->opened_by_titration = move->titration->record.id;
  incident->state = SW_INCIDENT_OPEN;
  incident->over_range = move->titration->outcome == SW_OUTCOME_OVER_RANGE;
  return sw_incident_insert (move->test->store, incident, error);
}

/* Acid while an incident is open belongs to it. One that waits for its reviewer is over: this is
 * another. */
static gboolean
note_acid (SwGuidedMove *move, SwIncident *incident, GError **error)
{
  if (incident == NULL || incident->state != SW_INCIDENT_OPEN)
    return open_incident (move, error);
  if (move->titration->outcome != SW_OUTCOME_OVER_RANGE)
    return TRUE;
  incident->over_range = TRUE;
  return sw_incident_update (move->test->store, incident, error);
}

/* A dose that still waits for its own re-test is not answered by a test drawn for something else.
 */
static gboolean
note_pass (SwGuidedMove *move, SwIncident *incident, GError **error)
{
  g_autoptr (GArray) unanswered = NULL;

  if (incident == NULL || incident->state != SW_INCIDENT_OPEN)
    return TRUE;
  unanswered = sw_dose_unanswered_ids (move->test->store, incident->machine, error);
  if (unanswered == NULL || unanswered->len > 0)
    return unanswered != NULL;
  incident->state = SW_INCIDENT_RETEST_PASSED;
  incident->answered_by_titration = move->titration->record.id;
  return sw_incident_update (move->test->store, incident, error);
}

static gboolean
note_incident (SwGuidedMove *move, GError **error)
{
  SwOutcomeKind kind = move->titration->outcome;
  g_autoptr (SwIncident) incident = NULL;
  GError *failure = NULL;
  gint64 id;

  id = sw_incident_open_id (move->test->store, move->state->machine->record.id, &failure);
  if (!sw_answered (failure, error))
    return FALSE;
  if (id != 0)
    {
      incident = sw_incident_load (move->test->store, id, error);
      if (incident == NULL)
        return FALSE;
    }
  if (found_acid (kind))
    return note_acid (move, incident, error);
  return !shows_no_acid (kind) || note_pass (move, incident, error);
}

/* ---- schedule ---- */

/* 2.7: an acid result of the plan's set size or above; off unless set. */
static gboolean
goes_back_to_start (const SwTitration *titration, const SwPlan *plan)
{
  if (isnan (plan->back_to_start_at))
    return FALSE;
  if (titration->outcome == SW_OUTCOME_OVER_RANGE)
    return TRUE;
  return titration->outcome == SW_OUTCOME_ACID_FOUND
         && titration->pass_at >= plan->back_to_start_at;
}

static gboolean
store_decision (SwGuidedMove *move, GError **error)
{
  SwStore *store = move->test->store;
  const SwSample *sample = move->state->sample;
  g_autoptr (SwPlan) plan = sw_plan_load (store, sample->plan, error);
  g_autoptr (SwDecision) decision = NULL;
  SwScheduleFacts facts = { 0 };

  if (plan == NULL)
    return FALSE;
  facts.acid = found_acid (move->titration->outcome);
  facts.retest = sample->purpose == SW_PURPOSE_RETEST;
  facts.back_to_start = goes_back_to_start (move->titration, plan);
  decision = sw_schedule_decide (store, plan, move->titration, &facts, error);
  return decision != NULL && sw_decision_insert (store, decision, error);
}

/* ---- signature ---- */

/* "I did this test" is said by who does it now, and by nobody else. */
static gboolean
check_signer (const SwGuidedMove *move, const SwSigner *signer, GError **error)
{
  const SwFact other = sw_fact (SW_FACT_NOT_THE_SIGNER);

  return signer->person == move->test->actor.person || sw_workflow_refuse (error, &other);
}

static gboolean
write_consequences (SwGuidedMove *move, GError **error)
{
  if (move->state->sample->purpose == SW_PURPOSE_CONTROL)
    return TRUE;
  return answer_dose (move, error) && note_incident (move, error)
         && (move->state->sample->purpose == SW_PURPOSE_DUPLICATE || store_decision (move, error));
}

gboolean
sw_guided_test_sign (SwGuidedTest *test, const SwSigner *signer, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  g_return_val_if_fail (signer != NULL, FALSE);
  if (!sw_guided_move_begin (&move, test, SW_MOVE_SIGN, SW_ACT_SIGN, NULL, error)
      || !check_signer (&move, signer, error))
    return FALSE;
  move.titration->signed_ms = move.now_ms;
  return sw_guided_move_write (&move, error)
         && sw_signature_insert (test->store, SW_TABLE_TITRATION, &move.titration->record, signer,
                                 SW_MEANING_PERFORMED, error)
         && write_consequences (&move, error) && sw_guided_move_finish (&move, error);
}
