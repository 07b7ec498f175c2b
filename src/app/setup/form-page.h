/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The form page of a section: the editor, Save and Cancel, the reason of a change, taking out of
 * use, and what is wrong. */
#pragma once

#include "app/setup/section-spec.h"

G_BEGIN_DECLS

#define SW_TYPE_FORM_PAGE (sw_form_page_get_type ())
G_DECLARE_FINAL_TYPE (SwFormPage, sw_form_page, SW, FORM_PAGE, GtkWidget)

/* @spec is static. (transfer floating) */
GtkWidget *sw_form_page_new (SwContext *context, const SwSectionSpec *spec);

/* Shows a record, 0 = a new one. What was typed about another one is gone. */
void sw_form_page_open (SwFormPage *self, gint64 id);
/* Saves. FALSE: the page says why not. */
gboolean sw_form_page_save (SwFormPage *self);
/* Whether something typed is not saved. */
gboolean sw_form_page_is_changed (SwFormPage *self);
/* The focus goes to a field, NULL = the first; where there is none, to what can be pressed. */
void sw_form_page_focus (SwFormPage *self, const char *field);
const char *sw_form_page_get_title (SwFormPage *self);
SwEditor *sw_form_page_get_editor (SwFormPage *self); /* (transfer none) */

/* Signals: "leave", the person is done here (saved, cancelled, or taken out of use); "open-other"
 * as that of SwEditor. */

G_END_DECLS
