/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Neutraliser demand: how fast a machine uses it up, how likely a test would find acid, and when
 * (2-calculations 2.6).
 *
 * Each test says: the demand since the solvent fill was new lies in (low + D, high + D], D being
 * what was dosed by then. A straight line is laid through those intervals; the unit of account is
 * the caller's (steps, mL/L, mmol/L), as is the regressor (days, kg of oil, loads).
 *
 * It is net demand: acid formed and neutraliser lost, less acid removed and reserve brought in. It
 * may start below zero and may fall; it is never clamped, and proves no cause.
 */
#pragma once

#include "calc/censored.h"

G_BEGIN_DECLS

/* z = beta0 * a + beta1 * x. Replacing a fraction r of the solvent shrinks what is left: D, a and x
 * all become (1 - r) times what they were, after which x grows again; a is 1 before that. */
typedef struct
{
  SwInterval demand; /* of net acid + D */
  double a;          /* (0, 1] */
  double x;
} SwDemandPoint;

typedef enum
{
  SW_DEMAND_ANSWERED,
  SW_DEMAND_NO_ACID,    /* no bounded test yet: nothing says where the line is */
  SW_DEMAND_TOO_FEW,    /* fewer than SW_DEMAND_FEWEST tests */
  SW_DEMAND_NO_SCATTER, /* without a floor only: a line threads every interval, sigma runs to 0 */
  SW_DEMAND_RATE_UNBOUNDED, /* the likelihood rises with the slope for ever */
  SW_DEMAND_FALLING,        /* answered, but the rate is not above 0: reported, not forecast */
  SW_DEMAND_NOT_FOUND,      /* no maximum was reached */
  SW_N_DEMAND_CODES
} SwDemandCode;

#define SW_DEMAND_FEWEST 5

typedef struct
{
  SwDemandCode code;
  SwCensoredFit fit;
  gboolean at_floor; /* sigma is the floor: the free fit was below it, or ran to 0 */
} SwDemand;

/* @floor > 0: the least sigma that is believed (1 drop, or the site's repeatability), unit of
 * account. 0: none. The code is also returned; with ANSWERED and FALLING the fit stands. */
SwDemandCode sw_demand_fit (const SwDemandPoint *points, gsize n, double floor, SwDemand *demand);

/* The rate's 90 % interval by profile likelihood; an end that the data do not bound is infinite. */
SwInterval sw_demand_rate_interval (const SwDemandPoint *points, gsize n, const SwDemand *demand);
/* The same from the curvature (Wald): a check on the other. */
SwInterval sw_demand_rate_wald (const SwDemand *demand);

/* What the line says, and its standard uncertainty (of the line, without the scatter of a test). */
double sw_demand_at (const SwDemand *demand, double a, double x, double *u);

/* The probability that a test at @x finds acid, when @c is D plus the test's threshold; *upper its
 * one-sided 90 % upper bound. The plug-in value is too optimistic about half the time. */
double sw_demand_risk (const SwDemand *demand, double a, double x, double c, double *upper);

/* The largest x >= from at which the 90 % bound of the risk is still <= alpha (or, with plug_in,
 * the risk itself): @from when it is above alpha there already; INFINITY when it never is before
 * @last. */
double sw_demand_due (const SwDemand *demand,
                      double a,
                      double c,
                      double alpha,
                      double from,
                      double last,
                      gboolean plug_in);

G_END_DECLS
