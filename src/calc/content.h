/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Net acid in steps to contents (2-calculations 2.2), and the molar masses used everywhere. */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

/* g/mol; CIAAW 2021 standard atomic weights, conventional values, recomputed
 * (references/chemistry.md). */
#define SW_MOLAR_MASS_HCL 36.458
#define SW_MOLAR_MASS_NAOH 39.9968
#define SW_MOLAR_MASS_KOH 56.1053
#define SW_MOLAR_MASS_H2SO4 98.072
#define SW_MOLAR_MASS_ACETIC_ACID 60.052
#define SW_MOLAR_MASS_TRIETHANOLAMINE 149.190

/* q = 1000 v_d b / V_s: what one step is worth, mmol/L. All > 0. */
gboolean sw_content_per_step (
    double step_ml, double titrant_mmol_ml, double sample_ml, double *mmol_l, GError **error);
/* 1000 v_d (b/s) / V_s: what one step is worth, mL of product per L of solvent. All > 0. */
gboolean sw_content_per_step_product (
    double step_ml, double ratio, double sample_ml, double *ml_l, GError **error);
double sw_content_as_hcl_mg_l (double mmol_l);
/* mg KOH per g of solvent; density in g/mL, > 0. */
gboolean
sw_content_as_acid_number (double mmol_l, double density_g_ml, double *mg_koh_g, GError **error);
/* Burette acid number: (sample - blank) mL * N mmol/mL * M(KOH) / W g. */
gboolean sw_acid_number (double sample_ml,
                         double blank_ml,
                         double normality,
                         double weight_g,
                         double *mg_koh_g,
                         GError **error);
/* Total acid acceptance by back-titration, % w/w as NaOH: (blank - sample) mL * N * 4.000 / W. */
gboolean sw_acid_acceptance (double blank_ml,
                             double sample_ml,
                             double normality,
                             double weight_g,
                             double *percent_naoh,
                             GError **error);

G_END_DECLS
