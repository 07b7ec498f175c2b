/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A form made from a table of fields: builds the rows, fills them from a record, reads them back.
 * What was typed stays in its row, whatever is wrong with it. */
#pragma once

#include <gtk/gtk.h>

#include "app/setup/form-spec.h"

G_BEGIN_DECLS

#define SW_TYPE_FORM (sw_form_get_type ())
G_DECLARE_FINAL_TYPE (SwForm, sw_form, SW, FORM, GtkWidget)

/* @specs is static. @columns 1 or 2. */
SwForm *sw_form_new (SwContext *context, const SwFormSpec *specs, guint n_specs, int columns);

/* Shows @record (not kept). */
void sw_form_load (SwForm *self, gconstpointer record);
/* Writes every field into @record. FALSE: errors stand at their rows, the first has the focus, and
 * @record holds only the good ones. A number whose text was not touched keeps its stored value,
 * digit for digit; a field that is not shown becomes empty. */
gboolean sw_form_save (SwForm *self, gpointer record);
/* The same without complaint or focus, for figures that follow the typing. */
gboolean sw_form_peek (SwForm *self, gpointer record);
/* Whether anything differs from what was loaded. */
gboolean sw_form_is_changed (SwForm *self);
/* Puts a fault of a layer below at its row. FALSE when no row is about that quantity. */
gboolean sw_form_show_error (SwForm *self, const GError *error);
/* Asks the file anew what can be chosen; what is chosen stays. */
void sw_form_refresh (SwForm *self);
/* The row of a field; NULL when there is none. (transfer none) */
GtkWidget *sw_form_get_row (SwForm *self, const char *id);
/* The focus goes to a field, NULL = the first. */
void sw_form_focus (SwForm *self, const char *id);

/* Signal "changed": something was typed or chosen. */

G_END_DECLS
