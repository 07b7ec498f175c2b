/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A person's secret on their form. One's own is changed at the person button, after the old one. */
#include "app/setup/secret-line.h"

#include "app/setup/setup-guard.h"
#include "app/sign/secret-box.h"
#include "app/window.h"
#include "wording/sentence-sign.h"

struct _SwSecretLine
{
  GtkWidget parent_instance;

  SwContext *context; /* Owned */

  /* Borrowed: children */
  GtkWidget *box;
  GtkWidget *words;
  GtkWidget *button;

  gint64 person;
};

G_DEFINE_FINAL_TYPE (SwSecretLine, sw_secret_line, GTK_TYPE_WIDGET)

static char *
dup_words (SwSecretLine *self)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (SwPerson) person
      = self->person != 0 ? sw_person_load (store, self->person, NULL) : NULL;
  g_autoptr (SwPerson) giver = NULL;
  const SwWording *wording = sw_context_get_wording (self->context);

  if (person == NULL)
    return g_strdup (sw_say_sign_word (wording, SW_SIGN_WORD_SECRET_LATER));
  if (person->secret_given_by != 0)
    giver = sw_person_load (store, person->secret_given_by, NULL);
  return sw_say_secret_state (wording, person->secret != NULL, giver != NULL ? giver->name : NULL);
}

static void
refresh (SwSecretLine *self)
{
  g_autofree char *words = dup_words (self);

  gtk_label_set_text (GTK_LABEL (self->words), words);
  gtk_widget_set_visible (self->button,
                          self->person != 0 && self->person != sw_context_get_person (self->context)
                              && !sw_store_is_read_only (sw_context_get_store (self->context)));
}

static void
set_cb (const SwSigner *signer, gpointer data)
{
  g_object_unref (data);
}

static void
clicked_cb (SwSecretLine *self)
{
  const char *why;

  if (sw_setup_may_write (GTK_WIDGET (self), self->context, SW_TABLE_PERSON, &why))
    sw_secret_ask (GTK_WIDGET (self), self->context, SW_SECRET_OTHER, self->person, set_cb,
                   g_object_ref (self));
}

static void
sw_secret_line_dispose (GObject *object)
{
  SwSecretLine *self = SW_SECRET_LINE (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_secret_line_parent_class)->dispose (object);
}

static void
sw_secret_line_class_init (SwSecretLineClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = sw_secret_line_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_secret_line_init (SwSecretLine *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  self->words = gtk_label_new (NULL);
  self->button = gtk_button_new ();
  gtk_label_set_wrap (GTK_LABEL (self->words), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->words), 0);
  gtk_widget_set_hexpand (self->words, TRUE);
  gtk_widget_set_valign (self->button, GTK_ALIGN_CENTER);
  gtk_widget_set_name (self->button, "set-secret");
  gtk_widget_add_css_class (self->box, "sw-card");
  gtk_widget_add_css_class (self->box, "sw-slim");
  gtk_box_append (GTK_BOX (self->box), self->words);
  gtk_box_append (GTK_BOX (self->box), self->button);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  g_signal_connect_object (self->button, "clicked", G_CALLBACK (clicked_cb), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
sw_secret_line_new (SwContext *context)
{
  SwSecretLine *self = g_object_new (SW_TYPE_SECRET_LINE, NULL);

  self->context = g_object_ref (context);
  gtk_button_set_label (
      GTK_BUTTON (self->button),
      sw_say_sign_word (sw_context_get_wording (context), SW_SIGN_WORD_SET_SECRET_ELLIPSIS));
  /* The demo plant's people have none. */
  gtk_widget_set_visible (GTK_WIDGET (self), !sw_context_is_demo (context));
  g_signal_connect_object (context, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (context, "person-changed", G_CALLBACK (refresh), self,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

void
sw_secret_line_show (SwSecretLine *self, gint64 person)
{
  g_return_if_fail (SW_IS_SECRET_LINE (self));
  self->person = person;
  refresh (self);
}
