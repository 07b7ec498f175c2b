/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal as an auditor sees it: checked with the sqlite3 shell and sha256sum, which share no
 * code with the writer; and what the triggers refuse in that shell. */
#include "fixture.h"
#include "records/schema-private.h"

#include <string.h>

#define HARD_TEXT "two\nlines, back\\slash, \ttab, \x01 control, \xe6\xb0\xb4, 'quote'"

static void
set_up_plant (Fixture *fixture, gconstpointer data)
{
  FixturePlant plant;
  g_autoptr (SwMachine) machine = NULL;

  fixture_set_up (fixture, data);
  fixture_plant (fixture, &plant);
  machine = sw_machine_load (fixture->store, plant.machine, NULL);
  machine->area = g_strdup (HARD_TEXT);
  fixture_begin (fixture, SW_ACT_AMEND, "reason with\nnewline and \\backslash");
  g_assert_true (sw_machine_update (fixture->store, machine, NULL));
  fixture_commit (fixture);
  fixture_close (fixture);
}

/* ---- hash and chain, with two outside tools ---- */

/* seq|hash|sha256sum of the entry|first line of the entry, for every row. */
static char *
list_hashes (Fixture *fixture)
{
  return fixture_run ("for n in $(sqlite3 %1$s 'select seq from journal order by seq'); do"
                      " printf '%%s|%%s|%%s|%%s\\n' $n"
                      " $(sqlite3 %1$s \"select hash from journal where seq=$n\")"
                      " $(sqlite3 %1$s \"select entry from journal where seq=$n\" | sha256sum |"
                      " cut -c1-64)"
                      " $(sqlite3 %1$s \"select entry from journal where seq=$n\" | head -n 1);"
                      " done",
                      fixture->path);
}

static void
test_hash (Fixture *fixture, gconstpointer data)
{
  g_autofree char *list = list_hashes (fixture);
  g_auto (GStrv) lines = g_strsplit (g_strchomp (list), "\n", -1);
  g_autofree char *previous = g_strnfill (64, '0');

  g_assert_cmpuint (g_strv_length (lines), >, 25);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) fields = g_strsplit (lines[i], "|", -1);

      g_assert_cmpuint (g_strv_length (fields), ==, 4);
      g_assert_cmpuint (g_ascii_strtoull (fields[0], NULL, 10), ==, i + 1);
      g_assert_cmpstr (fields[1], ==, fields[2]);
      g_assert_cmpstr (fields[3], ==, previous);
      g_free (previous);
      previous = g_strdup (fields[1]);
    }
}

/* Lines of columns are in the order of `LC_ALL=C sort`. */
static void
test_sorted (Fixture *fixture, gconstpointer data)
{
  g_autofree char *output = fixture_run (
      "for n in $(sqlite3 %1$s 'select seq from journal'); do"
      " sqlite3 %1$s \"select entry from journal where seq=$n\" | grep -E '^(new|old)[.]' |"
      " LC_ALL=C sort -c || exit 1; done",
      fixture->path);

  g_assert_cmpstr (output, ==, "");
}

/* The whole entry of an amendment, as docs/file-format.md describes it. */
static void
test_entry (Fixture *fixture, gconstpointer data)
{
  g_autofree char *entry
      = fixture_sql (fixture, "SELECT entry FROM journal ORDER BY seq DESC LIMIT 1");
  g_autofree char *numbers
      = fixture_sql (fixture, "SELECT seq, prior_seq FROM journal ORDER BY seq DESC LIMIT 1");
  g_autofree char *previous
      = fixture_sql (fixture, "SELECT hash FROM journal ORDER BY seq DESC LIMIT 1 OFFSET 1");
  g_auto (GStrv) seqs = g_strsplit (g_strchomp (numbers), "|", 2);
  g_autofree char *expected = g_strdup_printf (
      "%s\nseq=%s\nact=%s\nkind=amend\nutc_ms=1777874400250\noffset_min=120\nidentified_by=demo\n"
      "workstation=bench-2\nversion=0.1.0\nreason=reason with\\nnewline and \\\\backslash\n"
      "action=update\ntable=machine\nrow=1\nprior_seq=%s\n"
      "new.area=two\\nlines, back\\\\slash, \\x09tab, \\x01 control, \xe6\xb0\xb4, 'quote'\n",
      g_strchomp (previous), seqs[0], seqs[0], seqs[1]);

  g_assert_cmpstr (entry, ==, expected);
}

