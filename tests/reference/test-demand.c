/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demand line against figures from outside: R 4.2.2, survival 3.5-3 (fits), mpmath (risk and
 * due day by the formulas of the design), and series for which there is no answer (worked out by
 * hand).
 */
#include "calc/demand.h"
#include "series.h"
#include "support/support.h"

#include <math.h>

/* ---- no answer ---- */

#define OPEN_BELOW(high, day)                                                                      \
  {                                                                                                \
    { -INFINITY, high }, 1.0, day                                                                  \
  }
#define BOUNDED(low, high, day)                                                                    \
  {                                                                                                \
    { low, high }, 1.0, day                                                                        \
  }
#define OPEN_ABOVE(low, day)                                                                       \
  {                                                                                                \
    { low, INFINITY }, 1.0, day                                                                    \
  }

typedef struct
{
  const char *name;
  SwDemandCode code;
  double floor;
  gsize n;
  SwDemandPoint points[9];
} RefusalRow;

static const RefusalRow refusal_rows[] = {
  { "every test open below",
    SW_DEMAND_NO_ACID,
    1.0,
    5,
    { OPEN_BELOW (0, 1), OPEN_BELOW (0, 2), OPEN_BELOW (0, 3), OPEN_BELOW (0, 4),
      OPEN_BELOW (0, 5) } },
  { "over range is no bound",
    SW_DEMAND_NO_ACID,
    1.0,
    5,
    { OPEN_BELOW (0, 1), OPEN_BELOW (0, 2), OPEN_BELOW (0, 3), OPEN_BELOW (0, 4),
      OPEN_ABOVE (20, 5) } },
  { "four tests",
    SW_DEMAND_TOO_FEW,
    1.0,
    4,
    { BOUNDED (0, 1, 1), BOUNDED (1, 2, 2), BOUNDED (0, 1, 3), BOUNDED (2, 3, 4) } },
  { "eight passes and the first acid",
    SW_DEMAND_RATE_UNBOUNDED,
    1.0,
    9,
    { OPEN_BELOW (0, 1), OPEN_BELOW (0, 2), OPEN_BELOW (0, 3), OPEN_BELOW (0, 4), OPEN_BELOW (0, 5),
      OPEN_BELOW (0, 6), OPEN_BELOW (0, 7), OPEN_BELOW (0, 8), BOUNDED (0, 1, 9) } },
  { "acid first, then passes",
    SW_DEMAND_RATE_UNBOUNDED,
    1.0,
    5,
    { BOUNDED (0, 1, 1), OPEN_BELOW (3, 2), OPEN_BELOW (3, 3), OPEN_BELOW (3, 4),
      OPEN_BELOW (3, 5) } },
  { "all on one day",
    SW_DEMAND_RATE_UNBOUNDED,
    1.0,
    5,
    { BOUNDED (0, 1, 3), BOUNDED (0, 1, 3), BOUNDED (1, 2, 3), BOUNDED (0, 1, 3),
      BOUNDED (0, 1, 3) } },
  { "threaded, no floor",
    SW_DEMAND_NO_SCATTER,
    0.0,
    6,
    { BOUNDED (0, 1, 7), BOUNDED (0, 1, 14), BOUNDED (1, 2, 21), BOUNDED (2, 3, 28),
      BOUNDED (3, 4, 35), BOUNDED (4, 5, 42) } },
  { "threaded, floor",
    SW_DEMAND_ANSWERED,
    0.5,
    6,
    { BOUNDED (0, 1, 7), BOUNDED (0, 1, 14), BOUNDED (1, 2, 21), BOUNDED (2, 3, 28),
      BOUNDED (3, 4, 35), BOUNDED (4, 5, 42) } },
  { "acid between passes",
    SW_DEMAND_ANSWERED,
    1.0,
    5,
    { OPEN_BELOW (0, 1), OPEN_BELOW (0, 2), BOUNDED (0, 1, 3), OPEN_BELOW (1, 4),
      OPEN_BELOW (1, 5) } },
  { "falling",
    SW_DEMAND_FALLING,
    1.0,
    5,
    { BOUNDED (4, 5, 1), BOUNDED (3, 4, 2), BOUNDED (2, 3, 3), BOUNDED (1, 2, 4),
      BOUNDED (0, 1, 5) } },
};

static void
test_refusal (gconstpointer data)
{
  const RefusalRow *row = data;
  SwDemand demand;

  g_assert_cmpint (sw_demand_fit (row->points, row->n, row->floor, &demand), ==, row->code);
  g_assert_cmpint (demand.code, ==, row->code);
}

/* ---- the floor ---- */

typedef struct
{
  const char *name;
  double floor;
  gboolean at_floor;
  double intercept, slope, sigma;
} FloorRow;

static const FloorRow floor_rows[] = {
  { "none", 0.0, FALSE, -3.51619487380855, 0.114984185433671, 0.554918 },
  { "below the fit", 0.5, FALSE, -3.51619487380855, 0.114984185433671, 0.554918 },
  { "one drop", 1.0, TRUE, -3.59918156847, 0.114815557020, 1.0 },
};

static void
test_floor (gconstpointer data)
{
  const FloorRow *row = data;
  Series series;
  SwDemand demand;

  series_load_drops (&series, FALSE);
  g_assert_cmpint (sw_demand_fit (series.points, series.data.n, row->floor, &demand), ==,
                   SW_DEMAND_ANSWERED);
  g_assert_true (demand.at_floor == row->at_floor);
  sw_assert_close (demand.fit.beta[0], row->intercept, 1e-9);
  sw_assert_close (demand.fit.beta[1], row->slope, 1e-9);
  sw_assert_close (demand.fit.sigma, row->sigma, 1e-6);
}

