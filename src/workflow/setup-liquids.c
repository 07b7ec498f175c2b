/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of solvents, products and lots. */
#include "workflow/setup-private.h"

SW_SETUP_DEFINE_WRITE (SwSolvent, sw_solvent, SW_QUANTITY_NAME, SW_RIGHT_SET_UP)
SW_SETUP_DEFINE_WRITE (SwProduct, sw_product, SW_QUANTITY_NAME, SW_RIGHT_SET_UP)
SW_SETUP_DEFINE_WRITE (SwLot, sw_lot, SW_QUANTITY_CODE, SW_RIGHT_BENCH)

gboolean
sw_setup_solvent (SwStore *store, const SwActor *actor, SwSolvent *solvent, GError **error)
{
  g_return_val_if_fail (store != NULL && actor != NULL && solvent != NULL, FALSE);
  g_return_val_if_fail ((int)solvent->family >= 0 && solvent->family < SW_N_FAMILIES, FALSE);
  return sw_setup_check_unique (store, SW_TABLE_SOLVENT, "name", SW_QUANTITY_NAME, solvent->name,
                                solvent->record.id, error)
         && sw_check_optional (SW_QUANTITY_DENSITY, solvent->density_g_ml, NULL, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, solvent->sds_reference, SW_LONGEST_TEXT,
                                    error)
         && write_sw_solvent (store, actor, solvent, error);
}

/* ---- products ---- */

/* One addition cannot be allowed more than all of them; "the sheet gives none" and a limit exclude
 * each other. */
static gboolean
check_limits (const SwProduct *product, GError **error)
{
  gboolean any = !isnan (product->limit_each_ml_l) || !isnan (product->limit_total_ml_l);
  SwFault order = { .code = SW_FAULT_ORDER,
                    .quantity = SW_QUANTITY_LIMIT_TOTAL,
                    .value = product->limit_total_ml_l,
                    .low = product->limit_each_ml_l,
                    .high = INFINITY,
                    .unit = SW_UNIT_ML_PER_L };

  if (!sw_check_optional (SW_QUANTITY_LIMIT_EACH, product->limit_each_ml_l, NULL, error)
      || !sw_check_optional (SW_QUANTITY_LIMIT_TOTAL, product->limit_total_ml_l, NULL, error)
      || !sw_check_optional_text (SW_QUANTITY_NAME, product->no_limits_by, SW_LONGEST_NAME, error))
    return FALSE;
  if (any && product->no_limits_by != NULL && *product->no_limits_by != '\0')
    return sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_LIMIT_EACH, error);
  return !(product->limit_total_ml_l < product->limit_each_ml_l) || sw_fault_set (error, &order);
}

/* An epoxide acts slowly: without its reaction time no re-test would mean anything. */
static gboolean
check_reaction (const SwProduct *product, GError **error)
{
  gboolean slow
      = product->use == SW_PRODUCT_NEUTRALISER
        && (product->kind == SW_NEUTRALISER_EPOXIDE || product->kind == SW_NEUTRALISER_BOTH);

  return slow ? sw_check_number (SW_QUANTITY_REACTION_TIME, product->reaction_min, NULL, error)
              : sw_check_optional (SW_QUANTITY_REACTION_TIME, product->reaction_min, NULL, error);
}

static gboolean
check_strength (const SwProduct *product, GError **error)
{
  SwQuantityName quantity = product->use == SW_PRODUCT_TITRANT ? SW_QUANTITY_TITRANT_STRENGTH
                                                               : SW_QUANTITY_PRODUCT_STRENGTH;

  return sw_check_optional (quantity, product->strength_mmol_ml, NULL, error)
         && sw_check_uncertainty (quantity, product->strength_mmol_ml, product->strength_u_mmol_ml,
                                  error);
}

gboolean
sw_setup_product (SwStore *store, const SwActor *actor, SwProduct *product, GError **error)
{
  g_return_val_if_fail (store != NULL && actor != NULL && product != NULL, FALSE);
  g_return_val_if_fail ((int)product->use >= 0 && product->use < SW_N_PRODUCT_USES, FALSE);
  g_return_val_if_fail ((int)product->kind >= 0 && product->kind < SW_N_NEUTRALISER_KINDS, FALSE);
  return sw_setup_check_unique (store, SW_TABLE_PRODUCT, "name", SW_QUANTITY_NAME, product->name,
                                product->record.id, error)
         && check_strength (product, error)
         && sw_check_optional (SW_QUANTITY_DENSITY, product->density_g_ml, NULL, error)
         && check_limits (product, error) && check_reaction (product, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, product->sds_reference, SW_LONGEST_TEXT,
                                    error)
         && write_sw_product (store, actor, product, error);
}

/* ---- lots ---- */

/* Codes are unique per product. */
static gboolean
check_code (SwStore *store, SwLot *lot, GError **error)
{
  SwFault taken = { .code = SW_FAULT_TEXT,
                    .quantity = SW_QUANTITY_CODE,
                    .value = NAN,
                    .low = 1.0,
                    .high = SW_LONGEST_CODE };
  g_autoptr (GArray) ids = NULL;

  if (!sw_check_text (SW_QUANTITY_CODE, lot->code, SW_LONGEST_CODE, error))
    return FALSE;
  taken.typed = g_strstrip (lot->code);
  ids = sw_record_ids_by_text (store, SW_TABLE_LOT, "code", lot->code, error);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwLot) other = sw_lot_load (store, g_array_index (ids, gint64, i), error);

      if (other == NULL)
        return FALSE;
      if (other->record.id != lot->record.id && other->product == lot->product)
        return sw_fault_set (error, &taken);
    }
  return ids != NULL;
}

static gboolean
check_lot_dates (const SwLot *lot, GError **error)
{
  if (lot->received_ms < 0 || lot->opened_ms < 0 || lot->expires_ms < 0)
    return sw_check_fail (SW_FAULT_RANGE, SW_QUANTITY_DATE, error);
  if (lot->opened_ms != 0 && lot->opened_ms < lot->received_ms)
    return sw_check_fail (SW_FAULT_ORDER, SW_QUANTITY_DATE, error);
  return TRUE;
}

gboolean
sw_setup_lot (SwStore *store, const SwActor *actor, SwLot *lot, GError **error)
{
  g_autoptr (SwProduct) product = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL && lot != NULL, FALSE);
  if (lot->product == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  product = sw_product_load (store, lot->product, error);
  return sw_setup_check_in_use ((SwRecord *)product, SW_QUANTITY_NAME, error)
         && check_code (store, lot, error) && check_lot_dates (lot, error)
         && sw_check_optional (SW_QUANTITY_LOT_AMOUNT, lot->quantity.value, lot->quantity.typed,
                               error)
         && write_sw_lot (store, actor, lot, error);
}
