/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Does guided tests on one machine until it is killed. Usage: kill-driver FILE MACHINE
 * START_REAL_US
 *
 * After each move that has returned, the word "TITRATION SEQ STEP" goes to stdout: from then on the
 * program owes that step to the person at the bench. The first three drops read acid, so that each
 * test ends in a dose and each dose in a re-test that passes.
 *
 * The clock runs 2,000 times as fast as the real one, from the same origin in every run, so that
 * circulation and the staircase's days do not hold the test up and no clock goes backwards.
 */
#include "support/plant.h"
#include "workflow/due.h"
#include "workflow/guided.h"

#include <stdio.h>
#include <stdlib.h>

#define CLOCK_FACTOR 2000
#define DROPS_TO_PASS 3.0

typedef struct
{
  gint64 machine;
  gint64 start_real_us;
  SwStore *store; /* Borrowed */
  SwActor actor;
} Driver;

static gint64
fast_now_ms (gpointer data)
{
  const Driver *driver = data;

  return SW_TEST_PLANT_START_MS
         + (g_get_real_time () - driver->start_real_us) * CLOCK_FACTOR / 1000;
}

static int
fast_offset_min (gpointer data, gint64 utc_ms)
{
  return SW_TEST_PLANT_OFFSET_MIN;
}

static void
acknowledge (SwGuidedTest *test)
{
  const SwTitration *titration = sw_guided_test_get_titration (test);

  printf ("%" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %d\n", titration->record.id,
          titration->record.journal_seq, (int)titration->step);
  fflush (stdout);
}

static gint64
first_id (Driver *driver, SwTable table, const char *column, gint64 value)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_record_ids (driver->store, table, column, value, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (ids->len, >, 0);
  return g_array_index (ids, gint64, 0);
}

static gint64
first_id_by_word (Driver *driver, SwTable table, const char *column, const char *word)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_record_ids_by_text (driver->store, table, column, word, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (ids->len, >, 0);
  return g_array_index (ids, gint64, 0);
}

static gint64
lot_of (Driver *driver, gint64 product)
{
  return product != 0 ? first_id (driver, SW_TABLE_LOT, "product", product) : 0;
}

/* The sample of a re-test is drawn once the dose has circulated. */
static void
wait_for_circulation (Driver *driver, const SwSample *sample)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDoseRow) dose = NULL;

  if (sample->answers_dose == 0)
    return;
  dose = sw_dose_row_load (driver->store, sample->answers_dose, &error);
  g_assert_no_error (error);
  while (sw_store_now (driver->store) < dose->retest_due_ms)
    g_usleep (1000);
}

static gboolean
draw (Driver *driver, SwGuidedTest *test, GError **error)
{
  const SwDrawEntry entry = {
    .point = first_id (driver, SW_TABLE_SAMPLING_POINT, "machine", driver->machine),
    .running = SW_ANSWER_YES,
    .level_ok = SW_ANSWER_YES,
    .added_since = SW_ANSWER_NO,
    .volume = { .value = 150.0 },
    .temperature = { .value = 21.0 },
    .retained = TRUE,
  };

  wait_for_circulation (driver, sw_guided_test_get_sample (test));
  return sw_guided_test_draw (test, &entry, error);
}

static gboolean
prepare (Driver *driver, SwGuidedTest *test, GError **error)
{
  const SwMethodVersion *method = sw_guided_test_get_method (test);
  const SwPrepareEntry entry = {
    .portion = { .value = SW_TEST_PLANT_SAMPLE_ML },
    .titrant_lot = lot_of (driver, method->titrant),
    .caustic_lot = lot_of (driver, method->caustic),
    .strip_lot = lot_of (driver, first_id_by_word (driver, SW_TABLE_PRODUCT, "use", "strips")),
    .lot_reason = "no other at hand",
  };

  return sw_guided_test_prepare (test, &entry, error);
}

static gboolean
read_strip (SwGuidedTest *test, GError **error)
{
  const gboolean retest = sw_guided_test_get_sample (test)->purpose == SW_PURPOSE_RETEST;
  const gboolean passes = retest || sw_guided_test_get_total (test) >= DROPS_TO_PASS;
  const SwField wanted = passes ? SW_FIELD_NEUTRAL : SW_FIELD_ACID;
  GPtrArray *fields = sw_guided_test_get_fields (test);

  for (guint i = 0; i < fields->len; i++)
    {
      const SwColourField *field = fields->pdata[i];

      if (field->meaning == wanted)
        return sw_guided_test_read (test, field->record.id, error);
    }
  g_assert_not_reached ();
}

