/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of a form for a text of several lines: label, text view, hint. Tab leaves it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PROSE_ROW (sw_prose_row_get_type ())
G_DECLARE_FINAL_TYPE (SwProseRow, sw_prose_row, SW, PROSE_ROW, GtkWidget)

GtkWidget *sw_prose_row_new (const char *label, const char *hint);
char *sw_prose_row_dup_text (SwProseRow *self); /* (transfer full) */
void sw_prose_row_set_text (SwProseRow *self, const char *text);

/* Signal "changed": the text was typed in or set. */

G_END_DECLS
