/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row writer: insert, update and void of any record, each with its journal row.
 *
 * Invariants
 * 1. The journal row goes in first; the record row then carries its seq (triggers ask for it).
 * 2. Only columns that differ are written and journalled; columns that the store sets are never
 * taken from the caller's struct.
 * 3. A failed write leaves the caller's struct as it was.
 */
#include "records/row-private.h"

#include "records/store-private.h"

#define LATE_AFTER_MS (15 * 60 * 1000)

/* SQLite would store any bytes; queries and exports would stumble over them later. */
static gboolean
check_texts (const SwTableInfo *info, gconstpointer record, GError **error)
{
  for (guint i = 0; i < info->n_columns; i++)
    {
      SwCell cell = sw_cell_get (&info->columns[i], record);

      if (cell.kind != SW_CELL_TEXT || g_utf8_validate (cell.text, (gssize)cell.length, NULL))
        continue;
      g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT,
                   "%s of %s is not UTF-8 text", info->columns[i].name, info->name);
      return FALSE;
    }
  return TRUE;
}

/* "new.column=value"; nothing for an empty cell. */
static void
add_line (GPtrArray *lines, const char *prefix, const SwColumn *column, const SwCell *cell)
{
  g_autofree char *text = sw_cell_to_text (cell, column->type);

  if (text != NULL)
    g_ptr_array_add (lines, g_strconcat (prefix, column->name, "=", text, NULL));
}

/* Lines of an insert: every column that is not empty. (transfer full) */
static GPtrArray *
list_all (const SwTableInfo *info, gconstpointer record)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      SwCell cell = sw_cell_get (sw_table_column (info, i), record);

      add_line (lines, "new.", sw_table_column (info, i), &cell);
    }
  return lines;
}

/* ---- insert ---- */

/* (transfer full) */
static char *
make_insert (const SwTableInfo *info)
{
  g_autoptr (GString) marks = g_string_new ("?, ?");
  GString *sql = g_string_new (NULL);

  g_string_printf (sql, "INSERT INTO %s (id, journal_seq", info->name);
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      g_string_append_printf (sql, ", %s", sw_table_column (info, i)->name);
      g_string_append (marks, ", ?");
    }
  g_string_append_printf (sql, ") VALUES (%s)", marks->str);
  return g_string_free (sql, FALSE);
}

static gboolean
run_insert (SwStore *store, const SwTableInfo *info, gconstpointer record, GError **error)
{
  const SwRecord *common = record;
  g_autofree char *sql = make_insert (info);
  g_autofree SwCell *cells = g_new (SwCell, sw_table_n_columns (info) + 2);

  cells[0] = sw_cell_integer (common->id);
  cells[1] = sw_cell_integer (common->journal_seq);
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    cells[i + 2] = sw_cell_get (sw_table_column (info, i), record);
  return sw_sql_run (store, sql, cells, sw_table_n_columns (info) + 2, error);
}

/* Nothing is ever deleted, so max + 1 is free. */
static gboolean
next_id (SwStore *store, const SwTableInfo *info, gint64 *id, GError **error)
{
  g_autofree char *sql = g_strdup_printf ("SELECT coalesce(max(id), 0) + 1 FROM %s", info->name);

  return sw_sql_integer (store, sql, NULL, 0, id, error);
}

/* What the store alone knows. */
static void
stamp_record (const SwAct *act, SwRecord *common)
{
  if (common->happened_ms == 0)
    common->happened_ms = act->now_ms;
  common->recorded_ms = act->now_ms;
  common->offset_min = act->offset_min;
  common->late = common->recorded_ms - common->happened_ms > LATE_AFTER_MS;
  common->voided = FALSE;
}

static gboolean
insert_stamped (SwStore *store, const SwTableInfo *info, gpointer record, GError **error)
{
  SwRecord *common = record;
  g_autoptr (GPtrArray) lines = list_all (info, record);

  if (!next_id (store, info, &common->id, error)
      || !sw_journal_write (store, "insert", info->name, common->id, 0, lines, error))
    return FALSE;
  /* owed: the hook gives it back when the row is written */
  sw_act_count (store, info->name, common->id, -1);
  common->journal_seq = store->act.last_seq;
  return run_insert (store, info, record, error);
}

gboolean
sw_row_insert (SwStore *store, SwTable table, gpointer record, GError **error)
{
  const SwTableInfo *info = sw_table_info (table);
  SwRecord *common = record;
  SwRecord before;

  g_return_val_if_fail (store != NULL && record != NULL, FALSE);
  before = *common;
  if (!sw_act_check_open (store, error) || !check_texts (info, record, error))
    return FALSE;
  if (common->id != 0)
    {
      g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT,
                   "%s %" G_GINT64_FORMAT " is in the file already", info->name, common->id);
      return FALSE;
    }
  stamp_record (&store->act, common);
  if (insert_stamped (store, info, record, error))
    return TRUE;
  *common = before;
  return FALSE;
}

/* ---- update ---- */

/* Compared as the file holds them: a value loaded and written back does not differ by the rounding
 * of its unit (cell.c, invariant 1). */
static gboolean
differs (const SwColumn *column, gconstpointer old, gconstpointer new)
{
  SwCell before = sw_cell_get (column, old);
  SwCell after = sw_cell_get (column, new);

  return !sw_cell_equal (&before, &after);
}

