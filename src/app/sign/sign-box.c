/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The box that asks for a signature, or for a secret to sign in with.
 *
 *   who signs is fixed, or picked in the list; then what is asked for follows from how the program
 *   can know them:
 *     with a secret     the secret, checked against the file
 *     by name           the initials
 *     no secret yet     nothing: it says why, and cannot be signed
 *     invented          nothing: one press
 *
 * Invariant: callback is set until it was called, which happens once: with a signer when the answer
 * was right, with NULL when the box went before.
 */
#include "app/sign/sign-box-private.h"

#include "app/sign/modal.h"
#include "app/sign/person-row.h"
#include "app/sign/secret-box.h"
#include "app/widgets/verdict.h"

G_DEFINE_FINAL_TYPE (SwSignBox, sw_sign_box, GTK_TYPE_WIDGET)

static const SwWording *
get_wording (SwSignBox *self)
{
  return sw_context_get_wording (self->context);
}

static const char *
get_word (SwSignBox *self, SwSignWord word)
{
  return sw_say_sign_word (get_wording (self), word);
}

static SwStore *
get_store (SwSignBox *self)
{
  return sw_context_get_store (self->context);
}

/* ---- the answer ---- */

static void
settle (SwSignBox *self, const SwSigner *signer)
{
  SwSignedCallback callback = g_steal_pointer (&self->callback);

  if (callback != NULL)
    callback (signer, self->data);
}

/* The box is gone before the caller goes on: what it does may bring the next one. */
static void
accept (SwSignBox *self, const SwSigner *signer)
{
  SwSignedCallback callback = g_steal_pointer (&self->callback);
  SwModal *modal = sw_modal_of (GTK_WIDGET (self));

  g_object_ref (self);
  sw_secret_row_wipe (self->secret);
  if (modal != NULL)
    sw_modal_close (modal);
  if (callback != NULL)
    callback (signer, self->data);
  g_object_unref (self);
}

void
sw_sign_box_show_trouble (SwSignBox *self, const char *words)
{
  gtk_label_set_text (self->trouble, words != NULL ? words : "");
  gtk_widget_set_visible (self->trouble_box, words != NULL);
}

static void
sign_cb (SwSignBox *self)
{
  SwSigner signer = { 0 };

  if (self->person != NULL && sw_sign_box_check (self, &signer))
    accept (self, &signer);
}

static void
cancel_cb (SwSignBox *self)
{
  SwModal *modal = sw_modal_of (GTK_WIDGET (self));

  if (modal != NULL)
    sw_modal_give_up (modal);
}

static void
given_up_cb (SwSignBox *self)
{
  settle (self, NULL);
}

/* ---- who ---- */

static void
show_refusal (SwSignBox *self)
{
  SwFact fact;
  g_autofree char *words = NULL;

  if (self->known != SW_KNOWN_NO_SECRET)
    {
      sw_sign_box_show_trouble (self, NULL);
      return;
    }
  fact = sw_fact_with_text (SW_FACT_NO_SECRET_YET, self->person->name);
  words = sw_say_fact (get_wording (self), &fact);
  sw_sign_box_show_trouble (self, words);
}

/* What is asked for, of the person picked. */
static void
show_person (SwSignBox *self)
{
  gboolean picked = self->person != NULL;
  gboolean secret = picked && self->known == SW_KNOWN_SECRET;
  gboolean name = picked && self->known == SW_KNOWN_NAME;
  g_autofree char *note = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->secret), secret);
  gtk_widget_set_visible (GTK_WIDGET (self->initials), name);
  gtk_widget_set_visible (GTK_WIDGET (self->note), picked && !self->signs_in);
  gtk_widget_set_sensitive (GTK_WIDGET (self->sign), picked && self->known != SW_KNOWN_NO_SECRET);
  if (!picked)
    return;
  note = sw_say_sign_note (get_wording (self), self->known, self->person->name);
  gtk_label_set_text (self->note, note);
  show_refusal (self);
  if (secret)
    sw_secret_row_check_wait (self->secret, self->context, self->person->record.id);
}

