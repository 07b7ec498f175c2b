/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a machine stands, and what To Do lists, along the life of one machine. */
#include "change.h"

#include "workflow/due.h"
#include "workflow/setup.h"

static SwMachineState
get_state (Scene *scene)
{
  SwMachineState state;
  GError *error = NULL;

  sw_machine_state (scene->plant->store, scene->machine.machine, scene_now (scene), &state, &error);
  g_assert_no_error (error);
  g_assert_cmpint (state.machine, ==, scene->machine.machine);
  return state;
}

static GArray *
get_todos (Scene *scene)
{
  GError *error = NULL;
  GArray *todos = sw_todo_list (scene->plant->store, scene_now (scene), &error);

  g_assert_no_error (error);
  return todos;
}

static guint
count_todos (Scene *scene, SwTodoKind kind, gboolean due, SwTodo *last)
{
  g_autoptr (GArray) todos = get_todos (scene);
  guint n = 0;

  for (guint i = 0; i < todos->len; i++)
    {
      const SwTodo *todo = &g_array_index (todos, SwTodo, i);

      if (todo->kind != kind || todo->due != due)
        continue;
      *last = *todo;
      n++;
    }
  return n;
}

/* ---- states ---- */

static void
test_never_tested (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwMachineState state = get_state (scene);
  SwTodo todo = { 0 };

  g_assert_cmpint (state.state.code, ==, SW_FACT_STATE_NEVER_TESTED);
  g_assert_cmpint (state.last, ==, SW_OUTCOME_OPEN);
  g_assert_cmpint (state.plan, ==, scene->machine.plan);
  g_assert_cmpint (state.reason, ==, SW_SCHEDULE_START);
  g_assert_cmpuint (count_todos (scene, SW_TODO_TEST, TRUE, &todo), ==, 1);
  g_assert_cmpint (todo.plan, ==, scene->machine.plan);
}

static void
test_open (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwMachineState state;
  SwTodo todo = { 0 };

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 2.0);
  state = get_state (scene);
  g_assert_cmpint (state.state.code, ==, SW_FACT_STATE_TEST_OPEN);
  g_assert_cmpint (state.open_titration, ==, scene_titration (scene));
  g_assert_cmpuint (count_todos (scene, SW_TODO_RESUME, TRUE, &todo), ==, 1);
  g_assert_cmpint (todo.titration, ==, scene_titration (scene));
  sw_assert_close (todo.total, 2.0, 1e-12);
  g_assert_cmpuint (count_todos (scene, SW_TODO_TEST, TRUE, &todo), ==, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_strike (scene, TRUE);
  g_assert_cmpuint (count_todos (scene, SW_TODO_RESUME, TRUE, &todo), ==, 1);
  sw_assert_close (todo.total, 0.0, 1e-12);
}

static void
test_passed (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwMachineState state;
  SwTodo todo = { 0 };

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  state = get_state (scene);
  g_assert_cmpint (state.state.code, ==, SW_FACT_STATE_PASSED);
  g_assert_cmpint (state.last_titration, ==, scene_titration (scene));
  g_assert_cmpint (state.due_ms, ==, sw_guided_test_get_decision (scene->test)->due_ms);
  /* Not due today; due on the whole of the next day, from its first minute on. */
  g_assert_cmpuint (count_todos (scene, SW_TODO_TEST, FALSE, &todo), ==, 1);
  scene->plant->now_ms = state.due_ms - SW_TEST_DAY_MS;
  g_assert_cmpuint (count_todos (scene, SW_TODO_TEST, TRUE, &todo), ==, 0);
  scene->plant->now_ms += 1;
  g_assert_cmpuint (count_todos (scene, SW_TODO_TEST, TRUE, &todo), ==, 1);
  sw_assert_close (todo.interval_days, 1.0, 1e-12);
}