/* Numbers in the C locale, with 17 digits; open ends; nothing for an empty column. */
static void
test_numbers (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwTitration) titration = NULL;
  g_autofree char *entry = NULL;

  fixture_open (fixture, SW_OPEN_WRITE);
  titration = sw_titration_load (fixture->store, 1, NULL);
  titration->net_low = -INFINITY;
  titration->net_high = INFINITY;
  titration->maximum = 1.0 / 3.0;
  titration->blank = -0.0;
  titration->closed_ms = 0;
  fixture_begin (fixture, SW_ACT_AMEND, "numbers");
  g_assert_true (sw_titration_update (fixture->store, titration, NULL));
  fixture_commit (fixture);
  fixture_assert_sound (fixture);
  fixture_close (fixture);
  entry = fixture_sql (fixture, "SELECT substr(entry, instr(entry, 'new.')) FROM journal"
                                " ORDER BY seq DESC LIMIT 1");
  g_assert_cmpstr (
      entry, ==,
      "new.blank=0\nnew.maximum=0.33333333333333331\nnew.net_high=inf\nnew.net_low=-inf\n"
      "old.closed_ms=1777874400250\nold.net_high=3\nold.net_low=2\n");
}

/* A secret never stands in the journal; its digest is that of sha256sum. */
static void
test_secret (Fixture *fixture, gconstpointer data)
{
  static const char secret[] = "$argon2id$v=19$m=65536,t=2,p=1$aW52ZW50ZWQ$bm90aGluZw";
  g_autoptr (SwPerson) person = NULL;
  g_autofree char *found = NULL;
  g_autofree char *line = NULL;
  g_autofree char *digest = NULL;
  g_autofree char *view = NULL;

  fixture_open (fixture, SW_OPEN_WRITE);
  person = sw_person_load (fixture->store, 1, NULL);
  person->secret = g_strdup (secret);
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_update (fixture->store, person, NULL));
  fixture_commit (fixture);
  fixture_close (fixture);
  found = fixture_sql (fixture, "SELECT count(*) FROM journal WHERE entry LIKE '%argon2id%'");
  g_assert_cmpstr (found, ==, "0\n");
  line = fixture_sql (fixture, "SELECT substr(entry, instr(entry, 'new.')) FROM journal"
                               " ORDER BY seq DESC LIMIT 1");
  digest = fixture_run ("printf %%s '%s' | sha256sum | cut -c1-64", secret);
  g_assert_true (g_str_has_prefix (line, "new.secret=changed sha256:"));
  g_assert_nonnull (strstr (line, g_strchomp (digest)));
  view = fixture_sql (fixture, "SELECT count(*) FROM pragma_table_info('audit_person')"
                               " WHERE name = 'secret'");
  g_assert_cmpstr (view, ==, "0\n");
}

/* ---- migrations ---- */

/* The journal's first row names each schema file with the digest that sha256sum gives it. */
static void
test_schema_digests (Fixture *fixture, gconstpointer data)
{
  g_autofree char *folder = sw_test_source_path ("data/schema");
  g_autofree char *by_journal = fixture_sql (
      fixture, "SELECT substr(entry, instr(entry, 'new.')) FROM journal WHERE seq = 1");
  g_autofree char *by_tool = fixture_run (
      "cd '%s' && sha256sum 001-*.sql | sed -E 's/^([0-9a-f]+) +(.*)$/new.\\2=\\1/'", folder);

  g_assert_cmpstr (by_journal, ==, by_tool);
}

