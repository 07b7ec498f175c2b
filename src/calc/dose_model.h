/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to calc: the one formula of the dose, shared by first-order propagation and Monte Carlo.
 *
 *   by strengths:  dose = (x v_d b + A) 1000 V_m / (s V_s)
 *   by the ratio:  dose = (x v_d + A / b) (b/s) 1000 V_m / V_s
 *
 * x is the number of steps without the caustic addition: net acid less c, plus the reserve's high
 * mark.
 */
#pragma once

#include "calc/dose.h"

G_BEGIN_DECLS

/* Refuses input that makes no sense; also one whose net acid is no finding. */
gboolean sw_dose_model_check (const SwDoseInput *input, GError **error);

/* Whether the second form is used; see SwDoseInput.strength_ratio. */
gboolean sw_dose_model_by_ratio (const SwDoseInput *input);

/* The range of x, steps. */
SwInterval sw_dose_model_steps (const SwDoseInput *input);

/* The dose, mL, for x steps. Uses the values only. */
double sw_dose_model_value (const SwDoseInput *input, double steps);

/* What one step is worth, mL: the derivative by x. */
double sw_dose_model_per_step (const SwDoseInput *input);

/* A finished budget for x = @steps; an end point with u 0 has no line. */
void sw_dose_model_budget (const SwDoseInput *input, SwQuantity steps, SwBudget *budget);

G_END_DECLS
