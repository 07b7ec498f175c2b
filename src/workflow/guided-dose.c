/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: Dose and Added.
 *
 *   decide --> [open] --record--> [added]      re-test due after circulation or reaction time
 *                |  |--nobody--->  [not_added]
 *                |  |--who knows-> [not_known]  re-test due at once
 *                | 8 h
 *             [lapsed] --the same three; "added" only for a time within the 8 h
 */
#include "workflow/dosing-private.h"
#include "workflow/guided-private.h"
#include "workflow/incident.h"
#include "workflow/recompute.h"
#include "workflow/signature-private.h"

#define MS_PER_MIN 60000.0
#define MS_PER_HOUR 3600000.0

/* Out-by-ten check: what was really added may be more than was measured, but not ten times. The
 * smallest amount is less than any jug can measure. */
#define MOST_TIMES_MEASURED 9.5
#define LEAST_ADDED_ML 0.001

/* ---- propose ---- */

gboolean
sw_guided_test_propose (SwGuidedTest *test, double extra, SwDoseProposal *proposal, GError **error)
{
  const SwGuidedState *state;

  g_return_val_if_fail (test != NULL && proposal != NULL, FALSE);
  state = test->state;
  if (isnan (extra))
    extra = state->dose != NULL ? sw_or_zero (state->dose->extra_steps) : 0.0;
  return sw_dosing_propose (test->store, state->titration, state->sample, extra,
                            sw_store_now (test->store), proposal, error);
}

/* ---- decide ---- */

/* Whoever drew the sample, read a strip or signed is no second pair of eyes. */
static gboolean
check_second_person (const SwGuidedMove *move, gint64 person, gboolean *second, GError **error)
{
  const SwGuidedState *state = move->state;
  g_autoptr (GArray) ids = sw_record_ids (move->test->store, SW_TABLE_REVIEW, "subject",
                                          state->titration->record.id, error);

  *second = person != state->titration->analyst && person != state->sample->drawn_by;
  for (guint i = 0; i < state->readings->len; i++)
    *second = *second && ((SwReadingRow *)state->readings->pdata[i])->reader != person;
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwReview) row
          = sw_review_load (move->test->store, g_array_index (ids, gint64, i), error);

      if (row == NULL)
        return FALSE;
      *second = *second && (row->meaning != SW_MEANING_PERFORMED || row->person != person);
    }
  return ids != NULL;
}

static gboolean
check_released (const SwGuidedMove *move,
                const SwDoseProposal *proposal,
                const SwSigner *release,
                GError **error)
{
  gint64 person = release != NULL ? release->person : 0;
  gboolean may;
  gboolean second;

  if (proposal->release.code == SW_FACT_NONE)
    return TRUE;
  if (!sw_person_may_review (move->test->store, person, 0, &may, error)
      || !check_second_person (move, person, &second, error))
    return FALSE;
  if (!may || !second)
    return sw_workflow_refuse (error, &proposal->release);
  return sw_right_check_signer (move->test->store, release, SW_RIGHT_REVIEW, error);
}

static void
fill_amounts (SwDoseRow *dose, const SwDoseProposal *proposal)
{
  const SwDose *amount = &proposal->dose;

  dose->system_l = proposal->input.system_l.value;
  dose->system_u_l = proposal->input.system_l.u;
  dose->product_mmol_ml = proposal->input.product.value;
  dose->product_u_mmol_ml = proposal->input.product.u;
  dose->strength_ratio = proposal->input.strength_ratio.value;
  dose->per_step_ml = amount->per_step_ml;
  dose->low_ml = amount->bounds_ml.low;
  dose->high_ml = amount->bounds_ml.high;
  dose->best_ml = amount->best_ml.value;
  dose->best_u_ml = amount->best_ml.u;
  dose->extra_steps = proposal->input.extra;
  dose->computed_ml = amount->dose_ml.value;
  dose->measured_ml = amount->measure_ml;
  dose->graduation_ml = proposal->rules.graduation_ml;
  dose->supplier_ml = proposal->supplier_ml;
  dose->supplier_governs = proposal->supplier_governs;
  dose->calc_version = SW_CALC_VERSION;
}

static gboolean
insert_dose (SwGuidedMove *move,
             const SwDoseProposal *proposal,
             const char *extra_reason,
             const SwSigner *release,
             GError **error)
{
  g_autoptr (SwDoseRow) dose = sw_dose_row_new ();
  GError *failure = NULL;

  dose->titration = move->titration->record.id;
  dose->incident
      = sw_incident_open_id (move->test->store, move->state->machine->record.id, &failure);
  if (!sw_answered (failure, error))
    return FALSE;
  dose->product = proposal->product;
  dose->state = SW_DOSE_OPEN;
  fill_amounts (dose, proposal);
  dose->extra_reason = g_strdup (extra_reason);
  dose->place = g_strdup (move->state->machine->dosing_place);
  dose->decided_ms = move->now_ms;
  if (proposal->release.code != SW_FACT_NONE)
    {
      dose->released_by = release->person;
      dose->released_ms = move->now_ms;
    }
  return sw_dose_row_insert (move->test->store, dose, error)
         && (dose->released_by == 0
             || sw_signature_insert (move->test->store, SW_TABLE_DOSE, &dose->record, release,
                                     SW_MEANING_RELEASED, error));
}