static void
set_person (SwSignBox *self, gint64 id)
{
  g_autofree char *secret = NULL;
  g_autofree char *initials = NULL;

  g_clear_pointer (&self->person, sw_person_free);
  sw_secret_row_wipe (self->secret);
  sw_form_row_set_text (self->initials, "");
  if (id != 0)
    self->person = sw_person_load (get_store (self), id, NULL);
  if (self->person != NULL)
    {
      self->known = sw_person_known (self->context, self->person);
      secret = sw_say_secret_of (get_wording (self), self->person->name);
      initials = sw_say_initials_of (get_wording (self), self->person->name);
      sw_secret_row_set_label (self->secret, secret);
      g_object_set (self->initials, "label", initials, NULL);
    }
  show_person (self);
}

static void
row_selected_cb (GtkListBox *list, GtkListBoxRow *row, SwSignBox *self)
{
  set_person (self, sw_person_row_get_id (row));
}

/* Enter on a name goes on to what is asked for. */
static void
row_activated_cb (GtkListBox *list, GtkListBoxRow *row, SwSignBox *self)
{
  if (gtk_widget_get_visible (GTK_WIDGET (self->secret)))
    gtk_widget_grab_focus (GTK_WIDGET (self->secret));
  else if (gtk_widget_is_sensitive (GTK_WIDGET (self->sign)))
    gtk_widget_grab_focus (GTK_WIDGET (self->sign));
}

static gboolean
may_be_picked (SwSignBox *self, const SwPerson *person)
{
  return person != NULL && person->active && person->record.id != self->not_person
         && (person->role == SW_ROLE_ADMINISTRATOR
             || (person->role == SW_ROLE_REVIEWER && self->right != SW_RIGHT_SET_UP));
}

/* Who is at the bench comes picked when they may sign, else the first: a list that gets the focus
 * picks one anyway, and none signs without their own secret. */
static void
fill_list (SwSignBox *self)
{
  g_autoptr (GArray) ids = sw_record_ids (get_store (self), SW_TABLE_PERSON, NULL, 0, NULL);
  GtkListBoxRow *best = NULL;
  guint n = 0;

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      g_autoptr (SwPerson) person = sw_person_load (get_store (self), id, NULL);
      GtkWidget *row;

      if (!may_be_picked (self, person))
        continue;
      row = sw_person_row_new (self->context, person, FALSE);
      gtk_list_box_append (self->list, row);
      if (n++ == 0 || id == sw_context_get_person (self->context))
        best = GTK_LIST_BOX_ROW (row);
    }
  if (n > 0)
    gtk_list_box_select_row (self->list, best);
  else
    sw_sign_box_show_trouble (self, get_word (self, SW_SIGN_WORD_NO_SIGNER));
}

/* ---- class ---- */

static void
sw_sign_box_dispose (GObject *object)
{
  SwSignBox *self = SW_SIGN_BOX (object);

  settle (self, NULL);
  g_clear_pointer (&self->layout, gtk_widget_unparent);
  g_clear_pointer (&self->person, sw_person_free);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_sign_box_parent_class)->dispose (object);
}

