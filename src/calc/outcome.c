/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings to outcome.
 *
 * A reading is reduced to a sign: the strip is still before the end point (acid with a base
 * titrant, alkaline with an acid titrant), past it, or between. The signs drive this machine;
 * totals never fall:
 *
 *            before                  past, total > last before          past, same total
 *   START ------------> BEFORE ---------------------------> PASSED ONCE ----------------> HELD
 *     |                  ^ ^ |__ between: nothing changes     |  |  ^                       |
 *     |                  | |__________________________________|  |__| past, higher total:   |
 *     |                  |       before or between: not held           takes its place      |
 *     |                  |__________________________________________________________________|
 *     |                                      before: reopened
 *     |__ past at 0 (or up to the blank): PASSED ONCE; past above: nothing known below, fresh
 * portion
 *
 * Invariants:
 * 1. pass_at is above before_at wherever both are known: a past sign at the total of a before sign
 * closes nothing, until the wrong one of the two is struck.
 * 2. A before sign at or above the maximum is over range, whatever follows: that is no dosing job.
 * 3. Struck readings give no sign, but what was added stays in the flask.
 */
#include "calc/outcome.h"

#include "calc/range.h"

typedef enum
{
  SIGN_BEFORE,
  SIGN_BETWEEN,
  SIGN_PAST
} Sign;

typedef struct
{
  double before_at;  /* last clear sign before the end point; NAN none */
  double pass_at;    /* first clear pass since; NAN none */
  gboolean held;     /* a second strip at pass_at agreed */
  double counted_at; /* total of the last reading whose colour counts; NAN none */
  double total;      /* in the flask */
} Progress;

/* Totals closer than this are one total: burette readings are sums of decimals. */
#define SAME_TOTAL 1e-9

/* 2.1: the widest last step that a dose may be worked out from, steps and share of the end point.
 */
#define WIDE_STEPS 1.0
#define WIDE_SHARE 0.1

static const char *const outcome_names[SW_N_OUTCOMES] = {
  [SW_OUTCOME_OPEN] = "open",
  [SW_OUTCOME_PASSED] = "passed",
  [SW_OUTCOME_ACID_FOUND] = "acid_found",
  [SW_OUTCOME_OVER_RANGE] = "over_range",
  [SW_OUTCOME_RESERVE_FOUND] = "reserve_found",
  [SW_OUTCOME_NO_RESERVE] = "no_reserve",
  [SW_OUTCOME_RESERVE_OVER_RANGE] = "reserve_over_range",
};

static const char *const field_names[SW_N_FIELDS] = {
  [SW_FIELD_ACID] = "acid",
  [SW_FIELD_BETWEEN] = "between",
  [SW_FIELD_NEUTRAL] = "neutral",
  [SW_FIELD_ALKALINE] = "alkaline",
};

static const char *const next_names[SW_N_NEXTS] = {
  [SW_NEXT_READ_FIRST] = "read_first",       [SW_NEXT_ADD] = "add",
  [SW_NEXT_READ_AGAIN] = "read_again",       [SW_NEXT_SECOND_STRIP] = "second_strip",
  [SW_NEXT_FRESH_PORTION] = "fresh_portion", [SW_NEXT_CLOSE] = "close",
  [SW_NEXT_ONE_BY_ONE] = "one_by_one",       [SW_NEXT_STOP_AND_CALL] = "stop_and_call",
};

static gboolean
refuse_combination (SwQuantityName quantity, double value, GError **error)
{
  SwFault fault = { .code = SW_FAULT_COMBINATION,
                    .quantity = quantity,
                    .value = value,
                    .low = 0.0,
                    .high = 0.0,
                    .unit = SW_UNIT_STEP };

  return sw_fault_set (error, &fault);
}

static gboolean
check_method (const SwMethodFacts *method, GError **error)
{
  if (!sw_range_check (SW_QUANTITY_MAXIMUM, method->maximum, error)
      || !sw_range_check (SW_QUANTITY_BLANK, method->blank, error)
      || !sw_fault_check_range (SW_QUANTITY_CAUSTIC, method->caustic_steps, 0.0, INFINITY,
                                SW_UNIT_STEP, error))
    return FALSE;

  if (method->blank > 0.0
      && (method->caustic_steps > 0.0 || method->direction == SW_DIRECTION_ACID))
    return refuse_combination (SW_QUANTITY_BLANK, method->blank, error);
  if (method->caustic_steps > 0.0 && method->direction == SW_DIRECTION_ACID)
    return refuse_combination (SW_QUANTITY_CAUSTIC, method->caustic_steps, error);
  return TRUE;
}

