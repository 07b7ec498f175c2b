/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Unit definitions. */
#include "calc/unit.h"
#include "support/support.h"

typedef struct
{
  const char *name;
  const char *source;
  double value;
  SwUnit from;
  SwUnit to;
  double expected;
  double tolerance; /* relative */
} Row;

#define SI "BIPM SI Brochure, 9th ed. 2019"
#define SP811 "NIST SP 811 (2008) appendix B"
#define EXACT 1e-15

/* clang-format off */
static const Row rows[] = {
  { "litre", SI, 1, SW_UNIT_LITRE, SW_UNIT_M3, 1e-3, EXACT },
  { "mL", SI, 1, SW_UNIT_ML, SW_UNIT_M3, 1e-6, EXACT },
  { "uL", SI, 1, SW_UNIT_MICROLITRE, SW_UNIT_M3, 1e-9, EXACT },
  { "L in mL", SI, 1, SW_UNIT_LITRE, SW_UNIT_ML, 1000, 0 },
  { "mL in L", SI, 420000, SW_UNIT_ML, SW_UNIT_LITRE, 420, 0 },
  { "US gallon", "231 in3, exact; NIST Handbook 44 appendix C", 1, SW_UNIT_US_GALLON, SW_UNIT_LITRE, 3.785411784, EXACT },
  { "US fluid ounce", "gallon / 128, exact; NIST Handbook 44 appendix C", 1, SW_UNIT_US_FLUID_OUNCE, SW_UNIT_ML, 29.5735295625, EXACT },
  { "US fluid ounces in a gallon", "NIST Handbook 44 appendix C", 1, SW_UNIT_US_GALLON, SW_UNIT_US_FLUID_OUNCE, 128, EXACT },
  { "imperial gallon", "4.54609 L, exact (UK)", 1, SW_UNIT_IMPERIAL_GALLON, SW_UNIT_LITRE, 4.54609, EXACT },
  { "pound", "international yard and pound agreement 1959", 1, SW_UNIT_POUND, SW_UNIT_KG, 0.45359237, EXACT },
  { "gram", SI, 1, SW_UNIT_GRAM, SW_UNIT_KG, 1e-3, EXACT },
  { "mg", SI, 1, SW_UNIT_MG, SW_UNIT_GRAM, 1e-3, EXACT },
  { "ice, degC", SI, 0, SW_UNIT_CELSIUS, SW_UNIT_KELVIN, 273.15, EXACT },
  { "ice, degF", SP811, 32, SW_UNIT_FAHRENHEIT, SW_UNIT_KELVIN, 273.15, EXACT },
  { "steam, degF", SP811, 212, SW_UNIT_FAHRENHEIT, SW_UNIT_CELSIUS, 100, 1e-14 },
  { "where both meet", SP811, -40, SW_UNIT_FAHRENHEIT, SW_UNIT_CELSIUS, -40, 1e-14 },
  { "kPa", SI, 1, SW_UNIT_KILOPASCAL, SW_UNIT_PASCAL, 1000, 0 },
  { "mbar", SP811, 1, SW_UNIT_MBAR, SW_UNIT_PASCAL, 100, 0 },
  { "Torr", "101325/760 Pa, exact", 760, SW_UNIT_TORR, SW_UNIT_PASCAL, 101325, EXACT },
  { "Torr, printed", SP811, 1, SW_UNIT_TORR, SW_UNIT_PASCAL, 133.3224, 0.00005 / 133.3224 },
  { "Pa in Torr", "1 Pa m3/s = 7.5006168 Torr L/s", 1000, SW_UNIT_PASCAL, SW_UNIT_TORR, 7.5006168, 1e-8 },
  { "Pa in mbar", "1 Pa m3/s = 10 mbar L/s", 1000, SW_UNIT_PASCAL, SW_UNIT_MBAR, 10, 0 },
  { "mmol", SI, 1, SW_UNIT_MMOL, SW_UNIT_MOL, 1e-3, EXACT },
  { "mol/L", SI, 1, SW_UNIT_MOL_PER_L, SW_UNIT_MMOL_PER_L, 1000, 0 },
  { "mmol/mL", SI, 1, SW_UNIT_MMOL_PER_ML, SW_UNIT_MMOL_PER_L, 1000, 0 },
  { "g/mL", SI, 0.78, SW_UNIT_G_PER_ML, SW_UNIT_KG_PER_M3, 780, EXACT },
  { "minute", SI, 1, SW_UNIT_MINUTE, SW_UNIT_SECOND, 60, 0 },
  { "hour", SI, 1, SW_UNIT_HOUR, SW_UNIT_SECOND, 3600, 0 },
  { "day", SI, 1, SW_UNIT_DAY, SW_UNIT_SECOND, 86400, 0 },
  { "percent", SI, 1, SW_UNIT_PERCENT, SW_UNIT_NONE, 0.01, EXACT },
};

/* Values in the unit and in the SI unit of its kind, for kinds with no second unit above. */
static const Row si_rows[] = {
  { "mL/L", SI, 1, SW_UNIT_ML_PER_L, SW_UNIT_ML_PER_L, 1e-3, EXACT },
  { "mmol/L is mol/m3", SI, 1, SW_UNIT_MMOL_PER_L, SW_UNIT_MMOL_PER_L, 1, 0 },
  { "m3", SI, 1, SW_UNIT_M3, SW_UNIT_M3, 1, 0 },
  { "kg", SI, 1, SW_UNIT_KG, SW_UNIT_KG, 1, 0 },
  { "K", SI, 1, SW_UNIT_KELVIN, SW_UNIT_KELVIN, 1, 0 },
  { "Pa", SI, 1, SW_UNIT_PASCAL, SW_UNIT_PASCAL, 1, 0 },
  { "mol", SI, 1, SW_UNIT_MOL, SW_UNIT_MOL, 1, 0 },
  { "kg/m3", SI, 1, SW_UNIT_KG_PER_M3, SW_UNIT_KG_PER_M3, 1, 0 },
  { "s", SI, 1, SW_UNIT_SECOND, SW_UNIT_SECOND, 1, 0 },
  { "step", "a count", 1, SW_UNIT_STEP, SW_UNIT_STEP, 1, 0 },
};
/* clang-format on */

static void
test_row (gconstpointer data)
{
  const Row *row = data;

  sw_assert_close (sw_unit_convert (row->value, row->from, row->to), row->expected, row->tolerance);
}

static void
test_si (gconstpointer data)
{
  const Row *row = data;

  sw_assert_close (sw_unit_to_si (row->value, row->from), row->expected, row->tolerance);
  sw_assert_close (sw_unit_from_si (row->expected, row->from), row->value, 1e-15);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reference/unit", rows, test_row);
  SW_TEST_ROWS ("/reference/si", si_rows, test_si);
  return g_test_run ();
}
