/* SPDX-License-Identifier: GPL-3.0-or-later */
/* When the tests cannot say where the line is.
 *
 * After division by a (> 0) each test is an interval over t = x / a, and the line beta0 + beta1 *
 * t.
 *
 * Threaded: some line lies on or inside every interval; sigma then runs to 0, because in (delta,
 * tau) of censored.c that line is a direction in which no interval's probability ever falls.
 * (Touching is enough: an end that is touched keeps its half, the others rise to 1.) Such lines
 * exist exactly where the upper hull of the lows is nowhere above the lower hull of the highs: a
 * concave function below a convex one has a line between them.
 *
 * Rate unbounded: some line d(t), not 0 everywhere, is 0 at every bounded test, <= 0 at every
 * open-below and >= 0 at every open-above one: going along it for ever never lowers the likelihood.
 * Bounded tests at two different t exclude it; with all of them at one t0, d is +-(t - t0).
 */
#include "calc/demand-private.h"

#include <math.h>

/* Rounding of a hull between its corners. */
#define TOUCHING 1e-13

typedef struct
{
  double t, y;
} Corner;

static int
compare_corners (gconstpointer a, gconstpointer b)
{
  const Corner *one = a;
  const Corner *two = b;

  if (one->t != two->t)
    return one->t < two->t ? -1 : 1;
  return (one->y > two->y) - (one->y < two->y);
}

/* > 0 where c lies above the line from a to b. */
static double
get_turn (const Corner *a, const Corner *b, const Corner *c)
{
  return (b->t - a->t) * (c->y - a->y) - (b->y - a->y) * (c->t - a->t);
}

/* The lower hull of points sorted by t (Andrew's monotone chain), in place. The upper hull is that
 * of the negated ones. */
static void
make_lower_hull (GArray *points)
{
  guint n = 0;

  g_array_sort (points, compare_corners);
  for (guint i = 0; i < points->len; i++)
    {
      Corner corner = g_array_index (points, Corner, i);

      /* sorted by y too: of equal t the first is the lowest */
      if (n > 0 && g_array_index (points, Corner, n - 1).t == corner.t)
        continue;
      while (n > 1
             && get_turn (&g_array_index (points, Corner, n - 2),
                          &g_array_index (points, Corner, n - 1), &corner)
                    <= 0.0)
        n--;
      g_array_index (points, Corner, n++) = corner;
    }
  g_array_set_size (points, n);
}

/* The hull at @t; INFINITY outside of it. *at goes forward only. */
static double
get_hull_at (GArray *hull, double t, guint *at)
{
  const Corner *corners = (const Corner *)(void *)hull->data;

  if (hull->len == 0 || t < corners[0].t || t > corners[hull->len - 1].t)
    return INFINITY;
  while (*at + 1 < hull->len && corners[*at + 1].t < t)
    (*at)++;
  if (corners[*at].t == t || *at + 1 == hull->len)
    return corners[*at].y;

  const Corner *a = &corners[*at];
  const Corner *b = a + 1;
  return a->y + (b->y - a->y) * ((t - a->t) / (b->t - a->t));
}

/* Both hulls are straight between their corners: it is enough to look at those. @lows is negated.
 */
static gboolean
hulls_apart (GArray *lows, GArray *highs, GArray *corners_of)
{
  guint at_low = 0;
  guint at_high = 0;

  for (guint i = 0; i < corners_of->len; i++)
    {
      double t = g_array_index (corners_of, Corner, i).t;
      double low = -get_hull_at (lows, t, &at_low);
      double high = get_hull_at (highs, t, &at_high);

      if (low - high > TOUCHING * (fabs (low) + fabs (high)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
is_threaded (const SwDemandPoint *points, gsize n)
{
  g_autoptr (GArray) lows = g_array_new (FALSE, FALSE, sizeof (Corner));
  g_autoptr (GArray) highs = g_array_new (FALSE, FALSE, sizeof (Corner));

  for (gsize i = 0; i < n; i++)
    {
      double t = points[i].x / points[i].a;
      Corner low = { t, -points[i].demand.low / points[i].a };
      Corner high = { t, points[i].demand.high / points[i].a };

      if (!isinf (low.y))
        g_array_append_val (lows, low);
      if (!isinf (high.y))
        g_array_append_val (highs, high);
    }
  make_lower_hull (lows);
  make_lower_hull (highs);
  return hulls_apart (lows, highs, lows) && hulls_apart (lows, highs, highs);
}

/* ---- the rate ---- */

static gboolean
is_bounded (const SwDemandPoint *point)
{
  return !isinf (point->demand.low) && !isinf (point->demand.high);
}

/* Whether d = sign * (t - t0) is never on the wrong side of an open test. */
static gboolean
rises_for_ever (const SwDemandPoint *points, gsize n, double t0, double sign)
{
  for (gsize i = 0; i < n; i++)
    {
      double d = sign * (points[i].x / points[i].a - t0);

      if ((isinf (points[i].demand.low) && d > 0.0) || (isinf (points[i].demand.high) && d < 0.0))
        return FALSE;
    }
  return TRUE;
}

SwDemandCode
sw_demand_refusal (const SwDemandPoint *points, gsize n, gboolean *threaded)
{
  double t0 = NAN;
  gboolean two_places = FALSE;

  *threaded = FALSE;
  for (gsize i = 0; i < n; i++)
    if (is_bounded (&points[i]))
      {
        double t = points[i].x / points[i].a;

        two_places = two_places || (!isnan (t0) && t != t0);
        t0 = t;
      }
  if (isnan (t0))
    return SW_DEMAND_NO_ACID;
  if (n < SW_DEMAND_FEWEST)
    return SW_DEMAND_TOO_FEW;
  if (!two_places && (rises_for_ever (points, n, t0, 1.0) || rises_for_ever (points, n, t0, -1.0)))
    return SW_DEMAND_RATE_UNBOUNDED;
  *threaded = is_threaded (points, n);
  return SW_DEMAND_ANSWERED;
}
