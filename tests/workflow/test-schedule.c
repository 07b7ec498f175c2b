/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schedule decision stored with the signature, after sequences of tests (2-calculations 2.7).
 */
#include "change.h"

/* p: a routine pass, a: a routine test that finds acid at 2 drops and is not dosed, b: the same at
 * 4 drops, e: a pass the same day. Before each of p, a, b the due day is waited for: the interval
 * in force passes. Expected: the interval and reason after each test, worked by hand from the
 * rules: three straight passes times 1.25, acid halves, limits 1 to 7 days (0.25 where stated). */
typedef struct
{
  const char *name;
  const char *tests;
  double shortest_days;
  double back_to_start_at;
  double intervals[12];
  SwScheduleReason reasons[12];
} Sequence;

#define SAME SW_SCHEDULE_SAME
#define LONGER SW_SCHEDULE_LONGER
#define HALVED SW_SCHEDULE_HALVED
#define EARLY SW_SCHEDULE_EARLY
#define SHORTEST SW_SCHEDULE_AT_SHORTEST
#define RETURNED SW_SCHEDULE_RETURNED

/* clang-format off */
static const Sequence sequences[] = {
  { "three passes", "ppp", 1, NAN, { 1, 1, 1.25 }, { SAME, SAME, LONGER } },
  { "six passes", "pppppp", 1, NAN, { 1, 1, 1.25, 1.25, 1.25, 1.5625 },
    { SAME, SAME, LONGER, SAME, SAME, LONGER } },
  { "acid halves", "pppa", 0.25, NAN, { 1, 1, 1.25, 0.625 }, { SAME, SAME, LONGER, HALVED } },
  { "not below the shortest", "a", 1, NAN, { 1 }, { SHORTEST } },
  { "acid starts the count again", "ppapp", 0.25, NAN, { 1, 1, 0.5, 0.5, 0.5 },
    { SAME, SAME, HALVED, SAME, SAME } },
  { "early passes earn nothing", "peeee", 1, NAN, { 1, 1, 1, 1, 1 },
    { SAME, EARLY, EARLY, EARLY, EARLY } },
  { "below the set size", "pppa", 0.25, 4, { 1, 1, 1.25, 0.625 },
    { SAME, SAME, LONGER, HALVED } },
  { "at the set size", "pppppb", 0.25, 4, { 1, 1, 1.25, 1.25, 1.25, 1 },
    { SAME, SAME, LONGER, SAME, SAME, RETURNED } },
};
/* clang-format on */

static void
run_one (Scene *scene, char which, double interval_days)
{
  GError *error = NULL;

  if (which != 'e')
    sw_test_plant_advance (scene->plant, interval_days * 24.0 * 60.0);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, which == 'a' ? 2 : which == 'b' ? 4 : 0);
  if (scene_step (scene) == SW_STEP_DOSE)
    {
      sw_guided_test_no_dose (scene->test, &error);
      g_assert_no_error (error);
    }
}

static void
test_sequence (gconstpointer data)
{
  const Sequence *sequence = data;
  g_autoptr (Scene) scene = scene_new ();
  double interval_days = 1.0;

  CHANGE (scene, SwPlan, sw_plan, scene->machine.plan, row->shortest_days = sequence->shortest_days;
          row->back_to_start_at = sequence->back_to_start_at);
  for (gsize i = 0; sequence->tests[i] != '\0'; i++)
    {
      const SwDecision *decision;

      run_one (scene, sequence->tests[i], interval_days);
      decision = sw_guided_test_get_decision (scene->test);
      g_assert_nonnull (decision);
      sw_assert_close (decision->interval_days, sequence->intervals[i], 1e-12);
      g_assert_cmpint (decision->reason, ==, sequence->reasons[i]);
      sw_assert_close (decision->shortest_days, sequence->shortest_days, 1e-12);
      interval_days = decision->interval_days;
    }
}

/* A re-test that passes earns no credit and changes no interval. */
static void
test_retest (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwDecision *decision;
  gint64 dose = scene_dosed_test (scene, 2);

  sw_test_plant_advance (scene->plant, 24.0 * 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  decision = sw_guided_test_get_decision (scene->test);
  g_assert_cmpint (decision->reason, ==, SW_SCHEDULE_RETEST);
  g_assert_cmpint (decision->credit, ==, 0);
  sw_assert_close (decision->interval_days, 1.0, 1e-12);
}

/* Tests of other purposes in between do not make a routine test early. */
static void
test_between (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  sw_test_plant_advance (scene->plant, 20.0 * 60.0);
  scene_test (scene, SW_PURPOSE_CONTROL, 0, 0);
  scene_test (scene, SW_PURPOSE_DUPLICATE, 0, 0);
  g_assert_null (sw_guided_test_get_decision (scene->test));
  sw_test_plant_advance (scene->plant, 3.0 * 60.0);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  g_assert_cmpint (sw_guided_test_get_decision (scene->test)->reason, ==, SW_SCHEDULE_SAME);
}

typedef struct
{
  const char *name;
  int offset_min;
  double begun_h; /* after 2026-11-24 00:00 UTC */
  gint64 due_ms;  /* after that midnight */
} Due;

/* Begun then, closed 5 minutes later; one day on, up to the last millisecond of the local day. */
static const Due dues[] = {
  { "utc, morning", 0, 10.0, 2 * SW_TEST_DAY_MS - 1 },
  { "east, evening", 60, 22.0, 2 * SW_TEST_DAY_MS - SW_TEST_HOUR_MS - 1 },
  { "east, after local midnight", 60, 23.0, 3 * SW_TEST_DAY_MS - SW_TEST_HOUR_MS - 1 },
  { "west, evening", -300, 23.0, 2 * SW_TEST_DAY_MS + 5 * SW_TEST_HOUR_MS - 1 },
};

static void
test_due_day (gconstpointer data)
{
  const Due *due = data;
  gint64 midnight_ms = SW_TEST_PLANT_START_MS - 5 * SW_TEST_HOUR_MS;
  g_autoptr (Scene) scene = scene_new ();

  scene->plant->offset_min = due->offset_min;
  scene->plant->now_ms = midnight_ms + (gint64)(due->begun_h * (double)SW_TEST_HOUR_MS);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  g_assert_cmpint (sw_guided_test_get_decision (scene->test)->due_ms, ==,
                   midnight_ms + due->due_ms);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (sequences); i++)
    {
      g_autofree char *path = sw_test_path ("/schedule/sequence", sequences[i].name);
      g_test_add_data_func (path, &sequences[i], test_sequence);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (dues); i++)
    {
      g_autofree char *path = sw_test_path ("/schedule/due", dues[i].name);
      g_test_add_data_func (path, &dues[i], test_due_day);
    }
  g_test_add_func ("/schedule/re-test", test_retest);
  g_test_add_func ("/schedule/between", test_between);
  return g_test_run ();
}
