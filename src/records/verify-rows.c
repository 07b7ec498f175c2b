/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every live row against the journal: what its columns should hold is the newest word about each,
 * found by walking back from the row's last journal row to its insert. */
#include "records/verify-private.h"

#include <string.h>

#define STEP_ROWS 256

/* ---- what the journal says ---- */

typedef struct
{
  const SwTableInfo *info;
  char **values;   /* Owned, by column; NULL = empty */
  gboolean *known; /* by column: a newer journal row has spoken */
} Expected;

/* One struct serves all rows of a table. */
static void
clear_expected (Expected *expected)
{
  for (guint i = 0; i < sw_table_n_columns (expected->info); i++)
    g_clear_pointer (&expected->values[i], g_free);
  memset (expected->known, 0, sizeof (gboolean) * sw_table_n_columns (expected->info));
}

static int
find_index (const SwTableInfo *info, const char *name, gsize length)
{
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      const char *column = sw_table_column (info, i)->name;

      if (strlen (column) == length && strncmp (column, name, length) == 0)
        return (int)i;
    }
  return -1;
}

/* "new.column=value" gives the value; "old.column=value" without its "new." says that it became
 * empty. "new." sorts before "old.", so a column's new value is met first. */
static void
apply_line (Expected *expected, const char *line)
{
  const char *equals = strchr (line, '=');
  gboolean is_new = g_str_has_prefix (line, "new.");
  int index;

  if (equals == NULL || (!is_new && !g_str_has_prefix (line, "old.")))
    return;
  index = find_index (expected->info, line + 4, (gsize)(equals - line) - 4);
  if (index < 0 || expected->known[index])
    return;
  expected->known[index] = TRUE;
  expected->values[index] = is_new ? g_strdup (equals + 1) : NULL;
}

