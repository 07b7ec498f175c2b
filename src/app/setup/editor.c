/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The base of all form pages: context, box, and which record is open.
 *
 * Invariant: id is that of the record last opened or saved; 0 while it is new.
 */
#include "app/setup/editor.h"

typedef struct
{
  SwContext *context; /* Owned */
  GtkWidget *box;     /* Borrowed: the child */
  gint64 id;
} SwEditorPrivate;

enum
{
  SIGNAL_CHANGED,
  SIGNAL_OPEN_OTHER,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (SwEditor, sw_editor, GTK_TYPE_WIDGET)

static SwEditorPrivate *
private_of (SwEditor *self)
{
  return sw_editor_get_instance_private (self);
}

static void
sw_editor_dispose (GObject *object)
{
  SwEditorPrivate *private = private_of (SW_EDITOR (object));

  g_clear_pointer (&private->box, gtk_widget_unparent);
  g_clear_object (&private->context);
  G_OBJECT_CLASS (sw_editor_parent_class)->dispose (object);
}

static void
sw_editor_class_init (SwEditorClass *klass)
{
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_editor_dispose;
  signals[SIGNAL_CHANGED]
      = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_OPEN_OTHER]
      = g_signal_new ("open-other", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3,
                      G_TYPE_STRING, G_TYPE_INT64, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_editor_init (SwEditor *self)
{
  SwEditorPrivate *private = private_of (self);

  private->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  gtk_widget_set_parent (private->box, GTK_WIDGET (self));
}

SwContext *
sw_editor_get_context (SwEditor *self)
{
  g_return_val_if_fail (SW_IS_EDITOR (self), NULL);
  return private_of (self)->context;
}

void
sw_editor_set_context (SwEditor *self, SwContext *context)
{
  g_return_if_fail (SW_IS_EDITOR (self));
  g_set_object (&private_of (self)->context, context);
}

GtkBox *
sw_editor_get_box (SwEditor *self)
{
  g_return_val_if_fail (SW_IS_EDITOR (self), NULL);
  return GTK_BOX (private_of (self)->box);
}

gint64
sw_editor_get_id (SwEditor *self)
{
  g_return_val_if_fail (SW_IS_EDITOR (self), 0);
  return private_of (self)->id;
}

gboolean
sw_editor_open (SwEditor *self, gint64 id, GError **error)
{
  g_return_val_if_fail (SW_IS_EDITOR (self), FALSE);
  if (!SW_EDITOR_GET_CLASS (self)->open (self, id, error))
    return FALSE;
  private_of (self)->id = id;
  return TRUE;
}

gboolean
sw_editor_save (SwEditor *self, const SwActor *actor, GError **error)
{
  gboolean saved;
  gint64 id;

  g_return_val_if_fail (SW_IS_EDITOR (self), FALSE);
  id = private_of (self)->id;
  saved = SW_EDITOR_GET_CLASS (self)->save (self, actor, &id, error);
  private_of (self)->id = id;
  return saved;
}

gboolean
sw_editor_is_changed (SwEditor *self)
{
  g_return_val_if_fail (SW_IS_EDITOR (self), FALSE);
  return SW_EDITOR_GET_CLASS (self)->is_changed (self);
}

gboolean
sw_editor_amends (SwEditor *self)
{
  g_return_val_if_fail (SW_IS_EDITOR (self), FALSE);
  if (SW_EDITOR_GET_CLASS (self)->amends != NULL)
    return SW_EDITOR_GET_CLASS (self)->amends (self);
  return private_of (self)->id != 0;
}

gboolean
sw_editor_show_error (SwEditor *self, const GError *error)
{
  g_return_val_if_fail (SW_IS_EDITOR (self), FALSE);
  return SW_EDITOR_GET_CLASS (self)->show_error (self, error);
}

void
sw_editor_refresh (SwEditor *self)
{
  g_return_if_fail (SW_IS_EDITOR (self));
  SW_EDITOR_GET_CLASS (self)->refresh (self);
}

void
sw_editor_focus (SwEditor *self, const char *field)
{
  g_return_if_fail (SW_IS_EDITOR (self));
  SW_EDITOR_GET_CLASS (self)->focus (self, field);
}

void
sw_editor_changed (SwEditor *self)
{
  g_return_if_fail (SW_IS_EDITOR (self));
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

void
sw_editor_open_other (SwEditor *self, const char *section, gint64 id, const char *field)
{
  g_return_if_fail (SW_IS_EDITOR (self));
  g_signal_emit (self, signals[SIGNAL_OPEN_OTHER], 0, section, id, field);
}
