/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Verify finds what another tool did: every column of every table altered through the sqlite3
 * shell, with the triggers put back word for word, so that nothing but the data differs. */
#include "tamper.h"
#include "records/store-private.h"

#include <gio/gio.h>
#include <string.h>

/* ---- one column of one row ---- */

/* A table and a column of it in one pointer: table * PLACES + column. */
#define PLACES 1000u

/* An expression that differs from what stands there, by as little as the type allows. */
static char *
make_other_value (const SwColumn *column)
{
  const char *name = column->name;

  switch (column->type)
    {
    case SW_COLUMN_TEXT:
    case SW_COLUMN_SECRET:
      return g_strdup_printf ("coalesce(%s, '') || ' '", name);
    case SW_COLUMN_WORD:
      return g_strdup_printf ("iif(%s = '%s', '%s', '%s')", name, column->words[0],
                              column->words[1], column->words[0]);
    case SW_COLUMN_BOOLEAN:
      return g_strdup_printf ("1 - %s", name);
    case SW_COLUMN_REAL:
      return g_strdup_printf ("iif(coalesce(%s, 0.0) = 0.0, 5e-324, %s * (1 + 2.3e-16))", name,
                              name);
    case SW_COLUMN_ID:
    case SW_COLUMN_TIME:
    case SW_COLUMN_INTEGER:
    default:
      return g_strdup_printf ("coalesce(%s, 0) + 1", name);
    }
}

static void
test_column (Fixture *fixture, gconstpointer data)
{
  guint place = GPOINTER_TO_UINT (data);
  const SwTableInfo *info = sw_table_info ((SwTable)(place / PLACES));
  const SwColumn *column = sw_table_column (info, place % PLACES);
  g_autofree char *value = make_other_value (column);
  g_autofree char *sql
      = g_strdup_printf ("UPDATE %s SET %s = %s WHERE id = 1", info->name, column->name, value);
  g_autoptr (SwVerifyReport) report = NULL;
  const SwFinding *finding;

  tamper_run (fixture, info->name, sql);
  report = tamper_verify (fixture);
  finding = tamper_find (report, SW_FINDING_ROW_CHANGED, info->name, 1, column->name);
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->seq, >, 0);
  g_assert_cmpstr (finding->expected, !=, finding->found);
  g_assert_cmpuint (tamper_count (report, SW_FINDING_ROW_CHANGED), ==, 1);
  g_assert_cmpuint (tamper_count (report, SW_FINDING_SCHEMA), ==, 0);
}

/* ---- whole rows ---- */

static void
test_id (Fixture *fixture, gconstpointer data)
{
  const char *table = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  g_autofree char *sql = g_strdup_printf ("UPDATE %s SET id = 1000 WHERE id = 1", table);
  g_autoptr (SwVerifyReport) report = NULL;

  tamper_run (fixture, table, sql);
  report = tamper_verify (fixture);
  g_assert_nonnull (tamper_find (report, SW_FINDING_ROW_UNKNOWN, table, 1000, NULL));
  g_assert_nonnull (tamper_find (report, SW_FINDING_ROW_MISSING, table, 1, NULL));
}

static void
test_journal_seq (Fixture *fixture, gconstpointer data)
{
  const char *table = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  g_autofree char *sql
      = g_strdup_printf ("UPDATE %s SET journal_seq = journal_seq - 1 WHERE id = 1", table);
  g_autoptr (SwVerifyReport) report = NULL;

  tamper_run (fixture, table, sql);
  report = tamper_verify (fixture);
  g_assert_nonnull (tamper_find (report, SW_FINDING_ROW_CHANGED, table, 1, "journal_seq"));
}

static void
test_delete (Fixture *fixture, gconstpointer data)
{
  const char *table = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  g_autofree char *sql = g_strdup_printf ("DELETE FROM %s WHERE id = 1", table);
  g_autoptr (SwVerifyReport) report = NULL;

  tamper_run (fixture, table, sql);
  report = tamper_verify (fixture);
  g_assert_nonnull (tamper_find (report, SW_FINDING_ROW_MISSING, table, 1, NULL));
}

/* A copy of row 1 with another id; columns that must be unique get another text. No trigger is
 * dropped: the insert carries the journal's last seq, as a careful forger would do it. */
