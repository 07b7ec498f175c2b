/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of what a person typed. Nothing is corrected in silence: it is fine, or it is named. */
#include "workflow/check-private.h"

#include "workflow/guided.h"

#include <string.h>

static gboolean
is_blank (const char *text)
{
  return text == NULL || text[strspn (text, " \t\r\n")] == '\0';
}

gboolean
sw_check_fail (SwFaultCode code, SwQuantityName quantity, GError **error)
{
  SwFault fault
      = { .code = code, .quantity = quantity, .value = NAN, .low = -INFINITY, .high = INFINITY };

  sw_range_get (quantity, &fault.low, &fault.high, &fault.unit);
  return sw_fault_set (error, &fault);
}

gboolean
sw_check_within (SwQuantityName quantity,
                 double value,
                 const char *typed,
                 double low,
                 double high,
                 GError **error)
{
  SwFault fault = { .code = SW_FAULT_RANGE,
                    .quantity = quantity,
                    .value = value,
                    .low = low,
                    .high = high,
                    .typed = typed };

  if (value >= low && value <= high && isfinite (value))
    return TRUE;
  sw_range_get (quantity, NULL, NULL, &fault.unit);
  if (!isfinite (value))
    fault.code = isnan (value) && is_blank (typed) ? SW_FAULT_MISSING : SW_FAULT_NOT_A_NUMBER;
  return sw_fault_set (error, &fault);
}

gboolean
sw_check_number (SwQuantityName quantity, double value, const char *typed, GError **error)
{
  double low = -INFINITY;
  double high = INFINITY;

  sw_range_get (quantity, &low, &high, NULL);
  return sw_check_within (quantity, value, typed, low, high, error);
}

gboolean
sw_check_optional (SwQuantityName quantity, double value, const char *typed, GError **error)
{
  return (isnan (value) && is_blank (typed)) || sw_check_number (quantity, value, typed, error);
}

gboolean
sw_check_uncertainty (SwQuantityName quantity, double value, double u, GError **error)
{
  if (isnan (u))
    return TRUE;
  return sw_range_check_quantity (quantity, (SwQuantity){ value, u, INFINITY }, error);
}

gboolean
sw_check_optional_text (SwQuantityName quantity, const char *text, glong longest, GError **error)
{
  SwFault fault = {
    .code = SW_FAULT_TEXT, .quantity = quantity, .value = NAN, .low = 1.0, .high = (double)longest
  };

  if (text == NULL)
    return TRUE;
  if (g_utf8_validate (text, -1, NULL))
    {
      if (g_utf8_strlen (text, -1) <= longest)
        return TRUE;
      fault.typed = text;
    }
  return sw_fault_set (error, &fault);
}

gboolean
sw_check_text (SwQuantityName quantity, const char *text, glong longest, GError **error)
{
  if (is_blank (text))
    return sw_check_fail (SW_FAULT_MISSING, quantity, error);
  return sw_check_optional_text (quantity, text, longest, error);
}

gboolean
sw_check_time (gint64 ms, gint64 low, gint64 high, GError **error)
{
  SwFault fault = { .code = SW_FAULT_RANGE,
                    .quantity = SW_QUANTITY_DATE,
                    .value = (double)ms,
                    .low = (double)low,
                    .high = (double)high };

  return (ms >= low && ms <= high) || sw_fault_set (error, &fault);
}

gboolean
sw_answered (GError *failure, GError **error)
{
  if (failure == NULL)
    return TRUE;
  g_propagate_error (error, failure);
  return FALSE;
}

/* Whether the lot is one of that product (0: of any product of that use), and not used up. */
static gboolean
fits (SwStore *store, const SwLot *lot, gint64 product, SwProductUse use, GError **error)
{
  g_autoptr (SwProduct) of = NULL;

  if (lot->record.voided || lot->used_up)
    return FALSE;
  if (product != 0)
    return lot->product == product;
  of = sw_product_load (store, lot->product, error);
  return of != NULL && of->use == use;
}

gboolean
sw_check_lot (SwStore *store,
              gint64 id,
              gint64 product,
              SwProductUse use,
              const char *name,
              gint64 now_ms,
              const char *reason,
              GError **error)
{
  SwFact missing = sw_fact_with_text (SW_FACT_LOT_MISSING, name);
  SwFact expired;
  GError *failure = NULL;
  g_autoptr (SwLot) lot = NULL;

  if (id == 0)
    return sw_workflow_refuse (error, &missing);
  lot = sw_lot_load (store, id, error);
  if (lot == NULL)
    return FALSE;
  if (!fits (store, lot, product, use, &failure))
    return sw_answered (failure, error) && sw_workflow_refuse (error, &missing);
  if (lot->expires_ms == 0 || lot->expires_ms >= now_ms || !is_blank (reason))
    return TRUE;
  expired = sw_fact_with_text (SW_FACT_LOT_EXPIRED, lot->code);
  return sw_workflow_refuse (error, &expired);
}
