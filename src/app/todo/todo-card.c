/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing to do. */
#include "app/todo/todo-card.h"

struct _SwTodoCard
{
  GtkWidget parent_instance;

  /* Template children */
  SwVerdict *mark;
  GtkLabel *title;
  GtkLabel *text;
  GtkButton *button;
};

enum
{
  SIGNAL_PRESSED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwTodoCard, sw_todo_card, GTK_TYPE_WIDGET)

static void
clicked_cb (GtkButton *button, SwTodoCard *self)
{
  g_signal_emit (self, signals[SIGNAL_PRESSED], 0);
}

static gboolean
sw_todo_card_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_TODO_CARD (widget)->button));
}

static void
sw_todo_card_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_todo_card_parent_class)->dispose (object);
}

static void
sw_todo_card_class_init (SwTodoCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_todo_card_dispose;
  widget_class->grab_focus = sw_todo_card_grab_focus;
  signals[SIGNAL_PRESSED] = g_signal_new ("pressed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST,
                                          0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/todo/todo-card.ui");
  gtk_widget_class_bind_template_child (widget_class, SwTodoCard, mark);
  gtk_widget_class_bind_template_child (widget_class, SwTodoCard, title);
  gtk_widget_class_bind_template_child (widget_class, SwTodoCard, text);
  gtk_widget_class_bind_template_child (widget_class, SwTodoCard, button);
  gtk_widget_class_bind_template_callback (widget_class, clicked_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_todo_card_init (SwTodoCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
sw_todo_card_new (
    SwVerdictKind kind, const char *title, const char *text, const char *button, gboolean first)
{
  SwTodoCard *self = g_object_new (SW_TYPE_TODO_CARD, NULL);

  sw_verdict_set_kind (self->mark, kind);
  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->text, text);
  gtk_button_set_label (self->button, button);
  if (first)
    gtk_widget_add_css_class (GTK_WIDGET (self->button), "sw-accent");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  return GTK_WIDGET (self);
}
