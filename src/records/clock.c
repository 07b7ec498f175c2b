/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The system's clocks and zone. */
#include "records/store.h"

#include <time.h>

static gint64
now_ms_cb (gpointer data)
{
  return g_get_real_time () / 1000;
}

/* Counts while the PC sleeps, and nobody can set it. */
static gint64
steady_ms_cb (gpointer data)
{
  struct timespec now = { 0 };

  clock_gettime (CLOCK_BOOTTIME, &now);
  return (gint64)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static int
offset_min_cb (gpointer data, gint64 utc_ms)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_local ();
  int interval = g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, utc_ms / 1000);

  return interval < 0 ? 0 : (int)(g_time_zone_get_offset (zone, interval) / 60);
}

const SwClock *
sw_clock_system (void)
{
  static const SwClock clock
      = { .now_ms = now_ms_cb, .offset_min = offset_min_cb, .steady_ms = steady_ms_cb };

  return &clock;
}
