/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a set-up page shows beside the forms: the sum of compartments that are still being typed,
 * and all that is missing before a machine can be tested and dosed. */
#include "calc/fact.h"
#include "workflow/setup-private.h"

/* As sw_machine_volume, but of rows that are not in the file yet. */
void
sw_setup_sum_compartments (GPtrArray *compartments, SwQuantity *system_l, gboolean *complete)
{
  double sum = 0.0;
  double squares = 0.0;
  gboolean all = compartments != NULL && compartments->len > 0;
  gboolean known = all;

  g_return_if_fail (system_l != NULL && complete != NULL);
  for (guint i = 0; known && i < compartments->len; i++)
    {
      const SwCompartment *row = g_ptr_array_index (compartments, i);

      known = !isnan (row->volume.value);
      sum += row->volume.value;
      if (isnan (row->volume_u_l))
        all = FALSE;
      else
        squares += row->volume_u_l * row->volume_u_l;
    }
  *system_l = SW_UNKNOWN;
  if (known)
    *system_l = (SwQuantity){ .value = sum, .u = sqrt (squares), .freedom = INFINITY };
  *complete = all && known;
}

/* ---- what is missing ---- */

static void
add_fact (GArray *facts, SwFactCode code, const char *text)
{
  SwFact fact = sw_fact_with_text (code, text);

  for (guint i = 0; i < facts->len; i++)
    if (g_array_index (facts, SwFact, i).code == code
        && g_str_equal (g_array_index (facts, SwFact, i).text, fact.text))
      return;
  g_array_append_val (facts, fact);
}

/* A lot that is neither used up nor expired. */
static gboolean
has_good_lot (SwStore *store, gint64 product, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_LOT, "product", product, error);
  gint64 now_ms = sw_store_now (store);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwLot) lot = sw_lot_load (store, g_array_index (ids, gint64, i), error);

      if (lot == NULL)
        return FALSE;
      if (!lot->used_up && (lot->expires_ms == 0 || lot->expires_ms >= now_ms))
        return TRUE;
    }
  return FALSE;
}

static gboolean
check_lot (SwStore *store, gint64 product_id, GArray *facts, GError **error)
{
  g_autoptr (SwProduct) product = NULL;
  GError *failure = NULL;

  if (product_id == 0)
    return TRUE;
  product = sw_product_load (store, product_id, error);
  if (product == NULL)
    return FALSE;
  if (!has_good_lot (store, product_id, &failure) && failure == NULL)
    add_fact (facts, SW_FACT_NO_LOT, product->name);
  return sw_answered (failure, error);
}

/* A test asks for a lot of strips as soon as a product of that use is on file; any will do. */
static gboolean
check_strips (SwStore *store, GArray *facts, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PRODUCT, "use", SW_PRODUCT_STRIPS, error);
  GError *failure = NULL;

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    if (has_good_lot (store, g_array_index (ids, gint64, i), &failure) || failure != NULL)
      return sw_answered (failure, error);
  return ids->len == 0 || check_lot (store, g_array_index (ids, gint64, 0), facts, error);
}

static gboolean
check_plan (SwStore *store, const SwPlan *plan, GArray *facts, GError **error)
{
  g_autoptr (SwMethodVersion) version = NULL;
  GError *failure = NULL;
  gint64 id = sw_method_latest_version (store, plan->method, &failure);

  if (!sw_answered (failure, error))
    return FALSE;
  if (id == 0)
    return TRUE;
  version = sw_method_version_load (store, id, error);
  return version != NULL && check_lot (store, version->titrant, facts, error)
         && check_lot (store, version->caustic, facts, error);
}

static gboolean
check_plans (SwStore *store, gint64 machine, GArray *facts, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PLAN, "machine", machine, error);
  gboolean any = FALSE;

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwPlan) plan = sw_plan_load (store, g_array_index (ids, gint64, i), error);

      if (plan == NULL || (plan->active && !check_plan (store, plan, facts, error)))
        return FALSE;
      any = any || plan->active;
    }
  if (ids != NULL && !any)
    add_fact (facts, SW_FACT_NO_PLAN, NULL);
  return ids != NULL;
}

GArray *
sw_setup_unready (SwStore *store, gint64 machine_id, GError **error)
{
  g_autoptr (GArray) facts = NULL;
  g_autoptr (SwMachine) machine = NULL;

  g_return_val_if_fail (store != NULL, NULL);
  machine = sw_machine_load (store, machine_id, error);
  facts = machine != NULL ? sw_setup_missing (store, machine_id, error) : NULL;
  if (facts == NULL)
    return NULL;
  if (machine->service == SW_SERVICE_RETIRED)
    add_fact (facts, SW_FACT_MACHINE_RETIRED, NULL);
  if (!check_plans (store, machine_id, facts, error)
      || !check_lot (store, machine->neutraliser, facts, error)
      || !check_strips (store, facts, error))
    return NULL;
  return g_steal_pointer (&facts);
}
