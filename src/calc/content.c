/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contents from steps and from burette volumes.
 *
 * Sources: definition of amount concentration; acid number after ASTM D974/D664 and acid acceptance
 * after ASTM D2942 (both formulas from memory; the halogenated-solvent standard is an analogy here,
 * no rule).
 */
#include "calc/content.h"

#include "calc/range.h"

/* mL per L, and mg per g. */
#define MILLI 1000.0

/* % w/w NaOH per mmol/g: 100 * 0.04000 g/mmol, as the standard prints it. */
#define ACCEPTANCE_FACTOR 4.000

/* A titrant volume, mL: a burette is refilled at most a few times. */
static gboolean
check_volume (SwQuantityName quantity, double volume_ml, GError **error)
{
  return sw_fault_check_range (quantity, volume_ml, 0.0, 1000.0, SW_UNIT_ML, error);
}

/* @larger must not be below @smaller: the difference is what was consumed. */
static gboolean
check_order (SwQuantityName quantity, double larger, double smaller, GError **error)
{
  SwFault fault = { .code = SW_FAULT_ORDER,
                    .quantity = quantity,
                    .value = larger,
                    .low = smaller,
                    .high = INFINITY,
                    .unit = SW_UNIT_ML };

  return larger >= smaller ? TRUE : sw_fault_set (error, &fault);
}

gboolean
sw_content_per_step (
    double step_ml, double titrant_mmol_ml, double sample_ml, double *mmol_l, GError **error)
{
  g_return_val_if_fail (mmol_l != NULL, FALSE);
  if (!sw_range_check (SW_QUANTITY_DROP_VOLUME, step_ml, error)
      || !sw_range_check (SW_QUANTITY_TITRANT_STRENGTH, titrant_mmol_ml, error)
      || !sw_range_check (SW_QUANTITY_SAMPLE_VOLUME, sample_ml, error))
    return FALSE;

  *mmol_l = MILLI * step_ml * titrant_mmol_ml / sample_ml;
  return TRUE;
}

gboolean
sw_content_per_step_product (
    double step_ml, double ratio, double sample_ml, double *ml_l, GError **error)
{
  g_return_val_if_fail (ml_l != NULL, FALSE);
  if (!sw_range_check (SW_QUANTITY_DROP_VOLUME, step_ml, error)
      || !sw_range_check (SW_QUANTITY_STRENGTH_RATIO, ratio, error)
      || !sw_range_check (SW_QUANTITY_SAMPLE_VOLUME, sample_ml, error))
    return FALSE;

  *ml_l = MILLI * step_ml * ratio / sample_ml;
  return TRUE;
}

double
sw_content_as_hcl_mg_l (double mmol_l)
{
  return mmol_l * SW_MOLAR_MASS_HCL;
}

gboolean
sw_content_as_acid_number (double mmol_l, double density_g_ml, double *mg_koh_g, GError **error)
{
  g_return_val_if_fail (mg_koh_g != NULL, FALSE);
  if (!sw_range_check (SW_QUANTITY_DENSITY, density_g_ml, error))
    return FALSE;

  /* mg/L over g/L: the density in g/mL times 1000. */
  *mg_koh_g = mmol_l * SW_MOLAR_MASS_KOH / (MILLI * density_g_ml);
  return TRUE;
}

gboolean
sw_acid_number (double sample_ml,
                double blank_ml,
                double normality,
                double weight_g,
                double *mg_koh_g,
                GError **error)
{
  g_return_val_if_fail (mg_koh_g != NULL, FALSE);
  if (!check_volume (SW_QUANTITY_READING_TOTAL, sample_ml, error)
      || !check_volume (SW_QUANTITY_BLANK, blank_ml, error)
      || !check_order (SW_QUANTITY_READING_TOTAL, sample_ml, blank_ml, error)
      || !sw_range_check (SW_QUANTITY_TITRANT_STRENGTH, normality, error)
      || !sw_range_check (SW_QUANTITY_WEIGHING, weight_g, error))
    return FALSE;

  *mg_koh_g = (sample_ml - blank_ml) * normality * SW_MOLAR_MASS_KOH / weight_g;
  return TRUE;
}

gboolean
sw_acid_acceptance (double blank_ml,
                    double sample_ml,
                    double normality,
                    double weight_g,
                    double *percent_naoh,
                    GError **error)
{
  g_return_val_if_fail (percent_naoh != NULL, FALSE);
  if (!check_volume (SW_QUANTITY_BLANK, blank_ml, error)
      || !check_volume (SW_QUANTITY_READING_TOTAL, sample_ml, error)
      || !check_order (SW_QUANTITY_BLANK, blank_ml, sample_ml, error)
      || !sw_range_check (SW_QUANTITY_TITRANT_STRENGTH, normality, error)
      || !sw_range_check (SW_QUANTITY_WEIGHING, weight_g, error))
    return FALSE;

  *percent_naoh = (blank_ml - sample_ml) * normality * ACCEPTANCE_FACTOR / weight_g;
  return TRUE;
}
