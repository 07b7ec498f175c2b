/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chain: every journal row against the one before it, its own entry and its own columns.
 *
 * On the way each record's last journal row is noted; verify-rows.c starts from there. A quick run
 * takes both, up to a checkpoint, from the file as they stand.
 */
#include "records/journal-private.h"
#include "records/verify-private.h"

#include <string.h>

#define STEP_ROWS 256
#define JOURNAL_SQL                                                                                \
  "SELECT seq, act, kind, utc_ms, offset_min, person, identified_by, workstation, version, "       \
  "reason,"                                                                                        \
  " clock_back_ms, action, table_name, row_id, prior_seq, entry, hash, clock_ahead_ms"             \
  " FROM journal WHERE seq > ? ORDER BY seq"
#define HEADS_SQL                                                                                  \
  "SELECT table_name, row_id, max(seq) FROM journal WHERE seq <= ? GROUP BY table_name, row_id"

static void
add_chain (
    SwVerifyRun *run, gint64 seq, const char *column, const char *expected, const char *found)
{
  const SwFinding finding = { .kind = SW_FINDING_CHAIN,
                              .table = (char *)"journal",
                              .column = (char *)column,
                              .row = seq,
                              .seq = seq,
                              .expected = (char *)expected,
                              .found = (char *)found };

  sw_verify_add (run, &finding);
}

static void
add_chain_number (SwVerifyRun *run, gint64 seq, const char *column, gint64 expected, gint64 found)
{
  g_autofree char *a = g_strdup_printf ("%" G_GINT64_FORMAT, expected);
  g_autofree char *b = g_strdup_printf ("%" G_GINT64_FORMAT, found);

  add_chain (run, seq, column, a, b);
}

static const char *
text_at (sqlite3_stmt *statement, int index)
{
  return (const char *)sqlite3_column_text (statement, index);
}

static SwJournalRow
read_row (sqlite3_stmt *statement)
{
  return (SwJournalRow){ .seq = sqlite3_column_int64 (statement, 0),
                         .act = sqlite3_column_int64 (statement, 1),
                         .kind = text_at (statement, 2),
                         .utc_ms = sqlite3_column_int64 (statement, 3),
                         .offset_min = sqlite3_column_int64 (statement, 4),
                         .person = sqlite3_column_int64 (statement, 5),
                         .identified_by = text_at (statement, 6),
                         .workstation = text_at (statement, 7),
                         .version = text_at (statement, 8),
                         .reason = text_at (statement, 9),
                         .clock_back_ms = sqlite3_column_int64 (statement, 10),
                         .clock_ahead_ms = sqlite3_column_int64 (statement, 17),
                         .action = text_at (statement, 11),
                         .table = text_at (statement, 12),
                         .row = sqlite3_column_int64 (statement, 13),
                         .prior_seq = sqlite3_column_int64 (statement, 14) };
}

/* Names the first header line where entry and columns part: "person=3" against "person=4". */
static void
add_header_difference (SwVerifyRun *run, gint64 seq, const char *header, const char *entry)
{
  g_auto (GStrv) by_columns = g_strsplit (header, "\n", -1);
  g_auto (GStrv) by_entry = g_strsplit (entry, "\n", -1);
  g_autofree char *column = NULL;
  guint i = 0;

  while (by_columns[i] != NULL && g_strcmp0 (by_columns[i], by_entry[i]) == 0)
    i++;
  if (i == 0)
    column = g_strdup ("previous hash");
  else if (by_columns[i] != NULL)
    column = g_strndup (by_columns[i], strcspn (by_columns[i], "="));
  else
    column = g_strdup ("entry");
  add_chain (run, seq, column, by_entry[i], by_columns[i]);
}

/* The columns are copies of the entry's header, for queries; the hash holds the entry only. */
static void
check_header (SwVerifyRun *run, const SwJournalRow *row, const char *entry, const char *previous)
{
  g_autoptr (GString) header = sw_journal_header (row, previous);
  gsize length = header->len;

  if (!g_str_has_prefix (entry, header->str) || (entry[length] != '\n' && entry[length] != '\0'))
    add_header_difference (run, row->seq, header->str, entry);
  else if (entry[length] == '\n' && !g_str_has_prefix (entry + length, "\nnew.")
           && !g_str_has_prefix (entry + length, "\nold."))
    add_header_difference (run, row->seq, header->str, entry);
}

/* The header knows no difference between an empty number and 0, nor what follows a NUL in a text; a
 * query does. */
static void
check_forms (SwVerifyRun *run, sqlite3_stmt *statement)
{
  gint64 seq = sqlite3_column_int64 (statement, 0);

  for (int i = 0; i < sqlite3_column_count (statement); i++)
    {
      const char *name = sqlite3_column_name (statement, i);
      gboolean zero = sqlite3_column_type (statement, i) == SQLITE_INTEGER
                      && sqlite3_column_int64 (statement, i) == 0;
      const char *text = text_at (statement, i);

      if (text != NULL && strlen (text) != (gsize)sqlite3_column_bytes (statement, i))
        add_chain (run, seq, name, NULL, text);
      else if (zero && strcmp (name, "offset_min") != 0)
        add_chain (run, seq, name, NULL, text);
    }
}

