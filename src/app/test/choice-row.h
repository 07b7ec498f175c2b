/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A labelled drop-down of rows of the file, with the error in its place. The first line is "not
 * chosen", so that nothing is picked by accident. */
#pragma once

#include <gtk/gtk.h>

#include "wording/wording.h"

G_BEGIN_DECLS

#define SW_TYPE_CHOICE_ROW (sw_choice_row_get_type ())
G_DECLARE_FINAL_TYPE (SwChoiceRow, sw_choice_row, SW, CHOICE_ROW, GtkWidget)

/* For templates: properties "label" (with a mnemonic) and "hint"; signal "changed". */

/* Takes all lines away but "not chosen". */
void sw_choice_row_clear (SwChoiceRow *self, const SwWording *wording);
/* @marked: a line that asks for a reason, such as an expired lot. */
void sw_choice_row_add (SwChoiceRow *self, gint64 id, const char *text, gboolean marked);
guint sw_choice_row_count (SwChoiceRow *self); /* lines that can be chosen */
gint64 sw_choice_row_get (SwChoiceRow *self);  /* 0 = not chosen */
/* Chooses a line; 0, or an id that is not there, chooses none. */
void sw_choice_row_set (SwChoiceRow *self, gint64 id);
gboolean sw_choice_row_is_marked (SwChoiceRow *self); /* the chosen line is */
void sw_choice_row_set_hint (SwChoiceRow *self, const char *text);
void sw_choice_row_set_error (SwChoiceRow *self, const char *text); /* NULL clears it */
const char *sw_choice_row_get_error (SwChoiceRow *self);            /* NULL = none */

G_END_DECLS
