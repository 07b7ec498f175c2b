/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Uncertainty budget. */
#include "calc/budget.h"

#include <gsl/gsl_cdf.h>

/* Two-sided 95 %: half of the other 5 % lies above. JCGM 100 G.1.3. */
#define UPPER_TAIL 0.025

/* From here on t and the normal quantile agree to 1e-9, and GSL 2.7 loses its way further on (from
 * about 1e16, which a budget with one tiny type A line does reach). */
#define AS_GOOD_AS_NORMAL 1e10

double
sw_uncertainty_of_tolerance (double half_width, SwDistribution distribution)
{
  g_return_val_if_fail (half_width >= 0.0, NAN);
  switch (distribution)
    {
    case SW_DISTRIBUTION_RECTANGULAR:
      return half_width / sqrt (3.0);
    case SW_DISTRIBUTION_TRIANGULAR:
      return half_width / sqrt (6.0);
    case SW_DISTRIBUTION_NORMAL:
      return half_width / sw_coverage_95 (INFINITY);
    default:
      g_return_val_if_reached (NAN);
    }
}

void
sw_budget_init (SwBudget *budget)
{
  g_return_if_fail (budget != NULL);
  *budget = (SwBudget){ .freedom = INFINITY };
}

void
sw_budget_add (SwBudget *budget,
               SwBudgetLineName name,
               SwQuantity input,
               SwDistribution distribution,
               double sensitivity)
{
  g_return_if_fail (budget != NULL && budget->n < SW_BUDGET_MAX_LINES);
  budget->lines[budget->n++] = (SwBudgetLine){
    .name = name, .input = input, .distribution = distribution, .sensitivity = sensitivity
  };
}

static void
combine_lines (SwBudget *budget)
{
  double variance = 0.0;

  for (gsize i = 0; i < budget->n; i++)
    {
      SwBudgetLine *line = &budget->lines[i];

      line->contribution = fabs (line->sensitivity) * line->input.u;
      variance += line->contribution * line->contribution;
    }
  budget->u = sqrt (variance);
}

/* u^4 / sum (contribution^4 / freedom), in shares so that no fourth power can overflow; a line
 * known exactly (infinite freedom) adds 0. */
static void
share_lines (SwBudget *budget)
{
  double sum = 0.0;

  budget->dominant = 0;
  for (gsize i = 0; i < budget->n; i++)
    {
      SwBudgetLine *line = &budget->lines[i];
      double part = budget->u > 0.0 ? line->contribution / budget->u : 0.0;

      line->share = part * part;
      sum += line->share * line->share / line->input.freedom;
      if (line->share > budget->lines[budget->dominant].share)
        budget->dominant = i;
    }
  budget->freedom = sum > 0.0 ? 1.0 / sum : INFINITY;
}

void
sw_budget_finish (SwBudget *budget)
{
  g_return_if_fail (budget != NULL);
  combine_lines (budget);
  share_lines (budget);
  budget->coverage = sw_coverage_95 (budget->freedom);
  budget->expanded = budget->coverage * budget->u;
}

double
sw_student_t (double upper, double freedom)
{
  g_return_val_if_fail (upper > 0.0 && upper < 1.0 && freedom > 0.0, NAN);
  if (freedom >= AS_GOOD_AS_NORMAL)
    return gsl_cdf_ugaussian_Qinv (upper);
  return gsl_cdf_tdist_Qinv (upper, freedom);
}

double
sw_coverage_95 (double freedom)
{
  return sw_student_t (UPPER_TAIL, freedom);
}