static void
sw_sign_box_class_init (SwSignBoxClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_sign_box_dispose;
  g_type_ensure (SW_TYPE_FORM_ROW);
  g_type_ensure (SW_TYPE_SECRET_ROW);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/sign/sign-box.ui");
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, layout);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, title);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, subject);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, people);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, people_title);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, list);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, secret);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, initials);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, trouble_box);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, trouble);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, note);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, cancel);
  gtk_widget_class_bind_template_child (widget_class, SwSignBox, sign);
  gtk_widget_class_bind_template_callback (widget_class, sign_cb);
  gtk_widget_class_bind_template_callback (widget_class, cancel_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_sign_box_init (SwSignBox *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (sw_form_row_get_entry (self->initials), "activate",
                            G_CALLBACK (sign_cb), self);
}

/* ---- public ---- */

static SwSignBox *
box_new (SwContext *context, SwSignedCallback callback, gpointer data)
{
  SwSignBox *self = g_object_new (SW_TYPE_SIGN_BOX, NULL);

  self->context = g_object_ref (context);
  self->callback = callback;
  self->data = data;
  gtk_label_set_text (self->people_title, get_word (self, SW_SIGN_WORD_WHO_SIGNS));
  gtk_button_set_label (self->cancel, get_word (self, SW_SIGN_WORD_CANCEL));
  return self;
}

static void
box_show (SwSignBox *self, GtkWidget *near)
{
  SwModal *modal = sw_modal_show (near, GTK_WIDGET (self));

  g_return_if_fail (modal != NULL);
  if (self->person != NULL && self->known == SW_KNOWN_SECRET)
    gtk_widget_grab_focus (GTK_WIDGET (self->secret));
  else if (self->person != NULL && self->known == SW_KNOWN_INVENTED)
    gtk_widget_grab_focus (GTK_WIDGET (self->sign));
  gtk_accessible_update_property (GTK_ACCESSIBLE (modal), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  gtk_label_get_text (self->title), -1);
  g_signal_connect_object (modal, "given-up", G_CALLBACK (given_up_cb), self, G_CONNECT_SWAPPED);
  /* Whoever works now may change under the box, as by the idle lock. */
  g_signal_connect_object (self->context, "person-changed", G_CALLBACK (cancel_cb), self,
                           G_CONNECT_SWAPPED);
}

void
sw_sign_ask (GtkWidget *near,
             SwContext *context,
             const SwSignRequest *request,
             SwSignedCallback callback,
             gpointer data)
{
  g_return_if_fail (GTK_IS_WIDGET (near) && SW_IS_CONTEXT (context) && request != NULL);
  g_return_if_fail (callback != NULL);

  SwSignBox *self = box_new (context, callback, data);
  self->right = request->meaning == SW_MEANING_PERFORMED ? SW_RIGHT_TEST : SW_RIGHT_REVIEW;
  self->not_person = request->not_person;
  gtk_label_set_text (self->title, sw_say_meaning (get_wording (self), request->meaning,
                                                   MAX (request->n_subjects, 1)));
  gtk_label_set_text (self->subject, request->subject);
  gtk_button_set_label (self->sign, get_word (self, SW_SIGN_WORD_SIGN));
  gtk_widget_set_visible (self->people, request->person == 0);
  set_person (self, request->person);
  if (request->person == 0)
    fill_list (self);
  box_show (self, near);
}

void
sw_sign_deed_ask (GtkWidget *near,
                  SwContext *context,
                  SwRight right,
                  const char *title,
                  const char *subject,
                  SwSignedCallback callback,
                  gpointer data)
{
  g_return_if_fail (GTK_IS_WIDGET (near) && SW_IS_CONTEXT (context) && callback != NULL);

  SwSignBox *self = box_new (context, callback, data);
  self->right = right;
  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->subject, subject);
  gtk_button_set_label (self->sign, get_word (self, SW_SIGN_WORD_SIGN));
  set_person (self, 0);
  fill_list (self);
  box_show (self, near);
}

void
sw_sign_in_ask (
    GtkWidget *near, SwContext *context, gint64 person, SwSignedCallback callback, gpointer data)
{
  g_autoptr (SwPerson) row = sw_person_load (sw_context_get_store (context), person, NULL);

  g_return_if_fail (GTK_IS_WIDGET (near) && callback != NULL);
  if (row != NULL && row->secret_given_by != 0)
    {
      sw_secret_ask (near, context, SW_SECRET_GIVEN, person, callback, data);
      return;
    }
  SwSignBox *self = box_new (context, callback, data);
  self->signs_in = TRUE;
  gtk_label_set_text (self->title, get_word (self, SW_SIGN_WORD_SIGN_IN));
  gtk_button_set_label (self->sign, get_word (self, SW_SIGN_WORD_SIGN_IN));
  gtk_widget_set_visible (GTK_WIDGET (self->subject), FALSE);
  gtk_widget_set_visible (self->people, FALSE);
  set_person (self, person);
  box_show (self, near);
}
