/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A machine's form page with its parts.
 *
 * A machine is saved in steps: the machine with compartments and points is one act, each plan that
 * was touched is one. When a plan is refused the machine is on file already, so a second try writes
 * only what is left.
 *
 * Invariants:
 *   1. machine is what the form was loaded from and is never written to.
 *   2. A part that was not touched is not written: no reason is asked for nothing.
 */
#include "app/setup/machine-editor.h"

#include "app/setup/pick-row.h"
#include "app/setup/machine-missing.h"
#include "app/setup/machine-tables.h"
#include "app/setup/solvent-button.h"
#include "wording/sentence-setup.h"
#include "workflow/amend.h"
#include "workflow/setup.h"

struct _SwMachineEditor
{
  SwEditor parent_instance;

  /* Borrowed: in the box */
  SwMachineMissing *missing;
  SwForm *form;
  SwFormList *compartments;
  GtkLabel *sum;
  SwFormList *points;
  SwFormList *plans;

  SwMachine *machine; /* Owned */
};

G_DEFINE_FINAL_TYPE (SwMachineEditor, sw_machine_editor, SW_TYPE_EDITOR)

static SwStore *
store_of (SwMachineEditor *self)
{
  return sw_context_get_store (sw_editor_get_context (SW_EDITOR (self)));
}

static void
show_sum (SwMachineEditor *self)
{
  g_autoptr (GPtrArray) rows = sw_form_list_peek (self->compartments);
  g_autofree char *words = NULL;
  SwQuantity system_l;
  gboolean complete;

  sw_setup_sum_compartments (rows, &system_l, &complete);
  words = sw_say_system_volume (sw_context_get_wording (sw_editor_get_context (SW_EDITOR (self))),
                                system_l, complete);
  gtk_label_set_text (self->sum, words);
}

/* ---- opening ---- */

static gboolean
load_parts (SwMachineEditor *self, gint64 id, GError **error)
{
  g_autoptr (GPtrArray) compartments = sw_machine_load_compartments (store_of (self), id, error);
  g_autoptr (GPtrArray) points = NULL;

  if (compartments == NULL)
    return FALSE;
  points = sw_machine_load_points (store_of (self), id, error);
  if (points == NULL)
    return FALSE;
  sw_form_list_load (self->compartments, compartments);
  sw_form_list_load (self->points, points);
  return TRUE;
}

static gboolean
load_plans (SwMachineEditor *self, gint64 id, GError **error)
{
  g_autoptr (GPtrArray) plans = sw_machine_load_plans (store_of (self), id, error);

  if (plans != NULL)
    sw_form_list_load (self->plans, plans);
  return plans != NULL;
}

/* The machine and its parts, without the plans. */
static gboolean
load_machine (SwMachineEditor *self, gint64 id, GError **error)
{
  SwMachine *machine = id != 0 ? sw_machine_load (store_of (self), id, error) : sw_machine_new ();

  if (machine == NULL)
    return FALSE;
  g_clear_pointer (&self->machine, sw_machine_free);
  self->machine = machine;
  sw_form_load (self->form, machine);
  return load_parts (self, id, error);
}

static gboolean
sw_machine_editor_open (SwEditor *editor, gint64 id, GError **error)
{
  SwMachineEditor *self = SW_MACHINE_EDITOR (editor);

  if (!load_machine (self, id, error) || !load_plans (self, id, error))
    return FALSE;
  sw_machine_missing_show (self->missing, id);
  return TRUE;
}

/* ---- saving ---- */

static gboolean
is_machine_changed (SwMachineEditor *self)
{
  return self->machine->record.id == 0 || sw_form_is_changed (self->form)
         || sw_form_list_is_changed (self->compartments) || sw_form_list_is_changed (self->points);
}

static void
number_points (GPtrArray *points)
{
  for (guint i = 0; i < points->len; i++)
    ((SwSamplingPoint *)g_ptr_array_index (points, i))->rank = (int)i + 1;
}

/* FALSE without an error: the faults stand at their fields. */
static gboolean
write_machine (SwMachineEditor *self, const SwActor *actor, gint64 *id, GError **error)
{
  g_autoptr (SwMachine) machine = sw_machine_copy (self->machine);
  g_autoptr (GPtrArray) points = sw_form_list_save (self->points);
  g_autoptr (GPtrArray) compartments = sw_form_list_save (self->compartments);

  if (!sw_form_save (self->form, machine) || points == NULL || compartments == NULL)
    return FALSE;
  number_points (points);
  if (!sw_setup_machine (store_of (self), actor, machine, compartments, points, error))
    return FALSE;
  *id = machine->record.id;
  return load_machine (self, *id, error);
}

