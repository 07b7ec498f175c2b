/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dropper calibration against published data sets, critical values and drops. */
#include "calc/calibration.h"
#include "support/support.h"

/* NIST StRD NumAcc1 (certified: mean 10000002, standard deviation 1), as weighings: times 2^-20 g
 * so that they are possible masses, 128 drops of a liquid of 1 g/mL. Powers of two keep every
 * figure exact. */
static void
test_numacc1 (void)
{
  const double unit = 1.0 / 1048576;
  const double weighings[] = { 10000001 * unit, 10000003 * unit, 10000002 * unit };
  SwCalibrationResult result;

  g_assert_true (sw_calibration_by_weight (weighings, 3, 128, SW_EXACT (1), &result, NULL));
  sw_assert_close (result.drop_ml.value * 128 / unit, 10000002, 1e-15);
  sw_assert_close (result.sd_ml * 128 / unit, 1, 1e-9);
  /* GUM 4.2.3: u of the mean is s / sqrt(n), with n - 1 degrees of freedom. */
  sw_assert_close (result.drop_ml.u * 128 / unit, 1 / sqrt (3), 1e-9);
  sw_assert_close (result.drop_ml.freedom, 2, 1e-9);
}

/* NIST/SEMATECH e-Handbook 1.3.5.17 (data of Tietjen and Moore 1972; quoted in several public test
 * suites): G = 2.4687 (cut, not rounded) for the last of eight. As weighings of 1000 drops. */
static void
test_nist_grubbs (void)
{
  const double weighings[] = { 199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57 };
  SwCalibrationResult result;

  g_assert_true (sw_calibration_by_weight (weighings, 8, 1000, SW_EXACT (1), &result, NULL));
  sw_assert_close (result.grubbs, 2.4687, 0.0001 / 2.4687);
  g_assert_true (result.outlier);
  g_assert_cmpuint (result.outlier_index, ==, 7);
}

typedef struct
{
  const char *name;
  const char *source;
  gsize k;
  double critical;
} GrubbsRow;

#define TABLE "chem.libretexts.org, Analytic References, appendix 7, alpha 0.05 (read)"

/* The table's row 7 (2.202) is a misprint of 2.020 and left out. */
static const GrubbsRow grubbs_rows[] = {
  { "3", TABLE, 3, 1.155 },   { "4", TABLE, 4, 1.481 },   { "5", TABLE, 5, 1.715 },
  { "6", TABLE, 6, 1.887 },   { "8", TABLE, 8, 2.126 },   { "9", TABLE, 9, 2.215 },
  { "10", TABLE, 10, 2.290 }, { "11", TABLE, 11, 2.355 }, { "12", TABLE, 12, 2.412 },
  { "13", TABLE, 13, 2.462 }, { "14", TABLE, 14, 2.507 }, { "15", TABLE, 15, 2.549 },
};

/* Printed tables round or cut: one unit in the third place. */
static void
test_grubbs_critical (gconstpointer data)
{
  const GrubbsRow *row = data;
  double weighings[15];
  SwCalibrationResult result;

  for (gsize i = 0; i < row->k; i++)
    weighings[i] = 1.0 + 0.01 * (double)(i % 3);
  g_assert_true (sw_calibration_by_weight (weighings, row->k, 20, SW_EXACT (1), &result, NULL));
  sw_assert_close (result.grubbs_critical, row->critical, 0.001 / row->critical);
}

typedef struct
{
  const char *name;
  const char *source;
  double mass_g;
  gboolean within;
} DropperRow;

#define PHARMACOPOEIA "Ph. Eur. 2.1.1, 20 drops of water weigh 1.000 +- 0.050 g (from memory)"

static const DropperRow dropper_rows[] = {
  { "nominal", PHARMACOPOEIA, 1.000, TRUE }, { "lower end", PHARMACOPOEIA, 0.9501, TRUE },
  { "below", PHARMACOPOEIA, 0.9499, FALSE }, { "upper end", PHARMACOPOEIA, 1.0499, TRUE },
  { "above", PHARMACOPOEIA, 1.0501, FALSE }, { "nothing", PHARMACOPOEIA, NAN, FALSE },
};

static void
test_dropper (gconstpointer data)
{
  const DropperRow *row = data;

  g_assert_true (sw_calibration_is_pharmacopoeial (row->mass_g) == row->within);
}

/* GNU units: a drop is 1/20 mL (read); USP 32 <1101>: a drop of water weighs 45 to 55 mg (read). A
 * dropper of the pharmacopoeia's mass, with water of 1 g/mL, must come out as exactly that. */
static void
test_drop_of_water (void)
{
  const double weighings[] = { 0.98, 1.02 };
  SwCalibrationResult result;

  g_assert_true (sw_calibration_by_weight (weighings, 2, 20, SW_EXACT (1), &result, NULL));
  sw_assert_close (result.drop_ml.value, 1 / 20.0, 1e-12);
  g_assert_cmpfloat (result.drop_ml.value, >=, 0.045);
  g_assert_cmpfloat (result.drop_ml.value, <=, 0.055);
}

/* An old handbook's counts for one volume (read): 60 drops of water, 146 of alcohol, 136 of
 * turpentine. By count of the fluid drachm of 3.6966911953125 mL (US fluid ounce / 8): water
 * 0.0616, alcohol 0.0253 mL. */
static void
test_handbook_counts (void)
{
  const double drachm_ml = 29.5735295625 / 8;
  const double water[] = { 60, 60 };
  const double alcohol[] = { 146, 146 };
  SwCalibrationResult a;
  SwCalibrationResult b;

  g_assert_true (sw_calibration_by_count (water, 2, SW_EXACT (drachm_ml), &a, NULL));
  g_assert_true (sw_calibration_by_count (alcohol, 2, SW_EXACT (drachm_ml), &b, NULL));
  sw_assert_close (a.drop_ml.value, 0.0616, 0.00005 / 0.0616);
  sw_assert_close (a.drop_ml.value / b.drop_ml.value, 146 / 60.0, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reference/grubbs-critical", grubbs_rows, test_grubbs_critical);
  SW_TEST_ROWS ("/reference/dropper", dropper_rows, test_dropper);
  g_test_add_func ("/reference/calibration/NumAcc1", test_numacc1);
  g_test_add_func ("/reference/calibration/NIST-Grubbs", test_nist_grubbs);
  g_test_add_func ("/reference/calibration/drop-of-water", test_drop_of_water);
  g_test_add_func ("/reference/calibration/handbook-counts", test_handbook_counts);
  return g_test_run ();
}
