/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The form page of a section.
 *
 * Invariants:
 *   1. The editor holds what was typed until another record is opened.
 *   2. A saved record is only written again with a reason.
 *   3. Save is shown exactly while the record may be written: the file is not read-only, the record
 *      is in use, and its section lets saved records change.
 */
#include "app/setup/form-page.h"

#include "app/plant-words.h"
#include "app/setup/plant-choices.h"
#include "app/setup/reason-box.h"
#include "app/setup/setup-guard.h"
#include "app/widgets/verdict.h"
#include "app/window.h"
#include "wording/sentence-setup.h"
#include "workflow/amend.h"

#define SITE_ROW 1

struct _SwFormPage
{
  GtkWidget parent_instance;

  /* Template children */
  GtkLabel *title;
  GtkButton *cancel;
  GtkButton *save;
  GtkWidget *notice_box;
  GtkWidget *notice_mark;
  GtkLabel *notice;
  GtkBox *box;

  SwContext *context; /* Owned */

  SwEditor *editor;          /* Borrowed: in the box */
  SwReasonBox *reason;       /* Borrowed: in the box; why a saved record is changed */
  SwReasonBox *leave;        /* Borrowed: in the box; why it is taken out of use */
  const SwSectionSpec *spec; /* Borrowed, static */
  gboolean out_of_use;
};

enum
{
  SIGNAL_LEAVE,
  SIGNAL_OPEN_OTHER,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwFormPage, sw_form_page, GTK_TYPE_WIDGET)

static const SwWording *
wording_of (SwFormPage *self)
{
  return sw_context_get_wording (self->context);
}

static SwStore *
store_of (SwFormPage *self)
{
  return sw_context_get_store (self->context);
}

/* ---- what the page says ---- */

/* @text NULL takes the notice away. */
static void
show_notice (SwFormPage *self, SwVerdictKind mark, const char *text)
{
  gtk_label_set_text (self->notice, text != NULL ? text : "");
  sw_verdict_set_kind (SW_VERDICT (self->notice_mark), mark);
  gtk_widget_set_visible (self->notice_box, text != NULL);
}

static void
show_error (SwFormPage *self, const GError *error)
{
  g_autofree char *words = sw_plant_say_error (wording_of (self), error);

  show_notice (self, SW_VERDICT_MISTAKE, words);
}

/* With a way back where a record was @added. */
static void
toast (SwFormPage *self, const char *text, gboolean added)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (window != NULL && added)
    sw_window_toast_added (window, text, self->spec->table, sw_editor_get_id (self->editor));
  else if (window != NULL)
    sw_window_toast (window, text);
}

static void
show_title (SwFormPage *self, gint64 id)
{
  g_autofree char *title = NULL;

  if (id != 0 && self->spec->describe != NULL)
    title = sw_setup_list_dup_title (self->context, self->spec->describe, id);
  gtk_label_set_text (self->title,
                      title != NULL ? title : sw_tr (wording_of (self), self->spec->new_title));
}

/* There is something to cancel only while something new is typed. */
static void
show_way_out (SwFormPage *self)
{
  gboolean draft = sw_editor_get_id (self->editor) == 0 || sw_editor_is_changed (self->editor);

  gtk_button_set_label (self->cancel,
                        sw_tr (wording_of (self), draft ? N_ ("_Cancel") : N_ ("_Back")));
}

/* What the page offers for the record that is open. */
static void
show_state (SwFormPage *self)
{
  gint64 id = sw_editor_get_id (self->editor);
  gboolean saved = id != 0, fixed = saved && self->spec->fixed;
  gboolean read_only = sw_store_is_read_only (store_of (self));
  gboolean writable = !read_only && !self->out_of_use && !fixed;

  show_title (self, id);
  gtk_widget_set_visible (GTK_WIDGET (self->save), writable);
  gtk_widget_set_visible (GTK_WIDGET (self->cancel), !self->spec->single);
  show_way_out (self);
  gtk_widget_set_visible (GTK_WIDGET (self->reason),
                          writable && saved
                              && (!self->spec->single || sw_editor_amends (self->editor)));
  gtk_widget_set_visible (GTK_WIDGET (self->leave),
                          saved && !read_only && !self->out_of_use && !self->spec->single);
  gtk_widget_set_sensitive (GTK_WIDGET (self->editor), writable || fixed);
  sw_reason_box_reset (self->reason);
  sw_reason_box_reset (self->leave);
  show_notice (self, SW_VERDICT_UNKNOWN, NULL);
  if (self->out_of_use)
    show_notice (self, SW_VERDICT_UNKNOWN, sw_say_out_of_use (wording_of (self)));
  else if (read_only)
    show_notice (self, SW_VERDICT_UNKNOWN, sw_say_setup_read_only (wording_of (self)));
}

