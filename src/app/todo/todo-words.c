/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a row of the To Do list to what the screen says about it. */
#include "app/todo/todo-words.h"

#include <math.h>

#include "app/plant-words.h"
#include "wording/sentence-todo.h"
#include "workflow/guided.h"

/* Wording stands below workflow and counts the kinds by itself; here both are seen. */
G_STATIC_ASSERT ((int)SW_TODO_OVER_RANGE == (int)SW_TASK_OVER_RANGE);
G_STATIC_ASSERT ((int)SW_TODO_RECORD_DOSE == (int)SW_TASK_RECORD_DOSE);
G_STATIC_ASSERT ((int)SW_TODO_RESUME == (int)SW_TASK_RESUME);
G_STATIC_ASSERT ((int)SW_TODO_DOSE == (int)SW_TASK_DOSE);
G_STATIC_ASSERT ((int)SW_TODO_RETEST == (int)SW_TASK_RETEST);
G_STATIC_ASSERT ((int)SW_TODO_TEST == (int)SW_TASK_TEST);
G_STATIC_ASSERT ((int)SW_TODO_REVIEW == (int)SW_TASK_REVIEW);
G_STATIC_ASSERT ((int)SW_TODO_LOT == (int)SW_TASK_LOT);
G_STATIC_ASSERT ((int)SW_TODO_CALIBRATION == (int)SW_TASK_CALIBRATION);
G_STATIC_ASSERT ((int)SW_TODO_REVIEW_TESTS == (int)SW_TASK_REVIEW_TESTS);
G_STATIC_ASSERT ((int)SW_N_TODO_KINDS == (int)SW_N_TASKS);

/* ---- what stands behind a task ---- */

/* When anything last happened to an open test. */
static gint64
get_left_at (SwStore *store, const SwTitration *titration)
{
  g_autoptr (GArray) ids
      = sw_record_ids (store, SW_TABLE_READING, "titration", titration->record.id, NULL);
  gint64 left_ms = MAX (titration->record.happened_ms, titration->shake_started_ms);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwReadingRow) reading
          = sw_reading_row_load (store, g_array_index (ids, gint64, i), NULL);
      if (reading != NULL)
        left_ms = MAX (left_ms, reading->record.happened_ms);
    }
  return left_ms;
}

static void
add_titration (SwStore *store, SwTaskFacts *facts, gint64 id)
{
  g_autoptr (SwTitration) titration = id != 0 ? sw_titration_load (store, id, NULL) : NULL;

  if (titration == NULL)
    return;
  facts->since_ms
      = facts->task == SW_TASK_RESUME ? get_left_at (store, titration) : titration->closed_ms;
  g_autoptr (SwMethodVersion) method
      = sw_method_version_load (store, titration->method_version, NULL);
  facts->burette = method != NULL && method->burette;
}

/* RECORD_DOSE counts what was worked out, RETEST what went in. */
static void
add_dose (SwStore *store, SwTaskFacts *facts, gint64 id)
{
  g_autoptr (SwDoseRow) dose = id != 0 ? sw_dose_row_load (store, id, NULL) : NULL;

  if (dose == NULL)
    return;
  if (facts->task == SW_TASK_RECORD_DOSE)
    {
      facts->total = dose->measured_ml;
      facts->since_ms = dose->decided_ms;
    }
  else
    {
      facts->total = dose->added.value;
      facts->since_ms = dose->added_ms;
    }
}

/* The texts of a lot or calibration belong to @facts' caller. */
static void
add_bench (SwContext *context, const SwTodo *todo, char **subject, char **code)
{
  SwStore *store = sw_context_get_store (context);
  g_autoptr (SwLot) lot = todo->lot != 0 ? sw_lot_load (store, todo->lot, NULL) : NULL;
  g_autoptr (SwCalibration) calibration
      = todo->calibration != 0 ? sw_calibration_load (store, todo->calibration, NULL) : NULL;

  if (lot != NULL)
    {
      *subject = sw_plant_product_name (context, lot->product);
      *code = g_strdup (lot->code);
    }
  if (calibration != NULL)
    {
      *subject = sw_plant_product_name (context, calibration->product);
      *code = g_strdup (calibration->dropper);
    }
}

/* ---- shapes ---- */

