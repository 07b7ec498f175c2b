/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Uncertainty budget: first-order propagation and effective degrees of freedom.
 *
 * Sources: JCGM 100:2008 (GUM) 5.1.2 (law of propagation), G.4.1 (Welch-Satterthwaite), G.6.4 (t
 * factor); EURACHEM/CITAC CG 4, 3rd ed. 2012, worked examples A2 and A3.
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

typedef enum
{
  SW_DISTRIBUTION_NORMAL,
  SW_DISTRIBUTION_RECTANGULAR,
  SW_DISTRIBUTION_TRIANGULAR,
  SW_N_DISTRIBUTIONS
} SwDistribution;

typedef enum
{
  SW_LINE_END_POINT,
  SW_LINE_DROP_VOLUME,
  SW_LINE_SAMPLE_VOLUME,
  SW_LINE_SYSTEM_VOLUME,
  SW_LINE_TITRANT,
  SW_LINE_PRODUCT,
  SW_LINE_STRENGTH_RATIO,
  SW_LINE_CAUSTIC,
  SW_LINE_OTHER,
  SW_N_LINES
} SwBudgetLineName;

typedef struct
{
  SwBudgetLineName name;
  SwQuantity input;
  SwDistribution distribution;
  double sensitivity;  /* d result / d input */
  double contribution; /* |sensitivity| * u, unit of the result */
  double share;        /* of the variance, 0..1 */
} SwBudgetLine;

#define SW_BUDGET_MAX_LINES 12

typedef struct
{
  SwBudgetLine lines[SW_BUDGET_MAX_LINES];
  gsize n;
  double u;        /* combined standard uncertainty */
  double freedom;  /* effective, Welch-Satterthwaite; INFINITY possible */
  double coverage; /* t factor for 95 % (k) */
  double expanded; /* coverage * u */
  gsize dominant;  /* index of the largest share; 0 when all are 0 */
} SwBudget;

/* Half-width a of a tolerance to its standard uncertainty, a >= 0: rectangular a/sqrt(3) (JCGM
 * 100 4.3.7), triangular a/sqrt(6) (4.3.9); normal: a is half a 95 % interval, a/1.96 (4.3.4). */
double sw_uncertainty_of_tolerance (double half_width, SwDistribution distribution);

void sw_budget_init (SwBudget *budget);
/* Adds a line; at most SW_BUDGET_MAX_LINES (a programmer's mistake beyond). */
void sw_budget_add (SwBudget *budget,
                    SwBudgetLineName name,
                    SwQuantity input,
                    SwDistribution distribution,
                    double sensitivity);
/* Fills contributions, shares, u, effective freedom, coverage and expanded uncertainty. */
void sw_budget_finish (SwBudget *budget);

/* Student's t that is exceeded with the probability @upper (0 < upper < 1); freedom >= 1, INFINITY
 * gives the normal quantile. */
double sw_student_t (double upper, double freedom);

/* Two-sided 95 % Student t factor; freedom >= 1, INFINITY gives the normal 1.959964. */
double sw_coverage_95 (double freedom);

G_END_DECLS
