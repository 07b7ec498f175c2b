/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The widget behind sw_sign_ask and sw_sign_in_ask: sign-box.c shows it, sign-check.c says whether
 * the answer is right. */
#pragma once

#include "app/sign/secret-row.h"
#include "app/sign/sign-box.h"
#include "app/widgets/form-row.h"
#include "wording/sentence-sign.h"

G_BEGIN_DECLS

#define SW_TYPE_SIGN_BOX (sw_sign_box_get_type ())
G_DECLARE_FINAL_TYPE (SwSignBox, sw_sign_box, SW, SIGN_BOX, GtkWidget)

struct _SwSignBox
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;
  SwPerson *person; /* who signs; NULL = not picked yet */

  /* Template children */
  GtkWidget *layout;
  GtkLabel *title;
  GtkLabel *subject;
  GtkWidget *people;
  GtkLabel *people_title;
  GtkListBox *list;
  SwSecretRow *secret;
  SwFormRow *initials;
  GtkWidget *trouble_box;
  GtkLabel *trouble;
  GtkLabel *note;
  GtkButton *cancel;
  GtkButton *sign;

  gboolean signs_in; /* no signature: the person signs in */
  SwRight right;
  gint64 not_person;
  SwKnown known; /* of person */

  SwSignedCallback callback;
  gpointer data;
};

/* Above the buttons; NULL takes it away. */
void sw_sign_box_show_trouble (SwSignBox *self, const char *words);
/* Whether @self->person, who is set, has answered rightly and may sign. Else it is said in the box.
 */
gboolean sw_sign_box_check (SwSignBox *self, SwSigner *signer);

G_END_DECLS
