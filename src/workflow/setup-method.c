/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of methods, calibrations and plans. */
#include "workflow/setup-private.h"

#include "workflow/guided.h"
#include "workflow/schedule-private.h"

/* ---- adopting a method ---- */

/* An epoxide has no pH and turns no strip (1-job): no titrant. */
static gboolean
check_titrant (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwProduct) titrant = NULL;

  if (id == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  titrant = sw_product_load (store, id, error);
  if (!sw_setup_check_in_use ((SwRecord *)titrant, SW_QUANTITY_NAME, error))
    return FALSE;
  return titrant->kind != SW_NEUTRALISER_EPOXIDE
         || sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_NAME, error);
}

/* 2.1: an addition that counts must be known, and so must the strength that turns it into drops. */
static gboolean
check_caustic (SwStore *store,
               gint64 titrant_id,
               gint64 caustic,
               double caustic_mmol,
               gboolean counts,
               GError **error)
{
  g_autoptr (SwProduct) titrant = NULL;

  if (caustic == 0)
    return (!counts && isnan (caustic_mmol))
           || sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC, error);
  if (!counts)
    return sw_check_optional (SW_QUANTITY_CAUSTIC, caustic_mmol, NULL, error);
  titrant = sw_product_load (store, titrant_id, error);
  return titrant != NULL && sw_check_number (SW_QUANTITY_CAUSTIC, caustic_mmol, NULL, error)
         && sw_check_number (SW_QUANTITY_TITRANT_STRENGTH, titrant->strength_mmol_ml, NULL, error);
}

static gboolean
set_caustic (SwStore *store, gint64 method, double caustic_mmol, gboolean counts, GError **error)
{
  g_autoptr (SwMethodVersion) version = NULL;
  GError *failure = NULL;
  gint64 id = sw_method_latest_version (store, method, &failure);

  if (!sw_answered (failure, error))
    return FALSE;
  version = sw_method_version_load (store, id, error);
  if (version == NULL)
    return FALSE;
  version->caustic_mmol = caustic_mmol;
  version->caustic_counts = counts;
  return sw_method_version_update (store, version, error);
}

gboolean
sw_setup_adopt_method (SwStore *store,
                       const SwActor *actor,
                       const char *template_name,
                       const char *name,
                       gint64 titrant,
                       gint64 caustic,
                       double caustic_mmol,
                       gboolean caustic_counts,
                       gint64 *method,
                       GError **error)
{
  g_autofree char *own_name = g_strdup (name);
  GError *failure = NULL;
  gint64 id = 0;

  g_return_val_if_fail (store != NULL && actor != NULL && template_name != NULL, FALSE);
  if (!sw_setup_check_unique (store, SW_TABLE_METHOD, "name", SW_QUANTITY_NAME, own_name, 0, error)
      || !check_titrant (store, titrant, error)
      || !check_caustic (store, titrant, caustic, caustic_mmol, caustic_counts, error)
      || !sw_setup_begin (store, actor, 0, SW_RIGHT_SET_UP, error))
    return FALSE;
  if (sw_method_adopt (store, template_name, own_name, titrant, caustic, &id, &failure))
    set_caustic (store, id, caustic_mmol, caustic_counts, &failure);
  if (!sw_setup_end (store, failure, SW_QUANTITY_NAME, error))
    return FALSE;
  if (method != NULL)
    *method = id;
  return TRUE;
}

/* ---- calibrations ---- */

SW_SETUP_DEFINE_WRITE (SwCalibration, sw_calibration, SW_QUANTITY_NONE, SW_RIGHT_BENCH)

static gboolean
check_calibration (SwStore *store, const SwCalibration *calibration, GError **error)
{
  const SwQuantity drop = {
    .value = calibration->drop.value,
    .u = sw_or_zero (calibration->drop_u_ml),
    .freedom = isnan (calibration->freedom) ? INFINITY : calibration->freedom,
  };

  return sw_check_text (SW_QUANTITY_NAME, calibration->dropper, SW_LONGEST_NAME, error)
         && sw_check_number (SW_QUANTITY_DROP_VOLUME, drop.value, calibration->drop.typed, error)
         && sw_range_check_quantity (SW_QUANTITY_DROP_VOLUME, drop, error)
         && sw_check_number (SW_QUANTITY_COUNT, calibration->weighings, NULL, error)
         && (calibration->record.happened_ms == 0
             || sw_check_time (calibration->record.happened_ms, 1, sw_store_now (store), error))
         && (calibration->due_ms == 0
             || sw_check_time (calibration->due_ms, MAX (1, calibration->record.happened_ms),
                               G_MAXINT64, error));
}

