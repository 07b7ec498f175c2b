/* SPDX-License-Identifier: GPL-3.0-or-later */
/* To Do and the machines, each with shape, name, word and due; a search entry at the foot.
 * Signal "chosen" (gint64 machine): a person picked a row; 0 = To Do,
 * SW_SIDEBAR_RECORDS. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_SIDEBAR (sw_sidebar_get_type ())
G_DECLARE_FINAL_TYPE (SwSidebar, sw_sidebar, SW, SIDEBAR, GtkWidget)

/* No machine and no To Do: a page that has no row here. */
#define SW_SIDEBAR_NOTHING G_GINT64_CONSTANT (-1)
/* The row of the Records page. */
#define SW_SIDEBAR_RECORDS G_GINT64_CONSTANT (-2)

/* Gives it the file and shows it; follows "changed" from then on. */
void sw_sidebar_set_context (SwSidebar *self, SwContext *context);
/* Shows the file anew, for what changes with time alone. */
void sw_sidebar_refresh (SwSidebar *self);
void sw_sidebar_set_todo_count (SwSidebar *self, guint count);
/* Marks a row without "chosen". @machine 0 = To Do, SW_SIDEBAR_RECORDS, SW_SIDEBAR_NOTHING =
 * no row. */
void sw_sidebar_select (SwSidebar *self, gint64 machine);
/* Goes @by rows down (up when negative) among those shown, with "chosen". */
void sw_sidebar_move (SwSidebar *self, int by);
void sw_sidebar_find (SwSidebar *self);

G_END_DECLS
