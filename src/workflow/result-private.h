/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From rows to results: the one place where a titration's readings become its outcome and a dose's
 * inputs its amount, for the guided test and for the recomputation alike. */
#pragma once

#include "calc/dose.h"
#include "records/test.h"

G_BEGIN_DECLS

/* The outcome of @readings (SwReadingRow, by ordinal). Before the Prepare page is left there is
 * nothing to compute: open, read first. */
gboolean sw_result_outcome (const SwTitration *titration,
                            const SwMethodVersion *version,
                            GPtrArray *readings,
                            SwOutcome *outcome,
                            GError **error);

/* Writes an outcome into the titration's columns. */
void sw_result_store_outcome (SwTitration *titration, const SwOutcome *outcome);

/* What the titration itself puts into a dose; strengths of product, volume of the machine and extra
 * are left unknown. */
void sw_result_dose_input (const SwTitration *titration,
                           const SwMethodVersion *version,
                           SwDoseInput *input);

/* The same dose by the supplier's factor (mL of product per L of solvent and step): all counted
 * steps, no blank, no caustic addition. 2.3: which one governs is a setting of the method. */
void sw_result_supplier_input (const SwDoseInput *ours, double factor_ml_l, SwDoseInput *supplier);

/* What a stored dose was worked out from: its own row, and the titration's. */
void sw_result_stored_input (const SwDoseRow *dose,
                             const SwTitration *titration,
                             const SwMethodVersion *version,
                             SwDoseInput *input);

/* What a step is worth in the flask, mL of product per L of solvent; NAN where it cannot be said.
 * @itself: the titrant is the product dosed. */
double sw_result_per_step (const SwTitration *titration, gboolean itself, double product_mmol_ml);

/* Whether two values are the same result: within 1e-9 relative, both unknown, or the same infinity.
 */
gboolean sw_result_is_same (double expected, double found);

/* Readings of a titration, by ordinal. (transfer full) */
GPtrArray *sw_result_load_readings (SwStore *store, gint64 titration, GError **error);

G_END_DECLS
