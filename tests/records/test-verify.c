/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Verify finds what another tool did: every column of every table altered through the sqlite3
 * shell, with the triggers put back word for word, so that nothing but the data differs. */
#include "fixture.h"
#include "records/store-private.h"
#include "records/verify.h"

#include <gio/gio.h>
#include <string.h>

/* The file that every test starts from: made once, copied for each. */
static char *master;

typedef struct
{
  SwTable table;
  int column; /* of the descriptor; -1 = id, -2 = journal_seq */
} Place;

/* A table's triggers, as the shell prints them, each ended by a semicolon. (transfer full) */
static char *
read_triggers (Fixture *fixture, const char *table)
{
  g_autofree char *sql = g_strdup_printf (
      "SELECT sql || ';' FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = '%s'", table);

  return fixture_sql (fixture, sql);
}

/* Runs @sql on the closed file with the table's triggers out of the way and back after. */
static void
tamper (Fixture *fixture, const char *table, const char *sql)
{
  g_autofree char *triggers = read_triggers (fixture, table);
  g_autofree char *script = g_strdup_printf ("PRAGMA ignore_check_constraints = ON;"
                                             "DROP TRIGGER %s_insert; DROP TRIGGER %s_update;"
                                             "DROP TRIGGER %s_delete; %s; %s",
                                             table, table, table, sql, triggers);
  g_autofree char *output = NULL;

  g_assert_nonnull (strstr (triggers, "BEGIN"));
  output = fixture_sql (fixture, script);
  g_assert_cmpstr (output, ==, "");
}

static void
copy_master (Fixture *fixture, gconstpointer data)
{
  g_autofree char *contents = NULL;
  gsize length;

  fixture_set_up_folder (fixture, data);
  g_assert_true (g_file_get_contents (master, &contents, &length, NULL));
  g_assert_true (g_file_set_contents (fixture->path, contents, (gssize)length, NULL));
}

/* (transfer full) */
static SwVerifyReport *
verify (Fixture *fixture)
{
  SwVerifyReport *report;
  GError *error = NULL;

  fixture_open (fixture, SW_OPEN_READ_ONLY);
  report = sw_verify_full (fixture->store, NULL, NULL, &error);
  g_assert_no_error (error);
  fixture_close (fixture);
  return report;
}

/* NULL column: any. The first finding of the kind at that place. */
static const SwFinding *
find (SwVerifyReport *report, SwFindingKind kind, const char *table, gint64 row, const char *column)
{
  for (guint i = 0; i < report->findings->len; i++)
    {
      const SwFinding *finding = report->findings->pdata[i];

      if (finding->kind == kind && g_strcmp0 (finding->table, table) == 0 && finding->row == row
          && (column == NULL || g_strcmp0 (finding->column, column) == 0))
        return finding;
    }
  return NULL;
}

static guint
count_kind (SwVerifyReport *report, SwFindingKind kind)
{
  guint count = 0;

  for (guint i = 0; i < report->findings->len; i++)
    if (((SwFinding *)report->findings->pdata[i])->kind == kind)
      count++;
  return count;
}

/* ---- one column of one row ---- */

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
  const Place *place = data;
  const SwTableInfo *info = sw_table_info (place->table);
  const SwColumn *column = sw_table_column (info, (guint)place->column);
  g_autofree char *value = make_other_value (column);
  g_autofree char *sql
      = g_strdup_printf ("UPDATE %s SET %s = %s WHERE id = 1", info->name, column->name, value);
  g_autoptr (SwVerifyReport) report = NULL;
  const SwFinding *finding;

  tamper (fixture, info->name, sql);
  report = verify (fixture);
  finding = find (report, SW_FINDING_ROW_CHANGED, info->name, 1, column->name);
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->seq, >, 0);
  g_assert_cmpstr (finding->expected, !=, finding->found);
  g_assert_cmpuint (count_kind (report, SW_FINDING_ROW_CHANGED), ==, 1);
  g_assert_cmpuint (count_kind (report, SW_FINDING_SCHEMA), ==, 0);
}

/* ---- whole rows ---- */

static void
test_id (Fixture *fixture, gconstpointer data)
{
  const char *table = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  g_autofree char *sql = g_strdup_printf ("UPDATE %s SET id = 1000 WHERE id = 1", table);
  g_autoptr (SwVerifyReport) report = NULL;

  tamper (fixture, table, sql);
  report = verify (fixture);
  g_assert_nonnull (find (report, SW_FINDING_ROW_UNKNOWN, table, 1000, NULL));
  g_assert_nonnull (find (report, SW_FINDING_ROW_MISSING, table, 1, NULL));
}

