/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of a form: label, entry, unit, a hint below, and the error in its place when there is
 * one. What was typed stays, whatever is wrong with it. The error is also the entry's accessible
 * error message. */
#pragma once

#include <gtk/gtk.h>

#include "calc/fault.h"
#include "records/record.h"
#include "wording/number.h"

G_BEGIN_DECLS

#define SW_TYPE_FORM_ROW (sw_form_row_get_type ())
G_DECLARE_FINAL_TYPE (SwFormRow, sw_form_row, SW, FORM_ROW, GtkWidget)

/* @label with a mnemonic ("_Volume drawn"); @unit SW_UNIT_NONE for text. For templates: properties
 * "label", "hint", "unit-symbol", "text" (notified as it is typed). Enter presses the window's
 * default button. */
GtkWidget *sw_form_row_new (const char *label, const char *hint, SwUnit unit);

const char *sw_form_row_get_text (SwFormRow *self); /* (transfer none) */
void sw_form_row_set_text (SwFormRow *self, const char *text);
/* NULL clears it. Marks the entry invalid, shows the words below, in words and shape, not colour
 * alone. */
void sw_form_row_set_error (SwFormRow *self, const char *text);
/* The error shown now, or NULL. (transfer none) */
const char *sw_form_row_get_error (SwFormRow *self);
GtkWidget *sw_form_row_get_entry (SwFormRow *self);

/* Reads the amount: FALSE (error shown at the row) when it is no number or outside the range of
 * @quantity. An empty field: @needed TRUE is an error, FALSE gives NAN. amount->typed is the text
 * as typed, with the row's unit behind it when none was typed (transfer full). */
gboolean sw_form_row_get_amount (SwFormRow *self,
                                 const SwWording *wording,
                                 SwQuantityName quantity,
                                 SwUnit unit,
                                 gboolean needed,
                                 SwAmount *amount);
/* Fills the field with a stored number. */
void sw_form_row_set_number (SwFormRow *self, const SwWording *wording, double value);

G_END_DECLS
