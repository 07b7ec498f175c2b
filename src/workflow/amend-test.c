/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amendments of a test: its sample, its titration, its readings. Each number and text is asked for
 * as strictly as the guided test asks. */
#include "workflow/amend-private.h"

#include "workflow/guided.h"
#include "workflow/result-private.h"

#include <string.h>

/* ---- sample ---- */

static const char *const sample_columns[] = { "happened_ms",    "point",
                                              "drawn_by",       "running",
                                              "level_ok",       "added_since",
                                              "volume_si",      "volume_typed",
                                              "temperature_si", "temperature_typed",
                                              "appearance",     "retained",
                                              "remarks",        NULL };

/* The points of the sample's machine; one that is out of use now may stay, but is not chosen. */
static gboolean
check_point (SwStore *store, const SwSample *old, const SwSample *row, GError **error)
{
  g_autoptr (SwSamplingPoint) point = NULL;

  if (row->point == old->point)
    return TRUE;
  if (row->point == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  point = sw_sampling_point_load (store, row->point, error);
  if (point == NULL)
    return FALSE;
  return (point->machine == row->machine && !point->record.voided)
         || sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_NAME, error);
}

/* What bounds a sample from its titrations: it was drawn before its first strip was read, and no
 * less of it than went into a flask. */
static gboolean
find_bounds (
    SwStore *store, GPtrArray *portions, gint64 *latest_ms, double *least_ml, GError **error)
{
  for (guint i = 0; i < portions->len; i++)
    {
      const SwTitration *portion = portions->pdata[i];
      g_autoptr (GPtrArray) readings = sw_result_load_readings (store, portion->record.id, error);

      if (readings == NULL)
        return FALSE;
      if (readings->len > 0)
        *latest_ms = MIN (*latest_ms, ((SwRecord *)readings->pdata[0])->happened_ms);
      if (portion->portion_volume.value > *least_ml)
        *least_ml = portion->portion_volume.value;
    }
  return TRUE;
}

static gboolean
check_drawn (const SwCorrection *correction,
             const SwSample *row,
             GPtrArray *portions,
             GError **error)
{
  gint64 latest_ms = correction->now_ms;
  double least_ml = 0.0;
  double high = INFINITY;

  sw_range_get (SW_QUANTITY_DRAWN_VOLUME, &least_ml, &high, NULL);
  return find_bounds (correction->store, portions, &latest_ms, &least_ml, error)
         && sw_check_within (SW_QUANTITY_DRAWN_VOLUME, row->volume.value, row->volume.typed,
                             least_ml, high, error)
         && sw_check_time (row->record.happened_ms, 1, latest_ms, error);
}

