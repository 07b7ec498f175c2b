/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ticks on value and time axes. */
#include "charts/ticks.h"

#include <math.h>

#define MS_PER_DAY G_GINT64_CONSTANT (86400000)
#define DAYS_PER_MONTH 30.436875 /* Gregorian mean, 146097 days / 4800 months */

static const SwTimeStep steps[] = {
  { 1, 0 },   { 2, 0 },   { 7, 0 },    { 14, 0 },   { 0, 1 },    { 0, 2 },
  { 0, 3 },   { 0, 6 },   { 0, 12 },   { 0, 24 },   { 0, 60 },   { 0, 120 },
  { 0, 240 }, { 0, 600 }, { 0, 1200 }, { 0, 2400 }, { 0, 6000 }, { 0, 12000 },
};

/* The smallest of 1, 2, 5 times a power of ten that is not below @value > 0. */
static double
round_up_nicely (double value)
{
  const double power = pow (10.0, floor (log10 (value)));
  const double share = value / power;
  const double slack = 1.0 + 1e-9; /* 0.2 / 0.1 must not become 5 */

  if (share <= 1.0 * slack)
    return power;
  if (share <= 2.0 * slack)
    return 2.0 * power;
  return share <= 5.0 * slack ? 5.0 * power : 10.0 * power;
}

static void
count_ticks (double low, double high, double step, SwValueTicks *ticks)
{
  /* whole numbers of steps, so that 0 is 0 and not 1e-17 */
  const double first = ceil (low / step - 1e-9), last = floor (high / step + 1e-9);

  ticks->first = first * step;
  ticks->step = step;
  ticks->n = last < first ? 0 : (guint)(last - first) + 1;
}

void
sw_value_ticks (double low, double high, guint most, double least_step, SwValueTicks *ticks)
{
  double step;

  *ticks = (SwValueTicks){ 0 };
  g_return_if_fail (isfinite (low) && isfinite (high) && low < high && most >= 2);
  step = round_up_nicely (MAX ((high - low) / most, least_step));
  count_ticks (low, high, step, ticks);
  while (ticks->n > most)
    {
      step = round_up_nicely (step * 1.5);
      count_ticks (low, high, step, ticks);
    }
}

/* Midnight of the day that is @index steps into the calendar; NULL where the calendar ends. */
static GDateTime *
make_midnight (gint64 index, const SwTimeStep *step, GTimeZone *zone)
{
  GDate date;

  if (step->months > 0)
    {
      const gint64 month = index * step->months;

      return month < 12 || month >= 120000
                 ? NULL
                 : g_date_time_new (zone, (int)(month / 12), (int)(month % 12) + 1, 1, 0, 0, 0.0);
    }
  if (index < 0 || index > 3652058 / step->days)
    return NULL;
  /* GDate's day 1 is a Monday */
  g_date_clear (&date, 1);
  g_date_set_julian (&date, (guint32)(index * step->days) + 1);
  return g_date_time_new (zone, g_date_get_year (&date), g_date_get_month (&date),
                          g_date_get_day (&date), 0, 0, 0.0);
}

/* The step that @at lies in, counted like make_midnight's index. */
static gint64
find_index (GDateTime *at, const SwTimeStep *step)
{
  GDate date;
  int year, month, day;

  g_date_time_get_ymd (at, &year, &month, &day);
  if (step->months > 0)
    return (year * 12 + month - 1) / step->months;
  g_date_clear (&date, 1);
  g_date_set_dmy (&date, (GDateDay)day, (GDateMonth)month, (GDateYear)year);
  return ((gint64)g_date_get_julian (&date) - 1) / step->days;
}

static void
fill_ticks (GArray *ticks, gint64 from_ms, gint64 to_ms, GTimeZone *zone, const SwTimeStep *step)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (from_ms / 1000);
  g_autoptr (GDateTime) local = utc != NULL ? g_date_time_to_timezone (utc, zone) : NULL;

  g_array_set_size (ticks, 0);
  if (local == NULL)
    return;
  for (gint64 index = find_index (local, step);; index++)
    {
      g_autoptr (GDateTime) midnight = make_midnight (index, step, zone);
      const gint64 at_ms = midnight != NULL ? g_date_time_to_unix (midnight) * 1000 : G_MAXINT64;

      if (at_ms > to_ms)
        return;
      if (at_ms >= from_ms)
        g_array_append_val (ticks, at_ms);
    }
}

GArray *
sw_time_ticks (gint64 from_ms, gint64 to_ms, guint most, GTimeZone *zone, SwTimeStep *step)
{
  GArray *ticks = g_array_new (FALSE, FALSE, sizeof (gint64));
  const double days = (double)(to_ms - from_ms) / (double)MS_PER_DAY;

  g_return_val_if_fail (from_ms <= to_ms && most >= 2 && zone != NULL, ticks);
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      const double length = steps[i].days + steps[i].months * DAYS_PER_MONTH;

      *step = steps[i];
      /* do not fill an array with ten thousand days only to see that they are too many */
      if (days / length > most + 1)
        continue;
      fill_ticks (ticks, from_ms, to_ms, zone, step);
      if (ticks->len <= most)
        break;
    }
  return ticks;
}
