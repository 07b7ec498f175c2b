/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the button of a task does: it leads to where the task is done. */
#pragma once

#include "app/window.h"
#include "workflow/due.h"

G_BEGIN_DECLS

void sw_todo_act (SwContext *context, SwWindow *window, const SwTodo *todo);

G_END_DECLS
