/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of a form.
 *
 * Invariants:
 *   1. The typed text is only ever changed by the person or by sw_form_row_set_text/_number.
 *   2. The error shows exactly while the entry is in the accessible state "invalid".
 *   3. Typing takes the error away: it spoke of a text that is no longer there.
 */
#include "app/widgets/form-row.h"

#include <math.h>

#include "app/widgets/verdict.h"
#include "wording/sentence.h"

/* Digits that bring back every number a person is likely to have typed. */
#define STORED_DIGITS 10

struct _SwFormRow
{
  GtkWidget parent_instance;

  /* Template children */
  GtkLabel *label;
  GtkEntry *entry;
  GtkLabel *unit;
  GtkLabel *hint;
  GtkWidget *error_box;
  GtkLabel *error;
};

enum
{
  PROP_LABEL = 1,
  PROP_HINT,
  PROP_UNIT_SYMBOL,
  PROP_TEXT,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (SwFormRow, sw_form_row, GTK_TYPE_WIDGET)

/* An empty label keeps no room. */
static void
set_optional_label (GtkLabel *label, const char *text)
{
  gtk_label_set_text (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static void
text_changed_cb (GtkEditable *editable, SwFormRow *self)
{
  sw_form_row_set_error (self, NULL);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_TEXT]);
}

/* Enter in an entry presses the default button of the window it is in. */
static void
activated_cb (GtkEntry *entry, SwFormRow *self)
{
  gtk_widget_activate_default (GTK_WIDGET (self));
}

static void
sw_form_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  SwFormRow *self = SW_FORM_ROW (object);

  switch (id)
    {
    case PROP_LABEL:
      gtk_label_set_text_with_mnemonic (
          self->label, g_value_get_string (value) != NULL ? g_value_get_string (value) : "");
      break;
    case PROP_HINT:
      set_optional_label (self->hint, g_value_get_string (value));
      break;
    case PROP_UNIT_SYMBOL:
      set_optional_label (self->unit, g_value_get_string (value));
      break;
    case PROP_TEXT:
      sw_form_row_set_text (self, g_value_get_string (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_form_row_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  SwFormRow *self = SW_FORM_ROW (object);

  switch (id)
    {
    case PROP_LABEL:
      g_value_set_string (value, gtk_label_get_label (self->label));
      break;
    case PROP_HINT:
      g_value_set_string (value, gtk_label_get_label (self->hint));
      break;
    case PROP_UNIT_SYMBOL:
      g_value_set_string (value, gtk_label_get_label (self->unit));
      break;
    case PROP_TEXT:
      g_value_set_string (value, sw_form_row_get_text (self));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static gboolean
sw_form_row_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_FORM_ROW (widget)->entry));
}

static void
sw_form_row_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_form_row_parent_class)->dispose (object);
}

