/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The form page of a record that is one table of fields.
 *
 * Invariant: record is what the form was loaded from and is never written to; what is saved is a
 * copy with the form's fields put in, so that a refused save leaves nothing half done.
 */
#include "app/setup/record-editor.h"

#include "app/setup/form.h"
#include "app/widgets/caution.h"

struct _SwRecordEditor
{
  SwEditor parent_instance;

  SwForm *form;             /* Borrowed: in the box */
  GtkWidget *extra;         /* Borrowed: in the box, or NULL */
  gpointer record;          /* Owned */
  const SwRecordSpec *spec; /* Borrowed, static */
};

G_DEFINE_FINAL_TYPE (SwRecordEditor, sw_record_editor, SW_TYPE_EDITOR)

static void
take_record (SwRecordEditor *self, gpointer record)
{
  if (self->record != NULL)
    self->spec->ops->free (self->record);
  self->record = record;
}

static void
show_record (SwRecordEditor *self)
{
  sw_form_load (self->form, self->record);
  if (self->extra != NULL)
    self->spec->show_extra (self->extra, self->record);
}

static gboolean
sw_record_editor_open (SwEditor *editor, gint64 id, GError **error)
{
  SwRecordEditor *self = SW_RECORD_EDITOR (editor);
  SwContext *context = sw_editor_get_context (editor);
  const SwRecordOps *ops = self->spec->ops;
  gpointer record
      = id != 0 ? ops->load (sw_context_get_store (context), id, error) : ops->create ();

  if (record == NULL)
    return FALSE;
  if (id == 0 && self->spec->prepare != NULL)
    self->spec->prepare (context, record);
  take_record (self, record);
  show_record (self);
  return TRUE;
}

static gboolean
sw_record_editor_save (SwEditor *editor, const SwActor *actor, gint64 *id, GError **error)
{
  SwRecordEditor *self = SW_RECORD_EDITOR (editor);
  gpointer record = self->spec->ops->copy (self->record);

  if (!sw_form_save (self->form, record)
      || !self->spec->save (sw_editor_get_context (editor), actor, record, error))
    {
      self->spec->ops->free (record);
      return FALSE;
    }
  *id = ((SwRecord *)record)->id;
  take_record (self, record);
  show_record (self);
  return TRUE;
}

static gboolean
sw_record_editor_is_changed (SwEditor *editor)
{
  return sw_form_is_changed (SW_RECORD_EDITOR (editor)->form);
}

static gboolean
sw_record_editor_amends (SwEditor *editor)
{
  SwRecordEditor *self = SW_RECORD_EDITOR (editor);

  if (self->spec->is_blank != NULL && self->spec->is_blank (self->record))
    return FALSE;
  return sw_editor_get_id (editor) != 0;
}

static gboolean
sw_record_editor_show_error (SwEditor *editor, const GError *error)
{
  return sw_form_show_error (SW_RECORD_EDITOR (editor)->form, error);
}

static void
sw_record_editor_refresh (SwEditor *editor)
{
  sw_form_refresh (SW_RECORD_EDITOR (editor)->form);
}

static void
sw_record_editor_focus (SwEditor *editor, const char *field)
{
  sw_form_focus (SW_RECORD_EDITOR (editor)->form, field);
}

static void
sw_record_editor_finalize (GObject *object)
{
  take_record (SW_RECORD_EDITOR (object), NULL);
  G_OBJECT_CLASS (sw_record_editor_parent_class)->finalize (object);
}

static void
sw_record_editor_class_init (SwRecordEditorClass *klass)
{
  SwEditorClass *editor_class = SW_EDITOR_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = sw_record_editor_finalize;
  editor_class->open = sw_record_editor_open;
  editor_class->save = sw_record_editor_save;
  editor_class->is_changed = sw_record_editor_is_changed;
  editor_class->amends = sw_record_editor_amends;
  editor_class->show_error = sw_record_editor_show_error;
  editor_class->refresh = sw_record_editor_refresh;
  editor_class->focus = sw_record_editor_focus;
}

static void
sw_record_editor_init (SwRecordEditor *self)
{
}

GtkWidget *
sw_setup_note_new (const char *text)
{
  GtkWidget *note = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (note), TRUE);
  gtk_label_set_xalign (GTK_LABEL (note), 0);
  gtk_widget_add_css_class (note, "sw-dim");
  return note;
}

static void
add_notes (SwRecordEditor *self, SwContext *context)
{
  const SwWording *wording = sw_context_get_wording (context);
  GtkBox *box = sw_editor_get_box (SW_EDITOR (self));

  if (self->spec->note != NULL)
    gtk_box_append (box, sw_setup_note_new (sw_tr (wording, self->spec->note)));
  if (self->spec->defers)
    {
      GtkWidget *bar = sw_caution_bar_new ();

      sw_caution_bar_set (SW_CAUTION_BAR (bar), wording, SW_CAUTION_DEFER);
      gtk_box_append (box, bar);
    }
}

GtkWidget *
sw_record_editor_new (SwContext *context, const SwRecordSpec *spec)
{
  SwRecordEditor *self = g_object_new (SW_TYPE_RECORD_EDITOR, NULL);

  self->spec = spec;
  sw_editor_set_context (SW_EDITOR (self), context);
  add_notes (self, context);
  self->form = sw_form_new (context, spec->fields, spec->n_fields, 2);
  g_signal_connect_object (self->form, "changed", G_CALLBACK (sw_editor_changed), self,
                           G_CONNECT_SWAPPED);
  gtk_box_append (sw_editor_get_box (SW_EDITOR (self)), GTK_WIDGET (self->form));
  if (spec->extra != NULL)
    {
      self->extra = spec->extra (context);
      gtk_box_append (sw_editor_get_box (SW_EDITOR (self)), self->extra);
    }
  return GTK_WIDGET (self);
}