static void
test_dose_life (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwMachineState state;
  SwTodo todo = { 0 };
  gint64 dose;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  g_assert_cmpint (get_state (scene).state.code, ==, SW_FACT_STATE_ACID);
  g_assert_cmpuint (count_todos (scene, SW_TODO_DOSE, TRUE, &todo), ==, 1);
  scene_decide (scene, 0.0);
  dose = sw_guided_test_get_dose (scene->test)->record.id;
  state = get_state (scene);
  g_assert_cmpint (state.state.code, ==, SW_FACT_STATE_DOSE_DUE);
  g_assert_cmpint (state.open_dose, ==, dose);
  g_assert_cmpuint (count_todos (scene, SW_TODO_RECORD_DOSE, TRUE, &todo), ==, 1);
  g_assert_cmpint (todo.dose, ==, dose);
  sw_assert_close (todo.total, 1260.0, 1e-12);
  scene_record (scene, 1260.0);
  state = get_state (scene);
  g_assert_cmpint (state.state.code, ==, SW_FACT_STATE_RETEST_DUE);
  g_assert_cmpint (state.retest_dose, ==, dose);
  g_assert_cmpint (state.locked_until_retest, ==, dose);
  g_assert_cmpint (state.due_ms, ==, sw_guided_test_get_dose (scene->test)->retest_due_ms);
  sw_test_plant_advance (scene->plant, 60.0);
  scene_begin (scene, SW_PURPOSE_RETEST, dose);
  g_assert_cmpint (get_state (scene).state.code, ==, SW_FACT_STATE_TEST_OPEN);
  g_assert_cmpuint (count_todos (scene, SW_TODO_RETEST, TRUE, &todo), ==, 0);
}