static void
test_journal_seq (Fixture *fixture, gconstpointer data)
{
  const char *table = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  g_autofree char *sql
      = g_strdup_printf ("UPDATE %s SET journal_seq = journal_seq - 1 WHERE id = 1", table);
  g_autoptr (SwVerifyReport) report = NULL;

  tamper (fixture, table, sql);
  report = verify (fixture);
  g_assert_nonnull (find (report, SW_FINDING_ROW_CHANGED, table, 1, "journal_seq"));
}

static void
test_delete (Fixture *fixture, gconstpointer data)
{
  const char *table = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  g_autofree char *sql = g_strdup_printf ("DELETE FROM %s WHERE id = 1", table);
  g_autoptr (SwVerifyReport) report = NULL;

  tamper (fixture, table, sql);
  report = verify (fixture);
  g_assert_nonnull (find (report, SW_FINDING_ROW_MISSING, table, 1, NULL));
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
  report = verify (fixture);
  g_assert_nonnull (find (report, SW_FINDING_ROW_UNKNOWN, table, 77, NULL));
}

/* ---- journal ---- */

typedef struct
{
  const char *name;
  const char *sql;
  gint64 row;         /* the finding's seq */
  const char *column; /* the finding's column, NULL = any */
} JournalCase;

static const JournalCase journal_cases[] = {
  { "act", "UPDATE journal SET act = act + 1 WHERE seq = 5", 5, "act" },
  { "kind", "UPDATE journal SET kind = 'dose' WHERE seq = 5", 5, "kind" },
  { "utc_ms", "UPDATE journal SET utc_ms = utc_ms + 1 WHERE seq = 5", 5, "utc_ms" },
  { "offset_min", "UPDATE journal SET offset_min = 0 WHERE seq = 5", 5, "offset_min" },
  { "person", "UPDATE journal SET person = 1 WHERE seq = 5", 5, NULL },
  { "person-zero", "UPDATE journal SET person = 0 WHERE seq = 5", 5, "person" },
  { "identified", "UPDATE journal SET identified_by = 'secret' WHERE seq = 5", 5, "identified_by" },
  { "workstation", "UPDATE journal SET workstation = 'x' WHERE seq = 5", 5, "workstation" },
  { "version", "UPDATE journal SET version = '9' WHERE seq = 5", 5, "version" },
  { "reason", "UPDATE journal SET reason = 'as agreed' WHERE seq = 5", 5, "reason" },
  { "clock", "UPDATE journal SET clock_back_ms = 0 WHERE seq = 5", 5, "clock_back_ms" },
  { "action", "UPDATE journal SET action = 'void' WHERE seq = 5", 5, "action" },
  { "table", "UPDATE journal SET table_name = 'lot' WHERE seq = 5", 5, "table" },
  { "row", "UPDATE journal SET row_id = row_id + 1 WHERE seq = 5", 5, "row" },
  { "prior", "UPDATE journal SET prior_seq = 4 WHERE seq = 5", 5, "prior_seq" },
  { "text-after-nul",
    "UPDATE journal SET workstation = workstation || char(0) || 'x' WHERE seq = 5", 5,
    "workstation" },
  { "hash", "UPDATE journal SET hash = replace(hash, substr(hash, 9, 1), 'g') WHERE seq = 5", 5,
    "hash" },
  { "entry", "UPDATE journal SET entry = entry || ' ' WHERE seq = 5", 5, "hash" },
  { "entry-inside",
    "UPDATE journal SET entry = replace(entry, 'new.late=0', 'new.late=1')"
    " WHERE seq = 5",
    5, "hash" },
  { "next-breaks", "UPDATE journal SET hash = replace(hash, substr(hash, 9, 1), 'a') WHERE seq = 5",
    6, "previous hash" },
  { "delete-inside", "DELETE FROM journal WHERE seq = 5", 6, "seq" },
  { "delete-first", "DELETE FROM journal WHERE seq = 1", 2, "seq" },
  { "forged-end",
    "INSERT INTO journal SELECT seq + 1, act, kind, utc_ms, offset_min, person, identified_by,"
    " workstation, version, reason, clock_back_ms, action, table_name, row_id, prior_seq, entry,"
    " hash FROM journal ORDER BY seq DESC LIMIT 1",
    0, NULL },
};

static void
test_journal (Fixture *fixture, gconstpointer data)
{
  const JournalCase *row = data;
  g_autoptr (SwVerifyReport) report = NULL;
  gint64 at = row->row;

  tamper (fixture, "journal", row->sql);
  report = verify (fixture);
  if (at == 0)
    at = report->journal_rows;
  g_assert_nonnull (find (report, SW_FINDING_CHAIN, "journal", at, row->column));
}

/* The last journal row gone: the record that it speaks of has no word in the journal any more. */
static void
test_truncated (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = NULL;

  tamper (fixture, "journal", "DELETE FROM journal WHERE seq = (SELECT max(seq) FROM journal)");
  report = verify (fixture);
  g_assert_nonnull (find (report, SW_FINDING_ROW_UNKNOWN, "decision", 1, NULL));
}

