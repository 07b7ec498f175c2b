/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each quantity may be: one table for calculations, window, store and command line.
 *
 * The limits are physical ones, wide enough for any plant and any burette, tight enough to catch a
 * slipped decimal or a wrong unit. They are the house's choice: common practice, no source.
 * "Unlikely but possible" (ten times the last value) is another question, asked elsewhere.
 */
#pragma once

#include "calc/fault.h"

G_BEGIN_DECLS

/* The allowed range, ends included, and its unit. FALSE for what is no number (date, name, code,
 * reason); then nothing is written. *high may be INFINITY. Any pointer may be NULL. */
gboolean sw_range_get (SwQuantityName quantity, double *low, double *high, SwUnit *unit);

/* Refuses a value outside the table's range (SW_FAULT_RANGE), a NaN or an infinity
 * (SW_FAULT_NOT_A_NUMBER). @value is in the unit that sw_range_get gives. */
gboolean sw_range_check (SwQuantityName quantity, double value, GError **error);

/* The same for a value with its uncertainty. NaN is SW_FAULT_MISSING: nobody said. The standard
 * uncertainty must be finite and >= 0, and for a quantity that is never 0 at most half the value
 * (first-order propagation means nothing beyond); degrees of freedom must be >= 1, INFINITY
 * allowed. A fault in these two has SW_QUANTITY_UNCERTAINTY or SW_QUANTITY_FREEDOM, with @quantity
 * in `of`.
 */
gboolean sw_range_check_quantity (SwQuantityName quantity, SwQuantity value, GError **error);

G_END_DECLS
