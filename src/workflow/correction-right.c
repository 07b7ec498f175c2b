/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may correct a record, and whether it can be corrected now (amend.h).
 *
 * Asked in this order, the most fundamental first: the record is out of use; its test is not signed
 * yet; a dose of it is out at the machine and nobody has said whether it was added; the right.
 */
#include "workflow/correction-private.h"

#include "records/review-state.h"
#include "workflow/guided.h"

gboolean
sw_correction_refuse (SwFactCode code, const char *text, GError **error)
{
  const SwFact fact = sw_fact_with_text (code, text);

  return sw_workflow_refuse (error, &fact);
}

gboolean
sw_correction_answer (GError *failure, SwFact *refusal, GError **error)
{
  const SwFact *fact = sw_workflow_error_get_fact (failure);

  if (refusal != NULL)
    *refusal = fact != NULL ? *fact : sw_fact (SW_FACT_NONE);
  if (failure == NULL)
    return TRUE;
  if (fact != NULL)
    g_error_free (failure);
  else
    g_propagate_error (error, failure);
  return FALSE;
}

/* ---- the test that a record belongs to ---- */

typedef struct
{
  SwSample *sample;    /* Owned */
  GPtrArray *portions; /* Owned SwTitration: those that the record speaks of */
  gboolean voided;     /* the record, or what it is a part of */
  gboolean own;        /* all that is corrected was done by the actor */
} Subject;

static void
clear_subject (Subject *subject)
{
  g_clear_pointer (&subject->sample, sw_sample_free);
  g_clear_pointer (&subject->portions, g_ptr_array_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Subject, clear_subject)

GPtrArray *
sw_correction_load_portions (SwStore *store, gint64 sample, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_TITRATION, "sample", sample, error);
  g_autoptr (GPtrArray) portions
      = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_titration_free);

  if (ids == NULL)
    return NULL;
  for (guint i = 0; i < ids->len; i++)
    {
      SwTitration *row = sw_titration_load (store, g_array_index (ids, gint64, i), error);

      if (row == NULL)
        return NULL;
      g_ptr_array_add (portions, row);
    }
  return g_steal_pointer (&portions);
}

/* @own: what the record itself says of the actor; the titration has its say too. */
static gboolean
load_titration (
    SwStore *store, gint64 person, gint64 id, gboolean own, Subject *subject, GError **error)
{
  SwTitration *titration = sw_titration_load (store, id, error);

  if (titration == NULL)
    return FALSE;
  subject->portions = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_titration_free);
  g_ptr_array_add (subject->portions, titration);
  subject->sample = sw_sample_load (store, titration->sample, error);
  if (subject->sample == NULL)
    return FALSE;
  subject->own = own && titration->analyst == person;
  subject->voided = subject->voided || titration->record.voided || subject->sample->record.voided;
  return TRUE;
}

static gboolean
load_sample (SwStore *store, gint64 person, gint64 id, Subject *subject, GError **error)
{
  subject->sample = sw_sample_load (store, id, error);
  subject->portions
      = subject->sample != NULL ? sw_correction_load_portions (store, id, error) : NULL;
  if (subject->portions == NULL)
    return FALSE;
  subject->voided = subject->sample->record.voided;
  subject->own = subject->sample->drawn_by == person;
  return TRUE;
}

static gboolean
load_reading (SwStore *store, gint64 person, gint64 id, Subject *subject, GError **error)
{
  g_autoptr (SwReadingRow) row = sw_reading_row_load (store, id, error);

  if (row == NULL)
    return FALSE;
  subject->voided = row->record.voided;
  return load_titration (store, person, row->titration, row->reader == person, subject, error);
}

/* Who added it answers for it; where nobody did, who tested. */
static gboolean
load_dose (SwStore *store, gint64 person, gint64 id, Subject *subject, GError **error)
{
  g_autoptr (SwDoseRow) row = sw_dose_row_load (store, id, error);

  if (row == NULL)
    return FALSE;
  subject->voided = row->record.voided;
  if (!load_titration (store, person, row->titration, TRUE, subject, error))
    return FALSE;
  /* What was poured stays a fact whatever became of the test. */
  subject->voided = row->record.voided;
  if (row->added_by != 0)
    subject->own = row->added_by == person;
  return TRUE;
}

static gboolean
load_subject (
    SwStore *store, gint64 person, SwTable table, gint64 id, Subject *subject, GError **error)
{
  if (table == SW_TABLE_SAMPLE)
    return load_sample (store, person, id, subject, error);
  if (table == SW_TABLE_TITRATION)
    return load_titration (store, person, id, TRUE, subject, error);
  if (table == SW_TABLE_READING)
    return load_reading (store, person, id, subject, error);
  return load_dose (store, person, id, subject, error);
}

/* ---- now, and by this person ---- */

static gboolean
is_open (const SwTitration *titration)
{
  return titration->signed_ms == 0 && titration->step != SW_STEP_DONE
         && titration->step != SW_STEP_ABANDONED;
}

/* What was corrected under a figure that somebody holds at the machine would reach them too late.
 */
static gboolean
check_settled (const Subject *subject, GError **error)
{
  if (subject->voided)
    return sw_correction_refuse (SW_FACT_VOIDED, NULL, error);
  for (guint i = 0; i < subject->portions->len; i++)
    {
      const SwTitration *titration = subject->portions->pdata[i];

      if (is_open (titration))
        return sw_correction_refuse (SW_FACT_TEST_STILL_OPEN, NULL, error);
      if (titration->step == SW_STEP_ADDED && !titration->record.voided)
        return sw_correction_refuse (SW_FACT_MACHINE_LOCKED, NULL, error);
    }
  return TRUE;
}