/* A test that is due carries the shape of how the machine stands. */
static SwVerdictKind
get_mark (SwStore *store, const SwTodo *todo, gint64 now_ms)
{
  SwMachineState state;

  switch (todo->kind)
    {
    case SW_TODO_OVER_RANGE:
      return SW_VERDICT_OVER_RANGE;
    case SW_TODO_RECORD_DOSE:
    case SW_TODO_DOSE:
    case SW_TODO_RETEST:
      return SW_VERDICT_ACID;
    case SW_TODO_TEST:
      return sw_machine_state (store, todo->machine, now_ms, &state, NULL)
                 ? sw_verdict_of_state (state.state.code)
                 : SW_VERDICT_UNKNOWN;
    case SW_TODO_REVIEW:
      return SW_VERDICT_PASSED;
    case SW_TODO_RESUME:
    case SW_TODO_LOT:
    case SW_TODO_CALIBRATION:
    case SW_TODO_REVIEW_TESTS:
    case SW_N_TODO_KINDS:
    default:
      return SW_VERDICT_UNKNOWN;
    }
}

/* The amounts of doses are read from their rows. */
static gboolean
is_counted (SwTodoKind kind)
{
  return kind == SW_TODO_RESUME || kind == SW_TODO_REVIEW_TESTS;
}

SwTodoWords *
sw_todo_words_new (SwContext *context, const SwTodo *todo, gint64 now_ms)
{
  const SwWording *wording = sw_context_get_wording (context);
  SwStore *store = sw_context_get_store (context);
  SwTodoWords *words = g_new0 (SwTodoWords, 1);
  g_autofree char *code = NULL;

  words->todo = *todo;
  words->mark = get_mark (store, todo, now_ms);
  if (todo->machine != 0)
    words->subject = sw_plant_machine_name (context, todo->machine);
  else
    add_bench (context, todo, &words->subject, &code);

  SwTaskFacts facts = { .task = (SwTask)todo->kind,
                        .subject = words->subject != NULL ? words->subject : "?",
                        .code = code != NULL ? code : "?",
                        .total = is_counted (todo->kind) ? todo->total : NAN,
                        .due_ms = todo->due_ms,
                        .now_ms = now_ms,
                        .good_min = SW_PORTION_GOOD_MIN,
                        .reason = todo->reason,
                        .interval_days = todo->interval_days };
  if (todo->kind != SW_TODO_TEST)
    add_titration (store, &facts, todo->titration);
  if (todo->kind == SW_TODO_RECORD_DOSE || todo->kind == SW_TODO_RETEST)
    add_dose (store, &facts, todo->dose);
  words->title = sw_say_task_title (wording, &facts);
  words->text = sw_say_task_text (wording, &facts);
  words->button = sw_say_task_button (wording, facts.task);
  return words;
}

void
sw_todo_words_free (SwTodoWords *words)
{
  if (words == NULL)
    return;
  g_free (words->subject);
  g_free (words->title);
  g_free (words->text);
  g_free (words);
}

/* ---- done today ---- */

/* What was added after a test; NAN = nothing. */
static double
get_added_ml (SwStore *store, gint64 titration)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_DOSE, "titration", titration, NULL);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwDoseRow) dose = sw_dose_row_load (store, g_array_index (ids, gint64, i), NULL);
      if (dose != NULL && dose->state == SW_DOSE_ADDED)
        return dose->added.value;
    }
  return NAN;
}

char *
sw_todo_words_done (SwContext *context, gint64 id, SwVerdictKind *mark)
{
  const SwWording *wording = sw_context_get_wording (context);
  SwStore *store = sw_context_get_store (context);
  g_autoptr (SwTitration) titration = sw_titration_load (store, id, NULL);
  g_autoptr (SwSample) sample
      = titration != NULL ? sw_sample_load (store, titration->sample, NULL) : NULL;
  g_autoptr (SwMethodVersion) method
      = titration != NULL ? sw_method_version_load (store, titration->method_version, NULL) : NULL;

  if (sample == NULL || method == NULL)
    return NULL;
  g_autofree char *tag = sw_plant_machine_tag (context, sample->machine);
  g_autofree char *initials
      = titration->signed_ms != 0 ? sw_plant_person_initials (context, titration->analyst) : NULL;
  g_autofree char *result = sw_say_test_short (wording, titration->outcome, titration->net_low,
                                               titration->net_high, method->burette);
  *mark = sw_verdict_of_outcome (titration->outcome);
  return sw_say_done (wording, tag, titration->closed_ms, result, get_added_ml (store, id),
                      initials);
}
