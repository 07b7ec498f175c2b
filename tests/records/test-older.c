/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of earlier versions that are only read: an auditor's snapshot, a backup. They show today's
 * tables, verify checks them by their own schema, and not a byte of file or folder changes. */
#include "records/browse.h"
#include "records/row-private.h"
#include "records/store-private.h"
#include "records/table-private.h"
#include "records/verify.h"
#include "stored.h"
#include "tamper.h"

#include <glib/gstdio.h>
#include <string.h>

/* The folder, and the files in it: names, times, contents. (transfer full) */
static char *
describe_folder (Fixture *fixture)
{
  return fixture_run ("cd %s && ls -lad --time-style=full-iso . * && sha256sum *", fixture->folder);
}

/* Every column of every descriptor can be selected, and every record loaded. */
static void
check_tables (Fixture *fixture)
{
  guint rows = 0;

  for (int i = 0; i < SW_N_TABLES; i++)
    {
      const SwTableInfo *info = sw_table_info ((SwTable)i);
      g_autoptr (GError) error = NULL;
      g_autoptr (GArray) ids = sw_record_ids (fixture->store, (SwTable)i, NULL, 0, &error);

      g_assert_no_error (error);
      for (guint j = 0; j < ids->len; j++)
        {
          void *record
              = sw_row_load (fixture->store, (SwTable)i, g_array_index (ids, gint64, j), &error);

          g_assert_no_error (error);
          sw_row_free ((SwTable)i, record);
          rows++;
        }
      for (guint j = 0; j < sw_table_n_columns (info); j++)
        {
          g_autofree char *sql = g_strdup_printf ("SELECT count(%s) FROM %s WHERE id > 0",
                                                  sw_table_column (info, j)->name, info->name);

          g_assert_cmpint (fixture_ask (fixture, sql), >=, 0);
        }
    }
  g_assert_cmpuint (rows, >, 50);
}

static void
test_reads (Fixture *fixture, gconstpointer data)
{
  const Stored *stored = data;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  g_assert_cmpint (g_chmod (fixture->path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (fixture->folder, 0555), ==, 0);
  before = describe_folder (fixture);
  fixture_drop_rights ();
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  g_assert_cmpint (sw_store_get_schema_version (fixture->store), ==, stored->version);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM journal"), ==, stored->journal_rows);
  check_tables (fixture);
  fixture_assert_sound (fixture);
  fixture_close (fixture);
  fixture_regain_rights ();
  after = describe_folder (fixture);
  g_assert_cmpint (g_chmod (fixture->folder, 0755), ==, 0);
  g_assert_cmpstr (after, ==, before);
}

/* ---- lists ---- */

/* Every list in every state answers, each of its lines loads, and a search finds. */
static guint
browse_table (Fixture *fixture, SwTable table, SwBrowseState state, const char *search)
{
  const SwBrowseFilter filter = { .table = table, .state = state, .outcome = -1, .search = search };
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_browse_ids (fixture->store, &filter, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwBrowseRow) row
          = sw_browse_load (fixture->store, table, g_array_index (ids, gint64, i), &error);

      g_assert_no_error (error);
    }
  return ids->len;
}

static void
browse_acts (Fixture *fixture)
{
  const SwBrowseFilter filter = { .outcome = -1 };
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) acts = sw_browse_acts (fixture->store, &filter, FALSE, &error);
  guint chapters = 0;

  g_assert_no_error (error);
  for (guint i = 0; i < acts->len; i++)
    {
      g_autoptr (GPtrArray) act
          = sw_browse_act (fixture->store, g_array_index (acts, gint64, i), &error);

      g_assert_no_error (error);
      chapters += act->len;
    }
  g_assert_cmpint (chapters, ==, fixture_ask (fixture, "SELECT count(*) FROM journal"));
}

static void
test_browse (Fixture *fixture, gconstpointer data)
{
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  for (int table = 0; table < SW_N_TABLES; table++)
    {
      g_autofree char *sql
          = g_strdup_printf ("SELECT count(*) FROM %s", sw_table_name ((SwTable)table));

      for (int state = 0; state < SW_N_BROWSE_STATES; state++)
        browse_table (fixture, (SwTable)table, (SwBrowseState)state, NULL);
      g_assert_cmpint (browse_table (fixture, (SwTable)table, SW_BROWSE_ALL, NULL), ==,
                       fixture_ask (fixture, sql));
    }
  g_assert_cmpuint (browse_table (fixture, SW_TABLE_PERSON, SW_BROWSE_ALL, "invented"), ==, 5);
  g_assert_cmpuint (browse_table (fixture, SW_TABLE_SIGN_IN, SW_BROWSE_ALL, NULL), ==, 0);
  browse_acts (fixture);
}

