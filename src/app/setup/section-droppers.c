/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of droppers: what one drop is, with the figure worked out while weighings are typed. */
#include "app/setup/dropper-entry.h"
#include "app/setup/plant-choices.h"
#include "app/setup/record-editor.h"
#include "app/setup/section-spec.h"
#include "wording/sentence-setup.h"
#include "workflow/setup.h"

/* ---- the editor ---- */

#define SW_TYPE_DROPPER_EDITOR (sw_dropper_editor_get_type ())
G_DECLARE_FINAL_TYPE (SwDropperEditor, sw_dropper_editor, SW, DROPPER_EDITOR, SwEditor)

struct _SwDropperEditor
{
  SwEditor parent_instance;

  /* Borrowed: in the box */
  SwForm *form;
  SwFormList *weighings;
  GtkLabel *result;
  GtkLabel *outlier;

  SwCalibration *row; /* Owned: as loaded, never written to */
};

G_DEFINE_FINAL_TYPE (SwDropperEditor, sw_dropper_editor, SW_TYPE_EDITOR)

/* ---- live figures ---- */

static void
show_text (GtkLabel *label, const char *text)
{
  gtk_label_set_text (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL);
}

static void
show_result (SwDropperEditor *self)
{
  const SwWording *wording = sw_context_get_wording (sw_editor_get_context (SW_EDITOR (self)));
  g_autoptr (GPtrArray) weighings = sw_form_list_peek (self->weighings);
  g_auto (SwDropperEntry) entry = { 0 };
  g_autofree char *words = NULL;
  g_autofree char *warning = NULL;
  SwCalibrationResult result;

  /* A name still missing does not matter for the figure. */
  sw_dropper_entry_fill (&entry, self->row);
  sw_form_peek (self->form, &entry);
  if (entry.way == SW_DROPPER_WEIGHED
      && sw_dropper_entry_work_out (&entry, weighings, &result, NULL))
    {
      words = sw_say_calibration (wording, &result, weighings->len);
      warning = sw_say_outlier (wording, &result);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->weighings), entry.way == SW_DROPPER_WEIGHED);
  show_text (self->result, words);
  show_text (self->outlier, warning);
}

static void
changed_cb (SwDropperEditor *self)
{
  show_result (self);
  sw_editor_changed (SW_EDITOR (self));
}

/* ---- class ---- */

static gboolean
sw_dropper_editor_open (SwEditor *editor, gint64 id, GError **error)
{
  SwDropperEditor *self = SW_DROPPER_EDITOR (editor);
  SwStore *store = sw_context_get_store (sw_editor_get_context (editor));
  SwCalibration *row = id != 0 ? sw_calibration_load (store, id, error) : sw_calibration_new ();
  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  g_auto (SwDropperEntry) entry = { 0 };

  if (row == NULL)
    return FALSE;
  g_clear_pointer (&self->row, sw_calibration_free);
  self->row = row;
  sw_dropper_entry_fill (&entry, row);
  sw_form_load (self->form, &entry);
  sw_form_list_load (self->weighings, none);
  show_result (self);
  return TRUE;
}

/* FALSE without an error: the faults stand at their fields. */
static gboolean
read_row (SwDropperEditor *self, SwCalibration *row, GError **error)
{
  g_auto (SwDropperEntry) entry = { 0 };
  g_autoptr (GPtrArray) weighings = NULL;
  SwCalibrationResult result;
  gboolean good;

  sw_dropper_entry_fill (&entry, self->row);
  good = sw_form_save (self->form, &entry);
  if (entry.way == SW_DROPPER_TYPED)
    {
      sw_dropper_entry_put (&entry, NULL, 0, row);
      return good;
    }
  weighings = sw_form_list_save (self->weighings);
  if (!good || weighings == NULL || !sw_dropper_entry_work_out (&entry, weighings, &result, error))
    return FALSE;
  sw_dropper_entry_put (&entry, &result, weighings->len, row);
  return TRUE;
}

static gboolean
sw_dropper_editor_save (SwEditor *editor, const SwActor *actor, gint64 *id, GError **error)
{
  SwDropperEditor *self = SW_DROPPER_EDITOR (editor);
  SwStore *store = sw_context_get_store (sw_editor_get_context (editor));
  g_autoptr (SwCalibration) row = sw_calibration_copy (self->row);

  if (!read_row (self, row, error) || !sw_setup_calibration (store, actor, row, error))
    return FALSE;
  *id = row->record.id;
  return sw_dropper_editor_open (editor, *id, error);
}

