/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: begin and Draw, and the moves that leave a page without finishing it. */
#include "workflow/guided-private.h"

#define MS_PER_MIN 60000.0

/* ---- begin ---- */

static gboolean
refuse_with_text (SwFactCode code, const char *text, GError **error)
{
  SwFact fact = sw_fact_with_text (code, text);

  return sw_workflow_refuse (error, &fact);
}

/* One test at a time on a machine; one whose dose nobody recorded locks it. */
static gboolean
check_no_open_test (SwStore *store, const SwMachine *machine, GError **error)
{
  g_autoptr (GArray) ids = sw_titration_open_ids (store, machine->record.id, error);
  g_autoptr (SwTitration) titration = NULL;
  g_autoptr (SwSample) sample = NULL;

  if (ids == NULL || ids->len == 0)
    return ids != NULL;
  titration = sw_titration_load (store, g_array_index (ids, gint64, 0), error);
  if (titration == NULL)
    return FALSE;
  sample = sw_sample_load (store, titration->sample, error);
  if (sample == NULL)
    return FALSE;
  return refuse_with_text (titration->step == SW_STEP_ADDED ? SW_FACT_MACHINE_LOCKED
                                                            : SW_FACT_MACHINE_HAS_OPEN_TEST,
                           sample->code, error);
}

/* A re-test answers a dose of this machine that waits for one; nothing else answers a dose. */
static gboolean
check_purpose (SwStore *store,
               const SwMachine *machine,
               SwPurpose purpose,
               gint64 answers_dose,
               GError **error)
{
  g_autoptr (GArray) ids = NULL;

  if (purpose != SW_PURPOSE_RETEST && answers_dose == 0)
    return TRUE;
  if (purpose != SW_PURPOSE_RETEST || answers_dose == 0)
    return refuse_with_text (SW_FACT_NOT_FROM_HERE, NULL, error);
  ids = sw_dose_unanswered_ids (store, machine->record.id, error);
  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    if (g_array_index (ids, gint64, i) == answers_dose)
      return TRUE;
  return refuse_with_text (SW_FACT_NOT_FROM_HERE, NULL, error);
}

static gboolean
insert_sample (SwStore *store,
               const SwActor *actor,
               const SwPlan *plan,
               const SwMachine *machine,
               SwSample *sample,
               GError **error)
{
  GError *failure = NULL;

  sample->code = sw_sample_next_code (store, machine->tag, sw_act_now (store), error);
  if (sample->code == NULL)
    return FALSE;
  sample->machine = machine->record.id;
  sample->plan = plan->record.id;
  sample->fill = sw_machine_fill (store, sample->machine, &failure);
  sample->drawn_by = actor->person;
  return sw_answered (failure, error) && sw_sample_insert (store, sample, error);
}

static gboolean
insert_titration (SwStore *store,
                  const SwActor *actor,
                  const SwPlan *plan,
                  const SwSample *sample,
                  gint64 *id,
                  GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_new ();
  GError *failure = NULL;

  titration->sample = sample->record.id;
  titration->method_version = sw_method_latest_version (store, plan->method, &failure);
  titration->analyst = actor->person;
  titration->portion = 1;
  titration->step = SW_STEP_DRAW;
  if (!sw_answered (failure, error) || !sw_titration_insert (store, titration, error))
    return FALSE;
  *id = titration->record.id;
  return TRUE;
}

