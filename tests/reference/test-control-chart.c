/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charts for control against the NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2
 * to 6.3.2.4 (figures as quoted in public test files, recomputed); the limit of the EWMA chart
 * printed there comes from a rounded square root and is given here recomputed. */
#include "calc/control-chart.h"
#include "support/support.h"

#include <string.h>

#define HANDBOOK_TEN 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1

static void
test_individuals (void)
{
  static const double values[] = { HANDBOOK_TEN };
  SwIndividuals limits;

  g_assert_true (sw_individuals_compute (values, 10, &limits));
  sw_assert_close (limits.mean, 50.81, 1e-12);
  sw_assert_close (limits.mean_range, 1.87777778, 1e-8);
  sw_assert_close (limits.low, 45.81591017, 1e-9);
  sw_assert_close (limits.high, 55.80408983, 1e-9);
  sw_assert_close (limits.range_high, 6.1347, 1e-4);
  g_assert_false (sw_individuals_compute (values, 1, &limits));
}

static void
test_ewma (void)
{
  static const double values[]
      = { 52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, HANDBOOK_TEN };
  static const double expected[]
      = { 50.6,          49.52,         50.564,        50.1848,       50.15936,
          49.211552,     49.7480864,    49.85366048,   50.257562336,  50.3302936352,
          50.1112055446, 49.3578438812, 49.5204907169, 50.0543435018, 49.3780404513,
          49.9246283159, 50.7272398211, 51.2290678748, 51.9403475123, 51.9882432586 };
  double averages[20];
  gboolean beyond[20];

  sw_ewma_compute (values, 20, 0.3, 3.0, 50.0, 2.0539, SW_SIDE_HIGH, averages, beyond);
  for (int i = 0; i < 20; i++)
    {
      sw_assert_close (averages[i], expected[i], 1e-11);
      g_assert_false (beyond[i]);
    }
  sw_assert_close (sw_ewma_limit (0.3, 3.0, 50.0, 2.0539, SW_SIDE_LOW), 47.4115682619, 1e-11);
  sw_assert_close (sw_ewma_limit (0.3, 3.0, 50.0, 2.0539, SW_SIDE_HIGH), 52.5884317381, 1e-11);
}

static const double cusum_values[]
    = { 324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
        324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350 };

static void
test_cusum (void)
{
  static const double upper[20]
      = { [4] = 0.0325,   [12] = 3.0075, [13] = 4.94,    [14] = 7.4475, [15] = 10.63,
          [16] = 11.9875, [17] = 14.445, [18] = 16.0025, [19] = 19.035 };
  static const double lower[20] = {
    [1] = .0075, [3] = .3325, [6] = .5575, [7] = .715, [8] = .1725, [9] = .255, [10] = .3125
  };
  double sums[20];

  sw_cusum_compute (cusum_values, 20, 325.0, 0.3175, SW_SIDE_HIGH, sums);
  for (int i = 0; i < 20; i++)
    {
      g_assert_cmpfloat_with_epsilon (sums[i], upper[i], 1e-9);
      g_assert_true ((sums[i] > 4.1959) == (i >= 13));
    }
  sw_cusum_compute (cusum_values, 20, 325.0, 0.3175, SW_SIDE_LOW, sums);
  for (int i = 0; i < 20; i++)
    g_assert_cmpfloat_with_epsilon (sums[i], lower[i], 1e-9);
}

/* The same values with mean 325, sigma 0.635: beyond 3 sigma at 13 14 15 16 18 20, two of three
 * beyond 2 sigma at 14 to 20. The mirror image breaks the same on the other side. */
static void
test_rules (void)
{
  double mirrored[20];
  guint broken[20], low[20];

  for (int i = 0; i < 20; i++)
    mirrored[i] = 650.0 - cusum_values[i];
  sw_rules_apply (cusum_values, 20, 325.0, 0.635, SW_SIDE_HIGH, broken);
  sw_rules_apply (mirrored, 20, 325.0, 0.635, SW_SIDE_LOW, low);
  for (guint i = 0; i < 20; i++)
    {
      gboolean beyond = strchr ("\015\016\017\020\022\024", (int)i + 1) != NULL;

      g_assert_true (((broken[i] & SW_RULE_BEYOND) != 0) == beyond);
      g_assert_true (((broken[i] & SW_RULE_TWO_OF_THREE) != 0) == (i + 1 >= 14));
      g_assert_cmpuint (broken[i], ==, low[i]);
    }
  sw_rules_apply (cusum_values, 20, 325.0, 0.635, SW_SIDE_LOW, broken);
  for (guint i = 0; i < 20; i++)
    g_assert_cmpuint (broken[i], ==, 0);
}

/* Just inside and just outside of 2 and 3 sigma. */
static void
test_thresholds (void)
{
  static const double values[] = { 2.99, 0.0, 0.0, 3.005, 0.0, 0.0, 1.99, 2.005, 2.005 };
  guint broken[9];

  sw_rules_apply (values, 9, 0.0, 1.0, SW_SIDE_HIGH, broken);
  for (int i = 0; i < 9; i++)
    g_assert_cmpuint (broken[i], ==, i == 3 ? SW_RULE_BEYOND : (i == 8 ? SW_RULE_TWO_OF_THREE : 0));
}

/* The designs whose run lengths in control are known: EWMA (0.2, 2.962) 499.7351, one-sided CUSUM
 * (0.5, 4) 335.3676 (exact Markov chain, R package spc). */
static void
test_designs (void)
{
  sw_assert_close (SW_EWMA_LAMBDA, 0.2, 0.0);
  sw_assert_close (SW_EWMA_L, 2.962, 0.0);
  sw_assert_close (SW_CUSUM_K, 0.5, 0.0);
  sw_assert_close (SW_CUSUM_H, 4.0, 0.0);
}

/* Nine above the mean in a row: the ninth breaks the rule, the eighth does not, and one on the
 * other side begins anew. */
static void
test_nine (void)
{
  double values[20];
  guint broken[20];

  for (guint i = 0; i < 20; i++)
    values[i] = i == 9 ? -0.1 : 0.1;
  sw_rules_apply (values, 20, 0.0, 1.0, SW_SIDE_HIGH, broken);
  for (guint i = 0; i < 20; i++)
    g_assert_true ((broken[i] & SW_RULE_NINE) == (i == 8 || i >= 18 ? SW_RULE_NINE : 0));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reference/control-chart/individuals", test_individuals);
  g_test_add_func ("/reference/control-chart/ewma", test_ewma);
  g_test_add_func ("/reference/control-chart/cusum", test_cusum);
  g_test_add_func ("/reference/control-chart/rules", test_rules);
  g_test_add_func ("/reference/control-chart/nine", test_nine);
  g_test_add_func ("/reference/control-chart/thresholds", test_thresholds);
  g_test_add_func ("/reference/control-chart/designs", test_designs);
  return g_test_run ();
}
