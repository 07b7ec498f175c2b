/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Acts: whole or not at all, with a reason where one is due, and never without their journal rows.
 */
#include "fixture.h"
#include "records/store-private.h"
#include "records/verify.h"

#include <string.h>

static SwPerson *
make_person (const char *initials)
{
  SwPerson *person = sw_person_new ();

  person->name = g_strdup ("N. Invented");
  person->initials = g_strdup (initials);
  return person;
}

static gint64
ask (Fixture *fixture, const char *sql)
{
  gint64 value = -1;
  GError *error = NULL;

  sw_sql_integer (fixture->store, sql, NULL, 0, &value, &error);
  g_assert_no_error (error);
  return value;
}

/* Inserts in an act of its own and gives the id. */
static gint64
add_person (Fixture *fixture, const char *initials)
{
  g_autoptr (SwPerson) person = make_person (initials);
  GError *error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  sw_person_insert (fixture->store, person, &error);
  g_assert_no_error (error);
  fixture_commit (fixture);
  return person->record.id;
}

static void
test_commit (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) one = make_person ("A1");
  g_autoptr (SwPerson) two = make_person ("A2");
  g_autoptr (SwPerson) loaded = NULL;
  gint64 before = ask (fixture, "SELECT max(seq) FROM journal");

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_cmpint (sw_act_now (fixture->store), ==, FIXTURE_START_MS);
  g_assert_true (sw_person_insert (fixture->store, one, NULL));
  g_assert_true (sw_person_insert (fixture->store, two, NULL));
  fixture_commit (fixture);
  g_assert_cmpint (one->record.journal_seq, ==, before + 1);
  g_assert_cmpint (two->record.journal_seq, ==, before + 2);
  g_assert_cmpint (
      ask (fixture, "SELECT count(DISTINCT act) FROM journal WHERE table_name='person'"), ==, 1);
  g_assert_cmpint (ask (fixture, "SELECT act FROM journal ORDER BY seq DESC LIMIT 1"), ==,
                   before + 1);

  fixture_close (fixture);
  fixture_open (fixture, SW_OPEN_WRITE);
  loaded = sw_person_load (fixture->store, two->record.id, NULL);
  g_assert_cmpstr (loaded->initials, ==, "A2");
  fixture_assert_sound (fixture);
}

static void
test_cancel (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = make_person ("A1");
  gint64 before = ask (fixture, "SELECT max(seq) FROM journal");

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  sw_act_cancel (fixture->store);
  sw_act_cancel (fixture->store); /* no-op */
  g_assert_cmpint (ask (fixture, "SELECT count(*) FROM person"), ==, 0);
  g_assert_cmpint (ask (fixture, "SELECT max(seq) FROM journal"), ==, before);
  g_assert_cmpint (add_person (fixture, "A1"), ==, 1);
  fixture_assert_sound (fixture);
}

/* Closing is cancelling, too. */
static void
test_close_cancels (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = make_person ("A1");

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  fixture_close (fixture);
  fixture_open (fixture, SW_OPEN_WRITE);
  g_assert_cmpint (ask (fixture, "SELECT count(*) FROM person"), ==, 0);
  fixture_assert_sound (fixture);
}

static void
test_empty (Fixture *fixture, gconstpointer data)
{
  gint64 before = ask (fixture, "SELECT max(seq) FROM journal");

  fixture_begin (fixture, SW_ACT_TEST, NULL);
  fixture_commit (fixture);
  g_assert_cmpint (ask (fixture, "SELECT max(seq) FROM journal"), ==, before);
}

static void
test_nested (Fixture *fixture, gconstpointer data)
{
  const SwActor actor = { .identified = SW_IDENTIFIED_DEMO };
  g_autoptr (SwPerson) person = make_person ("A1");
  g_autoptr (GError) error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_act_begin (fixture->store, SW_ACT_SETUP, &actor, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED);
  /* the act that runs is not hurt */
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  fixture_commit (fixture);
  g_assert_cmpint (ask (fixture, "SELECT count(*) FROM person"), ==, 1);
}

