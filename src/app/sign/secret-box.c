/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The box that asks for a new secret.
 *
 * Invariants:
 *   1. callback is set until it was called, which happens once.
 *   2. Nothing is set unless both new ones are the same.
 */
#include "app/sign/secret-box-private.h"

#include "app/plant-words.h"
#include "app/sign/modal.h"
#include "app/sign/person-row.h"
#include "app/sign/secret-row.h"
#include "app/sign/secret-words.h"
#include "app/widgets/verdict.h"
#include "calc/fault.h"
#include "workflow/guided.h"

struct _SwSecretBox
{
  GtkWidget parent_instance;

  SwContext *context; /* Owned */

  /* Template children */
  GtkWidget *layout;
  GtkLabel *title;
  GtkLabel *text;
  GtkWidget *people;
  GtkLabel *people_title;
  GtkListBox *list;
  SwSecretRow *old;
  SwSecretRow *secret;
  SwSecretRow *again;
  GtkWidget *trouble_box;
  GtkLabel *trouble;
  GtkLabel *note;
  GtkButton *cancel;
  GtkButton *set;

  SwSecretWhy why;
  gint64 person;
  gboolean asks_old;

  SwSignedCallback callback;
  gpointer data;
};

G_DEFINE_FINAL_TYPE (SwSecretBox, sw_secret_box, GTK_TYPE_WIDGET)

static const SwWording *
get_wording (SwSecretBox *self)
{
  return sw_context_get_wording (self->context);
}

static const char *
get_word (SwSecretBox *self, SwSignWord word)
{
  return sw_say_sign_word (get_wording (self), word);
}

static SwStore *
get_store (SwSecretBox *self)
{
  return sw_context_get_store (self->context);
}

static gboolean
has_secret (SwSecretBox *self)
{
  g_autoptr (SwPerson) person = sw_person_load (get_store (self), self->person, NULL);

  return person != NULL && person->secret != NULL;
}

/* ---- the answer ---- */

static void
settle (SwSecretBox *self, const SwSigner *signer)
{
  SwSignedCallback callback = g_steal_pointer (&self->callback);

  if (callback != NULL)
    callback (signer, self->data);
}

static void
finish (SwSecretBox *self)
{
  const SwSigner signer = { self->person, SW_IDENTIFIED_SECRET };
  SwSignedCallback callback = g_steal_pointer (&self->callback);
  SwModal *modal = sw_modal_of (GTK_WIDGET (self));

  g_object_ref (self);
  sw_secret_row_wipe (self->old);
  sw_secret_row_wipe (self->secret);
  sw_secret_row_wipe (self->again);
  if (modal != NULL)
    sw_modal_close (modal);
  if (callback != NULL)
    callback (self->why != SW_SECRET_OTHER ? &signer : NULL, self->data);
  sw_context_changed (self->context);
  g_object_unref (self);
}

/* ---- checking ---- */

static void
show_trouble (SwSecretBox *self, const char *words)
{
  gtk_label_set_text (self->trouble, words != NULL ? words : "");
  gtk_widget_set_visible (self->trouble_box, words != NULL);
}

static void
refuse_at (SwSecretRow *row, const char *words)
{
  sw_secret_row_set_error (row, words);
  gtk_widget_grab_focus (GTK_WIDGET (row));
}

/* What can be said before the file is asked. */
static gboolean
check_typed (SwSecretBox *self)
{
  const char *old = sw_secret_row_get_text (self->old);
  const char *secret = sw_secret_row_get_text (self->secret);
  const char *again = sw_secret_row_get_text (self->again);

  if (self->asks_old && *old == '\0')
    refuse_at (self->old, get_word (self, SW_SIGN_WORD_TYPE_SECRET));
  else if (*secret == '\0')
    refuse_at (self->secret, get_word (self, SW_SIGN_WORD_TYPE_SECRET));
  else if (self->asks_old && g_str_equal (old, secret))
    refuse_at (self->secret, get_word (self, SW_SIGN_WORD_NOT_CHANGED));
  else if (!g_str_equal (secret, again))
    refuse_at (self->again, get_word (self, SW_SIGN_WORD_NOT_THE_SAME));
  else
    return TRUE;
  return FALSE;
}

