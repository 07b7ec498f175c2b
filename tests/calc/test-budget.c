/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Budget bookkeeping. Published budgets are in tests/reference. */
#include "calc/budget.h"
#include "support/support.h"

static void
test_empty (void)
{
  SwBudget budget;

  sw_budget_init (&budget);
  sw_budget_finish (&budget);
  g_assert_cmpfloat (budget.u, ==, 0);
  g_assert_true (isinf (budget.freedom));
  g_assert_cmpuint (budget.dominant, ==, 0);
}

static void
test_exact_lines (void)
{
  SwBudget budget;

  sw_budget_init (&budget);
  sw_budget_add (&budget, SW_LINE_OTHER, SW_EXACT (3), SW_DISTRIBUTION_NORMAL, 5);
  sw_budget_finish (&budget);
  g_assert_cmpfloat (budget.u, ==, 0);
  g_assert_cmpfloat (budget.expanded, ==, 0);
  g_assert_cmpfloat (budget.lines[0].share, ==, 0);
}

/* 3-4-5: contributions 3 and 4 give u 5, shares 9/25 and 16/25; the larger dominates. */
static void
test_shares (void)
{
  SwBudget budget;

  sw_budget_init (&budget);
  sw_budget_add (&budget, SW_LINE_DROP_VOLUME, (SwQuantity){ 1, 1.5, INFINITY },
                 SW_DISTRIBUTION_NORMAL, -2);
  sw_budget_add (&budget, SW_LINE_END_POINT, (SwQuantity){ 1, 4, INFINITY },
                 SW_DISTRIBUTION_RECTANGULAR, 1);
  sw_budget_finish (&budget);
  sw_assert_close (budget.u, 5, 1e-15);
  sw_assert_close (budget.lines[0].contribution, 3, 1e-15);
  sw_assert_close (budget.lines[0].share, 0.36, 1e-14);
  sw_assert_close (budget.lines[1].share, 0.64, 1e-14);
  g_assert_cmpuint (budget.dominant, ==, 1);
  g_assert_true (isinf (budget.freedom));
}

/* One line alone keeps its own degrees of freedom. */
static void
test_freedom_of_one (void)
{
  SwBudget budget;

  sw_budget_init (&budget);
  sw_budget_add (&budget, SW_LINE_OTHER, (SwQuantity){ 1, 1e-80, 7 }, SW_DISTRIBUTION_NORMAL,
                 1e-30);
  sw_budget_finish (&budget);
  sw_assert_close (budget.freedom, 7, 1e-12);
  sw_assert_close (budget.expanded, budget.u * sw_coverage_95 (7), 1e-15);
}

/* Property: the t factor falls with the degrees of freedom to the normal one, and stays there. */
static void
test_coverage_falls (void)
{
  double normal = sw_coverage_95 (INFINITY);
  double last = INFINITY;

  for (double freedom = 0.5; freedom < 1e8; freedom *= 1.37)
    {
      double factor = sw_coverage_95 (freedom);

      g_assert_cmpfloat (factor, <, last);
      last = factor;
    }
  for (double freedom = 1e8; freedom < 1e300; freedom *= 1.37)
    sw_assert_close (sw_coverage_95 (freedom), normal, 2e-8);
}

/* A tiny type A line beside a large exact one has more effective degrees of freedom than any table.
 */
static void
test_freedom_beyond_tables (void)
{
  SwBudget budget;

  sw_budget_init (&budget);
  sw_budget_add (&budget, SW_LINE_DROP_VOLUME, (SwQuantity){ 1, 1e-5, 4 }, SW_DISTRIBUTION_NORMAL,
                 1);
  sw_budget_add (&budget, SW_LINE_SYSTEM_VOLUME, (SwQuantity){ 1, 1, INFINITY },
                 SW_DISTRIBUTION_NORMAL, 1);
  sw_budget_finish (&budget);
  sw_assert_close (budget.freedom, 4e20, 1e-6);
  sw_assert_close (budget.coverage, 1.959963984540054, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/budget/empty", test_empty);
  g_test_add_func ("/budget/exact-lines", test_exact_lines);
  g_test_add_func ("/budget/shares", test_shares);
  g_test_add_func ("/budget/freedom-of-one", test_freedom_of_one);
  g_test_add_func ("/budget/coverage-falls", test_coverage_falls);
  g_test_add_func ("/budget/freedom-beyond-tables", test_freedom_beyond_tables);
  return g_test_run ();
}
