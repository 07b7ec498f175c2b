/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dropper calibration: what is refused, and how the parts combine. Published figures are in
 * tests/reference. */
#include "calc/calibration.h"
#include "support/support.h"

typedef struct
{
  const char *name;
  gboolean by_count;
  double values[4];
  gsize k;
  double drops;
  SwQuantity scale;
  SwFaultCode code;
  SwQuantityName quantity;
} ErrorRow;

#define WATER                                                                                      \
  {                                                                                                \
    0.998, 0.001, INFINITY                                                                         \
  }

/* clang-format off */
static const ErrorRow error_rows[] = {
  { "none", FALSE, { 0 }, 0, 20, WATER, SW_FAULT_RANGE, SW_QUANTITY_COUNT },
  { "one", FALSE, { 1 }, 1, 20, WATER, SW_FAULT_RANGE, SW_QUANTITY_COUNT },
  { "weighing 0", FALSE, { 1, 0 }, 2, 20, WATER, SW_FAULT_RANGE, SW_QUANTITY_WEIGHING },
  { "weighing negative", FALSE, { 1, -1 }, 2, 20, WATER, SW_FAULT_RANGE, SW_QUANTITY_WEIGHING },
  { "weighing NaN", FALSE, { 1, NAN }, 2, 20, WATER, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_WEIGHING },
  { "no drops", FALSE, { 1, 1 }, 2, 0, WATER, SW_FAULT_RANGE, SW_QUANTITY_DROP_COUNT },
  { "drops infinite", FALSE, { 1, 1 }, 2, INFINITY, WATER, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_DROP_COUNT },
  { "density unknown", FALSE, { 1, 1 }, 2, 20, { NAN, 0, INFINITY }, SW_FAULT_MISSING, SW_QUANTITY_DENSITY },
  { "density in kg/m3", FALSE, { 1, 1 }, 2, 20, { 998, 0, INFINITY }, SW_FAULT_RANGE, SW_QUANTITY_DENSITY },
  { "drop far too large", FALSE, { 999, 999 }, 2, 20, WATER, SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME },
  { "weighings that have nothing in common", FALSE, { 0.001, 2 }, 2, 20, WATER, SW_FAULT_RANGE, SW_QUANTITY_UNCERTAINTY },
  { "one count", TRUE, { 20 }, 1, 0, { 1, 0, INFINITY }, SW_FAULT_RANGE, SW_QUANTITY_COUNT },
  { "count 0", TRUE, { 20, 0 }, 2, 0, { 1, 0, INFINITY }, SW_FAULT_RANGE, SW_QUANTITY_DROP_COUNT },
  { "mark 0", TRUE, { 20, 21 }, 2, 0, { 0, 0, INFINITY }, SW_FAULT_RANGE, SW_QUANTITY_GRADUATION },
  { "mark unknown", TRUE, { 20, 21 }, 2, 0, { NAN, 0, INFINITY }, SW_FAULT_MISSING, SW_QUANTITY_GRADUATION },
};
/* clang-format on */

static void
test_error (gconstpointer data)
{
  const ErrorRow *row = data;
  g_autoptr (GError) error = NULL;
  SwCalibrationResult result = { .sd_ml = 77 };

  if (row->by_count)
    g_assert_false (sw_calibration_by_count (row->values, row->k, row->scale, &result, &error));
  else
    g_assert_false (
        sw_calibration_by_weight (row->values, row->k, row->drops, row->scale, &result, &error));
  sw_assert_fault (&error, row->code, row->quantity);
  g_assert_cmpfloat (result.sd_ml, ==, 77);
}

/* Weighings 1.0 and 1.2 g of 20 drops at 1 g/mL: 0.050 and 0.060 mL; mean 0.055, s = 0.01/sqrt(2),
 * u = s/sqrt(2) = 0.005 with one degree of freedom; by hand. */
static void
test_two (void)
{
  const double weighings[] = { 1.0, 1.2 };
  SwCalibrationResult result;

  g_assert_true (sw_calibration_by_weight (weighings, 2, 20, SW_EXACT (1), &result, NULL));
  sw_assert_close (result.drop_ml.value, 0.055, 1e-14);
  sw_assert_close (result.sd_ml, 0.01 / sqrt (2), 1e-13);
  sw_assert_close (result.drop_ml.u, 0.005, 1e-13);
  sw_assert_close (result.drop_ml.freedom, 1, 1e-13);
  g_assert_true (isnan (result.grubbs_critical));
  g_assert_false (result.outlier);
}

/* Without spread only the density's uncertainty is left, and with it its freedom. */
static void
test_no_spread (void)
{
  const double weighings[] = { 1.0, 1.0, 1.0 };
  SwCalibrationResult result;

  g_assert_true (
      sw_calibration_by_weight (weighings, 3, 20, (SwQuantity){ 1, 0.02, 5 }, &result, NULL));
  sw_assert_close (result.drop_ml.u, 0.05 * 0.02, 1e-13);
  sw_assert_close (result.drop_ml.freedom, 5, 1e-12);
  g_assert_cmpfloat (result.grubbs, ==, 0);
  g_assert_false (result.outlier);
}

/* 20 and 25 drops to the 1 mL mark: 0.05 and 0.04 mL, mean 0.045 (not 1/22.5). */
static void
test_count (void)
{
  const double counts[] = { 20, 25 };
  SwCalibrationResult result;

  g_assert_true (sw_calibration_by_count (counts, 2, SW_EXACT (1), &result, NULL));
  sw_assert_close (result.drop_ml.value, 0.045, 1e-14);
  sw_assert_close (result.drop_ml.u, 0.005, 1e-13);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/calibration/error", error_rows, test_error);
  g_test_add_func ("/calibration/two", test_two);
  g_test_add_func ("/calibration/no-spread", test_no_spread);
  g_test_add_func ("/calibration/count", test_count);
  return g_test_run ();
}
