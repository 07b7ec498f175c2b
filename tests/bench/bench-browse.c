/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Records list on a file of 200,000 tests: ids by several filters against a bare "SELECT id" of
 * the same table in the same run, and 256 rows as they come on screen against 256 bare lookups.
 * Another number of tests may be given.
 */
#include "bench.h"
#include "records/browse.h"
#include "records/bulk.h"
#include "records/review-state.h"
#include "records/store-private.h"
#include "support/plant.h"

#include <stdlib.h>

#define TESTS 200000
#define TESTS_PER_ACT 1000
#define READINGS 4
#define AMENDED_EVERY 500
#define RUNS 5
#define ON_SCREEN 256

static int n_tests = TESTS;

/* ---- the file ---- */

static void
check (gboolean done, GError *error)
{
  g_assert_no_error (error);
  g_assert_true (done);
}

static void
insert_readings (SwStore *store, gint64 titration, gint64 at_ms)
{
  for (int i = 1; i <= READINGS; i++)
    {
      g_autoptr (SwReadingRow) reading = sw_reading_row_new ();
      GError *error = NULL;

      reading->record.happened_ms = at_ms;
      reading->titration = titration;
      reading->ordinal = i;
      reading->total = i - 1;
      reading->meaning = i == READINGS ? SW_FIELD_NEUTRAL : SW_FIELD_ACID;
      check (sw_reading_row_insert (store, reading, &error), error);
    }
}

static void
insert_signature (SwStore *store, const SwTestPlant *plant, gint64 titration, SwMeaning meaning)
{
  g_autoptr (SwReview) review = sw_review_new ();
  GError *error = NULL;

  review->subject_table = g_strdup ("titration");
  review->subject = titration;
  review->person = meaning == SW_MEANING_PERFORMED ? plant->technician : plant->reviewer;
  review->meaning = meaning;
  check (sw_review_insert (store, review, &error), error);
}

/* Each row is written once and changed once, as the guided test does it several times. */
static void
insert_test (SwTestPlant *plant, int i)
{
  SwStore *store = plant->store;
  g_autoptr (SwSample) sample = sw_sample_new ();
  g_autoptr (SwTitration) titration = sw_titration_new ();
  GError *error = NULL;

  sample->record.happened_ms = titration->record.happened_ms
      = plant->now_ms - (gint64)(n_tests - i) * SW_TEST_HOUR_MS;
  sample->code = g_strdup_printf ("M-07-%d", i);
  sample->machine = plant->first.machine;
  sample->drawn_by = plant->technician;
  sample->appearance = g_strdup (i % 100 == 0 ? "clear, a little Ölfilm" : "clear");
  check (sw_sample_insert (store, sample, &error), error);
  titration->sample = sample->record.id;
  titration->method_version = plant->version;
  titration->analyst = i % 3 == 0 ? plant->colleague : plant->technician;
  titration->portion = 1;
  check (sw_titration_insert (store, titration, &error), error);
  insert_readings (store, titration->record.id, titration->record.happened_ms);
  titration->step = SW_STEP_DONE;
  titration->outcome = i % 5 == 0 ? SW_OUTCOME_ACID_FOUND : SW_OUTCOME_PASSED;
  titration->net_low = i % 5;
  titration->net_high = i % 5 + 1;
  titration->closed_ms = titration->signed_ms = titration->record.happened_ms;
  check (sw_titration_update (store, titration, &error), error);
  insert_signature (store, plant, titration->record.id, SW_MEANING_PERFORMED);
  if (i % 50 != 0)
    insert_signature (store, plant, titration->record.id, SW_MEANING_REVIEWED);
}

static void
amend (SwTestPlant *plant, int i)
{
  g_autoptr (SwSample) sample = sw_sample_load (plant->store, i, NULL);
  GError *error = NULL;

  g_free (sample->appearance);
  sample->appearance = g_strdup ("cloudy");
  check (sw_sample_update (plant->store, sample, &error), error);
}

static void
fill_file (SwTestPlant *plant)
{
  const SwActor actor = { .person = plant->administrator,
                          .identified = SW_IDENTIFIED_DEMO,
                          .reason = "read the label again" };
  GError *error = NULL;

  check (sw_sql_execute (plant->store, "PRAGMA synchronous = OFF", &error), error);
  for (int i = 0; i < n_tests; i += TESTS_PER_ACT)
    {
      sw_test_plant_begin (plant, SW_ACT_TEST);
      for (int k = i; k < MIN (i + TESTS_PER_ACT, n_tests); k++)
        insert_test (plant, k);
      sw_test_plant_commit (plant);
    }
  check (sw_act_begin (plant->store, SW_ACT_AMEND, &actor, &error), error);
  for (int i = AMENDED_EVERY; i < n_tests; i += AMENDED_EVERY)
    amend (plant, i);
  check (sw_act_commit (plant->store, &error), error);
}

/* ---- ids ---- */

typedef struct
{
  const char *name;
  SwBrowseFilter filter;
} Case;

static guint
run_filter (SwStore *store, const SwBrowseFilter *filter, Bench *bench)
{
  GError *error = NULL;
  g_autoptr (GArray) ids = NULL;

  bench_start (bench);
  ids = sw_browse_ids (store, filter, &error);
  bench_stop (bench);
  g_assert_no_error (error);
  return ids->len;
}