/* A fault is about the new secret; a wrong one, or a wait, about the old. */
static void
show_error (SwSecretBox *self, const GError *error)
{
  g_autofree char *words = sw_plant_say_error (get_wording (self), error);
  const SwFact *fact = sw_workflow_error_get_fact (error);

  if (sw_fault_get (error) != NULL)
    refuse_at (self->secret, words);
  else if (self->asks_old && fact != NULL
           && (fact->code == SW_FACT_WRONG_SECRET || fact->code == SW_FACT_WAIT))
    {
      sw_secret_row_refuse (self->old, self->context, self->person, error);
      gtk_widget_grab_focus (GTK_WIDGET (self->old));
    }
  else
    show_trouble (self, words);
}

/* Who sets it: the first one is set by somebody whom nothing proves, and the journal says so. */
static gboolean
get_actor (SwSecretBox *self, SwActor *actor, GError **error)
{
  SwSigner signer = { self->person, SW_IDENTIFIED_SELECTED };

  *actor = *sw_context_get_actor (self->context);
  if (self->why == SW_SECRET_OWN || self->why == SW_SECRET_OTHER)
    return TRUE;
  if (self->why == SW_SECRET_GIVEN
      && !sw_sign_in (get_store (self), self->person, sw_secret_row_get_text (self->old), &signer,
                      error))
    return FALSE;
  actor->person = signer.person;
  actor->identified = signer.identified;
  return TRUE;
}

/* A first secret is used at once, so that the file says who began the session. */
static gboolean
sign_in_first (SwSecretBox *self, GError **error)
{
  SwSigner signer;

  return self->why != SW_SECRET_FIRST
         || sw_sign_in (get_store (self), self->person, sw_secret_row_get_text (self->secret),
                        &signer, error);
}

static void
set_cb (SwSecretBox *self)
{
  g_autoptr (GError) error = NULL;
  SwActor actor;
  const char *old = self->asks_old ? sw_secret_row_get_text (self->old) : NULL;

  show_trouble (self, NULL);
  if (sw_secret_row_is_waiting (self->old) || !check_typed (self))
    return;
  if (get_actor (self, &actor, &error)
      && sw_secret_set (get_store (self), &actor, self->person, old,
                        sw_secret_row_get_text (self->secret), &error)
      && sign_in_first (self, &error))
    finish (self);
  else
    show_error (self, error);
}

static void
cancel_cb (SwSecretBox *self)
{
  SwModal *modal = sw_modal_of (GTK_WIDGET (self));

  if (modal != NULL)
    sw_modal_give_up (modal);
}

static void
given_up_cb (SwSecretBox *self)
{
  settle (self, NULL);
}

/* Enter goes to the next field, at the last one it sets. */
static void
activated_cb (SwSecretRow *row, SwSecretBox *self)
{
  if (row == self->old)
    gtk_widget_grab_focus (GTK_WIDGET (self->secret));
  else if (row == self->secret)
    gtk_widget_grab_focus (GTK_WIDGET (self->again));
  else
    set_cb (self);
}

/* ---- who ---- */

static void
row_selected_cb (GtkListBox *list, GtkListBoxRow *row, SwSecretBox *self)
{
  self->person = sw_person_row_get_id (row);
  show_trouble (self, NULL);
}

static void
fill_list (SwSecretBox *self)
{
  g_autoptr (GArray) ids = sw_record_ids (get_store (self), SW_TABLE_PERSON, NULL, 0, NULL);
  guint n = 0;

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwPerson) person
          = sw_person_load (get_store (self), g_array_index (ids, gint64, i), NULL);

      if (person == NULL || !person->active || person->role != SW_ROLE_ADMINISTRATOR)
        continue;
      gtk_list_box_append (self->list, sw_person_row_new (self->context, person, FALSE));
      n++;
    }
  gtk_list_box_select_row (self->list, gtk_list_box_get_row_at_index (self->list, 0));
  gtk_widget_set_sensitive (GTK_WIDGET (self->set), n > 0);
  if (n == 0)
    show_trouble (self, get_word (self, SW_SIGN_WORD_NO_ADMINISTRATOR));
}