static void
check_hash (SwVerifyRun *run, sqlite3_stmt *statement, const char *entry, const char *hash)
{
  g_autofree char *expected = sw_journal_hash (entry, (gsize)sqlite3_column_bytes (statement, 15));

  if (strcmp (expected, hash) != 0)
    add_chain (run, sqlite3_column_int64 (statement, 0), "hash", expected, hash);
}

/* prior_seq must be the last row that spoke of the same record; then this one is the last. */
static void
follow_record (SwVerifyRun *run, const SwJournalRow *row)
{
  SwTable table;
  const gint64 *head;
  gint64 last;

  if (!sw_table_from_name (row->table, &table))
    return;
  head = g_hash_table_lookup (run->heads[table], &row->row);
  last = head != NULL ? *head : 0;
  if (last != row->prior_seq)
    add_chain_number (run, row->seq, "prior_seq", last, row->prior_seq);
  g_hash_table_replace (run->heads[table], g_memdup2 (&row->row, sizeof row->row),
                        g_memdup2 (&row->seq, sizeof row->seq));
}

/* After a broken row the chain goes on from the hash that stands there, so that one change is one
 * finding or two, and not one for every later row. */
static void
check_row (SwVerifyRun *run, sqlite3_stmt *statement, gint64 expected_seq, char *previous)
{
  const SwJournalRow row = read_row (statement);
  const char *entry = text_at (statement, 15);
  const char *hash = text_at (statement, 16);

  if (row.seq != expected_seq)
    add_chain_number (run, row.seq, "seq", expected_seq, row.seq);
  check_forms (run, statement);
  check_header (run, &row, entry, previous);
  check_hash (run, statement, entry, hash);
  follow_record (run, &row);
  g_strlcpy (previous, hash, SW_HASH_LENGTH + 1);
}

/* The last journal row of each record, up to @seq. */
static gboolean
load_heads (SwVerifyRun *run, gint64 seq, GError **error)
{
  sqlite3_stmt *statement = sw_sql_prepare (run->store, HEADS_SQL, error);
  const SwCell key = sw_cell_integer (seq);
  int code;

  if (statement == NULL)
    return FALSE;
  sw_sql_bind (statement, &key, 1);
  while ((code = sw_sql_step (run->store, statement, error)) == SQLITE_ROW)
    {
      SwTable table;
      gint64 row = sqlite3_column_int64 (statement, 1);
      gint64 head = sqlite3_column_int64 (statement, 2);

      if (sw_table_from_name (text_at (statement, 0), &table))
        g_hash_table_replace (run->heads[table], g_memdup2 (&row, sizeof row),
                              g_memdup2 (&head, sizeof head));
    }
  sqlite3_reset (statement);
  return code == SQLITE_DONE;
}

/* Where the chain is looked at from, and the hash before. */
static gboolean
find_start (SwVerifyRun *run, char *previous, gint64 *seq, GError **error)
{
  const SwTrustLine *start = NULL;

  memset (previous, '0', SW_HASH_LENGTH);
  previous[SW_HASH_LENGTH] = '\0';
  *seq = 0;
  if (!run->options->quick)
    return TRUE;
  if (!sw_verify_find_start (run, &start, error))
    return FALSE;
  if (start == NULL)
    return TRUE;
  g_strlcpy (previous, start->head, SW_HASH_LENGTH + 1);
  *seq = start->seq;
  run->report->chain_from = start->seq + 1;
  run->report->journal_rows = start->seq;
  return load_heads (run, start->seq, error);
}

gboolean
sw_verify_journal (SwVerifyRun *run, GError **error)
{
  sqlite3_stmt *statement = sw_sql_prepare (run->store, JOURNAL_SQL, error);
  char previous[SW_HASH_LENGTH + 1];
  SwCell after = sw_cell_integer (0);
  gint64 seq = 0;
  int code;

  if (statement == NULL || !find_start (run, previous, &seq, error))
    return FALSE;
  after = sw_cell_integer (seq);
  sw_sql_bind (statement, &after, 1);
  while ((code = sw_sql_step (run->store, statement, error)) == SQLITE_ROW)
    {
      if (run->report->journal_rows % STEP_ROWS == 0
          && !sw_verify_step (run, run->report->journal_rows, error))
        break;
      check_row (run, statement, seq + 1, previous);
      seq = sqlite3_column_int64 (statement, 0);
      run->report->journal_rows++;
    }
  sqlite3_reset (statement);
  run->report->head = g_strdup (previous);
  return code == SQLITE_DONE && sw_verify_step (run, run->report->journal_rows, error);
}
