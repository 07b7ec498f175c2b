/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units a person may type, and their exact factors to the unit the code uses (2.12).
 *
 * Structs in code use mL, L, mmol/L, degC, s, min, days as their names say; the file keeps SI.
 * Factors: exact definitions (NIST SP 811; international yard and pound agreement; UK gallon).
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  SW_UNIT_KIND_NONE, /* a count or a ratio */
  SW_UNIT_KIND_VOLUME,
  SW_UNIT_KIND_MASS,
  SW_UNIT_KIND_TEMPERATURE,
  SW_UNIT_KIND_PRESSURE,
  SW_UNIT_KIND_AMOUNT,        /* mol, mmol */
  SW_UNIT_KIND_CONCENTRATION, /* mol/L, mmol/mL, mmol/L */
  SW_UNIT_KIND_DENSITY,
  SW_UNIT_KIND_TIME,
  SW_UNIT_KIND_DOSE_RATE /* mL per L of solvent */
} SwUnitKind;

typedef enum
{
  SW_UNIT_NONE,
  SW_UNIT_STEP, /* drops, or the method's increment */
  SW_UNIT_PERCENT,
  SW_UNIT_MICROLITRE,
  SW_UNIT_ML,
  SW_UNIT_LITRE,
  SW_UNIT_M3,
  SW_UNIT_US_GALLON,
  SW_UNIT_US_FLUID_OUNCE,
  SW_UNIT_IMPERIAL_GALLON,
  SW_UNIT_MG,
  SW_UNIT_GRAM,
  SW_UNIT_KG,
  SW_UNIT_POUND,
  SW_UNIT_CELSIUS,
  SW_UNIT_FAHRENHEIT,
  SW_UNIT_KELVIN,
  SW_UNIT_PASCAL,
  SW_UNIT_KILOPASCAL,
  SW_UNIT_MBAR,
  SW_UNIT_TORR,
  SW_UNIT_MOL,
  SW_UNIT_MMOL,
  SW_UNIT_MMOL_PER_L,
  SW_UNIT_MMOL_PER_ML, /* = mol/L */
  SW_UNIT_MOL_PER_L,
  SW_UNIT_G_PER_ML,
  SW_UNIT_KG_PER_M3,
  SW_UNIT_SECOND,
  SW_UNIT_MINUTE,
  SW_UNIT_HOUR,
  SW_UNIT_DAY,
  SW_UNIT_ML_PER_L,
  SW_N_UNITS
} SwUnit;

SwUnitKind sw_unit_get_kind (SwUnit unit);

/* The symbol as typed and printed without translation: "mL", "US gal", "degC"; "" for none. */
const char *sw_unit_get_symbol (SwUnit unit);

/* Finds a unit by symbol (exact, then ignoring case; also the degree and micro signs and "l" for
 * litre). FALSE when there is none. */
gboolean sw_unit_parse (const char *symbol, SwUnit *unit);

/* Converts between two units of the same kind; a programmer's mistake when they differ in kind. */
double sw_unit_convert (double value, SwUnit from, SwUnit to);

/* To and from the SI unit of the kind (m3, kg, K, Pa, mol, mol/m3, kg/m3, s, 1). */
double sw_unit_to_si (double value, SwUnit unit);
double sw_unit_from_si (double value, SwUnit unit);

G_END_DECLS
