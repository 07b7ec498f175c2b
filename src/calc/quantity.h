/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two shapes every number in Stillwarden has: an interval and a value with its uncertainty.
 *
 * A counted end point is an interval: the truth lies in (low, high], and an end that nobody has
 * seen is infinite. A measured amount is a value with a standard uncertainty (GUM, JCGM 100:2008).
 */
#pragma once

#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

/* (low, high]; -INFINITY or +INFINITY where the end is open. low <= high always. */
typedef struct
{
  double low;
  double high;
} SwInterval;

/* value in the unit that the member's name says; u its standard uncertainty in the same unit (>=
 * 0); freedom the degrees of freedom of u, INFINITY where u is taken as known exactly. */
typedef struct
{
  double value;
  double u;
  double freedom;
} SwQuantity;

/* A quantity without uncertainty. */
#define SW_EXACT(number) ((SwQuantity){ .value = (number), .u = 0.0, .freedom = INFINITY })
/* "Nobody said": refused by every calculation that needs it. */
#define SW_UNKNOWN ((SwQuantity){ .value = NAN, .u = 0.0, .freedom = INFINITY })

static inline gboolean
sw_quantity_is_known (SwQuantity quantity)
{
  return !isnan (quantity.value);
}

G_END_DECLS
