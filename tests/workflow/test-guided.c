/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test from "this machine is due" to the re-test and the reviewer. */
#include "scene.h"

#include "workflow/due.h"

/* ---- the acceptance case ---- */

/* 3 drops of 0.05 mL, 50 mL sample, 420 L, the product itself as titrant: one drop is worth
 * 1000 * 0.05 * 420 / 50 = 420 mL; bounds 2 to 3 drops, best 2.5 drops, measured with a jug of
 * 20 mL. By hand; the same figures stand in the list of worked doses of the design's references. */
static void
check_proposal (Scene *scene)
{
  g_auto (SwDoseProposal) proposal = { 0 };
  GError *error = NULL;

  sw_guided_test_propose (scene->test, 0.0, &proposal, &error);
  g_assert_no_error (error);
  g_assert_cmpint (proposal.refusal.code, ==, SW_FACT_NONE);
  g_assert_cmpint (proposal.release.code, ==, SW_FACT_NONE);
  sw_assert_close (proposal.dose.per_step_ml, 420.0, 1e-12);
  sw_assert_close (proposal.dose.bounds_ml.low, 840.0, 1e-12);
  sw_assert_close (proposal.dose.bounds_ml.high, 1260.0, 1e-12);
  sw_assert_close (proposal.dose.best_ml.value, 1050.0, 1e-12);
  sw_assert_close (proposal.dose.measure_ml, 1260.0, 1e-12);
  g_assert_cmpuint (proposal.parts->len, ==, 1);
  sw_assert_close (proposal.wait_min, SW_TEST_PLANT_CIRCULATION_MIN, 1e-12);
  g_assert_true (isnan (proposal.supplier_ml));
}

static gboolean
find_todo (GArray *todos, SwTodoKind kind, SwTodo *found)
{
  for (guint i = 0; i < todos->len; i++)
    {
      *found = g_array_index (todos, SwTodo, i);
      if (found->kind == kind)
        return TRUE;
    }
  return FALSE;
}

static void
check_retest_is_listed (Scene *scene, gint64 dose, gboolean due)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) todos = sw_todo_list (scene->plant->store, scene_now (scene), &error);
  SwTodo todo = { 0 };

  g_assert_no_error (error);
  g_assert_false (find_todo (todos, SW_TODO_TEST, &todo));
  g_assert_true (find_todo (todos, SW_TODO_RETEST, &todo));
  g_assert_cmpint (todo.dose, ==, dose);
  g_assert_cmpint (todo.due, ==, due);
}

static void
check_review_is_listed (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) todos = sw_todo_list (scene->plant->store, scene_now (scene), &error);
  g_autoptr (SwIncident) incident = scene_incident (scene);
  SwTodo todo = { 0 };

  g_assert_no_error (error);
  g_assert_false (find_todo (todos, SW_TODO_RETEST, &todo));
  g_assert_true (find_todo (todos, SW_TODO_REVIEW, &todo));
  g_assert_nonnull (incident);
  g_assert_cmpint (todo.incident, ==, incident->record.id);
  g_assert_cmpint (incident->state, ==, SW_INCIDENT_RETEST_PASSED);
  g_assert_cmpint (incident->answered_by_titration, ==, scene_titration (scene));
}

/* What the whole run left in the file, without ids of the journal. (transfer full) */
static char *
describe_end (Scene *scene)
{
  const SwTitration *last = sw_guided_test_get_titration (scene->test);
  const SwDecision *decision = sw_guided_test_get_decision (scene->test);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDoseRow) dose = sw_dose_row_load (
      scene->plant->store, sw_guided_test_get_sample (scene->test)->answers_dose, &error);

  g_assert_no_error (error);
  return g_strdup_printf (
      "%s %d %d %.17g %.17g | %d %.17g %.17g %" G_GINT64_FORMAT " %" G_GINT64_FORMAT
      " | %.17g %d %" G_GINT64_FORMAT " | %" G_GINT64_FORMAT,
      sw_guided_test_get_sample (scene->test)->code, last->step, last->outcome, last->net_low,
      last->net_high, dose->state, dose->measured_ml, dose->added.value, dose->retest_due_ms,
      dose->retest_sample, decision->interval_days, decision->credit, decision->due_ms,
      last->ended_ms);
}

