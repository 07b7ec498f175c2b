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
  /* A rectangle 840 to 1260 alone holds 95 % in 850.5 to 1249.5; the volumes' uncertainty widens
   * it. */
  g_assert_cmpfloat (proposal.likely_ml.low, <, 850.5);
  g_assert_cmpfloat (proposal.likely_ml.low, >, proposal.dose.doubt_ml.low);
  g_assert_cmpfloat (proposal.likely_ml.high, >, 1249.5);
  g_assert_cmpfloat (proposal.likely_ml.high, <, proposal.dose.doubt_ml.high);
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

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/guided/acceptance", test_acceptance },
  { "/guided/restart", test_restart },
  { "/guided/progress/pass", test_progress_of_a_pass },
  { "/guided/progress/acid", test_progress_of_acid },
  { "/guided/sample-code", test_sample_code },
  { "/guided/prepare-copies", test_prepare_copies },
  { "/guided/begin/open-test", test_begin_while_open },
  { "/guided/begin/locked", test_begin_while_locked },
  { "/guided/begin/retired", test_begin_retired },
  { "/guided/begin/retest", test_begin_retest_without_dose },
  { "/guided/begin/read-only", test_read_only },
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
