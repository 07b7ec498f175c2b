/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cards of a record's page: what it says, its parts and owners, its signatures, its story. */
#pragma once

#include <gtk/gtk.h>

#include "app/records/kind-table.h"

G_BEGIN_DECLS

/* Another record is wanted. */
typedef void (*SwFollow) (int kind, gint64 id, gpointer data);

void sw_record_cards_add (
    GtkBox *cards, SwContext *context, const SwBrowseRow *row, SwFollow follow, gpointer data);
/* The same for an act: what it wrote, record by record. */
void sw_record_cards_add_act (
    GtkBox *cards, SwContext *context, gint64 act, SwFollow follow, gpointer data);

G_END_DECLS
