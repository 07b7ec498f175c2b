/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may write in the set-up. */
#include "app/setup/setup-guard.h"

#include "app/window.h"
#include "wording/sentence-setup.h"

static gboolean
has_people (SwContext *context)
{
  g_autoptr (GArray) ids
      = sw_record_ids (sw_context_get_store (context), SW_TABLE_PERSON, NULL, 0, NULL);

  return ids != NULL && ids->len > 0;
}

gboolean
sw_setup_may_write (GtkWidget *widget, SwContext *context, SwTable table, const char **why)
{
  SwWindow *window = sw_window_of (widget);

  *why = NULL;
  if (sw_store_is_read_only (sw_context_get_store (context)))
    *why = sw_say_setup_read_only (sw_context_get_wording (context));
  else if (has_people (context))
    return window == NULL || sw_window_may_write (window);
  else if (table != SW_TABLE_PERSON && table != SW_TABLE_SITE)
    *why = sw_say_person_first (sw_context_get_wording (context));
  return *why == NULL;
}
