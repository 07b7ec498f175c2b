/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers questions about demand lines, one line each, for demand-oracle.R.
 *
 *   floor n (low high x) * n c x_risk   ->   code at_floor beta0 beta1 sigma loglik cov00 cov01
 * cov11 cov02 cov12 cov22 risk upper due Ends may be -Inf and Inf. due: the 90 % bound at 10 %,
 * looked for from x_risk - 1000 on.
 */
#include "calc/demand.h"

#include <stdio.h>
#include <stdlib.h>

static double
read_number (void)
{
  char word[64];

  if (scanf ("%63s", word) != 1)
    exit (0);
  return g_ascii_strtod (word, NULL);
}

static void
answer (const SwDemand *demand, double c, double at)
{
  const SwCensoredFit *fit = &demand->fit;
  double upper;
  double risk = sw_demand_risk (demand, 1.0, at, c, &upper);

  printf ("%d %d %.17g %.17g %.17g %.17g", demand->code, demand->at_floor, fit->beta[0],
          fit->beta[1], fit->sigma, fit->log_likelihood);
  printf (" %.17g %.17g %.17g %.17g %.17g %.17g", fit->covariance[0][0], fit->covariance[0][1],
          fit->covariance[1][1], fit->covariance[0][2], fit->covariance[1][2],
          fit->covariance[2][2]);
  printf (" %.17g %.17g %.17g\n", risk, upper,
          sw_demand_due (demand, 1.0, c, 0.10, at - 1000.0, at + 1e7, FALSE));
}

int
main (void)
{
  for (;;)
    {
      double floor = read_number ();
      gsize n = (gsize)read_number ();
      g_autofree SwDemandPoint *points = g_new (SwDemandPoint, n);
      SwDemand demand;

      for (gsize i = 0; i < n; i++)
        {
          double low = read_number ();
          double high = read_number ();

          points[i] = (SwDemandPoint){ { low, high }, 1.0, read_number () };
        }
      double c = read_number ();
      double at = read_number ();
      sw_demand_fit (points, n, floor, &demand);
      answer (&demand, c, at);
    }
}
