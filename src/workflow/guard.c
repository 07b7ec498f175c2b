/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guards of the transition table. */
#include "workflow/guided-private.h"

#define MS_PER_MIN 60000.0
#define MS_PER_HOUR 3600000.0

/* ---- the portion in the flask ---- */

/* When something was last done to the flask: a strip read, or a shake begun. Adding titrant has no
 * time of its own; leaving it out makes the pause look longer, never shorter. */
static gint64
get_last_touched (const SwGuidedState *state)
{
  gint64 last_ms = state->titration->shake_started_ms;

  for (guint i = 0; i < state->readings->len; i++)
    {
      const SwReadingRow *row = state->readings->pdata[i];

      last_ms = MAX (last_ms, row->record.happened_ms);
    }
  return last_ms;
}

static gboolean
is_untouched (const SwGuidedState *state)
{
  return state->readings->len == 0 && isnan (state->titration->pending_total);
}

static gboolean
portion_is_good (const SwGuidedState *state, gint64 now_ms, SwFact *refusal)
{
  gint64 last_ms = get_last_touched (state);
  double pause_min = (double)(now_ms - last_ms) / MS_PER_MIN;

  if (is_untouched (state) || last_ms == 0 || pause_min <= SW_PORTION_GOOD_MIN)
    return TRUE;
  *refusal = sw_fact (SW_FACT_PAUSED_TOO_LONG);
  refusal->number[0] = pause_min;
  return FALSE;
}

/* ---- adding and taking back ---- */

static const SwReadingRow *
find_last_counted (const SwGuidedState *state)
{
  for (guint i = state->readings->len; i > 0; i--)
    {
      const SwReadingRow *row = state->readings->pdata[i - 1];

      if (!row->struck)
        return row;
    }
  return NULL;
}

/* Drops whose colour was taken back: the strip comes before more of them. */
static gboolean
needs_reading (const SwGuidedState *state, const SwReadingRow *last)
{
  if (last == NULL)
    return TRUE;
  return isnan (state->titration->pending_total) && state->total > last->total;
}

static gboolean
may_add (const SwGuidedState *state, gint64 now_ms, SwFact *refusal)
{
  const SwReadingRow *last = find_last_counted (state);
  SwField before
      = state->method->direction == SW_DIRECTION_BASE ? SW_FIELD_ACID : SW_FIELD_ALKALINE;

  if (!portion_is_good (state, now_ms, refusal))
    return FALSE;
  if (needs_reading (state, last))
    {
      *refusal = sw_fact (SW_FACT_NEEDS_READING);
      return FALSE;
    }
  if (last->meaning != before && last->meaning != SW_FIELD_BETWEEN)
    return FALSE;
  if (state->total < state->titration->maximum)
    return TRUE;
  *refusal = sw_fact (SW_FACT_NO_MORE_STEPS);
  refusal->number[0] = state->titration->maximum;
  return FALSE;
}

static gboolean
may_take_back (const SwGuidedState *state)
{
  return !isnan (state->titration->pending_total) || find_last_counted (state) != NULL;
}

/* ---- outcome and signature ---- */

static gboolean
outcome_stands (const SwGuidedState *state, SwFact *refusal)
{
  if (state->outcome.kind != SW_OUTCOME_OPEN)
    return TRUE;
  *refusal = sw_fact (SW_FACT_OUTCOME_OPEN);
  refusal->number[0] = state->outcome.next;
  return FALSE;
}

static gboolean
passed_at_zero (const SwGuidedState *state)
{
  return state->outcome.kind == SW_OUTCOME_PASSED && state->outcome.pass_at == 0.0;
}

gboolean
sw_guided_leads_to_dose (SwOutcomeKind kind, SwPurpose purpose)
{
  return kind == SW_OUTCOME_ACID_FOUND && purpose != SW_PURPOSE_CONTROL;
}

gboolean
sw_guided_dose_lapsed (const SwDoseRow *dose, gint64 now_ms)
{
  return dose->state == SW_DOSE_LAPSED
         || (double)(now_ms - dose->decided_ms) > SW_DOSE_LAPSES_H * MS_PER_HOUR;
}

/* What went wrong otherwise is the move's to say: it works the dose out once more. */
static gboolean
dose_is_shown (SwStore *store, const SwGuidedState *state, gint64 now_ms, SwFact *refusal)
{
  g_auto (SwDoseProposal) proposal = { 0 };

  if (!sw_dosing_propose (store, state->titration, state->sample, 0.0, now_ms, &proposal, NULL))
    return TRUE;
  *refusal = proposal.refusal;
  return refusal->code == SW_FACT_NONE;
}

gboolean
sw_guard_holds (SwStore *store,
                const SwActor *actor,
                const SwGuidedState *state,
                SwGuard guard,
                gint64 now_ms,
                SwFact *refusal)
{
  switch (guard)
    {
    case SW_GUARD_NONE:
      return TRUE;
    case SW_GUARD_NEVER:
      return FALSE;
    case SW_GUARD_UNTOUCHED:
      return is_untouched (state);
    case SW_GUARD_PORTION_GOOD:
      return portion_is_good (state, now_ms, refusal);
    case SW_GUARD_MAY_ADD:
      return may_add (state, now_ms, refusal);
    case SW_GUARD_TAKE_BACK:
      return may_take_back (state);
    case SW_GUARD_PASSED_AT_ZERO:
      return passed_at_zero (state);
    case SW_GUARD_OUTCOME_STANDS:
      return outcome_stands (state, refusal);
    case SW_GUARD_LEADS_TO_DOSE:
      return actor->person != 0
             && sw_guided_leads_to_dose (state->outcome.kind, state->sample->purpose);
    case SW_GUARD_SIGNER:
      return actor->person != 0;
    case SW_GUARD_DOSE_SHOWN:
      return dose_is_shown (store, state, now_ms, refusal);
    case SW_N_GUARDS:
    default:
      g_return_val_if_reached (FALSE);
    }
}

/* ---- the table ---- */

gboolean
sw_guided_check_writable (SwStore *store, SwFact *refusal)
{
  g_autofree char *owner = NULL;

  if (!sw_store_is_read_only (store))
    return TRUE;
  owner = sw_store_dup_owner (sw_store_get_path (store));
  *refusal = sw_fact_with_text (SW_FACT_READ_ONLY, owner);
  return FALSE;
}

const SwTransition *
sw_guided_find_transition (SwStore *store,
                           const SwActor *actor,
                           const SwGuidedState *state,
                           SwMove move,
                           gint64 now_ms,
                           SwFact *refusal)
{
  SwFact fact = sw_fact (SW_FACT_NOT_FROM_HERE);
  const SwTransition *rows;
  gsize n;

  rows = sw_transition_table (&n);
  /* A test that was taken out of use goes nowhere. */
  if (state->titration->record.voided || state->sample->record.voided)
    {
      fact = sw_fact (SW_FACT_VOIDED);
      n = 0;
    }
  for (gsize i = 0; i < n; i++)
    {
      SwFact exact = sw_fact (SW_FACT_NONE);

      if (rows[i].from != state->titration->step || rows[i].move != move)
        continue;
      if (sw_guard_holds (store, actor, state, rows[i].guard, now_ms, &exact))
        return &rows[i];
      fact = exact.code != SW_FACT_NONE ? exact : sw_fact (rows[i].refusal);
    }
  if (refusal != NULL)
    *refusal = fact;
  return NULL;
}
