/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of a form that is picked from a list.
 *
 * Invariants:
 *   1. values->len is the number of words that the drop-down shows.
 *   2. What is selected is a choice, or nothing at all (GTK_INVALID_LIST_POSITION); it is never
 *      the first choice merely because nobody picked one.
 */
#include "app/setup/pick-row.h"

#include "app/widgets/verdict.h"

struct _SwPickRow
{
  GtkWidget parent_instance;

  /* Template children */
  GtkLabel *label;
  GtkWidget *line;
  GtkDropDown *drop_down;
  GtkLabel *hint;
  GtkWidget *error_box;
  GtkLabel *error;

  /* Owned */
  GArray *values; /* gint64 */
};

enum
{
  SIGNAL_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwPickRow, sw_pick_row, GTK_TYPE_WIDGET)

static void
selected_cb (SwPickRow *self)
{
  sw_pick_row_set_error (self, NULL);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static gboolean
sw_pick_row_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_PICK_ROW (widget)->drop_down));
}

static void
sw_pick_row_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_pick_row_parent_class)->dispose (object);
}

static void
sw_pick_row_finalize (GObject *object)
{
  g_clear_pointer (&SW_PICK_ROW (object)->values, g_array_unref);
  G_OBJECT_CLASS (sw_pick_row_parent_class)->finalize (object);
}

static void
sw_pick_row_class_init (SwPickRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = sw_pick_row_dispose;
  object_class->finalize = sw_pick_row_finalize;
  widget_class->grab_focus = sw_pick_row_grab_focus;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST,
                                          0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/setup/pick-row.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPickRow, label);
  gtk_widget_class_bind_template_child (widget_class, SwPickRow, line);
  gtk_widget_class_bind_template_child (widget_class, SwPickRow, drop_down);
  gtk_widget_class_bind_template_child (widget_class, SwPickRow, hint);
  gtk_widget_class_bind_template_child (widget_class, SwPickRow, error_box);
  gtk_widget_class_bind_template_child (widget_class, SwPickRow, error);
  gtk_widget_class_bind_template_callback (widget_class, selected_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swformrow");
}

static void
sw_pick_row_init (SwPickRow *self)
{
  self->values = g_array_new (FALSE, FALSE, sizeof (gint64));
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
sw_pick_row_new (const char *label, const char *hint)
{
  SwPickRow *self = g_object_new (SW_TYPE_PICK_ROW, NULL);

  gtk_label_set_text_with_mnemonic (self->label, label);
  sw_pick_row_set_hint (self, hint);
  return GTK_WIDGET (self);
}

void
sw_pick_row_set_hint (SwPickRow *self, const char *text)
{
  g_return_if_fail (SW_IS_PICK_ROW (self));
  gtk_label_set_text (self->hint, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->hint), text != NULL);
}

static guint
find_value (SwPickRow *self, gint64 value)
{
  for (guint i = 0; i < self->values->len; i++)
    if (g_array_index (self->values, gint64, i) == value)
      return i;
  return GTK_INVALID_LIST_POSITION;
}

void
sw_pick_row_set_choices (SwPickRow *self, GArray *values, const char *const *words)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (words);
  gint64 value = 0;
  gboolean chosen;

  g_return_if_fail (SW_IS_PICK_ROW (self) && values != NULL);
  g_return_if_fail (g_list_model_get_n_items (G_LIST_MODEL (list)) == values->len);
  chosen = sw_pick_row_get_value (self, &value);
  /* The drop-down picks the first of a new model by itself; one change is told, at the end. */
  g_signal_handlers_block_by_func (self->drop_down, selected_cb, self);
  g_array_set_size (self->values, 0);
  g_array_append_vals (self->values, values->data, values->len);
  gtk_drop_down_set_model (self->drop_down, G_LIST_MODEL (list));
  gtk_drop_down_set_selected (self->drop_down,
                              chosen ? find_value (self, value) : GTK_INVALID_LIST_POSITION);
  g_signal_handlers_unblock_by_func (self->drop_down, selected_cb, self);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

gboolean
sw_pick_row_get_value (SwPickRow *self, gint64 *value)
{
  guint at;

  g_return_val_if_fail (SW_IS_PICK_ROW (self) && value != NULL, FALSE);
  at = gtk_drop_down_get_selected (self->drop_down);
  if (at >= self->values->len)
    return FALSE;
  *value = g_array_index (self->values, gint64, at);
  return TRUE;
}

void
sw_pick_row_set_value (SwPickRow *self, gint64 value)
{
  g_return_if_fail (SW_IS_PICK_ROW (self));
  gtk_drop_down_set_selected (self->drop_down, find_value (self, value));
}

void
sw_pick_row_set_error (SwPickRow *self, const char *text)
{
  g_return_if_fail (SW_IS_PICK_ROW (self));
  gtk_label_set_text (self->error, text != NULL ? text : "");
  gtk_widget_set_visible (self->error_box, text != NULL);
  if (text == NULL)
    {
      gtk_accessible_reset_state (GTK_ACCESSIBLE (self->drop_down), GTK_ACCESSIBLE_STATE_INVALID);
      gtk_accessible_reset_relation (GTK_ACCESSIBLE (self->drop_down),
                                     GTK_ACCESSIBLE_RELATION_ERROR_MESSAGE);
      return;
    }
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->drop_down), GTK_ACCESSIBLE_STATE_INVALID,
                               GTK_ACCESSIBLE_INVALID_TRUE, -1);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (self->drop_down),
                                  GTK_ACCESSIBLE_RELATION_ERROR_MESSAGE, self->error, -1);
}

const char *
sw_pick_row_get_error (SwPickRow *self)
{
  g_return_val_if_fail (SW_IS_PICK_ROW (self), NULL);
  return gtk_widget_get_visible (self->error_box) ? gtk_label_get_text (self->error) : NULL;
}

void
sw_pick_row_set_suffix (SwPickRow *self, GtkWidget *suffix)
{
  g_return_if_fail (SW_IS_PICK_ROW (self) && GTK_IS_WIDGET (suffix));
  gtk_box_append (GTK_BOX (self->line), suffix);
}

GtkWidget *
sw_pick_row_get_drop_down (SwPickRow *self)
{
  g_return_val_if_fail (SW_IS_PICK_ROW (self), NULL);
  return GTK_WIDGET (self->drop_down);
}
