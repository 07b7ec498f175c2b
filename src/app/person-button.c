/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who works now.
 *
 *   nobody --picked by name-------------------> by name
 *          --picked, secret right-------------> signed in
 *   by name, signed in --Sign Out, idle lock, no longer active--> nobody
 *
 * The list is filled each time it opens: people change rarely, and no row can then be stale.
 */
#include "app/person-button.h"

#include "app/sign/person-row.h"
#include "app/sign/secret-box.h"
#include "app/widgets/verdict.h"
#include "app/window.h"
#include "wording/sentence.h"

struct _SwPersonButton
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;

  /* Template children */
  GtkMenuButton *button;
  GtkLabel *name;
  GtkLabel *way;
  GtkPopover *popover;
  GtkListBox *list;
  GtkWidget *why_box;
  GtkLabel *why;
  GtkLabel *proves;
  GtkButton *change;
  GtkWidget *sign_out;

  gboolean asking; /* the list closed because the secret is asked for */
};

enum
{
  SIGNAL_CLOSED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwPersonButton, sw_person_button, GTK_TYPE_WIDGET)

static gint64
get_person (SwPersonButton *self)
{
  return sw_context_get_person (self->context);
}

static SwIdentified
get_identified (SwPersonButton *self)
{
  return sw_context_get_actor (self->context)->identified;
}

/* ---- who works now ---- */

/* Somebody who is gone, or who was given a secret since they were picked by name, does not stay. */
static gboolean
may_stay (SwPersonButton *self, const SwPerson *person)
{
  return person != NULL && person->active && !person->record.voided
         && (get_identified (self) != SW_IDENTIFIED_SELECTED || person->secret == NULL);
}

/* How the program knows who works now: by what they did, not by what they could do. */
static SwKnown
get_known (SwPersonButton *self, const SwPerson *person)
{
  SwKnown known = sw_person_known (self->context, person);

  return known == SW_KNOWN_SECRET && get_identified (self) != SW_IDENTIFIED_SECRET ? SW_KNOWN_NAME
                                                                                   : known;
}

static void
say_person (SwPersonButton *self, const SwPerson *person)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *sentence = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->way), person != NULL);
  gtk_label_set_text (self->name,
                      person != NULL ? person->name : sw_tr (wording, "Who works now?"));
  if (person != NULL)
    {
      SwKnown known = get_known (self, person);

      sentence = sw_say_who_works (wording, person->name, known);
      gtk_label_set_text (self->way, sw_say_at_bench (wording, known));
    }
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->button),
                               sentence != NULL ? sentence : sw_tr (wording, "Who works now"));
}

static void
show_person (SwPersonButton *self)
{
  gint64 id = get_person (self);
  g_autoptr (SwPerson) person
      = id != 0 ? sw_person_load (sw_context_get_store (self->context), id, NULL) : NULL;

  if (id != 0 && !may_stay (self, person))
    {
      sw_context_set_person (self->context, 0);
      return; /* "person-changed" comes back here */
    }
  say_person (self, person);
}

/* ---- the list ---- */

static void
show_why (SwPersonButton *self, const char *words)
{
  gtk_label_set_text (self->why, words != NULL ? words : "");
  gtk_widget_set_visible (self->why_box, words != NULL);
}

static void
fill_list (SwPersonButton *self)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PERSON, NULL, 0, NULL);
  GtkWidget *row;

  while ((row = GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, 0))) != NULL)
    gtk_list_box_remove (self->list, row);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      g_autoptr (SwPerson) person = sw_person_load (store, id, NULL);

      if (person != NULL && person->active)
        gtk_list_box_append (self->list,
                             sw_person_row_new (self->context, person, id == get_person (self)));
    }
}

/* Who works by name may get a secret of their own. */
static void
show_change (SwPersonButton *self)
{
  SwIdentified identified = get_identified (self);
  SwSignWord word = identified == SW_IDENTIFIED_SECRET ? SW_SIGN_WORD_CHANGE_OWN_ELLIPSIS
                                                       : SW_SIGN_WORD_SET_OWN_ELLIPSIS;

  gtk_button_set_label (self->change,
                        sw_say_sign_word (sw_context_get_wording (self->context), word));
  gtk_widget_set_visible (GTK_WIDGET (self->change),
                          get_person (self) != 0 && identified != SW_IDENTIFIED_DEMO);
}

/* Before the popover shows: the focus goes to its first row, which must be there by then. */
static void
popup_cb (GtkMenuButton *button, gpointer data)
{
  SwPersonButton *self = SW_PERSON_BUTTON (data);

  fill_list (self);
  show_why (self, NULL);
  gtk_widget_set_visible (self->sign_out, get_person (self) != 0);
  show_change (self);
}

/* ---- signing in ---- */

