/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of allowed ranges. */
#include "calc/range.h"

typedef struct
{
  gboolean is_number;
  double low;
  double high;
  SwUnit unit;
} Range;

/* clang-format off */
static const Range ranges[SW_N_QUANTITIES] = {
  /* Up to 1000 steps: more than 50 mL of drops, or an hour of counting. */
  [SW_QUANTITY_READING_TOTAL] = { TRUE, 0, 1000, SW_UNIT_STEP },
  [SW_QUANTITY_STEPS_ADDED] = { TRUE, 0.001, 1000, SW_UNIT_STEP },
  [SW_QUANTITY_ACID_AT] = { TRUE, 0, 1000, SW_UNIT_STEP },
  [SW_QUANTITY_PASS_AT] = { TRUE, 0, 1000, SW_UNIT_STEP },
  [SW_QUANTITY_BLANK] = { TRUE, 0, 100, SW_UNIT_STEP },
  [SW_QUANTITY_MAXIMUM] = { TRUE, 0.001, 1000, SW_UNIT_STEP },
  [SW_QUANTITY_EXTRA] = { TRUE, 0, 1000, SW_UNIT_STEP },
  /* A free drop is about 0.01 to 0.1 mL; a burette's step may be up to 5 mL. */
  [SW_QUANTITY_DROP_VOLUME] = { TRUE, 0.001, 5, SW_UNIT_ML },
  [SW_QUANTITY_SAMPLE_VOLUME] = { TRUE, 1, 2000, SW_UNIT_ML },
  [SW_QUANTITY_DRAWN_VOLUME] = { TRUE, 1, 10000, SW_UNIT_ML },
  [SW_QUANTITY_SAMPLE_TEMPERATURE] = { TRUE, -30, 200, SW_UNIT_CELSIUS },
  [SW_QUANTITY_CAUSTIC] = { TRUE, 0, 100, SW_UNIT_MMOL },
  [SW_QUANTITY_WATER_VOLUME] = { TRUE, 0, 2000, SW_UNIT_ML },
  /* Neat low-molecular amines and concentrated caustic both end below 20 mmol/mL. */
  [SW_QUANTITY_TITRANT_STRENGTH] = { TRUE, 0.0001, 20, SW_UNIT_MMOL_PER_ML },
  [SW_QUANTITY_PRODUCT_STRENGTH] = { TRUE, 0.001, 20, SW_UNIT_MMOL_PER_ML },
  [SW_QUANTITY_STRENGTH_RATIO] = { TRUE, 0.00001, 100, SW_UNIT_NONE },
  [SW_QUANTITY_DENSITY] = { TRUE, 0.5, 2.5, SW_UNIT_G_PER_ML },
  [SW_QUANTITY_MOLAR_MASS] = { TRUE, 1, 2000, SW_UNIT_NONE },
  [SW_QUANTITY_SYSTEM_VOLUME] = { TRUE, 1, 100000, SW_UNIT_LITRE },
  [SW_QUANTITY_COMPARTMENT_VOLUME] = { TRUE, 0, 100000, SW_UNIT_LITRE },
  [SW_QUANTITY_CHAMBER_VOLUME] = { TRUE, 1, 100000, SW_UNIT_LITRE },
  [SW_QUANTITY_GRADUATION] = { TRUE, 0.01, 5000, SW_UNIT_ML },
  [SW_QUANTITY_CIRCULATION_TIME] = { TRUE, 1, 10080, SW_UNIT_MINUTE },
  [SW_QUANTITY_REACTION_TIME] = { TRUE, 0, 10080, SW_UNIT_MINUTE },
  [SW_QUANTITY_LIMIT_EACH] = { TRUE, 0.001, 500, SW_UNIT_ML_PER_L },
  [SW_QUANTITY_LIMIT_TOTAL] = { TRUE, 0.001, 500, SW_UNIT_ML_PER_L },
  [SW_QUANTITY_ADDED_AMOUNT] = { TRUE, 0, 1000000, SW_UNIT_ML },
  [SW_QUANTITY_RESERVE_LOW] = { TRUE, 0, 1000, SW_UNIT_STEP },
  [SW_QUANTITY_RESERVE_HIGH] = { TRUE, 0, 1000, SW_UNIT_STEP },
  [SW_QUANTITY_WEIGHING] = { TRUE, 0.0001, 1000, SW_UNIT_GRAM },
  [SW_QUANTITY_DROP_COUNT] = { TRUE, 1, 10000, SW_UNIT_NONE },
  [SW_QUANTITY_LOT_AMOUNT] = { TRUE, 0, 1000000, SW_UNIT_NONE },
  [SW_QUANTITY_SHAKE_TIME] = { TRUE, 0, 3600, SW_UNIT_SECOND },
  [SW_QUANTITY_WAIT_TIME] = { TRUE, 0, 3600, SW_UNIT_SECOND },
  [SW_QUANTITY_SHORTEST] = { TRUE, 0.04, 366, SW_UNIT_DAY }, /* from about an hour */
  [SW_QUANTITY_LONGEST] = { TRUE, 0.04, 366, SW_UNIT_DAY },
  [SW_QUANTITY_INTERVAL] = { TRUE, 0.04, 366, SW_UNIT_DAY },
  [SW_QUANTITY_ALPHA] = { TRUE, 0.001, 0.5, SW_UNIT_NONE },
  [SW_QUANTITY_SUPPLIER_FACTOR] = { TRUE, 0.000001, 500, SW_UNIT_ML_PER_L },
  [SW_QUANTITY_UNCERTAINTY] = { TRUE, 0, INFINITY, SW_UNIT_NONE },
  [SW_QUANTITY_FREEDOM] = { TRUE, 1, INFINITY, SW_UNIT_NONE },
  [SW_QUANTITY_IDLE_LOCK] = { TRUE, 0, 480, SW_UNIT_MINUTE },
  [SW_QUANTITY_COUNT] = { TRUE, 0, 1000000000, SW_UNIT_NONE },
};
/* clang-format on */