/* ---- schema ---- */

typedef struct
{
  const char *name;
  const char *sql;
  const char *text;
} SchemaCase;

static const SchemaCase schema_cases[] = {
  { "trigger-dropped", "DROP TRIGGER reading_update", "trigger reading_update" },
  { "trigger-weakened",
    "DROP TRIGGER reading_delete; CREATE TRIGGER reading_delete BEFORE DELETE ON reading"
    " BEGIN SELECT 1; END",
    "trigger reading_delete" },
  { "journal-trigger", "DROP TRIGGER journal_delete", "trigger journal_delete" },
  { "index-dropped", "DROP INDEX decision_by_plan", "index decision_by_plan" },
  { "view-changed", "DROP VIEW audit_plan; CREATE VIEW audit_plan AS SELECT 1", "view audit_plan" },
  { "table-added", "CREATE TABLE extra (x)", "table extra" },
  { "column-added", "ALTER TABLE site ADD COLUMN extra TEXT", "table site" },
  { "statistics", "ANALYZE", "table sqlite_stat1" },
};

static void
test_schema (Fixture *fixture, gconstpointer data)
{
  const SchemaCase *row = data;
  g_autofree char *output = fixture_sql (fixture, row->sql);
  g_autoptr (SwVerifyReport) report = verify (fixture);

  g_assert_cmpuint (count_kind (report, SW_FINDING_SCHEMA), >=, 1);
  for (guint i = 0; i < report->findings->len; i++)
    if (g_strcmp0 (((SwFinding *)report->findings->pdata[i])->text, row->text) == 0)
      return;
  g_error ("%s was not found", row->text);
}

/* ---- pages and references ---- */

static void
test_reference (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = NULL;

  tamper (fixture, "lot", "UPDATE lot SET product = 99 WHERE id = 1");
  report = verify (fixture);
  g_assert_nonnull (find (report, SW_FINDING_INTEGRITY, "lot", 1, NULL));
}

/* A value that the schema's CHECK forbids. A connection that only reads does not parse CHECKs, so
 * there the journal alone finds it; for writing the file is refused. */
static void
test_check_broken (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = NULL;
  g_autoptr (GError) error = NULL;

  tamper (fixture, "person", "UPDATE person SET role = 'king' WHERE id = 1");
  report = verify (fixture);
  g_assert_nonnull (find (report, SW_FINDING_ROW_CHANGED, "person", 1, "role"));
  g_assert_null (sw_store_open (fixture->path, SW_OPEN_WRITE, &fixture->clock, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DAMAGED);
}

/* ---- nothing to find ---- */

static void
test_sound (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = verify (fixture);
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

  g_test_add (path, Fixture, data, copy_master, func, fixture_tear_down);
}

static void
add_columns (SwTable table)
{
  const SwTableInfo *info = sw_table_info (table);

  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      g_autofree char *group = g_strconcat ("column/", info->name, NULL);
      Place *place = g_new (Place, 1); /* lives as long as the program */

      *place = (Place){ .table = table, .column = (int)i };
      add (group, sw_table_column (info, i)->name, place, test_column);
    }
}

static void
make_master (Fixture *fixture)
{
  FixturePlant plant;

  fixture_set_up (fixture, NULL);
  fixture_plant (fixture, &plant);
  fixture_close (fixture);
  master = fixture->path;
}

int
main (int argc, char **argv)
{
  Fixture fixture = { 0 };
  int status;

  g_test_init (&argc, &argv, NULL);
  make_master (&fixture);
  for (int i = 0; i < SW_N_TABLES; i++)
    {
      const char *name = sw_table_name ((SwTable)i);

      add_columns ((SwTable)i);
      add ("id", name, GINT_TO_POINTER (i), test_id);
      add ("journal-seq", name, GINT_TO_POINTER (i), test_journal_seq);
      add ("delete", name, GINT_TO_POINTER (i), test_delete);
      add ("insert", name, GINT_TO_POINTER (i), test_insert);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (journal_cases); i++)
    add ("journal", journal_cases[i].name, &journal_cases[i], test_journal);
  for (gsize i = 0; i < G_N_ELEMENTS (schema_cases); i++)
    add ("schema", schema_cases[i].name, &schema_cases[i], test_schema);
  add ("journal", "truncated", NULL, test_truncated);
  add ("integrity", "reference", NULL, test_reference);
  add ("integrity", "check", NULL, test_check_broken);
  add ("sound", "plain", NULL, test_sound);
  add ("sound", "after-changes", NULL, test_sound_after_changes);
  add ("sound", "progress", NULL, test_progress);
  status = g_test_run ();
  fixture_tear_down (&fixture, NULL);
  return status;
}
