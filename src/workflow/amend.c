/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amendments: their common start, and the records that little follows from. Samples, titrations and
 * readings are in amend-test.c; who may is in correction-right.c. */
#include "workflow/amend-private.h"

#include "workflow/dosing.h"
#include "workflow/guided.h"
#include "workflow/result-private.h"

#define MS_PER_HOUR 3600000.0

/* As the Added page has it: what was really added may be more than was measured, but not ten times;
 * the smallest amount is less than any jug can measure. */
#define MOST_TIMES_MEASURED 9.5
#define LEAST_ADDED_ML 0.001

SwAmendStart
sw_amend_start (SwCorrection *correction,
                SwStore *store,
                const SwActor *actor,
                SwTable table,
                gconstpointer old,
                gconstpointer row,
                const char *const *columns,
                const SwSample *sample,
                GError **error)
{
  if (sw_record_difference (table, old, row, NULL) == NULL)
    return SW_AMEND_SAME;
  if (!sw_correction_begin (correction, store, actor, SW_ACT_AMEND, error)
      || !sw_correction_check_amend (store, actor, table, ((const SwRecord *)old)->id, error))
    return SW_AMEND_FAILED;
  if (sw_record_difference (table, old, row, columns) != NULL)
    {
      sw_correction_refuse (SW_FACT_NOT_AMENDABLE, NULL, error);
      return SW_AMEND_FAILED;
    }
  if (sample != NULL && !sw_correction_watch (correction, sample->machine, sample->plan, error))
    return SW_AMEND_FAILED;
  return SW_AMEND_GO;
}

void
sw_amend_drop_blank (char **text)
{
  if (*text != NULL && **text == '\0')
    g_clear_pointer (text, g_free);
}

/* ---- what a record may name ---- */

static gboolean
check_product (SwStore *store, const SwLot *lot, gint64 product, SwProductUse use, GError **error)
{
  g_autoptr (SwProduct) of = sw_product_load (store, lot->product, error);

  if (of == NULL)
    return FALSE;
  if (lot->record.voided || (product != 0 ? lot->product != product : of->use != use))
    return sw_correction_refuse (SW_FACT_LOT_MISSING, of->name, error);
  return TRUE;
}

gboolean
sw_amend_check_lot (SwStore *store,
                    gint64 id,
                    gint64 product,
                    SwProductUse use,
                    gint64 used_ms,
                    const char *reason,
                    GError **error)
{
  g_autoptr (SwLot) lot = NULL;

  if (id == 0)
    return sw_correction_refuse (SW_FACT_LOT_MISSING, NULL, error);
  lot = sw_lot_load (store, id, error);
  if (lot == NULL || !check_product (store, lot, product, use, error))
    return FALSE;
  if (lot->expires_ms == 0 || lot->expires_ms >= used_ms || (reason != NULL && *reason != '\0'))
    return TRUE;
  return sw_correction_refuse (SW_FACT_LOT_EXPIRED, lot->code, error);
}

gboolean
sw_amend_check_person (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwPerson) person = NULL;

  if (id == 0)
    return TRUE;
  person = sw_person_load (store, id, error);
  if (person == NULL)
    return FALSE;
  return !person->record.voided
         || sw_correction_refuse (SW_FACT_PERSON_INACTIVE, person->name, error);
}

/* ---- doses ---- */

static const char *const dose_columns[]
    = { "added_si", "added_typed", "lot", "added_ms", "added_by", "retest_due_ms", NULL };

/* A figure that no longer follows from its test still bounds what may have been poured: by the
 * product's own range then. */
static gboolean
check_amount (const SwDoseRow *row, GError **error)
{
  double high = INFINITY;

  sw_range_get (SW_QUANTITY_ADDED_AMOUNT, NULL, &high, NULL);
  if (!isnan (row->measured_ml))
    high = MIN (high, MOST_TIMES_MEASURED * row->measured_ml);
  return sw_check_within (SW_QUANTITY_ADDED_AMOUNT, row->added.value, row->added.typed,
                          LEAST_ADDED_ML, high, error);
}

