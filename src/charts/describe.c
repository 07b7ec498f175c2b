/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The message of a history in words, for those who hear the picture. */
#include "charts/history-chart.h"
#include "wording/number.h"
#include "wording/time.h"

static gboolean
is_acid (SwOutcomeKind kind)
{
  return kind == SW_OUTCOME_ACID_FOUND || kind == SW_OUTCOME_OVER_RANGE;
}

static char *
describe_tests (const SwHistory *history, const SwWording *wording)
{
  const guint n = history->tests->len;
  const SwHistoryTest *tests = (const SwHistoryTest *)(gpointer)history->tests->data;
  g_autofree char *from = sw_date_format (wording, tests[0].at_ms);
  g_autofree char *to = sw_date_format (wording, tests[n - 1].at_ms);

  /* Translators: 1 how many, 2 first date, 3 last date. */
  return g_strdup_printf (
      sw_trn (wording, "%1$u test from %2$s to %3$s.", "%1$u tests from %2$s to %3$s.", n), n, from,
      to);
}

static char *
describe_acid (const SwHistory *history, const SwWording *wording)
{
  guint n = 0;
  gint64 last_ms = 0;
  g_autofree char *date = NULL;

  for (guint i = 0; i < history->tests->len; i++)
    {
      const SwHistoryTest *test = &g_array_index (history->tests, SwHistoryTest, i);

      if (!is_acid (test->kind))
        continue;
      n++;
      last_ms = test->at_ms;
    }
  if (n == 0)
    return g_strdup (sw_tr (wording, "None of them found acid."));
  date = sw_date_format (wording, last_ms);
  /* Translators: 1 how many tests, 2 date. */
  return g_strdup_printf (sw_trn (wording, "%1$u of them found acid, on %2$s.",
                                  "%1$u of them found acid, the last on %2$s.", n),
                          n, date);
}

static char *
describe_doses (const SwHistory *history, const SwWording *wording)
{
  const guint n = history->doses->len;
  const SwHistoryDose *last;
  g_autofree char *date = NULL;
  g_autofree char *amount = NULL;

  if (n == 0)
    return g_strdup (sw_tr (wording, "No neutraliser was added."));
  last = &g_array_index (history->doses, SwHistoryDose, n - 1);
  date = sw_date_format (wording, last->at_ms);
  amount = sw_volume_format (wording, last->added_ml);
  /* Translators: 1 how many doses, 2 amount, 3 date. */
  return g_strdup_printf (sw_trn (wording, "%1$u dose of neutraliser: %2$s on %3$s.",
                                  "%1$u doses of neutraliser, the last of %2$s on %3$s.", n),
                          n, amount, date);
}

static char *
describe_due (const SwHistory *history, const SwWording *wording)
{
  g_autofree char *date = NULL;

  if (history->due_ms == 0)
    return NULL;
  date = sw_date_format (wording, history->due_ms);
  return g_strdup_printf (sw_tr (wording, "Next test: %s."), date);
}

char *
sw_history_chart_describe (const SwHistory *history, const SwWording *wording)
{
  g_autoptr (GPtrArray) sentences = g_ptr_array_new_with_free_func (g_free);
  char *due = describe_due (history, wording);

  if (history->tests->len == 0)
    g_ptr_array_add (sentences, g_strdup (sw_tr (wording, "No test yet.")));
  else
    {
      g_ptr_array_add (sentences, describe_tests (history, wording));
      g_ptr_array_add (sentences, describe_acid (history, wording));
      g_ptr_array_add (sentences, describe_doses (history, wording));
    }
  if (due != NULL)
    g_ptr_array_add (sentences, due);
  g_ptr_array_add (sentences, NULL);
  return g_strjoinv (" ", (char **)sentences->pdata);
}
