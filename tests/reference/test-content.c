/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contents and molar masses against published figures and identities. */
#include "calc/content.h"
#include "support/support.h"

/* ---- molar masses ---- */

/* CIAAW, standard atomic weights 2021, conventional values. */
#define H 1.008
#define C 12.011
#define N 14.007
#define O 15.999
#define NA 22.98976928
#define S 32.06
#define CL 35.45
#define K 39.0983

typedef struct
{
  const char *name;
  const char *source;
  double actual;
  double expected;
  double tolerance; /* absolute, g/mol */
} MassRow;

/* clang-format off */
static const MassRow mass_rows[] = {
  { "HCl", "CIAAW 2021", SW_MOLAR_MASS_HCL, H + CL, 0.0005 },
  { "NaOH", "CIAAW 2021", SW_MOLAR_MASS_NAOH, NA + O + H, 0.0005 },
  { "KOH", "CIAAW 2021", SW_MOLAR_MASS_KOH, K + O + H, 0.0005 },
  { "H2SO4", "CIAAW 2021", SW_MOLAR_MASS_H2SO4, 2 * H + S + 4 * O, 0.0005 },
  { "acetic acid", "CIAAW 2021, C2H4O2", SW_MOLAR_MASS_ACETIC_ACID, 2 * C + 4 * H + 2 * O, 0.0005 },
  { "triethanolamine", "CIAAW 2021, C6H15NO3", SW_MOLAR_MASS_TRIETHANOLAMINE, 6 * C + 15 * H + N + 3 * O, 0.001 },
  { "HCl, 1 N", "pharmacopoeial equivalent, mg per mL of 1 N (read)", SW_MOLAR_MASS_HCL, 36.46, 0.005 },
  { "NaOH, 1 N", "pharmacopoeial equivalent, mg per mL of 1 N (read)", SW_MOLAR_MASS_NAOH, 40.00, 0.005 },
  { "triethanolamine, 1 N", "pharmacopoeial equivalent, mg per mL of 1 N (read)", SW_MOLAR_MASS_TRIETHANOLAMINE, 149.2, 0.05 },
  { "KOH, acid number", "ASTM D974/D664 factor 56.1 (from memory)", SW_MOLAR_MASS_KOH, 56.1, 0.05 },
  { "acetic acid, acidity", "ASTM D1613 factor 6.005 (from memory)", SW_MOLAR_MASS_ACETIC_ACID, 60.05, 0.005 },
};
/* clang-format on */

static void
test_mass (gconstpointer data)
{
  const MassRow *row = data;

  g_assert_cmpfloat (fabs (row->actual - row->expected), <=, row->tolerance);
}

/* ---- titrations ---- */

/* OpenStax, Chemistry 2e, 4.5: 35.23 mL of 0.250 M NaOH neutralise 50.00 mL of HCl: 0.176 M (read).
 * As steps of 1 mL. */
static void
test_openstax_titration (void)
{
  double q;

  g_assert_true (sw_content_per_step (1, 0.250, 50.00, &q, NULL));
  sw_assert_close (35.23 * q / 1000, 0.176, 0.0005 / 0.176);
}

/* OpenStax, Chemistry 2e, 3.3: 0.850 L of 5.00 M diluted to 1.80 L: 2.36 M (read). Dilution is one
 * step of the stock in the final volume; in mL, as the ratio alone counts. */
static void
test_openstax_dilution (void)
{
  double q;

  g_assert_true (sw_content_per_step (0.850, 5.00, 1.80, &q, NULL));
  sw_assert_close (q / 1000, 2.36, 0.005 / 2.36);
}

/* The same dilution by volume: 0.850 in 1.80 is 472 mL/L. */
static void
test_product_per_litre (void)
{
  double ml_l;

  g_assert_true (sw_content_per_step_product (0.850, 1, 1.80, &ml_l, NULL));
  sw_assert_close (ml_l * 5.00 / 1000, 2.36, 0.005 / 2.36);
}

/* Identity: 0.10 mg KOH/g at 0.780 g/mL is 1.3902 mmol/L (0.10 * 780 / 56.1053). */
static void
test_acid_number_identity (void)
{
  double an;

  g_assert_true (sw_content_as_acid_number (1.3902, 0.780, &an, NULL));
  sw_assert_close (an, 0.10, 0.00005 / 1.3902);
}

/* Both ways to an acid number agree: V mL of N on W g is V N / (W/rho) mmol/mL. */
static void
test_acid_number_both_ways (void)
{
  double by_burette;
  double by_content;

  g_assert_true (sw_acid_number (2.60, 0.10, 0.1, 20, &by_burette, NULL));
  g_assert_true (
      sw_content_as_acid_number (2.5 * 0.1 / (20 / 0.780) * 1000, 0.780, &by_content, NULL));
  sw_assert_close (by_burette, by_content, 1e-12);
  /* ASTM D974 form, factor 56.1 (from memory): 2.50 * 0.1 * 56.1 / 20. */
  sw_assert_close (by_burette, 2.50 * 0.1 * 56.1 / 20, 0.05 / 56.1);
}

/* ASTM D2942 (from memory): 1.00 mL of 0.1 N on 10 g is 0.040 % NaOH; and the molar mass says so
 * too. */
static void
test_acceptance (void)
{
  double percent;

  g_assert_true (sw_acid_acceptance (26.00, 25.00, 0.1, 10, &percent, NULL));
  sw_assert_close (percent, 0.040, 0.0005);
  /* 100 % * 0.1 mmol * 40.00 mg/mmol (pharmacopoeial equivalent) / 10 000 mg. */
  sw_assert_close (percent, 100 * 0.1 * 40.00 / 10000, 2e-4);
}

/* House identity (worked by hand): 0.1 mmol in 50 mL is 2.0 mmol/L, 72.9 mg HCl/L. */
static void
test_caustic_as_hcl (void)
{
  double q;

  g_assert_true (sw_content_per_step (0.1, 1, 50, &q, NULL));
  sw_assert_close (q, 2.0, 1e-12);
  sw_assert_close (sw_content_as_hcl_mg_l (q), 72.9, 0.05 / 72.9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reference/molar-mass", mass_rows, test_mass);
  g_test_add_func ("/reference/content/OpenStax-titration", test_openstax_titration);
  g_test_add_func ("/reference/content/OpenStax-dilution", test_openstax_dilution);
  g_test_add_func ("/reference/content/product-per-litre", test_product_per_litre);
  g_test_add_func ("/reference/content/acid-number-identity", test_acid_number_identity);
  g_test_add_func ("/reference/content/acid-number-both-ways", test_acid_number_both_ways);
  g_test_add_func ("/reference/content/acid-acceptance", test_acceptance);
  g_test_add_func ("/reference/content/caustic-as-HCl", test_caustic_as_hcl);
  return g_test_run ();
}