gboolean
sw_guided_test_decide_dose (SwGuidedTest *test,
                            double extra,
                            const char *extra_reason,
                            const SwSigner *release,
                            GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };
  g_auto (SwDoseProposal) proposal = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_DECIDE_DOSE, SW_ACT_DOSE, NULL, error)
      || !sw_check_optional_text (SW_QUANTITY_REASON, extra_reason, SW_LONGEST_TEXT, error)
      || !sw_dosing_propose (test->store, move.titration, move.state->sample, extra, move.now_ms,
                             &proposal, error))
    return FALSE;
  if (proposal.refusal.code != SW_FACT_NONE)
    return sw_workflow_refuse (error, &proposal.refusal);
  return check_released (&move, &proposal, release, error)
         && insert_dose (&move, &proposal, extra_reason, release, error)
         && sw_guided_move_finish (&move, error);
}

gboolean
sw_guided_test_no_dose (SwGuidedTest *test, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  return sw_guided_move_begin (&move, test, SW_MOVE_NO_DOSE, SW_ACT_DOSE, NULL, error)
         && sw_guided_move_finish (&move, error);
}

/* ---- added ---- */

static gboolean
check_dose_lot (const SwGuidedMove *move,
                const SwProduct *dosed,
                const SwAddedEntry *entry,
                GError **error)
{
  SwStore *store = move->test->store;
  g_autoptr (SwLot) lot = NULL;
  g_autoptr (SwProduct) of = NULL;
  SwFact caustic;

  if (entry->lot != 0)
    {
      lot = sw_lot_load (store, entry->lot, error);
      of = lot != NULL ? sw_product_load (store, lot->product, error) : NULL;
      if (of == NULL)
        return FALSE;
      caustic = sw_fact_with_text (SW_FACT_NO_DOSE_CAUSTIC_PRODUCT, of->name);
      if (of->use == SW_PRODUCT_CAUSTIC)
        return sw_workflow_refuse (error, &caustic);
    }
  return sw_check_lot (store, entry->lot, dosed->record.id, SW_PRODUCT_NEUTRALISER, dosed->name,
                       move->now_ms, entry->lot_reason, error);
}

/* After 8 h only what was added before they were over can still be recorded. */
static gboolean
check_added_time (const SwGuidedMove *move, gint64 added_ms, GError **error)
{
  const SwDoseRow *dose = move->state->dose;
  double age_h = (double)(added_ms - dose->decided_ms) / MS_PER_HOUR;
  const SwFact lapsed = sw_fact (SW_FACT_NO_DOSE_LAPSED);

  if (!sw_check_time (added_ms, dose->decided_ms, move->now_ms, error))
    return FALSE;
  return age_h <= SW_DOSE_LAPSES_H || sw_workflow_refuse (error, &lapsed);
}

static gboolean
update_added (SwGuidedMove *move,
              const SwProduct *dosed,
              const SwAddedEntry *entry,
              gint64 added_ms,
              GError **error)
{
  g_autoptr (SwDoseRow) dose = sw_dose_row_copy (move->state->dose);
  double wait_min = sw_dosing_wait_min (move->state->machine, dosed);

  dose->state = SW_DOSE_ADDED;
  dose->lot = entry->lot;
  dose->added.value = entry->added.value;
  dose->added.typed = g_strdup (entry->added.typed);
  dose->added_ms = added_ms;
  dose->added_by = move->test->actor.person;
  dose->retest_due_ms = added_ms + (gint64)(sw_or_zero (wait_min) * MS_PER_MIN);
  return sw_dose_row_update (move->test->store, dose, error);
}

gboolean
sw_guided_test_record_added (SwGuidedTest *test, const SwAddedEntry *entry, GError **error)
{
  g_autoptr (SwProduct) dosed = NULL;
  g_auto (SwGuidedMove) move = { 0 };
  gint64 added_ms;

  g_return_val_if_fail (entry != NULL, FALSE);
  /* Why an expired lot went in stands in the journal's act. */
  if (!sw_guided_move_begin (&move, test, SW_MOVE_RECORD_ADDED, SW_ACT_DOSE, entry->lot_reason,
                             error))
    return FALSE;
  added_ms = entry->added_ms != 0 ? entry->added_ms : move.now_ms;
  dosed = sw_product_load (test->store, move.state->dose->product, error);
  return dosed != NULL && check_added_time (&move, added_ms, error)
         && sw_check_within (SW_QUANTITY_ADDED_AMOUNT, entry->added.value, entry->added.typed,
                             LEAST_ADDED_ML, MOST_TIMES_MEASURED * move.state->dose->measured_ml,
                             error)
         && check_dose_lot (&move, dosed, entry, error)
         && update_added (&move, dosed, entry, added_ms, error)
         && sw_guided_move_finish (&move, error);
}

static gboolean
end_dose (SwGuidedMove *move, SwDoseState state, gint64 retest_due_ms, GError **error)
{
  g_autoptr (SwDoseRow) dose = sw_dose_row_copy (move->state->dose);

  dose->state = state;
  dose->retest_due_ms = retest_due_ms;
  return sw_dose_row_update (move->test->store, dose, error);
}

gboolean
sw_guided_test_not_added (SwGuidedTest *test, const char *reason, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_NOT_ADDED, SW_ACT_DOSE, reason, error)
      || !sw_check_optional_text (SW_QUANTITY_REASON, reason, SW_LONGEST_TEXT, error)
      || !end_dose (&move, SW_DOSE_NOT_ADDED, 0, error))
    return FALSE;
  g_free (move.titration->end_reason);
  move.titration->end_reason = g_strdup (reason);
  return sw_guided_move_finish (&move, error);
}

gboolean
sw_guided_test_not_known (SwGuidedTest *test, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  return sw_guided_move_begin (&move, test, SW_MOVE_NOT_KNOWN, SW_ACT_DOSE, NULL, error)
         && end_dose (&move, SW_DOSE_NOT_KNOWN, move.now_ms, error)
         && sw_guided_move_finish (&move, error);
}
