/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units and their factors.
 *
 * Invariant: a factor is a quotient of two whole numbers below 2^53, so that every definition is
 * held exactly and one conversion rounds at most three times. Temperatures have an offset that is
 * added before the factor.
 *
 * Sources: BIPM SI Brochure, 9th ed. 2019 (SI prefixes; degC = K - 273.15; min, h, d, L); NIST SP
 * 811 (2008) appendix B.8 (US gallon = 231 in3, US fluid ounce = gallon/128, imperial
 * gallon 4.54609 L, pound 0.45359237 kg, degF, Torr = 101325/760 Pa).
 */
#include "calc/unit.h"

#include <math.h>
#include <string.h>

typedef struct
{
  SwUnitKind kind;
  const char *symbol;
  double numerator;
  double denominator;
  double offset;
} Unit;

typedef struct
{
  const char *typed;
  SwUnit unit;
} Alias;

static const Unit units[SW_N_UNITS] = {
  [SW_UNIT_NONE] = { SW_UNIT_KIND_NONE, "", 1, 1, 0 },
  [SW_UNIT_STEP] = { SW_UNIT_KIND_NONE, "steps", 1, 1, 0 },
  [SW_UNIT_PERCENT] = { SW_UNIT_KIND_NONE, "%", 1, 100, 0 },
  [SW_UNIT_MICROLITRE] = { SW_UNIT_KIND_VOLUME, "uL", 1, 1000000000, 0 },
  [SW_UNIT_ML] = { SW_UNIT_KIND_VOLUME, "mL", 1, 1000000, 0 },
  [SW_UNIT_LITRE] = { SW_UNIT_KIND_VOLUME, "L", 1, 1000, 0 },
  [SW_UNIT_M3] = { SW_UNIT_KIND_VOLUME, "m3", 1, 1, 0 },
  [SW_UNIT_US_GALLON] = { SW_UNIT_KIND_VOLUME, "US gal", 3785411784, 1000000000000, 0 },
  [SW_UNIT_US_FLUID_OUNCE] = { SW_UNIT_KIND_VOLUME, "US fl oz", 473176473, 16000000000000, 0 },
  [SW_UNIT_IMPERIAL_GALLON] = { SW_UNIT_KIND_VOLUME, "imp gal", 454609, 100000000, 0 },
  [SW_UNIT_MG] = { SW_UNIT_KIND_MASS, "mg", 1, 1000000, 0 },
  [SW_UNIT_GRAM] = { SW_UNIT_KIND_MASS, "g", 1, 1000, 0 },
  [SW_UNIT_KG] = { SW_UNIT_KIND_MASS, "kg", 1, 1, 0 },
  [SW_UNIT_POUND] = { SW_UNIT_KIND_MASS, "lb", 45359237, 100000000, 0 },
  [SW_UNIT_CELSIUS] = { SW_UNIT_KIND_TEMPERATURE, "degC", 1, 1, 273.15 },
  [SW_UNIT_FAHRENHEIT] = { SW_UNIT_KIND_TEMPERATURE, "degF", 5, 9, 459.67 },
  [SW_UNIT_KELVIN] = { SW_UNIT_KIND_TEMPERATURE, "K", 1, 1, 0 },
  [SW_UNIT_PASCAL] = { SW_UNIT_KIND_PRESSURE, "Pa", 1, 1, 0 },
  [SW_UNIT_KILOPASCAL] = { SW_UNIT_KIND_PRESSURE, "kPa", 1000, 1, 0 },
  [SW_UNIT_MBAR] = { SW_UNIT_KIND_PRESSURE, "mbar", 100, 1, 0 },
  [SW_UNIT_TORR] = { SW_UNIT_KIND_PRESSURE, "Torr", 101325, 760, 0 },
  [SW_UNIT_MOL] = { SW_UNIT_KIND_AMOUNT, "mol", 1, 1, 0 },
  [SW_UNIT_MMOL] = { SW_UNIT_KIND_AMOUNT, "mmol", 1, 1000, 0 },
  [SW_UNIT_MMOL_PER_L] = { SW_UNIT_KIND_CONCENTRATION, "mmol/L", 1, 1, 0 },
  [SW_UNIT_MMOL_PER_ML] = { SW_UNIT_KIND_CONCENTRATION, "mmol/mL", 1000, 1, 0 },
  [SW_UNIT_MOL_PER_L] = { SW_UNIT_KIND_CONCENTRATION, "mol/L", 1000, 1, 0 },
  [SW_UNIT_G_PER_ML] = { SW_UNIT_KIND_DENSITY, "g/mL", 1000, 1, 0 },
  [SW_UNIT_KG_PER_M3] = { SW_UNIT_KIND_DENSITY, "kg/m3", 1, 1, 0 },
  [SW_UNIT_SECOND] = { SW_UNIT_KIND_TIME, "s", 1, 1, 0 },
  [SW_UNIT_MINUTE] = { SW_UNIT_KIND_TIME, "min", 60, 1, 0 },
  [SW_UNIT_HOUR] = { SW_UNIT_KIND_TIME, "h", 3600, 1, 0 },
  [SW_UNIT_DAY] = { SW_UNIT_KIND_TIME, "d", 86400, 1, 0 },
  [SW_UNIT_ML_PER_L] = { SW_UNIT_KIND_DOSE_RATE, "mL/L", 1, 1000, 0 },
};

