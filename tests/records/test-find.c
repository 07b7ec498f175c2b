/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The questions: what is open, closed, dosed, due, in force. */
#include "questions.h"
#include "records/store-private.h"

#include <string.h>

static gint64
add_sample (Plant *plant, gint64 machine, const char *code, gint64 drawn_ms)
{
  g_autoptr (SwSample) sample = sw_sample_new ();

  sample->code = g_strdup (code);
  sample->machine = machine;
  sample->fill = plant->plant.fill;
  sample->record.happened_ms = drawn_ms;
  g_assert_true (sw_sample_insert (STORE (plant), sample, NULL));
  return sample->record.id;
}

static gint64
add_titration (Plant *plant, gint64 sample, int portion, SwStep step, SwOutcomeKind outcome)
{
  g_autoptr (SwTitration) titration = sw_titration_new ();

  titration->sample = sample;
  titration->method_version = plant->plant.version;
  titration->portion = portion;
  titration->step = step;
  titration->outcome = outcome;
  titration->closed_ms = outcome == SW_OUTCOME_OPEN ? 0 : plant->base.now_ms;
  g_assert_true (sw_titration_insert (STORE (plant), titration, NULL));
  return titration->record.id;
}

static gint64
add_dose (Plant *plant, gint64 titration, SwDoseState state, double added_ml)
{
  g_autoptr (SwDoseRow) dose = sw_dose_row_new ();

  dose->titration = titration;
  dose->product = plant->plant.product;
  dose->state = state;
  dose->added.value = added_ml;
  g_assert_true (sw_dose_row_insert (STORE (plant), dose, NULL));
  return dose->record.id;
}

static void
void_row (Plant *plant, SwTable table, gint64 id)
{
  fixture_begin (&plant->base, SW_ACT_VOID, "made twice");
  g_assert_true (sw_record_void (STORE (plant), table, id, NULL));
  fixture_commit (&plant->base);
}

/* ---- ids ---- */

static void
test_ids (Plant *plant, gconstpointer data)
{
  gint64 machine;

  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  machine = add_machine (plant, "M-08");
  add_sample (plant, machine, "b", 0);
  add_sample (plant, plant->plant.machine, "c", 0);
  fixture_commit (&plant->base);
  assert_ids (sw_record_ids (STORE (plant), SW_TABLE_SAMPLE, NULL, 0, NULL), "1 2 3");
  assert_ids (sw_record_ids (STORE (plant), SW_TABLE_SAMPLE, "machine", machine, NULL), "2");
  assert_ids (sw_record_ids (STORE (plant), SW_TABLE_SAMPLE, "plan", 0, NULL), "2 3");
  assert_ids (sw_record_ids (STORE (plant), SW_TABLE_PRODUCT, "use", SW_PRODUCT_CAUSTIC, NULL),
              "2");
  assert_ids (sw_record_ids_by_text (STORE (plant), SW_TABLE_PRODUCT, "use", "neutraliser", NULL),
              "1");
  assert_ids (sw_record_ids_by_text (STORE (plant), SW_TABLE_SAMPLE, "code", "c", NULL), "3");
  assert_ids (sw_record_ids_by_text (STORE (plant), SW_TABLE_SAMPLE, "code", "C", NULL), "");
  assert_ids (sw_record_ids_by_text (STORE (plant), SW_TABLE_SAMPLE, "remarks", NULL, NULL),
              "1 2 3");
  assert_ids (sw_record_ids (STORE (plant), SW_TABLE_PERSON, "active", TRUE, NULL), "1");
  assert_ids (sw_record_voided_ids (STORE (plant), SW_TABLE_SAMPLE, NULL), "");
  void_row (plant, SW_TABLE_SAMPLE, 2);
  assert_ids (sw_record_voided_ids (STORE (plant), SW_TABLE_SAMPLE, NULL), "2");
  assert_ids (sw_record_ids (STORE (plant), SW_TABLE_SAMPLE, NULL, 0, NULL), "1 3");
}

/* ---- tests ---- */