static char *
run_acceptance (gboolean restart)
{
  g_autoptr (Scene) scene = scene_new ();
  gint64 dose;

  scene->restart = restart;
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DOSE);
  check_proposal (scene);
  scene_decide (scene, 0.0);
  scene_record (scene, 1260.0);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  dose = sw_guided_test_get_dose (scene->test)->record.id;

  check_retest_is_listed (scene, dose, FALSE);
  sw_test_plant_advance (scene->plant, SW_TEST_PLANT_CIRCULATION_MIN);
  check_retest_is_listed (scene, dose, TRUE);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  check_review_is_listed (scene);
  scene_assert_sound (scene);
  return describe_end (scene);
}

static void
test_acceptance (void)
{
  g_autofree char *end = run_acceptance (FALSE);

  g_assert_nonnull (end);
}

/* Killed between any two moves, the test ends where it would have ended. */
static void
test_restart (void)
{
  g_autofree char *straight = run_acceptance (FALSE);
  g_autofree char *restarted = run_acceptance (TRUE);

  g_assert_cmpstr (restarted, ==, straight);
}

/* ---- pages ---- */

static void
check_progress (Scene *scene, int step, int of)
{
  int is_step;
  int is_of;

  sw_guided_test_get_progress (scene->test, &is_step, &is_of);
  g_assert_cmpint (is_step, ==, step);
  g_assert_cmpint (is_of, ==, of);
}

static void
test_progress_of_a_pass (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  check_progress (scene, 1, 7);
  scene_draw (scene);
  check_progress (scene, 2, 7);
  scene_prepare (scene);
  check_progress (scene, 3, 7);
  scene_titrate (scene, 0);
  check_progress (scene, 3, 5);
  scene_close (scene);
  check_progress (scene, 5, 5);
  scene_sign (scene);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  check_progress (scene, 5, 5);
}

static void
test_progress_of_acid (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 2);
  scene_close (scene);
  check_progress (scene, 4, 7);
  scene_accept (scene);
  check_progress (scene, 5, 7);
  scene_sign (scene);
  check_progress (scene, 6, 7);
  scene_decide (scene, 0.0);
  check_progress (scene, 7, 7);
}

static void
test_sample_code (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  g_assert_cmpstr (sw_guided_test_get_sample (scene->test)->code, ==, "M-07-261124-1");
  scene_test (scene, SW_PURPOSE_DUPLICATE, 0, 0);
  g_assert_cmpstr (sw_guided_test_get_sample (scene->test)->code, ==, "M-07-261124-2");
}

/* What the result depends on stands in the titration, whatever set-up says later. */
static void
test_prepare_copies (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwTitration *titration;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  titration = sw_guided_test_get_titration (scene->test);
  g_assert_cmpint (titration->calibration, ==, scene->plant->calibration);
  sw_assert_close (titration->step_ml, SW_TEST_PLANT_DROP_ML, 1e-12);
  sw_assert_close (titration->step_u_ml, 0.001, 1e-12);
  sw_assert_close (titration->step_freedom, 9.0, 1e-12);
  sw_assert_close (titration->portion_volume.value, SW_TEST_PLANT_SAMPLE_ML, 1e-12);
  g_assert_cmpstr (titration->portion_volume.typed, ==, "50 mL");
  sw_assert_close (titration->maximum, 20.0, 1e-12);
  sw_assert_close (titration->blank, 0.0, 1e-12);
  g_assert_true (isnan (titration->titrant_mmol_ml));
  g_assert_true (isnan (titration->caustic_mmol));
  g_assert_cmpint (titration->titrant_lot, ==, scene->plant->neutraliser_lot);
  g_assert_cmpint (titration->analyst, ==, scene->plant->technician);
}

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

/* ---- begin ---- */

static gboolean
try_begin (Scene *scene, SwPurpose purpose, gint64 answers_dose, GError **error)
{
  const SwActor actor = scene_actor (scene);
  g_autoptr (SwGuidedTest) test = sw_guided_test_begin (
      scene->plant->store, &actor, scene->machine.plan, purpose, answers_dose, error);

  return test != NULL;
}

static void
test_begin_while_open (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  g_assert_false (try_begin (scene, SW_PURPOSE_ROUTINE, 0, &error));
  g_assert_cmpstr (sw_workflow_error_get_fact (error)->text, ==, "M-07-261124-1");
  scene_assert_fact (&error, SW_FACT_MACHINE_HAS_OPEN_TEST);
}

