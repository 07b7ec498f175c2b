/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: Check and sign. In one act with the signature: what follows from the result.
 *
 * - schedule: routine test and re-test: the plan's next decision. A duplicate is about
 *   repeatability: it would count one sample twice
 * - incident: acid found, or over range: one is opened, unless one is open; a passing test after
 *   which no dose waits for its re-test: the open ones wait for their reviewer
 * - dose: a re-test answers the dose it was drawn for, whether it passes or not
 *
 * Control tests are about the bench, not the machine: none of the three. What a later correction of
 * the result leads to is in correction-follow.c.
 */
#include "workflow/guided-private.h"

#include "calc/schedule.h"
#include "workflow/incident-private.h"
#include "workflow/schedule-private.h"
#include "workflow/signature-private.h"

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
note_incident (SwGuidedMove *move, GError **error)
{
  SwStore *store = move->test->store;
  gint64 machine = move->state->machine->record.id;
  SwOutcomeKind kind = move->titration->outcome;

  if (sw_outcome_is_acid (kind))
    return sw_incident_note_acid (store, machine, move->titration, error);
  return !sw_outcome_shows_no_acid (kind)
         || sw_incident_note_pass (store, machine, move->titration, error);
}

/* ---- schedule ---- */

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
  facts.acid = sw_outcome_is_acid (move->titration->outcome);
  facts.retest = sample->purpose == SW_PURPOSE_RETEST;
  facts.back_to_start = sw_schedule_goes_back (plan, move->titration);
  decision = sw_schedule_decide (store, plan, move->titration, &facts, error);
  return decision != NULL && sw_decision_insert (store, decision, error);
}

/* ---- signature ---- */

/* "I did this test" is said by who does it now, and by nobody else. */
static gboolean
check_signer (const SwGuidedMove *move, const SwSigner *signer, GError **error)
{
  const SwFact other = sw_fact (SW_FACT_NOT_THE_SIGNER);

  if (signer->person != move->test->actor.person)
    return sw_workflow_refuse (error, &other);
  return sw_right_check_signer (move->test->store, signer, SW_RIGHT_TEST, error);
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
