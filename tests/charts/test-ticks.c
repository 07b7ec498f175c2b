/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ticks: properties over seeded random ranges, and dates read from a calendar.
 *
 * The dates of the table were made with GNU date, for example
 *   TZ=Europe/Berlin date -d '2026-03-30' +%s
 * so that summer time and Mondays come from another program's calendar.
 */
#include "charts/ticks.h"
#include "support/support.h"

#include <math.h>

#define S(seconds) (G_GINT64_CONSTANT (seconds) * 1000)
#define DAY_MS G_GINT64_CONSTANT (86400000)

typedef struct
{
  const char *name;
  double low, high;
  guint most;
  double least_step;
  double first, step;
  guint n;
} ValueRow;

static const ValueRow value_rows[] = {
  { "unit", 0.0, 10.0, 12, 0.0, 0.0, 1.0, 11 },
  { "twos", 0.0, 10.0, 6, 0.0, 0.0, 2.0, 6 },
  { "fives", 0.0, 20.0, 5, 0.0, 0.0, 5.0, 5 },
  { "tenths", 0.0, 0.5, 6, 0.0, 0.0, 0.1, 6 },
  { "whole drops only", 0.0, 3.0, 20, 1.0, 0.0, 1.0, 4 },
  { "below zero", -4.2, 7.5, 8, 1.0, -4.0, 2.0, 6 },
  { "hundreds", 130.0, 990.0, 6, 0.0, 200.0, 200.0, 4 },
  { "two ticks at most", 0.0, 7.0, 2, 0.0, 0.0, 5.0, 2 },
};

static void
test_value_row (gconstpointer data)
{
  const ValueRow *row = data;
  SwValueTicks ticks;

  sw_value_ticks (row->low, row->high, row->most, row->least_step, &ticks);
  sw_assert_close (ticks.first, row->first, 1e-12);
  sw_assert_close (ticks.step, row->step, 1e-12);
  g_assert_cmpuint (ticks.n, ==, row->n);
}

static gboolean
is_nice (double step)
{
  const double share = step / pow (10.0, floor (log10 (step) + 1e-9));

  return fabs (share - 1.0) < 1e-6 || fabs (share - 2.0) < 1e-6 || fabs (share - 5.0) < 1e-6;
}

static void
test_value_properties (void)
{
  GRand *random = g_rand_new_with_seed (20261124);

  for (int i = 0; i < 20000; i++)
    {
      const double low = g_rand_double_range (random, -50.0, 50.0);
      const double span = pow (10.0, g_rand_double_range (random, -3.0, 4.0));
      const guint most = (guint)g_rand_int_range (random, 2, 15);
      SwValueTicks ticks;

      sw_value_ticks (low, low + span, most, 0.0, &ticks);
      g_assert_true (is_nice (ticks.step));
      g_assert_cmpuint (ticks.n, <=, most);
      /* the next smaller steps would be too many: with 1, 2, 5 at least a fifth is used */
      g_assert_cmpfloat (span / ticks.step, >=, most / 5.0 - 1.0);
      if (ticks.n == 0)
        continue;
      g_assert_cmpfloat (ticks.first, >=, low - 1e-9 * span);
      g_assert_cmpfloat (ticks.first + (ticks.n - 1) * ticks.step, <=, low + span * (1.0 + 1e-9));
      sw_assert_close (remainder (ticks.first, ticks.step) / ticks.step + 1.0, 1.0, 1e-6);
    }
  g_rand_free (random);
}

typedef struct
{
  const char *name;
  const char *zone;
  gint64 from_ms, to_ms;
  guint most;
  int days, months;
  guint n;
  gint64 first_ms, last_ms;
} TimeRow;

static const TimeRow time_rows[] = {
  /* 2026-03-27 12:00 to 2026-04-01 12:00; summer time begins on 29 March */
  { "days over summer time", "Europe/Berlin", S (1774609200), S (1775037600), 8, 1, 0, 5,
    S (1774652400), S (1774994400) },
  /* 2026-05-04 (a Monday) 00:00 to 2026-06-10 00:00 */
  { "Mondays", "Europe/Berlin", S (1777845600), S (1781042400), 8, 7, 0, 6, S (1777845600),
    S (1780869600) },
  /* 2025-11-20 to 2026-06-20 */
  { "months over a new year", "Europe/Berlin", S (1763593200), S (1781906400), 8, 0, 1, 7,
    S (1764543600), S (1780264800) },
  { "quarters", "Europe/Berlin", S (1763593200), S (1781906400), 2, 0, 3, 2, S (1767222000),
    S (1774994400) },
  /* 2001-06-01 to 2026-06-01 UTC */
  { "five years", "UTC", S (991353600), S (1780272000), 6, 0, 60, 5, S (1104537600),
    S (1735689600) },
  /* 2026-01-10 00:00 to 12:00 in a zone 5:45 h east */
  { "less than a day", "Asia/Kathmandu", S (1767982500), S (1768025700), 5, 1, 0, 1, S (1767982500),
    S (1767982500) },
};

static void
test_time_row (gconstpointer data)
{
  const TimeRow *row = data;
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (row->zone);
  SwTimeStep step = { 0 };
  g_autoptr (GArray) ticks = sw_time_ticks (row->from_ms, row->to_ms, row->most, zone, &step);

  g_assert_cmpint (step.days, ==, row->days);
  g_assert_cmpint (step.months, ==, row->months);
  g_assert_cmpuint (ticks->len, ==, row->n);
  g_assert_cmpint (g_array_index (ticks, gint64, 0), ==, row->first_ms);
  g_assert_cmpint (g_array_index (ticks, gint64, ticks->len - 1), ==, row->last_ms);
}

static void
check_ticks (const GArray *ticks, gint64 from_ms, gint64 to_ms, GTimeZone *zone)
{
  gint64 before_ms = G_MININT64;

  for (guint i = 0; i < ticks->len; i++)
    {
      const gint64 at_ms = g_array_index (ticks, gint64, i);
      g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (at_ms / 1000);
      g_autoptr (GDateTime) local = g_date_time_to_timezone (utc, zone);

      g_assert_cmpint (at_ms, >=, from_ms);
      g_assert_cmpint (at_ms, <=, to_ms);
      g_assert_cmpint (at_ms, >, before_ms);
      g_assert_cmpint (g_date_time_get_hour (local), ==, 0);
      g_assert_cmpint (g_date_time_get_minute (local), ==, 0);
      before_ms = at_ms;
    }
}

static void
test_time_properties (void)
{
  GRand *random = g_rand_new_with_seed (20261125);
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier ("Europe/Warsaw");

  for (int i = 0; i < 3000; i++)
    {
      const gint64 from_ms = (gint64)(g_rand_double (random) * 2.0e12);
      const double days = pow (10.0, g_rand_double_range (random, -1.0, 4.5));
      const gint64 to_ms = from_ms + (gint64)(days * (double)DAY_MS);
      const guint most = (guint)g_rand_int_range (random, 2, 20);
      SwTimeStep step = { 0 };
      g_autoptr (GArray) ticks = sw_time_ticks (from_ms, to_ms, most, zone, &step);

      g_assert_cmpuint (ticks->len, <=, most);
      check_ticks (ticks, from_ms, to_ms, zone);
    }
  g_rand_free (random);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/charts/ticks/value", value_rows, test_value_row);
  SW_TEST_ROWS ("/charts/ticks/time", time_rows, test_time_row);
  g_test_add_func ("/charts/ticks/value-properties", test_value_properties);
  g_test_add_func ("/charts/ticks/time-properties", test_time_properties);
  return g_test_run ();
}
