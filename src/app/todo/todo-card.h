/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing to do: shape, title, sentence, one button. Signal "pressed". */
#pragma once

#include <gtk/gtk.h>

#include "app/widgets/verdict.h"

G_BEGIN_DECLS

#define SW_TYPE_TODO_CARD (sw_todo_card_get_type ())
G_DECLARE_FINAL_TYPE (SwTodoCard, sw_todo_card, SW, TODO_CARD, GtkWidget)

/* @first: the most urgent one, whose button has the accent. */
GtkWidget *sw_todo_card_new (
    SwVerdictKind kind, const char *title, const char *text, const char *button, gboolean first);

G_END_DECLS
