/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: Read and Result.
 *
 * Invariants of a portion in the flask
 * 1. The total never falls, except where the person says that the last drops were not added.
 * 2. pending_total is above the total of every reading, or NAN: it is titrant that no strip has
 *    been read for.
 * 3. The outcome stored in the titration is that of its readings, in the same act.
 */
#include "workflow/guided-private.h"

#include <string.h>

/* ---- outcome ---- */

/* After a change of the readings in this act: what they say now. */
static gboolean
store_outcome (SwGuidedMove *move, GError **error)
{
  g_autoptr (GPtrArray) readings
      = sw_result_load_readings (move->test->store, move->titration->record.id, error);
  SwOutcome outcome;

  if (readings == NULL
      || !sw_result_outcome (move->titration, move->state->method, readings, &outcome, error))
    return FALSE;
  sw_result_store_outcome (move->titration, &outcome);
  return TRUE;
}

/* ---- shake and add ---- */

gboolean
sw_guided_test_shake (SwGuidedTest *test, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_SHAKE, SW_ACT_TEST, NULL, error))
    return FALSE;
  move.titration->shake_started_ms = move.now_ms;
  return sw_guided_move_finish (&move, error);
}

/* Drops are whole; no more goes in than the method's last step. */
static gboolean
check_steps (const SwGuidedMove *move, double steps, GError **error)
{
  double low = 0.0;
  double left = move->titration->maximum - move->state->total;
  SwFault fault = { .code = SW_FAULT_RANGE,
                    .quantity = SW_QUANTITY_STEPS_ADDED,
                    .value = steps,
                    .low = 1.0,
                    .high = left,
                    .unit = SW_UNIT_STEP };

  sw_range_get (SW_QUANTITY_STEPS_ADDED, &low, NULL, NULL);
  if (!move->state->method->burette)
    low = 1.0;
  if (!sw_check_within (SW_QUANTITY_STEPS_ADDED, steps, NULL, low, left, error))
    return FALSE;
  return move->state->method->burette || steps == floor (steps) || sw_fault_set (error, &fault);
}

gboolean
sw_guided_test_add (SwGuidedTest *test, double steps, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_ADD, SW_ACT_TEST, NULL, error)
      || !check_steps (&move, steps, error))
    return FALSE;
  move.titration->pending_total = move.state->total + steps;
  /* What was shaken is no longer what is in the flask. */
  move.titration->shake_started_ms = 0;
  return sw_guided_move_finish (&move, error);
}

/* ---- read ---- */

static gboolean
find_meaning (const SwGuidedState *state, gint64 colour_field, SwField *meaning, GError **error)
{
  *meaning = SW_FIELD_BETWEEN;
  if (colour_field == 0)
    return TRUE;
  for (guint i = 0; i < state->fields->len; i++)
    {
      const SwColourField *field = state->fields->pdata[i];

      if (field->record.id != colour_field)
        continue;
      *meaning = field->meaning;
      return TRUE;
    }
  return sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_NAME, error);
}

static gboolean
insert_reading (SwGuidedMove *move, gint64 colour_field, SwField meaning, GError **error)
{
  g_autoptr (SwReadingRow) row = sw_reading_row_new ();

  row->titration = move->titration->record.id;
  row->ordinal = (int)move->state->readings->len + 1;
  row->total = move->state->total;
  row->colour_field = colour_field;
  row->meaning = meaning;
  row->reader = move->test->actor.person;
  return sw_reading_row_insert (move->test->store, row, error);
}

gboolean
sw_guided_test_read (SwGuidedTest *test, gint64 colour_field, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };
  SwField meaning;

  if (!sw_guided_move_begin (&move, test, SW_MOVE_READ, SW_ACT_TEST, NULL, error)
      || !find_meaning (move.state, colour_field, &meaning, error)
      || !insert_reading (&move, colour_field, meaning, error))
    return FALSE;
  move.titration->pending_total = NAN;
  move.titration->shake_started_ms = 0;
  return store_outcome (&move, error) && sw_guided_move_finish (&move, error);
}

/* ---- strike ---- */

/* The last reading that still counts; NULL when none does. (transfer full) */
static SwReadingRow *
dup_last_counted (const SwGuidedState *state)
{
  for (guint i = state->readings->len; i > 0; i--)
    {
      const SwReadingRow *row = state->readings->pdata[i - 1];

      if (!row->struck)
        return sw_reading_row_copy (row);
    }
  return NULL;
}

static gboolean
strike_reading (SwGuidedMove *move, gboolean not_added, const char *reason, GError **error)
{
  g_autoptr (SwReadingRow) row = dup_last_counted (move->state);
  const SwFact nothing = sw_fact (SW_FACT_NOTHING_TO_TAKE_BACK);

  if (row == NULL)
    return sw_workflow_refuse (error, &nothing);
  row->struck = TRUE;
  row->not_added = not_added;
  row->struck_reason = g_strdup (reason);
  return sw_reading_row_update (move->test->store, row, error);
}

gboolean
sw_guided_test_strike (SwGuidedTest *test, gboolean not_added, const char *reason, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  /* A correction: the act needs its reason. */
  if (!sw_check_text (SW_QUANTITY_REASON, reason, SW_LONGEST_TEXT, error)
      || !sw_guided_move_begin (&move, test, SW_MOVE_STRIKE, SW_ACT_AMEND, reason, error))
    return FALSE;
  /* Titrant that was not read yet is what "not added" speaks of: it has no reading to strike. */
  if (not_added && !isnan (move.titration->pending_total))
    move.titration->pending_total = NAN;
  else if (!strike_reading (&move, not_added, reason, error))
    return FALSE;
  move.titration->shake_started_ms = 0;
  return store_outcome (&move, error) && sw_guided_move_finish (&move, error);
}

/* ---- result ---- */

gboolean
sw_guided_test_close (SwGuidedTest *test, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_CLOSE, SW_ACT_TEST, NULL, error))
    return FALSE;
  /* Straight to Check: there is no Result page on which it could be accepted. */
  if (move.transition->to == SW_STEP_CHECK)
    move.titration->closed_ms = move.now_ms;
  return sw_guided_move_finish (&move, error);
}

gboolean
sw_guided_test_accept (SwGuidedTest *test, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_ACCEPT, SW_ACT_TEST, NULL, error))
    return FALSE;
  move.titration->closed_ms = move.now_ms;
  return sw_guided_move_finish (&move, error);
}
