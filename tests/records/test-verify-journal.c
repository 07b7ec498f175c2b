/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Verify finds what another tool did to the journal, to the schema and to references between rows.
 */
#include "tamper.h"

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
  { "clock-ahead", "UPDATE journal SET clock_ahead_ms = 61000 WHERE seq = 5", 5, "clock" },
  { "clock-ahead-zero", "UPDATE journal SET clock_ahead_ms = 0 WHERE seq = 5", 5,
    "clock_ahead_ms" },
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
    " hash, clock_ahead_ms FROM journal ORDER BY seq DESC LIMIT 1",
    0, NULL },
};

static void
test_journal (Fixture *fixture, gconstpointer data)
{
  const JournalCase *row = data;
  g_autoptr (SwVerifyReport) report = NULL;
  gint64 at = row->row;

  tamper_run (fixture, "journal", row->sql);
  report = tamper_verify (fixture);
  if (at == 0)
    at = report->journal_rows;
  g_assert_nonnull (tamper_find (report, SW_FINDING_CHAIN, "journal", at, row->column));
}

/* The last journal row gone: the record that it speaks of has no word in the journal any more. */
static void
test_truncated (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = NULL;

  tamper_run (fixture, "journal", "DELETE FROM journal WHERE seq = (SELECT max(seq) FROM journal)");
  report = tamper_verify (fixture);
  g_assert_nonnull (tamper_find (report, SW_FINDING_ROW_UNKNOWN, "restoration", 1, NULL));
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
  g_autoptr (SwVerifyReport) report = tamper_verify (fixture);

  g_assert_cmpuint (tamper_count (report, SW_FINDING_SCHEMA), >=, 1);
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

  tamper_run (fixture, "lot", "UPDATE lot SET product = 99 WHERE id = 1");
  report = tamper_verify (fixture);
  g_assert_nonnull (tamper_find (report, SW_FINDING_INTEGRITY, "lot", 1, NULL));
}

/* A value that the schema's CHECK forbids. A connection that only reads does not parse CHECKs, so
 * there the journal alone finds it; for writing the file is refused. */
static void
test_check_broken (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = NULL;
  g_autoptr (GError) error = NULL;

  tamper_run (fixture, "person", "UPDATE person SET role = 'king' WHERE id = 1");
  report = tamper_verify (fixture);
  g_assert_nonnull (tamper_find (report, SW_FINDING_ROW_CHANGED, "person", 1, "role"));
  g_assert_null (sw_store_open (fixture->path, SW_OPEN_WRITE, &fixture->clock, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DAMAGED);
}

/* ---- registration ---- */

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add (const char *group, const char *name, gconstpointer data, TestFunc func)
{
  g_autofree char *path = g_strdup_printf ("/records/verify-journal/%s/%s", group, name);

  g_test_add (path, Fixture, data, tamper_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  Fixture fixture = { 0 };
  int status;

  g_test_init (&argc, &argv, NULL);
  tamper_make_master (&fixture);
  for (gsize i = 0; i < G_N_ELEMENTS (journal_cases); i++)
    add ("journal", journal_cases[i].name, &journal_cases[i], test_journal);
  for (gsize i = 0; i < G_N_ELEMENTS (schema_cases); i++)
    add ("schema", schema_cases[i].name, &schema_cases[i], test_schema);
  add ("journal", "truncated", NULL, test_truncated);
  add ("integrity", "reference", NULL, test_reference);
  add ("integrity", "check", NULL, test_check_broken);
  status = g_test_run ();
  fixture_tear_down (&fixture, NULL);
  return status;
}
