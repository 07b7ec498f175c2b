/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of records: ids by filter, and one line of a list. */
#include "records/browse.h"

#include "records/browse-private.h"
#include "records/store-private.h"

/* ---- ids ---- */

/* Machine tags are what people search for first, whatever the table. */
static void
add_search (SwBrowseQuery *query, SwTable table, const char *search)
{
  const SwBrowseTable *browse = sw_browse_table (table);
  const char *texts[SW_BROWSE_TEXTS + 2];
  guint n = 0;

  while (n < SW_BROWSE_TEXTS && browse->texts[n] != NULL)
    {
      texts[n] = browse->texts[n];
      n++;
    }
  if (browse->machine != NULL)
    {
      texts[n++] = "place.tag";
      texts[n++] = "place.name";
    }
  sw_browse_query_search (query, search, texts, n);
}

GArray *
sw_browse_ids (SwStore *store, const SwBrowseFilter *filter, GError **error)
{
  g_auto (SwBrowseQuery) query = { 0 };
  g_autofree char *happened = NULL;
  const char *name;

  g_return_val_if_fail (store != NULL && filter != NULL, NULL);
  name = sw_table_name (filter->table);
  g_return_val_if_fail (name != NULL, NULL);
  happened = g_strconcat (name, ".happened_ms", NULL);
  sw_browse_query_init (&query);
  g_string_append_printf (query.sql, "SELECT %s.id", name);
  sw_browse_query_from (&query, filter->table);
  g_string_append (query.sql, " WHERE ");
  sw_browse_query_state (&query, filter->table, filter->state);
  sw_browse_query_place (&query, filter->table, filter);
  sw_browse_query_person (&query, filter->table, filter);
  sw_browse_query_time (&query, happened, filter);
  add_search (&query, filter->table, filter->search);
  g_string_append_printf (query.sql, " ORDER BY %s DESC, %s.id DESC", happened, name);
  return sw_sql_ids (store, query.sql->str, query.cells, query.n_cells, error);
}

/* ---- rows ---- */

void
sw_browse_row_free (SwBrowseRow *row)
{
  if (row == NULL)
    return;
  g_free (row->machine_tag);
  g_free (row->initials);
  g_free (row->title);
  g_free (row->of);
  g_free (row->word);
  g_free (row);
}

static const char *
or_null (const char *expression)
{
  return expression != NULL ? expression : "NULL";
}

/* Columns in the order of the struct, machine and person by their joined rows. */
static char *
make_select (SwTable table)
{
  const SwBrowseTable *browse = sw_browse_table (table);
  const char *name = sw_table_name (table);
  const gboolean is_test = table == SW_TABLE_TITRATION;
  const gboolean has_place = browse->machine != NULL;
  g_autofree char *amended = sw_browse_amended_sql (table);
  g_auto (SwBrowseQuery) query = { 0 };

  sw_browse_query_init (&query);
  g_string_append_printf (query.sql,
                          "SELECT %1$s.happened_ms, %1$s.offset_min, %1$s.late,"
                          " %1$s.voided, %2$s",
                          name, amended);
  g_string_append_printf (
      query.sql, ", %s, %s, who.id, who.initials, %s, %s, %s, %s, %s, %s, %s",
      has_place ? "place.id" : "NULL", has_place ? "place.tag" : "NULL", or_null (browse->title),
      or_null (browse->of), is_test ? "titration.outcome" : "NULL",
      is_test ? "titration.net_low" : "NULL", is_test ? "titration.net_high" : "NULL",
      or_null (browse->amount), or_null (browse->word));
  sw_browse_query_from (&query, table);
  g_string_append_printf (query.sql, " WHERE %s.id = ?", name);
  return g_strdup (query.sql->str);
}

static char *
dup_text (sqlite3_stmt *statement, int index)
{
  return g_strdup ((const char *)sqlite3_column_text (statement, index));
}

static double
read_real (sqlite3_stmt *statement, int index)
{
  return sqlite3_column_type (statement, index) == SQLITE_NULL
             ? NAN
             : sqlite3_column_double (statement, index);
}

/* -1: none, or a word that is damage, which verify reports. */
static int
read_outcome (sqlite3_stmt *statement, int index)
{
  const SwColumn *column = sw_table_find_column (sw_table_info (SW_TABLE_TITRATION), "outcome");
  const char *word = (const char *)sqlite3_column_text (statement, index);

  for (int i = 0; word != NULL && column->words[i] != NULL; i++)
    if (g_str_equal (column->words[i], word))
      return i;
  return -1;
}

static SwBrowseRow *
read_row (sqlite3_stmt *statement, SwTable table, gint64 id)
{
  SwBrowseRow *row = g_new0 (SwBrowseRow, 1);
  int at = 0;

  row->id = id;
  row->table = table;
  row->happened_ms = sqlite3_column_int64 (statement, at++);
  row->offset_min = sqlite3_column_int (statement, at++);
  row->late = sqlite3_column_int (statement, at++) != 0;
  row->voided = sqlite3_column_int (statement, at++) != 0;
  row->amended = sqlite3_column_int (statement, at++) != 0;
  row->machine = sqlite3_column_int64 (statement, at++);
  row->machine_tag = dup_text (statement, at++);
  row->person = sqlite3_column_int64 (statement, at++);
  row->initials = dup_text (statement, at++);
  row->title = dup_text (statement, at++);
  row->of = dup_text (statement, at++);
  row->outcome = read_outcome (statement, at++);
  row->net_low = read_real (statement, at++);
  row->net_high = read_real (statement, at++);
  row->amount_ml = sw_unit_from_si (read_real (statement, at++), SW_UNIT_ML);
  row->word = dup_text (statement, at++);
  return row;
}

SwBrowseRow *
sw_browse_load (SwStore *store, SwTable table, gint64 id, GError **error)
{
  const SwCell key = sw_cell_integer (id);
  g_autofree char *sql = NULL;
  SwBrowseRow *row = NULL;
  sqlite3_stmt *statement;
  int code;

  g_return_val_if_fail (store != NULL && sw_table_name (table) != NULL, NULL);
  sql = make_select (table);
  statement = sw_sql_prepare (store, sql, error);
  if (statement == NULL)
    return NULL;
  sw_sql_bind (statement, &key, 1);
  code = sw_sql_step (store, statement, error);
  if (code == SQLITE_ROW)
    row = read_row (statement, table, id);
  else if (code == SQLITE_DONE)
    g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NO_SUCH_ROW,
                 "there is no %s %" G_GINT64_FORMAT, sw_table_name (table), id);
  sqlite3_reset (statement);
  return row;
}
