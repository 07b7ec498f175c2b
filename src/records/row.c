/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records in memory and loading them: new, free, copy, load, all by the table's descriptor. */
#include "records/row-private.h"

#include "records/store-private.h"

/* Zero is empty for everything but reals. */
gpointer
sw_row_new (SwTable table)
{
  const SwTableInfo *info = sw_table_info (table);
  char *record = g_malloc0 (info->size);

  for (guint i = 0; i < info->n_columns; i++)
    if (info->columns[i].type == SW_COLUMN_REAL)
      *(double *)(gpointer)(record + info->columns[i].offset) = NAN;
  return record;
}

static gboolean
is_text (const SwColumn *column)
{
  return column->type == SW_COLUMN_TEXT || column->type == SW_COLUMN_SECRET;
}

void
sw_row_free (SwTable table, gpointer record)
{
  const SwTableInfo *info = sw_table_info (table);

  if (record == NULL)
    return;
  for (guint i = 0; i < info->n_columns; i++)
    if (is_text (&info->columns[i]))
      g_free (*(char **)(gpointer)((char *)record + info->columns[i].offset));
  g_free (record);
}

/* Shallow first, then every text on its own. */
gpointer
sw_row_copy (SwTable table, gconstpointer record)
{
  const SwTableInfo *info = sw_table_info (table);
  char *copy;

  if (record == NULL)
    return NULL;
  copy = g_memdup2 (record, info->size);
  for (guint i = 0; i < info->n_columns; i++)
    if (is_text (&info->columns[i]))
      {
        char **member = (char **)(gpointer)(copy + info->columns[i].offset);

        *member = g_strdup (*member);
      }
  return copy;
}

/* SELECT id, journal_seq, the common columns, the table's own. (transfer full) */
static char *
make_select (const SwTableInfo *info)
{
  GString *sql = g_string_new ("SELECT id, journal_seq");

  for (guint i = 0; i < sw_table_n_columns (info); i++)
    g_string_append_printf (sql, ", %s", sw_table_column (info, i)->name);
  g_string_append_printf (sql, " FROM %s WHERE id = ?", info->name);
  return g_string_free (sql, FALSE);
}

/* A value that no member can hold is damage, not something to guess at. */
static gboolean
read_row (const SwTableInfo *info, sqlite3_stmt *statement, gpointer record, GError **error)
{
  SwRecord *common = record;

  common->id = sqlite3_column_int64 (statement, 0);
  common->journal_seq = sqlite3_column_int64 (statement, 1);
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      const SwColumn *column = sw_table_column (info, i);
      SwCell cell = sw_cell_from_column (statement, (int)i + 2);

      if (sw_cell_set (column, &cell, record))
        continue;
      g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DAMAGED,
                   "%s %" G_GINT64_FORMAT ": %s holds a value that does not belong there",
                   info->name, common->id, column->name);
      return FALSE;
    }
  return TRUE;
}

gpointer
sw_row_load (SwStore *store, SwTable table, gint64 id, GError **error)
{
  const SwTableInfo *info = sw_table_info (table);
  g_autofree char *sql = make_select (info);
  SwCell key = sw_cell_integer (id);
  gpointer record = NULL;
  sqlite3_stmt *statement;
  int code;

  g_return_val_if_fail (store != NULL, NULL);
  statement = sw_sql_prepare (store, sql, error);
  if (statement == NULL)
    return NULL;
  sw_sql_bind (statement, &key, 1);
  code = sw_sql_step (store, statement, error);
  if (code == SQLITE_ROW)
    {
      record = sw_row_new (table);
      if (!read_row (info, statement, record, error))
        {
          sw_row_free (table, record);
          record = NULL;
        }
    }
  else if (code == SQLITE_DONE)
    g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NO_SUCH_ROW,
                 "there is no %s %" G_GINT64_FORMAT, info->name, id);
  sqlite3_reset (statement);
  return record;
}

gpointer
sw_record_load (SwStore *store, SwTable table, gint64 id, GError **error)
{
  return sw_row_load (store, table, id, error);
}

gboolean
sw_record_update (SwStore *store, SwTable table, gpointer record, GError **error)
{
  return sw_row_update (store, table, record, error);
}

void
sw_record_free (SwTable table, gpointer record)
{
  sw_row_free (table, record);
}

const char *
sw_record_difference (SwTable table,
                      gconstpointer one,
                      gconstpointer other,
                      const char *const *except)
{
  const SwTableInfo *info = sw_table_info (table);

  g_return_val_if_fail (info != NULL && one != NULL && other != NULL, NULL);
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      const SwColumn *column = sw_table_column (info, i);
      SwCell a = sw_cell_get (column, one);
      SwCell b = sw_cell_get (column, other);

      if (!column->by_store && !sw_cell_equal (&a, &b)
          && (except == NULL || !g_strv_contains (except, column->name)))
        return column->name;
    }
  return NULL;
}

/* ---- ids ---- */

/* IS NOT DISTINCT FROM: an empty key finds the rows where the column is empty. */
static GArray *
select_ids (
    SwStore *store, const SwTableInfo *info, const char *column, const SwCell *cell, GError **error)
{
  g_autofree char *sql
      = column == NULL
            ? g_strdup_printf ("SELECT id FROM %s WHERE voided = 0 ORDER BY id", info->name)
            : g_strdup_printf ("SELECT id FROM %s WHERE voided = 0 AND %s IS NOT DISTINCT FROM ?"
                               " ORDER BY id",
                               info->name, column);

  return sw_sql_ids (store, sql, cell, column == NULL ? 0 : 1, error);
}

/* What an integer means in that column: an enum's value is a word in the file. */
static SwCell
make_key (const SwColumn *column, gint64 value)
{
  if (column->type == SW_COLUMN_ID || column->type == SW_COLUMN_TIME)
    return sw_cell_id (value);
  if (column->type == SW_COLUMN_WORD)
    return sw_cell_text (sw_column_word (column, value));
  return sw_cell_integer (value);
}

GArray *
sw_record_ids (SwStore *store, SwTable table, const char *column, gint64 value, GError **error)
{
  const SwTableInfo *info = sw_table_info (table);
  const SwColumn *found;
  SwCell key;

  g_return_val_if_fail (store != NULL && info != NULL, NULL);
  if (column == NULL)
    return select_ids (store, info, NULL, NULL, error);
  found = sw_table_find_column (info, column);
  g_return_val_if_fail (found != NULL && !is_text (found) && found->type != SW_COLUMN_REAL, NULL);
  key = make_key (found, value);
  return select_ids (store, info, column, &key, error);
}

GArray *
sw_record_ids_by_text (
    SwStore *store, SwTable table, const char *column, const char *value, GError **error)
{
  const SwTableInfo *info = sw_table_info (table);
  const SwColumn *found;
  SwCell key = sw_cell_text (value);

  g_return_val_if_fail (store != NULL && info != NULL && column != NULL, NULL);
  found = sw_table_find_column (info, column);
  g_return_val_if_fail (found != NULL && (is_text (found) || found->type == SW_COLUMN_WORD), NULL);
  return select_ids (store, info, column, &key, error);
}

GArray *
sw_record_voided_ids (SwStore *store, SwTable table, GError **error)
{
  const SwTableInfo *info = sw_table_info (table);
  g_autofree char *sql = NULL;

  g_return_val_if_fail (store != NULL && info != NULL, NULL);
  sql = g_strdup_printf ("SELECT id FROM %s WHERE voided = 1 ORDER BY id", info->name);
  return sw_sql_ids (store, sql, NULL, 0, error);
}
