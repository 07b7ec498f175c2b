/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: Prepare. What the result depends on is copied into the titration here, so that
 * the record stands by itself whatever is changed in set-up later. */
#include "workflow/guided-private.h"

/* One step of a burette is one mL, read off its scale; its tolerance is not on file. */
#define BURETTE_STEP_ML 1.0

/* ---- may this method be used here ---- */

/* An unknown family suits no method: caustic with some chlorinated solvents is dangerous. */
static gboolean
check_family (const SwGuidedMove *move, GError **error)
{
  g_autoptr (SwSolvent) solvent = NULL;
  SwFact refused = sw_fact (SW_FACT_FAMILY_REFUSED);

  if (move->state->machine->solvent != 0)
    {
      solvent = sw_solvent_load (move->test->store, move->state->machine->solvent, error);
      if (solvent == NULL)
        return FALSE;
      if (sw_method_version_suits (move->state->method, solvent->family))
        return TRUE;
      refused = sw_fact_with_text (SW_FACT_FAMILY_REFUSED, solvent->name);
    }
  return sw_workflow_refuse (error, &refused);
}

/* ---- lots ---- */

/* Strips are asked for where the site keeps them; (out) the name of one product of theirs. */
static gboolean
find_strips (SwStore *store, SwProduct **strips, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PRODUCT, "use", SW_PRODUCT_STRIPS, error);

  if (ids == NULL || ids->len == 0)
    return ids != NULL;
  *strips = sw_product_load (store, g_array_index (ids, gint64, 0), error);
  return *strips != NULL;
}

static gboolean
check_product_lot (
    const SwGuidedMove *move, gint64 product_id, gint64 lot, const char *reason, GError **error)
{
  g_autoptr (SwProduct) product = sw_product_load (move->test->store, product_id, error);

  return product != NULL
         && sw_check_lot (move->test->store, lot, product_id, product->use, product->name,
                          move->now_ms, reason, error);
}

static gboolean
check_lots (const SwGuidedMove *move, const SwPrepareEntry *entry, GError **error)
{
  const SwMethodVersion *method = move->state->method;
  g_autoptr (SwProduct) strips = NULL;

  if (!check_product_lot (move, method->titrant, entry->titrant_lot, entry->lot_reason, error))
    return FALSE;
  if (method->caustic != 0
      && !check_product_lot (move, method->caustic, entry->caustic_lot, entry->lot_reason, error))
    return FALSE;
  if (!find_strips (move->test->store, &strips, error))
    return FALSE;
  return (strips == NULL && entry->strip_lot == 0)
         || sw_check_lot (move->test->store, entry->strip_lot, 0, SW_PRODUCT_STRIPS,
                          strips != NULL ? strips->name : NULL, move->now_ms, entry->lot_reason,
                          error);
}

/* ---- second reader and portion ---- */

/* Some people do not tell the colours of a strip well, and their profile says so. */
static gboolean
check_reads_alone (const SwGuidedMove *move, GError **error)
{
  const SwFact missing = sw_fact (SW_FACT_SECOND_READER_MISSING);
  gint64 id = move->test->actor.person;
  g_autoptr (SwPerson) reader = id != 0 ? sw_person_load (move->test->store, id, error) : NULL;

  if (reader == NULL)
    return id == 0;
  return !reader->second_reader || sw_workflow_refuse (error, &missing);
}

static gboolean
check_second_reader (const SwGuidedMove *move, gint64 person_id, GError **error)
{
  g_autoptr (SwPerson) person = NULL;

  if (person_id == 0)
    return check_reads_alone (move, error);
  person = sw_person_load (move->test->store, person_id, error);
  if (person == NULL)
    return FALSE;
  if (person->active && !person->record.voided && person_id != move->test->actor.person)
    return TRUE;
  return sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_NAME, error);
}

/* No more goes into the flask than was drawn. */
static gboolean
check_portion (const SwGuidedMove *move, const SwAmount *portion, GError **error)
{
  double low = 0.0;
  double high = INFINITY;
  double drawn = move->state->sample->volume.value;

  sw_range_get (SW_QUANTITY_SAMPLE_VOLUME, &low, &high, NULL);
  if (!isnan (drawn))
    high = MIN (high, MAX (low, drawn));
  return sw_check_within (SW_QUANTITY_SAMPLE_VOLUME, portion->value, portion->typed, low, high,
                          error);
}