/* Within the 8 h in which the figure held. */
static gboolean
check_time (const SwDoseRow *row, gint64 now_ms, GError **error)
{
  if (!sw_check_time (row->added_ms, row->decided_ms, now_ms, error))
    return FALSE;
  return (double)(row->added_ms - row->decided_ms) <= SW_DOSE_LAPSES_H * MS_PER_HOUR
         || sw_correction_refuse (SW_FACT_NO_DOSE_LAPSED, NULL, error);
}

static gboolean
check_dose (const SwCorrection *correction, const SwDoseRow *old, SwDoseRow *row, GError **error)
{
  if (!check_amount (row, error) || !check_time (row, correction->now_ms, error))
    return FALSE;
  /* The reason of the amendment is also that of an expired lot, as on the Added page. */
  if (row->lot != old->lot
      && !sw_amend_check_lot (correction->store, row->lot, row->product, SW_PRODUCT_NEUTRALISER, 0,
                              NULL, error))
    return FALSE;
  if (row->added_by == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  return row->added_by == old->added_by
         || sw_amend_check_person (correction->store, row->added_by, error);
}

/* A sample that was drawn before the dose had circulated, as we now know, answers nothing. */
static gboolean
follow_time (SwCorrection *correction, const SwDoseRow *row, GError **error)
{
  g_autoptr (SwSample) retest = NULL;

  if (row->retest_sample == 0)
    return TRUE;
  retest = sw_sample_load (correction->store, row->retest_sample, error);
  if (retest == NULL)
    return FALSE;
  return retest->record.happened_ms >= row->retest_due_ms
         || sw_correction_unanswer (correction, retest, error);
}

/* How long the dose takes to circulate or react is what it was when it went in. */
static SwDoseRow *
make_dose (const SwDoseRow *old, const SwDoseRow *wanted)
{
  SwDoseRow *row = sw_dose_row_copy (wanted);

  sw_amend_drop_blank (&row->added.typed);
  row->retest_due_ms = old->retest_due_ms;
  if (old->retest_due_ms != 0)
    row->retest_due_ms += row->added_ms - old->added_ms;
  return row;
}

gboolean
sw_amend_dose (SwStore *store, const SwActor *actor, const SwDoseRow *wanted, GError **error)
{
  g_auto (SwCorrection) correction = { 0 };
  g_autoptr (SwDoseRow) old = NULL;
  g_autoptr (SwDoseRow) row = NULL;
  SwAmendStart start;

  g_return_val_if_fail (store != NULL && actor != NULL && wanted != NULL, FALSE);
  old = sw_dose_row_load (store, wanted->record.id, error);
  if (old == NULL)
    return FALSE;
  row = make_dose (old, wanted);
  /* The machine is not watched: the re-test's time follows the time of the dose, later too. */
  start = sw_amend_start (&correction, store, actor, SW_TABLE_DOSE, old, row, dose_columns, NULL,
                          error);
  if (start != SW_AMEND_GO)
    return start == SW_AMEND_SAME;
  return check_dose (&correction, old, row, error) && sw_dose_row_update (store, row, error)
         && follow_time (&correction, row, error) && sw_correction_finish (&correction, error);
}

/* ---- incidents ---- */

gboolean
sw_amend_incident (SwStore *store, const SwActor *actor, const SwIncident *wanted, GError **error)
{
  static const char *const columns[] = { "cause", NULL };
  g_auto (SwCorrection) correction = { 0 };
  g_autoptr (SwIncident) old = NULL;
  g_autoptr (SwIncident) row = NULL;
  SwAmendStart start;

  g_return_val_if_fail (store != NULL && actor != NULL && wanted != NULL, FALSE);
  old = sw_incident_load (store, wanted->record.id, error);
  if (old == NULL)
    return FALSE;
  row = sw_incident_copy (wanted);
  start = sw_amend_start (&correction, store, actor, SW_TABLE_INCIDENT, old, row, columns, NULL,
                          error);
  if (start != SW_AMEND_GO)
    return start == SW_AMEND_SAME;
  return sw_check_text (SW_QUANTITY_REASON, row->cause, SW_LONGEST_TEXT, error)
         && sw_incident_update (store, row, error) && sw_correction_finish (&correction, error);
}
