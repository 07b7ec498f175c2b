/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Monte Carlo: what is refused, and that a seed is an interval. Known distributions are in
 * tests/reference. */
#include "calc/monte_carlo.h"
#include "support/support.h"

static SwDoseInput
make_input (void)
{
  return (SwDoseInput){ .step_ml = { 0.05, 0.002, 9 },
                        .sample_ml = { 50, 0.3, INFINITY },
                        .system_l = { 420, 12, INFINITY },
                        .titrant = SW_UNKNOWN,
                        .product = SW_UNKNOWN,
                        .strength_ratio = SW_EXACT (1),
                        .caustic_mmol = SW_EXACT (0),
                        .acid_at = 2,
                        .pass_at = 3 };
}

static void
test_trials (void)
{
  SwDoseInput input = make_input ();
  g_autoptr (GError) error = NULL;
  SwInterval interval = { 77, 77 };

  g_assert_false (sw_dose_monte_carlo (&input, 999, 1, &interval, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_COUNT);
  g_assert_false (sw_dose_monte_carlo (&input, 20000000, 1, &interval, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_COUNT);
  g_assert_cmpfloat (interval.low, ==, 77);
}

static void
test_input (void)
{
  SwDoseInput input = make_input ();
  g_autoptr (GError) error = NULL;
  SwInterval interval;

  input.sample_ml.value = 0;
  g_assert_false (sw_dose_monte_carlo (&input, 1000, 1, &interval, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_SAMPLE_VOLUME);
}

static void
test_seed (void)
{
  SwDoseInput input = make_input ();
  SwInterval first;
  SwInterval again;
  SwInterval other;

  g_assert_true (sw_dose_monte_carlo (&input, 5000, 42, &first, NULL));
  g_assert_true (sw_dose_monte_carlo (&input, 5000, 42, &again, NULL));
  g_assert_true (sw_dose_monte_carlo (&input, 5000, 43, &other, NULL));
  g_assert_cmpfloat (first.low, ==, again.low);
  g_assert_cmpfloat (first.high, ==, again.high);
  g_assert_cmpfloat (first.low, !=, other.low);
}

/* The product itself as titrant: its strength cancels in every single draw. */
static void
test_product_is_titrant (void)
{
  SwDoseInput input = make_input ();
  SwInterval by_ratio;
  SwInterval by_both;

  input.step_ml = SW_EXACT (0.05);
  input.sample_ml = SW_EXACT (50);
  input.system_l = SW_EXACT (420);
  g_assert_true (sw_dose_monte_carlo (&input, 100000, 1, &by_ratio, NULL));
  input.titrant = (SwQuantity){ 7.5, 1.5, INFINITY };
  input.product = input.titrant;
  g_assert_true (sw_dose_monte_carlo (&input, 100000, 1, &by_both, NULL));
  sw_assert_close (by_both.low, by_ratio.low, 0.001);
  sw_assert_close (by_both.high, by_ratio.high, 0.001);
  g_assert_cmpfloat (by_both.high, <=, 1260.0000001);
}

/* One degree of freedom has no variance at all: the draws must stay positive and the ends finite.
 */
static void
test_one_freedom (void)
{
  SwDoseInput input = make_input ();
  SwInterval interval;

  input.sample_ml = (SwQuantity){ 50, 25, 1 };
  input.strength_ratio = (SwQuantity){ 1, 0.5, 1 };
  g_assert_true (sw_dose_monte_carlo (&input, 20000, 7, &interval, NULL));
  g_assert_cmpfloat (interval.low, >, 0);
  g_assert_cmpfloat (interval.low, <, interval.high);
  g_assert_true (isfinite (interval.high));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/monte-carlo/trials", test_trials);
  g_test_add_func ("/monte-carlo/input", test_input);
  g_test_add_func ("/monte-carlo/seed", test_seed);
  g_test_add_func ("/monte-carlo/product-is-titrant", test_product_is_titrant);
  g_test_add_func ("/monte-carlo/one-freedom", test_one_freedom);
  return g_test_run ();
}
