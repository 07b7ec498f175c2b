/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The staircase.
 *
 *   pass at 0.8 of the interval or later,
 *   or on the day it was due:              credit 0 -> 1 -> 2 -> interval x 1.25, credit 0
 *   pass before that, or passing re-test:  nothing changes
 *   acid:                                  interval / 2, credit 0
 *   back to start:                         1 day, credit 0
 *
 * The interval stays a real number: only the due day is rounded, and not here.
 */
#include "calc/schedule.h"

#include "calc/range.h"

/* 2.7: an acid result halves. */
#define HALF 0.5

/* An elapsed time is a difference of two times: 0.8 of the interval must not miss by a rounding. */
#define ROUND_OFF 1e-9

static const char *const reason_names[SW_N_SCHEDULE_REASONS] = {
  [SW_SCHEDULE_START] = "start",
  [SW_SCHEDULE_LONGER] = "longer",
  [SW_SCHEDULE_SAME] = "same",
  [SW_SCHEDULE_EARLY] = "early",
  [SW_SCHEDULE_RETEST] = "retest",
  [SW_SCHEDULE_HALVED] = "halved",
  [SW_SCHEDULE_RETURNED] = "returned",
  [SW_SCHEDULE_AT_LONGEST] = "at_longest",
  [SW_SCHEDULE_AT_SHORTEST] = "at_shortest",
};

static gboolean
check_days (SwQuantityName quantity, double days, double low, SwFaultCode below, GError **error)
{
  SwFault fault = { .code = below,
                    .quantity = quantity,
                    .value = days,
                    .low = low,
                    .high = INFINITY,
                    .unit = SW_UNIT_DAY };

  if (isfinite (days) && days > 0.0 && days >= low)
    return TRUE;
  if (!isfinite (days))
    fault.code = SW_FAULT_NOT_A_NUMBER;
  return sw_fault_set (error, &fault);
}

static gboolean
check_limits (const SwScheduleLimits *limits, GError **error)
{
  SwFaultCode below = limits->longest_days > 0.0 ? SW_FAULT_ORDER : SW_FAULT_RANGE;

  return check_days (SW_QUANTITY_SHORTEST, limits->shortest_days, 0.0, SW_FAULT_RANGE, error)
         && check_days (SW_QUANTITY_LONGEST, limits->longest_days, limits->shortest_days, below,
                        error);
}

/* INFINITY is a first test; NaN fails every comparison. */
static gboolean
check_test (const SwStaircase *before, const SwScheduleFacts *facts, GError **error)
{
  SwFault fault = { .code = SW_FAULT_RANGE,
                    .quantity = SW_QUANTITY_INTERVAL,
                    .value = facts->elapsed_days,
                    .low = 0.0,
                    .high = INFINITY,
                    .unit = SW_UNIT_DAY };
  SwFault credit = { .code = SW_FAULT_RANGE,
                     .quantity = SW_QUANTITY_COUNT,
                     .value = before->credit,
                     .low = 0.0,
                     .high = SW_STAIRCASE_PASSES - 1.0 };

  if (!check_days (SW_QUANTITY_INTERVAL, before->interval_days, 0.0, SW_FAULT_RANGE, error))
    return FALSE;
  if (before->credit < 0 || before->credit >= SW_STAIRCASE_PASSES)
    return sw_fault_set (error, &credit);
  if (facts->elapsed_days >= 0.0)
    return TRUE;
  if (isnan (facts->elapsed_days))
    fault.code = SW_FAULT_NOT_A_NUMBER;
  return sw_fault_set (error, &fault);
}

/* A pass of a routine test. */
static SwScheduleReason
apply_pass (SwStaircase *staircase, const SwScheduleFacts *facts)
{
  double needed = SW_STAIRCASE_CREDIT * staircase->interval_days;

  if (facts->elapsed_days < needed * (1.0 - ROUND_OFF) && !facts->on_due_day)
    return SW_SCHEDULE_EARLY;
  staircase->credit++;
  if (staircase->credit < SW_STAIRCASE_PASSES)
    return SW_SCHEDULE_SAME;
  staircase->interval_days *= SW_STAIRCASE_FACTOR;
  staircase->credit = 0;
  return SW_SCHEDULE_LONGER;
}

static SwScheduleReason
apply_test (SwStaircase *staircase, const SwScheduleFacts *facts)
{
  if (facts->back_to_start)
    {
      *staircase = (SwStaircase){ SW_STAIRCASE_START_DAYS, 0 };
      return SW_SCHEDULE_RETURNED;
    }
  if (facts->acid)
    {
      staircase->interval_days *= HALF;
      staircase->credit = 0;
      return SW_SCHEDULE_HALVED;
    }
  if (facts->retest)
    return SW_SCHEDULE_RETEST;
  return apply_pass (staircase, facts);
}

/* A start keeps its reason: that it is one matters more than where the limits put it. */
static SwScheduleReason
hold_limits (SwStaircase *staircase, const SwScheduleLimits *limits, SwScheduleReason reason)
{
  double wanted = staircase->interval_days;

  staircase->interval_days = CLAMP (wanted, limits->shortest_days, limits->longest_days);
  if (reason == SW_SCHEDULE_START || reason == SW_SCHEDULE_RETURNED)
    return reason;
  if (wanted > limits->longest_days)
    return SW_SCHEDULE_AT_LONGEST;
  return wanted < limits->shortest_days ? SW_SCHEDULE_AT_SHORTEST : reason;
}

gboolean
sw_schedule_advance (const SwStaircase *before,
                     const SwScheduleFacts *facts,
                     const SwScheduleLimits *limits,
                     SwStaircase *after,
                     SwScheduleReason *reason,
                     GError **error)
{
  SwStaircase next = { SW_STAIRCASE_START_DAYS, 0 };
  SwScheduleReason why = SW_SCHEDULE_START;

  g_return_val_if_fail (limits != NULL && after != NULL && reason != NULL, FALSE);
  g_return_val_if_fail (before != NULL || facts == NULL, FALSE);
  if (!check_limits (limits, error))
    return FALSE;

  if (facts != NULL)
    {
      if (!check_test (before, facts, error))
        return FALSE;
      next = *before;
      why = apply_test (&next, facts);
    }
  *reason = hold_limits (&next, limits, why);
  *after = next;
  return TRUE;
}

const char *
sw_schedule_reason_name (SwScheduleReason reason)
{
  g_return_val_if_fail ((int)reason >= 0 && reason < SW_N_SCHEDULE_REASONS, "start");
  return reason_names[reason];
}

gboolean
sw_schedule_reason_from_name (const char *name, SwScheduleReason *reason)
{
  g_return_val_if_fail (name != NULL && reason != NULL, FALSE);
  for (int i = 0; i < SW_N_SCHEDULE_REASONS; i++)
    if (g_str_equal (name, reason_names[i]))
      {
        *reason = (SwScheduleReason)i;
        return TRUE;
      }
  return FALSE;
}
