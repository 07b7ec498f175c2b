/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Three toggle buttons of one group; none is down until the person presses one. */
#include "app/test/answer-row.h"

#include "app/test/error-line.h"

struct _SwAnswerRow
{
  GtkWidget parent_instance;

  /* Template children */
  GtkWidget *layout;
  GtkLabel *label;
  GtkToggleButton *yes;
  GtkToggleButton *no;
  GtkToggleButton *unknown;
  SwErrorLine *error;
};

enum
{
  PROP_LABEL = 1,
  PROP_YES,
  PROP_NO,
  PROP_WITH_UNKNOWN,
  N_PROPS
};

static GParamSpec *props[N_PROPS];
static guint signal_changed;

G_DEFINE_FINAL_TYPE (SwAnswerRow, sw_answer_row, GTK_TYPE_WIDGET)

static void
toggled_cb (GtkToggleButton *button, SwAnswerRow *self)
{
  if (gtk_toggle_button_get_active (button))
    sw_answer_row_set_error (self, NULL);
  g_signal_emit (self, signal_changed, 0);
}

static gboolean
sw_answer_row_grab_focus (GtkWidget *widget)
{
  SwAnswerRow *self = SW_ANSWER_ROW (widget);

  return gtk_widget_grab_focus (GTK_WIDGET (self->yes));
}

static void
sw_answer_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  SwAnswerRow *self = SW_ANSWER_ROW (object);

  switch (id)
    {
    case PROP_LABEL:
      gtk_label_set_text (self->label, g_value_get_string (value));
      break;
    case PROP_YES:
      gtk_button_set_label (GTK_BUTTON (self->yes), g_value_get_string (value));
      break;
    case PROP_NO:
      gtk_button_set_label (GTK_BUTTON (self->no), g_value_get_string (value));
      break;
    case PROP_WITH_UNKNOWN:
      gtk_widget_set_visible (GTK_WIDGET (self->unknown), g_value_get_boolean (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_answer_row_dispose (GObject *object)
{
  g_clear_pointer (&SW_ANSWER_ROW (object)->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_answer_row_parent_class)->dispose (object);
}

static void
sw_answer_row_class_init (SwAnswerRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;

  object_class->set_property = sw_answer_row_set_property;
  object_class->dispose = sw_answer_row_dispose;
  widget_class->grab_focus = sw_answer_row_grab_focus;
  props[PROP_LABEL] = g_param_spec_string ("label", NULL, NULL, NULL, flags);
  props[PROP_YES] = g_param_spec_string ("yes", NULL, NULL, NULL, flags);
  props[PROP_NO] = g_param_spec_string ("no", NULL, NULL, NULL, flags);
  props[PROP_WITH_UNKNOWN] = g_param_spec_boolean ("with-unknown", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signal_changed = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);

  g_type_ensure (SW_TYPE_ERROR_LINE);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/answer-row.ui");
  gtk_widget_class_bind_template_child (widget_class, SwAnswerRow, layout);
  gtk_widget_class_bind_template_child (widget_class, SwAnswerRow, label);
  gtk_widget_class_bind_template_child (widget_class, SwAnswerRow, yes);
  gtk_widget_class_bind_template_child (widget_class, SwAnswerRow, no);
  gtk_widget_class_bind_template_child (widget_class, SwAnswerRow, unknown);
  gtk_widget_class_bind_template_child (widget_class, SwAnswerRow, error);
  gtk_widget_class_bind_template_callback (widget_class, toggled_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swanswerrow");
}

static void
sw_answer_row_init (SwAnswerRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

SwAnswer
sw_answer_row_get (SwAnswerRow *self)
{
  if (gtk_toggle_button_get_active (self->yes))
    return SW_ANSWER_YES;
  if (gtk_toggle_button_get_active (self->no))
    return SW_ANSWER_NO;
  return gtk_toggle_button_get_active (self->unknown) ? SW_ANSWER_UNKNOWN : SW_ANSWER_NONE;
}

void
sw_answer_row_set (SwAnswerRow *self, SwAnswer answer)
{
  gtk_toggle_button_set_active (self->yes, answer == SW_ANSWER_YES);
  gtk_toggle_button_set_active (self->no, answer == SW_ANSWER_NO);
  gtk_toggle_button_set_active (self->unknown, answer == SW_ANSWER_UNKNOWN);
}

void
sw_answer_row_set_error (SwAnswerRow *self, const char *text)
{
  sw_error_line_set (self->error, text);
}

const char *
sw_answer_row_get_error (SwAnswerRow *self)
{
  return sw_error_line_get (self->error);
}
