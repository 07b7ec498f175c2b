/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the lines of a grid go: round values, and days, weeks, months and years of the reader's
 * calendar. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double first; /* a multiple of step, >= the low end */
  double step;  /* 1, 2 or 5 times a power of ten */
  guint n;      /* first + (n - 1) * step <= the high end */
} SwValueTicks;

/* At most @most (>= 2) ticks inside [low, high], low < high both finite, with a step of at least
 * @least_step (0 = any). */
void sw_value_ticks (double low, double high, guint most, double least_step, SwValueTicks *ticks);

/* Days or months between ticks; the other is 0. 7 and 14 days begin on a Monday, 12 months in
 * January. */
typedef struct
{
  int days;
  int months;
} SwTimeStep;

/* At most @most (>= 2) midnights of @zone inside [from, to], as gint64 UTC milliseconds; the finest
 * step that allows it. Empty where the calendar ends (years 1 to 9999). (transfer full) */
GArray *sw_time_ticks (gint64 from_ms, gint64 to_ms, guint most, GTimeZone *zone, SwTimeStep *step);

G_END_DECLS
