/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates on an axis: month names from our own catalogues, as everywhere. */
#include "charts/axis-date.h"

#include <glib/gi18n.h>

static const char *const months[] = {
  NC_ ("month on an axis", "Jan"), NC_ ("month on an axis", "Feb"), NC_ ("month on an axis", "Mar"),
  NC_ ("month on an axis", "Apr"), NC_ ("month on an axis", "May"), NC_ ("month on an axis", "Jun"),
  NC_ ("month on an axis", "Jul"), NC_ ("month on an axis", "Aug"), NC_ ("month on an axis", "Sep"),
  NC_ ("month on an axis", "Oct"), NC_ ("month on an axis", "Nov"), NC_ ("month on an axis", "Dec"),
};

static char *
format_day (const SwWording *wording, int day, const char *month, int year, gboolean with_year)
{
  if (with_year)
    /* Translators: a date on a chart's axis: 1 day, 2 short name of the month, 3 year. */
    return g_strdup_printf (sw_trc (wording, "date on an axis", "%1$d %2$s %3$d"), day, month,
                            year);
  /* Translators: a date on a chart's axis: 1 day, 2 short name of the month. */
  return g_strdup_printf (sw_trc (wording, "date on an axis", "%1$d %2$s"), day, month);
}

char *
sw_axis_date_format (const SwWording *wording,
                     gint64 utc_ms,
                     const SwTimeStep *step,
                     gboolean with_year)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (utc_ms / 1000);
  g_autoptr (GDateTime) local
      = utc != NULL ? g_date_time_to_timezone (utc, sw_wording_get_zone (wording)) : NULL;
  const char *month;
  int year, number, day;

  if (local == NULL)
    return g_strdup ("");
  g_date_time_get_ymd (local, &year, &number, &day);
  month = sw_trc (wording, "month on an axis", months[number - 1]);
  if (step->days > 0)
    return format_day (wording, day, month, year, with_year);
  if (step->months % 12 == 0 || (number == 1 && !with_year))
    return g_strdup_printf ("%d", year);
  if (!with_year)
    return g_strdup (month);
  /* Translators: a month on a chart's axis: 1 short name of the month, 2 year. */
  return g_strdup_printf (sw_trc (wording, "date on an axis", "%1$s %2$d"), month, year);
}
