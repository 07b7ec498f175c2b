/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A form made from a table of fields.
 *
 * Invariants:
 *   1. controls[i] shows specs[i]; its row is a child of the grid for the whole life of the form.
 *   2. A row is visible exactly while its shown_with field has a value in shown_mask.
 *   3. Nothing but the person and sw_form_load changes what a row holds.
 */
#include "app/setup/form-private.h"

enum
{
  SIGNAL_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwForm, sw_form, GTK_TYPE_WIDGET)

static void
field_changed_cb (SwForm *self)
{
  if (self->loading)
    return;
  sw_form_lay_out (self);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

/* ---- building ---- */

static GtkWidget *
build_heading (SwForm *self, const char *text)
{
  GtkWidget *heading = gtk_label_new (sw_tr (sw_context_get_wording (self->context), text));

  gtk_label_set_xalign (GTK_LABEL (heading), 0);
  gtk_label_set_wrap (GTK_LABEL (heading), TRUE);
  gtk_widget_add_css_class (heading, "sw-group");
  gtk_grid_attach (GTK_GRID (self->grid), heading, 0, 0, 1, 1);
  return heading;
}

static void
build_control (SwForm *self, guint i)
{
  const SwFormSpec *spec = &self->specs[i];
  SwFormControl *control = &self->controls[i];
  GtkWidget *heading = spec->group != NULL ? build_heading (self, spec->group) : NULL;

  control->spec = spec;
  control->context = self->context;
  control->row = sw_form_kind_class (spec->kind)
                     ->build (self->context, spec, G_CALLBACK (field_changed_cb), self);
  control->loaded = g_strdup ("");
  gtk_widget_set_name (control->row, spec->id);
  gtk_widget_set_hexpand (control->row, TRUE);
  gtk_widget_set_valign (control->row, GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (control->row), "heading", heading);
  gtk_grid_attach (GTK_GRID (self->grid), control->row, 0, 0, 1, 1);
}

static void
sw_form_dispose (GObject *object)
{
  SwForm *self = SW_FORM (object);

  /* Rows say "changed" while they are taken apart; nobody is to listen any more. */
  self->loading = TRUE;
  g_clear_pointer (&self->grid, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_form_parent_class)->dispose (object);
}

static void
sw_form_finalize (GObject *object)
{
  SwForm *self = SW_FORM (object);

  for (guint i = 0; i < self->n_specs; i++)
    g_free (self->controls[i].loaded);
  g_free (self->controls);
  G_OBJECT_CLASS (sw_form_parent_class)->finalize (object);
}

static void
sw_form_class_init (SwFormClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = sw_form_dispose;
  object_class->finalize = sw_form_finalize;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST,
                                          0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swform");
}

static void
sw_form_init (SwForm *self)
{
  self->grid = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 12);
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 18);
  gtk_grid_set_column_homogeneous (GTK_GRID (self->grid), TRUE);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
}

SwForm *
sw_form_new (SwContext *context, const SwFormSpec *specs, guint n_specs, int columns)
{
  SwForm *self = g_object_new (SW_TYPE_FORM, NULL);

  g_return_val_if_fail (SW_IS_CONTEXT (context) && (columns == 1 || columns == 2), self);
  self->context = g_object_ref (context);
  self->specs = specs;
  self->columns = columns;
  self->controls = g_new0 (SwFormControl, n_specs);
  self->loading = TRUE;
  for (guint i = 0; i < n_specs; i++)
    build_control (self, i);
  self->n_specs = n_specs;
  self->loading = FALSE;
  sw_form_lay_out (self);
  return self;
}

/* ---- filling and reading ---- */

void
sw_form_load (SwForm *self, gconstpointer record)
{
  g_return_if_fail (SW_IS_FORM (self) && record != NULL);

  self->loading = TRUE;
  for (guint i = 0; i < self->n_specs; i++)
    {
      SwFormControl *control = &self->controls[i];

      gboolean asked = control->spec->asks && ((const SwRecord *)record)->id == 0;

      sw_form_class_of (control)->load (
          control, asked ? NULL : sw_form_const_member (record, control->spec));
      sw_form_class_of (control)->set_error (control, NULL);
      g_free (control->loaded);
      control->loaded = sw_form_class_of (control)->dup_state (control);
    }
  self->loading = FALSE;
  field_changed_cb (self);
}

static gboolean
is_touched (const SwFormControl *control)
{
  g_autofree char *state = sw_form_class_of (control)->dup_state (control);

  return g_strcmp0 (state, control->loaded) != 0;
}

static gboolean
is_empty (const SwFormControl *control)
{
  g_autofree char *state = sw_form_class_of (control)->dup_state (control);

  return *state == '\0';
}