static void
test_not_known (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwTodo todo = { 0 };
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  scene_decide (scene, 0.0);
  sw_guided_test_not_known (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (get_state (scene).state.code, ==, SW_FACT_STATE_DOSE_UNKNOWN);
  g_assert_cmpuint (count_todos (scene, SW_TODO_RETEST, TRUE, &todo), ==, 1);
}

/* Acid that nobody dosed: the next test is due at once, not when the interval says. */
static void
test_undosed (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwTodo todo = { 0 };
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  sw_guided_test_no_dose (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (get_state (scene).state.code, ==, SW_FACT_STATE_ACID);
  g_assert_cmpuint (count_todos (scene, SW_TODO_TEST, TRUE, &todo), ==, 1);
}

static void
test_over_range (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;
  g_autoptr (GArray) todos = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 20.0);
  scene_read (scene, SW_FIELD_ACID);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
  g_assert_cmpint (get_state (scene).state.code, ==, SW_FACT_STATE_OVER_RANGE);
  incident = scene_incident (scene);
  todos = get_todos (scene);
  g_assert_cmpint (g_array_index (todos, SwTodo, 0).kind, ==, SW_TODO_OVER_RANGE);
  g_assert_cmpint (g_array_index (todos, SwTodo, 0).incident, ==, incident->record.id);
  /* Still so while the next test is under way. */
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  g_assert_cmpint (get_state (scene).state.code, ==, SW_FACT_STATE_OVER_RANGE);
}

static void
test_service (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwTodo todo = { 0 };

  CHANGE (scene, SwMachine, sw_machine, scene->machine.machine, row->service = SW_SERVICE_STOPPED);
  g_assert_cmpuint (count_todos (scene, SW_TODO_TEST, TRUE, &todo), ==, 0);
  CHANGE (scene, SwMachine, sw_machine, scene->machine.machine, row->service = SW_SERVICE_RETIRED);
  g_assert_cmpint (get_state (scene).state.code, ==, SW_FACT_STATE_RETIRED);
}

/* A control test says nothing about the machine. */
static void
test_control (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_test (scene, SW_PURPOSE_CONTROL, 0, 2);
  g_assert_cmpint (get_state (scene).state.code, ==, SW_FACT_STATE_NEVER_TESTED);
}

/* ---- lots and calibrations ---- */

static void
test_lots (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwTodo todo = { 0 };

  /* One lot expired 30 days ago. */
  g_assert_cmpuint (count_todos (scene, SW_TODO_LOT, TRUE, &todo), ==, 1);
  g_assert_cmpint (todo.lot, ==, scene->plant->expired_lot);
  CHANGE (scene, SwLot, sw_lot, scene->plant->expired_lot, row->used_up = TRUE);
  g_assert_cmpuint (count_todos (scene, SW_TODO_LOT, TRUE, &todo), ==, 0);
  CHANGE (scene, SwLot, sw_lot, scene->plant->strip_lot,
          row->expires_ms = scene_now (scene) + 14 * SW_TEST_DAY_MS + 1);
  g_assert_cmpuint (count_todos (scene, SW_TODO_LOT, TRUE, &todo), ==, 0);
  sw_test_plant_advance (scene->plant, 1.0);
  g_assert_cmpuint (count_todos (scene, SW_TODO_LOT, TRUE, &todo), ==, 1);
  g_assert_cmpint (todo.lot, ==, scene->plant->strip_lot);
}

static void
test_calibrations (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwTodo todo = { 0 };
  gint64 newer G_GNUC_UNUSED;

  g_assert_cmpuint (count_todos (scene, SW_TODO_CALIBRATION, TRUE, &todo), ==, 0);
  CHANGE (scene, SwCalibration, sw_calibration, scene->plant->calibration,
          row->due_ms = scene_now (scene) + 30 * SW_TEST_DAY_MS);
  g_assert_cmpuint (count_todos (scene, SW_TODO_CALIBRATION, FALSE, &todo), ==, 1);
  sw_test_plant_advance (scene->plant, 31.0 * 24.0 * 60.0);
  g_assert_cmpuint (count_todos (scene, SW_TODO_CALIBRATION, TRUE, &todo), ==, 1);
  g_assert_cmpint (todo.calibration, ==, scene->plant->calibration);
  /* Replaced by a newer one of the same liquid: no longer asked for. */
  INSERT_ROW (scene, SwCalibration, sw_calibration, newer, row->product = scene->plant->neutraliser;
              row->drop.value = 0.04);
  g_assert_cmpuint (count_todos (scene, SW_TODO_CALIBRATION, TRUE, &todo), ==, 0);
}

/* ---- order ---- */

static void
test_order (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GArray) todos = NULL;

  sw_test_plant_add_machine (scene->plant, "M-08");
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  scene_decide (scene, 0.0);
  scene->machine = sw_test_plant_add_machine (scene->plant, "M-09");
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  todos = get_todos (scene);
  /* M-07's dose, M-08's test, the expired lot; M-09's test comes tomorrow. */
  g_assert_cmpuint (todos->len, ==, 4);
  g_assert_cmpint (g_array_index (todos, SwTodo, 0).kind, ==, SW_TODO_RECORD_DOSE);
  g_assert_cmpint (g_array_index (todos, SwTodo, 1).kind, ==, SW_TODO_TEST);
  g_assert_cmpint (g_array_index (todos, SwTodo, 2).kind, ==, SW_TODO_LOT);
  g_assert_cmpint (g_array_index (todos, SwTodo, 3).kind, ==, SW_TODO_TEST);
  g_assert_true (g_array_index (todos, SwTodo, 2).due);
  g_assert_false (g_array_index (todos, SwTodo, 3).due);
  g_assert_cmpint (g_array_index (todos, SwTodo, 3).machine, ==, scene->machine.machine);
}

/* ---- history ---- */

static SwHistory *
get_history (Scene *scene, guint limit)
{
  GError *error = NULL;
  SwHistory *history = sw_machine_history (scene->plant->store, scene->machine.machine,
                                           scene_now (scene), limit, &error);

  g_assert_no_error (error);
  return history;
}