/* ---- what the person does ---- */

static void
leave (SwFormPage *self)
{
  g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
}

static gboolean
may_write (SwFormPage *self)
{
  const char *why;

  if (sw_setup_may_write (GTK_WIDGET (self), self->context, self->spec->table, &why))
    return TRUE;
  if (why != NULL)
    show_notice (self, SW_VERDICT_MISTAKE, why);
  return FALSE;
}

/* The actor with the reason given; NULL when one is needed and missing. */
static const SwActor *
get_actor (SwFormPage *self, SwReasonBox *box)
{
  g_autofree char *reason = NULL;

  if (box == NULL)
    return sw_context_get_actor (self->context);
  reason = sw_reason_box_read (box);
  return reason != NULL ? sw_context_get_actor_because (self->context, reason) : NULL;
}

/* A form that is left after a save offers to undo what it added; one that stays can go on. */
static void
finish_save (SwFormPage *self, gboolean added)
{
  gboolean leaves = !self->spec->stays && !self->spec->single;

  sw_context_changed (self->context);
  toast (self, sw_say_saved (wording_of (self)), added && leaves);
  show_state (self);
  if (leaves)
    leave (self);
}

gboolean
sw_form_page_save (SwFormPage *self)
{
  g_autoptr (GError) error = NULL;
  const SwActor *actor;
  gint64 id;

  g_return_val_if_fail (SW_IS_FORM_PAGE (self), FALSE);
  if (!gtk_widget_get_visible (GTK_WIDGET (self->save)))
    return FALSE;
  id = sw_editor_get_id (self->editor);
  if (id != 0 && !sw_editor_is_changed (self->editor))
    {
      leave (self);
      return TRUE;
    }
  show_notice (self, SW_VERDICT_UNKNOWN, NULL);
  if (!may_write (self))
    return FALSE;
  actor = get_actor (self, sw_editor_amends (self->editor) ? self->reason : NULL);
  if (actor == NULL)
    return FALSE;
  if (sw_editor_save (self->editor, actor, &error))
    {
      finish_save (self, id == 0);
      return TRUE;
    }
  if (sw_editor_get_id (self->editor) != id)
    {
      sw_context_changed (self->context);
      show_state (self);
    }
  if (error != NULL && !sw_editor_show_error (self->editor, error))
    show_error (self, error);
  return FALSE;
}

static void
confirmed_cb (SwFormPage *self)
{
  g_autoptr (GError) error = NULL;
  gint64 id = sw_editor_get_id (self->editor);
  const SwActor *actor;

  if (!may_write (self) || (actor = get_actor (self, self->leave)) == NULL)
    return;
  if (!sw_void_record (store_of (self), actor, self->spec->table, id, &error))
    {
      show_error (self, error);
      return;
    }
  sw_form_page_open (self, id);
  sw_context_changed (self->context);
  toast (self, sw_say_out_of_use (wording_of (self)), FALSE);
  leave (self);
}

static void
save_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_form_page_save (SW_FORM_PAGE (widget));
}

static void
cancel_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  leave (SW_FORM_PAGE (widget));
}

static void
open_other_cb (SwFormPage *self, const char *section, gint64 id, const char *field)
{
  g_signal_emit (self, signals[SIGNAL_OPEN_OTHER], 0, section, id, field);
}

/* ---- class ---- */

static void
sw_form_page_dispose (GObject *object)
{
  SwFormPage *self = SW_FORM_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_form_page_parent_class)->dispose (object);
}