/* Whether another field that is shown fills the same member. */
static gboolean
has_shown_twin (SwForm *self, const SwFormSpec *spec)
{
  for (guint i = 0; i < self->n_specs; i++)
    if (&self->specs[i] != spec && self->specs[i].offset == spec->offset
        && sw_form_is_shown (self, &self->specs[i]))
      return TRUE;
  return FALSE;
}

/* One field into the record. FALSE with the words when it holds no good value. */
static gboolean
save_control (SwForm *self, const SwFormControl *control, gpointer record, char **fault_text)
{
  gpointer member = sw_form_member (record, control->spec);

  if (!sw_form_is_shown (self, control->spec))
    {
      if (!has_shown_twin (self, control->spec))
        sw_form_class_of (control)->clear (member);
      return TRUE;
    }
  /* What must be chosen and is not has a state too, such as "0". */
  if (!is_touched (control) && !is_empty (control) && control->spec->kind != SW_FORM_RECORD
      && !control->spec->asks)
    return TRUE;
  return sw_form_class_of (control)->save (control, member, fault_text);
}

static gboolean
save_all (SwForm *self, gpointer record, gboolean complain)
{
  const SwFormControl *first_wrong = NULL;

  for (guint i = 0; i < self->n_specs; i++)
    {
      const SwFormControl *control = &self->controls[i];
      g_autofree char *fault_text = NULL;
      gboolean good = save_control (self, control, record, &fault_text);

      if (complain)
        sw_form_class_of (control)->set_error (control, good ? NULL : fault_text);
      if (!good && first_wrong == NULL)
        first_wrong = control;
    }
  if (complain && first_wrong != NULL)
    gtk_widget_grab_focus (first_wrong->row);
  return first_wrong == NULL;
}

gboolean
sw_form_save (SwForm *self, gpointer record)
{
  g_return_val_if_fail (SW_IS_FORM (self) && record != NULL, FALSE);
  return save_all (self, record, TRUE);
}

gboolean
sw_form_peek (SwForm *self, gpointer record)
{
  gboolean good;

  g_return_val_if_fail (SW_IS_FORM (self) && record != NULL, FALSE);
  self->loading = TRUE;
  good = save_all (self, record, FALSE);
  self->loading = FALSE;
  return good;
}

gboolean
sw_form_is_changed (SwForm *self)
{
  g_return_val_if_fail (SW_IS_FORM (self), FALSE);
  for (guint i = 0; i < self->n_specs; i++)
    if (is_touched (&self->controls[i]))
      return TRUE;
  return FALSE;
}

/* A text that is refused is found by itself: several fields may be names. */
static gboolean
is_about (SwForm *self, const SwFormControl *control, const SwFault *fault)
{
  const SwFormSpec *spec = control->spec;
  g_autofree char *state = NULL;

  if (spec->quantity != fault->quantity || !sw_form_is_shown (self, spec))
    return FALSE;
  if (fault->quantity == SW_QUANTITY_UNCERTAINTY)
    return spec->of == fault->of;
  if (fault->code != SW_FAULT_TEXT || fault->typed == NULL)
    return TRUE;
  state = sw_form_class_of (control)->dup_state (control);
  return g_str_equal (state, fault->typed);
}

gboolean
sw_form_show_error (SwForm *self, const GError *error)
{
  const SwFault *fault = sw_fault_get (error);
  g_autofree char *words = NULL;

  g_return_val_if_fail (SW_IS_FORM (self), FALSE);
  if (fault == NULL || fault->quantity == SW_QUANTITY_NONE)
    return FALSE;
  for (guint i = 0; i < self->n_specs; i++)
    {
      const SwFormControl *control = &self->controls[i];

      if (!is_about (self, control, fault))
        continue;
      words = sw_say_fault (sw_context_get_wording (self->context), fault);
      sw_form_class_of (control)->set_error (control, words);
      gtk_widget_grab_focus (control->row);
      return TRUE;
    }
  return FALSE;
}

void
sw_form_refresh (SwForm *self)
{
  g_return_if_fail (SW_IS_FORM (self));
  self->loading = TRUE;
  for (guint i = 0; i < self->n_specs; i++)
    if (sw_form_class_of (&self->controls[i])->refresh != NULL)
      sw_form_class_of (&self->controls[i])->refresh (&self->controls[i]);
  self->loading = FALSE;
}

GtkWidget *
sw_form_get_row (SwForm *self, const char *id)
{
  const SwFormControl *control;

  g_return_val_if_fail (SW_IS_FORM (self), NULL);
  control = sw_form_find_control (self, id);
  return control != NULL ? control->row : NULL;
}

void
sw_form_focus (SwForm *self, const char *id)
{
  GtkWidget *row;

  g_return_if_fail (SW_IS_FORM (self));
  row = id != NULL ? sw_form_get_row (self, id) : NULL;
  if (row == NULL && self->n_specs > 0)
    row = self->controls[0].row;
  if (row != NULL)
    gtk_widget_child_focus (row, GTK_DIR_TAB_FORWARD);
}
