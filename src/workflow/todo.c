/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What needs doing now, and what comes next.
 *
 * One question for all open tests, doses, incidents, lots and calibrations, then one state per
 * machine in service: a few indexed questions each, so that To Do stays quick with hundreds of
 * machines and years of tests.
 */
#include "workflow/state-private.h"

#include "workflow/check-private.h"
#include "workflow/incident.h"
#include "workflow/result-private.h"
#include "workflow/review.h"
#include "workflow/schedule-private.h"

#define LOT_WARNING_DAYS 14
#define MS_PER_DAY G_GINT64_CONSTANT (86400000)

typedef struct
{
  SwStore *store;
  gint64 now_ms;
  gint64 today_ms; /* end of the local day of now */
  GArray *todos;   /* Borrowed; SwTodo */
} Work;

static void
add_todo (Work *work, const SwTodo *todo)
{
  g_array_append_vals (work->todos, todo, 1);
}

/* ---- open tests and doses ---- */

/* Titrant in the flask, read or not. */
static gboolean
set_total (Work *work, const SwTitration *titration, SwTodo *todo, GError **error)
{
  g_autoptr (GPtrArray) readings = NULL;

  todo->total = sw_or_zero (titration->pending_total);
  if (!isnan (titration->pending_total))
    return TRUE;
  readings = sw_result_load_readings (work->store, titration->record.id, error);
  for (guint i = 0; readings != NULL && i < readings->len; i++)
    {
      const SwReadingRow *row = readings->pdata[i];

      if (!row->not_added)
        todo->total = MAX (todo->total, row->total);
    }
  return readings != NULL;
}

static gboolean
set_open_dose (Work *work, SwTodo *todo, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (work->store, SW_TABLE_DOSE, "titration", todo->titration, error);
  g_autoptr (SwDoseRow) dose = NULL;

  if (ids == NULL || ids->len == 0)
    return ids != NULL;
  todo->dose = g_array_index (ids, gint64, ids->len - 1);
  dose = sw_dose_row_load (work->store, todo->dose, error);
  if (dose == NULL)
    return FALSE;
  todo->incident = dose->incident;
  todo->total = dose->measured_ml;
  return TRUE;
}

static gboolean
add_open_test (Work *work, gint64 id, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_load (work->store, id, error);
  g_autoptr (SwSample) sample = NULL;
  SwTodo todo = { .kind = SW_TODO_RESUME, .titration = id, .due = TRUE };

  if (titration == NULL)
    return FALSE;
  sample = sw_sample_load (work->store, titration->sample, error);
  if (sample == NULL)
    return FALSE;
  todo.machine = sample->machine;
  todo.plan = sample->plan;
  if (titration->step == SW_STEP_ADDED)
    {
      todo.kind = SW_TODO_RECORD_DOSE;
      if (!set_open_dose (work, &todo, error))
        return FALSE;
    }
  else if (titration->step == SW_STEP_DOSE)
    todo.kind = SW_TODO_DOSE;
  else if (!set_total (work, titration, &todo, error))
    return FALSE;
  add_todo (work, &todo);
  return TRUE;
}

static gboolean
add_open_tests (Work *work, GError **error)
{
  g_autoptr (GArray) ids = sw_titration_open_ids (work->store, 0, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    if (!add_open_test (work, g_array_index (ids, gint64, i), error))
      return FALSE;
  return TRUE;
}

/* ---- machines: re-tests and tests ---- */

static void
add_retest (Work *work, const SwMachineState *state)
{
  SwTodo todo = { .kind = SW_TODO_RETEST,
                  .machine = state->machine,
                  .plan = state->plan,
                  .dose = state->retest_dose,
                  .due_ms = state->due_ms,
                  .due = work->now_ms >= state->due_ms };

  add_todo (work, &todo);
}

/* Due on the whole of its local day, not from its end on. */
static void
add_test (Work *work, const SwMachineState *state)
{
  SwTodo todo = { .kind = SW_TODO_TEST,
                  .machine = state->machine,
                  .plan = state->plan,
                  .titration = state->last_titration,
                  .due_ms = state->due_ms,
                  .due = state->due_ms <= work->today_ms,
                  .reason = state->reason,
                  .interval_days = state->interval_days };

  add_todo (work, &todo);
}

/* A machine with an open test stands in the list already; one that stands still cannot give a
 * sample that represents its solvent. */
static gboolean
add_machine (Work *work, const SwMachine *machine, GError **error)
{
  SwMachineState state;

  if (!sw_machine_state (work->store, machine->record.id, work->now_ms, &state, error))
    return FALSE;
  if (state.last == SW_OUTCOME_OVER_RANGE)
    {
      SwTodo todo = { .kind = SW_TODO_OVER_RANGE,
                      .machine = state.machine,
                      .titration = state.last_titration,
                      .due = TRUE };
      GError *failure = NULL;

      todo.incident = sw_incident_open_id (work->store, state.machine, &failure);
      if (!sw_answered (failure, error))
        return FALSE;
      add_todo (work, &todo);
    }
  if (state.open_titration != 0)
    return TRUE;
  if (state.retest_dose != 0)
    add_retest (work, &state);
  else if (state.plan != 0 && machine->service == SW_SERVICE_RUNNING)
    add_test (work, &state);
  return TRUE;
}

static gboolean
add_machines (Work *work, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (work->store, SW_TABLE_MACHINE, NULL, 0, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwMachine) machine
          = sw_machine_load (work->store, g_array_index (ids, gint64, i), error);

      if (machine == NULL)
        return FALSE;
      if (machine->service != SW_SERVICE_RETIRED && !add_machine (work, machine, error))
        return FALSE;
    }
  return TRUE;
}