static void
add_signals (GType type)
{
  signals[SIGNAL_LEAVE]
      = g_signal_new ("leave", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_OPEN_OTHER]
      = g_signal_new ("open-other", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3,
                      G_TYPE_STRING, G_TYPE_INT64, G_TYPE_STRING);
}

static void
sw_form_page_class_init (SwFormPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_form_page_dispose;
  add_signals (G_TYPE_FROM_CLASS (klass));
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/setup/form-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwFormPage, title);
  gtk_widget_class_bind_template_child (widget_class, SwFormPage, cancel);
  gtk_widget_class_bind_template_child (widget_class, SwFormPage, save);
  gtk_widget_class_bind_template_child (widget_class, SwFormPage, notice_box);
  gtk_widget_class_bind_template_child (widget_class, SwFormPage, notice_mark);
  gtk_widget_class_bind_template_child (widget_class, SwFormPage, notice);
  gtk_widget_class_bind_template_child (widget_class, SwFormPage, box);
  gtk_widget_class_install_action (widget_class, "form.save", NULL, save_cb);
  gtk_widget_class_install_action (widget_class, "form.cancel", NULL, cancel_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_s, GDK_CONTROL_MASK, "form.save",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "form.cancel", NULL);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_form_page_init (SwFormPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
add_boxes (SwFormPage *self)
{
  const char *hint = self->spec->void_hint != NULL ? self->spec->void_hint : "";

  self->editor = SW_EDITOR (self->spec->editor (self->context));
  self->reason = SW_REASON_BOX (sw_reason_box_new_amend (self->context));
  self->leave = SW_REASON_BOX (sw_reason_box_new_void (self->context, hint));
  gtk_box_append (self->box, GTK_WIDGET (self->editor));
  gtk_box_append (self->box, GTK_WIDGET (self->reason));
  gtk_box_append (self->box, GTK_WIDGET (self->leave));
  g_signal_connect_object (self->leave, "confirmed", G_CALLBACK (confirmed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->editor, "changed", G_CALLBACK (show_way_out), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->editor, "open-other", G_CALLBACK (open_other_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->context, "changed", G_CALLBACK (sw_editor_refresh), self->editor,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
sw_form_page_new (SwContext *context, const SwSectionSpec *spec)
{
  SwFormPage *self = g_object_new (SW_TYPE_FORM_PAGE, NULL);

  self->context = g_object_ref (context);
  self->spec = spec;
  gtk_button_set_label (self->save, sw_tr (wording_of (self), N_ ("_Save")));
  add_boxes (self);
  sw_form_page_open (self, spec->single ? SITE_ROW : 0);
  return GTK_WIDGET (self);
}

void
sw_form_page_open (SwFormPage *self, gint64 id)
{
  g_autoptr (GError) error = NULL;

  g_return_if_fail (SW_IS_FORM_PAGE (self));
  if (!sw_editor_open (self->editor, id, &error))
    {
      show_error (self, error);
      return;
    }
  self->out_of_use = id != 0 && sw_is_out_of_use (self->context, self->spec->table, id);
  show_state (self);
}

gboolean
sw_form_page_is_changed (SwFormPage *self)
{
  g_return_val_if_fail (SW_IS_FORM_PAGE (self), FALSE);
  return sw_editor_is_changed (self->editor);
}

void
sw_form_page_focus (SwFormPage *self, const char *field)
{
  g_return_if_fail (SW_IS_FORM_PAGE (self));
  sw_editor_focus (self->editor, field);
  if (gtk_widget_get_focus_child (GTK_WIDGET (self->box)) == NULL)
    gtk_widget_grab_focus (GTK_WIDGET (self->cancel));
}

const char *
sw_form_page_get_title (SwFormPage *self)
{
  g_return_val_if_fail (SW_IS_FORM_PAGE (self), NULL);
  return gtk_label_get_text (self->title);
}

SwEditor *
sw_form_page_get_editor (SwFormPage *self)
{
  g_return_val_if_fail (SW_IS_FORM_PAGE (self), NULL);
  return self->editor;
}