/* Once reviewed, for good: a lost review was a review. */
static gboolean
is_reviewed (SwStore *store, const Subject *subject, gboolean *reviewed, GError **error)
{
  *reviewed = FALSE;
  for (guint i = 0; i < subject->portions->len; i++)
    {
      const SwTitration *titration = subject->portions->pdata[i];
      SwReviewState state;

      if (!sw_review_state (store, SW_TABLE_TITRATION, titration->record.id, &state, error))
        return FALSE;
      *reviewed = *reviewed || state == SW_REVIEW_REVIEWED || state == SW_REVIEW_LOST;
    }
  return TRUE;
}

static gboolean
check_right (SwStore *store, const SwActor *actor, const Subject *subject, GError **error)
{
  g_autoptr (GError) failure = NULL;
  const SwFact *fact;
  gboolean reviewed;

  if (!subject->own)
    return sw_right_check (store, actor, SW_RIGHT_REVIEW, error);
  if (!is_reviewed (store, subject, &reviewed, error))
    return FALSE;
  if (!reviewed)
    return sw_right_check (store, actor, SW_RIGHT_TEST, error);
  if (sw_right_check (store, actor, SW_RIGHT_REVIEW, &failure))
    return TRUE;
  fact = sw_workflow_error_get_fact (failure);
  if (fact != NULL && fact->code == SW_FACT_NEEDS_ROLE_REVIEW)
    return sw_correction_refuse (SW_FACT_REVIEWED_ALREADY, NULL, error);
  g_propagate_error (error, g_steal_pointer (&failure));
  return FALSE;
}

static gboolean
check_test (SwStore *store, const SwActor *actor, const Subject *subject, GError **error)
{
  return check_settled (subject, error) && check_right (store, actor, subject, error);
}

/* ---- public ---- */

gboolean
sw_correction_check_set_up (SwStore *store, const SwActor *actor, SwTable table, GError **error)
{
  gboolean bench = table == SW_TABLE_LOT || table == SW_TABLE_CALIBRATION;

  return sw_right_check (store, actor, bench ? SW_RIGHT_BENCH : SW_RIGHT_SET_UP, error);
}

/* Only what went into the machine has an amount to amend. */
static gboolean
check_dose_added (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwDoseRow) row = sw_dose_row_load (store, id, error);

  if (row == NULL)
    return FALSE;
  return row->state == SW_DOSE_ADDED || sw_correction_refuse (SW_FACT_NOT_AMENDABLE, NULL, error);
}

/* The cause is named when the incident is closed. */
static gboolean
check_incident (SwStore *store, const SwActor *actor, gint64 id, GError **error)
{
  g_autoptr (SwIncident) row = sw_incident_load (store, id, error);

  if (row == NULL)
    return FALSE;
  if (row->record.voided)
    return sw_correction_refuse (SW_FACT_VOIDED, NULL, error);
  if (row->cause == NULL)
    return sw_correction_refuse (SW_FACT_NOT_AMENDABLE, NULL, error);
  return sw_right_check (store, actor, SW_RIGHT_REVIEW, error);
}

gboolean
sw_correction_check_in_use (SwStore *store, SwTable table, gint64 id, GError **error)
{
  SwRecord *record = sw_record_load (store, table, id, error);
  gboolean voided;

  if (record == NULL)
    return FALSE;
  voided = record->voided;
  sw_record_free (table, record);
  return !voided || sw_correction_refuse (SW_FACT_VOIDED, NULL, error);
}

static gboolean
check_other (SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error)
{
  if (table == SW_TABLE_REVIEW || table == SW_TABLE_DECISION || table >= SW_TABLE_SIGN_IN)
    return sw_correction_refuse (SW_FACT_NOT_AMENDABLE, NULL, error);
  return sw_correction_check_in_use (store, table, id, error)
         && sw_correction_check_set_up (store, actor, table, error);
}

gboolean
sw_correction_check_amend (
    SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error)
{
  g_auto (Subject) subject = { 0 };

  if (table == SW_TABLE_INCIDENT)
    return check_incident (store, actor, id, error);
  if (table < SW_TABLE_SAMPLE || table > SW_TABLE_DOSE)
    return check_other (store, actor, table, id, error);
  return load_subject (store, actor->person, table, id, &subject, error)
         && check_test (store, actor, &subject, error)
         && (table != SW_TABLE_DOSE || check_dose_added (store, id, error));
}

gboolean
sw_correction_check_void_test (
    SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error)
{
  g_auto (Subject) subject = { 0 };

  if (!load_subject (store, actor->person, table, id, &subject, error))
    return FALSE;
  /* A sample takes its tests with it: all of them must be one's own. */
  for (guint i = 0; i < subject.portions->len; i++)
    subject.own = subject.own
                  && (table != SW_TABLE_SAMPLE
                      || ((SwTitration *)subject.portions->pdata[i])->analyst == actor->person);
  return check_test (store, actor, &subject, error);
}

gboolean
sw_amend_may (
    SwStore *store, const SwActor *actor, SwTable table, gint64 id, SwFact *refusal, GError **error)
{
  GError *failure = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  sw_correction_check_amend (store, actor, table, id, &failure);
  return sw_correction_answer (failure, refusal, error);
}
