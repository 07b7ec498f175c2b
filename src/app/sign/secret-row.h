/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A field for a secret: label, entry that shows dots, hint, the error in its place, and a time to
 * wait that counts down. The text lives in the entry's own locked memory and is lent from there; no
 * copy is made. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_SECRET_ROW (sw_secret_row_get_type ())
G_DECLARE_FINAL_TYPE (SwSecretRow, sw_secret_row, SW, SECRET_ROW, GtkWidget)

/* For templates: properties "label" (with a mnemonic) and "hint". Signal "activate": Enter. */

void sw_secret_row_set_label (SwSecretRow *self, const char *text); /* without a mnemonic */
/* The text, valid until it is typed in or wiped. (transfer none) */
const char *sw_secret_row_get_text (SwSecretRow *self);
/* Overwrites the text, and leaves the field empty. */
void sw_secret_row_wipe (SwSecretRow *self);
/* NULL clears it. Typing clears it too. */
void sw_secret_row_set_error (SwSecretRow *self, const char *text);
const char *sw_secret_row_get_error (SwSecretRow *self); /* NULL = none; (transfer none) */

/* Says what sw_sign_in refused, wipes the text, and lets the time to wait run down: the field takes
 * nothing until @person may try again. */
void
sw_secret_row_refuse (SwSecretRow *self, SwContext *context, gint64 person, const GError *error);
/* Waits when @person has to, as after a restart of the program. */
void sw_secret_row_check_wait (SwSecretRow *self, SwContext *context, gint64 person);
gboolean sw_secret_row_is_waiting (SwSecretRow *self);

G_END_DECLS
