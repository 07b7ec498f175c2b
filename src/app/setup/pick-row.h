/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of a form that is picked from a list: label, drop-down, hint, and the error in its
 * place when there is one. Each choice has a number (an id or an enum's value) and a word. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PICK_ROW (sw_pick_row_get_type ())
G_DECLARE_FINAL_TYPE (SwPickRow, sw_pick_row, SW, PICK_ROW, GtkWidget)

GtkWidget *sw_pick_row_new (const char *label, const char *hint);

/* New choices: gint64 values and as many words (copied). The value stays when it is still among
 * them, else nothing is chosen. */
void sw_pick_row_set_choices (SwPickRow *self, GArray *values, const char *const *words);
/* FALSE when nothing is chosen; then *value is left alone. */
gboolean sw_pick_row_get_value (SwPickRow *self, gint64 *value);
/* A value that is no choice: nothing is chosen. */
void sw_pick_row_set_value (SwPickRow *self, gint64 value);
/* NULL clears it. */
void sw_pick_row_set_error (SwPickRow *self, const char *text);
/* The error shown now, or NULL. (transfer none) */
const char *sw_pick_row_get_error (SwPickRow *self);
/* NULL: none. */
void sw_pick_row_set_hint (SwPickRow *self, const char *text);
/* Something beside the drop-down, such as "Add Solvent...". */
void sw_pick_row_set_suffix (SwPickRow *self, GtkWidget *suffix);
GtkWidget *sw_pick_row_get_drop_down (SwPickRow *self);

/* Signal "changed": the person chose, or a value was set. */

G_END_DECLS
