/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amends a record, or takes it out of use: its form, a reason, and a button. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_AMEND_PAGE (sw_amend_page_get_type ())
G_DECLARE_FINAL_TYPE (SwAmendPage, sw_amend_page, SW, AMEND_PAGE, GtkWidget)

void sw_amend_page_set_context (SwAmendPage *self, SwContext *context);
/* The form of a record; it must have one (amend-forms.h). */
void sw_amend_page_open (SwAmendPage *self, SwTable table, gint64 id);
/* The question why it is taken out of use. */
void sw_amend_page_open_void (SwAmendPage *self, SwTable table, gint64 id);
/* Does it. FALSE: the page says why not, and what was typed stays. */
gboolean sw_amend_page_save (SwAmendPage *self);

/* Signal "leave": done, or given up. */

G_END_DECLS
