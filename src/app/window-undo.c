/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's undo: a set-up record that was just added is taken out of use again, as long as the
 * message that says so is on screen. */
#include "app/window-private.h"

#include "wording/sentence-setup.h"
#include "workflow/amend.h"

static void
undo_cb (SwWindow *self)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GError) error = NULL;

  if (!sw_undo_record (store, sw_context_get_actor (self->context), self->undo.table, self->undo.id,
                       &error))
    {
      sw_window_toast_error (self, error);
      return;
    }
  sw_context_changed (self->context);
  sw_window_toast (self, sw_say_undone (sw_context_get_wording (self->context)));
}

void
sw_window_watch_undo (SwWindow *self)
{
  g_signal_connect_object (self->toast, "action", G_CALLBACK (undo_cb), self, G_CONNECT_SWAPPED);
}

void
sw_window_toast_added (SwWindow *self, const char *text, SwTable table, gint64 id)
{
  g_return_if_fail (SW_IS_WINDOW (self) && text != NULL);

  self->undo.table = table;
  self->undo.id = id;
  sw_toast_offer (self->toast, text,
                  sw_trc (sw_context_get_wording (self->context), "button", "Undo"));
}
