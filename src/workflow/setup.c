/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up: its frame, the site, and what is still missing. */
#include "workflow/setup-private.h"

#include "workflow/dosing-private.h"
#include "workflow/guided-private.h"

#define LONGEST_RETENTION_YEARS 100.0
#define SITE_ROW 1

/* ---- frame ---- */

gboolean
sw_setup_begin_act (
    SwStore *store, const SwActor *actor, SwActKind kind, SwRight right, GError **error)
{
  SwFact refusal;

  if (!sw_guided_check_writable (store, &refusal))
    return sw_workflow_refuse (error, &refusal);
  if (!sw_act_begin (store, kind, actor, error))
    return FALSE;
  if (sw_right_check (store, actor, right, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

gboolean
sw_setup_begin (SwStore *store, const SwActor *actor, gint64 id, SwRight right, GError **error)
{
  return sw_setup_begin_act (store, actor, id != 0 ? SW_ACT_AMEND : SW_ACT_SETUP, right, error);
}

gboolean
sw_setup_end (SwStore *store, GError *failure, SwQuantityName unique, GError **error)
{
  if (failure == NULL && sw_act_commit (store, &failure))
    return TRUE;
  sw_act_cancel (store);
  if (unique != SW_QUANTITY_NONE
      && g_error_matches (failure, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT))
    {
      g_error_free (failure);
      return sw_check_fail (SW_FAULT_TEXT, unique, error);
    }
  g_propagate_error (error, failure);
  return FALSE;
}

static gboolean
is_taken (
    SwStore *store, SwTable table, const char *column, const char *text, gint64 own, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids_by_text (store, table, column, text, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (g_array_index (ids, gint64, i) != own)
      return TRUE;
  return FALSE;
}

gboolean
sw_setup_check_unique (SwStore *store,
                       SwTable table,
                       const char *column,
                       SwQuantityName quantity,
                       char *text,
                       gint64 own,
                       GError **error)
{
  glong longest = quantity == SW_QUANTITY_CODE ? SW_LONGEST_CODE : SW_LONGEST_NAME;
  SwFault taken
      = { .code = SW_FAULT_TEXT, .quantity = quantity, .value = NAN, .low = 1.0, .typed = text };
  GError *failure = NULL;

  taken.high = (double)longest;
  if (!sw_check_text (quantity, text, longest, error))
    return FALSE;
  g_strstrip (text);
  if (is_taken (store, table, column, text, own, &failure))
    return sw_fault_set (error, &taken);
  return sw_answered (failure, error);
}

gboolean
sw_setup_check_in_use (const SwRecord *record, SwQuantityName quantity, GError **error)
{
  if (record == NULL)
    return FALSE;
  return !record->voided || sw_check_fail (SW_FAULT_COMBINATION, quantity, error);
}

/* ---- site ---- */

static gboolean
check_zone (const char *zone, GError **error)
{
  g_autoptr (GTimeZone) known = NULL;
  SwFault fault
      = { .code = SW_FAULT_TEXT, .quantity = SW_QUANTITY_CODE, .value = NAN, .typed = zone };

  if (zone == NULL || *zone == '\0')
    return TRUE;
  known = g_time_zone_new_identifier (zone);
  return known != NULL || sw_fault_set (error, &fault);
}

static gboolean
check_site (SwSite *site, GError **error)
{
  if (!sw_check_text (SW_QUANTITY_NAME, site->name, SW_LONGEST_NAME, error)
      || !check_zone (site->zone, error)
      || !sw_check_optional_text (SW_QUANTITY_CODE, site->language, SW_LONGEST_CODE, error)
      || !sw_check_within (SW_QUANTITY_COUNT, site->retention_years, NULL, 0.0,
                           LONGEST_RETENTION_YEARS, error))
    return FALSE;
  return site->paper == NULL || g_str_equal (site->paper, "a4")
         || g_str_equal (site->paper, "letter")
         || sw_check_fail (SW_FAULT_TEXT, SW_QUANTITY_CODE, error);
}

/* In a demo plant nobody is asked for a secret: a real one never becomes one. */
static gboolean
check_demo (const SwSite *stored, const SwSite *site, GError **error)
{
  const SwFact refusal = sw_fact (SW_FACT_NOT_FROM_HERE);

  return stored->name == NULL || stored->demo == site->demo || sw_workflow_refuse (error, &refusal);
}

/* The row is there since the file was made; giving it its first name is set-up, not a correction.
 */
gboolean
sw_setup_site (SwStore *store, const SwActor *actor, SwSite *site, GError **error)
{
  g_autoptr (SwSite) stored = NULL;
  GError *failure = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL && site != NULL, FALSE);
  stored = sw_site_get (store, error);
  if (stored == NULL || !check_site (site, error) || !check_demo (stored, site, error)
      || !sw_setup_begin (store, actor, stored->name != NULL ? SITE_ROW : 0, SW_RIGHT_SET_UP,
                          error))
    return FALSE;
  site->record.id = SITE_ROW;
  if (site->uuid == NULL)
    site->uuid = g_strdup (stored->uuid);
  sw_site_update (store, site, &failure);
  return sw_setup_end (store, failure, SW_QUANTITY_NONE, error);
}

/* ---- what is missing ---- */

static void
add_fact (GArray *facts, SwFactCode code, const char *text)
{
  SwFact fact = sw_fact_with_text (code, text);

  g_array_append_val (facts, fact);
}

static gboolean
check_points (SwStore *store, gint64 machine, GArray *facts, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (store, SW_TABLE_SAMPLING_POINT, "machine", machine, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwSamplingPoint) point
          = sw_sampling_point_load (store, g_array_index (ids, gint64, i), error);

      if (point == NULL)
        return FALSE;
      if (point->dose_basis)
        return TRUE;
    }
  if (ids != NULL)
    add_fact (facts, SW_FACT_NO_DOSE_POINT, NULL);
  return ids != NULL;
}

static gboolean
check_calibration (SwStore *store, const SwMethodVersion *version, GArray *facts, GError **error)
{
  GError *failure = NULL;
  gint64 id;

  if (version->burette)
    return TRUE;
  id = sw_calibration_in_force (store, version->titrant, sw_store_now (store), &failure);
  if (!sw_answered (failure, error))
    return FALSE;
  if (id == 0)
    add_fact (facts, SW_FACT_CALIBRATION_MISSING, NULL);
  return TRUE;
}

static gboolean
check_family (SwStore *store,
              const SwDosingPlant *plant,
              const SwMethodVersion *version,
              GArray *facts,
              GError **error)
{
  g_autoptr (SwSolvent) solvent = NULL;

  if (plant->machine->solvent != 0)
    {
      solvent = sw_solvent_load (store, plant->machine->solvent, error);
      if (solvent == NULL)
        return FALSE;
      if (sw_method_version_suits (version, solvent->family))
        return TRUE;
    }
  add_fact (facts, SW_FACT_FAMILY_REFUSED, solvent != NULL ? solvent->name : NULL);
  return TRUE;
}

static gboolean
check_method (
    SwStore *store, const SwDosingPlant *plant, gint64 method, GArray *facts, GError **error)
{
  g_autoptr (SwMethodVersion) version = NULL;
  g_autoptr (SwProduct) titrant = NULL;
  SwDoseInput input = { 0 };
  GError *failure = NULL;
  gint64 id = sw_method_latest_version (store, method, &failure);

  if (!sw_answered (failure, error))
    return FALSE;
  version = id != 0 ? sw_method_version_load (store, id, error) : NULL;
  titrant = version != NULL ? sw_product_load (store, version->titrant, error) : NULL;
  if (titrant == NULL)
    return id == 0;
  if (!check_family (store, plant, version, facts, error)
      || !check_calibration (store, version, facts, error))
    return FALSE;
  input.titrant = (SwQuantity){ titrant->strength_mmol_ml, 0.0, INFINITY };
  if (version->direction == SW_DIRECTION_BASE && plant->product != NULL
      && !sw_dosing_fill_strengths (plant, version->titrant, &input))
    add_fact (facts, SW_FACT_NO_DOSE_STRENGTH, plant->product->name);
  return TRUE;
}

static gboolean
check_plans (SwStore *store, const SwDosingPlant *plant, GArray *facts, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (store, SW_TABLE_PLAN, "machine", plant->machine->record.id, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwPlan) plan = sw_plan_load (store, g_array_index (ids, gint64, i), error);

      if (plan == NULL
          || (plan->active && !check_method (store, plant, plan->method, facts, error)))
        return FALSE;
    }
  return ids != NULL;
}

GArray *
sw_setup_missing (SwStore *store, gint64 machine, GError **error)
{
  g_auto (SwDosingPlant) plant = { 0 };
  g_autoptr (GArray) facts = NULL;

  g_return_val_if_fail (store != NULL, NULL);
  if (!sw_dosing_plant_load (store, machine, &plant, error))
    return NULL;
  facts = sw_dosing_plant_missing (&plant);
  if (!check_points (store, machine, facts, error) || !check_plans (store, &plant, facts, error))
    return NULL;
  return g_steal_pointer (&facts);
}