static void
test_begin_while_locked (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 2);
  scene_decide (scene, 0.0);
  g_assert_false (try_begin (scene, SW_PURPOSE_ROUTINE, 0, &error));
  scene_assert_fact (&error, SW_FACT_MACHINE_LOCKED);
  /* Other machines are not concerned. */
  scene->machine = sw_test_plant_add_machine (scene->plant, "M-11");
  g_assert_true (try_begin (scene, SW_PURPOSE_ROUTINE, 0, &error));
}

static void
test_begin_retired (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  SwMachine *machine = sw_machine_load (scene->plant->store, scene->machine.machine, &error);

  machine->service = SW_SERVICE_RETIRED;
  sw_test_plant_begin (scene->plant, SW_ACT_SETUP);
  sw_machine_update (scene->plant->store, machine, &error);
  sw_test_plant_commit (scene->plant);
  sw_machine_free (machine);
  g_assert_false (try_begin (scene, SW_PURPOSE_ROUTINE, 0, &error));
  scene_assert_fact (&error, SW_FACT_MACHINE_RETIRED);
}

static void
test_begin_retest_without_dose (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gint64 dose;

  g_assert_false (try_begin (scene, SW_PURPOSE_RETEST, 0, &error));
  scene_assert_fact (&error, SW_FACT_NOT_FROM_HERE);
  dose = scene_dosed_test (scene, 1);
  g_assert_false (try_begin (scene, SW_PURPOSE_ROUTINE, dose, &error));
  scene_assert_fact (&error, SW_FACT_NOT_FROM_HERE);
  g_assert_false (try_begin (scene, SW_PURPOSE_RETEST, dose + 1, &error));
  scene_assert_fact (&error, SW_FACT_NOT_FROM_HERE);
}

static void
test_read_only (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gint64 titration;
  SwFact refusal;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  titration = scene_titration (scene);
  scene_leave (scene);
  sw_test_plant_reopen (scene->plant, SW_OPEN_READ_ONLY);
  g_assert_false (try_begin (scene, SW_PURPOSE_ROUTINE, 0, &error));
  scene_assert_fact (&error, SW_FACT_READ_ONLY);
  scene_resume (scene, titration);
  g_assert_false (sw_guided_test_can (scene->test, SW_MOVE_DRAW, scene_now (scene), &refusal));
  g_assert_cmpint (refusal.code, ==, SW_FACT_READ_ONLY);
  g_assert_false (sw_guided_test_abandon (scene->test, "no", &error));
  scene_assert_fact (&error, SW_FACT_READ_ONLY);
}

/* ---- signature ---- */

static void
test_sign (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GArray) ids = NULL;
  g_autoptr (SwReview) review = NULL;
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  ids = sw_record_ids (scene->plant->store, SW_TABLE_REVIEW, "subject", scene_titration (scene),
                       &error);
  g_assert_no_error (error);
  g_assert_cmpuint (ids->len, ==, 1);
  review = sw_review_load (scene->plant->store, g_array_index (ids, gint64, 0), &error);
  g_assert_no_error (error);
  g_assert_cmpstr (review->subject_table, ==, "titration");
  g_assert_cmpint (review->meaning, ==, SW_MEANING_PERFORMED);
  g_assert_cmpint (review->person, ==, scene->plant->technician);
  g_assert_cmpint (review->subject_seq, ==,
                   sw_guided_test_get_titration (scene->test)->record.journal_seq);
}

static void
test_sign_needs_a_person (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene->person = 0;
  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 0);
  scene_close (scene);
  g_assert_false (sw_guided_test_sign (scene->test, &error));
  scene_assert_fact (&error, SW_FACT_SIGNATURE_MISSING);
}

/* A control test is about the bench: no incident, no schedule, no dose. */
static void
test_control (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;

  scene_test (scene, SW_PURPOSE_CONTROL, 0, 2);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  incident = scene_incident (scene);
  g_assert_null (incident);
  g_assert_null (sw_guided_test_get_decision (scene->test));
}

/* ---- re-test and incident ---- */