/* Inside the act: all checks, then sample and first portion. */
static SwGuidedState *
begin_inside (
    SwStore *store, const SwActor *actor, gint64 plan_id, const SwSample *wanted, GError **error)
{
  g_autoptr (SwPlan) plan = sw_plan_load (store, plan_id, error);
  g_autoptr (SwMachine) machine = NULL;
  g_autoptr (SwSample) sample = sw_sample_copy (wanted);
  gint64 titration;

  if (plan == NULL)
    return NULL;
  machine = sw_machine_load (store, plan->machine, error);
  if (machine == NULL)
    return NULL;
  if (machine->record.voided || machine->service == SW_SERVICE_RETIRED)
    refuse_with_text (SW_FACT_MACHINE_RETIRED, machine->tag, error);
  else if (plan->record.voided || !plan->active)
    refuse_with_text (SW_FACT_NOT_FROM_HERE, NULL, error);
  else if (check_no_open_test (store, machine, error)
           && check_purpose (store, machine, sample->purpose, sample->answers_dose, error)
           && insert_sample (store, actor, plan, machine, sample, error)
           && insert_titration (store, actor, plan, sample, &titration, error))
    return sw_guided_state_load (store, titration, error);
  return NULL;
}

SwGuidedTest *
sw_guided_test_begin (SwStore *store,
                      const SwActor *actor,
                      gint64 plan,
                      SwPurpose purpose,
                      gint64 answers_dose,
                      GError **error)
{
  g_autoptr (SwSample) wanted = sw_sample_new ();
  g_autoptr (SwGuidedState) state = NULL;
  SwFact refusal;

  g_return_val_if_fail (store != NULL && actor != NULL, NULL);
  g_return_val_if_fail ((int)purpose >= 0 && purpose < SW_N_PURPOSES, NULL);
  if (!sw_guided_check_writable (store, &refusal))
    {
      sw_workflow_refuse (error, &refusal);
      return NULL;
    }
  if (!sw_act_begin (store, SW_ACT_TEST, actor, error))
    return NULL;
  wanted->purpose = purpose;
  wanted->answers_dose = answers_dose;
  if (sw_right_check (store, actor, SW_RIGHT_TEST, error))
    state = begin_inside (store, actor, plan, wanted, error);
  if (state == NULL || !sw_act_commit (store, error))
    {
      sw_act_cancel (store);
      return NULL;
    }
  return sw_guided_test_new (store, actor, g_steal_pointer (&state));
}

/* ---- draw ---- */

static gboolean
check_point (const SwGuidedState *state, gint64 point, GError **error)
{
  for (guint i = 0; i < state->points->len; i++)
    if (((SwSamplingPoint *)state->points->pdata[i])->record.id == point)
      return TRUE;
  return sw_check_fail (point == 0 ? SW_FAULT_MISSING : SW_FAULT_COMBINATION, SW_QUANTITY_NAME,
                        error);
}

/* A sample drawn before the dose went in, or before it has circulated (or reacted), proves nothing
 * about it. */
static gboolean
check_circulated (const SwDoseRow *dose, gint64 drawn_ms, gint64 now_ms, GError **error)
{
  SwFact early = sw_fact (SW_FACT_RETEST_TOO_EARLY);

  if (drawn_ms >= dose->retest_due_ms)
    return TRUE;
  early.number[0] = MAX (0.0, (double)(dose->retest_due_ms - now_ms) / MS_PER_MIN);
  return sw_workflow_refuse (error, &early);
}

static gboolean
check_drawn_time (
    SwStore *store, const SwSample *sample, gint64 drawn_ms, gint64 now_ms, GError **error)
{
  g_autoptr (SwDoseRow) dose = NULL;

  if (!sw_check_time (drawn_ms, 1, now_ms, error))
    return FALSE;
  if (sample->answers_dose == 0)
    return TRUE;
  dose = sw_dose_row_load (store, sample->answers_dose, error);
  return dose != NULL && check_circulated (dose, drawn_ms, now_ms, error);
}

static gboolean
check_draw (const SwGuidedMove *move, const SwDrawEntry *entry, gint64 drawn_ms, GError **error)
{
  return check_point (move->state, entry->point, error)
         && sw_check_number (SW_QUANTITY_DRAWN_VOLUME, entry->volume.value, entry->volume.typed,
                             error)
         && sw_check_optional (SW_QUANTITY_SAMPLE_TEMPERATURE, entry->temperature.value,
                               entry->temperature.typed, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, entry->appearance, SW_LONGEST_NAME, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, entry->remarks, SW_LONGEST_TEXT, error)
         && check_drawn_time (move->test->store, move->state->sample, drawn_ms, move->now_ms,
                              error);
}

