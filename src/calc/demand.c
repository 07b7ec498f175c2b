/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demand line: fit with a floor under sigma, what it forecasts. Whether there is a line at all
 * is asked in demand-refusal.c. */
#include "calc/demand-private.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* z of a one-sided 90 % bound, which is that of a two-sided 80 % one: Phi^-1 (0.9). */
#define Z_90 1.2815515655446004
/* z of a two-sided 90 % interval: Phi^-1 (0.95). */
#define Z_95 1.6448536269514722

/* ---- fit ---- */

void
sw_demand_data_init (SwDemandData *data, const SwDemandPoint *points, gsize n, double slope)
{
  gboolean with_slope = isnan (slope);

  data->y = g_new (SwInterval, n);
  data->x = g_new (double, 2 * n);
  data->censored = (SwCensoredData){ data->y, data->x, n, with_slope ? 2 : 1 };
  for (gsize i = 0; i < n; i++)
    {
      double part = with_slope ? 0.0 : slope * points[i].x;

      data->y[i] = (SwInterval){ points[i].demand.low - part, points[i].demand.high - part };
      data->x[with_slope ? 2 * i : i] = points[i].a;
      if (with_slope)
        data->x[2 * i + 1] = points[i].x;
    }
}

void
sw_demand_data_clear (SwDemandData *data)
{
  g_free (data->y);
  g_free (data->x);
}

/* Free where that answers and is not below the floor; else at the floor. */
static gboolean
fit_line (const SwDemandPoint *points, gsize n, double floor, gboolean threaded, SwDemand *demand)
{
  g_auto (SwDemandData) data = { 0 };
  gboolean found;

  sw_demand_data_init (&data, points, n, NAN);
  found = !threaded && sw_censored_fit (&data.censored, NAN, NULL, NULL, &demand->fit);
  demand->at_floor = floor > 0.0 && (!found || demand->fit.sigma < floor);
  if (demand->at_floor)
    found = sw_censored_fit (&data.censored, floor, NULL, NULL, &demand->fit);
  return found;
}

SwDemandCode
sw_demand_fit (const SwDemandPoint *points, gsize n, double floor, SwDemand *demand)
{
  gboolean threaded = FALSE;

  g_return_val_if_fail (points != NULL && demand != NULL && floor >= 0.0, SW_DEMAND_NOT_FOUND);

  *demand = (SwDemand){ .code = sw_demand_refusal (points, n, &threaded) };
  if (demand->code == SW_DEMAND_ANSWERED && threaded && !(floor > 0.0))
    demand->code = SW_DEMAND_NO_SCATTER;
  if (demand->code != SW_DEMAND_ANSWERED)
    return demand->code;
  if (!fit_line (points, n, floor, threaded, demand))
    demand->code = SW_DEMAND_NOT_FOUND;
  else if (!(demand->fit.beta[1] > 0.0))
    demand->code = SW_DEMAND_FALLING;
  return demand->code;
}

SwInterval
sw_demand_rate_wald (const SwDemand *demand)
{
  double half = Z_95 * sqrt (demand->fit.covariance[1][1]);

  return (SwInterval){ demand->fit.beta[1] - half, demand->fit.beta[1] + half };
}

/* ---- forecast ---- */

double
sw_demand_at (const SwDemand *demand, double a, double x, double *u)
{
  const SwCensoredFit *fit = &demand->fit;

  if (u != NULL)
    *u = sqrt (a * a * fit->covariance[0][0] + 2.0 * a * x * fit->covariance[0][1]
               + x * x * fit->covariance[1][1]);
  return a * fit->beta[0] + x * fit->beta[1];
}

/* Of z = (c - line) / sigma, by the delta method in (beta0, beta1, log sigma). */
static double
get_z_uncertainty (const SwCensoredFit *fit, double a, double x, double z)
{
  const double by[] = { -a / fit->sigma, -x / fit->sigma, -z };
  int n = fit->sigma_given ? 2 : 3;
  double variance = 0.0;

  for (int i = 0; i < n; i++)
    for (int j = 0; j < n; j++)
      variance += by[i] * fit->covariance[i][j] * by[j];
  return sqrt (variance);
}

double
sw_demand_risk (const SwDemand *demand, double a, double x, double c, double *upper)
{
  const SwCensoredFit *fit = &demand->fit;
  double z = (c - sw_demand_at (demand, a, x, NULL)) / fit->sigma;

  if (upper != NULL)
    *upper = gsl_cdf_ugaussian_Q (z - Z_90 * get_z_uncertainty (fit, a, x, z));
  return gsl_cdf_ugaussian_Q (z);
}

/* Bisection to the last digit: the risk is cheap, and the bound need not be smooth. x grows while a
 * stays: no solvent is replaced in a forecast. */
static double
find_crossing (const SwDemand *demand,
               double a,
               double c,
               double alpha,
               double low,
               double high,
               gboolean plug)
{
  for (int i = 0; i < 200; i++)
    {
      double middle = low + 0.5 * (high - low);
      double upper;
      double risk = sw_demand_risk (demand, a, middle, c, &upper);

      if (middle <= low || middle >= high)
        break;
      if ((plug ? risk : upper) <= alpha)
        low = middle;
      else
        high = middle;
    }
  return low;
}

double
sw_demand_due (const SwDemand *demand,
               double a,
               double c,
               double alpha,
               double from,
               double last,
               gboolean plug_in)
{
  double low = from;
  double reach = MAX (1e-6 * fabs (from), 1e-3);

  g_return_val_if_fail (demand != NULL && alpha > 0.0 && alpha < 1.0 && last > from, NAN);
  for (double x = from;; x = MIN (from + reach, last), reach *= 2.0)
    {
      double upper;
      double risk = sw_demand_risk (demand, a, x, c, &upper);

      if ((plug_in ? risk : upper) > alpha)
        return x <= from ? from : find_crossing (demand, a, c, alpha, low, x, plug_in);
      if (x >= last)
        return INFINITY;
      low = x;
    }
}
