/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks for a new secret, twice, and sets it. */
#pragma once

#include "app/sign/sign-box.h"

G_BEGIN_DECLS

typedef enum
{
  SW_SECRET_OWN,   /* one's own, after the old one where there is one */
  SW_SECRET_GIVEN, /* signs in with a secret that somebody else chose, and changes it */
  SW_SECRET_OTHER, /* an administrator sets somebody else's */
  SW_SECRET_FIRST, /* the file's first: an administrator's, picked in the box */
} SwSecretWhy;

/* Shows the box over @near's window. @person: whose secret; 0 with SW_SECRET_FIRST. @signer of the
 * callback is who is known by their secret now; NULL: given up, or somebody else's was set. @data
 * must outlive it, as with sw_sign_ask. */
void sw_secret_ask (GtkWidget *near,
                    SwContext *context,
                    SwSecretWhy why,
                    gint64 person,
                    SwSignedCallback callback,
                    gpointer data);

G_END_DECLS
