/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who works now, and how the program knows: a menu button with the active people. Who has a secret
 * is asked for it; a name picked here proves nothing, and the list says so. Signal "closed": the
 * list and the question after it went, whether somebody was picked or not. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_PERSON_BUTTON (sw_person_button_get_type ())
G_DECLARE_FINAL_TYPE (SwPersonButton, sw_person_button, SW, PERSON_BUTTON, GtkWidget)

void sw_person_button_set_context (SwPersonButton *self, SwContext *context);
/* Opens the list. */
void sw_person_button_ask (SwPersonButton *self);
/* Asks for the secret of @person, who then works. */
void sw_person_button_sign_in (SwPersonButton *self, gint64 person);

G_END_DECLS
