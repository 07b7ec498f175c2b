/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rate's interval by profile likelihood: every rate whose best fit is not worse than the best
 * of all by more than chi-squared allows. Unlike Wald's it need not be symmetric, and it may be
 * open.
 */
#include "calc/demand-private.h"

#include <math.h>

/* Half the 0.90 quantile of chi-squared with one degree of freedom (2.705543454095404). */
#define DROP 1.352771727047702
/* An end farther away than this many standard uncertainties is taken for open. */
#define FARTHEST 1e4

typedef struct
{
  const SwDemandPoint *points;
  gsize n;
  const SwDemand *demand;
} Profile;

/* How much worse the best fit with that rate is, less what is allowed: < 0 inside. */
static double
get_excess (const Profile *profile, double rate)
{
  g_auto (SwDemandData) data = { 0 };
  SwCensoredFit fit;
  double sigma = profile->demand->at_floor ? profile->demand->fit.sigma : NAN;

  sw_demand_data_init (&data, profile->points, profile->n, rate);
  if (!sw_censored_fit (&data.censored, sigma, NULL, NULL, &fit))
    return NAN;
  return profile->demand->fit.log_likelihood - fit.log_likelihood - DROP;
}

/* Between a rate inside and one outside. */
static double
find_end (const Profile *profile, double inside, double outside)
{
  for (int i = 0; i < 100; i++)
    {
      double middle = inside + 0.5 * (outside - inside);

      if (middle == inside || middle == outside || fabs (outside - inside) <= 1e-12 * fabs (middle))
        break;
      if (get_excess (profile, middle) < 0.0)
        inside = middle;
      else
        outside = middle;
    }
  return inside + 0.5 * (outside - inside);
}

static double
find_end_beside (const Profile *profile, double direction)
{
  double rate = profile->demand->fit.beta[1];
  double u = sqrt (profile->demand->fit.covariance[1][1]);
  double inside = rate;
  double away = 1.0;

  while (away < FARTHEST)
    {
      double tried = rate + direction * away * u;

      if (!(get_excess (profile, tried) < 0.0))
        return find_end (profile, inside, tried);
      inside = tried;
      away *= 1.6;
    }
  return direction * INFINITY;
}

SwInterval
sw_demand_rate_interval (const SwDemandPoint *points, gsize n, const SwDemand *demand)
{
  const Profile profile = { points, n, demand };

  g_return_val_if_fail (points != NULL && demand != NULL, ((SwInterval){ NAN, NAN }));
  return (SwInterval){ find_end_beside (&profile, -1.0), find_end_beside (&profile, 1.0) };
}