static void
test_outside (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = make_person ("A1");
  g_autoptr (GError) error = NULL;

  g_assert_false (sw_person_insert (fixture->store, person, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED);
  g_clear_error (&error);
  g_assert_false (sw_record_void (fixture->store, SW_TABLE_SITE, 1, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED);
  g_clear_error (&error);
  g_assert_false (sw_act_commit (fixture->store, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED);
}

static void
test_read_only (Fixture *fixture, gconstpointer data)
{
  const SwActor actor = { .identified = SW_IDENTIFIED_DEMO };
  g_autoptr (GError) error = NULL;

  fixture_close (fixture);
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  g_assert_true (sw_store_is_read_only (fixture->store));
  g_assert_false (sw_act_begin (fixture->store, SW_ACT_SETUP, &actor, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_READ_ONLY);
}

/* ---- reasons ---- */

typedef struct
{
  const char *name;
  SwActKind kind;
  const char *reason;
  gboolean allowed;
} ReasonCase;

static const ReasonCase reason_cases[] = {
  { "amend-none", SW_ACT_AMEND, NULL, FALSE },         { "amend-empty", SW_ACT_AMEND, "", FALSE },
  { "amend-given", SW_ACT_AMEND, "typo", TRUE },       { "void-none", SW_ACT_VOID, NULL, FALSE },
  { "void-given", SW_ACT_VOID, "wrong bottle", TRUE }, { "test-none", SW_ACT_TEST, NULL, TRUE },
};

static void
test_reason (Fixture *fixture, gconstpointer data)
{
  const ReasonCase *row = data;
  const SwActor actor = { .identified = SW_IDENTIFIED_DEMO, .reason = row->reason };
  GError *error = NULL;

  g_assert_cmpint (sw_act_begin (fixture->store, row->kind, &actor, &error), ==, row->allowed);
  if (row->allowed)
    g_assert_no_error (error);
  else
    sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
}

static void
test_void (Fixture *fixture, gconstpointer data)
{
  gint64 id = add_person (fixture, "A1");
  g_autoptr (GArray) ids = NULL;
  g_autoptr (SwPerson) person = NULL;
  g_autofree char *reason = NULL;
  gint64 seq;

  fixture_begin (fixture, SW_ACT_VOID, "left the plant");
  g_assert_true (sw_record_void (fixture->store, SW_TABLE_PERSON, id, NULL));
  g_assert_true (sw_record_void (fixture->store, SW_TABLE_PERSON, id, NULL));
  fixture_commit (fixture);
  person = sw_person_load (fixture->store, id, NULL);
  g_assert_true (person->record.voided);
  g_assert_cmpstr (person->initials, ==, "A1");
  ids = sw_record_ids (fixture->store, SW_TABLE_PERSON, NULL, 0, NULL);
  g_assert_cmpuint (ids->len, ==, 0);
  seq = ask (fixture, "SELECT count(*) FROM journal WHERE action = 'void'");
  g_assert_cmpint (seq, ==, 1);
  sw_sql_text (fixture->store, "SELECT reason FROM journal WHERE action = 'void'", NULL, 0, &reason,
               NULL);
  g_assert_cmpstr (reason, ==, "left the plant");
  fixture_assert_sound (fixture);
}

static void
test_void_without_reason (Fixture *fixture, gconstpointer data)
{
  gint64 id = add_person (fixture, "A1");
  g_autoptr (GError) error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_record_void (fixture->store, SW_TABLE_PERSON, id, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT);
}

/* ---- times ---- */

typedef struct
{
  const char *name;
  gint64 before_ms; /* happened so long before the act */
  gboolean late;
} LateCase;

static const LateCase late_cases[] = {
  { "now", 0, FALSE },
  { "15-minutes", 15 * 60 * 1000, FALSE },
  { "15-minutes-and-1-ms", 15 * 60 * 1000 + 1, TRUE },
  { "a-day", 24 * 60 * 60 * 1000, TRUE },
  { "in-future", -60 * 1000, FALSE },
};

static void
test_late (Fixture *fixture, gconstpointer data)
{
  const LateCase *row = data;
  g_autoptr (SwPerson) person = make_person ("A1");

  person->record.happened_ms = FIXTURE_START_MS - row->before_ms;
  person->record.late = !row->late; /* the store alone decides */
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  fixture_commit (fixture);
  g_assert_cmpint (person->record.late, ==, row->late);
  g_assert_cmpint (person->record.recorded_ms, ==, FIXTURE_START_MS);
  g_assert_cmpint (person->record.offset_min, ==, FIXTURE_OFFSET_MIN);
  g_assert_cmpint (ask (fixture, "SELECT late FROM person"), ==, row->late);
}

static void
test_happened_now (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = make_person ("A1");

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  fixture->now_ms += 5000; /* an act has one time, from its begin */
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  fixture_commit (fixture);
  g_assert_cmpint (person->record.happened_ms, ==, FIXTURE_START_MS);
}

static void
test_clock_back (Fixture *fixture, gconstpointer data)
{
  g_autofree char *entry = NULL;

  fixture->now_ms -= 123456;
  add_person (fixture, "A1");
  sw_sql_text (fixture->store, "SELECT entry FROM journal ORDER BY seq DESC LIMIT 1", NULL, 0,
               &entry, NULL);
  g_assert_nonnull (strstr (entry, "\nclock=back 123456\n"));
  g_assert_cmpint (ask (fixture, "SELECT clock_back_ms FROM journal ORDER BY seq DESC LIMIT 1"), ==,
                   123456);
  g_assert_cmpint (ask (fixture, "SELECT recorded_ms FROM person"), ==, FIXTURE_START_MS - 123456);
  /* and it is not said again once the clock is right */
  fixture->now_ms = FIXTURE_START_MS + 1;
  add_person (fixture, "A2");
  g_assert_cmpint (ask (fixture, "SELECT count(*) FROM journal WHERE clock_back_ms > 0"), ==, 1);
  fixture_assert_sound (fixture);
}

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
    " hash FROM journal ORDER BY seq DESC LIMIT 1" },
};

/* A statement that goes round the row writer, in an act that also holds an honest write. */
static void
test_bypass_in_act (Fixture *fixture, gconstpointer data)
{
  const BypassCase *row = data;
  g_autoptr (SwPerson) person = make_person ("A2");
  g_autoptr (GError) error = NULL;
  gint64 before;

  add_person (fixture, "A1");
  add_person (fixture, "B1");
  before = ask (fixture, "SELECT max(seq) FROM journal");
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  g_assert_cmpint (sqlite3_exec (fixture->store->db, row->sql, NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_false (sw_act_commit (fixture->store, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_JOURNAL);
  g_assert_cmpint (ask (fixture, "SELECT max(seq) FROM journal"), ==, before);
  g_assert_cmpint (ask (fixture, "SELECT count(*) FROM person"), ==, 2);
  g_assert_cmpint (ask (fixture, "SELECT count(*) FROM person WHERE name = 'X'"), ==, 0);
  add_person (fixture, "A2"); /* the store works on */
  fixture_assert_sound (fixture);
}

static void
test_bypass_alone (Fixture *fixture, gconstpointer data)
{
  const BypassCase *row = data;
  int code;

  add_person (fixture, "A1");
  add_person (fixture, "B1");
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
  g_autoptr (SwPerson) person = make_person ("A1");
  g_autoptr (GError) error = NULL;

  add_person (fixture, "A1");
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
  g_autoptr (SwPerson) person = make_person ("A1");
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
  gint64 id = add_person (fixture, "A1");
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
  g_assert_cmpint (person->record.journal_seq, ==, ask (fixture, "SELECT max(seq) FROM journal"));
  g_assert_cmpint (ask (fixture, "SELECT voided FROM person"), ==, 0);
  fixture_assert_sound (fixture);
}

/* ---- registration ---- */

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add (const char *group, const char *name, gconstpointer data, TestFunc func)
{
  g_autofree char *path = g_strdup_printf ("/records/acts/%s/%s", group, name);

  g_test_add (path, Fixture, data, fixture_set_up, func, fixture_tear_down);
}

static void
add_tables (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (reason_cases); i++)
    add ("reason", reason_cases[i].name, &reason_cases[i], test_reason);
  for (gsize i = 0; i < G_N_ELEMENTS (late_cases); i++)
    add ("late", late_cases[i].name, &late_cases[i], test_late);
  for (gsize i = 0; i < G_N_ELEMENTS (bypass_cases); i++)
    {
      add ("bypass-in-act", bypass_cases[i].name, &bypass_cases[i], test_bypass_in_act);
      add ("bypass-alone", bypass_cases[i].name, &bypass_cases[i], test_bypass_alone);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("whole", "commit", NULL, test_commit);
  add ("whole", "cancel", NULL, test_cancel);
  add ("whole", "close-cancels", NULL, test_close_cancels);
  add ("whole", "empty", NULL, test_empty);
  add ("whole", "nested", NULL, test_nested);
  add ("whole", "outside", NULL, test_outside);
  add ("whole", "read-only", NULL, test_read_only);
  add_tables ();
  add ("void", "plain", NULL, test_void);
  add ("void", "without-reason", NULL, test_void_without_reason);
  add ("time", "happened-now", NULL, test_happened_now);
  add ("time", "clock-back", NULL, test_clock_back);
  add ("journal", "alone", NULL, test_journal_alone);
  add ("journal", "failed-write", NULL, test_failed_write);
  add ("refused", "reference", NULL, test_reference);
  add ("refused", "rows", NULL, test_refused);
  add ("refused", "caustic-chlorinated", NULL, test_caustic_chlorinated);
  add ("update", "keeps-common", NULL, test_update_keeps_common);
  return g_test_run ();
}
