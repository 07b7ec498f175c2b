/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of earlier versions, opened for writing by this program: nothing of what they hold changes,
 * and they become what a fresh file is. What they held is read by the sqlite3 shell before and
 * after, so that no reader of ours stands between. */
#include "records/store-private.h"
#include "records/verify.h"
#include "stored.h"

#include <stdlib.h>
#include <string.h>

#define TABLES_SQL                                                                                 \
  "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name"
#define SCHEMA_SQL                                                                                 \
  "SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name"

/* The lines of an answer of the shell. (transfer full) */
static char **
ask_lines (Fixture *fixture, const char *sql)
{
  g_autofree char *answer = g_strchomp (fixture_sql (fixture, sql));

  return *answer != '\0' ? g_strsplit (answer, "\n", -1) : g_new0 (char *, 1);
}

static char **
ask_columns (Fixture *fixture, const char *table)
{
  g_autofree char *sql
      = g_strdup_printf ("SELECT name FROM pragma_table_info ('%s') ORDER BY cid", table);

  return ask_lines (fixture, sql);
}

/* SELECT of all those columns as SQL literals, one line a row; the journal only up to @last_seq.
 * (transfer full) */
static char *
make_dump_sql (const char *table, char **columns, gint64 last_seq)
{
  GString *sql = g_string_new ("SELECT quote(");
  g_autofree char *list = g_strjoinv (") || ',' || quote(", columns);

  g_string_append_printf (sql, "%s) FROM %s", list, table);
  if (strcmp (table, "journal") == 0)
    g_string_append_printf (sql, " WHERE seq <= %" G_GINT64_FORMAT, last_seq);
  g_string_append (sql, " ORDER BY 1");
  return g_string_free (sql, FALSE);
}

/* What a file holds, by table: the SELECT that shows it and its answer. */
typedef struct
{
  GPtrArray *queries; /* Owned strings */
  GPtrArray *answers; /* Owned strings */
} Contents;

static void
read_contents (Fixture *fixture, const Stored *stored, Contents *contents)
{
  g_auto (GStrv) tables = ask_lines (fixture, TABLES_SQL);

  contents->queries = g_ptr_array_new_with_free_func (g_free);
  contents->answers = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; tables[i] != NULL; i++)
    {
      g_auto (GStrv) columns = ask_columns (fixture, tables[i]);
      char *sql = make_dump_sql (tables[i], columns, stored->journal_rows);

      g_ptr_array_add (contents->queries, sql);
      g_ptr_array_add (contents->answers, fixture_sql (fixture, sql));
    }
  g_assert_cmpuint (contents->queries->len, >, 0);
}

static void
assert_contents (Fixture *fixture, const Contents *contents)
{
  gsize length = 0;

  for (guint i = 0; i < contents->queries->len; i++)
    {
      g_autofree char *now = fixture_sql (fixture, contents->queries->pdata[i]);

      g_assert_cmpstr (now, ==, contents->answers->pdata[i]);
      length += strlen (now);
    }
  g_assert_cmpuint (length, >, 10000); /* the shell did answer */
}

static void
clear_contents (Contents *contents)
{
  g_ptr_array_unref (contents->queries);
  g_ptr_array_unref (contents->answers);
}

static void
migrate (Fixture *fixture)
{
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_close (fixture);
}

/* ---- tests ---- */

static void
test_rows_are_kept (Fixture *fixture, gconstpointer data)
{
  Contents contents;

  read_contents (fixture, data, &contents);
  migrate (fixture);
  assert_contents (fixture, &contents);
  clear_contents (&contents);
}

static void
test_verify_is_clean (Fixture *fixture, gconstpointer data)
{
  const Stored *stored = data;

  fixture_open (fixture, SW_OPEN_WRITE);
  g_assert_cmpint (sw_store_get_schema_version (fixture->store), ==, SW_SCHEMA_VERSION);
  fixture_assert_sound (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM journal"), ==,
                   stored->journal_rows + SW_SCHEMA_VERSION - stored->version);
  fixture_close (fixture);
  /* and once more without a migration */
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  fixture_assert_sound (fixture);
}

static void
test_schema_is_a_fresh_one (Fixture *fixture, gconstpointer data)
{
  Fixture fresh = { 0 };
  g_autofree char *expected = NULL;
  g_autofree char *found = NULL;

  fixture_set_up (&fresh, NULL);
  fixture_close (&fresh);
  migrate (fixture);
  expected = fixture_sql (&fresh, SCHEMA_SQL);
  found = fixture_sql (fixture, SCHEMA_SQL);
  g_assert_cmpstr (found, ==, expected);
  g_assert_nonnull (strstr (found, "CREATE TABLE journal"));
  fixture_tear_down (&fresh, NULL);
}

/* A table of today: its columns that the old file had not are empty, and a new table has no row.
 * @before: the old file's columns. Gives the number of new columns. */
