/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amending and voiding.
 *
 * Invariant: record is what the form was loaded from and is never written to; what is saved is a
 * copy with the form's fields put in, so that a refused save leaves nothing half done. spec is NULL
 * exactly while a record is to be taken out of use.
 */
#include "app/records/amend-page.h"

#include <glib/gi18n.h>

#include "app/plant-words.h"
#include "app/records/amend-forms.h"
#include "app/records/record-words.h"
#include "app/setup/form.h"
#include "app/test/error-line.h"
#include "app/test/reason-row.h"
#include "app/window.h"
#include "workflow/amend.h"
#include "workflow/guided.h"

struct _SwAmendPage
{
  GtkWidget parent_instance;

  /* Template children */
  GtkLabel *title;
  GtkLabel *hint;
  GtkBox *box;
  SwReasonRow *reason;
  SwErrorLine *wrong;
  GtkButton *save;

  SwContext *context;      /* Owned */
  gpointer record;         /* Owned: by spec->ops; NULL while voiding */
  SwForm *form;            /* Borrowed: in the box; NULL while voiding */
  const SwAmendSpec *spec; /* Borrowed, static */
  SwTable table;
  gint64 id;
};

static guint signal_leave;

G_DEFINE_FINAL_TYPE (SwAmendPage, sw_amend_page, GTK_TYPE_WIDGET)

static const SwWording *
wording_of (SwAmendPage *self)
{
  return sw_context_get_wording (self->context);
}

static SwStore *
store_of (SwAmendPage *self)
{
  return sw_context_get_store (self->context);
}

/* ---- what the page shows ---- */

static void
drop (SwAmendPage *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->box))) != NULL)
    gtk_box_remove (self->box, child);
  if (self->record != NULL)
    self->spec->ops->free (self->record);
  self->record = NULL;
  self->form = NULL;
  self->spec = NULL;
}

/* Title, hint and button; the record is named as its own page names it. */
static void
show_words (SwAmendPage *self, const char *hint, const char *button, SwReasonKind reasons)
{
  g_autoptr (SwBrowseRow) row = sw_browse_load (store_of (self), self->table, self->id, NULL);
  g_autofree char *title = row != NULL ? sw_record_words_title (self->context, row) : NULL;

  gtk_label_set_text (self->title, title != NULL ? title : "");
  gtk_label_set_text (self->hint, sw_tr (wording_of (self), hint));
  gtk_button_set_label (self->save, sw_tr (wording_of (self), button));
  sw_reason_row_fill (self->reason, wording_of (self), reasons);
  sw_reason_row_set_error (self->reason, NULL);
  sw_error_line_set (self->wrong, NULL);
}

static void
show_form (SwAmendPage *self)
{
  g_autoptr (GError) error = NULL;

  self->record = self->spec->ops->load (store_of (self), self->id, &error);
  if (self->record == NULL)
    {
      g_autofree char *words = sw_plant_say_error (wording_of (self), error);
      sw_error_line_set (self->wrong, words);
      return;
    }
  self->form = sw_form_new (self->context, self->spec->fields, self->spec->n_fields, 2);
  gtk_box_append (self->box, GTK_WIDGET (self->form));
  sw_form_load (self->form, self->record);
}

/* A fault stands at its field; what no field is about stands at the foot. */
static void
show_error (SwAmendPage *self, const GError *error)
{
  const SwFault *fault = sw_fault_get (error);
  g_autofree char *words = sw_plant_say_error (wording_of (self), error);

  if (fault != NULL && fault->quantity == SW_QUANTITY_REASON
      && sw_reason_row_get_text (self->reason) == NULL)
    sw_reason_row_set_error (self->reason, words);
  else if (self->form == NULL || !sw_form_show_error (self->form, error))
    sw_error_line_set (self->wrong, words);
}

/* ---- what the person does ---- */

static void
leave (SwAmendPage *self)
{
  g_signal_emit (self, signal_leave, 0);
}

static void
toast (SwAmendPage *self, const char *text)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (window != NULL)
    sw_window_toast (window, text);
}

static void
finish (SwAmendPage *self, const char *done)
{
  g_autofree char *words = g_strdup (sw_tr (wording_of (self), done));

  leave (self);
  sw_context_changed (self->context);
  toast (self, words);
}

/* NULL when none is given; then the row says so. */
static const SwActor *
get_actor (SwAmendPage *self)
{
  const char *reason = sw_reason_row_get_text (self->reason);

  sw_reason_row_set_error (self->reason, NULL);
  if (reason != NULL)
    return sw_context_get_actor_because (self->context, reason);
  sw_reason_row_set_error (self->reason,
                           sw_say_test_word (wording_of (self), SW_TEST_WORD_PICK_REASON));
  gtk_widget_grab_focus (GTK_WIDGET (self->reason));
  return NULL;
}

