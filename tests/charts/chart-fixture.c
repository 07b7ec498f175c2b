/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Invented histories for the chart tests. */
#include "chart-fixture.h"

static gint64
at_day (double day)
{
  return CHART_START_MS + (gint64)(day * (double)CHART_DAY_MS);
}

void
chart_add_test (SwHistory *history, double day, SwOutcomeKind kind, double low, double high)
{
  const SwHistoryTest test = { .at_ms = at_day (day),
                               .titration = history->tests->len + 1,
                               .kind = kind,
                               .net = { low, high },
                               .per_step = 0.4 };

  g_array_append_val (history->tests, test);
  history->now_ms = MAX (history->now_ms, test.at_ms);
}

void
chart_add_dose (SwHistory *history, double day, gint64 id, double added_ml)
{
  const SwHistoryDose dose = { .at_ms = at_day (day), .dose = id, .added_ml = added_ml };

  g_array_append_val (history->doses, dose);
}

void
chart_add_event (SwHistory *history, double day, SwHistoryEventKind kind)
{
  const SwHistoryEvent event = { .at_ms = at_day (day), .kind = kind, .row = 1 };

  g_array_append_val (history->events, event);
}

SwHistory *
chart_make_history (guint n)
{
  SwHistory *history = sw_history_new ();
  GRand *random = g_rand_new_with_seed (7);

  history->now_ms = CHART_START_MS;
  for (guint i = 0; i < n; i++)
    {
      const int roll = g_rand_int_range (random, 0, 20);
      const double drops = g_rand_int_range (random, 1, 6);

      if (roll == 0)
        chart_add_test (history, i, SW_OUTCOME_OVER_RANGE, 8.0, INFINITY);
      else if (roll == 1)
        chart_add_test (history, i, SW_OUTCOME_RESERVE_FOUND, -drops - 1.0, -drops);
      else if (roll < 6)
        chart_add_test (history, i, SW_OUTCOME_ACID_FOUND, drops - 1.0, drops);
      else
        chart_add_test (history, i, SW_OUTCOME_PASSED, -INFINITY, 0.0);
      if (roll >= 2 && roll < 6)
        chart_add_dose (history, i + 0.1, i, drops * 420.0);
      if (i % 300 == 150)
        chart_add_event (history, i, SW_HISTORY_FILL);
    }
  if (n > 0)
    history->due_ms = history->now_ms + 3 * CHART_DAY_MS;
  g_rand_free (random);
  return history;
}

SwHistoryChart *
chart_lay_out (const SwHistory *history, double width, double height)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "Europe/Berlin");

  return sw_history_chart_new (history, sw_chart_style_light (), wording, width, height);
}
