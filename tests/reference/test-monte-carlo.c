/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Monte Carlo interval where the answer is known in closed form. */
#include "calc/monte_carlo.h"
#include "support/support.h"

#define TRIALS 1000000

typedef struct
{
  const char *name;
  const char *source;
  double width;      /* n - m, steps, about 100 */
  double blank;      /* steps */
  double system_u;   /* relative */
  double freedom;    /* of the system volume */
  double half_width; /* of the 95 % interval, in steps or relative */
  double tolerance;  /* relative; several standard errors of the quantile */
} Row;

/* clang-format off */
static const Row rows[] = {
  { "rectangle", "JCGM 101 9.2.3.1: 95 % of a rectangle is 0.95 of its width", 1, 0, 0, INFINITY, 0.475, 0.002 },
  { "two rectangles", "JCGM 101 6.4.5, triangle: 95 % ends at 1 - sqrt(0.05) of its half-width", 1, 1, 0, INFINITY, 1 - 0.2236068, 0.004 },
  { "normal", "normal quantile 1.959964", 1e-6, 0, 0.01, INFINITY, 1.959964, 0.008 },
  { "t, 4 degrees of freedom", "Student t 0.975: 2.776 (GUM table G.2: 2.78)", 1e-6, 0, 0.01, 4, 2.776, 0.012 },
};
/* clang-format on */

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  double middle = row->blank > 0 ? 100 + row->width / 2 - row->blank + 0.5 : 100 + row->width / 2;
  SwDoseInput input = { .step_ml = SW_EXACT (0.05),
                        .sample_ml = SW_EXACT (50),
                        .system_l = { 420, 420 * row->system_u, row->freedom },
                        .titrant = SW_UNKNOWN,
                        .product = SW_UNKNOWN,
                        .strength_ratio = SW_EXACT (1),
                        .caustic_mmol = SW_EXACT (0),
                        .acid_at = 100,
                        .pass_at = 100 + row->width,
                        .blank = row->blank };
  double unit = row->system_u > 0 ? middle * 420 * row->system_u : 420;
  SwInterval interval;

  g_assert_true (sw_dose_monte_carlo (&input, TRIALS, 20261124, &interval, NULL));
  sw_assert_close ((interval.high - interval.low) / 2 / unit, row->half_width, row->tolerance);
  /* Symmetric about the middle, to a hundredth of the unit. */
  g_assert_cmpfloat (fabs ((interval.high + interval.low) / 2 - middle * 420), <, 0.01 * unit);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reference/monte-carlo", rows, test_row);
  return g_test_run ();
}
