/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's part in checkpoints: says at once, and for as long as the file is open, when the
 * file lacks what this PC has signed; says once when checkpoints cannot be kept. */
#include "app/window-private.h"

#include "app/plant-words.h"
#include "records/checkpoint.h"
#include "wording/sentence-verify.h"

static void
trust_failed_cb (SwWindow *self, const GError *error)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *why = sw_plant_say_error (wording, error);
  g_autofree char *words
      = sw_say_trust_failed (wording, sw_context_get_trust_folder (self->context), why);

  sw_toast_show (self->toast, words, TRUE);
}

static void
show_loss (SwWindow *self, const SwCheckpointLoss *loss)
{
  const SwLossFacts facts
      = { .seq = loss->seq,
          .utc_ms = loss->utc_ms,
          .kept_seq = loss->kept_seq,
          .kept_utc_ms = loss->kept_utc_ms,
          .read_only = sw_store_is_read_only (sw_context_get_store (self->context)) };
  g_autofree char *words = sw_say_loss (sw_context_get_wording (self->context), &facts);

  gtk_label_set_text (self->trust_text, words);
  gtk_widget_set_visible (self->trust_banner, TRUE);
}

void
sw_window_watch_trust (SwWindow *self)
{
  const char *folder = sw_context_get_trust_folder (self->context);
  g_autoptr (GError) error = NULL;
  SwCheckpointLoss loss;

  g_signal_connect_object (self->context, "trust-failed", G_CALLBACK (trust_failed_cb), self,
                           G_CONNECT_SWAPPED);
  if (folder == NULL)
    return;
  sw_context_check_trust (self->context);
  if (!sw_checkpoint_compare (sw_context_get_store (self->context), folder, &loss, &error))
    trust_failed_cb (self, error);
  else if (loss.n_lost > 0)
    show_loss (self, &loss);
}