static void
closed_cb (GtkPopover *popover, SwPersonButton *self)
{
  if (!self->asking)
    g_signal_emit (self, signals[SIGNAL_CLOSED], 0);
}

static void
signed_cb (const SwSigner *signer, gpointer data)
{
  g_autoptr (SwPersonButton) self = data;

  self->asking = FALSE;
  if (self->context == NULL)
    return;
  if (signer != NULL)
    sw_context_set_signer (self->context, signer);
  g_signal_emit (self, signals[SIGNAL_CLOSED], 0);
}

void
sw_person_button_sign_in (SwPersonButton *self, gint64 person)
{
  g_return_if_fail (SW_IS_PERSON_BUTTON (self));

  self->asking = TRUE;
  gtk_popover_popdown (self->popover);
  sw_sign_in_ask (GTK_WIDGET (self), self->context, person, signed_cb, g_object_ref (self));
}

/* Says why nobody can work under this name; in a file without any secret the first one is asked
 * for. */
static void
refuse (SwPersonButton *self, const SwPerson *person)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (window != NULL && !sw_window_is_guarded (window))
    {
      gtk_popover_popdown (self->popover);
      sw_window_ask_first_secret (window);
      return;
    }
  const SwFact fact = sw_fact_with_text (SW_FACT_NO_SECRET_YET, person->name);
  g_autofree char *words = sw_say_fact (sw_context_get_wording (self->context), &fact);

  show_why (self, words);
}

static void
row_activated_cb (GtkListBox *list, GtkListBoxRow *row, SwPersonButton *self)
{
  gint64 id = sw_person_row_get_id (row);
  g_autoptr (SwPerson) person = sw_person_load (sw_context_get_store (self->context), id, NULL);
  SwKnown known;

  if (person == NULL)
    return;
  known = sw_person_known (self->context, person);
  if (known == SW_KNOWN_NO_SECRET)
    refuse (self, person);
  else if (known == SW_KNOWN_SECRET
           && (id != get_person (self) || get_identified (self) != SW_IDENTIFIED_SECRET))
    sw_person_button_sign_in (self, id);
  else
    {
      if (known != SW_KNOWN_SECRET)
        sw_context_set_person (self->context, id);
      gtk_popover_popdown (self->popover);
    }
}

/* ---- the entries below the list ---- */

static void
toast (SwPersonButton *self, SwSignWord word)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (window != NULL)
    sw_window_toast (window, sw_say_sign_word (sw_context_get_wording (self->context), word));
}

static void
sign_out_cb (GtkButton *button, SwPersonButton *self)
{
  gtk_popover_popdown (self->popover);
  sw_context_set_person (self->context, 0);
  toast (self, SW_SIGN_WORD_SIGNED_OUT);
}

static void
changed_cb (const SwSigner *signer, gpointer data)
{
  g_autoptr (SwPersonButton) self = data;

  if (signer == NULL || self->context == NULL)
    return;
  sw_context_set_signer (self->context, signer);
  toast (self, SW_SIGN_WORD_SECRET_SET);
}

static void
change_cb (GtkButton *button, SwPersonButton *self)
{
  gtk_popover_popdown (self->popover);
  sw_secret_ask (GTK_WIDGET (self), self->context, SW_SECRET_OWN, get_person (self), changed_cb,
                 g_object_ref (self));
}

static void
sw_person_button_dispose (GObject *object)
{
  SwPersonButton *self = SW_PERSON_BUTTON (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_person_button_parent_class)->dispose (object);
}

static void
sw_person_button_class_init (SwPersonButtonClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_person_button_dispose;
  signals[SIGNAL_CLOSED] = g_signal_new ("closed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                         NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/person-button.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, button);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, name);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, popover);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, list);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, way);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, why_box);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, why);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, proves);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, change);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, sign_out);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, closed_cb);
  gtk_widget_class_bind_template_callback (widget_class, change_cb);
  gtk_widget_class_bind_template_callback (widget_class, sign_out_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_person_button_init (SwPersonButton *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_person_button_set_context (SwPersonButton *self, SwContext *context)
{
  g_return_if_fail (SW_IS_PERSON_BUTTON (self) && self->context == NULL);

  self->context = g_object_ref (context);
  g_signal_connect_object (context, "person-changed", G_CALLBACK (show_person), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (context, "changed", G_CALLBACK (show_person), self, G_CONNECT_SWAPPED);
  gtk_label_set_text (self->proves, sw_say_list_proves (sw_context_get_wording (context),
                                                        sw_context_is_demo (context)));
  gtk_menu_button_set_create_popup_func (self->button, popup_cb, self, NULL);
  show_person (self);
}

void
sw_person_button_ask (SwPersonButton *self)
{
  g_return_if_fail (SW_IS_PERSON_BUTTON (self));
  gtk_menu_button_popup (self->button);
}
