/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Acts: whole or not at all, with a reason where one is due, and never without their journal rows.
 */
#include "fixture.h"
#include "records/store-private.h"
#include "records/verify.h"

#include <string.h>

static void
test_commit (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) one = fixture_person ("A1");
  g_autoptr (SwPerson) two = fixture_person ("A2");
  g_autoptr (SwPerson) loaded = NULL;
  gint64 before = fixture_ask (fixture, "SELECT max(seq) FROM journal");

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_cmpint (sw_act_now (fixture->store), ==, FIXTURE_START_MS);
  g_assert_true (sw_person_insert (fixture->store, one, NULL));
  g_assert_true (sw_person_insert (fixture->store, two, NULL));
  fixture_commit (fixture);
  g_assert_cmpint (one->record.journal_seq, ==, before + 1);
  g_assert_cmpint (two->record.journal_seq, ==, before + 2);
  g_assert_cmpint (
      fixture_ask (fixture, "SELECT count(DISTINCT act) FROM journal WHERE table_name='person'"),
      ==, 1);
  g_assert_cmpint (fixture_ask (fixture, "SELECT act FROM journal ORDER BY seq DESC LIMIT 1"), ==,
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
  g_autoptr (SwPerson) person = fixture_person ("A1");
  gint64 before = fixture_ask (fixture, "SELECT max(seq) FROM journal");

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  sw_act_cancel (fixture->store);
  sw_act_cancel (fixture->store); /* no-op */
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 0);
  g_assert_cmpint (fixture_ask (fixture, "SELECT max(seq) FROM journal"), ==, before);
  g_assert_cmpint (fixture_add_person (fixture, "A1"), ==, 1);
  fixture_assert_sound (fixture);
}

/* Closing is cancelling, too. */
static void
test_close_cancels (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = fixture_person ("A1");

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  fixture_close (fixture);
  fixture_open (fixture, SW_OPEN_WRITE);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 0);
  fixture_assert_sound (fixture);
}