static gboolean
check_readings (const SwReading *readings, gsize n, GError **error)
{
  SwFault fault = {
    .code = SW_FAULT_ORDER, .quantity = SW_QUANTITY_READING_TOTAL, .low = 0.0, .unit = SW_UNIT_STEP
  };

  sw_range_get (SW_QUANTITY_READING_TOTAL, NULL, &fault.high, NULL);
  for (gsize i = 0; i < n; i++)
    {
      if (!sw_range_check (SW_QUANTITY_READING_TOTAL, readings[i].total, error))
        return FALSE;
      if (readings[i].not_added)
        continue;
      fault.value = readings[i].total;
      if (fault.value < fault.low - SAME_TOTAL)
        return sw_fault_set (error, &fault);
      fault.low = fault.value;
    }
  return TRUE;
}

static Sign
get_sign (SwDirection direction, SwField field)
{
  SwField before = direction == SW_DIRECTION_BASE ? SW_FIELD_ACID : SW_FIELD_ALKALINE;

  if (field == SW_FIELD_BETWEEN)
    return SIGN_BETWEEN;
  return field == before ? SIGN_BEFORE : SIGN_PAST;
}

static void
follow_past (Progress *progress, double total)
{
  if (progress->held || total <= progress->before_at + SAME_TOTAL)
    return;
  if (total <= progress->pass_at + SAME_TOTAL)
    progress->held = TRUE;
  else
    /* The first pass, or one at a higher total: that never proved that the lower one held. */
    progress->pass_at = total;
}

static void
follow_reading (Progress *progress, Sign sign, double total)
{
  progress->counted_at = total;
  if (sign == SIGN_PAST)
    {
      follow_past (progress, total);
      return;
    }
  if (sign == SIGN_BEFORE)
    progress->before_at = total;
  /* A clear sign before the end point reopens anything; "between" only a pass not yet held. */
  if (sign == SIGN_BEFORE || !progress->held)
    progress->pass_at = NAN;
  if (sign == SIGN_BEFORE)
    progress->held = FALSE;
}

static Progress
follow_readings (SwDirection direction, const SwReading *readings, gsize n)
{
  Progress progress = { NAN, NAN, FALSE, NAN, 0.0 };

  for (gsize i = 0; i < n; i++)
    {
      if (readings[i].not_added)
        continue;
      progress.total = readings[i].total;
      if (!readings[i].struck)
        follow_reading (&progress, get_sign (direction, readings[i].field), readings[i].total);
    }
  return progress;
}

/* Nothing is known below a pass above 0 (above the blank) with no sign before it. */
static gboolean
is_blind_pass (const SwMethodFacts *method, const Progress *progress)
{
  return isnan (progress->before_at) && progress->pass_at > method->blank + SAME_TOTAL;
}

static SwNext
get_next_while_open (const SwMethodFacts *method, const Progress *progress)
{
  if (isnan (progress->counted_at))
    return progress->total > 0.0 ? SW_NEXT_READ_AGAIN : SW_NEXT_READ_FIRST;
  if (is_blind_pass (method, progress))
    return SW_NEXT_FRESH_PORTION;
  if (progress->total > progress->counted_at + SAME_TOTAL)
    return SW_NEXT_READ_AGAIN;
  if (!isnan (progress->pass_at))
    return SW_NEXT_SECOND_STRIP;
  /* "Between" at the maximum: no more may go in, only a clear strip decides. */
  return progress->total >= method->maximum - SAME_TOTAL ? SW_NEXT_READ_AGAIN : SW_NEXT_ADD;
}

static void
close_over_range (const SwMethodFacts *method, const Progress *progress, SwOutcome *outcome)
{
  double at = progress->before_at;

  if (method->direction == SW_DIRECTION_ACID)
    {
      outcome->kind = SW_OUTCOME_RESERVE_OVER_RANGE;
      outcome->net = (SwInterval){ -INFINITY, -at };
      outcome->next = SW_NEXT_CLOSE;
      return;
    }
  outcome->kind = SW_OUTCOME_OVER_RANGE;
  outcome->net = (SwInterval){ at - method->blank + method->caustic_steps, INFINITY };
  outcome->next = SW_NEXT_STOP_AND_CALL;
}