/* ---- incidents, lots, calibrations ---- */

static gboolean
add_reviews (Work *work, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (work->store, SW_TABLE_INCIDENT, "state", SW_INCIDENT_RETEST_PASSED, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwIncident) incident
          = sw_incident_load (work->store, g_array_index (ids, gint64, i), error);
      SwTodo todo = { .kind = SW_TODO_REVIEW, .due = TRUE };

      if (incident == NULL)
        return FALSE;
      todo.machine = incident->machine;
      todo.incident = incident->record.id;
      todo.titration = incident->answered_by_titration;
      add_todo (work, &todo);
    }
  return TRUE;
}

static gboolean
add_lots (Work *work, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (work->store, SW_TABLE_LOT, "used_up", FALSE, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwLot) lot = sw_lot_load (work->store, g_array_index (ids, gint64, i), error);
      SwTodo todo = { .kind = SW_TODO_LOT, .due = TRUE };

      if (lot == NULL)
        return FALSE;
      if (lot->expires_ms == 0 || lot->expires_ms > work->now_ms + LOT_WARNING_DAYS * MS_PER_DAY)
        continue;
      todo.lot = lot->record.id;
      todo.due_ms = lot->expires_ms;
      add_todo (work, &todo);
    }
  return TRUE;
}

/* Only the calibration in force of a liquid; an older one was replaced. */
static gboolean
add_calibration (Work *work, gint64 id, GError **error)
{
  g_autoptr (SwCalibration) calibration = sw_calibration_load (work->store, id, error);
  SwTodo todo = { .kind = SW_TODO_CALIBRATION, .calibration = id };
  GError *failure = NULL;
  gint64 in_force;

  if (calibration == NULL || calibration->due_ms == 0)
    return calibration != NULL;
  in_force = sw_calibration_in_force (work->store, calibration->product, work->now_ms, &failure);
  if (!sw_answered (failure, error))
    return FALSE;
  if (in_force != id)
    return TRUE;
  todo.due_ms = calibration->due_ms;
  todo.due = calibration->due_ms <= work->today_ms;
  add_todo (work, &todo);
  return TRUE;
}

static gboolean
add_calibrations (Work *work, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (work->store, SW_TABLE_CALIBRATION, NULL, 0, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    if (!add_calibration (work, g_array_index (ids, gint64, i), error))
      return FALSE;
  return TRUE;
}

/* ---- order ---- */

static int
compare_times (gint64 one, gint64 other)
{
  return (one > other) - (one < other);
}

/* Due ones first: by kind, then the latest; what comes later by its date, then by kind. */
static int
compare_todo_cb (gconstpointer a, gconstpointer b)
{
  const SwTodo *one = a;
  const SwTodo *other = b;
  int by_kind = (one->kind > other->kind) - (one->kind < other->kind);
  int by_time = compare_times (one->due_ms, other->due_ms);

  if (one->due != other->due)
    return one->due ? -1 : 1;
  if (one->due && by_kind != 0)
    return by_kind;
  if (by_time != 0)
    return by_time;
  return by_kind != 0 ? by_kind : compare_times (one->machine, other->machine);
}

GArray *
sw_todo_list (SwStore *store, gint64 now_ms, GError **error)
{
  g_autoptr (GArray) todos = g_array_new (FALSE, FALSE, sizeof (SwTodo));
  Work work = { .store = store, .now_ms = now_ms, .todos = todos };

  g_return_val_if_fail (store != NULL, NULL);
  work.today_ms = sw_schedule_end_of_day (store, now_ms);
  if (!add_open_tests (&work, error) || !add_machines (&work, error) || !add_reviews (&work, error)
      || !add_lots (&work, error) || !add_calibrations (&work, error))
    return NULL;
  g_array_sort (todos, compare_todo_cb);
  return g_steal_pointer (&todos);
}

gboolean
sw_todo_add_reviews (SwStore *store, gint64 person, GArray *todos, GError **error)
{
  SwTodo todo = { .kind = SW_TODO_REVIEW_TESTS, .due = TRUE };
  g_autoptr (GArray) waiting = NULL;
  gboolean may;

  g_return_val_if_fail (store != NULL && todos != NULL, FALSE);
  if (!sw_person_may_review (store, person, 0, &may, error))
    return FALSE;
  if (!may)
    return TRUE;
  waiting = sw_review_waiting (store, person, error);
  if (waiting == NULL || waiting->len == 0)
    return waiting != NULL;
  todo.titration = g_array_index (waiting, gint64, 0);
  todo.total = waiting->len;
  g_array_append_val (todos, todo);
  g_array_sort (todos, compare_todo_cb);
  return TRUE;
}
