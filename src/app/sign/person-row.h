/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A person in a list, and how the program can know that it is they. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"
#include "wording/sentence-sign.h"

G_BEGIN_DECLS

/* How this person could be known here. */
SwKnown sw_person_known (SwContext *context, const SwPerson *person);

/* Initials, name, the word for how they are known, and a tick when @picked. (transfer floating) */
GtkWidget *sw_person_row_new (SwContext *context, const SwPerson *person, gboolean picked);
/* Whose row it is. */
gint64 sw_person_row_get_id (GtkListBoxRow *row);

G_END_DECLS