/* ---- what the result depends on ---- */

static gboolean
copy_step (SwGuidedMove *move, GError **error)
{
  SwTitration *titration = move->titration;
  const SwFact missing = sw_fact (SW_FACT_CALIBRATION_MISSING);
  g_autoptr (SwCalibration) calibration = NULL;
  GError *failure = NULL;

  titration->calibration = 0;
  titration->step_ml = BURETTE_STEP_ML;
  titration->step_u_ml = NAN;
  titration->step_freedom = NAN;
  if (move->state->method->burette)
    return TRUE;
  titration->calibration = sw_calibration_in_force (move->test->store, move->state->method->titrant,
                                                    move->now_ms, &failure);
  if (!sw_answered (failure, error))
    return FALSE;
  if (titration->calibration == 0)
    return sw_workflow_refuse (error, &missing);
  calibration = sw_calibration_load (move->test->store, titration->calibration, error);
  if (calibration == NULL)
    return FALSE;
  titration->step_ml = calibration->drop.value;
  titration->step_u_ml = calibration->drop_u_ml;
  titration->step_freedom = calibration->freedom;
  return sw_check_number (SW_QUANTITY_DROP_VOLUME, titration->step_ml, NULL, error);
}

static gboolean
copy_titrant (SwGuidedMove *move, GError **error)
{
  g_autoptr (SwProduct) titrant
      = sw_product_load (move->test->store, move->state->method->titrant, error);

  if (titrant == NULL)
    return FALSE;
  move->titration->titrant_mmol_ml = titrant->strength_mmol_ml;
  move->titration->titrant_u_mmol_ml = titrant->strength_u_mmol_ml;
  return TRUE;
}

/* 2.1: an addition that counts is worth A / (v_d b) drops: both must be known. */
static gboolean
copy_method (SwGuidedMove *move, GError **error)
{
  const SwMethodVersion *method = move->state->method;
  SwTitration *titration = move->titration;

  titration->caustic_mmol = method->caustic != 0 ? method->caustic_mmol : NAN;
  titration->caustic_counts = method->caustic != 0 && method->caustic_counts;
  titration->blank = sw_or_zero (method->blank);
  titration->maximum = method->maximum;
  titration->portion_u_ml = method->sample_u_ml;
  if (!sw_check_number (SW_QUANTITY_MAXIMUM, titration->maximum, NULL, error))
    return FALSE;
  return !titration->caustic_counts
         || (sw_check_number (SW_QUANTITY_CAUSTIC, titration->caustic_mmol, NULL, error)
             && sw_check_number (SW_QUANTITY_TITRANT_STRENGTH, titration->titrant_mmol_ml, NULL,
                                 error));
}

static void
copy_entry (SwGuidedMove *move, const SwPrepareEntry *entry)
{
  SwTitration *titration = move->titration;
  gboolean has_caustic = move->state->method->caustic != 0;

  titration->portion_volume.value = entry->portion.value;
  g_free (titration->portion_volume.typed);
  titration->portion_volume.typed = g_strdup (entry->portion.typed);
  titration->titrant_lot = entry->titrant_lot;
  titration->caustic_lot = has_caustic ? entry->caustic_lot : 0;
  titration->strip_lot = entry->strip_lot;
  g_free (titration->lot_reason);
  titration->lot_reason = g_strdup (entry->lot_reason);
  titration->second_reader = entry->second_reader;
}

gboolean
sw_guided_test_prepare (SwGuidedTest *test, const SwPrepareEntry *entry, GError **error)
{
  g_auto (SwGuidedMove) move = { 0 };

  g_return_val_if_fail (entry != NULL, FALSE);
  if (!sw_guided_move_begin (&move, test, SW_MOVE_PREPARE, SW_ACT_TEST, NULL, error)
      || !check_family (&move, error) || !check_portion (&move, &entry->portion, error)
      || !check_lots (&move, entry, error)
      || !sw_check_optional_text (SW_QUANTITY_REASON, entry->lot_reason, SW_LONGEST_TEXT, error)
      || !check_second_reader (&move, entry->second_reader, error))
    return FALSE;
  if (!copy_step (&move, error) || !copy_titrant (&move, error) || !copy_method (&move, error))
    return FALSE;
  copy_entry (&move, entry);
  return sw_guided_move_finish (&move, error);
}
