/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: readings, strikes, pauses, fresh portions, the way back. */
#include "scene.h"

/* ---- readings ---- */

static void
check_outcome (Scene *scene, SwOutcomeKind kind, double low, double high)
{
  const SwTitration *titration = sw_guided_test_get_titration (scene->test);
  const SwOutcome *outcome = sw_guided_test_get_outcome (scene->test);

  g_assert_cmpint (outcome->kind, ==, kind);
  g_assert_cmpint (titration->outcome, ==, kind);
  sw_assert_close (titration->net_low, low, 1e-12);
  sw_assert_close (titration->net_high, high, 1e-12);
}

static void
test_several_drops_at_once (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 5.0);
  g_assert_cmpfloat (sw_guided_test_get_total (scene->test), ==, 5.0);
  scene_add (scene, 2.0);
  g_assert_cmpfloat (sw_guided_test_get_total (scene->test), ==, 7.0);
  scene_read (scene, SW_FIELD_ACID);
  g_assert_cmpint (sw_guided_test_get_readings (scene->test)->len, ==, 2);
  scene_add (scene, 1.0);
  scene_read (scene, SW_FIELD_NEUTRAL);
  check_outcome (scene, SW_OUTCOME_OPEN, NAN, NAN);
  scene_read (scene, SW_FIELD_ALKALINE);
  check_outcome (scene, SW_OUTCOME_ACID_FOUND, 7.0, 8.0);
}

/* 2.1: acid after a pass reopens the test. */
static void
test_acid_after_pass (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 1);
  check_outcome (scene, SW_OUTCOME_ACID_FOUND, 0.0, 1.0);
  scene_read (scene, SW_FIELD_ACID);
  g_assert_cmpint (sw_guided_test_get_outcome (scene->test)->kind, ==, SW_OUTCOME_OPEN);
  scene_add (scene, 1.0);
  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_read (scene, SW_FIELD_NEUTRAL);
  check_outcome (scene, SW_OUTCOME_ACID_FOUND, 1.0, 2.0);
}

static void
test_strike_keeps_drops (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 3.0);
  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_strike (scene, FALSE);
  g_assert_cmpfloat (sw_guided_test_get_total (scene->test), ==, 3.0);
  g_assert_cmpint (sw_guided_test_get_outcome (scene->test)->next, ==, SW_NEXT_READ_AGAIN);
  /* The colour is void but the drops are in the flask: the strip comes first. */
  g_assert_false (sw_guided_test_add (scene->test, 1.0, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_READING);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 1.0);
  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_read (scene, SW_FIELD_NEUTRAL);
  check_outcome (scene, SW_OUTCOME_ACID_FOUND, 3.0, 4.0);
}

static void
test_strike_not_added (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 3.0);
  scene_read (scene, SW_FIELD_ACID);
  scene_strike (scene, TRUE);
  g_assert_cmpfloat (sw_guided_test_get_total (scene->test), ==, 0.0);
  scene_add (scene, 1.0);
  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_read (scene, SW_FIELD_NEUTRAL);
  check_outcome (scene, SW_OUTCOME_ACID_FOUND, 0.0, 1.0);
  g_assert_cmpint (sw_guided_test_get_readings (scene->test)->len, ==, 4);
}

/* Titrant entered by mistake and not read yet is taken back without striking a reading. */
static void
test_take_back_unread (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwReadingRow *first;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 5.0);
  scene_strike (scene, TRUE);
  g_assert_cmpfloat (sw_guided_test_get_total (scene->test), ==, 0.0);
  first = g_ptr_array_index (sw_guided_test_get_readings (scene->test), 0);
  g_assert_false (first->struck);
  scene_add (scene, 1.0);
  g_assert_cmpfloat (sw_guided_test_get_total (scene->test), ==, 1.0);
}

