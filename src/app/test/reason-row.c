/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is recorded is the text of the entry; the drop-down only helps to fill it. */
#include "app/test/reason-row.h"

#include "app/widgets/form-row.h"

struct _SwReasonRow
{
  GtkWidget parent_instance;

  /* Template children */
  GtkWidget *layout;
  GtkLabel *label;
  GtkDropDown *drop_down;
  GtkStringList *lines;
  SwFormRow *text;
};

enum
{
  PROP_LABEL = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (SwReasonRow, sw_reason_row, GTK_TYPE_WIDGET)

/* Line 0 says that the text is typed; choosing it leaves the text alone. */
static void
selected_cb (GtkDropDown *drop_down, GParamSpec *pspec, SwReasonRow *self)
{
  guint i = gtk_drop_down_get_selected (drop_down);

  if (i > 0 && i != GTK_INVALID_LIST_POSITION)
    sw_form_row_set_text (self->text, gtk_string_list_get_string (self->lines, i));
}

static gboolean
sw_reason_row_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_REASON_ROW (widget)->drop_down));
}

static void
sw_reason_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_LABEL)
    gtk_label_set_text_with_mnemonic (SW_REASON_ROW (object)->label, g_value_get_string (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
sw_reason_row_dispose (GObject *object)
{
  g_clear_pointer (&SW_REASON_ROW (object)->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_reason_row_parent_class)->dispose (object);
}

static void
sw_reason_row_class_init (SwReasonRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->set_property = sw_reason_row_set_property;
  object_class->dispose = sw_reason_row_dispose;
  widget_class->grab_focus = sw_reason_row_grab_focus;
  props[PROP_LABEL]
      = g_param_spec_string ("label", NULL, NULL, NULL, G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);

  g_type_ensure (SW_TYPE_FORM_ROW);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/reason-row.ui");
  gtk_widget_class_bind_template_child (widget_class, SwReasonRow, layout);
  gtk_widget_class_bind_template_child (widget_class, SwReasonRow, label);
  gtk_widget_class_bind_template_child (widget_class, SwReasonRow, drop_down);
  gtk_widget_class_bind_template_child (widget_class, SwReasonRow, lines);
  gtk_widget_class_bind_template_child (widget_class, SwReasonRow, text);
  gtk_widget_class_bind_template_callback (widget_class, selected_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swreasonrow");
}

static void
sw_reason_row_init (SwReasonRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_reason_row_fill (SwReasonRow *self, const SwWording *wording, SwReasonKind kind)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->lines));
  const char *first[] = { sw_say_test_word (wording, SW_TEST_WORD_TYPE_REASON), NULL };
  const char *reason;

  gtk_string_list_splice (self->lines, 0, n, first);
  for (guint i = 0; (reason = sw_say_reason (wording, kind, i)) != NULL; i++)
    gtk_string_list_append (self->lines, reason);
  gtk_drop_down_set_selected (self->drop_down, 0);
  sw_form_row_set_text (self->text, NULL);
}

void
sw_reason_row_pick (SwReasonRow *self, guint i)
{
  gtk_drop_down_set_selected (self->drop_down, i + 1);
}

const char *
sw_reason_row_get_text (SwReasonRow *self)
{
  const char *text = sw_form_row_get_text (self->text);

  while (g_ascii_isspace (*text))
    text++;
  return *text != '\0' ? text : NULL;
}

void
sw_reason_row_set_text (SwReasonRow *self, const char *text)
{
  sw_form_row_set_text (self->text, text);
}

void
sw_reason_row_set_error (SwReasonRow *self, const char *text)
{
  sw_form_row_set_error (self->text, text);
}

const char *
sw_reason_row_get_error (SwReasonRow *self)
{
  return sw_form_row_get_error (self->text);
}