static gboolean
check_sample (const SwCorrection *correction,
              const SwSample *old,
              const SwSample *row,
              GPtrArray *portions,
              GError **error)
{
  if (row->drawn_by == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  return check_point (correction->store, old, row, error)
         && check_drawn (correction, row, portions, error)
         && sw_check_optional (SW_QUANTITY_SAMPLE_TEMPERATURE, row->temperature.value,
                               row->temperature.typed, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, row->appearance, SW_LONGEST_NAME, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, row->remarks, SW_LONGEST_TEXT, error)
         && (row->drawn_by == old->drawn_by
             || sw_amend_check_person (correction->store, row->drawn_by, error));
}

/* A re-test drawn before its dose had circulated, as we now know, answers nothing. */
static gboolean
follow_sample (SwCorrection *correction, const SwSample *row, GError **error)
{
  g_autoptr (SwDoseRow) dose = NULL;

  if (row->answers_dose == 0)
    return TRUE;
  dose = sw_dose_row_load (correction->store, row->answers_dose, error);
  if (dose == NULL)
    return FALSE;
  return dose->retest_sample != row->record.id || row->record.happened_ms >= dose->retest_due_ms
         || sw_correction_unanswer (correction, row, error);
}

static SwSample *
make_sample (const SwSample *wanted, const SwSample *old)
{
  SwSample *row = sw_sample_copy (wanted);

  if (row->record.happened_ms == 0)
    row->record.happened_ms = old->record.happened_ms;
  sw_amend_drop_blank (&row->volume.typed);
  sw_amend_drop_blank (&row->temperature.typed);
  sw_amend_drop_blank (&row->appearance);
  sw_amend_drop_blank (&row->remarks);
  return row;
}

gboolean
sw_amend_sample (SwStore *store, const SwActor *actor, const SwSample *wanted, GError **error)
{
  g_auto (SwCorrection) correction = { 0 };
  g_autoptr (SwSample) old = NULL;
  g_autoptr (SwSample) row = NULL;
  g_autoptr (GPtrArray) portions = NULL;
  SwAmendStart start;

  g_return_val_if_fail (store != NULL && actor != NULL && wanted != NULL, FALSE);
  old = sw_sample_load (store, wanted->record.id, error);
  if (old == NULL)
    return FALSE;
  row = make_sample (wanted, old);
  start = sw_amend_start (&correction, store, actor, SW_TABLE_SAMPLE, old, row, sample_columns, old,
                          error);
  if (start != SW_AMEND_GO)
    return start == SW_AMEND_SAME;
  portions = sw_correction_load_portions (store, row->record.id, error);
  return portions != NULL && check_sample (&correction, old, row, portions, error)
         && sw_sample_update (store, row, error) && follow_sample (&correction, row, error)
         && sw_correction_finish (&correction, error);
}

/* ---- titration ---- */

static const char *const titration_columns[]
    = { "titrant_lot",       "caustic_lot",          "strip_lot", "lot_reason", "second_reader",
        "portion_volume_si", "portion_volume_typed", NULL };

/* 0 where the row had none: what the method or the site does not ask for is not brought in. */
static gboolean
check_lot_changed (const SwCorrection *correction,
                   const SwTitration *row,
                   gint64 old,
                   gint64 lot,
                   gint64 product,
                   GError **error)
{
  if (lot == old)
    return TRUE;
  return sw_amend_check_lot (correction->store, lot, product, SW_PRODUCT_STRIPS,
                             row->record.happened_ms, row->lot_reason, error);
}

static gboolean
check_lots (const SwCorrection *correction,
            const SwTitration *old,
            const SwTitration *row,
            GError **error)
{
  g_autoptr (SwMethodVersion) version
      = sw_method_version_load (correction->store, row->method_version, error);

  if (version == NULL)
    return FALSE;
  if (version->caustic == 0 && row->caustic_lot != 0)
    return sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC, error);
  return check_lot_changed (correction, row, old->titrant_lot, row->titrant_lot, version->titrant,
                            error)
         && check_lot_changed (correction, row, old->caustic_lot, row->caustic_lot,
                               version->caustic, error)
         && check_lot_changed (correction, row, old->strip_lot, row->strip_lot, 0, error)
         && sw_check_optional_text (SW_QUANTITY_REASON, row->lot_reason, SW_LONGEST_TEXT, error);
}

/* No more goes into the flask than was drawn. */
static gboolean
check_portion (const SwTitration *row, const SwSample *sample, GError **error)
{
  double low = 0.0;
  double high = INFINITY;

  sw_range_get (SW_QUANTITY_SAMPLE_VOLUME, &low, &high, NULL);
  if (!isnan (sample->volume.value))
    high = MIN (high, MAX (low, sample->volume.value));
  return sw_check_within (SW_QUANTITY_SAMPLE_VOLUME, row->portion_volume.value,
                          row->portion_volume.typed, low, high, error);
}

static gboolean
check_titration (const SwCorrection *correction,
                 const SwTitration *old,
                 const SwTitration *row,
                 const SwSample *sample,
                 GError **error)
{
  if (row->second_reader != 0 && row->second_reader == row->analyst)
    return sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_NAME, error);
  return check_portion (row, sample, error) && check_lots (correction, old, row, error)
         && (row->second_reader == old->second_reader
             || sw_amend_check_person (correction->store, row->second_reader, error));
}