static void
test_code (Plant *plant, gconstpointer data)
{
  static const struct
  {
    const char *tag;
    gint64 at_ms;
    const char *expected;
  } rows[] = {
    { "M-07", FIXTURE_START_MS, "M-07-260504-2" },          /* 1 is there */
    { "M-07", FIXTURE_START_MS + DAY_MS, "M-07-260505-1" }, /* a new day */
    { "M-0", FIXTURE_START_MS, "M-0-260504-1" },            /* another tag */
    { "M%", FIXTURE_START_MS, "M%-260504-1" },              /* no pattern */
    /* 22:30 UTC is half past midnight in a zone two hours east */
    { "M-07", FIXTURE_START_MS + 16 * 3600000 + 1800000, "M-07-260505-1" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *code = sw_sample_next_code (STORE (plant), rows[i].tag, rows[i].at_ms, NULL);

      g_assert_cmpstr (code, ==, rows[i].expected);
    }
}

/* 9 is followed by 10, and a voided sample's code is not used again. */
static void
test_code_counts (Plant *plant, gconstpointer data)
{
  g_autofree char *code = NULL;
  gint64 last = 0;

  fixture_begin (&plant->base, SW_ACT_TEST, NULL);
  for (int i = 2; i <= 10; i++)
    {
      g_autofree char *next = sw_sample_next_code (STORE (plant), "M-07", FIXTURE_START_MS, NULL);

      last = add_sample (plant, plant->plant.machine, next, 0);
    }
  fixture_commit (&plant->base);
  void_row (plant, SW_TABLE_SAMPLE, last);
  code = sw_sample_next_code (STORE (plant), "M-07", FIXTURE_START_MS, NULL);
  g_assert_cmpstr (code, ==, "M-07-260504-11");
}

/* No row is looked at that is not of that machine and day: the index on code finds them. */
static void
test_code_scans_nothing (Plant *plant, gconstpointer data)
{
  g_autofree char *code = NULL;
  GHashTableIter iter;
  gpointer sql;
  gpointer statement;
  int asked = 0;

  fixture_begin (&plant->base, SW_ACT_TEST, NULL);
  for (int i = 1; i <= 5; i++)
    {
      g_autofree char *other = g_strdup_printf ("M-08-260504-%d", i);

      add_sample (plant, plant->plant.machine, other, 0);
    }
  fixture_commit (&plant->base);
  g_hash_table_remove_all (STORE (plant)->statements);
  code = sw_sample_next_code (STORE (plant), "M-07", FIXTURE_START_MS, NULL);
  g_assert_cmpstr (code, ==, "M-07-260504-2");
  g_hash_table_iter_init (&iter, STORE (plant)->statements);
  while (g_hash_table_iter_next (&iter, &sql, &statement))
    {
      g_assert_cmpint (sqlite3_stmt_status (statement, SQLITE_STMTSTATUS_FULLSCAN_STEP, 0), ==, 0);
      asked++;
    }
  g_assert_cmpint (asked, >, 0);
}

static void
test_open (Plant *plant, gconstpointer data)
{
  gint64 other;
  gint64 sample;

  assert_ids (sw_titration_open_ids (STORE (plant), 0, NULL), "");
  fixture_begin (&plant->base, SW_ACT_TEST, NULL);
  other = add_machine (plant, "M-08");
  sample = add_sample (plant, other, "x", 0);
  add_titration (plant, sample, 1, SW_STEP_READ, SW_OUTCOME_OPEN);                    /* 2 */
  add_titration (plant, sample, 2, SW_STEP_ABANDONED, SW_OUTCOME_OPEN);               /* 3 */
  add_titration (plant, plant->plant.sample, 2, SW_STEP_DOSE, SW_OUTCOME_ACID_FOUND); /* 4 */
  fixture_commit (&plant->base);
  assert_ids (sw_titration_open_ids (STORE (plant), 0, NULL), "2 4");
  assert_ids (sw_titration_open_ids (STORE (plant), other, NULL), "2");
  g_assert_cmpint (sw_titration_machine (STORE (plant), 2, NULL), ==, other);
  void_row (plant, SW_TABLE_SAMPLE, sample);
  assert_ids (sw_titration_open_ids (STORE (plant), 0, NULL), "4");
}

static void
test_closed (Plant *plant, gconstpointer data)
{
  gint64 machine = plant->plant.machine;
  gint64 late;
  gint64 early;

  fixture_begin (&plant->base, SW_ACT_TEST, NULL);
  late = add_sample (plant, machine, "late", FIXTURE_START_MS + DAY_MS);
  early = add_sample (plant, machine, "early", FIXTURE_START_MS - DAY_MS);
  add_titration (plant, early, 1, SW_STEP_DONE, SW_OUTCOME_PASSED);      /* 2 */
  add_titration (plant, late, 1, SW_STEP_ABANDONED, SW_OUTCOME_OPEN);    /* 3: no outcome */
  add_titration (plant, late, 2, SW_STEP_DONE, SW_OUTCOME_ACID_FOUND);   /* 4: superseded by 5 */
  add_titration (plant, late, 3, SW_STEP_RESULT, SW_OUTCOME_OVER_RANGE); /* 5 */
  add_titration (plant, late, 4, SW_STEP_ABANDONED, SW_OUTCOME_OPEN);    /* 6: supersedes nothing */
  fixture_commit (&plant->base);
  assert_ids (sw_titration_closed_ids (STORE (plant), machine, 0, 0, 0, NULL), "5 1 2");
  assert_ids (sw_titration_closed_ids (STORE (plant), 0, 0, 0, 2, NULL), "5 1");
  assert_ids (sw_titration_closed_ids (STORE (plant), machine, FIXTURE_START_MS, 0, 0, NULL),
              "5 1");
  assert_ids (
      sw_titration_closed_ids (STORE (plant), machine, 0, FIXTURE_START_MS + DAY_MS, 0, NULL),
      "1 2");
  assert_ids (sw_titration_closed_ids (STORE (plant), 99, 0, 0, 0, NULL), "");
  void_row (plant, SW_TABLE_TITRATION, 5);
  assert_ids (sw_titration_closed_ids (STORE (plant), machine, 0, 0, 0, NULL), "4 1 2");
}

static void
test_doses (Plant *plant, gconstpointer data)
{
  gint64 titration = plant->plant.titration;
  g_autoptr (SwDoseRow) answered = NULL;
  double total;

  fixture_begin (&plant->base, SW_ACT_DOSE, NULL);
  add_dose (plant, titration, SW_DOSE_OPEN, NAN);      /* 2 */
  add_dose (plant, titration, SW_DOSE_NOT_KNOWN, NAN); /* 3 */
  add_dose (plant, titration, SW_DOSE_ADDED, 20.5);    /* 4 */
  add_dose (plant, titration, SW_DOSE_LAPSED, NAN);    /* 5 */
  answered = sw_dose_row_load (STORE (plant), plant->plant.dose, NULL);
  answered->retest_sample = plant->plant.sample;
  g_assert_true (sw_dose_row_update (STORE (plant), answered, NULL));
  fixture_commit (&plant->base);
  assert_ids (sw_dose_ids (STORE (plant), 0, 0, NULL), "5 4 3 2 1");
  assert_ids (sw_dose_ids (STORE (plant), plant->plant.machine, 2, NULL), "5 4");
  assert_ids (sw_dose_ids (STORE (plant), 99, 0, NULL), "");
  assert_ids (sw_dose_ids_in_state (STORE (plant), 0, SW_DOSE_ADDED, NULL), "1 4");
  assert_ids (sw_dose_ids_in_state (STORE (plant), 0, SW_DOSE_OPEN, NULL), "2");
  assert_ids (sw_dose_unanswered_ids (STORE (plant), plant->plant.machine, NULL), "3 4");
  g_assert_true (
      sw_dose_total (STORE (plant), plant->plant.fill, plant->plant.product, &total, NULL));
  sw_assert_close (total, 800.5, 1e-12);
  g_assert_true (
      sw_dose_total (STORE (plant), plant->plant.fill, plant->plant.caustic, &total, NULL));
  g_assert_cmpfloat (total, ==, 0.0);
}

static void
test_incident_and_decision (Plant *plant, gconstpointer data)
{
  g_autoptr (SwIncident) incident = sw_incident_load (STORE (plant), plant->plant.incident, NULL);
  g_autoptr (SwDecision) decision = sw_decision_new ();

  g_assert_cmpint (sw_incident_open_id (STORE (plant), plant->plant.machine, NULL), ==, 1);
  g_assert_cmpint (sw_decision_last (STORE (plant), plant->plant.plan, NULL), ==, 1);
  g_assert_cmpint (sw_decision_last (STORE (plant), 99, NULL), ==, 0);
  fixture_begin (&plant->base, SW_ACT_SIGN, NULL);
  incident->state = SW_INCIDENT_RETEST_PASSED;
  g_assert_true (sw_incident_update (STORE (plant), incident, NULL));
  decision->plan = plant->plant.plan;
  g_assert_true (sw_decision_insert (STORE (plant), decision, NULL));
  fixture_commit (&plant->base);
  g_assert_cmpint (sw_incident_open_id (STORE (plant), plant->plant.machine, NULL), ==, 1);
  g_assert_cmpint (sw_decision_last (STORE (plant), plant->plant.plan, NULL), ==, 2);
  fixture_begin (&plant->base, SW_ACT_SIGN, NULL);
  incident->state = SW_INCIDENT_CLOSED;
  g_assert_true (sw_incident_update (STORE (plant), incident, NULL));
  fixture_commit (&plant->base);
  g_assert_cmpint (sw_incident_open_id (STORE (plant), plant->plant.machine, NULL), ==, 0);
}

static void
add (const char *name, void (*func) (Plant *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/records/find/", name, NULL);

  g_test_add (path, Plant, NULL, plant_set_up, func, plant_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("ids", test_ids);
  add ("code", test_code);
  add ("code-counts", test_code_counts);
  add ("code-scans-nothing", test_code_scans_nothing);
  add ("open", test_open);
  add ("closed", test_closed);
  add ("doses", test_doses);
  add ("incident-and-decision", test_incident_and_decision);
  return g_test_run ();
}
