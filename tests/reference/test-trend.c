/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trend, cycles, bench figures against values from outside. */
#include "calc/trend.h"
#include "support/support.h"

#include <math.h>

/* ---- Mann-Kendall ---- */

/* US EPA QA/G-9S, as quoted in a public help page. */
static void
test_epa (void)
{
  static const double y[] = { 10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15 };
  double x[11];
  SwTrend trend;

  for (int i = 0; i < 11; i++)
    x[i] = i;
  g_assert_true (sw_trend_compute (x, y, 11, &trend));
  sw_assert_close (trend.s, 22.0, 0.0);
  sw_assert_close (trend.variance, 155.3333, 1e-6);
  sw_assert_close (trend.z, 1.684949790, 1e-9);
  /* Phi (-1.684949790), scipy.stats.norm.sf */
  sw_assert_close (trend.p, 0.045999129579276314, 1e-9);
  g_assert_false (sw_trend_compute (x, y, 2, &trend));
}

/* Exact one-sided p, tables of the same guide (recomputed). The orders have the S asked for. */
typedef struct
{
  const char *name;
  gsize n;
  double y[10];
  double s, p;
} ExactRow;

static const ExactRow exact_rows[] = {
  { "n 5", 5, { 1, 2, 4, 5, 3 }, 6, .116667 },
  { "n 5 falling", 5, { 5, 4, 2, 1, 3 }, -6, .116667 },
  { "n 7", 7, { 2, 1, 4, 3, 7, 6, 5 }, 11, .068056 },
  { "n 10", 10, { 4, 1, 2, 6, 3, 10, 5, 9, 8, 7 }, 21, .036275 },
};

static void
test_exact (gconstpointer data)
{
  const ExactRow *row = data;
  double x[10];
  SwTrend trend;

  for (int i = 0; i < 10; i++)
    x[i] = i;
  sw_trend_compute (x, row->y, row->n, &trend);
  sw_assert_close (trend.s, row->s, 0.0);
  sw_assert_close (trend.p, row->p, 2e-5);
}

/* Sen's slope is the median of all pairs': by hand, 1 2 4 1 at 0 1 2 4 has slopes 1, 1.5, 0, 2,
 * -1/3, -1.5. */
static void
test_sen (void)
{
  static const double x[] = { 0, 1, 2, 4 };
  static const double y[] = { 1, 2, 4, 1 };
  SwTrend trend;

  sw_trend_compute (x, y, 4, &trend);
  sw_assert_close (trend.slope, 0.5, 1e-15);
}

/* ---- Spearman ---- */

/* scipy.stats.spearmanr; the exact p by itertools.permutations over scipy's own correlation. */
static void
test_spearman (void)
{
  static const double x[] = { 1, 2, 3, 4, 5, 6 };
  static const double y[] = { 2, 1, 4, 3, 6, 5 };
  static const double tied[] = { 1, 1, 4, 3, 3, 5 };
  static const double same[] = { 2, 2, 2, 2, 2, 2 };
  SwSpearman result;

  g_assert_true (sw_spearman_compute (x, y, 6, &result));
  sw_assert_close (result.rho, 0.8285714285714286, 1e-12);
  sw_assert_close (result.p, 42.0 / 720.0, 1e-12);
  g_assert_true (sw_spearman_compute (x, tied, 6, &result));
  sw_assert_close (result.rho, 0.7944613465542746, 1e-12);
  sw_assert_close (result.p, 48.0 / 720.0, 1e-12);
  g_assert_false (sw_spearman_compute (x, same, 6, &result));
  g_assert_false (sw_spearman_compute (x, y, 3, &result));
}

/* ---- cycles and bench ---- */

static void
test_cycles (void)
{
  SwCycle cycles[10];

  for (int i = 0; i < 10; i++)
    cycles[i] = (SwCycle){ 3.0, 10.0 - 0.5 * (i >= 7) * 10.0 };
  /* warn above 1.3: 2-calculations 2.6, simulated there */
  sw_assert_close (SW_CYCLES_WARN, 1.3, 0.0);
  g_assert_true (isnan (sw_cycles_ratio (cycles, 8)));
  sw_assert_close (sw_cycles_ratio (cycles, 10), 2.0, 1e-12);
  sw_assert_close (sw_cycles_ratio (cycles, 9), (9.0 / 20.0) / 0.3, 1e-12);
}

/* "Passes only, 95 % upper bound: n = 10 .2589, n = 20 .1391" (1 - 0.05^(1/n), recomputed). */
static void
test_passes (void)
{
  sw_assert_close (sw_passes_bound (0), 1.0, 0.0);
  sw_assert_close (sw_passes_bound (1), 0.95, 1e-12);
  sw_assert_close (sw_passes_bound (10), .2589, 2e-4);
  sw_assert_close (sw_passes_bound (20), .1391, 2e-4);
}

/* By hand: differences 1, -1, 2 give sqrt (6 / 6) = 1. */
static void
test_repeatability (void)
{
  static const double differences[] = { 1, -1, 2 };

  sw_assert_close (sw_repeatability (differences, 3), 1.0, 1e-15);
  g_assert_true (isnan (sw_repeatability (differences, 0)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reference/trend/epa", test_epa);
  SW_TEST_ROWS ("/reference/trend/exact", exact_rows, test_exact);
  g_test_add_func ("/reference/trend/sen", test_sen);
  g_test_add_func ("/reference/trend/spearman", test_spearman);
  g_test_add_func ("/reference/trend/cycles", test_cycles);
  g_test_add_func ("/reference/trend/passes", test_passes);
  g_test_add_func ("/reference/trend/repeatability", test_repeatability);
  return g_test_run ();
}