gboolean
sw_amend_titration (SwStore *store, const SwActor *actor, const SwTitration *wanted, GError **error)
{
  g_auto (SwCorrection) correction = { 0 };
  g_autoptr (SwTitration) old = NULL;
  g_autoptr (SwTitration) row = NULL;
  g_autoptr (SwSample) sample = NULL;
  SwAmendStart start;

  g_return_val_if_fail (store != NULL && actor != NULL && wanted != NULL, FALSE);
  old = sw_titration_load (store, wanted->record.id, error);
  sample = old != NULL ? sw_sample_load (store, old->sample, error) : NULL;
  if (sample == NULL)
    return FALSE;
  row = sw_titration_copy (wanted);
  sw_amend_drop_blank (&row->lot_reason);
  sw_amend_drop_blank (&row->portion_volume.typed);
  start = sw_amend_start (&correction, store, actor, SW_TABLE_TITRATION, old, row,
                          titration_columns, sample, error);
  if (start != SW_AMEND_GO)
    return start == SW_AMEND_SAME;
  return check_titration (&correction, old, row, sample, error)
         && sw_titration_update (store, row, error)
         && sw_correction_follow (&correction, row, sample, error)
         && sw_correction_finish (&correction, error);
}

/* ---- reading ---- */

static const char *const reading_columns[]
    = { "colour_field", "meaning", "struck", "not_added", "struck_reason", NULL };

/* What a colour means is the method's to say. */
static gboolean
set_meaning (SwStore *store, SwReadingRow *row, gint64 version, GError **error)
{
  g_autoptr (SwColourField) field = NULL;

  row->meaning = SW_FIELD_BETWEEN;
  if (row->colour_field == 0)
    return TRUE;
  field = sw_colour_field_load (store, row->colour_field, error);
  if (field == NULL)
    return FALSE;
  row->meaning = field->meaning;
  return field->method_version == version
         || sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_NAME, error);
}

/* A struck reading says why; one that counts (again) has nothing to say. */
static gboolean
set_struck (SwReadingRow *row, const char *reason, GError **error)
{
  sw_amend_drop_blank (&row->struck_reason);
  if (!row->struck)
    {
      row->not_added = FALSE;
      g_clear_pointer (&row->struck_reason, g_free);
    }
  else if (row->struck_reason == NULL)
    row->struck_reason = g_strdup (reason);
  return sw_check_optional_text (SW_QUANTITY_REASON, row->struck_reason, SW_LONGEST_TEXT, error);
}

gboolean
sw_amend_reading (SwStore *store, const SwActor *actor, const SwReadingRow *wanted, GError **error)
{
  g_auto (SwCorrection) correction = { 0 };
  g_autoptr (SwReadingRow) old = NULL;
  g_autoptr (SwReadingRow) row = NULL;
  g_autoptr (SwTitration) titration = NULL;
  g_autoptr (SwSample) sample = NULL;
  SwAmendStart start;

  g_return_val_if_fail (store != NULL && actor != NULL && wanted != NULL, FALSE);
  old = sw_reading_row_load (store, wanted->record.id, error);
  titration = old != NULL ? sw_titration_load (store, old->titration, error) : NULL;
  sample = titration != NULL ? sw_sample_load (store, titration->sample, error) : NULL;
  if (sample == NULL)
    return FALSE;
  row = sw_reading_row_copy (wanted);
  if (!set_meaning (store, row, titration->method_version, error)
      || !set_struck (row, actor->reason, error))
    return FALSE;
  start = sw_amend_start (&correction, store, actor, SW_TABLE_READING, old, row, reading_columns,
                          sample, error);
  if (start != SW_AMEND_GO)
    return start == SW_AMEND_SAME;
  return sw_reading_row_update (store, row, error)
         && sw_correction_follow (&correction, titration, sample, error)
         && sw_correction_finish (&correction, error);
}
