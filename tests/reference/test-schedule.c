/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The staircase's long-run share of acid results, by simulation.
 *
 * With an acid share p, three straight passes have the probability (1 - p)^3; the interval then
 * grows by ln 1.25 or shrinks by ln 2. It neither grows nor shrinks in the long run where (1 - p)^3
 * ln 1.25 = (1 - (1 - p)^3) ln 2, so p = 1 - (ln 2 / (ln 2 + ln 1.25))^(1/3) = 0.08883 (renewal
 * argument; recomputed by hand, no publication).
 */
#include "calc/schedule.h"
#include "support/support.h"

#define TESTS 1000000
#define SEED 20261124

/* Any length is allowed, so that no limit disturbs the drift; 1e-300 to 1e300 days. */
static const SwScheduleLimits unlimited = { 1e-300, 1e300 };

/* Mean change of ln(interval) per test, for tests done exactly when due and an independent acid
 * share. */
static double
simulate_drift (double acid_share)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (SEED);
  double drift = 0;
  int credit = 0;

  for (int i = 0; i < TESTS; i++)
    {
      SwStaircase before = { 1, credit };
      SwScheduleFacts facts = { .acid = g_rand_double (random) < acid_share, .elapsed_days = 1 };
      SwStaircase after;
      SwScheduleReason reason;

      g_assert_true (sw_schedule_advance (&before, &facts, &unlimited, &after, &reason, NULL));
      drift += log (after.interval_days);
      credit = after.credit;
    }
  return drift / TESTS;
}

/* The standard deviation of one step is about 0.2: a million steps know the drift to 0.0002. A
 * constant off by 1 % moves it by 0.0005 at least. */
static void
test_balance (void)
{
  const double share = 0.08883;

  g_assert_cmpfloat (fabs (simulate_drift (share)), <, 0.0004);
}

static void
test_formula (void)
{
  double share = 1 - cbrt (log (2) / (log (2) + log (SW_STAIRCASE_FACTOR)));

  sw_assert_close (share, 0.08883, 0.000005 / 0.08883);
}

/* Below the balance the interval grows, above it shrinks. */
static void
test_direction (void)
{
  g_assert_cmpfloat (simulate_drift (0.08), >, 0.002);
  g_assert_cmpfloat (simulate_drift (0.10), <, -0.002);
}

/* The design's first days, by hand: 1, 1, 1, then 1.25 for three tests, then 1.5625. Tests at 0.8
 * of the interval count, at 0.79 they do not. */
static void
test_first_days (void)
{
  SwScheduleLimits limits = { 1, 7 };
  SwStaircase staircase;
  SwScheduleReason reason;

  g_assert_true (sw_schedule_advance (NULL, NULL, &limits, &staircase, &reason, NULL));
  sw_assert_close (staircase.interval_days, 1, 1e-15);
  for (int i = 0; i < 6; i++)
    {
      SwScheduleFacts counts = { .elapsed_days = 0.801 * staircase.interval_days };
      SwScheduleFacts early = { .elapsed_days = 0.799 * staircase.interval_days };

      g_assert_true (sw_schedule_advance (&staircase, &early, &limits, &staircase, &reason, NULL));
      g_assert_cmpint ((int)reason, ==, SW_SCHEDULE_EARLY);
      g_assert_true (sw_schedule_advance (&staircase, &counts, &limits, &staircase, &reason, NULL));
    }
  sw_assert_close (staircase.interval_days, 1.5625, 1e-15);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reference/staircase/first-days", test_first_days);
  g_test_add_func ("/reference/staircase/formula", test_formula);
  g_test_add_func ("/reference/staircase/balance", test_balance);
  g_test_add_func ("/reference/staircase/direction", test_direction);
  return g_test_run ();
}