static gboolean
void_plans (SwMachineEditor *self, const SwActor *actor, GError **error)
{
  g_autoptr (GArray) removed = sw_form_list_removed (self->plans);

  for (guint i = 0; i < removed->len; i++)
    if (!sw_void_record (store_of (self), actor, SW_TABLE_PLAN, g_array_index (removed, gint64, i),
                         error))
      return FALSE;
  return TRUE;
}

static gboolean
write_plans (
    SwMachineEditor *self, const SwActor *actor, gint64 id, GPtrArray *plans, GError **error)
{
  if (!void_plans (self, actor, error))
    return FALSE;
  for (guint i = 0; i < plans->len; i++)
    {
      SwPlan *plan = g_ptr_array_index (plans, i);

      plan->machine = id;
      if (plan->record.id != 0 && !sw_form_is_changed (sw_form_list_get_form (self->plans, i)))
        continue;
      if (!sw_setup_plan (store_of (self), actor, plan, error))
        return FALSE;
    }
  return load_plans (self, id, error);
}

static gboolean
sw_machine_editor_save (SwEditor *editor, const SwActor *actor, gint64 *id, GError **error)
{
  SwMachineEditor *self = SW_MACHINE_EDITOR (editor);
  g_autoptr (GPtrArray) plans = sw_form_list_save (self->plans);
  gboolean saved = !is_machine_changed (self);

  /* The fields of the machine are read even when a plan is wrong: all faults are shown at once. */
  if (plans == NULL)
    {
      g_autoptr (SwMachine) unused = sw_machine_copy (self->machine);

      sw_form_save (self->form, unused);
      return FALSE;
    }
  if (!saved && !write_machine (self, actor, id, error))
    return FALSE;
  if (!write_plans (self, actor, *id, plans, error))
    return FALSE;
  sw_machine_missing_show (self->missing, *id);
  return TRUE;
}

/* ---- the rest of an editor ---- */

static gboolean
sw_machine_editor_is_changed (SwEditor *editor)
{
  SwMachineEditor *self = SW_MACHINE_EDITOR (editor);

  return sw_form_is_changed (self->form) || sw_form_list_is_changed (self->compartments)
         || sw_form_list_is_changed (self->points) || sw_form_list_is_changed (self->plans);
}

/* A new plan of a machine on file corrects nothing. */
static gboolean
amends_plans (SwMachineEditor *self)
{
  g_autoptr (GArray) removed = sw_form_list_removed (self->plans);
  g_autoptr (GPtrArray) plans = sw_form_list_peek (self->plans);

  if (removed->len > 0 || plans->len < sw_form_list_get_n_forms (self->plans))
    return TRUE;
  for (guint i = 0; i < plans->len; i++)
    if (((SwRecord *)g_ptr_array_index (plans, i))->id != 0
        && sw_form_is_changed (sw_form_list_get_form (self->plans, i)))
      return TRUE;
  return FALSE;
}

static gboolean
sw_machine_editor_amends (SwEditor *editor)
{
  SwMachineEditor *self = SW_MACHINE_EDITOR (editor);

  return self->machine->record.id != 0 && (is_machine_changed (self) || amends_plans (self));
}

static gboolean
sw_machine_editor_show_error (SwEditor *editor, const GError *error)
{
  SwMachineEditor *self = SW_MACHINE_EDITOR (editor);

  return sw_form_list_show_error (self->compartments, error)
         || sw_form_show_error (self->form, error) || sw_form_list_show_error (self->points, error)
         || sw_form_list_show_error (self->plans, error);
}

static void
sw_machine_editor_refresh (SwEditor *editor)
{
  SwMachineEditor *self = SW_MACHINE_EDITOR (editor);

  sw_form_refresh (self->form);
  sw_form_list_refresh (self->plans);
  sw_machine_missing_show (self->missing, sw_editor_get_id (editor));
}