/* ---- the views are complete ---- */

/* The names of a table's columns, sorted; those of the temporary schema's view if there is one.
 * (transfer full) */
static char *
list_columns (Fixture *fixture, const char *table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT group_concat(name, ' ') FROM (SELECT name FROM"
                                          " pragma_table_info ('%s') ORDER BY name)",
                                          table);
  char *list = NULL;
  GError *error = NULL;

  sw_sql_text (fixture->store, sql, NULL, 0, &list, &error);
  g_assert_no_error (error);
  return list;
}

/* A column that a new version adds is added to reading/N.sql of every older version, too. */
static void
test_columns (Fixture *fixture, gconstpointer data)
{
  Fixture fresh = { 0 };

  fixture_set_up (&fresh, NULL);
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  for (int i = -1; i < SW_N_TABLES; i++)
    {
      const char *table = i < 0 ? "journal" : sw_table_name ((SwTable)i);
      g_autofree char *expected = list_columns (&fresh, table);
      g_autofree char *found = list_columns (fixture, table);

      g_assert_nonnull (expected);
      g_assert_cmpstr (found, ==, expected);
    }
  fixture_tear_down (&fresh, NULL);
}

/* ---- a copy is the old file, not what was shown ---- */

static void
test_copy (Fixture *fixture, gconstpointer data)
{
  const Stored *stored = data;
  char *path = g_build_filename (fixture->folder, "copy.swlog", NULL);
  GError *error = NULL;

  fixture_open (fixture, SW_OPEN_READ_ONLY);
  sw_store_copy (fixture->store, path, &error);
  g_assert_no_error (error);
  fixture_close (fixture);
  g_free (fixture->path);
  fixture->path = path;
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  g_assert_cmpint (sw_store_get_schema_version (fixture->store), ==, stored->version);
  fixture_assert_sound (fixture);
}

/* ---- verify is not blinded by what is shown ---- */

typedef struct
{
  const char *name;
  const char *sql; /* through the sqlite3 shell; the same in every version */
  SwFindingKind kind;
  const char *text;  /* SW_FINDING_SCHEMA */
  const char *table; /* SW_FINDING_ROW_CHANGED */
  const char *column;
} Attack;

static const Attack attacks[] = {
  { "trigger-dropped", "DROP TRIGGER journal_update", SW_FINDING_SCHEMA, "trigger journal_update",
    NULL, NULL },
  { "table-of-a-shown-name", "CREATE TABLE restoration (id INTEGER PRIMARY KEY, backup TEXT)",
    SW_FINDING_SCHEMA, "table restoration", NULL, NULL },
  { "column-of-a-shown-name", "ALTER TABLE person ADD COLUMN secret_given_by INTEGER",
    SW_FINDING_SCHEMA, "table person", NULL, NULL },
  { "person-renamed",
    "DROP TRIGGER person_update; UPDATE person SET name = 'Y. Invented' WHERE id = 1",
    SW_FINDING_ROW_CHANGED, NULL, "person", "name" },
};

static gboolean
has_schema_finding (SwVerifyReport *report, const char *text)
{
  for (guint i = 0; i < report->findings->len; i++)
    {
      const SwFinding *finding = report->findings->pdata[i];

      if (finding->kind == SW_FINDING_SCHEMA && g_strcmp0 (finding->text, text) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
test_attack (Fixture *fixture, gconstpointer data)
{
  const Attack *attack = data;
  g_autofree char *output = NULL;
  g_autoptr (SwVerifyReport) report = NULL;

  stored_set_up (fixture, &stored_files[0]);
  output = fixture_sql (fixture, attack->sql);
  report = tamper_verify (fixture);
  if (attack->kind == SW_FINDING_SCHEMA)
    g_assert_true (has_schema_finding (report, attack->text));
  else
    g_assert_nonnull (tamper_find (report, attack->kind, attack->table, 1, attack->column));
}

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add (const Stored *stored, const char *name, TestFunc func)
{
  g_autofree char *path = g_strdup_printf ("/records/older/%s/%s", stored->name, name);

  g_test_add (path, Fixture, stored, stored_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < stored_n_files; i++)
    {
      add (&stored_files[i], "reads", test_reads);
      add (&stored_files[i], "browse", test_browse);
      add (&stored_files[i], "columns", test_columns);
      add (&stored_files[i], "copy", test_copy);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (attacks); i++)
    {
      g_autofree char *path = g_strconcat ("/records/older/attack/", attacks[i].name, NULL);

      g_test_add (path, Fixture, &attacks[i], NULL, test_attack, fixture_tear_down);
    }
  return g_test_run ();
}