gboolean
sw_setup_calibration (SwStore *store,
                      const SwActor *actor,
                      SwCalibration *calibration,
                      GError **error)
{
  g_autoptr (SwProduct) product = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL && calibration != NULL, FALSE);
  if (calibration->product == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  product = sw_product_load (store, calibration->product, error);
  return sw_setup_check_in_use ((SwRecord *)product, SW_QUANTITY_NAME, error)
         && check_calibration (store, calibration, error)
         && write_sw_calibration (store, actor, calibration, error);
}

/* ---- plans ---- */

static gboolean
check_plan_numbers (const SwPlan *plan, GError **error)
{
  SwFault order = { .code = SW_FAULT_ORDER,
                    .quantity = SW_QUANTITY_LONGEST,
                    .value = plan->longest_days,
                    .low = plan->shortest_days,
                    .high = INFINITY,
                    .unit = SW_UNIT_DAY };

  if (!sw_check_number (SW_QUANTITY_SHORTEST, plan->shortest_days, NULL, error)
      || !sw_check_number (SW_QUANTITY_LONGEST, plan->longest_days, NULL, error)
      || !sw_check_number (SW_QUANTITY_ALPHA, plan->alpha, NULL, error)
      || !sw_check_optional (SW_QUANTITY_ACID_AT, plan->back_to_start_at, NULL, error))
    return FALSE;
  return plan->longest_days >= plan->shortest_days || sw_fault_set (error, &order);
}

/* The method's newest version must be for the machine's solvent. */
static gboolean
check_suits (SwStore *store, const SwMachine *machine, gint64 method, GError **error)
{
  GError *failure = NULL;
  gint64 id = sw_method_latest_version (store, method, &failure);
  g_autoptr (SwMethodVersion) version = NULL;
  g_autoptr (SwSolvent) solvent = NULL;
  SwFact refused;

  if (!sw_answered (failure, error))
    return FALSE;
  if (id == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  version = sw_method_version_load (store, id, error);
  solvent = version != NULL ? sw_solvent_load (store, machine->solvent, error) : NULL;
  if (solvent == NULL)
    return FALSE;
  refused = sw_fact_with_text (SW_FACT_FAMILY_REFUSED, solvent->name);
  return sw_method_version_suits (version, solvent->family) || sw_workflow_refuse (error, &refused);
}

/* One active plan per machine and method. */
static gboolean
check_single (SwStore *store, const SwPlan *plan, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PLAN, "machine", plan->machine, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwPlan) other = sw_plan_load (store, g_array_index (ids, gint64, i), error);

      if (other == NULL)
        return FALSE;
      if (plan->active && other->active && other->record.id != plan->record.id
          && other->method == plan->method)
        return sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_NAME, error);
    }
  return ids != NULL;
}

static gboolean
check_plan (SwStore *store, const SwPlan *plan, GError **error)
{
  g_autoptr (SwMachine) machine = NULL;
  g_autoptr (SwMethod) method = NULL;

  if (plan->machine == 0 || plan->method == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  machine = sw_machine_load (store, plan->machine, error);
  method = machine != NULL ? sw_method_load (store, plan->method, error) : NULL;
  return machine != NULL && sw_setup_check_in_use ((SwRecord *)machine, SW_QUANTITY_NAME, error)
         && sw_setup_check_in_use ((SwRecord *)method, SW_QUANTITY_NAME, error)
         && check_plan_numbers (plan, error) && check_suits (store, machine, plan->method, error)
         && check_single (store, plan, error);
}

static gboolean
insert_plan (SwStore *store, SwPlan *plan, GError **error)
{
  g_autoptr (SwDecision) first = NULL;

  if (!sw_plan_insert (store, plan, error))
    return FALSE;
  first = sw_schedule_first (plan, sw_act_now (store), error);
  return first != NULL && sw_decision_insert (store, first, error);
}

gboolean
sw_setup_plan (SwStore *store, const SwActor *actor, SwPlan *plan, GError **error)
{
  const SwRecord before = plan->record;
  GError *failure = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  if (!check_plan (store, plan, error)
      || !sw_setup_begin (store, actor, before.id, SW_RIGHT_SET_UP, error))
    return FALSE;
  if (before.id != 0)
    sw_plan_update (store, plan, &failure);
  else
    insert_plan (store, plan, &failure);
  if (sw_setup_end (store, failure, SW_QUANTITY_NONE, error))
    return TRUE;
  plan->record = before;
  return FALSE;
}
