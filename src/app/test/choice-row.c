/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drop-down over ids of the file.
 *
 * Invariant: ids and marked have one element per line of the model; element 0 is "not chosen".
 */
#include "app/test/choice-row.h"

#include "app/test/error-line.h"
#include "wording/sentence-test.h"

struct _SwChoiceRow
{
  GtkWidget parent_instance;

  /* Owned */
  GArray *ids;    /* gint64 */
  GArray *marked; /* gboolean */

  /* Template children */
  GtkWidget *layout;
  GtkLabel *label;
  GtkDropDown *drop_down;
  GtkStringList *lines;
  GtkLabel *hint;
  SwErrorLine *error;
};

enum
{
  PROP_LABEL = 1,
  PROP_HINT,
  N_PROPS
};

static GParamSpec *props[N_PROPS];
static guint signal_changed;

G_DEFINE_FINAL_TYPE (SwChoiceRow, sw_choice_row, GTK_TYPE_WIDGET)

static void
selected_cb (GtkDropDown *drop_down, GParamSpec *pspec, SwChoiceRow *self)
{
  sw_choice_row_set_error (self, NULL);
  g_signal_emit (self, signal_changed, 0);
}

static gboolean
sw_choice_row_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_CHOICE_ROW (widget)->drop_down));
}

static void
sw_choice_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  SwChoiceRow *self = SW_CHOICE_ROW (object);

  switch (id)
    {
    case PROP_LABEL:
      gtk_label_set_text_with_mnemonic (self->label, g_value_get_string (value));
      break;
    case PROP_HINT:
      sw_choice_row_set_hint (self, g_value_get_string (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_choice_row_dispose (GObject *object)
{
  g_clear_pointer (&SW_CHOICE_ROW (object)->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_choice_row_parent_class)->dispose (object);
}

static void
sw_choice_row_finalize (GObject *object)
{
  SwChoiceRow *self = SW_CHOICE_ROW (object);

  g_clear_pointer (&self->ids, g_array_unref);
  g_clear_pointer (&self->marked, g_array_unref);
  G_OBJECT_CLASS (sw_choice_row_parent_class)->finalize (object);
}

static void
sw_choice_row_class_init (SwChoiceRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;

  object_class->set_property = sw_choice_row_set_property;
  object_class->dispose = sw_choice_row_dispose;
  object_class->finalize = sw_choice_row_finalize;
  widget_class->grab_focus = sw_choice_row_grab_focus;
  props[PROP_LABEL] = g_param_spec_string ("label", NULL, NULL, NULL, flags);
  props[PROP_HINT] = g_param_spec_string ("hint", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signal_changed = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);

  g_type_ensure (SW_TYPE_ERROR_LINE);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/choice-row.ui");
  gtk_widget_class_bind_template_child (widget_class, SwChoiceRow, layout);
  gtk_widget_class_bind_template_child (widget_class, SwChoiceRow, label);
  gtk_widget_class_bind_template_child (widget_class, SwChoiceRow, drop_down);
  gtk_widget_class_bind_template_child (widget_class, SwChoiceRow, lines);
  gtk_widget_class_bind_template_child (widget_class, SwChoiceRow, hint);
  gtk_widget_class_bind_template_child (widget_class, SwChoiceRow, error);
  gtk_widget_class_bind_template_callback (widget_class, selected_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swchoicerow");
}

static void
sw_choice_row_init (SwChoiceRow *self)
{
  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->marked = g_array_new (FALSE, FALSE, sizeof (gboolean));
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_choice_row_clear (SwChoiceRow *self, const SwWording *wording)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->lines));
  const char *first[] = { sw_say_test_word (wording, SW_TEST_WORD_NOT_CHOSEN), NULL };
  const gint64 none = 0;
  const gboolean unmarked = FALSE;

  g_array_set_size (self->ids, 0);
  g_array_set_size (self->marked, 0);
  g_array_append_val (self->ids, none);
  g_array_append_val (self->marked, unmarked);
  gtk_string_list_splice (self->lines, 0, n, first);
  gtk_drop_down_set_selected (self->drop_down, 0);
}

void
sw_choice_row_add (SwChoiceRow *self, gint64 id, const char *text, gboolean marked)
{
  g_return_if_fail (self->ids->len > 0);
  g_array_append_val (self->ids, id);
  g_array_append_val (self->marked, marked);
  gtk_string_list_append (self->lines, text);
}

guint
sw_choice_row_count (SwChoiceRow *self)
{
  return self->ids->len > 0 ? self->ids->len - 1 : 0;
}

gint64
sw_choice_row_get (SwChoiceRow *self)
{
  guint i = gtk_drop_down_get_selected (self->drop_down);

  return i < self->ids->len ? g_array_index (self->ids, gint64, i) : 0;
}

void
sw_choice_row_set (SwChoiceRow *self, gint64 id)
{
  guint found = 0;

  for (guint i = 1; i < self->ids->len; i++)
    if (g_array_index (self->ids, gint64, i) == id)
      found = i;
  gtk_drop_down_set_selected (self->drop_down, found);
}

gboolean
sw_choice_row_is_marked (SwChoiceRow *self)
{
  guint i = gtk_drop_down_get_selected (self->drop_down);

  return i < self->marked->len && g_array_index (self->marked, gboolean, i);
}

void
sw_choice_row_set_hint (SwChoiceRow *self, const char *text)
{
  gtk_label_set_text (self->hint, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->hint), text != NULL);
}

void
sw_choice_row_set_error (SwChoiceRow *self, const char *text)
{
  sw_error_line_set (self->error, text);
}

const char *
sw_choice_row_get_error (SwChoiceRow *self)
{
  return sw_error_line_get (self->error);
}
