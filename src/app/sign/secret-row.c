/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A field for a secret.
 *
 * Invariants:
 *   1. The text is only in the entry's buffer, which GTK keeps out of the swap file; it is never
 *      copied here, and cannot be undone.
 *   2. The entry takes no text exactly while a wait runs.
 */
#include "app/sign/secret-row.h"

#include "app/plant-words.h"
#include "app/widgets/verdict.h"
#include "workflow/sign-in.h"

#define TICK_MS 250
#define MS_PER_MIN 60000.0

struct _SwSecretRow
{
  GtkWidget parent_instance;

  /* Template children */
  GtkWidget *layout;
  GtkLabel *label;
  GtkPasswordEntry *entry;
  GtkLabel *hint;
  GtkWidget *error_box;
  GtkLabel *error;

  /* While a wait runs */
  SwContext *context; /* Owned */
  gint64 person;
  guint tick;
};

enum
{
  PROP_LABEL = 1,
  PROP_HINT,
  N_PROPS
};

static GParamSpec *props[N_PROPS];
static guint signal_activate;

G_DEFINE_FINAL_TYPE (SwSecretRow, sw_secret_row, GTK_TYPE_WIDGET)

/* ---- waiting ---- */

static void
stop_waiting (SwSecretRow *self)
{
  if (self->tick == 0)
    return;
  g_clear_handle_id (&self->tick, g_source_remove);
  g_clear_object (&self->context);
  gtk_widget_set_sensitive (GTK_WIDGET (self->entry), TRUE);
  sw_secret_row_set_error (self, NULL);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    gtk_widget_grab_focus (GTK_WIDGET (self->entry));
}

static gint64
get_wait_ms (SwSecretRow *self)
{
  return sw_sign_in_wait_ms (sw_context_get_store (self->context), self->person,
                             sw_context_now (self->context));
}

/* FALSE when it is over. */
static gboolean
show_wait (SwSecretRow *self)
{
  gint64 left_ms = get_wait_ms (self);

  if (left_ms <= 0)
    return FALSE;
  const SwFact fact = { .code = SW_FACT_WAIT, .number = { (double)left_ms / MS_PER_MIN } };
  g_autofree char *words = sw_say_fact (sw_context_get_wording (self->context), &fact);
  sw_secret_row_set_error (self, words);
  return TRUE;
}

static gboolean
tick_cb (gpointer data)
{
  SwSecretRow *self = SW_SECRET_ROW (data);

  if (show_wait (self))
    return G_SOURCE_CONTINUE;
  stop_waiting (self);
  return G_SOURCE_REMOVE;
}

void
sw_secret_row_check_wait (SwSecretRow *self, SwContext *context, gint64 person)
{
  g_return_if_fail (SW_IS_SECRET_ROW (self) && SW_IS_CONTEXT (context));

  stop_waiting (self);
  g_set_object (&self->context, context);
  self->person = person;
  if (!show_wait (self))
    {
      g_clear_object (&self->context);
      return;
    }
  gtk_widget_set_sensitive (GTK_WIDGET (self->entry), FALSE);
  self->tick = g_timeout_add (TICK_MS, tick_cb, self);
}

gboolean
sw_secret_row_is_waiting (SwSecretRow *self)
{
  g_return_val_if_fail (SW_IS_SECRET_ROW (self), FALSE);
  return self->tick != 0;
}

void
sw_secret_row_refuse (SwSecretRow *self, SwContext *context, gint64 person, const GError *error)
{
  g_return_if_fail (SW_IS_SECRET_ROW (self) && error != NULL);

  g_autofree char *words = sw_plant_say_error (sw_context_get_wording (context), error);
  sw_secret_row_wipe (self);
  sw_secret_row_set_error (self, words);
  sw_secret_row_check_wait (self, context, person);
}

/* ---- text ---- */