/* Other spellings that people type; compared without case. No bare "gal" or "fl oz": a US and an
 * imperial gallon differ by a fifth, and guessing would dose wrongly. */
static const Alias aliases[] = {
  { "step", SW_UNIT_STEP },      { "drop", SW_UNIT_STEP },      { "drops", SW_UNIT_STEP },
  { "day", SW_UNIT_DAY },        { "days", SW_UNIT_DAY },       { "hour", SW_UNIT_HOUR },
  { "hours", SW_UNIT_HOUR },     { "minutes", SW_UNIT_MINUTE }, { "minute", SW_UNIT_MINUTE },
  { "seconds", SW_UNIT_SECOND }, { "second", SW_UNIT_SECOND },  { "C", SW_UNIT_CELSIUS },
  { "F", SW_UNIT_FAHRENHEIT },   { "hPa", SW_UNIT_MBAR },
};

/* Signs of print to the plain letters of the table. */
static const struct
{
  const char *sign;
  const char *plain;
} signs[] = {
  { "\302\260", "deg" },   /* degree sign */
  { "\302\265", "u" },     /* micro sign */
  { "\316\274", "u" },     /* Greek mu */
  { "\302\263", "3" },     /* superscript three */
  { "\302\240", " " },     /* no-break space */
  { "\342\200\257", " " }, /* narrow no-break space */
};

static gboolean
is_unit (SwUnit unit)
{
  return (int)unit >= 0 && unit < SW_N_UNITS;
}

static char *
normalise_symbol (const char *symbol)
{
  GString *text = g_string_new (symbol);

  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    g_string_replace (text, signs[i].sign, signs[i].plain, 0);
  return g_strstrip (g_string_free (text, FALSE));
}

static gboolean
find_symbol (const char *symbol, int (*compare) (const char *, const char *), SwUnit *unit)
{
  for (int i = 0; i < SW_N_UNITS; i++)
    if (compare (symbol, units[i].symbol) == 0)
      {
        *unit = (SwUnit)i;
        return TRUE;
      }
  return FALSE;
}

static gboolean
find_alias (const char *symbol, SwUnit *unit)
{
  for (gsize i = 0; i < G_N_ELEMENTS (aliases); i++)
    if (g_ascii_strcasecmp (symbol, aliases[i].typed) == 0)
      {
        *unit = aliases[i].unit;
        return TRUE;
      }
  return FALSE;
}

SwUnitKind
sw_unit_get_kind (SwUnit unit)
{
  g_return_val_if_fail (is_unit (unit), SW_UNIT_KIND_NONE);
  return units[unit].kind;
}

const char *
sw_unit_get_symbol (SwUnit unit)
{
  g_return_val_if_fail (is_unit (unit), "");
  return units[unit].symbol;
}

gboolean
sw_unit_parse (const char *symbol, SwUnit *unit)
{
  g_autofree char *plain = NULL;

  g_return_val_if_fail (symbol != NULL && unit != NULL, FALSE);
  if (!g_utf8_validate (symbol, -1, NULL))
    return FALSE;

  plain = normalise_symbol (symbol);
  return find_symbol (plain, strcmp, unit) || find_symbol (plain, g_ascii_strcasecmp, unit)
         || find_alias (plain, unit);
}

double
sw_unit_convert (double value, SwUnit from, SwUnit to)
{
  const Unit *a;
  const Unit *b;

  g_return_val_if_fail (is_unit (from) && is_unit (to), NAN);
  a = &units[from];
  b = &units[to];
  g_return_val_if_fail (a->kind == b->kind, NAN);
  if (from == to)
    return value;

  return (value + a->offset) * (a->numerator * b->denominator) / (a->denominator * b->numerator)
         - b->offset;
}

double
sw_unit_to_si (double value, SwUnit unit)
{
  g_return_val_if_fail (is_unit (unit), NAN);
  return (value + units[unit].offset) * units[unit].numerator / units[unit].denominator;
}

double
sw_unit_from_si (double value, SwUnit unit)
{
  g_return_val_if_fail (is_unit (unit), NAN);
  return value * units[unit].denominator / units[unit].numerator - units[unit].offset;
}