/* A happened_ms of 0 means "as it was". A new one is written down now: a sample that was begun and
 * then drawn, or typed in hours after. An amendment corrects what was written down then. */
static void
stamp_update (const SwAct *act, const SwRecord *old, SwRecord *common)
{
  gint64 happened_ms = common->happened_ms != 0 ? common->happened_ms : old->happened_ms;

  *common = *old;
  common->happened_ms = happened_ms;
  if (happened_ms == old->happened_ms || act->kind == SW_ACT_AMEND)
    return;
  common->recorded_ms = act->now_ms;
  common->late = common->recorded_ms - common->happened_ms > LATE_AFTER_MS;
}

/* Adds the columns that differ: those that a caller sets, or those that the store alone does. */
static void
find_changes (const SwTableInfo *info,
              gconstpointer old,
              gconstpointer new,
              gboolean by_store,
              GPtrArray *changes)
{
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      const SwColumn *column = sw_table_column (info, i);

      if (column->by_store == by_store && differs (column, old, new))
        g_ptr_array_add (changes, (gpointer)column);
    }
}

static GPtrArray *
list_changes (GPtrArray *changes, gconstpointer old, gconstpointer new)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < changes->len; i++)
    {
      SwCell before = sw_cell_get (changes->pdata[i], old);
      SwCell after = sw_cell_get (changes->pdata[i], new);

      add_line (lines, "old.", changes->pdata[i], &before);
      add_line (lines, "new.", changes->pdata[i], &after);
    }
  return lines;
}

/* Only the columns that changed; the statement is cached by its text. */
static gboolean
run_update (
    SwStore *store, const SwTableInfo *info, GPtrArray *changes, gconstpointer new, GError **error)
{
  g_autoptr (GString) sql = g_string_new (NULL);
  g_autofree SwCell *cells = g_new (SwCell, changes->len + 2);

  g_string_printf (sql, "UPDATE %s SET journal_seq = ?", info->name);
  cells[0] = sw_cell_integer (store->act.last_seq);
  for (guint i = 0; i < changes->len; i++)
    {
      const SwColumn *column = changes->pdata[i];

      g_string_append_printf (sql, ", %s = ?", column->name);
      cells[i + 1] = sw_cell_get (column, new);
    }
  g_string_append (sql, " WHERE id = ?");
  cells[changes->len + 1] = sw_cell_integer (((const SwRecord *)new)->id);
  return sw_sql_run (store, sql->str, cells, changes->len + 2, error);
}

static gboolean
write_changes (SwStore *store,
               const SwTableInfo *info,
               const char *action,
               GPtrArray *changes,
               gconstpointer old,
               gconstpointer new,
               GError **error)
{
  const SwRecord *common = old;
  g_autoptr (GPtrArray) lines = list_changes (changes, old, new);

  if (!sw_journal_write (store, action, info->name, common->id, common->journal_seq, lines, error))
    return FALSE;
  sw_act_count (store, info->name, common->id, -1);
  return run_update (store, info, changes, new, error);
}

/* The caller's struct takes what the store alone knows. */
gboolean
sw_row_update (SwStore *store, SwTable table, gpointer record, GError **error)
{
  const SwTableInfo *info = sw_table_info (table);
  SwRecord *common = record;
  SwRecord before;
  g_autoptr (GPtrArray) changes = g_ptr_array_new ();
  gpointer old;
  gboolean written = TRUE;

  g_return_val_if_fail (store != NULL && record != NULL, FALSE);
  before = *common;
  if (!sw_act_check_open (store, error) || !check_texts (info, record, error))
    return FALSE;
  old = sw_row_load (store, table, common->id, error);
  if (old == NULL)
    return FALSE;
  stamp_update (&store->act, old, common);
  find_changes (info, old, record, FALSE, changes);
  find_changes (info, old, record, TRUE, changes);
  if (changes->len > 0)
    written = write_changes (store, info, "update", changes, old, record, error);
  if (!written)
    *common = before;
  else if (changes->len > 0)
    common->journal_seq = store->act.last_seq;
  sw_row_free (table, old);
  return written;
}

/* ---- void ---- */

static gboolean
check_void_reason (SwStore *store, GError **error)
{
  if (store->act.reason != NULL && *store->act.reason != '\0')
    return TRUE;
  g_set_error_literal (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT,
                       "a record is taken out of use only with a reason");
  return FALSE;
}

gboolean
sw_record_void (SwStore *store, SwTable table, gint64 id, GError **error)
{
  const SwTableInfo *info = sw_table_info (table);
  g_autoptr (GPtrArray) changes = g_ptr_array_new ();
  gboolean written = TRUE;
  gpointer old;
  gpointer new;

  g_return_val_if_fail (store != NULL && info != NULL, FALSE);
  if (!sw_act_check_open (store, error) || !check_void_reason (store, error))
    return FALSE;
  old = sw_row_load (store, table, id, error);
  if (old == NULL)
    return FALSE;
  new = sw_row_copy (table, old);
  ((SwRecord *)new)->voided = TRUE;
  find_changes (info, old, new, TRUE, changes);
  if (changes->len > 0)
    written = write_changes (store, info, "void", changes, old, new, error);
  sw_row_free (table, new);
  sw_row_free (table, old);
  return written;
}
