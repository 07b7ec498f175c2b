/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What needs doing now, most urgent first, one button each; what comes next; what was done today.
 * Property "count": how many things are to do now. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_TODO_PAGE (sw_todo_page_get_type ())
G_DECLARE_FINAL_TYPE (SwTodoPage, sw_todo_page, SW, TODO_PAGE, GtkWidget)

/* Gives it the file and shows it; follows "changed" from then on. */
void sw_todo_page_set_context (SwTodoPage *self, SwContext *context);
/* Shows the file anew, for what changes with time alone. */
void sw_todo_page_refresh (SwTodoPage *self);
guint sw_todo_page_get_count (SwTodoPage *self);

G_END_DECLS