static void
sw_machine_editor_focus (SwEditor *editor, const char *field)
{
  SwMachineEditor *self = SW_MACHINE_EDITOR (editor);

  if (g_strcmp0 (field, "compartments") == 0)
    sw_form_list_focus (self->compartments);
  else if (g_strcmp0 (field, "points") == 0)
    sw_form_list_focus (self->points);
  else if (g_strcmp0 (field, "plans") == 0)
    sw_form_list_focus (self->plans);
  else
    sw_form_focus (self->form, field);
}

static void
sw_machine_editor_finalize (GObject *object)
{
  g_clear_pointer (&SW_MACHINE_EDITOR (object)->machine, sw_machine_free);
  G_OBJECT_CLASS (sw_machine_editor_parent_class)->finalize (object);
}

static void
sw_machine_editor_class_init (SwMachineEditorClass *klass)
{
  SwEditorClass *editor_class = SW_EDITOR_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = sw_machine_editor_finalize;
  editor_class->open = sw_machine_editor_open;
  editor_class->save = sw_machine_editor_save;
  editor_class->is_changed = sw_machine_editor_is_changed;
  editor_class->amends = sw_machine_editor_amends;
  editor_class->show_error = sw_machine_editor_show_error;
  editor_class->refresh = sw_machine_editor_refresh;
  editor_class->focus = sw_machine_editor_focus;
}

static void
sw_machine_editor_init (SwMachineEditor *self)
{
}

/* ---- building ---- */

static void
solvent_added_cb (SwMachineEditor *self, gint64 id)
{
  GtkWidget *row = sw_form_get_row (self->form, "solvent");

  sw_pick_row_set_value (SW_PICK_ROW (row), id);
  gtk_widget_grab_focus (row);
}

static void
go_there_cb (SwMachineEditor *self, const char *section, gint64 id, const char *field)
{
  if (*section == '\0')
    sw_editor_focus (SW_EDITOR (self), field);
  else
    sw_editor_open_other (SW_EDITOR (self), section, id, field);
}

static void
add_form (SwMachineEditor *self, SwContext *context)
{
  GtkWidget *add = sw_solvent_button_new (context);

  self->form = sw_form_new (context, sw_machine_fields, SW_N_MACHINE_FIELDS, 2);
  sw_pick_row_set_suffix (SW_PICK_ROW (sw_form_get_row (self->form, "solvent")), add);
  g_signal_connect_object (add, "added", G_CALLBACK (solvent_added_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->form, "changed", G_CALLBACK (sw_editor_changed), self,
                           G_CONNECT_SWAPPED);
  gtk_box_append (sw_editor_get_box (SW_EDITOR (self)), GTK_WIDGET (self->form));
}

static SwFormList *
add_list (SwMachineEditor *self, SwContext *context, const SwFormListSpec *spec)
{
  SwFormList *list = sw_form_list_new (context, spec);

  g_signal_connect_object (list, "changed", G_CALLBACK (sw_editor_changed), self,
                           G_CONNECT_SWAPPED);
  gtk_box_append (sw_editor_get_box (SW_EDITOR (self)), GTK_WIDGET (list));
  return list;
}

static void
add_sum (SwMachineEditor *self)
{
  GtkWidget *sum = gtk_label_new (NULL);

  self->sum = GTK_LABEL (sum);
  gtk_widget_set_name (sum, "sum");
  gtk_label_set_wrap (self->sum, TRUE);
  gtk_label_set_xalign (self->sum, 0);
  gtk_widget_add_css_class (sum, "sw-bold");
  g_signal_connect_object (self->compartments, "changed", G_CALLBACK (show_sum), self,
                           G_CONNECT_SWAPPED);
  gtk_box_append (sw_editor_get_box (SW_EDITOR (self)), sum);
}

GtkWidget *
sw_machine_editor_new (SwContext *context)
{
  SwMachineEditor *self = g_object_new (SW_TYPE_MACHINE_EDITOR, NULL);

  sw_editor_set_context (SW_EDITOR (self), context);
  self->missing = SW_MACHINE_MISSING (sw_machine_missing_new (context));
  gtk_box_append (sw_editor_get_box (SW_EDITOR (self)), GTK_WIDGET (self->missing));
  g_signal_connect_object (self->missing, "go-there", G_CALLBACK (go_there_cb), self,
                           G_CONNECT_SWAPPED);
  add_form (self, context);
  self->compartments = add_list (self, context, &sw_machine_compartments);
  add_sum (self);
  self->points = add_list (self, context, &sw_machine_points);
  self->plans = add_list (self, context, &sw_machine_plans);
  return GTK_WIDGET (self);
}
