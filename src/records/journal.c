/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal: one row per record changed, chained by SHA-256. docs/file-format.md says how to
 * check it with the sqlite3 shell and sha256sum alone.
 *
 * Invariants
 * 1. seq counts 1, 2, 3 ... without gaps; a trigger refuses anything else.
 * 2. The first line of an entry is the hash of the row before (64 zeros for the first).
 * 3. hash = SHA-256 of the entry and one LF, hex.
 * 4. prior_seq is the last journal row that speaks of the same record; none for its insert.
 */
#include "records/journal-private.h"

#include <string.h>

#define INSERT_SQL                                                                                 \
  "INSERT INTO journal (seq, act, kind, utc_ms, offset_min, person, identified_by, workstation,"   \
  " version, reason, clock_back_ms, action, table_name, row_id, prior_seq, entry, hash)"           \
  " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
/* Version 1 of the schema had no such column, and its own row in the journal needs none. */
#define INSERT_AHEAD_SQL                                                                           \
  "INSERT INTO journal (seq, act, kind, utc_ms, offset_min, person, identified_by, workstation,"   \
  " version, reason, clock_back_ms, action, table_name, row_id, prior_seq, entry, hash,"           \
  " clock_ahead_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"

static const char *const kind_words[]
    = { "setup",  "test",    "dose",    "sign",       "amend",  "void",
        "import", "migrate", "sign_in", "checkpoint", "restore" };
static const char *const identified_words[] = { "selected", "secret", "import", "demo", "system" };

G_STATIC_ASSERT (G_N_ELEMENTS (kind_words) == SW_N_ACTS);
G_STATIC_ASSERT (G_N_ELEMENTS (identified_words) == SW_N_IDENTIFIED);

const char *
sw_identified_word (SwIdentified identified)
{
  g_return_val_if_fail ((int)identified >= 0 && identified < SW_N_IDENTIFIED, NULL);
  return identified_words[identified];
}

/* A NULL has no line. */
static void
append_text (GString *entry, const char *key, const char *value)
{
  SwCell cell = sw_cell_text (value);
  g_autofree char *text = sw_cell_to_text (&cell, SW_COLUMN_TEXT);

  if (text != NULL)
    g_string_append_printf (entry, "\n%s=%s", key, text);
}

static void
append_id (GString *entry, const char *key, gint64 value)
{
  if (value != 0)
    g_string_append_printf (entry, "\n%s=%" G_GINT64_FORMAT, key, value);
}

GString *
sw_journal_header (const SwJournalRow *row, const char *previous_hash)
{
  GString *entry = g_string_new (previous_hash);

  g_string_append_printf (entry, "\nseq=%" G_GINT64_FORMAT, row->seq);
  g_string_append_printf (entry, "\nact=%" G_GINT64_FORMAT, row->act);
  append_text (entry, "kind", row->kind);
  g_string_append_printf (entry, "\nutc_ms=%" G_GINT64_FORMAT, row->utc_ms);
  g_string_append_printf (entry, "\noffset_min=%" G_GINT64_FORMAT, row->offset_min);
  append_id (entry, "person", row->person);
  append_text (entry, "identified_by", row->identified_by);
  append_text (entry, "workstation", row->workstation);
  append_text (entry, "version", row->version);
  append_text (entry, "reason", row->reason);
  if (row->clock_back_ms != 0)
    g_string_append_printf (entry, "\nclock=back %" G_GINT64_FORMAT, row->clock_back_ms);
  if (row->clock_ahead_ms != 0)
    g_string_append_printf (entry, "\nclock=ahead %" G_GINT64_FORMAT, row->clock_ahead_ms);
  append_text (entry, "action", row->action);
  append_text (entry, "table", row->table);
  g_string_append_printf (entry, "\nrow=%" G_GINT64_FORMAT, row->row);
  append_id (entry, "prior_seq", row->prior_seq);
  return entry;
}

char *
sw_journal_hash (const char *entry, gsize length)
{
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);

  g_checksum_update (sum, (const guchar *)entry, (gssize)length);
  g_checksum_update (sum, (const guchar *)"\n", 1);
  return g_strdup (g_checksum_get_string (sum));
}

