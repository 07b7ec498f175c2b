/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A thing to do, as the screen needs it: its words and its shape, from the records behind it. */
#pragma once

#include "app/context.h"
#include "app/widgets/verdict.h"
#include "workflow/due.h"

G_BEGIN_DECLS

typedef struct
{
  SwTodo todo;
  SwVerdictKind mark;
  char *subject; /* Owned: "M-07 Long bed" */
  char *title;   /* Owned */
  char *text;    /* Owned */
  const char *button;
} SwTodoWords;

SwTodoWords *sw_todo_words_new (SwContext *context, const SwTodo *todo, gint64 now_ms);
void sw_todo_words_free (SwTodoWords *words);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTodoWords, sw_todo_words_free)

/* A closed test of today as a line: "M-14 at 05:55: passed, signed N. A." NULL when it cannot be
 * read. @mark gets its shape. (transfer full) */
char *sw_todo_words_done (SwContext *context, gint64 titration, SwVerdictKind *mark);

G_END_DECLS