static void
test_insert (Fixture *fixture, gconstpointer data)
{
  const char *table = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  const SwTableInfo *info = sw_table_info ((SwTable)GPOINTER_TO_INT (data));
  g_autoptr (GString) names = g_string_new ("id, journal_seq");
  g_autoptr (GString) values = g_string_new ("77, (SELECT max(seq) FROM journal)");
  g_autoptr (SwVerifyReport) report = NULL;
  g_autofree char *sql = NULL;
  g_autofree char *output = NULL;

  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      const SwColumn *column = sw_table_column (info, i);
      gboolean plain = column->type != SW_COLUMN_TEXT && column->type != SW_COLUMN_INTEGER;

      g_string_append_printf (names, ", %s", column->name);
      g_string_append_printf (
          values, plain ? ", %s" : ", iif(typeof(%1$s) = 'integer', %1$s + 70, %1$s || '!')",
          column->name);
    }
  sql = g_strdup_printf ("PRAGMA ignore_check_constraints = ON;"
                         "INSERT INTO %s (%s) SELECT %s FROM %s WHERE id = 1",
                         table, names->str, values->str, table);
  output = fixture_sql (fixture, sql);
  report = tamper_verify (fixture);
  g_assert_nonnull (tamper_find (report, SW_FINDING_ROW_UNKNOWN, table, 77, NULL));
}

/* ---- nothing to find ---- */

static void
test_sound (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = tamper_verify (fixture);
  g_autofree char *head = NULL;
  g_autofree char *rows = NULL;

  g_assert_cmpuint (report->findings->len, ==, 0);
  rows = fixture_sql (fixture, "SELECT count(*) FROM journal");
  g_assert_cmpint (report->journal_rows, ==, g_ascii_strtoll (rows, NULL, 10));
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
  head = sw_journal_head (fixture->store, NULL);
  g_assert_cmpstr (head, ==, report->head);
}

/* Values that come and go, twice in one act too. */
static void
test_sound_after_changes (Fixture *fixture, gconstpointer data)
{
  fixture_open (fixture, SW_OPEN_WRITE);
  for (int i = 0; i < 6; i++)
    {
      g_autoptr (SwMachine) machine = sw_machine_load (fixture->store, 1, NULL);

      fixture_begin (fixture, SW_ACT_AMEND, "moved\nand \\moved");
      g_clear_pointer (&machine->area, g_free);
      if (i % 2 == 0)
        machine->area = g_strdup_printf ("hall %d\nleft", i);
      machine->chamber_l = i % 3 == 0 ? NAN : 100.0 / (i + 1);
      g_assert_true (sw_machine_update (fixture->store, machine, NULL));
      machine->reserve_low = -i;
      g_assert_true (sw_machine_update (fixture->store, machine, NULL));
      fixture_commit (fixture);
    }
  fixture_begin (fixture, SW_ACT_VOID, "wrong machine");
  g_assert_true (sw_record_void (fixture->store, SW_TABLE_PLAN, 1, NULL));
  fixture_commit (fixture);
  fixture_assert_sound (fixture);
}

static gboolean
stop_cb (gint64 done, gint64 total, gpointer data)
{
  int *calls = data;

  g_assert_cmpint (done, <=, total);
  return --*calls > 0;
}

static void
test_progress (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  int calls = 1;

  fixture_open (fixture, SW_OPEN_READ_ONLY);
  g_assert_null (sw_verify_full (fixture->store, stop_cb, &calls, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_cmpint (calls, ==, 0);
  /* and the read transaction is over */
  g_assert_cmpint (sqlite3_get_autocommit (fixture->store->db), !=, 0);
}

/* ---- registration ---- */

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add (const char *group, const char *name, gconstpointer data, TestFunc func)
{
  g_autofree char *path = g_strdup_printf ("/records/verify/%s/%s", group, name);

  g_test_add (path, Fixture, data, tamper_set_up, func, fixture_tear_down);
}

static void
add_columns (SwTable table)
{
  const SwTableInfo *info = sw_table_info (table);

  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      g_autofree char *group = g_strconcat ("column/", info->name, NULL);

      add (group, sw_table_column (info, i)->name, GUINT_TO_POINTER ((guint)table * PLACES + i),
           test_column);
    }
}

int
main (int argc, char **argv)
{
  Fixture fixture = { 0 };
  int status;

  g_test_init (&argc, &argv, NULL);
  tamper_make_master (&fixture);
  for (int i = 0; i < SW_N_TABLES; i++)
    {
      const char *name = sw_table_name ((SwTable)i);

      add_columns ((SwTable)i);
      add ("id", name, GINT_TO_POINTER (i), test_id);
      add ("journal-seq", name, GINT_TO_POINTER (i), test_journal_seq);
      add ("delete", name, GINT_TO_POINTER (i), test_delete);
      add ("insert", name, GINT_TO_POINTER (i), test_insert);
    }
  add ("sound", "plain", NULL, test_sound);
  add ("sound", "after-changes", NULL, test_sound_after_changes);
  add ("sound", "progress", NULL, test_progress);
  status = g_test_run ();
  fixture_tear_down (&fixture, NULL);
  return status;
}
