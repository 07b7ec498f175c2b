/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a machine stands, and its tests and doses, in a few words. */
#include "wording/sentence-todo.h"

#include <glib/gi18n.h>
#include <math.h>

#include "wording/number.h"
#include "wording/sentence.h"

#define N_STATES (SW_FACT_STATE_RETIRED - SW_FACT_STATE_NEVER_TESTED + 1)
#define STATE(name) [SW_FACT_STATE_##name - SW_FACT_STATE_NEVER_TESTED]

static const struct
{
  const char *word;     /* sidebar */
  const char *headline; /* machine page, without a day */
} states[N_STATES] = {
  STATE (NEVER_TESTED) = { N_ ("never tested"), N_ ("Not tested yet") },
  STATE (PASSED) = { N_ ("passed"), N_ ("The last test passed") },
  STATE (ACID) = { N_ ("acid, not dosed"), N_ ("Acid found, not dosed yet") },
  STATE (DOSE_DUE) = { N_ ("acid, dose due"), N_ ("Acid found, a dose is worked out") },
  STATE (DOSE_UNKNOWN)
  = { N_ ("dose unknown"), N_ ("Nobody knows whether the dose was added: re-test") },
  STATE (RETEST_DUE) = { N_ ("acid, re-test due"), N_ ("Acid found, dosed, a re-test comes next") },
  STATE (OVER_RANGE)
  = { N_ ("over range"), N_ ("Over range: stop and call the person responsible") },
  STATE (TEST_OPEN) = { N_ ("test open"), N_ ("A test is open") },
  STATE (RESERVE) = { N_ ("reserve"), N_ ("Alkaline reserve measured") },
  STATE (RETIRED) = { N_ ("retired"), N_ ("Out of service") },
};

static gboolean
is_state (const SwFact *state)
{
  return state->code >= SW_FACT_STATE_NEVER_TESTED && state->code <= SW_FACT_STATE_RETIRED;
}

char *
sw_say_machine_name (const SwWording *wording, const char *tag, const char *name)
{
  if (name == NULL || *name == '\0')
    return g_strdup (tag);
  /* Translators: a machine's tag and name, such as "M-07 Long bed" */
  return g_strdup_printf (sw_trc (wording, "machine", "%s %s"), tag, name);
}

char *
sw_say_state_word (const SwWording *wording, const SwFact *state)
{
  if (!is_state (state))
    return sw_say_fact (wording, state);
  if (state->code == SW_FACT_STATE_RESERVE && isfinite (state->number[0]))
    {
      g_autofree char *steps = sw_step_count_format (wording, state->number[0], FALSE);
      /* Translators: %s is "4 drops" */
      return g_strdup_printf (sw_tr (wording, "reserve %s"), steps);
    }
  return g_strdup (sw_tr (wording, states[state->code - SW_FACT_STATE_NEVER_TESTED].word));
}

char *
sw_say_state_headline (
    const SwWording *wording, const SwFact *state, gint64 last_ms, gint64 due_ms, gint64 now_ms)
{
  if (!is_state (state))
    return sw_say_fact (wording, state);
  if (state->code == SW_FACT_STATE_RETEST_DUE && due_ms <= now_ms)
    return g_strdup (sw_tr (wording, "Acid found, dosed, re-test due now"));
  if (state->code == SW_FACT_STATE_RESERVE && isfinite (state->number[0]))
    {
      g_autofree char *steps = sw_step_count_format (wording, state->number[0], FALSE);
      /* Translators: %s is "4 drops" */
      return g_strdup_printf (sw_tr (wording, "Alkaline reserve of %s"), steps);
    }
  if (state->code == SW_FACT_STATE_PASSED && last_ms != 0)
    {
      g_autofree char *day = sw_day_format (wording, last_ms, now_ms);
      /* Translators: a day such as "today", "yesterday" or "on 13 June" */
      return g_strdup_printf (sw_tr (wording, "Passed %s"), day);
    }
  return g_strdup (sw_tr (wording, states[state->code - SW_FACT_STATE_NEVER_TESTED].headline));
}

char *
sw_say_test_short (
    const SwWording *wording, SwOutcomeKind kind, double low, double high, gboolean burette)
{
  if (kind != SW_OUTCOME_ACID_FOUND && kind != SW_OUTCOME_RESERVE_FOUND)
    return g_strdup (sw_say_outcome (wording, kind));

  g_autofree char *steps = sw_steps_format (wording, low, high, burette);
  if (kind == SW_OUTCOME_RESERVE_FOUND)
    return g_steal_pointer (&steps);
  /* Translators: %s is "2 to 3 drops" */
  return g_strdup_printf (sw_tr (wording, "acid, %s"), steps);
}

char *
sw_say_test_at (const SwWording *wording,
                gint64 at_ms,
                SwOutcomeKind kind,
                double low,
                double high,
                gboolean burette)
{
  g_autofree char *when = sw_date_time_format (wording, at_ms);
  g_autofree char *result = sw_say_test_short (wording, kind, low, high, burette);

  /* Translators: date and time, a result such as "passed" */
  return g_strdup_printf (sw_trc (wording, "mark of a chart", "%s: %s"), when, result);
}

char *
sw_say_dose_at (const SwWording *wording, gint64 at_ms, double ml)
{
  g_autofree char *when = sw_date_time_format (wording, at_ms);
  g_autofree char *amount = sw_volume_format (wording, ml);

  /* Translators: date and time, an amount of liquid */
  return g_strdup_printf (sw_trc (wording, "mark of a chart", "%s: %s added"), when, amount);
}

char *
sw_say_added (const SwWording *wording, double ml, gint64 added_ms, const char *place)
{
  g_autofree char *amount = sw_volume_format (wording, ml);
  g_autofree char *clock = sw_clock_format (wording, added_ms);

  if (place == NULL || *place == '\0')
    /* Translators: an amount of liquid, a time of day */
    return g_strdup_printf (sw_tr (wording, "%s added %s"), amount, clock);
  /* Translators: an amount of liquid, a time of day, the place where it went in */
  return g_strdup_printf (sw_tr (wording, "%s added %s, %s"), amount, clock, place);
}

char *
sw_say_done (const SwWording *wording,
             const char *tag,
             gint64 closed_ms,
             const char *result,
             double added_ml,
             const char *initials)
{
  g_autofree char *clock = sw_clock_format (wording, closed_ms);
  g_autofree char *amount = isnan (added_ml) ? NULL : sw_volume_format (wording, added_ml);

  if (initials == NULL)
    /* Translators: a machine's tag, a time of day, a result such as "passed" */
    return g_strdup_printf (sw_tr (wording, "%s at %s: %s, not signed yet"), tag, clock, result);
  if (amount == NULL)
    /* Translators: a machine's tag, a time of day, a result such as "passed", initials */
    return g_strdup_printf (sw_tr (wording, "%s at %s: %s, signed %s"), tag, clock, result,
                            initials);
  /* Translators: a machine's tag, a time of day, a result, an amount of liquid, initials */
  return g_strdup_printf (sw_tr (wording, "%s at %s: %s, %s added, signed %s"), tag, clock, result,
                          amount, initials);
}