/* ---- risk and due day ---- */

static void
test_risk (void)
{
  Series series;
  SwDemand demand;
  double upper;

  series_load_drops (&series, FALSE);
  sw_demand_fit (series.points, series.data.n, 0.0, &demand);
  sw_assert_close (sw_demand_risk (&demand, 1.0, 191.0, 20.0, &upper), .00254878222412, 1e-7);
  sw_assert_close (upper, .03687319283, 1e-7);
}

static void
test_due (void)
{
  Series series;
  SwDemand demand;

  series_load_drops (&series, FALSE);
  sw_demand_fit (series.points, series.data.n, 0.0, &demand);
  sw_assert_close (sw_demand_due (&demand, 1.0, 20.0, 0.10, 170.0, 1000.0, TRUE), 198.331961713,
                   1e-9);
  sw_assert_close (sw_demand_due (&demand, 1.0, 20.0, 0.10, 170.0, 1000.0, FALSE), 193.881678523,
                   1e-9);
  sw_assert_close (sw_demand_due (&demand, 1.0, 20.0, 0.10, 300.0, 1000.0, FALSE), 300.0, 0.0);
  g_assert_true (isinf (sw_demand_due (&demand, 1.0, 20.0, 0.10, 170.0, 180.0, FALSE)));
}

/* ---- properties ---- */

/* Another unit of x or of the amounts changes nothing but units. */
static void
test_units (void)
{
  const double days = 24.0, drops = 0.0031;
  Series series;
  SwDemand demand, scaled;

  series_load_drops (&series, TRUE);
  sw_demand_fit (series.points, series.data.n, 1.0, &demand);
  for (gsize i = 0; i < series.data.n; i++)
    {
      series.points[i].x *= days;
      series.points[i].demand.low *= drops;
      series.points[i].demand.high *= drops;
    }
  sw_demand_fit (series.points, series.data.n, drops, &scaled);
  sw_assert_close (scaled.fit.beta[0], demand.fit.beta[0] * drops, 1e-10);
  sw_assert_close (scaled.fit.beta[1], demand.fit.beta[1] * drops / days, 1e-10);
  sw_assert_close (scaled.fit.log_likelihood, demand.fit.log_likelihood, 1e-12);
  sw_assert_close (sw_demand_due (&scaled, 1.0, 20.0 * drops, 0.1, 170.0 * days, 1e6, FALSE),
                   days * sw_demand_due (&demand, 1.0, 20.0, 0.1, 170.0, 1e5, FALSE), 1e-9);
}

/* The likelihood at the ends of the profile interval is lower by half of chi-squared's 0.90
 * quantile (2.7055, any table), fitted here by a scan that knows nothing of Newton. */
static double
scan_profile (const Series *series, double slope)
{
  double best = -INFINITY;

  for (double beta0 = -9.0; beta0 < 3.0; beta0 += 0.0005)
    {
      const double beta[] = { beta0, slope };

      best = MAX (best, sw_censored_log_likelihood (&series->data, beta, 1.0));
    }
  return best;
}

static void
test_profile (void)
{
  Series series;
  SwDemand demand;
  SwInterval profile, wald;

  series_load_drops (&series, FALSE);
  sw_demand_fit (series.points, series.data.n, 1.0, &demand);
  profile = sw_demand_rate_interval (series.points, series.data.n, &demand);
  wald = sw_demand_rate_wald (&demand);
  sw_assert_close (demand.fit.log_likelihood - scan_profile (&series, profile.low), 0.5 * 2.7055,
                   1e-4);
  sw_assert_close (demand.fit.log_likelihood - scan_profile (&series, profile.high), 0.5 * 2.7055,
                   1e-4);
  sw_assert_close (profile.low, wald.low, 0.02);
  sw_assert_close (profile.high, wald.high, 0.02);
}

/* By hand from R's covariance of the first fit: slope -+ z(0.95) sqrt (8.27694749569e-6), and the
 * variance of the line at day 191. */
static void
test_uncertainty (void)
{
  Series series;
  SwDemand demand;
  SwInterval wald;
  double u;

  series_load_drops (&series, FALSE);
  sw_demand_fit (series.points, series.data.n, 0.0, &demand);
  wald = sw_demand_rate_wald (&demand);
  sw_assert_close (wald.high, 0.114984185433671 + 1.6448536269514722 * 2.87696845581e-3, 1e-8);
  sw_assert_close (wald.low, 0.114984185433671 - 1.6448536269514722 * 2.87696845581e-3, 1e-8);
  sw_assert_close (sw_demand_at (&demand, 1.0, 191.0, &u),
                   -3.51619487380855 + 191.0 * 0.114984185433671, 1e-9);
  sw_assert_close (
      u * u, .0928243768562 - 2.0 * 191.0 * 7.70289532060e-4 + 191.0 * 191.0 * 8.27694749569e-6,
      1e-7);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reference/demand/refusal", refusal_rows, test_refusal);
  SW_TEST_ROWS ("/reference/demand/floor", floor_rows, test_floor);
  g_test_add_func ("/reference/demand/risk", test_risk);
  g_test_add_func ("/reference/demand/due", test_due);
  g_test_add_func ("/reference/demand/uncertainty", test_uncertainty);
  g_test_add_func ("/reference/demand/units", test_units);
  g_test_add_func ("/reference/demand/profile", test_profile);
  return g_test_run ();
}
