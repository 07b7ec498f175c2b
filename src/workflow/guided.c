/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: making, resuming and looking at one. The moves are in guided-draw.c,
 * guided-read.c, guided-sign.c and guided-dose.c. */
#include "workflow/guided-private.h"

#define PAGES 7
#define PAGES_WITHOUT_DOSE 5

SwGuidedTest *
sw_guided_test_new (SwStore *store, const SwActor *actor, SwGuidedState *state)
{
  SwGuidedTest *test = g_new0 (SwGuidedTest, 1);

  test->store = store;
  test->actor = *actor;
  test->actor.workstation = g_strdup (actor->workstation);
  test->actor.reason = g_strdup (actor->reason);
  test->state = state;
  return test;
}

void
sw_guided_test_free (SwGuidedTest *test)
{
  if (test == NULL)
    return;
  sw_guided_state_free (test->state);
  g_free ((char *)test->actor.workstation);
  g_free ((char *)test->actor.reason);
  g_free (test);
}

/* A decided dose that nobody recorded within 8 h is void as a figure; whether it was added still
 * has to be said. */
static gboolean
lapse_dose (SwGuidedTest *test, GError **error)
{
  SwStore *store = test->store;
  g_autoptr (SwDoseRow) dose = sw_dose_row_copy (test->state->dose);

  if (!sw_act_begin (store, SW_ACT_DOSE, &test->actor, error))
    return FALSE;
  dose->state = SW_DOSE_LAPSED;
  if (!sw_right_check (store, &test->actor, SW_RIGHT_TEST, error)
      || !sw_dose_row_update (store, dose, error) || !sw_act_commit (store, error))
    {
      sw_act_cancel (store);
      return FALSE;
    }
  sw_dose_row_free (test->state->dose);
  test->state->dose = g_steal_pointer (&dose);
  return TRUE;
}

/* Who may not write looks at the test as it is. */
static gboolean
needs_lapse (const SwGuidedTest *test)
{
  const SwGuidedState *state = test->state;

  return state->titration->step == SW_STEP_ADDED && state->dose != NULL
         && state->dose->state == SW_DOSE_OPEN && !sw_store_is_read_only (test->store)
         && sw_guided_dose_lapsed (state->dose, sw_store_now (test->store))
         && sw_right_check (test->store, &test->actor, SW_RIGHT_TEST, NULL);
}

SwGuidedTest *
sw_guided_test_resume (SwStore *store, const SwActor *actor, gint64 titration, GError **error)
{
  g_autoptr (SwGuidedTest) test = NULL;
  SwGuidedState *state;

  g_return_val_if_fail (store != NULL && actor != NULL, NULL);
  state = sw_guided_state_load (store, titration, error);
  if (state == NULL)
    return NULL;
  test = sw_guided_test_new (store, actor, state);
  if (needs_lapse (test) && !lapse_dose (test, error))
    return NULL;
  return g_steal_pointer (&test);
}

/* ---- what it shows ---- */

SwStep
sw_guided_test_get_step (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, SW_STEP_DRAW);
  return test->state->titration->step;
}

static gboolean
can_lead_to_dose (const SwGuidedState *state)
{
  SwOutcomeKind kind = state->outcome.kind;

  if (kind == SW_OUTCOME_OPEN)
    return state->method->direction == SW_DIRECTION_BASE
           && state->sample->purpose != SW_PURPOSE_CONTROL;
  return sw_guided_leads_to_dose (kind, state->sample->purpose);
}

void
sw_guided_test_get_progress (const SwGuidedTest *test, int *step, int *of)
{
  int pages;

  g_return_if_fail (test != NULL && step != NULL && of != NULL);
  pages = can_lead_to_dose (test->state) ? PAGES : PAGES_WITHOUT_DOSE;
  /* The steps are numbered as the pages are; done and abandoned stand on the last one. */
  *step = MIN ((int)test->state->titration->step + 1, pages);
  *of = pages;
}

const SwSample *
sw_guided_test_get_sample (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->sample;
}

const SwTitration *
sw_guided_test_get_titration (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->titration;
}

const SwMachine *
sw_guided_test_get_machine (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->machine;
}

const SwMethodVersion *
sw_guided_test_get_method (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->method;
}

GPtrArray *
sw_guided_test_get_fields (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->fields;
}

GPtrArray *
sw_guided_test_get_points (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->points;
}

GPtrArray *
sw_guided_test_get_readings (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->readings;
}

const SwOutcome *
sw_guided_test_get_outcome (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return &test->state->outcome;
}

double
sw_guided_test_get_total (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NAN);
  return test->state->total;
}

const SwDoseRow *
sw_guided_test_get_dose (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->dose;
}

const SwDecision *
sw_guided_test_get_decision (const SwGuidedTest *test)
{
  g_return_val_if_fail (test != NULL, NULL);
  return test->state->decision;
}

/* What went wrong otherwise is the move's to say. */
static gboolean
check_right (const SwGuidedTest *test, SwFact *refusal)
{
  g_autoptr (GError) error = NULL;
  const SwFact *fact;

  if (sw_right_check (test->store, &test->actor, SW_RIGHT_TEST, &error))
    return TRUE;
  fact = sw_workflow_error_get_fact (error);
  if (fact != NULL)
    *refusal = *fact;
  return fact == NULL;
}

gboolean
sw_guided_test_can (const SwGuidedTest *test, SwMove move, gint64 now_ms, SwFact *refusal)
{
  SwFact fact;

  g_return_val_if_fail (test != NULL, FALSE);
  g_return_val_if_fail ((int)move >= 0 && move < SW_N_MOVES, FALSE);
  if (sw_guided_check_writable (test->store, &fact) && check_right (test, &fact)
      && sw_guided_find_transition (test->store, &test->actor, test->state, move, now_ms, &fact))
    return TRUE;
  if (refusal != NULL)
    *refusal = fact;
  return FALSE;
}
