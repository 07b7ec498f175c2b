/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The amount of neutraliser for a machine (2-calculations 2.3), with its bounds and uncertainty.
 *
 *   dose [mL] = (n v_d b + A if it counts - blank drops v_d b) 1000 V_m / (s V_s)
 *
 * Source: stoichiometry of the design, 2.3; worked figures in tests/reference.
 */
#pragma once

#include "calc/budget.h"
#include "calc/outcome.h"

G_BEGIN_DECLS

typedef struct
{
  SwQuantity step_ml;   /* v_d, one drop or burette increment, mL, > 0 */
  SwQuantity sample_ml; /* V_s, mL, > 0 */
  SwQuantity system_l;  /* V_m, L, > 0 */
  SwQuantity titrant;   /* b, mmol/mL, > 0; SW_UNKNOWN where only the ratio is known */
  SwQuantity product;   /* s, mmol/mL, > 0; SW_UNKNOWN where only the ratio is known */
  SwQuantity
      strength_ratio;      /* b/s; used where b or s is unknown, and where it is exactly 1 with
                              b = s: then the product itself is the titrant and its strength cancels */
  SwQuantity caustic_mmol; /* A, mmol, >= 0 */
  gboolean caustic_counts; /* needs b */
  double acid_at;          /* m, steps; with an acid titrant the last alkaline reading */
  double pass_at;          /* n > m, steps */
  double blank;            /* B, steps; 0 = none; refused together with a caustic addition */
  double extra;            /* extra neutraliser, steps, >= 0 */
  SwDirection direction; /* of the titration; an acid titrant doses to a band: net + reserve_high */
  double reserve_high;   /* high mark of the reserve, steps of the acid titrant; else 0 */
} SwDoseInput;

typedef struct
{
  double graduation_ml;  /* marks of the measuring jug, mL, > 0; NAN: do not round */
  double limit_each_ml;  /* most in one addition, mL; INFINITY when the sheet gives none */
  double limit_total_ml; /* most that may still be added in this fill, mL; INFINITY when none */
} SwDoseRules;

typedef struct
{
  SwInterval bounds_ml;      /* low*f .. high*f: the drop step alone */
  SwInterval doubt_ml;       /* the same with volume doubt: low*f*(1-U_f) .. high*f*(1+U_f), on a
                                negative low (1+U_f); each end has the U_f of its own formula */
  SwQuantity best_ml;        /* middle of the interval, with its standard uncertainty */
  double best_expanded_ml;   /* U, 95 %, t factor from the effective degrees of freedom */
  double coverage;           /* that t factor */
  SwQuantity dose_ml;        /* at `high`, plus the extra; u without the end point; NAN when
                                step_too_wide */
  double extra_ml;           /* of which extra */
  double per_step_ml;        /* f: what one step is worth in this machine, mL */
  double measure_ml;         /* dose rounded up to the jug; NAN when not rounded or step_too_wide */
  SwInterval net;            /* net acid, steps */
  SwInterval content_mmol_l; /* acid content bounds; NAN where b is unknown */
  double content_best_mmol_l;
  gboolean step_too_wide; /* n - m > max(1, n/10): no dose; titrate a second portion one by one */
  SwBudget budget;        /* lines of the uncertainty of best_ml */
} SwDose;

/* Refuses (SW_FAULT_ERROR) any input that makes no sense, naming it. @rules may be NULL (no
 * rounding, no limits). Rounding that adds more than 10 % or half a step's worth is
 * SW_FAULT_COARSE about SW_QUANTITY_GRADUATION; a dose above limit_total_ml is SW_FAULT_RANGE about
 * SW_QUANTITY_LIMIT_TOTAL, in mL; a reserve that is above the high mark already is SW_FAULT_RANGE
 * about SW_QUANTITY_RESERVE_HIGH. A dose above limit_each_ml is no error: see sw_dose_split. */
gboolean
sw_dose_compute (const SwDoseInput *input, const SwDoseRules *rules, SwDose *dose, GError **error);

/* Splits a measured dose into additions that each stay within limit_each_ml and on the jug's marks.
 * Returns the amounts in mL, largest first (element type double, transfer full); NULL on error. */
GArray *sw_dose_split (double measure_ml, const SwDoseRules *rules, GError **error);

/* The ratio of the supplier's figure to ours, and whether they differ by more than 10 % (2.3). Both
 * > 0. */
double sw_dose_supplier_ratio (double ours_ml, double supplier_ml, gboolean *flagged);

G_END_DECLS
