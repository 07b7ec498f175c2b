/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drop-down of numbered lines.
 *
 * Invariants:
 *   1. values and headings have one element per line of the model.
 *   2. "changed" tells a person's choice only; `silent` is set while the program chooses.
 */
#include "app/records/filter-pick.h"

struct _SwFilterPick
{
  GtkWidget parent_instance;

  /* Owned */
  GArray *values;      /* gint64 */
  GPtrArray *headings; /* char *, NULL = none */
  GtkStringList *lines;

  GtkDropDown *drop_down; /* Borrowed: the child */
  gboolean silent;
};

enum
{
  PROP_LABEL = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];
static guint signal_changed;

G_DEFINE_FINAL_TYPE (SwFilterPick, sw_filter_pick, GTK_TYPE_WIDGET)

/* ---- lines ---- */

static GtkWidget *
make_label (PangoEllipsizeMode cut)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), cut);
  return label;
}

static const char *
get_word (GtkListItem *item)
{
  return gtk_string_object_get_string (GTK_STRING_OBJECT (gtk_list_item_get_item (item)));
}

/* The button: as narrow as the bar makes it. */
static void
setup_button_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwFilterPick *self)
{
  GtkWidget *label = make_label (PANGO_ELLIPSIZE_END);

  gtk_label_set_width_chars (GTK_LABEL (label), 5);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_list_item_set_child (item, label);
}

static void
bind_button_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwFilterPick *self)
{
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), get_word (item));
}

static void
setup_line_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwFilterPick *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  GtkWidget *heading = make_label (PANGO_ELLIPSIZE_NONE);

  gtk_widget_add_css_class (heading, "sw-section");
  gtk_widget_set_margin_top (heading, 6);
  gtk_box_append (GTK_BOX (box), heading);
  gtk_box_append (GTK_BOX (box), make_label (PANGO_ELLIPSIZE_NONE));
  gtk_list_item_set_child (item, box);
}

static void
bind_line_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwFilterPick *self)
{
  GtkWidget *heading = gtk_widget_get_first_child (gtk_list_item_get_child (item));
  GtkWidget *word = gtk_widget_get_next_sibling (heading);
  guint at = gtk_list_item_get_position (item);
  const char *text = at < self->headings->len ? self->headings->pdata[at] : NULL;

  gtk_label_set_text (GTK_LABEL (heading), text != NULL ? text : "");
  gtk_widget_set_visible (heading, text != NULL);
  gtk_label_set_text (GTK_LABEL (word), get_word (item));
}

static GtkListItemFactory *
make_factory (SwFilterPick *self, GCallback setup, GCallback bind)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect_object (factory, "setup", setup, self, 0);
  g_signal_connect_object (factory, "bind", bind, self, 0);
  return factory;
}

static void
selected_cb (GtkDropDown *drop_down, GParamSpec *pspec, SwFilterPick *self)
{
  if (!self->silent)
    g_signal_emit (self, signal_changed, 0);
}

/* ---- class ---- */

static void
set_label (SwFilterPick *self, const char *label)
{
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->drop_down), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->drop_down), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  label, -1);
}

static void
sw_filter_pick_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_LABEL)
    set_label (SW_FILTER_PICK (object), g_value_get_string (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static gboolean
sw_filter_pick_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_FILTER_PICK (widget)->drop_down));
}

static void
sw_filter_pick_dispose (GObject *object)
{
  SwFilterPick *self = SW_FILTER_PICK (object);
  GtkWidget *child = GTK_WIDGET (g_steal_pointer (&self->drop_down));

  self->silent = TRUE;
  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->lines);
  G_OBJECT_CLASS (sw_filter_pick_parent_class)->dispose (object);
}

static void
sw_filter_pick_finalize (GObject *object)
{
  g_array_unref (SW_FILTER_PICK (object)->values);
  g_ptr_array_unref (SW_FILTER_PICK (object)->headings);
  G_OBJECT_CLASS (sw_filter_pick_parent_class)->finalize (object);
}

static void
sw_filter_pick_class_init (SwFilterPickClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->set_property = sw_filter_pick_set_property;
  object_class->dispose = sw_filter_pick_dispose;
  object_class->finalize = sw_filter_pick_finalize;
  widget_class->grab_focus = sw_filter_pick_grab_focus;
  props[PROP_LABEL]
      = g_param_spec_string ("label", NULL, NULL, NULL, G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signal_changed = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swfilterpick");
}

static void
sw_filter_pick_init (SwFilterPick *self)
{
  GtkListItemFactory *button
      = make_factory (self, G_CALLBACK (setup_button_cb), G_CALLBACK (bind_button_cb));
  GtkListItemFactory *line
      = make_factory (self, G_CALLBACK (setup_line_cb), G_CALLBACK (bind_line_cb));

  self->values = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->headings = g_ptr_array_new_with_free_func (g_free);
  self->lines = gtk_string_list_new (NULL);
  self->drop_down
      = GTK_DROP_DOWN (gtk_drop_down_new (G_LIST_MODEL (g_object_ref (self->lines)), NULL));
  gtk_drop_down_set_factory (self->drop_down, button);
  gtk_drop_down_set_list_factory (self->drop_down, line);
  g_object_unref (button);
  g_object_unref (line);
  gtk_widget_set_parent (GTK_WIDGET (self->drop_down), GTK_WIDGET (self));
  g_signal_connect_object (self->drop_down, "notify::selected", G_CALLBACK (selected_cb), self, 0);
}

void
sw_filter_pick_clear (SwFilterPick *self)
{
  g_return_if_fail (SW_IS_FILTER_PICK (self));

  self->silent = TRUE;
  g_array_set_size (self->values, 0);
  g_ptr_array_set_size (self->headings, 0);
  gtk_string_list_splice (self->lines, 0, g_list_model_get_n_items (G_LIST_MODEL (self->lines)),
                          NULL);
  self->silent = FALSE;
}

void
sw_filter_pick_add (SwFilterPick *self, gint64 value, const char *word, const char *heading)
{
  g_return_if_fail (SW_IS_FILTER_PICK (self) && word != NULL);

  self->silent = TRUE;
  g_array_append_val (self->values, value);
  g_ptr_array_add (self->headings, g_strdup (heading));
  gtk_string_list_append (self->lines, word);
  self->silent = FALSE;
}

gint64
sw_filter_pick_get (SwFilterPick *self)
{
  g_return_val_if_fail (SW_IS_FILTER_PICK (self) && self->values->len > 0, 0);

  guint at = gtk_drop_down_get_selected (self->drop_down);
  return g_array_index (self->values, gint64, at < self->values->len ? at : 0);
}

void
sw_filter_pick_set (SwFilterPick *self, gint64 value)
{
  g_return_if_fail (SW_IS_FILTER_PICK (self));

  guint at = 0;
  while (at < self->values->len && g_array_index (self->values, gint64, at) != value)
    at++;
  self->silent = TRUE;
  gtk_drop_down_set_selected (self->drop_down, at < self->values->len ? at : 0);
  self->silent = FALSE;
}
