/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's people: who may write, who is signed out because nobody touched it, and the first
 * secret of a file that has none. */
#include "app/window-private.h"

#include "app/sign/idle-lock.h"
#include "app/sign/secret-box.h"
#include "wording/sentence-sign.h"
#include "workflow/guided.h"

#define CHECK_S 5
#define US_PER_MIN (60.0 * G_USEC_PER_SEC)

static const SwWording *
get_wording (SwWindow *self)
{
  return sw_context_get_wording (self->context);
}

/* ---- who may write ---- */

gboolean
sw_window_is_guarded (SwWindow *self)
{
  gboolean guarded = FALSE;

  g_return_val_if_fail (SW_IS_WINDOW (self), TRUE);

  return sw_context_is_demo (self->context)
         || !sw_secret_guarded (sw_context_get_store (self->context), &guarded, NULL) || guarded;
}

/* The way forward, where there is one: else the sentence alone. */
static void
refuse (SwWindow *self, const GError *error)
{
  const SwFact *fact = sw_workflow_error_get_fact (error);

  if (fact != NULL && fact->code == SW_FACT_NOBODY)
    sw_person_button_ask (self->person);
  else if (fact != NULL && fact->code == SW_FACT_NEEDS_SECRET)
    sw_person_button_sign_in (self->person, sw_context_get_person (self->context));
  else
    sw_window_toast_error (self, error);
}

gboolean
sw_window_may (SwWindow *self, SwRight right)
{
  g_return_val_if_fail (SW_IS_WINDOW (self), FALSE);

  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GError) error = NULL;
  if (sw_store_is_read_only (store))
    {
      const SwFact fact = sw_fact (SW_FACT_READ_ONLY);
      g_autofree char *words = sw_say_fact (get_wording (self), &fact);
      sw_window_toast (self, words);
      return FALSE;
    }
  if (!sw_window_is_guarded (self))
    {
      sw_window_ask_first_secret (self);
      return FALSE;
    }
  if (sw_right_check (store, sw_context_get_actor (self->context), right, &error))
    return TRUE;
  refuse (self, error);
  return FALSE;
}

gboolean
sw_window_may_write (SwWindow *self)
{
  return sw_window_may (self, SW_RIGHT_TEST);
}

/* ---- the first secret ---- */

void
sw_window_show_guard (SwWindow *self)
{
  gtk_widget_set_visible (self->secret_banner,
                          !sw_store_is_read_only (sw_context_get_store (self->context))
                              && !sw_window_is_guarded (self));
}

static void
first_set_cb (const SwSigner *signer, gpointer data)
{
  g_autoptr (SwWindow) self = data;

  if (signer == NULL || self->context == NULL)
    return;
  sw_context_set_signer (self->context, signer);
  sw_window_toast (self, sw_say_sign_word (get_wording (self), SW_SIGN_WORD_SECRET_SET));
}

void
sw_window_ask_first_secret (SwWindow *self)
{
  g_return_if_fail (SW_IS_WINDOW (self));
  sw_secret_ask (GTK_WIDGET (self->frame), self->context, SW_SECRET_FIRST, 0, first_set_cb,
                 g_object_ref (self));
}

/* ---- resting below a box ---- */

void
sw_window_set_resting (SwWindow *self, gboolean rests)
{
  static const char *const actions[]
      = { "win.todo", "win.records", "win.setup", "win.verify", "win.find", "win.who", "win.move" };

  g_return_if_fail (SW_IS_WINDOW (self));
  gtk_widget_set_sensitive (GTK_WIDGET (self->menu), !rests);
  gtk_widget_set_sensitive (GTK_WIDGET (self->person), !rests);
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (self), actions[i], !rests);
}

/* ---- idle lock ---- */

static void
sign_out_idle (SwWindow *self, double minutes)
{
  g_autoptr (SwPerson) person = sw_person_load (sw_context_get_store (self->context),
                                                sw_context_get_person (self->context), NULL);
  g_autofree char *words
      = sw_say_idle_lock (get_wording (self), person != NULL ? person->name : "?", minutes);

  sw_context_set_person (self->context, 0);
  sw_toast_show (self->toast, words, TRUE);
}

gboolean
sw_window_check_idle (SwWindow *self, gint64 monotonic_us, gint64 real_us)
{
  g_return_val_if_fail (SW_IS_WINDOW (self), FALSE);

  GtkWidget *widget = GTK_WIDGET (self);
  double minutes = sw_right_idle_lock_min (sw_context_get_store (self->context));
  /* A titration has its own times; the count begins when it is left. */
  if (sw_window_shows_test (self))
    sw_idle_touch (widget);
  if (sw_window_shows_test (self) || minutes <= 0.0 || sw_context_get_person (self->context) == 0)
    return FALSE;
  if ((double)sw_idle_get_us (widget, monotonic_us, real_us) < minutes * US_PER_MIN)
    return FALSE;
  sign_out_idle (self, minutes);
  return TRUE;
}

static gboolean
check_idle_cb (gpointer data)
{
  sw_window_check_idle (SW_WINDOW (data), g_get_monotonic_time (), g_get_real_time ());
  return G_SOURCE_CONTINUE;
}

void
sw_window_watch_people (SwWindow *self)
{
  sw_idle_watch (GTK_WIDGET (self));
  self->idle_timer = g_timeout_add_seconds (CHECK_S, check_idle_cb, self);
  g_signal_connect_object (self->context, "changed", G_CALLBACK (sw_window_show_guard), self,
                           G_CONNECT_SWAPPED);
  sw_window_show_guard (self);
}