/* Beyond half the value the second-order terms of a quotient are no longer small. */
#define LARGEST_RELATIVE_UNCERTAINTY 0.5

gboolean
sw_range_get (SwQuantityName quantity, double *low, double *high, SwUnit *unit)
{
  const Range *range;

  g_return_val_if_fail ((int)quantity >= 0 && quantity < SW_N_QUANTITIES, FALSE);
  range = &ranges[quantity];
  if (!range->is_number)
    return FALSE;

  if (low != NULL)
    *low = range->low;
  if (high != NULL)
    *high = range->high;
  if (unit != NULL)
    *unit = range->unit;
  return TRUE;
}

gboolean
sw_range_check (SwQuantityName quantity, double value, GError **error)
{
  double low = -INFINITY;
  double high = INFINITY;
  SwUnit unit = SW_UNIT_NONE;

  sw_range_get (quantity, &low, &high, &unit);
  return sw_fault_check_range (quantity, value, low, high, unit, error);
}

static gboolean
check_uncertainty (SwQuantityName quantity, SwQuantity value, GError **error)
{
  const Range *range = &ranges[quantity];
  SwFault fault = { .quantity = SW_QUANTITY_UNCERTAINTY,
                    .of = quantity,
                    .value = value.u,
                    .low = 0.0,
                    .high = INFINITY,
                    .unit = range->unit };

  if (range->low > 0.0)
    fault.high = LARGEST_RELATIVE_UNCERTAINTY * value.value;
  if (isfinite (value.u) && value.u >= 0.0 && value.u <= fault.high)
    return TRUE;
  fault.code = isfinite (value.u) ? SW_FAULT_RANGE : SW_FAULT_NOT_A_NUMBER;
  return sw_fault_set (error, &fault);
}

static gboolean
check_freedom (SwQuantityName quantity, double freedom, GError **error)
{
  SwFault fault = { .code = SW_FAULT_RANGE,
                    .quantity = SW_QUANTITY_FREEDOM,
                    .of = quantity,
                    .value = freedom,
                    .low = ranges[SW_QUANTITY_FREEDOM].low,
                    .high = INFINITY };

  if (freedom >= fault.low)
    return TRUE;
  if (isnan (freedom))
    fault.code = SW_FAULT_NOT_A_NUMBER;
  return sw_fault_set (error, &fault);
}

gboolean
sw_range_check_quantity (SwQuantityName quantity, SwQuantity value, GError **error)
{
  SwFault missing = { .code = SW_FAULT_MISSING, .quantity = quantity, .value = NAN };

  g_return_val_if_fail ((int)quantity >= 0 && quantity < SW_N_QUANTITIES, FALSE);
  if (!sw_quantity_is_known (value))
    {
      sw_range_get (quantity, &missing.low, &missing.high, &missing.unit);
      return sw_fault_set (error, &missing);
    }
  return sw_range_check (quantity, value.value, error) && check_uncertainty (quantity, value, error)
         && check_freedom (quantity, value.freedom, error);
}
