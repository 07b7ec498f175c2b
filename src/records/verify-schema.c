/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages, references, and the schema against a fresh one of the same version: dropping a trigger is
 * the obvious way round the journal. */
#include "records/schema-private.h"
#include "records/verify-private.h"

#include <string.h>

#define SCHEMA_SQL                                                                                 \
  "SELECT type || ' ' || name, coalesce(sql, tbl_name) FROM main.sqlite_schema "                   \
  "ORDER BY type, name"

/* ---- pages and references ---- */

/* A step that fails is itself a finding: the page under it cannot be read. */
static void
add_integrity (SwVerifyRun *run, const char *table, gint64 row, const char *text)
{
  const SwFinding finding
      = { .kind = SW_FINDING_INTEGRITY, .table = (char *)table, .row = row, .text = (char *)text };

  sw_verify_add (run, &finding);
}

static gboolean
check_pages (SwVerifyRun *run, GError **error)
{
  sqlite3_stmt *statement = sw_sql_prepare (run->store, "PRAGMA integrity_check", error);
  g_autoptr (GError) failure = NULL;
  int code;

  if (statement == NULL)
    return FALSE;
  while ((code = sw_sql_step (run->store, statement, &failure)) == SQLITE_ROW)
    {
      const char *text = (const char *)sqlite3_column_text (statement, 0);

      if (g_strcmp0 (text, "ok") != 0)
        add_integrity (run, NULL, 0, text);
    }
  if (code != SQLITE_DONE)
    add_integrity (run, NULL, 0, failure->message);
  sqlite3_reset (statement);
  return TRUE;
}

static gboolean
check_references (SwVerifyRun *run, GError **error)
{
  sqlite3_stmt *statement = sw_sql_prepare (run->store, "PRAGMA foreign_key_check", error);
  g_autoptr (GError) failure = NULL;
  int code;

  if (statement == NULL)
    return FALSE;
  while ((code = sw_sql_step (run->store, statement, &failure)) == SQLITE_ROW)
    {
      g_autofree char *text = g_strdup_printf ("refers to a row of %s that is not there",
                                               (const char *)sqlite3_column_text (statement, 2));

      add_integrity (run, (const char *)sqlite3_column_text (statement, 0),
                     sqlite3_column_int64 (statement, 1), text);
    }
  if (code != SQLITE_DONE)
    add_integrity (run, NULL, 0, failure->message);
  sqlite3_reset (statement);
  return TRUE;
}

gboolean
sw_verify_integrity (SwVerifyRun *run, GError **error)
{
  return check_pages (run, error) && check_references (run, error);
}

/* ---- schema ---- */

/* "type name" to its SQL (transfer full) */
static GHashTable *
read_schema (SwStore *store, GError **error)
{
  g_autoptr (GHashTable) schema = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  sqlite3_stmt *statement = sw_sql_prepare (store, SCHEMA_SQL, error);
  int code;

  if (statement == NULL)
    return NULL;
  while ((code = sw_sql_step (store, statement, error)) == SQLITE_ROW)
    g_hash_table_insert (schema, g_strdup ((const char *)sqlite3_column_text (statement, 0)),
                         g_strdup ((const char *)sqlite3_column_text (statement, 1)));
  if (code != SQLITE_DONE)
    return NULL;
  sqlite3_reset (statement);
  return g_steal_pointer (&schema);
}

/* What the schema files make, read from a database in memory. (transfer full) */
static GHashTable *
make_schema (int version, GError **error)
{
  g_autoptr (GHashTable) statements = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  SwStore scratch = { .statements = statements };
  GHashTable *schema = NULL;
  GHashTableIter iter;
  gpointer statement;

  if (!sw_connection_open (":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL,
                           &scratch.db, error))
    return NULL;
  if (sw_schema_apply (&scratch, version, error))
    schema = read_schema (&scratch, error);
  g_hash_table_iter_init (&iter, statements);
  while (g_hash_table_iter_next (&iter, NULL, &statement))
    sqlite3_finalize (statement);
  sqlite3_close (scratch.db);
  return schema;
}

static int
compare_keys (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* Sorted keys of both, so that findings come in the same order every time. (transfer container) */
static GPtrArray *
list_keys (GHashTable *one, GHashTable *other)
{
  GPtrArray *keys = g_ptr_array_new ();
  GHashTableIter iter;
  gpointer key;

  g_hash_table_iter_init (&iter, one);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    g_ptr_array_add (keys, key);
  g_hash_table_iter_init (&iter, other);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    if (!g_hash_table_contains (one, key))
      g_ptr_array_add (keys, key);
  g_ptr_array_sort (keys, compare_keys);
  return keys;
}

gboolean
sw_verify_schema (SwVerifyRun *run, GError **error)
{
  g_autoptr (GHashTable) expected = make_schema (run->store->schema_version, error);
  g_autoptr (GHashTable) found = NULL;
  g_autoptr (GPtrArray) keys = NULL;

  if (expected == NULL)
    return FALSE;
  found = read_schema (run->store, error);
  if (found == NULL)
    return FALSE;
  keys = list_keys (expected, found);
  for (guint i = 0; i < keys->len; i++)
    {
      const char *key = keys->pdata[i];
      const SwFinding finding = { .kind = SW_FINDING_SCHEMA,
                                  .text = (char *)key,
                                  .expected = g_hash_table_lookup (expected, key),
                                  .found = g_hash_table_lookup (found, key) };

      if (g_strcmp0 (finding.expected, finding.found) != 0)
        sw_verify_add (run, &finding);
    }
  return TRUE;
}
