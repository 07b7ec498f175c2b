/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A question answered by one press: yes, no and, where it may be so, don't know. */
#pragma once

#include <gtk/gtk.h>

#include "records/test.h"

G_BEGIN_DECLS

#define SW_TYPE_ANSWER_ROW (sw_answer_row_get_type ())
G_DECLARE_FINAL_TYPE (SwAnswerRow, sw_answer_row, SW, ANSWER_ROW, GtkWidget)

/* For templates: properties "label", "yes", "no" (the words on the buttons) and "with-unknown";
 * signal "changed". */

/* SW_ANSWER_NONE until one is pressed. */
SwAnswer sw_answer_row_get (SwAnswerRow *self);
void sw_answer_row_set (SwAnswerRow *self, SwAnswer answer);
/* NULL clears it. An answer clears it too. */
void sw_answer_row_set_error (SwAnswerRow *self, const char *text);
const char *sw_answer_row_get_error (SwAnswerRow *self); /* NULL = none */

G_END_DECLS
