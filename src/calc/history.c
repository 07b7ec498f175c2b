/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory of a history; the numbers come from workflow. */
#include "calc/history.h"

SwHistory *
sw_history_new (void)
{
  SwHistory *history = g_new0 (SwHistory, 1);

  history->tests = g_array_new (FALSE, TRUE, sizeof (SwHistoryTest));
  history->doses = g_array_new (FALSE, TRUE, sizeof (SwHistoryDose));
  history->events = g_array_new (FALSE, TRUE, sizeof (SwHistoryEvent));
  return history;
}

void
sw_history_free (SwHistory *history)
{
  if (history == NULL)
    return;
  g_array_unref (history->tests);
  g_array_unref (history->doses);
  g_array_unref (history->events);
  g_free (history);
}