static void
set_text (char **member, const char *text)
{
  g_free (*member);
  *member = text != NULL && *text != '\0' ? g_strdup (text) : NULL;
}

static void
set_amount (SwAmount *member, const SwAmount *typed)
{
  member->value = typed->value;
  set_text (&member->typed, typed->typed);
}

static gboolean
update_sample (SwGuidedMove *move, const SwDrawEntry *entry, gint64 drawn_ms, GError **error)
{
  g_autoptr (SwSample) sample = sw_sample_copy (move->state->sample);

  sample->record.happened_ms = drawn_ms;
  sample->point = entry->point;
  sample->drawn_by = move->test->actor.person;
  sample->running = entry->running;
  sample->level_ok = entry->level_ok;
  sample->added_since = entry->added_since;
  set_amount (&sample->volume, &entry->volume);
  set_amount (&sample->temperature, &entry->temperature);
  set_text (&sample->appearance, entry->appearance);
  set_text (&sample->remarks, entry->remarks);
  sample->retained = entry->retained;
  return sw_sample_update (move->test->store, sample, error);
}

gboolean
sw_guided_test_draw (SwGuidedTest *test, const SwDrawEntry *entry, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };
  gint64 drawn_ms;

  g_return_val_if_fail (entry != NULL, FALSE);
  if (!sw_guided_move_begin (&move, test, SW_MOVE_DRAW, SW_ACT_TEST, NULL, error))
    return FALSE;
  drawn_ms = entry->drawn_ms != 0 ? entry->drawn_ms : move.now_ms;
  return check_draw (&move, entry, drawn_ms, error) && update_sample (&move, entry, drawn_ms, error)
         && sw_guided_move_finish (&move, error);
}

/* ---- leaving a page ---- */

gboolean
sw_guided_test_back (SwGuidedTest *test, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_BACK, SW_ACT_TEST, NULL, error))
    return FALSE;
  move.titration->closed_ms = 0;
  return sw_guided_move_finish (&move, error);
}

/* An ended portion is no result: what was closed on it is open again, its readings stay. */
static void
end_portion (SwGuidedMove *move, const char *reason)
{
  set_text (&move->titration->end_reason, reason);
  move->titration->closed_ms = 0;
}

gboolean
sw_guided_test_abandon (SwGuidedTest *test, const char *reason, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_ABANDON, SW_ACT_TEST, reason, error)
      || !sw_check_text (SW_QUANTITY_REASON, reason, SW_LONGEST_TEXT, error))
    return FALSE;
  end_portion (&move, reason);
  return sw_guided_move_finish (&move, error);
}

/* The next portion starts with nothing but where it comes from. */
static gboolean
insert_next_portion (SwGuidedMove *move, GError **error)
{
  g_autoptr (SwTitration) next = sw_titration_new ();

  next->sample = move->titration->sample;
  next->method_version = move->titration->method_version;
  next->analyst = move->test->actor.person;
  next->portion = move->titration->portion + 1;
  next->step = SW_STEP_PREPARE;
  if (!sw_titration_insert (move->test->store, next, error))
    return FALSE;
  move->next_titration = next->record.id;
  return TRUE;
}

gboolean
sw_guided_test_fresh_portion (SwGuidedTest *test, const char *reason, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  if (!sw_guided_move_begin (&move, test, SW_MOVE_FRESH_PORTION, SW_ACT_TEST, reason, error)
      || !sw_check_text (SW_QUANTITY_REASON, reason, SW_LONGEST_TEXT, error))
    return FALSE;
  end_portion (&move, reason);
  return insert_next_portion (&move, error) && sw_guided_move_finish (&move, error);
}
