/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks for a reason. Enter in the entry does not confirm: taking out of use is a button's deed. */
#include "app/setup/reason-box.h"

#include <glib/gi18n.h>

#include "app/widgets/form-row.h"
#include "wording/sentence.h"

struct _SwReasonBox
{
  GtkWidget parent_instance;

  SwContext *context; /* Owned */

  /* Borrowed: children */
  GtkWidget *ask; /* the button that opens the question; NULL: it stands open */
  GtkWidget *card;
  GtkWidget *row;
};

enum
{
  SIGNAL_CONFIRMED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwReasonBox, sw_reason_box, GTK_TYPE_WIDGET)

static const char *
translate (SwReasonBox *self, const char *text)
{
  return sw_tr (sw_context_get_wording (self->context), text);
}

static void
show_question (SwReasonBox *self, gboolean open)
{
  if (self->ask == NULL)
    return;
  gtk_widget_set_visible (self->ask, !open);
  gtk_widget_set_visible (self->card, open);
}

static void
ask_cb (SwReasonBox *self)
{
  show_question (self, TRUE);
  gtk_widget_grab_focus (self->row);
}

static void
keep_cb (SwReasonBox *self)
{
  sw_reason_box_reset (self);
  gtk_widget_grab_focus (self->ask);
}

static void
confirm_cb (SwReasonBox *self)
{
  g_signal_emit (self, signals[SIGNAL_CONFIRMED], 0);
}

static void
sw_reason_box_dispose (GObject *object)
{
  SwReasonBox *self = SW_REASON_BOX (object);

  g_clear_pointer (&self->ask, gtk_widget_unparent);
  g_clear_pointer (&self->card, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_reason_box_parent_class)->dispose (object);
}

static void
sw_reason_box_class_init (SwReasonBoxClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = sw_reason_box_dispose;
  signals[SIGNAL_CONFIRMED] = g_signal_new ("confirmed", G_TYPE_FROM_CLASS (klass),
                                            G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "swreason");
}

static void
sw_reason_box_init (SwReasonBox *self)
{
}

static SwReasonBox *
build (SwContext *context, const char *label, const char *hint)
{
  SwReasonBox *self = g_object_new (SW_TYPE_REASON_BOX, NULL);

  self->context = g_object_ref (context);
  self->card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_add_css_class (self->card, "sw-card");
  gtk_widget_add_css_class (self->card, "sw-slim");
  gtk_widget_set_parent (self->card, GTK_WIDGET (self));
  self->row = sw_form_row_new (translate (self, label), hint, SW_UNIT_NONE);
  gtk_box_append (GTK_BOX (self->card), self->row);
  return self;
}

GtkWidget *
sw_reason_box_new_amend (SwContext *context)
{
  const char *hint = sw_tr (sw_context_get_wording (context),
                            N_ ("The old values are kept; the reason stands beside them."));
  SwReasonBox *self = build (context, N_ ("Why is it changed?"), hint);

  gtk_widget_set_name (GTK_WIDGET (self), "reason");
  return GTK_WIDGET (self);
}

static void
add_button (SwReasonBox *self, GtkWidget *line, const char *label, GCallback cb)
{
  GtkWidget *button = gtk_button_new_with_label (translate (self, label));

  g_signal_connect_object (button, "clicked", cb, self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (line), button);
}

GtkWidget *
sw_reason_box_new_void (SwContext *context, const char *hint)
{
  SwReasonBox *self = build (context, N_ ("Why is it taken out of use?"),
                             sw_tr (sw_context_get_wording (context), hint));
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_widget_set_name (GTK_WIDGET (self), "leave");
  self->ask = gtk_button_new_with_label (translate (self, N_ ("Take Out of Use…")));
  gtk_widget_set_halign (self->ask, GTK_ALIGN_START);
  gtk_widget_set_parent (self->ask, GTK_WIDGET (self));
  g_signal_connect_object (self->ask, "clicked", G_CALLBACK (ask_cb), self, G_CONNECT_SWAPPED);
  add_button (self, line, N_ ("Keep in Use"), G_CALLBACK (keep_cb));
  add_button (self, line, N_ ("Take Out of Use"), G_CALLBACK (confirm_cb));
  gtk_box_append (GTK_BOX (self->card), line);
  show_question (self, FALSE);
  return GTK_WIDGET (self);
}

char *
sw_reason_box_read (SwReasonBox *self)
{
  const SwFault fault = { .code = SW_FAULT_MISSING,
                          .quantity = SW_QUANTITY_REASON,
                          .value = NAN,
                          .low = -INFINITY,
                          .high = INFINITY };
  g_autofree char *text = NULL;
  g_autofree char *words = NULL;

  g_return_val_if_fail (SW_IS_REASON_BOX (self), NULL);
  text = g_strstrip (g_strdup (sw_form_row_get_text (SW_FORM_ROW (self->row))));
  if (*text != '\0')
    return g_steal_pointer (&text);
  words = sw_say_fault (sw_context_get_wording (self->context), &fault);
  sw_form_row_set_error (SW_FORM_ROW (self->row), words);
  gtk_widget_grab_focus (self->row);
  return NULL;
}

gboolean
sw_reason_box_is_filled (SwReasonBox *self)
{
  g_return_val_if_fail (SW_IS_REASON_BOX (self), FALSE);
  return *sw_form_row_get_text (SW_FORM_ROW (self->row)) != '\0';
}

void
sw_reason_box_reset (SwReasonBox *self)
{
  g_return_if_fail (SW_IS_REASON_BOX (self));
  sw_form_row_set_text (SW_FORM_ROW (self->row), NULL);
  sw_form_row_set_error (SW_FORM_ROW (self->row), NULL);
  show_question (self, FALSE);
}