static void
test_next_version (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) scripts = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_script_free);
  g_autoptr (GError) error = NULL;
  g_autofree char *line = NULL;
  g_autofree char *digest = NULL;
  SwScript *script = g_new (SwScript, 1);

  *script = (SwScript){ .name = g_strdup ("003-1-test.sql"),
                        .sql = g_strdup ("ALTER TABLE site ADD COLUMN motto TEXT;\n") };
  g_ptr_array_add (scripts, script);
  fixture_open (fixture, SW_OPEN_WRITE);
  sw_schema_migrate_with (fixture->store, SW_SCHEMA_VERSION + 1, scripts, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_store_get_schema_version (fixture->store), ==, SW_SCHEMA_VERSION + 1);
  fixture_close (fixture);
  line = fixture_sql (fixture,
                      "SELECT action, table_name, row_id, substr(entry, instr(entry, 'new.'))"
                      " FROM journal ORDER BY seq DESC LIMIT 1");
  digest = fixture_run ("printf 'ALTER TABLE site ADD COLUMN motto TEXT;\\n' | sha256sum");
  digest[64] = '\0';
  g_assert_true (g_str_has_prefix (line, "migrate|schema|3|new.003-1-test.sql="));
  g_assert_nonnull (strstr (line, digest));

  fixture->store = sw_store_open (fixture->path, SW_OPEN_WRITE, &fixture->clock, &error);
  g_assert_null (fixture->store);
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NEWER);
}

/* A script that changes rows without their journal rows is refused, and nothing of it stays. */
static void
test_silent_migration (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) scripts = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_script_free);
  g_autoptr (GError) error = NULL;
  SwScript *script = g_new (SwScript, 1);

  *script = (SwScript){
    .name = g_strdup ("003-1-test.sql"),
    .sql
    = g_strdup ("UPDATE person SET name = 'X', journal_seq = (SELECT max(seq) FROM journal)")
  };
  g_ptr_array_add (scripts, script);
  fixture_open (fixture, SW_OPEN_WRITE);
  g_assert_false (sw_schema_migrate_with (fixture->store, SW_SCHEMA_VERSION + 1, scripts, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_JOURNAL);
  g_assert_cmpint (sw_store_get_schema_version (fixture->store), ==, SW_SCHEMA_VERSION);
  fixture_assert_sound (fixture);
}

/* ---- audit views ---- */

/* Times against GLib's own ISO 8601 text, zones west of Greenwich and with half hours too. */
static void
test_audit_times (Fixture *fixture, gconstpointer data)
{
  static const int offsets[] = { 0, 60, 330, -30, -210, 840 };

  for (gsize i = 0; i < G_N_ELEMENTS (offsets); i++)
    {
      g_autoptr (GTimeZone) zone = g_time_zone_new_offset (60 * offsets[i]);
      g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (FIXTURE_START_MS / 1000);
      g_autoptr (GDateTime) local = g_date_time_to_timezone (utc, zone);
      g_autofree char *expected = g_date_time_format (local, "%Y-%m-%dT%H:%M:%S.250%:z\n");
      g_autofree char *found = NULL;
      g_autofree char *journal = NULL;
      g_autoptr (SwSetting) setting = sw_setting_new ();

      fixture->offset_min = offsets[i];
      fixture_open (fixture, SW_OPEN_WRITE);
      setting->name = g_strdup_printf ("s%d", (int)i);
      fixture_begin (fixture, SW_ACT_SETUP, NULL);
      g_assert_true (sw_setting_insert (fixture->store, setting, NULL));
      fixture_commit (fixture);
      fixture_close (fixture);
      found = fixture_sql (fixture, "SELECT happened FROM audit_setting ORDER BY id DESC LIMIT 1");
      g_assert_cmpstr (found, ==, expected);
      journal = fixture_sql (fixture, "SELECT time FROM audit_journal ORDER BY seq DESC LIMIT 1");
      g_assert_cmpstr (journal, ==, expected);
    }
}

/* Every table has its view, with every column but the secret. */
static void
test_audit_columns (Fixture *fixture, gconstpointer data)
{
  for (int i = 0; i < SW_N_TABLES; i++)
    {
      const char *table = sw_table_name ((SwTable)i);
      g_autofree char *sql = g_strdup_printf (
          "SELECT count(*) FROM pragma_table_info('%s') WHERE name NOT IN ('secret', 'offset_min')"
          " AND replace(name, '_ms', '') NOT IN (SELECT name FROM pragma_table_info('audit_%s'))",
          table, table);
      g_autofree char *missing = fixture_sql (fixture, sql);
      g_autofree char *select = g_strdup_printf ("SELECT count(*) > 0 FROM audit_%s", table);
      g_autofree char *some = fixture_sql (fixture, select);

      g_assert_cmpstr (missing, ==, "0\n");
      g_assert_cmpstr (some, ==, "1\n");
    }
}

