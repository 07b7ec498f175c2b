/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One message at the foot of the window, announced to screen readers as an alert. */
#include "app/toast.h"

/* Long enough to read two lines slowly. */
#define SECONDS_SHOWN 8

struct _SwToast
{
  GtkWidget parent_instance;

  /* Template children */
  GtkRevealer *revealer;
  GtkLabel *label;
  GtkButton *action;

  guint timeout;
};

enum
{
  SIGNAL_ACTION,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwToast, sw_toast, GTK_TYPE_WIDGET)

static gboolean
timeout_cb (gpointer data)
{
  SwToast *self = SW_TOAST (data);

  self->timeout = 0;
  sw_toast_hide (self);
  return G_SOURCE_REMOVE;
}

static void
dismissed_cb (GtkButton *button, SwToast *self)
{
  sw_toast_hide (self);
}

static void
action_cb (GtkButton *button, SwToast *self)
{
  sw_toast_hide (self);
  g_signal_emit (self, signals[SIGNAL_ACTION], 0);
}

static void
sw_toast_dispose (GObject *object)
{
  SwToast *self = SW_TOAST (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_handle_id (&self->timeout, g_source_remove);
  g_clear_pointer (&child, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_toast_parent_class)->dispose (object);
}

static void
sw_toast_class_init (SwToastClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_toast_dispose;
  signals[SIGNAL_ACTION] = g_signal_new ("action", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                         NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/toast.ui");
  gtk_widget_class_bind_template_child (widget_class, SwToast, revealer);
  gtk_widget_class_bind_template_child (widget_class, SwToast, label);
  gtk_widget_class_bind_template_child (widget_class, SwToast, action);
  gtk_widget_class_bind_template_callback (widget_class, dismissed_cb);
  gtk_widget_class_bind_template_callback (widget_class, action_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_ALERT);
}

static void
sw_toast_init (SwToast *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
show (SwToast *self, const char *text, const char *action, gboolean stays)
{
  g_clear_handle_id (&self->timeout, g_source_remove);
  gtk_label_set_text (self->label, text);
  gtk_widget_set_visible (GTK_WIDGET (self->action), action != NULL);
  if (action != NULL)
    gtk_button_set_label (self->action, action);
  gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
  gtk_revealer_set_reveal_child (self->revealer, TRUE);
  if (!stays)
    self->timeout = g_timeout_add_seconds (SECONDS_SHOWN, timeout_cb, self);
}

void
sw_toast_show (SwToast *self, const char *text, gboolean stays)
{
  g_return_if_fail (SW_IS_TOAST (self) && text != NULL);
  show (self, text, NULL, stays);
}

void
sw_toast_offer (SwToast *self, const char *text, const char *action)
{
  g_return_if_fail (SW_IS_TOAST (self) && text != NULL && action != NULL);
  show (self, text, action, FALSE);
}

void
sw_toast_hide (SwToast *self)
{
  g_return_if_fail (SW_IS_TOAST (self));

  g_clear_handle_id (&self->timeout, g_source_remove);
  gtk_revealer_set_reveal_child (self->revealer, FALSE);
  /* Out of the way of what lies below it. */
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

const char *
sw_toast_get_text (SwToast *self)
{
  g_return_val_if_fail (SW_IS_TOAST (self), NULL);
  return gtk_revealer_get_reveal_child (self->revealer) ? gtk_label_get_text (self->label) : NULL;
}