static gboolean
titrate (SwGuidedTest *test, gint64 now_ms, GError **error)
{
  if (!sw_guided_test_can (test, SW_MOVE_READ, now_ms, NULL)
      && !sw_guided_test_can (test, SW_MOVE_ADD, now_ms, NULL)
      && !sw_guided_test_can (test, SW_MOVE_CLOSE, now_ms, NULL))
    return sw_guided_test_fresh_portion (test, "paused too long", error);
  switch (sw_guided_test_get_outcome (test)->next)
    {
    case SW_NEXT_ADD:
      return sw_guided_test_add (test, 1.0, error);
    case SW_NEXT_CLOSE:
      return sw_guided_test_close (test, error);
    case SW_NEXT_FRESH_PORTION:
      return sw_guided_test_fresh_portion (test, "nothing known below", error);
    default:
      return read_strip (test, error);
    }
}

static gboolean
record_added (Driver *driver, SwGuidedTest *test, GError **error)
{
  const SwDoseRow *dose = sw_guided_test_get_dose (test);
  const SwAddedEntry entry = { .added = { .value = dose->measured_ml },
                               .lot = lot_of (driver, dose->product),
                               .lot_reason = "no other at hand" };

  if (!sw_guided_test_can (test, SW_MOVE_RECORD_ADDED, sw_store_now (driver->store), NULL))
    return sw_guided_test_not_known (test, error);
  return sw_guided_test_record_added (test, &entry, error);
}

static gboolean
decide_dose (Driver *driver, SwGuidedTest *test, GError **error)
{
  g_auto (SwDoseProposal) proposal = { 0 };
  SwSigner release = { .identified = SW_IDENTIFIED_SECRET };

  if (!sw_guided_test_propose (test, 0.0, &proposal, error))
    return FALSE;
  if (proposal.refusal.code != SW_FACT_NONE)
    return sw_guided_test_no_dose (test, error);
  if (proposal.release.code != SW_FACT_NONE)
    release.person = first_id_by_word (driver, SW_TABLE_PERSON, "role", "reviewer");
  return sw_guided_test_decide_dose (test, 0.0, NULL, &release, error);
}

static gboolean
sign (Driver *driver, SwGuidedTest *test, GError **error)
{
  const SwSigner signer
      = { .person = driver->actor.person, .identified = driver->actor.identified };

  return sw_guided_test_sign (test, &signer, error);
}

static gboolean
move (Driver *driver, SwGuidedTest *test, GError **error)
{
  switch (sw_guided_test_get_step (test))
    {
    case SW_STEP_DRAW:
      return draw (driver, test, error);
    case SW_STEP_PREPARE:
      return prepare (driver, test, error);
    case SW_STEP_READ:
      return titrate (test, sw_store_now (driver->store), error);
    case SW_STEP_RESULT:
      return sw_guided_test_accept (test, error);
    case SW_STEP_CHECK:
      return sign (driver, test, error);
    case SW_STEP_DOSE:
      return decide_dose (driver, test, error);
    case SW_STEP_ADDED:
      return record_added (driver, test, error);
    default:
      g_assert_not_reached ();
    }
}

/* Goes on where the last run was killed, or begins the test that the machine's state asks for. */
static SwGuidedTest *
open_test (Driver *driver)
{
  g_autoptr (GError) error = NULL;
  SwMachineState state;
  SwGuidedTest *test;

  g_assert_true (sw_machine_state (driver->store, driver->machine, sw_store_now (driver->store),
                                   &state, &error));
  if (state.open_titration != 0)
    test = sw_guided_test_resume (driver->store, &driver->actor, state.open_titration, &error);
  else
    test = sw_guided_test_begin (driver->store, &driver->actor, state.plan,
                                 state.retest_dose != 0 ? SW_PURPOSE_RETEST : SW_PURPOSE_ROUTINE,
                                 state.retest_dose, &error);
  g_assert_no_error (error);
  return test;
}

static void
do_tests_for_ever (Driver *driver)
{
  for (;;)
    {
      g_autoptr (SwGuidedTest) test = open_test (driver);

      acknowledge (test);
      while (sw_guided_test_get_step (test) != SW_STEP_DONE
             && sw_guided_test_get_step (test) != SW_STEP_ABANDONED)
        {
          g_autoptr (GError) error = NULL;

          if (!move (driver, test, &error))
            g_error ("move refused: %s", error->message);
          acknowledge (test);
        }
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwStore) store = NULL;
  Driver driver = { 0 };
  const SwClock clock = { .now_ms = fast_now_ms, .offset_min = fast_offset_min, .data = &driver };

  g_assert_cmpint (argc, ==, 4);
  driver.machine = g_ascii_strtoll (argv[2], NULL, 10);
  driver.start_real_us = g_ascii_strtoll (argv[3], NULL, 10);
  store = sw_store_open (argv[1], SW_OPEN_WRITE, &clock, &error);
  g_assert_no_error (error);
  driver.store = store;
  driver.actor = (SwActor){ .person = first_id (&driver, SW_TABLE_PERSON, NULL, 0),
                            .identified = SW_IDENTIFIED_SECRET };
  do_tests_for_ever (&driver);
  return EXIT_SUCCESS;
}