static void
sw_form_row_class_init (SwFormRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->set_property = sw_form_row_set_property;
  object_class->get_property = sw_form_row_get_property;
  object_class->dispose = sw_form_row_dispose;
  widget_class->grab_focus = sw_form_row_grab_focus;
  props[PROP_LABEL] = g_param_spec_string ("label", NULL, NULL, NULL, flags);
  props[PROP_HINT] = g_param_spec_string ("hint", NULL, NULL, NULL, flags);
  props[PROP_UNIT_SYMBOL] = g_param_spec_string ("unit-symbol", NULL, NULL, NULL, flags);
  props[PROP_TEXT]
      = g_param_spec_string ("text", NULL, NULL, NULL, flags | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, props);

  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/widgets/form-row.ui");
  gtk_widget_class_bind_template_child (widget_class, SwFormRow, label);
  gtk_widget_class_bind_template_child (widget_class, SwFormRow, entry);
  gtk_widget_class_bind_template_child (widget_class, SwFormRow, unit);
  gtk_widget_class_bind_template_child (widget_class, SwFormRow, hint);
  gtk_widget_class_bind_template_child (widget_class, SwFormRow, error_box);
  gtk_widget_class_bind_template_child (widget_class, SwFormRow, error);
  gtk_widget_class_bind_template_callback (widget_class, text_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swformrow");
}

static void
sw_form_row_init (SwFormRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
sw_form_row_new (const char *label, const char *hint, SwUnit unit)
{
  const char *symbol = unit == SW_UNIT_STEP ? NULL : sw_unit_get_symbol (unit);

  return g_object_new (SW_TYPE_FORM_ROW, "label", label, "hint", hint, "unit-symbol", symbol, NULL);
}

const char *
sw_form_row_get_text (SwFormRow *self)
{
  g_return_val_if_fail (SW_IS_FORM_ROW (self), NULL);
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

void
sw_form_row_set_text (SwFormRow *self, const char *text)
{
  g_return_if_fail (SW_IS_FORM_ROW (self));
  text = text != NULL ? text : "";
  if (g_strcmp0 (text, sw_form_row_get_text (self)) != 0)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
}

void
sw_form_row_set_error (SwFormRow *self, const char *text)
{
  g_return_if_fail (SW_IS_FORM_ROW (self));

  gboolean bad = text != NULL;
  if (!bad && !gtk_widget_get_visible (self->error_box))
    return;
  gtk_label_set_text (self->error, bad ? text : "");
  gtk_widget_set_visible (self->error_box, bad);
  if (bad)
    {
      gtk_widget_add_css_class (GTK_WIDGET (self->entry), "sw-invalid");
      gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                                   GTK_ACCESSIBLE_INVALID_TRUE, -1);
      gtk_accessible_update_relation (GTK_ACCESSIBLE (self->entry),
                                      GTK_ACCESSIBLE_RELATION_ERROR_MESSAGE, self->error, -1);
      return;
    }
  gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "sw-invalid");
  gtk_accessible_reset_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID);
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (self->entry),
                                 GTK_ACCESSIBLE_RELATION_ERROR_MESSAGE);
}

const char *
sw_form_row_get_error (SwFormRow *self)
{
  g_return_val_if_fail (SW_IS_FORM_ROW (self), NULL);
  return gtk_widget_get_visible (self->error_box) ? gtk_label_get_text (self->error) : NULL;
}

GtkWidget *
sw_form_row_get_entry (SwFormRow *self)
{
  g_return_val_if_fail (SW_IS_FORM_ROW (self), NULL);
  return GTK_WIDGET (self->entry);
}

/* What the field shows, for the record: the number as typed, with the unit that stands beside the
 * entry when the person typed none. */
static char *
dup_typed (const char *text, SwUnit unit)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  gsize length = strlen (stripped);
  gboolean bare
      = length > 0
        && (g_ascii_isdigit (stripped[length - 1]) || strchr (".,", stripped[length - 1]) != NULL);
  const char *symbol = unit == SW_UNIT_STEP ? "" : sw_unit_get_symbol (unit);

  if (!bare || *symbol == '\0')
    return g_steal_pointer (&stripped);
  return g_strdup_printf ("%s %s", stripped, symbol);
}

gboolean
sw_form_row_get_amount (SwFormRow *self,
                        const SwWording *wording,
                        SwQuantityName quantity,
                        SwUnit unit,
                        gboolean needed,
                        SwAmount *amount)
{
  g_return_val_if_fail (SW_IS_FORM_ROW (self) && amount != NULL, FALSE);

  const char *text = sw_form_row_get_text (self);
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  g_autoptr (GError) error = NULL;
  SwParsedAmount parsed;

  *amount = (SwAmount){ .value = NAN };
  if (*stripped == '\0' && !needed)
    {
      sw_form_row_set_error (self, NULL);
      return TRUE;
    }
  if (!sw_number_parse (text, quantity, unit, &parsed, &error))
    {
      g_autofree char *words = sw_say_error (wording, error);
      sw_form_row_set_error (self, words);
      return FALSE;
    }
  sw_form_row_set_error (self, NULL);
  amount->value = parsed.value;
  amount->typed = dup_typed (text, unit);
  return TRUE;
}

void
sw_form_row_set_number (SwFormRow *self, const SwWording *wording, double value)
{
  g_return_if_fail (SW_IS_FORM_ROW (self));

  g_autofree char *text
      = isnan (value) ? g_strdup ("") : sw_number_format (wording, value, STORED_DIGITS);
  sw_form_row_set_text (self, text);
}
