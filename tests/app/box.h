/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The boxes that ask for a signature or a secret, answered as a person does. */
#pragma once

#include "app/sign/modal.h"
#include "tests/app/snapshot.h"

G_BEGIN_DECLS

/* The box over @window, or NULL. (transfer none) */
GtkWidget *sw_box_over (GtkWidget *window);
/* Types into the secret row with that id: "secret", "old", "again". */
void sw_box_type (GtkWidget *box, const char *id, const char *text);
/* Presses "sign", "set" or "cancel". */
void sw_box_press (GtkWidget *box, const char *id);
/* Types the secret and presses Sign. */
void sw_box_answer (GtkWidget *box, const char *secret);
/* Picks the person with that name in the box's list. */
void sw_box_pick (GtkWidget *box, const char *name);
/* Whether the box says @words anywhere. */
gboolean sw_box_says (GtkWidget *box, const char *words);

G_END_DECLS