/* A drop is 1000 * 0.05 / 50 = 1 mL of product per L; 1,260 mL are 3 drops of 420 mL. */
static void
test_history (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwHistory) history = NULL;
  const SwHistoryTest *test;
  gint64 dose = scene_dosed_test (scene, 3);

  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  scene_test (scene, SW_PURPOSE_CONTROL, 0, 2);
  history = get_history (scene, 0);
  g_assert_cmpuint (history->tests->len, ==, 2);
  test = &g_array_index (history->tests, SwHistoryTest, 0);
  g_assert_cmpint (test->kind, ==, SW_OUTCOME_ACID_FOUND);
  sw_assert_close (test->net.low, 2.0, 1e-12);
  sw_assert_close (test->net.high, 3.0, 1e-12);
  sw_assert_close (test->per_step, 1.0, 1e-12);
  g_assert_false (test->retest);
  test = &g_array_index (history->tests, SwHistoryTest, 1);
  g_assert_cmpint (test->kind, ==, SW_OUTCOME_PASSED);
  g_assert_true (test->retest);
  g_assert_true (isinf (test->net.low));
  g_assert_cmpuint (history->doses->len, ==, 1);
  sw_assert_close (g_array_index (history->doses, SwHistoryDose, 0).added_ml, 1260.0, 1e-12);
  sw_assert_close (g_array_index (history->doses, SwHistoryDose, 0).steps, 3.0, 1e-12);
  g_assert_cmpuint (history->events->len, ==, 2);
  g_assert_cmpint (g_array_index (history->events, SwHistoryEvent, 0).kind, ==, SW_HISTORY_FILL);
  g_assert_cmpint (g_array_index (history->events, SwHistoryEvent, 1).kind, ==,
                   SW_HISTORY_INCIDENT);
  g_assert_cmpint (history->due_ms, ==, get_state (scene).due_ms);
}

static void
test_history_limit (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwHistory) history = NULL;
  gint64 dose = scene_dosed_test (scene, 3);
  gint64 last;

  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  last = scene_titration (scene);
  history = get_history (scene, 1);
  g_assert_cmpuint (history->tests->len, ==, 1);
  g_assert_cmpint (g_array_index (history->tests, SwHistoryTest, 0).titration, ==, last);
  /* What happened before the oldest test shown is not shown. */
  g_assert_cmpuint (history->doses->len, ==, 0);
  g_assert_cmpuint (history->events->len, ==, 0);
}

/* ---- reviews ---- */

/* The one line of a person's reviews; kind SW_N_TODO_KINDS = there is none. */
static SwTodo
find_reviews (Scene *scene, gint64 person)
{
  g_autoptr (GArray) todos = get_todos (scene);
  SwTodo found = { .kind = SW_N_TODO_KINDS };
  GError *error = NULL;

  sw_todo_add_reviews (scene->plant->store, person, todos, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < todos->len; i++)
    {
      const SwTodo *todo = &g_array_index (todos, SwTodo, i);

      /* What is due stands before what comes later, whoever asks. */
      g_assert_true (i == 0 || todo->due <= g_array_index (todos, SwTodo, i - 1).due);
      if (todo->kind == SW_TODO_REVIEW_TESTS)
        {
          g_assert_cmpint (found.kind, ==, SW_N_TODO_KINDS);
          found = *todo;
        }
    }
  return found;
}

/* One line for all of them, for who may review and did none of it. */
static void
test_reviews (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwTodo todo;
  gint64 oldest;

  g_assert_cmpint (find_reviews (scene, scene->plant->reviewer).kind, ==, SW_N_TODO_KINDS);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  oldest = scene_titration (scene);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  todo = find_reviews (scene, scene->plant->reviewer);
  g_assert_cmpint (todo.kind, ==, SW_TODO_REVIEW_TESTS);
  g_assert_true (todo.due);
  sw_assert_close (todo.total, 2.0, 1e-12);
  g_assert_cmpint (todo.titration, ==, oldest);
  g_assert_cmpint (find_reviews (scene, scene->plant->technician).kind, ==, SW_N_TODO_KINDS);
  g_assert_cmpint (find_reviews (scene, scene->plant->auditor).kind, ==, SW_N_TODO_KINDS);
  g_assert_cmpint (find_reviews (scene, 0).kind, ==, SW_N_TODO_KINDS);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/due/never-tested", test_never_tested },
  { "/due/open", test_open },
  { "/due/passed", test_passed },
  { "/due/dose-life", test_dose_life },
  { "/due/not-known", test_not_known },
  { "/due/undosed", test_undosed },
  { "/due/over-range", test_over_range },
  { "/due/service", test_service },
  { "/due/control", test_control },
  { "/due/lots", test_lots },
  { "/due/calibrations", test_calibrations },
  { "/due/order", test_order },
  { "/due/reviews", test_reviews },
  { "/history/tests-and-doses", test_history },
  { "/history/limit", test_history_limit },
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