static void
run_bare (SwStore *store, Bench *bench)
{
  GError *error = NULL;
  g_autoptr (GArray) ids = NULL;

  bench_start (bench);
  ids = sw_sql_ids (store, "SELECT id FROM titration", NULL, 0, &error);
  bench_stop (bench);
  g_assert_no_error (error);
  g_assert_cmpint (ids->len, ==, n_tests);
}

static void
measure_filter (SwStore *store, const Case *row)
{
  Bench ours, bare;
  guint found = 0;

  bench_init (&ours);
  bench_init (&bare);
  for (int i = 0; i < RUNS; i++)
    {
      found = run_filter (store, &row->filter, &ours);
      run_bare (store, &bare);
    }
  g_print ("%u ids, ", found);
  bench_print (row->name, &ours, &bare);
  bench_clear (&ours);
  bench_clear (&bare);
}

/* ---- acts ---- */

static void
measure_acts (SwStore *store)
{
  const SwBrowseFilter filter = { .outcome = -1 };
  Bench acts, bare;

  bench_init (&acts);
  bench_init (&bare);
  for (int i = 0; i < RUNS; i++)
    {
      GError *error = NULL;
      g_autoptr (GArray) ids = NULL;

      bench_start (&acts);
      ids = sw_browse_acts (store, &filter, FALSE, &error);
      bench_stop (&acts);
      g_assert_no_error (error);
      run_bare (store, &bare);
    }
  bench_print ("acts / bare", &acts, &bare);
  bench_clear (&acts);
  bench_clear (&bare);
}

/* ---- rows ---- */

static void
load_rows (SwStore *store, const GArray *ids, Bench *bench)
{
  bench_start (bench);
  for (guint i = 0; i < ON_SCREEN; i++)
    {
      GError *error = NULL;
      g_autoptr (SwBrowseRow) row
          = sw_browse_load (store, SW_TABLE_TITRATION, g_array_index (ids, gint64, i), &error);

      g_assert_no_error (error);
    }
  bench_stop (bench);
}

static void
load_bare (SwStore *store, const GArray *ids, Bench *bench)
{
  bench_start (bench);
  for (guint i = 0; i < ON_SCREEN; i++)
    {
      const SwCell key = sw_cell_integer (g_array_index (ids, gint64, i));
      gint64 happened_ms;

      g_assert_true (sw_sql_integer (store, "SELECT happened_ms FROM titration WHERE id = ?", &key,
                                     1, &happened_ms, NULL));
    }
  bench_stop (bench);
}

static void
ask_states (SwStore *store, const GArray *ids, Bench *bench)
{
  bench_start (bench);
  for (guint i = 0; i < ON_SCREEN; i++)
    {
      SwReviewState state;

      g_assert_true (sw_review_state (store, SW_TABLE_TITRATION, g_array_index (ids, gint64, i),
                                      &state, NULL));
    }
  bench_stop (bench);
}

static void
measure_rows (SwStore *store)
{
  const SwBrowseFilter filter = { .table = SW_TABLE_TITRATION, .outcome = -1 };
  g_autoptr (GArray) ids = sw_browse_ids (store, &filter, NULL);
  Bench rows, states, bare;

  bench_init (&rows);
  bench_init (&states);
  bench_init (&bare);
  for (int i = 0; i < RUNS; i++)
    {
      load_rows (store, ids, &rows);
      ask_states (store, ids, &states);
      load_bare (store, ids, &bare);
    }
  bench_print ("256 rows / bare lookups", &rows, &bare);
  bench_print ("256 review states / bare lookups", &states, &bare);
  bench_clear (&rows);
  bench_clear (&states);
  bench_clear (&bare);
}

int
main (int argc, char **argv)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  const gint64 year_ms = 365 * SW_TEST_DAY_MS;
#define TITRATIONS .table = SW_TABLE_TITRATION
  const Case cases[] = {
    { "current / bare", { TITRATIONS, .outcome = -1 } },
    { "one machine", { TITRATIONS, .outcome = -1, .machine = plant->first.machine } },
    { "no machine", { TITRATIONS, .outcome = -1, .machine = 99 } },
    { "one person", { TITRATIONS, .outcome = -1, .person = plant->colleague } },
    { "last year", { TITRATIONS, .outcome = -1, .from_ms = plant->now_ms - year_ms } },
    { "acid found", { TITRATIONS, .outcome = SW_OUTCOME_ACID_FOUND } },
    { "search", { TITRATIONS, .outcome = -1, .search = "öLFILM clear" } },
    { "late", { TITRATIONS, .outcome = -1, .state = SW_BROWSE_LATE } },
    { "amended", { TITRATIONS, .outcome = -1, .state = SW_BROWSE_AMENDED } },
    { "to review", { TITRATIONS, .outcome = -1, .state = SW_BROWSE_TO_REVIEW } },
    { "review lost", { TITRATIONS, .outcome = -1, .state = SW_BROWSE_REVIEW_LOST } },
    { "readings", { .table = SW_TABLE_READING, .outcome = -1 } },
  };

  n_tests = argc > 1 ? atoi (argv[1]) : TESTS;
  fill_file (plant);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    measure_filter (plant->store, &cases[i]);
  measure_acts (plant->store);
  measure_rows (plant->store);
  return 0;
}
