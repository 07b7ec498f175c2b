/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dropper calibration (2-calculations 2.5): weighings or counts to the volume of one drop.
 *
 * Sources: GUM type A evaluation (JCGM 100 4.2); outlier warning by Grubbs' test (ISO
 * 5725-2:1994 7.3.4, critical value from Student t, alpha 5 % two-sided); pharmacopoeia dropper: 20
 * drops of water weigh 1.000 +- 0.050 g (Ph. Eur. 2.1.1, from memory).
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

typedef struct
{
  SwQuantity drop_ml; /* mean, u of the mean, degrees of freedom */
  double sd_ml;       /* spread between weighings, per drop */
  gboolean outlier;   /* Grubbs at 5 % */
  gsize outlier_index;
  double grubbs;          /* G of that weighing */
  double grubbs_critical; /* NAN for k < 3 */
} SwCalibrationResult;

/* From k >= 2 weighings (g) of @drops drops each and the liquid's density (g/mL). */
gboolean sw_calibration_by_weight (const double *weighings_g,
                                   gsize k,
                                   double drops,
                                   SwQuantity density_g_ml,
                                   SwCalibrationResult *result,
                                   GError **error);
/* From k >= 2 counts of the drops that fill @volume_ml. */
gboolean sw_calibration_by_count (const double *counts,
                                  gsize k,
                                  SwQuantity volume_ml,
                                  SwCalibrationResult *result,
                                  GError **error);
/* Whether a dropper delivers water as the pharmacopoeia's: 20 drops weigh 0.950 to 1.050 g. Says
 * nothing about another liquid. */
gboolean sw_calibration_is_pharmacopoeial (double mass_of_20_drops_g);

G_END_DECLS
