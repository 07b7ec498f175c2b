/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may write in the set-up. */
#include "app/setup/setup-guard.h"

#include "app/window.h"
#include "wording/sentence-setup.h"

/* As workflow/rights.h has it. */
static SwRight
get_right (SwTable table)
{
  return table == SW_TABLE_LOT || table == SW_TABLE_CALIBRATION ? SW_RIGHT_BENCH : SW_RIGHT_SET_UP;
}

gboolean
sw_setup_may_write (GtkWidget *widget, SwContext *context, SwTable table, const char **why)
{
  SwWindow *window = sw_window_of (widget);

  *why = NULL;
  if (sw_store_is_read_only (sw_context_get_store (context)))
    *why = sw_say_setup_read_only (sw_context_get_wording (context));
  else
    return window == NULL || sw_window_may (window, get_right (table));
  return FALSE;
}