static gboolean
sw_dropper_editor_is_changed (SwEditor *editor)
{
  SwDropperEditor *self = SW_DROPPER_EDITOR (editor);

  return sw_form_is_changed (self->form) || sw_form_list_is_changed (self->weighings);
}

/* Too few weighings is a fault of none of them. */
static gboolean
sw_dropper_editor_show_error (SwEditor *editor, const GError *error)
{
  SwDropperEditor *self = SW_DROPPER_EDITOR (editor);

  return sw_form_show_error (self->form, error) || sw_form_list_show_error (self->weighings, error);
}

static void
sw_dropper_editor_refresh (SwEditor *editor)
{
  sw_form_refresh (SW_DROPPER_EDITOR (editor)->form);
}

static void
sw_dropper_editor_focus (SwEditor *editor, const char *field)
{
  sw_form_focus (SW_DROPPER_EDITOR (editor)->form, field);
}

static void
sw_dropper_editor_finalize (GObject *object)
{
  g_clear_pointer (&SW_DROPPER_EDITOR (object)->row, sw_calibration_free);
  G_OBJECT_CLASS (sw_dropper_editor_parent_class)->finalize (object);
}

static void
sw_dropper_editor_class_init (SwDropperEditorClass *klass)
{
  SwEditorClass *editor_class = SW_EDITOR_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = sw_dropper_editor_finalize;
  editor_class->open = sw_dropper_editor_open;
  editor_class->save = sw_dropper_editor_save;
  editor_class->is_changed = sw_dropper_editor_is_changed;
  editor_class->show_error = sw_dropper_editor_show_error;
  editor_class->refresh = sw_dropper_editor_refresh;
  editor_class->focus = sw_dropper_editor_focus;
}

static void
sw_dropper_editor_init (SwDropperEditor *self)
{
}

static GtkLabel *
add_label (GtkBox *box, const char *name, const char *class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_widget_set_name (label, name);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, class);
  gtk_widget_set_visible (label, FALSE);
  gtk_box_append (box, label);
  return GTK_LABEL (label);
}

static GtkWidget *
build_dropper (SwContext *context)
{
  SwDropperEditor *self = g_object_new (SW_TYPE_DROPPER_EDITOR, NULL);
  GtkBox *box = sw_editor_get_box (SW_EDITOR (self));
  const char *note = sw_tr (
      sw_context_get_wording (context),
      N_ ("Drops of water prove nothing about another liquid: an organic one gives smaller drops. "
          "Measure with the liquid that this dropper delivers."));

  sw_editor_set_context (SW_EDITOR (self), context);
  gtk_box_append (box, sw_setup_note_new (note));
  self->form = sw_form_new (context, sw_dropper_fields, SW_N_DROPPER_FIELDS, 2);
  self->weighings = sw_form_list_new (context, &sw_dropper_weighings);
  gtk_box_append (box, GTK_WIDGET (self->form));
  gtk_box_append (box, GTK_WIDGET (self->weighings));
  self->result = add_label (box, "result", "sw-strong");
  self->outlier = add_label (box, "outlier", "sw-wrong");
  g_signal_connect_object (self->form, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->weighings, "changed", G_CALLBACK (changed_cb), self,
                           G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

/* ---- the section ---- */

static gboolean
describe_dropper (SwContext *context, gint64 id, SwSetupItem *item, GError **error)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwCalibration) row = sw_calibration_load (sw_context_get_store (context), id, error);

  if (row == NULL)
    return FALSE;
  sw_setup_item_take_title (item, g_strdup (row->dropper));
  sw_setup_item_take_detail (item, sw_choice_product (context, row->product));
  sw_setup_item_take_state (item, sw_say_dropper_state (wording, row->drop.value, row->weighings));
  return TRUE;
}

const SwSectionSpec sw_section_droppers = {
  .name = "droppers",
  .title = N_ ("Droppers"),
  .add_label = N_ ("_Add Drop Volume"),
  .new_title = N_ ("New Drop Volume"),
  .empty = N_ ("No drop volume yet. Without the volume of one drop of the titrant no test can say "
               "how much acid there is. Add it as you know it, or weigh drops."),
  .void_hint = N_ ("Nothing is deleted: tests keep the drop volume they were made with. The newest "
                   "other one of this liquid takes its place."),
  .table = SW_TABLE_CALIBRATION,
  .editor = build_dropper,
  .describe = describe_dropper,
};
