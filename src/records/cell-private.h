/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cell: one value as the file holds it (SI, words, NULL for empty), between struct, SQL and
 * journal. */
#pragma once

#include "records/table-private.h"

#include <sqlite3.h>

G_BEGIN_DECLS

typedef enum
{
  SW_CELL_NULL,
  SW_CELL_INTEGER,
  SW_CELL_REAL,
  SW_CELL_TEXT
} SwCellKind;

typedef struct
{
  SwCellKind kind;
  gint64 integer;
  double real;
  const char *text; /* Borrowed from struct, statement or caller */
  gsize length;     /* of text, bytes: a foreign tool may have put a NUL into it */
} SwCell;

#define SW_CELL_EMPTY ((SwCell){ .kind = SW_CELL_NULL })
SwCell sw_cell_integer (gint64 value);
/* 0 is empty, as ids and times have it. */
SwCell sw_cell_id (gint64 value);
/* NULL is empty. */
SwCell sw_cell_text (const char *value);

/* The member of @record as the file would hold it. */
SwCell sw_cell_get (const SwColumn *column, gconstpointer record);
/* Puts a cell into a struct; the old text is freed. FALSE when it fits no value of the member. */
gboolean sw_cell_set (const SwColumn *column, const SwCell *cell, gpointer record);

gboolean sw_cell_equal (const SwCell *a, const SwCell *b);
/* As the journal writes it, escaped, on one line; NULL for an empty cell. (transfer full) */
char *sw_cell_to_text (const SwCell *cell, SwColumnType type);

int sw_cell_bind (sqlite3_stmt *statement, int index, const SwCell *cell);
/* Borrowed from the statement until its next step. */
SwCell sw_cell_from_column (sqlite3_stmt *statement, int index);

G_END_DECLS
