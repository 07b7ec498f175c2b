/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units: symbols found as people type them, kinds, round trips. The definitions themselves are
 * checked in tests/reference. */
#include "calc/unit.h"
#include "support/support.h"

typedef struct
{
  const char *typed;
  SwUnit unit;
} ParseRow;

static const ParseRow parse_rows[] = {
  { "mL", SW_UNIT_ML },
  { "ml", SW_UNIT_ML },
  { "ML", SW_UNIT_ML },
  { "l", SW_UNIT_LITRE },
  { "uL", SW_UNIT_MICROLITRE },
  { "\302\265L", SW_UNIT_MICROLITRE },
  { "\316\274l", SW_UNIT_MICROLITRE },
  { "m\302\263", SW_UNIT_M3 },
  { "US gal", SW_UNIT_US_GALLON },
  { "us\302\240gal", SW_UNIT_US_GALLON },
  { "US fl oz", SW_UNIT_US_FLUID_OUNCE },
  { "imp gal", SW_UNIT_IMPERIAL_GALLON },
  { "mg", SW_UNIT_MG },
  { "G", SW_UNIT_GRAM },
  { "lb", SW_UNIT_POUND },
  { "\302\260C", SW_UNIT_CELSIUS },
  { "\302\260F", SW_UNIT_FAHRENHEIT },
  { "degC", SW_UNIT_CELSIUS },
  { "K", SW_UNIT_KELVIN },
  { "hPa", SW_UNIT_MBAR },
  { "torr", SW_UNIT_TORR },
  { "mol/l", SW_UNIT_MOL_PER_L },
  { "mmol/mL", SW_UNIT_MMOL_PER_ML },
  { "kg/m\302\263", SW_UNIT_KG_PER_M3 },
  { " drops ", SW_UNIT_STEP },
  { "d", SW_UNIT_DAY },
  { "%", SW_UNIT_PERCENT },
  { "", SW_UNIT_NONE },
};

static void
test_parse (gconstpointer data)
{
  const ParseRow *row = data;
  SwUnit unit = SW_N_UNITS;

  g_assert_true (sw_unit_parse (row->typed, &unit));
  g_assert_cmpint ((int)unit, ==, (int)row->unit);
}

/* A bare gallon or ounce is refused: US and imperial differ. */
static void
test_parse_unknown (void)
{
  const char *const unknown[] = { "gal", "gallon", "fl oz", "oz", "xyz", "mLL", "\377", "m L" };
  SwUnit unit = SW_N_UNITS;

  for (gsize i = 0; i < G_N_ELEMENTS (unknown); i++)
    g_assert_false (sw_unit_parse (unknown[i], &unit));
  g_assert_cmpint ((int)unit, ==, SW_N_UNITS);
}

static void
test_symbols (void)
{
  for (int i = 0; i < SW_N_UNITS; i++)
    {
      SwUnit back = SW_N_UNITS;

      g_assert_true (sw_unit_parse (sw_unit_get_symbol ((SwUnit)i), &back));
      g_assert_cmpint ((int)back, ==, i);
    }
}

/* Property: there and back between any two units of one kind, and through SI, is the same number.
 */
static void
test_round_trip (gconstpointer data)
{
  SwUnit from = (SwUnit)GPOINTER_TO_INT (data);
  g_autoptr (GRand) random = g_rand_new_with_seed (20261124);

  for (int i = 0; i < SW_N_UNITS; i++)
    {
      double value = g_rand_double_range (random, 1, 1000);
      SwUnit to = (SwUnit)i;

      if (sw_unit_get_kind (to) != sw_unit_get_kind (from))
        continue;
      sw_assert_close (sw_unit_convert (sw_unit_convert (value, from, to), to, from), value, 1e-12);
      sw_assert_close (sw_unit_from_si (sw_unit_to_si (value, from), from), value, 1e-12);
      sw_assert_close (sw_unit_from_si (sw_unit_to_si (value, from), to),
                       sw_unit_convert (value, from, to), 1e-12);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (parse_rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/unit/parse/%" G_GSIZE_FORMAT, i);
      g_test_add_data_func (path, &parse_rows[i], test_parse);
    }
  for (int i = 0; i < SW_N_UNITS; i++)
    {
      g_autofree char *path = g_strdup_printf ("/unit/round-trip/%d", i);
      g_test_add_data_func (path, GINT_TO_POINTER (i), test_round_trip);
    }
  g_test_add_func ("/unit/parse-unknown", test_parse_unknown);
  g_test_add_func ("/unit/symbols", test_symbols);
  return g_test_run ();
}
