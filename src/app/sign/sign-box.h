/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks somebody to sign: what the signature means in whole words, who signs, and their secret
 * again, whoever is signed in. A technician who works by name types the initials, and reads what
 * that proves. In the demo plant nobody has a secret, and the box says so. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"
#include "workflow/sign-in.h"

G_BEGIN_DECLS

typedef struct
{
  SwMeaning meaning;
  const char *subject; /* what is signed, in words: "Test M-07-261124-1"; copied */
  guint n_subjects;    /* signed at once; 0 = 1 */
  gint64 person;     /* who must sign; 0 = any reviewer or administrator, to be picked in the box */
  gint64 not_person; /* who may not (their own work); 0 = nobody */
} SwSignRequest;

/* @signer is NULL when it was given up. Called once. */
typedef void (*SwSignedCallback) (const SwSigner *signer, gpointer data);

/* Shows the box over @near's window, in which an SwWindow or another GtkOverlay must lie around
 * @near. It is given up when @near leaves the screen. @data must outlive it: hold a reference and
 * drop it in the callback. */
void sw_sign_ask (GtkWidget *near,
                  SwContext *context,
                  const SwSignRequest *request,
                  SwSignedCallback callback,
                  gpointer data);

/* The same box for a deed that is no signature on a record, such as a restore: who of those who
 * have
 * @right does it, picked in the box, and their secret. @title and @subject are copied. */
void sw_sign_deed_ask (GtkWidget *near,
                       SwContext *context,
                       SwRight right,
                       const char *title,
                       const char *subject,
                       SwSignedCallback callback,
                       gpointer data);

/* The same box for signing in: @person's secret. A secret that somebody else chose is changed in
 * the same box. Changes nothing but the file; the signer goes to sw_context_set_signer. */
void sw_sign_in_ask (
    GtkWidget *near, SwContext *context, gint64 person, SwSignedCallback callback, gpointer data);

G_END_DECLS