static void
close_base (const SwMethodFacts *method, SwOutcome *outcome)
{
  SwInterval net
      = sw_net_acid (outcome->acid_at, outcome->pass_at, method->blank, method->caustic_steps);

  outcome->net = net;
  outcome->next = SW_NEXT_CLOSE;
  if (outcome->pass_at <= method->blank + SAME_TOTAL)
    {
      outcome->kind = SW_OUTCOME_PASSED;
      outcome->net.low = -INFINITY;
      return;
    }
  outcome->kind = SW_OUTCOME_ACID_FOUND;
  if (sw_step_is_wide (outcome->acid_at, outcome->pass_at))
    outcome->next = SW_NEXT_ONE_BY_ONE;
}

static void
close_reserve (SwOutcome *outcome)
{
  outcome->next = SW_NEXT_CLOSE;
  if (isnan (outcome->acid_at))
    {
      outcome->kind = SW_OUTCOME_NO_RESERVE;
      outcome->net = (SwInterval){ 0.0, INFINITY };
      return;
    }
  outcome->kind = SW_OUTCOME_RESERVE_FOUND;
  outcome->net = (SwInterval){ -outcome->pass_at, -outcome->acid_at };
}

gboolean
sw_outcome_compute (const SwMethodFacts *method,
                    const SwReading *readings,
                    gsize n,
                    SwOutcome *outcome,
                    GError **error)
{
  Progress progress;

  g_return_val_if_fail (method != NULL && outcome != NULL && (readings != NULL || n == 0), FALSE);
  if (!check_method (method, error) || !check_readings (readings, n, error))
    return FALSE;

  progress = follow_readings (method->direction, readings, n);
  *outcome = (SwOutcome){ .kind = SW_OUTCOME_OPEN,
                          .net = { NAN, NAN },
                          .acid_at = progress.before_at,
                          .pass_at = NAN,
                          .total = progress.total };

  if (progress.before_at >= method->maximum - SAME_TOTAL)
    {
      close_over_range (method, &progress, outcome);
      return TRUE;
    }
  if (!progress.held || is_blind_pass (method, &progress))
    {
      outcome->next = get_next_while_open (method, &progress);
      return TRUE;
    }

  outcome->pass_at = progress.pass_at;
  if (method->direction == SW_DIRECTION_BASE)
    close_base (method, outcome);
  else
    close_reserve (outcome);
  return TRUE;
}

SwInterval
sw_net_acid (double acid_at, double pass_at, double blank, double caustic_steps)
{
  if (blank > 0.0)
    return (SwInterval){ acid_at - blank, pass_at - blank + 1.0 };
  return (SwInterval){ acid_at + caustic_steps, pass_at + caustic_steps };
}

gboolean
sw_step_is_wide (double acid_at, double pass_at)
{
  return pass_at - acid_at > MAX (WIDE_STEPS, WIDE_SHARE * pass_at) + SAME_TOTAL;
}

const char *
sw_outcome_name (SwOutcomeKind kind)
{
  g_return_val_if_fail ((int)kind >= 0 && kind < SW_N_OUTCOMES, "open");
  return outcome_names[kind];
}

const char *
sw_field_name (SwField field)
{
  g_return_val_if_fail ((int)field >= 0 && field < SW_N_FIELDS, "between");
  return field_names[field];
}

gboolean
sw_field_from_name (const char *name, SwField *field)
{
  g_return_val_if_fail (name != NULL && field != NULL, FALSE);
  for (int i = 0; i < SW_N_FIELDS; i++)
    if (g_str_equal (name, field_names[i]))
      {
        *field = (SwField)i;
        return TRUE;
      }
  return FALSE;
}

const char *
sw_next_name (SwNext next)
{
  g_return_val_if_fail ((int)next >= 0 && next < SW_N_NEXTS, "read_first");
  return next_names[next];
}

double
sw_caustic_in_steps (double caustic_mmol, double step_ml, double titrant_mmol_ml)
{
  g_return_val_if_fail (caustic_mmol >= 0.0 && step_ml > 0.0 && titrant_mmol_ml > 0.0, NAN);
  return caustic_mmol / (step_ml * titrant_mmol_ml);
}