static void
test_retest_finds_acid (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;
  g_autoptr (SwDoseRow) answered = NULL;
  GError *error = NULL;
  gint64 dose = scene_dosed_test (scene, 3);

  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 1);
  answered = sw_dose_row_load (scene->plant->store, dose, &error);
  g_assert_no_error (error);
  g_assert_cmpint (answered->retest_sample, ==, sw_guided_test_get_sample (scene->test)->record.id);
  incident = scene_incident (scene);
  g_assert_cmpint (incident->record.id, ==, answered->incident);
  g_assert_cmpint (incident->state, ==, SW_INCIDENT_OPEN);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DOSE);
}

/* A pass drawn for something else leaves the dose waiting for its own re-test. */
static void
test_routine_pass_does_not_answer (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;

  scene_dosed_test (scene, 3);
  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  incident = scene_incident (scene);
  g_assert_cmpint (incident->state, ==, SW_INCIDENT_OPEN);
}

/* Nothing was dosed (the solvent was changed, say): a later pass ends the incident too. */
static void
test_pass_without_dose (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  sw_guided_test_no_dose (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  incident = scene_incident (scene);
  g_assert_cmpint (incident->state, ==, SW_INCIDENT_RETEST_PASSED);
}

/* Acid after a passing re-test that nobody reviewed yet is another incident. */
static void
test_new_incident (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) first = NULL;
  g_autoptr (SwIncident) second = NULL;
  gint64 dose = scene_dosed_test (scene, 3);

  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  first = scene_incident (scene);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 2);
  second = scene_incident (scene);
  g_assert_cmpint (second->record.id, !=, first->record.id);
  g_assert_cmpint (second->state, ==, SW_INCIDENT_OPEN);
}

static void
test_retest_drawn_before_dose (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gint64 dose = scene_dosed_test (scene, 3);
  SwDrawEntry entry;

  sw_test_plant_advance (scene->plant, 60.0);
  scene_begin (scene, SW_PURPOSE_RETEST, dose);
  entry = scene_draw_entry (scene);
  entry.drawn_ms = scene_now (scene) - 3 * SW_TEST_HOUR_MS;
  g_assert_false (sw_guided_test_draw (scene->test, &entry, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_DATE);
  entry.drawn_ms = scene_now (scene) + SW_TEST_MINUTE_MS;
  g_assert_false (sw_guided_test_draw (scene->test, &entry, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_DATE);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/guided/acceptance", test_acceptance },
  { "/guided/restart", test_restart },
  { "/guided/progress/pass", test_progress_of_a_pass },
  { "/guided/progress/acid", test_progress_of_acid },
  { "/guided/sample-code", test_sample_code },
  { "/guided/prepare-copies", test_prepare_copies },
  { "/guided/read/several-drops", test_several_drops_at_once },
  { "/guided/read/acid-after-pass", test_acid_after_pass },
  { "/guided/read/over-range", test_over_range },
  { "/guided/strike/keeps-drops", test_strike_keeps_drops },
  { "/guided/strike/not-added", test_strike_not_added },
  { "/guided/strike/unread", test_take_back_unread },
  { "/guided/strike/needs-reason", test_strike_needs_reason },
  { "/guided/add/refusals", test_add_refusals },
  { "/guided/pause/over-30-min", test_pause },
  { "/guided/pause/after-outcome", test_pause_after_outcome },
  { "/guided/fresh-portion", test_fresh_portion },
  { "/guided/back/pages", test_back },
  { "/guided/back/pass-at-zero", test_back_from_a_pass_at_zero },
  { "/guided/abandon", test_abandon },
  { "/guided/begin/open-test", test_begin_while_open },
  { "/guided/begin/locked", test_begin_while_locked },
  { "/guided/begin/retired", test_begin_retired },
  { "/guided/begin/retest", test_begin_retest_without_dose },
  { "/guided/begin/read-only", test_read_only },
  { "/guided/sign/review-row", test_sign },
  { "/guided/sign/needs-a-person", test_sign_needs_a_person },
  { "/guided/control", test_control },
  { "/guided/retest/acid", test_retest_finds_acid },
  { "/guided/retest/routine-pass", test_routine_pass_does_not_answer },
  { "/guided/retest/pass-without-dose", test_pass_without_dose },
  { "/guided/retest/new-incident", test_new_incident },
  { "/guided/retest/drawn-before", test_retest_drawn_before_dose },
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
