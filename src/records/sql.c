/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Statements: prepared once per SQL text, and always reset when done.
 *
 * Invariant: outside of these functions no statement is left half-stepped, because one that is
 * keeps a read transaction open and the file could not go back to one file on close.
 */
#include "records/error-private.h"
#include "records/store-private.h"

#include <math.h>

/* PERSISTENT tells SQLite that the statement is kept, so that it stays out of its small-block
 * store. */
sqlite3_stmt *
sw_sql_prepare (SwStore *store, const char *sql, GError **error)
{
  sqlite3_stmt *statement = g_hash_table_lookup (store->statements, sql);
  int code;

  if (statement != NULL)
    {
      sqlite3_reset (statement);
      sqlite3_clear_bindings (statement);
      return statement;
    }
  code = sqlite3_prepare_v3 (store->db, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, NULL);
  if (code != SQLITE_OK)
    {
      sw_records_error_set (error, store->db, code, sql);
      return NULL;
    }
  g_hash_table_insert (store->statements, g_strdup (sql), statement);
  return statement;
}

void
sw_sql_bind (sqlite3_stmt *statement, const SwCell *cells, guint n_cells)
{
  for (guint i = 0; i < n_cells; i++)
    sw_cell_bind (statement, (int)i + 1, &cells[i]);
}

int
sw_sql_step (SwStore *store, sqlite3_stmt *statement, GError **error)
{
  int code = sqlite3_step (statement);

  if (code == SQLITE_ROW || code == SQLITE_DONE)
    return code;
  sw_records_error_set (error, store->db, code, "the file");
  sqlite3_reset (statement);
  return code;
}

gboolean
sw_sql_run (SwStore *store, const char *sql, const SwCell *cells, guint n_cells, GError **error)
{
  sqlite3_stmt *statement = sw_sql_prepare (store, sql, error);
  int code;

  if (statement == NULL)
    return FALSE;
  sw_sql_bind (statement, cells, n_cells);
  do
    code = sw_sql_step (store, statement, error);
  while (code == SQLITE_ROW);
  sqlite3_reset (statement);
  return code == SQLITE_DONE;
}

gboolean
sw_sql_execute (SwStore *store, const char *sql, GError **error)
{
  int code = sqlite3_exec (store->db, sql, NULL, NULL, NULL);

  if (code == SQLITE_OK)
    return TRUE;
  return sw_records_error_set (error, store->db, code, "the file");
}

/* The first row's statement, not reset yet; NULL in @statement when there is no row. */
static gboolean
step_first (SwStore *store,
            const char *sql,
            const SwCell *cells,
            guint n_cells,
            sqlite3_stmt **statement,
            GError **error)
{
  int code;

  *statement = sw_sql_prepare (store, sql, error);
  if (*statement == NULL)
    return FALSE;
  sw_sql_bind (*statement, cells, n_cells);
  code = sw_sql_step (store, *statement, error);
  if (code == SQLITE_ROW)
    return TRUE;
  sqlite3_reset (*statement);
  *statement = NULL;
  return code == SQLITE_DONE;
}

/* Some statements, such as a change of the journal mode, only commit here, and can fail here. */
static gboolean
finish_first (SwStore *store, sqlite3_stmt *statement, GError **error)
{
  int code = sqlite3_reset (statement);

  return code == SQLITE_OK || sw_records_error_set (error, store->db, code, "the file");
}

gboolean
sw_sql_integer (SwStore *store,
                const char *sql,
                const SwCell *cells,
                guint n_cells,
                gint64 *value,
                GError **error)
{
  sqlite3_stmt *statement;

  *value = 0;
  if (!step_first (store, sql, cells, n_cells, &statement, error))
    return FALSE;
  if (statement == NULL)
    return TRUE;
  *value = sqlite3_column_int64 (statement, 0);
  return finish_first (store, statement, error);
}

gboolean
sw_sql_real (SwStore *store,
             const char *sql,
             const SwCell *cells,
             guint n_cells,
             double *value,
             GError **error)
{
  sqlite3_stmt *statement;

  *value = NAN;
  if (!step_first (store, sql, cells, n_cells, &statement, error))
    return FALSE;
  if (statement == NULL)
    return TRUE;
  if (sqlite3_column_type (statement, 0) != SQLITE_NULL)
    *value = sqlite3_column_double (statement, 0);
  return finish_first (store, statement, error);
}

gboolean
sw_sql_text (SwStore *store,
             const char *sql,
             const SwCell *cells,
             guint n_cells,
             char **value,
             GError **error)
{
  sqlite3_stmt *statement;

  *value = NULL;
  if (!step_first (store, sql, cells, n_cells, &statement, error))
    return FALSE;
  if (statement == NULL)
    return TRUE;
  *value = g_strdup ((const char *)sqlite3_column_text (statement, 0));
  if (finish_first (store, statement, error))
    return TRUE;
  g_clear_pointer (value, g_free);
  return FALSE;
}

/* All ids at once: a list holds them and loads its rows as they are shown. */
GArray *
sw_sql_ids (SwStore *store, const char *sql, const SwCell *cells, guint n_cells, GError **error)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  sqlite3_stmt *statement = sw_sql_prepare (store, sql, error);
  int code;

  if (statement == NULL)
    return NULL;
  sw_sql_bind (statement, cells, n_cells);
  while ((code = sw_sql_step (store, statement, error)) == SQLITE_ROW)
    {
      gint64 id = sqlite3_column_int64 (statement, 0);

      g_array_append_val (ids, id);
    }
  if (code != SQLITE_DONE)
    return NULL;
  sqlite3_reset (statement);
  return g_steal_pointer (&ids);
}