/* ---- words ---- */

static void
show_words (SwSecretBox *self)
{
  g_autofree char *title
      = sw_secret_words_title (self->context, self->why, self->person, self->asks_old);
  g_autofree char *text = sw_secret_words_text (self->context, self->why, self->person);

  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->text, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->text), text != NULL);
  gtk_label_set_text (self->people_title, get_word (self, SW_SIGN_WORD_WHO_SETS));
  sw_secret_row_set_label (self->old,
                           get_word (self, self->why == SW_SECRET_GIVEN ? SW_SIGN_WORD_GIVEN_SECRET
                                                                        : SW_SIGN_WORD_OLD_SECRET));
  sw_secret_row_set_label (self->secret, get_word (self, SW_SIGN_WORD_NEW_SECRET));
  sw_secret_row_set_label (self->again, get_word (self, SW_SIGN_WORD_AGAIN));
  g_object_set (self->secret, "hint", get_word (self, SW_SIGN_WORD_SECRET_RULE), NULL);
  gtk_label_set_text (self->note, get_word (self, SW_SIGN_WORD_LOST_SECRET));
  gtk_widget_set_visible (GTK_WIDGET (self->note), self->why == SW_SECRET_OWN);
  gtk_button_set_label (self->cancel, get_word (self, SW_SIGN_WORD_CANCEL));
  gtk_button_set_label (self->set, get_word (self, SW_SIGN_WORD_SET_SECRET));
}

/* ---- class ---- */

static void
sw_secret_box_dispose (GObject *object)
{
  SwSecretBox *self = SW_SECRET_BOX (object);

  settle (self, NULL);
  g_clear_pointer (&self->layout, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_secret_box_parent_class)->dispose (object);
}

static void
sw_secret_box_class_init (SwSecretBoxClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_secret_box_dispose;
  g_type_ensure (SW_TYPE_SECRET_ROW);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/sign/secret-box.ui");
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, layout);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, title);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, text);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, people);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, people_title);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, list);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, old);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, secret);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, again);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, trouble_box);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, trouble);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, note);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, cancel);
  gtk_widget_class_bind_template_child (widget_class, SwSecretBox, set);
  gtk_widget_class_bind_template_callback (widget_class, set_cb);
  gtk_widget_class_bind_template_callback (widget_class, cancel_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_selected_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_secret_box_init (SwSecretBox *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_secret_ask (GtkWidget *near,
               SwContext *context,
               SwSecretWhy why,
               gint64 person,
               SwSignedCallback callback,
               gpointer data)
{
  g_return_if_fail (GTK_IS_WIDGET (near) && SW_IS_CONTEXT (context) && callback != NULL);

  SwSecretBox *self = g_object_new (SW_TYPE_SECRET_BOX, NULL);
  self->context = g_object_ref (context);
  self->why = why;
  self->person = person;
  self->asks_old = why == SW_SECRET_GIVEN || (why == SW_SECRET_OWN && has_secret (self));
  self->callback = callback;
  self->data = data;
  show_words (self);
  gtk_widget_set_visible (self->people, why == SW_SECRET_FIRST);
  gtk_widget_set_visible (GTK_WIDGET (self->old), self->asks_old);
  if (why == SW_SECRET_FIRST)
    fill_list (self);
  SwModal *modal = sw_modal_show (near, GTK_WIDGET (self));
  g_return_if_fail (modal != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (modal), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  gtk_label_get_text (self->title), -1);
  g_signal_connect_object (modal, "given-up", G_CALLBACK (given_up_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (context, "person-changed", G_CALLBACK (cancel_cb), self,
                           G_CONNECT_SWAPPED);
  if (self->asks_old)
    sw_secret_row_check_wait (self->old, context, person);
}
