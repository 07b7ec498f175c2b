/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of a form for a text of several lines. */
#include "app/setup/prose-row.h"

struct _SwProseRow
{
  GtkWidget parent_instance;

  /* Template children */
  GtkLabel *label;
  GtkTextView *view;
  GtkLabel *hint;
};

enum
{
  SIGNAL_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwProseRow, sw_prose_row, GTK_TYPE_WIDGET)

static void
text_changed_cb (SwProseRow *self)
{
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static gboolean
sw_prose_row_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_PROSE_ROW (widget)->view));
}

static void
sw_prose_row_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_prose_row_parent_class)->dispose (object);
}

static void
sw_prose_row_class_init (SwProseRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_prose_row_dispose;
  widget_class->grab_focus = sw_prose_row_grab_focus;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST,
                                          0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/setup/prose-row.ui");
  gtk_widget_class_bind_template_child (widget_class, SwProseRow, label);
  gtk_widget_class_bind_template_child (widget_class, SwProseRow, view);
  gtk_widget_class_bind_template_child (widget_class, SwProseRow, hint);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swformrow");
}

static void
sw_prose_row_init (SwProseRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  /* The buffer is the view's own, so it lives no longer than the row. */
  g_signal_connect_object (gtk_text_view_get_buffer (self->view), "changed",
                           G_CALLBACK (text_changed_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
sw_prose_row_new (const char *label, const char *hint)
{
  SwProseRow *self = g_object_new (SW_TYPE_PROSE_ROW, NULL);

  gtk_label_set_text_with_mnemonic (self->label, label);
  gtk_label_set_text (self->hint, hint != NULL ? hint : "");
  gtk_widget_set_visible (GTK_WIDGET (self->hint), hint != NULL);
  return GTK_WIDGET (self);
}

char *
sw_prose_row_dup_text (SwProseRow *self)
{
  GtkTextBuffer *buffer;
  GtkTextIter start;
  GtkTextIter end;

  g_return_val_if_fail (SW_IS_PROSE_ROW (self), NULL);
  buffer = gtk_text_view_get_buffer (self->view);
  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

void
sw_prose_row_set_text (SwProseRow *self, const char *text)
{
  g_return_if_fail (SW_IS_PROSE_ROW (self));
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->view), text != NULL ? text : "", -1);
}