const char *
sw_secret_row_get_text (SwSecretRow *self)
{
  g_return_val_if_fail (SW_IS_SECRET_ROW (self), NULL);
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

/* Deleting only moves the end of the text; what stood there is overwritten first. */
void
sw_secret_row_wipe (SwSecretRow *self)
{
  g_return_if_fail (SW_IS_SECRET_ROW (self));

  g_autofree char *filler = g_strnfill (strlen (sw_secret_row_get_text (self)), '*');
  gtk_editable_set_text (GTK_EDITABLE (self->entry), filler);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
}

static void
text_changed_cb (GtkEditable *editable, SwSecretRow *self)
{
  sw_secret_row_set_error (self, NULL);
}

static void
activated_cb (GtkPasswordEntry *entry, SwSecretRow *self)
{
  g_signal_emit (self, signal_activate, 0);
}

void
sw_secret_row_set_error (SwSecretRow *self, const char *text)
{
  g_return_if_fail (SW_IS_SECRET_ROW (self));

  gtk_label_set_text (self->error, text != NULL ? text : "");
  gtk_widget_set_visible (self->error_box, text != NULL);
  if (text != NULL)
    {
      gtk_widget_add_css_class (GTK_WIDGET (self->entry), "sw-invalid");
      gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                                   GTK_ACCESSIBLE_INVALID_TRUE, -1);
      return;
    }
  gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "sw-invalid");
  gtk_accessible_reset_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID);
}

const char *
sw_secret_row_get_error (SwSecretRow *self)
{
  g_return_val_if_fail (SW_IS_SECRET_ROW (self), NULL);
  return gtk_widget_get_visible (self->error_box) ? gtk_label_get_text (self->error) : NULL;
}

/* ---- class ---- */

static void
set_hint (SwSecretRow *self, const char *text)
{
  gtk_label_set_text (self->hint, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->hint), text != NULL && *text != '\0');
}

void
sw_secret_row_set_label (SwSecretRow *self, const char *text)
{
  g_return_if_fail (SW_IS_SECRET_ROW (self));
  gtk_label_set_use_underline (self->label, FALSE);
  gtk_label_set_label (self->label, text != NULL ? text : "");
}

static void
sw_secret_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  SwSecretRow *self = SW_SECRET_ROW (object);
  const char *text = g_value_get_string (value);

  switch (id)
    {
    case PROP_LABEL:
      gtk_label_set_text_with_mnemonic (self->label, text != NULL ? text : "");
      break;
    case PROP_HINT:
      set_hint (self, text);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static gboolean
sw_secret_row_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_SECRET_ROW (widget)->entry));
}

static void
sw_secret_row_dispose (GObject *object)
{
  SwSecretRow *self = SW_SECRET_ROW (object);

  g_clear_handle_id (&self->tick, g_source_remove);
  g_clear_object (&self->context);
  if (self->layout != NULL)
    sw_secret_row_wipe (self);
  g_clear_pointer (&self->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_secret_row_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/sign/secret-row.ui");
  gtk_widget_class_bind_template_child (widget_class, SwSecretRow, layout);
  gtk_widget_class_bind_template_child (widget_class, SwSecretRow, label);
  gtk_widget_class_bind_template_child (widget_class, SwSecretRow, entry);
  gtk_widget_class_bind_template_child (widget_class, SwSecretRow, hint);
  gtk_widget_class_bind_template_child (widget_class, SwSecretRow, error_box);
  gtk_widget_class_bind_template_child (widget_class, SwSecretRow, error);
  gtk_widget_class_bind_template_callback (widget_class, text_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
}

static void
sw_secret_row_class_init (SwSecretRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS;

  object_class->set_property = sw_secret_row_set_property;
  object_class->dispose = sw_secret_row_dispose;
  widget_class->grab_focus = sw_secret_row_grab_focus;
  props[PROP_LABEL] = g_param_spec_string ("label", NULL, NULL, NULL, flags);
  props[PROP_HINT] = g_param_spec_string ("hint", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signal_activate = g_signal_new ("activate", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (SW_TYPE_VERDICT);
  bind_children (widget_class);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_secret_row_init (SwSecretRow *self)
{
  GtkEditable *text;

  gtk_widget_init_template (GTK_WIDGET (self));
  /* The list of what can be undone would be a second copy. */
  text = gtk_editable_get_delegate (GTK_EDITABLE (self->entry));
  if (text != NULL)
    g_object_set (text, "enable-undo", FALSE, NULL);
}
