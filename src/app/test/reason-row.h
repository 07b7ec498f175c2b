/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reason: picked from a list, or typed. A pick fills the text, which can be changed. */
#pragma once

#include <gtk/gtk.h>

#include "wording/sentence-test.h"

G_BEGIN_DECLS

#define SW_TYPE_REASON_ROW (sw_reason_row_get_type ())
G_DECLARE_FINAL_TYPE (SwReasonRow, sw_reason_row, SW, REASON_ROW, GtkWidget)

/* For templates: property "label" (with a mnemonic). */

/* The reasons to pick from; empties the text. */
void sw_reason_row_fill (SwReasonRow *self, const SwWording *wording, SwReasonKind kind);
void sw_reason_row_pick (SwReasonRow *self, guint i); /* 0 = the first reason */
/* NULL when nothing but white space is there. (transfer none) */
const char *sw_reason_row_get_text (SwReasonRow *self);
void sw_reason_row_set_text (SwReasonRow *self, const char *text);
void sw_reason_row_set_error (SwReasonRow *self, const char *text); /* NULL clears it */
const char *sw_reason_row_get_error (SwReasonRow *self);            /* NULL = none */

G_END_DECLS
