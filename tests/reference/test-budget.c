/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The budget engine against published uncertainty budgets.
 *
 * Sources:
 *   EURACHEM  EURACHEM/CITAC Guide CG 4, 3rd ed. 2012, examples A2 and A3 (read in a reproduction;
 * the unrounded figures were recomputed with python3-uncertainties 3.1.6, the published ones agree)
 *   GUM       JCGM 100:2008, example H.1 (read in a reproduction), table G.2, 4.3.7, 4.3.9
 */
#include "calc/budget.h"
#include "support/support.h"

#define TRIANGLE(a) sw_uncertainty_of_tolerance (a, SW_DISTRIBUTION_TRIANGULAR)
#define RECTANGLE(a) sw_uncertainty_of_tolerance (a, SW_DISTRIBUTION_RECTANGULAR)

static void
add_factor (SwBudget *budget, double result, double value, double u, double power)
{
  SwQuantity quantity = { value, u, INFINITY };

  sw_budget_add (budget, SW_LINE_OTHER, quantity, SW_DISTRIBUTION_NORMAL, power * result / value);
}

/* EURACHEM A2: c(NaOH) = R 1000 m P / (M V). */
static void
test_a2 (void)
{
  double m = 0.3888;
  double p = 1.0;
  double molar = 204.2212;
  double v = 18.64;
  double c = 1000 * m * p / (molar * v);
  double u_v = hypot (TRIANGLE (0.03), 0.006);
  SwBudget budget;

  sw_budget_init (&budget);
  add_factor (&budget, c, v, u_v, -1);
  add_factor (&budget, c, 1.0, 0.0005, 1);
  add_factor (&budget, c, m, sqrt (2) * RECTANGLE (0.00015), 1);
  add_factor (&budget, c, p, RECTANGLE (0.0005), 1);
  add_factor (&budget, c, molar, 0.0037653, -1);
  sw_budget_finish (&budget);

  /* Published: 0.10214 mol/L, u 0.00010; to half a unit in the last place. */
  sw_assert_close (c, 0.10214, 0.000005 / 0.10214);
  sw_assert_close (budget.u, 0.00010, 0.000005 / 0.00010);
  /* Recomputed, unrounded. */
  sw_assert_close (c, 0.1021361597, 1e-9);
  sw_assert_close (budget.u, 1.0050072e-4, 1e-7);
  sw_assert_close (budget.lines[0].contribution, 7.47292e-5, 5e-6 / 7.47292);
  sw_assert_close (budget.lines[1].contribution, 5.10681e-5, 5e-6 / 5.10681);
  sw_assert_close (budget.lines[2].contribution, 3.21735e-5, 5e-6 / 3.21735);
  sw_assert_close (budget.lines[3].contribution, 2.94842e-5, 5e-6 / 2.94842);
  sw_assert_close (budget.lines[4].contribution, 1.88312e-6, 5e-6 / 1.88312);
  g_assert_cmpuint (budget.dominant, ==, 0);
}

/* EURACHEM A3: c(HCl) = R 1000 m P V2 / (V1 M V_HCl). The guide's summary prints u 0.00016; its own
 * inputs, propagated in full, give 0.00018: the unrounded figure is the reference. */
static void
test_a3 (void)
{
  double c = 1000 * 0.3888 * 14.89 / (18.64 * 204.2212 * 15);
  SwBudget budget;

  sw_budget_init (&budget);
  add_factor (&budget, c, 0.3888, sqrt (2) * RECTANGLE (0.00015), 1);
  add_factor (&budget, c, 1.0, RECTANGLE (0.0005), 1);
  add_factor (&budget, c, 204.2212, 0.0037653, -1);
  add_factor (&budget, c, 14.89, hypot (TRIANGLE (0.03), RECTANGLE (15 * 2.1e-4 * 4)), 1);
  add_factor (&budget, c, 18.64, hypot (TRIANGLE (0.03), RECTANGLE (19 * 2.1e-4 * 4)), -1);
  add_factor (&budget, c, 15, hypot (TRIANGLE (0.02), RECTANGLE (15 * 2.1e-4 * 4)), -1);
  add_factor (&budget, c, 1.0, 0.001, 1);
  sw_budget_finish (&budget);
  sw_assert_close (c, 0.1013871612, 1e-9);
  sw_assert_close (budget.u, 1.843387e-4, 1e-6);
}

/* GUM H.1, end gauge: contributions in nm with their degrees of freedom. */
static void
test_h1 (void)
{
  static const struct
  {
    double u_nm;
    double freedom;
  } lines[] = { { 25, 18 }, { 5.8, 24 }, { 3.9, 5 }, { 6.7, 8 }, { 2.88675, 50 }, { 16.59882, 2 } };
  SwBudget budget;

  sw_budget_init (&budget);
  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    sw_budget_add (&budget, SW_LINE_OTHER, (SwQuantity){ 0, lines[i].u_nm, lines[i].freedom },
                   SW_DISTRIBUTION_NORMAL, 1);
  sw_budget_finish (&budget);
  sw_assert_close (budget.u, 31.66377, 1e-6);
  sw_assert_close (budget.freedom, 16.75215, 1e-6);
  /* H.1.6 prints 32 nm and 16 (truncated). */
  sw_assert_close (budget.u, 32, 0.5 / 32);
  g_assert_cmpfloat (floor (budget.freedom), ==, 16);
}

typedef struct
{
  const char *name;
  const char *source;
  double freedom;
  double factor;
  double tolerance; /* absolute */
} FactorRow;

static const FactorRow factor_rows[] = {
  { "5", "GUM table G.2", 5, 2.57, 0.005 },
  { "10", "GUM table G.2", 10, 2.23, 0.005 },
  { "16", "GUM table G.2", 16, 2.12, 0.005 },
  { "20", "GUM table G.2", 20, 2.09, 0.005 },
  { "50", "GUM table G.2", 50, 2.01, 0.005 },
  { "10, exact", "Student t 0.975, recomputed with scipy 1.10", 10, 2.22813885198627, 1e-12 },
  { "normal", "GUM table G.1 and G.2", INFINITY, 1.960, 0.0005 },
};

static void
test_factor (gconstpointer data)
{
  const FactorRow *row = data;

  g_assert_cmpfloat (fabs (sw_coverage_95 (row->freedom) - row->factor), <=, row->tolerance);
}

/* GUM 4.3.7 note: a/sqrt(3) = 0.58 a; 4.3.9: a/sqrt(6) = 0.41 a; 4.3.4: half a 95 % interval
 * / 1.96. The squares are exact. */
static void
test_tolerance (void)
{
  double rectangle = sw_uncertainty_of_tolerance (3, SW_DISTRIBUTION_RECTANGULAR);
  double triangle = sw_uncertainty_of_tolerance (3, SW_DISTRIBUTION_TRIANGULAR);

  sw_assert_close (rectangle * rectangle, 9 / 3.0, 1e-14);
  sw_assert_close (triangle * triangle, 9 / 6.0, 1e-14);
  sw_assert_close (sw_uncertainty_of_tolerance (1.96, SW_DISTRIBUTION_NORMAL), 1, 1e-4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reference/t-factor", factor_rows, test_factor);
  g_test_add_func ("/reference/budget/EURACHEM-A2", test_a2);
  g_test_add_func ("/reference/budget/EURACHEM-A3", test_a3);
  g_test_add_func ("/reference/budget/GUM-H1", test_h1);
  g_test_add_func ("/reference/budget/tolerance", test_tolerance);
  return g_test_run ();
}