static void
test_empty (Fixture *fixture, gconstpointer data)
{
  gint64 before = fixture_ask (fixture, "SELECT max(seq) FROM journal");

  fixture_begin (fixture, SW_ACT_TEST, NULL);
  fixture_commit (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT max(seq) FROM journal"), ==, before);
}

static void
test_nested (Fixture *fixture, gconstpointer data)
{
  const SwActor actor = { .identified = SW_IDENTIFIED_DEMO };
  g_autoptr (SwPerson) person = fixture_person ("A1");
  g_autoptr (GError) error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_act_begin (fixture->store, SW_ACT_SETUP, &actor, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED);
  /* the act that runs is not hurt */
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  fixture_commit (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 1);
}

static void
test_outside (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = fixture_person ("A1");
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
  gint64 id = fixture_add_person (fixture, "A1");
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
  seq = fixture_ask (fixture, "SELECT count(*) FROM journal WHERE action = 'void'");
  g_assert_cmpint (seq, ==, 1);
  sw_sql_text (fixture->store, "SELECT reason FROM journal WHERE action = 'void'", NULL, 0, &reason,
               NULL);
  g_assert_cmpstr (reason, ==, "left the plant");
  fixture_assert_sound (fixture);
}

static void
test_void_without_reason (Fixture *fixture, gconstpointer data)
{
  gint64 id = fixture_add_person (fixture, "A1");
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
  g_autoptr (SwPerson) person = fixture_person ("A1");

  person->record.happened_ms = FIXTURE_START_MS - row->before_ms;
  person->record.late = !row->late; /* the store alone decides */
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  fixture_commit (fixture);
  g_assert_cmpint (person->record.late, ==, row->late);
  g_assert_cmpint (person->record.recorded_ms, ==, FIXTURE_START_MS);
  g_assert_cmpint (person->record.offset_min, ==, FIXTURE_OFFSET_MIN);
  g_assert_cmpint (fixture_ask (fixture, "SELECT late FROM person"), ==, row->late);
}

/* A record that was begun in time and whose time is set afterwards, as that of a sample on the page
 * where it is drawn: late by that page. */
static void
test_late_update (Fixture *fixture, gconstpointer data)
{
  const LateCase *row = data;
  gint64 begun_ms = fixture->now_ms;
  g_autoptr (SwPerson) person = NULL;
  GError *error = NULL;

  person = sw_person_load (fixture->store, fixture_add_person (fixture, "A1"), &error);
  g_assert_no_error (error);
  fixture->now_ms += 3600000;
  person->record.happened_ms = fixture->now_ms - row->before_ms;
  person->record.late = !row->late;
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  sw_person_update (fixture->store, person, &error);
  g_assert_no_error (error);
  fixture_commit (fixture);
  g_assert_cmpint (person->record.late, ==, row->late);
  g_assert_cmpint (person->record.recorded_ms, ==, begun_ms + 3600000);
  g_assert_cmpint (fixture_ask (fixture, "SELECT late FROM person"), ==, row->late);
  g_assert_cmpint (fixture_ask (fixture, "SELECT recorded_ms FROM person"), ==, begun_ms + 3600000);
  fixture_assert_sound (fixture);
}

/* An amendment of the time corrects what was written down in time; any other update leaves both. */
static void
test_late_amendment (Fixture *fixture, gconstpointer data)
{
  gint64 begun_ms = fixture->now_ms;
  g_autoptr (SwPerson) person = NULL;
  GError *error = NULL;

  person = sw_person_load (fixture->store, fixture_add_person (fixture, "A1"), &error);
  g_assert_no_error (error);
  fixture->now_ms += 3600000;
  person->record.happened_ms = begun_ms - 1000;
  fixture_begin (fixture, SW_ACT_AMEND, "looked at the wrong clock");
  sw_person_update (fixture->store, person, &error);
  g_assert_no_error (error);
  fixture_commit (fixture);
  person->active = !person->active;
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  sw_person_update (fixture->store, person, &error);
  g_assert_no_error (error);
  fixture_commit (fixture);
  g_assert_cmpint (fixture_ask (fixture, "SELECT happened_ms FROM person"), ==, begun_ms - 1000);
  g_assert_cmpint (fixture_ask (fixture, "SELECT recorded_ms FROM person"), ==, begun_ms);
  g_assert_cmpint (fixture_ask (fixture, "SELECT late FROM person"), ==, 0);
  fixture_assert_sound (fixture);
}

static void
test_happened_now (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPerson) person = fixture_person ("A1");

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
  fixture_add_person (fixture, "A1");
  sw_sql_text (fixture->store, "SELECT entry FROM journal ORDER BY seq DESC LIMIT 1", NULL, 0,
               &entry, NULL);
  g_assert_nonnull (strstr (entry, "\nclock=back 123456\n"));
  g_assert_cmpint (
      fixture_ask (fixture, "SELECT clock_back_ms FROM journal ORDER BY seq DESC LIMIT 1"), ==,
      123456);
  g_assert_cmpint (fixture_ask (fixture, "SELECT recorded_ms FROM person"), ==,
                   FIXTURE_START_MS - 123456);
  /* and it is not said again once the clock is right */
  fixture->now_ms = FIXTURE_START_MS + 1;
  fixture_add_person (fixture, "A2");
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM journal WHERE clock_back_ms > 0"),
                   ==, 1);
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
  for (gsize i = 0; i < G_N_ELEMENTS (reason_cases); i++)
    add ("reason", reason_cases[i].name, &reason_cases[i], test_reason);
  for (gsize i = 0; i < G_N_ELEMENTS (late_cases); i++)
    {
      add ("late", late_cases[i].name, &late_cases[i], test_late);
      add ("late-update", late_cases[i].name, &late_cases[i], test_late_update);
    }
  add ("late-update", "amendment", NULL, test_late_amendment);
  add ("void", "plain", NULL, test_void);
  add ("void", "without-reason", NULL, test_void_without_reason);
  add ("time", "happened-now", NULL, test_happened_now);
  add ("time", "clock-back", NULL, test_clock_back);
  return g_test_run ();
}
