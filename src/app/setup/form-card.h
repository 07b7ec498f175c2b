/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One small form of a list, with its buttons. */
#pragma once

#include "app/setup/form-list.h"

G_BEGIN_DECLS

#define SW_TYPE_FORM_CARD (sw_form_card_get_type ())
G_DECLARE_FINAL_TYPE (SwFormCard, sw_form_card, SW, FORM_CARD, GtkWidget)

/* Takes @record and shows it. */
SwFormCard *sw_form_card_new (SwContext *context, const SwFormListSpec *spec, gpointer record);
SwForm *sw_form_card_get_form (SwFormCard *self);
/* As it was loaded; never written to. (transfer none) */
gconstpointer sw_form_card_get_record (SwFormCard *self);
/* Which way it can be moved. */
void sw_form_card_set_movable (SwFormCard *self, gboolean up, gboolean down);

/* Signals: "changed"; "remove", "move-up", "move-down": the button was pressed. */

G_END_DECLS
