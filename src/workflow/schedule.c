/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedule decisions.
 *
 * The interval stays a real number of days. Only the due time is rounded, to the end of its local
 * day: closed time + interval, then up to the last millisecond before midnight by the store's
 * offset at that time. So a test closed on Monday at 10:00 with an interval of 1.25 days is due on
 * Tuesday, all day.
 */
#include "workflow/schedule-private.h"

#include "workflow/check-private.h"

#define MS_PER_DAY G_GINT64_CONSTANT (86400000)
#define MS_PER_MIN G_GINT64_CONSTANT (60000)

/* How many closed tests are looked at for the last routine one of the plan, newest first. */
#define SEARCH_BACK 200

gint64
sw_schedule_end_of_day (SwStore *store, gint64 ms)
{
  gint64 offset_ms = sw_store_offset_at (store, ms) * MS_PER_MIN;
  gint64 local_ms = ms + offset_ms;

  return local_ms - local_ms % MS_PER_DAY + MS_PER_DAY - 1 - offset_ms;
}

static SwScheduleLimits
get_limits (const SwPlan *plan)
{
  return (SwScheduleLimits){ .shortest_days = plan->shortest_days,
                             .longest_days = plan->longest_days };
}

static SwDecision *
make_decision (const SwPlan *plan, const SwStaircase *staircase, SwScheduleReason reason)
{
  SwDecision *decision = sw_decision_new ();

  decision->plan = plan->record.id;
  decision->interval_days = staircase->interval_days;
  decision->credit = staircase->credit;
  decision->reason = reason;
  decision->shortest_days = plan->shortest_days;
  decision->longest_days = plan->longest_days;
  return decision;
}

SwDecision *
sw_schedule_first (const SwPlan *plan, gint64 now_ms, GError **error)
{
  const SwScheduleLimits limits = get_limits (plan);
  SwStaircase staircase;
  SwScheduleReason reason;
  SwDecision *decision;

  if (!sw_schedule_advance (NULL, NULL, &limits, &staircase, &reason, error))
    return NULL;
  decision = make_decision (plan, &staircase, reason);
  decision->due_ms = now_ms;
  return decision;
}

/* The closing time of a titration when it was a routine test of the plan; 0 when it was not. */
static gboolean
get_routine_close (
    SwStore *store, gint64 id, gint64 plan, gint64 except, gint64 *closed_ms, GError **error)
{
  g_autoptr (SwTitration) titration = NULL;
  g_autoptr (SwSample) sample = NULL;

  *closed_ms = 0;
  if (id == except)
    return TRUE;
  titration = sw_titration_load (store, id, error);
  if (titration == NULL)
    return FALSE;
  if (titration->signed_ms == 0)
    return TRUE;
  sample = sw_sample_load (store, titration->sample, error);
  if (sample == NULL)
    return FALSE;
  if (sample->plan == plan && sample->purpose == SW_PURPOSE_ROUTINE)
    *closed_ms = titration->closed_ms;
  return TRUE;
}

/* Days since the plan's last routine test closed; INFINITY for the first. A clock that went back
 * (the journal says so) counts as no time at all: no credit. */
static gboolean
find_elapsed (SwStore *store,
              const SwPlan *plan,
              const SwTitration *titration,
              double *elapsed_days,
              GError **error)
{
  g_autoptr (GArray) ids = sw_titration_closed_ids (store, plan->machine, 0, 0, SEARCH_BACK, error);
  gint64 closed_ms = 0;

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len && closed_ms == 0; i++)
    if (!get_routine_close (store, g_array_index (ids, gint64, i), plan->record.id,
                            titration->record.id, &closed_ms, error))
      return FALSE;
  *elapsed_days = INFINITY;
  if (closed_ms != 0)
    *elapsed_days = MAX (0.0, (double)(titration->closed_ms - closed_ms) / (double)MS_PER_DAY);
  return TRUE;
}

