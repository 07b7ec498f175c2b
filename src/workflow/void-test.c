/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A test, a dose or an incident is taken out of use.
 *
 * A voided test answers no question any more. Its readings go with it without being marked each:
 * they are read through their titration. What was poured stays poured: doses that were added, or of
 * which nobody knows, stay, count for the fill's total and wait for their re-test.
 */
#include "workflow/void-private.h"

#include "workflow/guided.h"
#include "workflow/incident-private.h"

/* ---- tests ---- */

static gboolean
void_unused_doses (SwCorrection *correction, gint64 titration, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (correction->store, SW_TABLE_DOSE, "titration", titration, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwDoseRow) dose
          = sw_dose_row_load (correction->store, g_array_index (ids, gint64, i), error);

      if (dose == NULL)
        return FALSE;
      if (dose->state == SW_DOSE_NOT_ADDED
          && !sw_record_void (correction->store, SW_TABLE_DOSE, dose->record.id, error))
        return FALSE;
    }
  return ids != NULL;
}

/* @sample's link to a dose goes when its signed test does: another portion never had one. */
static gboolean
void_titration (SwCorrection *correction,
                const SwTitration *titration,
                const SwSample *sample,
                GError **error)
{
  gint64 id = titration->record.id;

  if (titration->signed_ms != 0 && !sw_correction_unanswer (correction, sample, error))
    return FALSE;
  return sw_correction_void_decisions (correction, id, error)
         && void_unused_doses (correction, id, error)
         && sw_record_void (correction->store, SW_TABLE_TITRATION, id, error);
}

static gboolean
void_one_titration (SwCorrection *correction, gint64 id, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_load (correction->store, id, error);
  g_autoptr (SwSample) sample = NULL;

  if (titration == NULL)
    return FALSE;
  sample = sw_sample_load (correction->store, titration->sample, error);
  return sample != NULL && sw_correction_watch (correction, sample->machine, sample->plan, error)
         && void_titration (correction, titration, sample, error);
}

static gboolean
void_sample (SwCorrection *correction, gint64 id, GError **error)
{
  g_autoptr (SwSample) sample = sw_sample_load (correction->store, id, error);
  g_autoptr (GPtrArray) portions = NULL;

  if (sample == NULL || !sw_correction_watch (correction, sample->machine, sample->plan, error))
    return FALSE;
  portions = sw_correction_load_portions (correction->store, id, error);
  for (guint i = 0; portions != NULL && i < portions->len; i++)
    if (!void_titration (correction, portions->pdata[i], sample, error))
      return FALSE;
  return portions != NULL && sw_record_void (correction->store, SW_TABLE_SAMPLE, id, error);
}

/* ---- doses ---- */

/* Nothing was poured, so there is nothing to prove by a re-test; the acid is still there, and the
 * machine's state says so. */
static gboolean
void_dose (SwCorrection *correction, gint64 id, GError **error)
{
  g_autoptr (SwDoseRow) dose = sw_dose_row_load (correction->store, id, error);
  g_autoptr (SwTitration) titration = NULL;
  g_autoptr (SwSample) sample = NULL;

  titration = dose != NULL ? sw_titration_load (correction->store, dose->titration, error) : NULL;
  sample = titration != NULL ? sw_sample_load (correction->store, titration->sample, error) : NULL;
  return sample != NULL && sw_correction_watch (correction, sample->machine, sample->plan, error)
         && sw_record_void (correction->store, SW_TABLE_DOSE, id, error);
}

static gboolean
void_incident (SwCorrection *correction, gint64 id, GError **error)
{
  g_autoptr (SwIncident) incident = sw_incident_load (correction->store, id, error);

  return incident != NULL && sw_correction_watch (correction, incident->machine, 0, error)
         && sw_record_void (correction->store, SW_TABLE_INCIDENT, id, error);
}

gboolean
sw_void_test (SwCorrection *correction, SwTable table, gint64 id, GError **error)
{
  if (table == SW_TABLE_SAMPLE)
    return void_sample (correction, id, error);
  if (table == SW_TABLE_TITRATION)
    return void_one_titration (correction, id, error);
  if (table == SW_TABLE_INCIDENT)
    return void_incident (correction, id, error);
  return void_dose (correction, id, error);
}

/* ---- incidents ---- */

static gboolean
refuse_for_test (SwStore *store, gint64 titration, GError **error)
{
  g_autofree char *code = sw_void_dup_name (store, SW_TABLE_TITRATION, titration, error);

  return code != NULL && sw_correction_refuse (SW_FACT_STILL_USED, code, error);
}

/* Open doses too: nobody has said yet whether they went in. */
static gboolean
check_doses (SwStore *store, gint64 incident, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_DOSE, "incident", incident, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwDoseRow) dose = sw_dose_row_load (store, g_array_index (ids, gint64, i), error);

      if (dose == NULL)
        return FALSE;
      if (dose->state != SW_DOSE_NOT_ADDED)
        return refuse_for_test (store, dose->titration, error);
    }
  return ids != NULL;
}

static gboolean
still_acid (SwStore *store, gint64 id, gboolean *acid, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_load (store, id, error);
  g_autoptr (SwSample) sample = NULL;
  g_autoptr (SwMethodVersion) version = NULL;

  sample = titration != NULL ? sw_sample_load (store, titration->sample, error) : NULL;
  version
      = sample != NULL ? sw_method_version_load (store, titration->method_version, error) : NULL;
  if (version == NULL)
    return FALSE;
  *acid = !titration->record.voided && !sample->record.voided
          && sw_outcome_found_acid (titration, version);
  return TRUE;
}

gboolean
sw_void_check_incident (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwIncident) incident = sw_incident_load (store, id, error);
  gboolean acid = FALSE;

  if (incident == NULL
      || (incident->opened_by_titration != 0
          && !still_acid (store, incident->opened_by_titration, &acid, error)))
    return FALSE;
  return acid ? refuse_for_test (store, incident->opened_by_titration, error)
              : check_doses (store, id, error);
}