static guint
check_table_is_empty (Fixture *fixture, const char *table, char **before)
{
  g_auto (GStrv) columns = ask_columns (fixture, table);
  guint added = 0;

  for (guint i = 0; columns[i] != NULL; i++)
    {
      g_autofree char *sql
          = g_strdup_printf ("SELECT count(%s) FROM %s%s", columns[i], table,
                             strcmp (table, "journal") == 0 ? " WHERE action <> 'migrate'" : "");
      g_autofree char *count = NULL;

      if (g_strv_contains ((const char *const *)before, columns[i]))
        continue;
      count = g_strchomp (fixture_sql (fixture, sql));
      g_assert_cmpstr (count, ==, "0");
      added++;
    }
  return added;
}

static void
test_what_is_new_is_empty (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GHashTable) before
      = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify)g_strfreev);
  g_auto (GStrv) old_tables = ask_lines (fixture, TABLES_SQL);
  g_auto (GStrv) tables = NULL;
  char *none[] = { NULL };
  guint added = 0;

  for (guint i = 0; old_tables[i] != NULL; i++)
    g_hash_table_insert (before, g_strdup (old_tables[i]), ask_columns (fixture, old_tables[i]));
  migrate (fixture);
  tables = ask_lines (fixture, TABLES_SQL);
  for (guint i = 0; tables[i] != NULL; i++)
    {
      char **columns = g_hash_table_lookup (before, tables[i]);

      added += check_table_is_empty (fixture, tables[i], columns != NULL ? columns : none);
    }
  g_assert_cmpuint (added, >, 0);
}

/* The journal's rows of the migrations name the schema files as sha256sum knows them. */
static void
test_journal_names_the_files (Fixture *fixture, gconstpointer data)
{
  const Stored *stored = data;

  migrate (fixture);
  for (int version = stored->version + 1; version <= SW_SCHEMA_VERSION; version++)
    {
      g_autofree char *folder = sw_test_source_path ("data/schema");
      g_autofree char *expected
          = fixture_run ("cd %s && sha256sum %03d-*.sql | sed 's/^\\([0-9a-f]*\\)  \\(.*\\)$/"
                         "new.\\2=\\1/' | LC_ALL=C sort",
                         folder, version);
      g_autofree char *sql
          = g_strdup_printf ("SELECT entry FROM journal WHERE seq = %" G_GINT64_FORMAT
                             " AND action = 'migrate' AND table_name = 'schema' AND row_id = %d",
                             stored->journal_rows + version - stored->version, version);
      g_autofree char *entry = fixture_sql (fixture, sql);
      const char *lines = strstr (entry, "new.");

      g_assert_nonnull (lines);
      g_assert_cmpstr (lines, ==, expected);
    }
}

/* ---- the stored files themselves ---- */

/* Whoever adds a migration adds the file that the version before wrote. */
static void
test_every_version_is_stored (void)
{
  g_assert_cmpuint (stored_n_files, ==, SW_SCHEMA_VERSION - 1);
  for (gsize i = 0; i < stored_n_files; i++)
    {
      Fixture fixture = { 0 };
      g_autofree char *version = NULL;
      g_autofree char *rows = NULL;

      g_assert_cmpint (stored_files[i].version, ==, (int)i + 1);
      stored_set_up (&fixture, &stored_files[i]);
      version = g_strchomp (fixture_sql (&fixture, "PRAGMA user_version"));
      rows = g_strchomp (
          fixture_sql (&fixture, "SELECT count(*) || ' ' || max(utc_ms) FROM journal"));
      g_assert_cmpint (atoi (version), ==, (int)i + 1);
      g_assert_cmpint (g_ascii_strtoll (rows, NULL, 10), ==, stored_files[i].journal_rows);
      g_assert_cmpint (g_ascii_strtoll (strchr (rows, ' '), NULL, 10), ==, stored_files[i].last_ms);
      fixture_tear_down (&fixture, NULL);
    }
}

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add (const Stored *stored, const char *name, TestFunc func)
{
  g_autofree char *path = g_strdup_printf ("/records/migrate/%s/%s", stored->name, name);

  g_test_add (path, Fixture, stored, stored_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/records/migrate/every-version-is-stored", test_every_version_is_stored);
  for (gsize i = 0; i < stored_n_files; i++)
    {
      add (&stored_files[i], "rows-are-kept", test_rows_are_kept);
      add (&stored_files[i], "verify-is-clean", test_verify_is_clean);
      add (&stored_files[i], "schema-is-a-fresh-one", test_schema_is_a_fresh_one);
      add (&stored_files[i], "what-is-new-is-empty", test_what_is_new_is_empty);
      add (&stored_files[i], "journal-names-the-files", test_journal_names_the_files);
    }
  return g_test_run ();
}