/* ---- triggers, in somebody else's tool ---- */

static const struct
{
  const char *name;
  const char *sql;
  const char *complaint;
} refused_cases[] = {
  { "journal-update", "UPDATE journal SET reason = 'x' WHERE seq = 3", "never changed" },
  { "journal-delete", "DELETE FROM journal WHERE seq = 3", "never shortened" },
  { "journal-delete-all", "DELETE FROM journal", "never shortened" },
  { "journal-replace", "INSERT OR REPLACE INTO journal SELECT * FROM journal WHERE seq = 3",
    "only grows" },
  { "journal-gap",
    "INSERT INTO journal SELECT seq + 2, act, kind, utc_ms, offset_min, person, identified_by,"
    " workstation, version, reason, clock_back_ms, action, table_name, row_id, prior_seq, entry,"
    " hash, clock_ahead_ms FROM journal ORDER BY seq DESC LIMIT 1",
    "only grows" },
  { "journal-without-seq",
    "INSERT INTO journal SELECT NULL, act, kind, utc_ms, offset_min, person, identified_by,"
    " workstation, version, reason, clock_back_ms, action, table_name, row_id, prior_seq, entry,"
    " hash, clock_ahead_ms FROM journal LIMIT 1",
    "only grows" },
};

static void
test_journal_refused (Fixture *fixture, gconstpointer data)
{
  gsize i = GPOINTER_TO_SIZE (data);
  g_autofree char *output = fixture_sql_refused (fixture, refused_cases[i].sql);

  g_assert_nonnull (strstr (output, refused_cases[i].complaint));
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_assert_sound (fixture);
}

/* For every table: delete, update with an old journal_seq, another id, replace, insert. */
static void
test_record_refused (Fixture *fixture, gconstpointer data)
{
  const char *table = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  const char *const parts[][2] = {
    { "DELETE FROM ", " WHERE id = 1" },
    { "DELETE FROM ", "" },
    { "UPDATE ", " SET happened_ms = 5 WHERE id = 1" },
    { "UPDATE ", " SET journal_seq = journal_seq WHERE id = 1" },
    { "UPDATE ", " SET id = 5, journal_seq = (SELECT max(seq) FROM journal) WHERE id = 1" },
  };
  g_autofree char *replace
      = g_strdup_printf ("REPLACE INTO %s SELECT * FROM %s WHERE id = 1", table, table);
  g_autofree char *replaced = fixture_sql_refused (fixture, replace);

  g_assert_nonnull (strstr (replaced, "record"));
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_autofree char *sql = g_strconcat (parts[i][0], table, parts[i][1], NULL);
      g_autofree char *output = fixture_sql_refused (fixture, sql);

      g_assert_nonnull (strstr (output, "record"));
    }
}

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add (const char *name, gconstpointer data, TestFunc func)
{
  g_autofree char *path = g_strconcat ("/records/journal/", name, NULL);

  g_test_add (path, Fixture, data, set_up_plant, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("hash", NULL, test_hash);
  add ("sorted", NULL, test_sorted);
  add ("entry", NULL, test_entry);
  add ("numbers", NULL, test_numbers);
  add ("secret", NULL, test_secret);
  add ("schema-digests", NULL, test_schema_digests);
  add ("next-version", NULL, test_next_version);
  add ("silent-migration", NULL, test_silent_migration);
  add ("audit-times", NULL, test_audit_times);
  add ("audit-columns", NULL, test_audit_columns);
  for (gsize i = 0; i < G_N_ELEMENTS (refused_cases); i++)
    {
      g_autofree char *name = g_strconcat ("refused/", refused_cases[i].name, NULL);

      add (name, GSIZE_TO_POINTER (i), test_journal_refused);
    }
  for (int i = 0; i < SW_N_TABLES; i++)
    {
      g_autofree char *name = g_strconcat ("refused/table/", sw_table_name ((SwTable)i), NULL);

      add (name, GINT_TO_POINTER (i), test_record_refused);
    }
  return g_test_run ();
}