static gboolean
amend (SwAmendPage *self, GError **error)
{
  gpointer record = self->spec->ops->copy (self->record);
  const SwActor *actor = NULL;
  gboolean saved = FALSE;

  if (sw_form_save (self->form, record) && (actor = get_actor (self)) != NULL)
    saved = self->spec->amend (store_of (self), actor, record, error);
  self->spec->ops->free (record);
  return saved;
}

static gboolean
take_out (SwAmendPage *self, GError **error)
{
  const SwActor *actor = get_actor (self);

  return actor != NULL && sw_void_record (store_of (self), actor, self->table, self->id, error);
}

gboolean
sw_amend_page_save (SwAmendPage *self)
{
  g_return_val_if_fail (SW_IS_AMEND_PAGE (self), FALSE);

  g_autoptr (GError) error = NULL;
  gboolean voiding = self->spec == NULL;
  sw_error_line_set (self->wrong, NULL);
  if (!voiding && self->form == NULL)
    return FALSE;
  if (!voiding && !sw_form_is_changed (self->form))
    {
      sw_error_line_set (self->wrong, sw_tr (wording_of (self), "Nothing is changed yet."));
      return FALSE;
    }
  if (voiding ? take_out (self, &error) : amend (self, &error))
    {
      finish (self, voiding ? N_ ("The record is void. It stays, struck, with its reason.")
                            : N_ ("The record is amended. Its old values stay in its story."));
      return TRUE;
    }
  if (error != NULL)
    show_error (self, error);
  return FALSE;
}

static void
save_cb (GtkButton *button, SwAmendPage *self)
{
  sw_amend_page_save (self);
}

static void
cancel (GtkWidget *widget, const char *name, GVariant *parameter)
{
  leave (SW_AMEND_PAGE (widget));
}

/* ---- class ---- */

static gboolean
sw_amend_page_grab_focus (GtkWidget *widget)
{
  SwAmendPage *self = SW_AMEND_PAGE (widget);

  if (self->form == NULL)
    return gtk_widget_grab_focus (GTK_WIDGET (self->reason));
  sw_form_focus (self->form, NULL);
  return TRUE;
}

static void
sw_amend_page_dispose (GObject *object)
{
  SwAmendPage *self = SW_AMEND_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  if (self->context != NULL)
    drop (self);
  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_amend_page_parent_class)->dispose (object);
}

static void
sw_amend_page_class_init (SwAmendPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_amend_page_dispose;
  widget_class->grab_focus = sw_amend_page_grab_focus;
  signal_leave = g_signal_new ("leave", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                               NULL, G_TYPE_NONE, 0);
  g_type_ensure (SW_TYPE_ERROR_LINE);
  g_type_ensure (SW_TYPE_REASON_ROW);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/records/amend-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwAmendPage, title);
  gtk_widget_class_bind_template_child (widget_class, SwAmendPage, hint);
  gtk_widget_class_bind_template_child (widget_class, SwAmendPage, box);
  gtk_widget_class_bind_template_child (widget_class, SwAmendPage, reason);
  gtk_widget_class_bind_template_child (widget_class, SwAmendPage, wrong);
  gtk_widget_class_bind_template_child (widget_class, SwAmendPage, save);
  gtk_widget_class_bind_template_callback (widget_class, save_cb);
  gtk_widget_class_install_action (widget_class, "amend.cancel", NULL, cancel);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "amend.cancel", NULL);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_amend_page_init (SwAmendPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* ---- public ---- */

void
sw_amend_page_set_context (SwAmendPage *self, SwContext *context)
{
  g_return_if_fail (SW_IS_AMEND_PAGE (self) && self->context == NULL);
  self->context = g_object_ref (context);
}

void
sw_amend_page_open (SwAmendPage *self, SwTable table, gint64 id)
{
  g_return_if_fail (SW_IS_AMEND_PAGE (self) && sw_amend_spec_find (table) != NULL);

  drop (self);
  self->spec = sw_amend_spec_find (table);
  self->table = table;
  self->id = id;
  show_words (self,
              N_ ("The old values stay in the record's story, struck. Signatures and reviews of "
                  "what is changed are lost, and say so."),
              N_ ("_Amend"), SW_REASON_AMEND);
  show_form (self);
}

void
sw_amend_page_open_void (SwAmendPage *self, SwTable table, gint64 id)
{
  g_return_if_fail (SW_IS_AMEND_PAGE (self));

  drop (self);
  self->table = table;
  self->id = id;
  show_words (self,
              N_ ("Nothing is deleted: the record stays, struck, and counts no more. With a test "
                  "go its schedule decision and the doses that nobody added."),
              N_ ("_Void"), SW_REASON_VOID);
}