/* The staircase before this test: that of the last decision, or its start; and the day it named,
 * whose end is @due_ms (0 = none). */
static gboolean
load_staircase (
    SwStore *store, const SwPlan *plan, SwStaircase *staircase, gint64 *due_ms, GError **error)
{
  g_autoptr (SwDecision) last = NULL;
  GError *failure = NULL;
  gint64 id = sw_decision_last (store, plan->record.id, &failure);

  *staircase = (SwStaircase){ .interval_days = SW_STAIRCASE_START_DAYS, .credit = 0 };
  *due_ms = 0;
  if (!sw_answered (failure, error))
    return FALSE;
  if (id == 0)
    return TRUE;
  last = sw_decision_load (store, id, error);
  if (last == NULL)
    return FALSE;
  *staircase = (SwStaircase){ .interval_days = last->interval_days, .credit = last->credit };
  *due_ms = last->due_ms;
  return TRUE;
}

SwDecision *
sw_schedule_decide (SwStore *store,
                    const SwPlan *plan,
                    const SwTitration *titration,
                    SwScheduleFacts *facts,
                    GError **error)
{
  const SwScheduleLimits limits = get_limits (plan);
  SwStaircase before;
  SwStaircase after;
  SwScheduleReason reason;
  SwDecision *decision;
  gint64 due_ms;

  if (!find_elapsed (store, plan, titration, &facts->elapsed_days, error)
      || !load_staircase (store, plan, &before, &due_ms, error))
    return NULL;
  facts->on_due_day = sw_schedule_end_of_day (store, titration->closed_ms) >= due_ms;
  if (!sw_schedule_advance (&before, facts, &limits, &after, &reason, error))
    return NULL;
  decision = make_decision (plan, &after, reason);
  decision->titration = titration->record.id;
  decision->due_ms = sw_schedule_end_of_day (
      store, titration->closed_ms + (gint64)(after.interval_days * (double)MS_PER_DAY));
  return decision;
}

/* ---- after a correction ---- */

gboolean
sw_schedule_goes_back (const SwPlan *plan, const SwTitration *titration)
{
  if (isnan (plan->back_to_start_at))
    return FALSE;
  if (titration->outcome == SW_OUTCOME_OVER_RANGE)
    return TRUE;
  return titration->outcome == SW_OUTCOME_ACID_FOUND
         && titration->pass_at >= plan->back_to_start_at;
}

/* @facts apply to the staircase that counts now; the interval never grows by a correction. */
static SwDecision *
decide_corrected (SwStore *store,
                  const SwPlan *plan,
                  const SwScheduleFacts *facts,
                  gint64 titration,
                  gint64 due_ms,
                  GError **error)
{
  const SwScheduleLimits limits = get_limits (plan);
  SwStaircase before;
  SwStaircase after;
  SwScheduleReason reason;
  SwDecision *decision;
  gint64 last_due_ms;

  if (!load_staircase (store, plan, &before, &last_due_ms, error)
      || !sw_schedule_advance (&before, facts, &limits, &after, &reason, error))
    return NULL;
  after.interval_days = MIN (after.interval_days, before.interval_days);
  decision = make_decision (plan, &after, reason);
  decision->titration = titration;
  decision->due_ms = due_ms;
  return decision;
}

SwDecision *
sw_schedule_decide_amended (
    SwStore *store, const SwPlan *plan, const SwTitration *titration, gint64 now_ms, GError **error)
{
  const SwScheduleFacts facts
      = { .acid = TRUE, .back_to_start = sw_schedule_goes_back (plan, titration) };

  return decide_corrected (store, plan, &facts, titration->record.id, now_ms, error);
}

SwDecision *
sw_schedule_keep_due (
    SwStore *store, const SwPlan *plan, gint64 titration, gint64 due_ms, GError **error)
{
  const SwScheduleFacts facts = { .back_to_start = TRUE };

  return decide_corrected (store, plan, &facts, titration, due_ms, error);
}