static void
test_strike_needs_reason (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  g_assert_false (sw_guided_test_strike (scene->test, FALSE, NULL, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
  g_assert_false (sw_guided_test_strike (scene->test, FALSE, "  ", &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
  scene_strike (scene, FALSE);
  g_assert_false (sw_guided_test_strike (scene->test, FALSE, "again", &error));
  scene_assert_fact (&error, SW_FACT_NOTHING_TO_TAKE_BACK);
}

static void
test_add_refusals (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  g_assert_false (sw_guided_test_add (scene->test, 1.0, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_READING);
  scene_read (scene, SW_FIELD_BETWEEN);
  g_assert_false (sw_guided_test_add (scene->test, 0.0, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_STEPS_ADDED);
  g_assert_false (sw_guided_test_add (scene->test, -1.0, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_STEPS_ADDED);
  g_assert_false (sw_guided_test_add (scene->test, 1.5, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_STEPS_ADDED);
  g_assert_false (sw_guided_test_add (scene->test, NAN, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_STEPS_ADDED);
  g_assert_false (sw_guided_test_add (scene->test, 21.0, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_STEPS_ADDED);
  scene_add (scene, 1.0);
  scene_read (scene, SW_FIELD_NEUTRAL);
  g_assert_false (sw_guided_test_add (scene->test, 1.0, &error));
  scene_assert_fact (&error, SW_FACT_ADD_ONLY_WHILE_ACID);
}

/* Still acid at the method's last step: over range, no dose, an incident that says so. */
static void
test_over_range (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 20.0);
  scene_read (scene, SW_FIELD_ACID);
  check_outcome (scene, SW_OUTCOME_OVER_RANGE, 20.0, INFINITY);
  g_assert_false (sw_guided_test_add (scene->test, 1.0, &error));
  scene_assert_fact (&error, SW_FACT_NO_MORE_STEPS);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  incident = scene_incident (scene);
  g_assert_nonnull (incident);
  g_assert_true (incident->over_range);
}

/* ---- pause ---- */

static void
test_pause (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  SwFact refusal;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  /* Nothing in the flask yet that could spoil. */
  sw_test_plant_advance (scene->plant, 120.0);
  g_assert_true (sw_guided_test_can (scene->test, SW_MOVE_READ, scene_now (scene), NULL));
  scene_read (scene, SW_FIELD_ACID);
  sw_test_plant_advance (scene->plant, 28.0);
  scene_add (scene, 1.0);
  scene_resume (scene, scene_titration (scene));
  /* 1 + 28 + 1 min since the strip: just good. */
  g_assert_true (sw_guided_test_can (scene->test, SW_MOVE_READ, scene_now (scene), NULL));
  g_assert_false (sw_guided_test_can (scene->test, SW_MOVE_READ, scene_now (scene) + 1, NULL));
  sw_test_plant_advance (scene->plant, 2.0);
  g_assert_false (sw_guided_test_can (scene->test, SW_MOVE_READ, scene_now (scene), &refusal));
  g_assert_cmpint (refusal.code, ==, SW_FACT_PAUSED_TOO_LONG);
  sw_assert_close (refusal.number[0], 32.0, 1e-9);
  g_assert_false (sw_guided_test_read (scene->test, scene_field (scene, SW_FIELD_ACID), &error));
  scene_assert_fact (&error, SW_FACT_PAUSED_TOO_LONG);
  g_assert_false (sw_guided_test_shake (scene->test, &error));
  scene_assert_fact (&error, SW_FACT_PAUSED_TOO_LONG);
  g_assert_true (sw_guided_test_can (scene->test, SW_MOVE_FRESH_PORTION, scene_now (scene), NULL));
}

/* A result that stands is not spoilt by lunch. */
static void
test_pause_after_outcome (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 2);
  sw_test_plant_advance (scene->plant, 60.0);
  scene_close (scene);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_RESULT);
}

static void
test_fresh_portion (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwTitration) old = NULL;
  GError *error = NULL;
  gint64 first;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 2);
  scene_close (scene);
  scene_accept (scene);
  first = scene_titration (scene);
  g_assert_false (sw_guided_test_fresh_portion (scene->test, "", &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
  sw_guided_test_fresh_portion (scene->test, "the last step was too wide", &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_PREPARE);
  g_assert_cmpint (sw_guided_test_get_titration (scene->test)->portion, ==, 2);
  old = sw_titration_load (scene->plant->store, first, &error);
  g_assert_no_error (error);
  g_assert_cmpint (old->step, ==, SW_STEP_ABANDONED);
  g_assert_cmpstr (old->end_reason, ==, "the last step was too wide");
  g_assert_cmpint (old->closed_ms, ==, 0);
  scene_prepare (scene);
  scene_titrate (scene, 1);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
  check_outcome (scene, SW_OUTCOME_ACID_FOUND, 0.0, 1.0);
  scene_assert_sound (scene);
}

/* ---- back and abandon ---- */

static void
test_back (void)
{
  g_autoptr (Scene) scene = scene_new ();
  static const SwStep steps[] = { SW_STEP_RESULT, SW_STEP_READ };
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  sw_guided_test_back (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_PREPARE);
  sw_guided_test_back (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DRAW);
  scene_draw (scene);
  scene_prepare (scene);
  scene_titrate (scene, 1);
  g_assert_false (sw_guided_test_back (scene->test, &error));
  scene_assert_fact (&error, SW_FACT_NOT_FROM_HERE);
  scene_close (scene);
  scene_accept (scene);
  g_assert_cmpint (sw_guided_test_get_titration (scene->test)->closed_ms, !=, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      sw_guided_test_back (scene->test, &error);
      g_assert_no_error (error);
      g_assert_cmpint (scene_step (scene), ==, steps[i]);
      g_assert_cmpint (sw_guided_test_get_titration (scene->test)->closed_ms, ==, 0);
    }
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
  g_assert_false (sw_guided_test_back (scene->test, &error));
  scene_assert_fact (&error, SW_FACT_ALREADY_SIGNED);
}

static void
test_back_from_a_pass_at_zero (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 0);
  scene_close (scene);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_CHECK);
  sw_guided_test_back (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_READ);
}

static void
test_abandon (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  g_assert_false (sw_guided_test_abandon (scene->test, NULL, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
  sw_guided_test_abandon (scene->test, "bottle broke", &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_ABANDONED);
  g_assert_cmpstr (sw_guided_test_get_titration (scene->test)->end_reason, ==, "bottle broke");
  /* The machine is free again. */
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/read/read/several-drops", test_several_drops_at_once },
  { "/read/read/acid-after-pass", test_acid_after_pass },
  { "/read/read/over-range", test_over_range },
  { "/read/strike/keeps-drops", test_strike_keeps_drops },
  { "/read/strike/not-added", test_strike_not_added },
  { "/read/strike/unread", test_take_back_unread },
  { "/read/strike/needs-reason", test_strike_needs_reason },
  { "/read/add/refusals", test_add_refusals },
  { "/read/pause/over-30-min", test_pause },
  { "/read/pause/after-outcome", test_pause_after_outcome },
  { "/read/fresh-portion", test_fresh_portion },
  { "/read/back/pages", test_back },
  { "/read/back/pass-at-zero", test_back_from_a_pass_at_zero },
  { "/read/abandon", test_abandon },
};
/* clang-format on */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].test);
  return g_test_run ();
}