static void
apply_entry (Expected *expected, const char *entry)
{
  g_auto (GStrv) lines = g_strsplit (entry, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    apply_line (expected, lines[i]);
}

/* Prior rows are always older, so a forged circle ends too. */
static gboolean
collect_expected (SwVerifyRun *run, gint64 seq, Expected *expected, GError **error)
{
  clear_expected (expected);
  while (seq > 0)
    {
      sqlite3_stmt *statement = sw_sql_prepare (
          run->store, "SELECT entry, prior_seq FROM journal WHERE seq = ?", error);
      const SwCell key = sw_cell_integer (seq);
      gint64 prior = 0;
      int code;

      if (statement == NULL)
        return FALSE;
      sw_sql_bind (statement, &key, 1);
      code = sw_sql_step (run->store, statement, error);
      if (code == SQLITE_ROW)
        {
          apply_entry (expected, (const char *)sqlite3_column_text (statement, 0));
          prior = sqlite3_column_int64 (statement, 1);
        }
      sqlite3_reset (statement);
      if (code != SQLITE_ROW && code != SQLITE_DONE)
        return FALSE;
      seq = prior < seq ? prior : 0;
    }
  return TRUE;
}

/* ---- what the table says ---- */

static void
add_row (SwVerifyRun *run, SwFindingKind kind, const char *table, gint64 row, gint64 seq)
{
  const SwFinding finding = { .kind = kind, .table = (char *)table, .row = row, .seq = seq };

  sw_verify_add (run, &finding);
}

static void
compare_column (SwVerifyRun *run,
                const SwFinding *place,
                const char *column,
                const char *expected,
                const char *found)
{
  SwFinding finding = *place;

  if (g_strcmp0 (expected, found) == 0)
    return;
  finding.column = (char *)column;
  finding.expected = (char *)expected;
  finding.found = (char *)found;
  sw_verify_add (run, &finding);
}

/* Compared as journal text: what differs there differs for a query, and the reverse (cell.c,
 * invariant 2). */
static void
compare_row (SwVerifyRun *run, sqlite3_stmt *statement, const Expected *expected, gint64 head)
{
  const SwFinding place = { .kind = SW_FINDING_ROW_CHANGED,
                            .table = (char *)expected->info->name,
                            .row = sqlite3_column_int64 (statement, 0),
                            .seq = head };
  g_autofree char *seq = g_strdup_printf ("%" G_GINT64_FORMAT, head);

  compare_column (run, &place, "journal_seq", seq,
                  (const char *)sqlite3_column_text (statement, 1));
  for (guint i = 0; i < sw_table_n_columns (expected->info); i++)
    {
      const SwColumn *column = sw_table_column (expected->info, i);
      SwCell cell = sw_cell_from_column (statement, (int)i + 2);
      g_autofree char *found = sw_cell_to_text (&cell, column->type);

      compare_column (run, &place, column->name, expected->values[i], found);
    }
}

/* A row that was found is taken off the list; what stays on it is missing. */
static gboolean
check_row (
    SwVerifyRun *run, SwTable table, sqlite3_stmt *statement, Expected *expected, GError **error)
{
  gint64 id = sqlite3_column_int64 (statement, 0);
  const gint64 *head = g_hash_table_lookup (run->heads[table], &id);

  run->report->record_rows++;
  if (run->report->record_rows % STEP_ROWS == 0
      && !sw_verify_step (run, run->report->journal_rows + run->report->record_rows, error))
    return FALSE;
  if (head == NULL)
    {
      add_row (run, SW_FINDING_ROW_UNKNOWN, expected->info->name, id, 0);
      return TRUE;
    }
  if (!collect_expected (run, *head, expected, error))
    return FALSE;
  compare_row (run, statement, expected, *head);
  g_hash_table_remove (run->heads[table], &id);
  return TRUE;
}

static int
compare_ids (gconstpointer a, gconstpointer b)
{
  gint64 one = **(const gint64 *const *)a;
  gint64 two = **(const gint64 *const *)b;

  return (one > two) - (one < two);
}

/* Whatever the journal speaks of and the table had not. */
static void
add_missing (SwVerifyRun *run, SwTable table)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new ();
  GHashTableIter iter;
  gpointer row;

  g_hash_table_iter_init (&iter, run->heads[table]);
  while (g_hash_table_iter_next (&iter, &row, NULL))
    g_ptr_array_add (rows, row);
  g_ptr_array_sort (rows, compare_ids);
  for (guint i = 0; i < rows->len; i++)
    {
      const gint64 *seq = g_hash_table_lookup (run->heads[table], rows->pdata[i]);

      add_row (run, SW_FINDING_ROW_MISSING, sw_table_name (table), *(gint64 *)rows->pdata[i], *seq);
    }
}

/* SELECT id, journal_seq, every column (transfer full) */
static char *
make_select (const SwTableInfo *info)
{
  GString *sql = g_string_new ("SELECT id, journal_seq");

  for (guint i = 0; i < sw_table_n_columns (info); i++)
    g_string_append_printf (sql, ", %s", sw_table_column (info, i)->name);
  g_string_append_printf (sql, " FROM %s ORDER BY id", info->name);
  return g_string_free (sql, FALSE);
}

static gboolean
check_table (SwVerifyRun *run, SwTable table, Expected *expected, GError **error)
{
  g_autofree char *sql = make_select (expected->info);
  sqlite3_stmt *statement = sw_sql_prepare (run->store, sql, error);
  gboolean fine = statement != NULL;
  int code = SQLITE_DONE;

  while (fine && (code = sw_sql_step (run->store, statement, error)) == SQLITE_ROW)
    fine = check_row (run, table, statement, expected, error);
  if (statement != NULL)
    sqlite3_reset (statement);
  if (!fine || code != SQLITE_DONE)
    return FALSE;
  add_missing (run, table);
  return TRUE;
}

gboolean
sw_verify_rows (SwVerifyRun *run, GError **error)
{
  gboolean fine = TRUE;

  for (int i = 0; i < SW_N_TABLES && fine; i++)
    {
      const SwTableInfo *info = sw_table_info ((SwTable)i);
      Expected expected = { .info = info,
                            .values = g_new0 (char *, sw_table_n_columns (info)),
                            .known = g_new0 (gboolean, sw_table_n_columns (info)) };

      fine = check_table (run, (SwTable)i, &expected, error);
      clear_expected (&expected);
      g_free (expected.values);
      g_free (expected.known);
    }
  return fine;
}
