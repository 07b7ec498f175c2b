/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row of the sidebar: a shape (or To Do's count), a name, a word, a due. */
#pragma once

#include <gtk/gtk.h>

#include "app/widgets/verdict.h"

G_BEGIN_DECLS

#define SW_TYPE_SIDEBAR_ROW (sw_sidebar_row_get_type ())
G_DECLARE_FINAL_TYPE (SwSidebarRow, sw_sidebar_row, SW, SIDEBAR_ROW, GtkListBoxRow)

/* @machine 0 = To Do, SW_SIDEBAR_RECORDS. */
GtkWidget *sw_sidebar_row_new (gint64 machine);
gint64 sw_sidebar_row_get_machine (SwSidebarRow *self);
const char *sw_sidebar_row_get_name (SwSidebarRow *self); /* "" before it has one */
void
sw_sidebar_row_set_words (SwSidebarRow *self, const char *name, const char *word, const char *due);
void sw_sidebar_row_set_mark (SwSidebarRow *self, SwVerdictKind kind);
/* A number in the place of the shape; "" shows the shape. */
void sw_sidebar_row_set_count (SwSidebarRow *self, const char *count);
/* An icon in the place of the shape. */
void sw_sidebar_row_set_icon (SwSidebarRow *self, const char *icon_name);
/* Whether name or word hold @text, whatever the case. */
gboolean sw_sidebar_row_matches (SwSidebarRow *self, const char *text);

G_END_DECLS