static int
compare_lines (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* The act's number is the seq of its first row. */
static SwJournalRow
describe_row (const SwStore *store, const char *action, const char *table, gint64 row, gint64 prior)
{
  const SwAct *act = &store->act;

  return (SwJournalRow){ .seq = act->last_seq + 1,
                         .act = act->number != 0 ? act->number : act->last_seq + 1,
                         .kind = kind_words[act->kind],
                         .utc_ms = act->now_ms,
                         .offset_min = act->offset_min,
                         .person = act->person,
                         .identified_by = identified_words[act->identified],
                         .workstation = act->workstation,
                         .version = SW_VERSION,
                         .reason = act->reason,
                         .clock_back_ms = act->clock_back_ms,
                         .clock_ahead_ms = act->clock_ahead_ms,
                         .action = action,
                         .table = table,
                         .row = row,
                         .prior_seq = prior };
}

static gboolean
insert_row (
    SwStore *store, const SwJournalRow *row, const char *entry, const char *hash, GError **error)
{
  const SwCell cells[] = {
    sw_cell_integer (row->seq),
    sw_cell_integer (row->act),
    sw_cell_text (row->kind),
    sw_cell_integer (row->utc_ms),
    sw_cell_integer (row->offset_min),
    sw_cell_id (row->person),
    sw_cell_text (row->identified_by),
    sw_cell_text (row->workstation),
    sw_cell_text (row->version),
    sw_cell_text (row->reason),
    sw_cell_id (row->clock_back_ms),
    sw_cell_text (row->action),
    sw_cell_text (row->table),
    sw_cell_integer (row->row),
    sw_cell_id (row->prior_seq),
    sw_cell_text (entry),
    sw_cell_text (hash),
    sw_cell_id (row->clock_ahead_ms),
  };

  if (row->clock_ahead_ms != 0)
    return sw_sql_run (store, INSERT_AHEAD_SQL, cells, G_N_ELEMENTS (cells), error);
  return sw_sql_run (store, INSERT_SQL, cells, G_N_ELEMENTS (cells) - 1, error);
}

gboolean
sw_journal_write (SwStore *store,
                  const char *action,
                  const char *table,
                  gint64 row_id,
                  gint64 prior_seq,
                  GPtrArray *lines,
                  GError **error)
{
  SwJournalRow row = describe_row (store, action, table, row_id, prior_seq);
  g_autoptr (GString) entry = sw_journal_header (&row, store->act.last_hash);
  g_autofree char *hash = NULL;

  g_ptr_array_sort (lines, compare_lines);
  for (guint i = 0; i < lines->len; i++)
    g_string_append_printf (entry, "\n%s", (const char *)lines->pdata[i]);
  hash = sw_journal_hash (entry->str, entry->len);
  if (!insert_row (store, &row, entry->str, hash, error))
    return FALSE;

  /* The update hook has counted the journal's own row, too. */
  sw_act_count (store, "journal", row.seq, -1);
  store->act.number = row.act;
  store->act.last_seq = row.seq;
  g_strlcpy (store->act.last_hash, hash, sizeof store->act.last_hash);
  return TRUE;
}

gboolean
sw_journal_last (
    SwStore *store, gint64 *seq, char hash[SW_HASH_LENGTH + 1], gint64 *utc_ms, GError **error)
{
  sqlite3_stmt *statement = sw_sql_prepare (
      store, "SELECT seq, hash, utc_ms FROM journal ORDER BY seq DESC LIMIT 1", error);
  int code;

  memset (hash, '0', SW_HASH_LENGTH);
  hash[SW_HASH_LENGTH] = '\0';
  *seq = 0;
  *utc_ms = 0;
  if (statement == NULL)
    return FALSE;
  code = sw_sql_step (store, statement, error);
  if (code == SQLITE_ROW)
    {
      *seq = sqlite3_column_int64 (statement, 0);
      g_strlcpy (hash, (const char *)sqlite3_column_text (statement, 1), SW_HASH_LENGTH + 1);
      *utc_ms = sqlite3_column_int64 (statement, 2);
      sqlite3_reset (statement);
    }
  else
    sqlite3_reset (statement);
  return code == SQLITE_ROW || code == SQLITE_DONE;
}
