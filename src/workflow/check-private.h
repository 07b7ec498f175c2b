/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of what a person typed, and small helpers that every file of the layer needs. Each check
 * returns FALSE with SW_FAULT_ERROR naming quantity, value and allowed range. */
#pragma once

#include "calc/fault.h"
#include "calc/range.h"
#include "records/test.h"

G_BEGIN_DECLS

/* Longest texts, characters. */
#define SW_LONGEST_CODE 40
#define SW_LONGEST_NAME 200
#define SW_LONGEST_TEXT 2000

gboolean sw_check_fail (SwFaultCode code, SwQuantityName quantity, GError **error);
/* Needed: NAN is SW_FAULT_MISSING when nothing was typed, else SW_FAULT_NOT_A_NUMBER. */
gboolean sw_check_number (SwQuantityName quantity, double value, const char *typed, GError **error);
/* The same in [low, high] instead of the table's range. */
gboolean sw_check_within (SwQuantityName quantity,
                          double value,
                          const char *typed,
                          double low,
                          double high,
                          GError **error);
/* NAN with nothing typed is fine. */
gboolean
sw_check_optional (SwQuantityName quantity, double value, const char *typed, GError **error);
/* A standard uncertainty of @value: NAN, or >= 0 and at most half the value (calc/range.h). */
gboolean sw_check_uncertainty (SwQuantityName quantity, double value, double u, GError **error);
/* Needed text: not NULL, empty or blank, at most @longest characters of UTF-8. */
gboolean sw_check_text (SwQuantityName quantity, const char *text, glong longest, GError **error);
/* NULL and "" are fine. */
gboolean
sw_check_optional_text (SwQuantityName quantity, const char *text, glong longest, GError **error);
/* A time in [low, high]; the fault's numbers are UTC milliseconds. */
gboolean sw_check_time (gint64 ms, gint64 low, gint64 high, GError **error);

/* Moves @failure to @error; TRUE when there was none. For questions whose answer 0 means "none". */
gboolean sw_answered (GError *failure, GError **error);

/* A lot that may be used now for @product (0: any product of @use): SW_FACT_LOT_MISSING, named
 * @name, or SW_FACT_LOT_EXPIRED without a @reason. */
gboolean sw_check_lot (SwStore *store,
                       gint64 lot,
                       gint64 product,
                       SwProductUse use,
                       const char *name,
                       gint64 now_ms,
                       const char *reason,
                       GError **error);

static inline double
sw_or_zero (double value)
{
  return isnan (value) ? 0.0 : value;
}

G_END_DECLS
