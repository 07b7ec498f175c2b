/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame of a move: one act, right and guard asked inside it, the new state loaded before the
 * commit.
 *
 * Invariant: a move that fails anywhere leaves the file and the test as they were.
 */
#include "workflow/guided-private.h"

static gboolean
is_end (SwStep step)
{
  return step == SW_STEP_DONE || step == SW_STEP_ABANDONED;
}

static gboolean
start_act (
    SwGuidedMove *move, SwGuidedTest *test, SwActKind kind, const char *reason, GError **error)
{
  SwActor actor = test->actor;
  SwFact refusal;

  if (!sw_guided_check_writable (test->store, &refusal))
    return sw_workflow_refuse (error, &refusal);
  if (reason != NULL)
    actor.reason = reason;
  if (!sw_act_begin (test->store, kind, &actor, error))
    return FALSE;
  move->test = test;
  move->running = TRUE;
  move->now_ms = sw_act_now (test->store);
  return sw_right_check (test->store, &actor, SW_RIGHT_TEST, error);
}

gboolean
sw_guided_move_begin (SwGuidedMove *move,
                      SwGuidedTest *test,
                      SwMove which,
                      SwActKind kind,
                      const char *reason,
                      GError **error)
{
  SwFact refusal;

  g_return_val_if_fail (test != NULL, FALSE);
  if (!start_act (move, test, kind, reason, error))
    return FALSE;
  move->state = sw_guided_state_load (test->store, test->state->titration->record.id, error);
  if (move->state == NULL)
    return FALSE;
  move->transition = sw_guided_find_transition (test->store, &test->actor, move->state, which,
                                                move->now_ms, &refusal);
  if (move->transition == NULL)
    return sw_workflow_refuse (error, &refusal);
  move->titration = sw_titration_copy (move->state->titration);
  return TRUE;
}

gboolean
sw_guided_move_write (SwGuidedMove *move, GError **error)
{
  move->titration->step = move->next_titration != 0 ? SW_STEP_ABANDONED : move->transition->to;
  if (is_end (move->titration->step))
    move->titration->ended_ms = move->now_ms;
  return sw_titration_update (move->test->store, move->titration, error);
}

gboolean
sw_guided_move_finish (SwGuidedMove *move, GError **error)
{
  SwGuidedTest *test = move->test;
  g_autoptr (SwGuidedState) state = NULL;
  gint64 id = move->next_titration != 0 ? move->next_titration : move->titration->record.id;

  if (!sw_guided_move_write (move, error))
    return FALSE;
  state = sw_guided_state_load (test->store, id, error);
  if (state == NULL || !sw_act_commit (test->store, error))
    return FALSE;
  move->running = FALSE;
  sw_guided_state_free (test->state);
  test->state = g_steal_pointer (&state);
  return TRUE;
}

void
sw_guided_move_clear (SwGuidedMove *move)
{
  if (move->running)
    sw_act_cancel (move->test->store);
  move->running = FALSE;
  g_clear_pointer (&move->state, sw_guided_state_free);
  g_clear_pointer (&move->titration, sw_titration_free);
}
