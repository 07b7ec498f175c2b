/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes: what goes round the row writer is refused at commit; what the file's rules forbid is
 * refused with a clear error; what the store alone knows is never taken from the caller. */
#include "fixture.h"
#include "records/store-private.h"
#include "records/verify.h"

#include <string.h>

/* ---- past the row writer ---- */

typedef struct
{
  const char *name;
  const char *sql; /* run on the store's own connection */
} BypassCase;

static const BypassCase bypass_cases[] = {
  { "update", "UPDATE person SET name = 'X', journal_seq = (SELECT max(seq) FROM journal)"
              " WHERE id = 1" },
  { "insert", "INSERT INTO setting (happened_ms, recorded_ms, offset_min, late, voided,"
              " journal_seq, name) VALUES (1, 1, 1, 0, 0, (SELECT max(seq) FROM journal), 'x')" },
  { "journal",
    "INSERT INTO journal SELECT seq + 1, act, kind, utc_ms, offset_min, person, identified_by,"
    " workstation, version, reason, clock_back_ms, action, table_name, row_id, prior_seq, entry,"
    " hash, clock_ahead_ms FROM journal ORDER BY seq DESC LIMIT 1" },
};

/* A statement that goes round the row writer, in an act that also holds an honest write. */
static void
test_bypass_in_act (Fixture *fixture, gconstpointer data)
{
  const BypassCase *row = data;
  g_autoptr (SwPerson) person = fixture_person ("A2");
  g_autoptr (GError) error = NULL;
  gint64 before;

  fixture_add_person (fixture, "A1");
  fixture_add_person (fixture, "B1");
  before = fixture_ask (fixture, "SELECT max(seq) FROM journal");
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  g_assert_cmpint (sqlite3_exec (fixture->store->db, row->sql, NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_false (sw_act_commit (fixture->store, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_JOURNAL);
  g_assert_cmpint (fixture_ask (fixture, "SELECT max(seq) FROM journal"), ==, before);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 2);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person WHERE name = 'X'"), ==, 0);
  fixture_add_person (fixture, "A2"); /* the store works on */
  fixture_assert_sound (fixture);
}

static void
test_bypass_alone (Fixture *fixture, gconstpointer data)
{
  const BypassCase *row = data;
  int code;

  fixture_add_person (fixture, "A1");
  fixture_add_person (fixture, "B1");
  code = sqlite3_exec (fixture->store->db, row->sql, NULL, NULL, NULL);
  g_assert_cmpint (code, ==, SQLITE_CONSTRAINT_COMMITHOOK);
  fixture_assert_sound (fixture);
}

/* A journal row for a change that never came. */
static void
test_journal_alone (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_journal_write (fixture->store, "update", "site", 1, 2, lines, NULL));
  sw_act_count (fixture->store, "site", 1, -1);
  g_assert_false (sw_act_commit (fixture->store, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_JOURNAL);
  fixture_assert_sound (fixture);
}

/* A write that failed leaves its journal row behind: the act cannot be committed any more. */
static void
test_failed_write (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = fixture_person ("A1");
  g_autoptr (GError) error = NULL;

  fixture_add_person (fixture, "A1");
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_person_insert (fixture->store, person, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT);
  g_assert_nonnull (strstr (error->message, "person.initials"));
  g_assert_cmpint (person->record.id, ==, 0);
  g_assert_cmpint (person->record.recorded_ms, ==, 0);
  g_clear_error (&error);
  g_assert_false (sw_act_commit (fixture->store, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_JOURNAL);
  fixture_assert_sound (fixture);
}

/* ---- refused writes ---- */

static void
test_reference (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwCompartment) compartment = sw_compartment_new ();
  g_autoptr (GError) error = NULL;

  compartment->machine = 12;
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_compartment_insert (fixture->store, compartment, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT);
}

static void
test_refused (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = fixture_person ("A1");
  g_autoptr (GError) error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  person->record.id = 5;
  g_assert_false (sw_person_insert (fixture->store, person, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT);
  g_clear_error (&error);
  g_assert_false (sw_person_update (fixture->store, person, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NO_SUCH_ROW);
  g_clear_error (&error);
  g_assert_null (sw_person_load (fixture->store, 5, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NO_SUCH_ROW);
  g_clear_error (&error);
  person->record.id = 0;
  g_free (person->name);
  person->name = g_strdup ("\xff\xfe");
  g_assert_false (sw_person_insert (fixture->store, person, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT);
  g_assert_nonnull (strstr (error->message, "name"));
}

/* No method asks for caustic and suits chlorinated solvents: the file itself refuses it. */
static void
test_caustic_chlorinated (Fixture *fixture, gconstpointer data)
{
  FixturePlant plant;
  g_autoptr (SwMethodVersion) version = NULL;
  g_autoptr (GError) error = NULL;

  fixture_plant (fixture, &plant);
  version = sw_method_version_load (fixture->store, plant.version, NULL);
  version->for_chlorinated = TRUE;
  version->caustic = plant.caustic;
  g_assert_false (sw_method_version_suits (version, SW_FAMILY_CHLORINATED));
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_method_version_update (fixture->store, version, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT);
}

/* What the store alone sets stays, whatever the struct says. */
static void
test_update_keeps_common (Fixture *fixture, gconstpointer data)
{
  gint64 id = fixture_add_person (fixture, "A1");
  g_autoptr (SwPerson) person = sw_person_load (fixture->store, id, NULL);

  person->record.recorded_ms = 1;
  person->record.offset_min = 7;
  person->record.late = TRUE;
  person->record.voided = TRUE;
  person->record.happened_ms = 0;
  person->active = TRUE;
  fixture->now_ms += 60000;
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_update (fixture->store, person, NULL));
  fixture_commit (fixture);
  g_assert_cmpint (person->record.recorded_ms, ==, FIXTURE_START_MS);
  g_assert_cmpint (person->record.happened_ms, ==, FIXTURE_START_MS);
  g_assert_cmpint (person->record.offset_min, ==, FIXTURE_OFFSET_MIN);
  g_assert_false (person->record.late);
  g_assert_false (person->record.voided);
  g_assert_cmpint (person->record.journal_seq, ==,
                   fixture_ask (fixture, "SELECT max(seq) FROM journal"));
  g_assert_cmpint (fixture_ask (fixture, "SELECT voided FROM person"), ==, 0);
  fixture_assert_sound (fixture);
}

/* ---- registration ---- */

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add (const char *group, const char *name, gconstpointer data, TestFunc func)
{
  g_autofree char *path = g_strdup_printf ("/records/writes/%s/%s", group, name);

  g_test_add (path, Fixture, data, fixture_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (bypass_cases); i++)
    {
      add ("bypass-in-act", bypass_cases[i].name, &bypass_cases[i], test_bypass_in_act);
      add ("bypass-alone", bypass_cases[i].name, &bypass_cases[i], test_bypass_alone);
    }
  add ("journal", "alone", NULL, test_journal_alone);
  add ("journal", "failed-write", NULL, test_failed_write);
  add ("refused", "reference", NULL, test_reference);
  add ("refused", "rows", NULL, test_refused);
  add ("refused", "caustic-chlorinated", NULL, test_caustic_chlorinated);
  add ("update", "keeps-common", NULL, test_update_keeps_common);
  return g_test_run ();
}
