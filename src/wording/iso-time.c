/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ISO 8601 dates and times: the one form that is the same in every language, for files, papers and
 * the command line. */
#include "wording/time.h"

#include <string.h>

#include "calc/fault.h"

#define LARGEST_OFFSET_MIN (18 * 60)

typedef struct
{
  int year, month, day, hour, minute, second;
  gboolean has_offset;
  int offset_min;
} Parts;

char *
sw_iso_format (gint64 utc_ms, int offset_min)
{
  gint64 seconds = utc_ms >= 0 ? utc_ms / 1000 : -((999 - utc_ms) / 1000);
  g_autoptr (GDateTime) local = g_date_time_new_from_unix_utc (seconds + offset_min * 60);
  int size = ABS (offset_min);

  if (local == NULL)
    return g_strdup ("");
  return g_strdup_printf ("%04d-%02d-%02dT%02d:%02d:%02d%c%02d:%02d", g_date_time_get_year (local),
                          g_date_time_get_month (local), g_date_time_get_day_of_month (local),
                          g_date_time_get_hour (local), g_date_time_get_minute (local),
                          g_date_time_get_second (local), offset_min < 0 ? '-' : '+', size / 60,
                          size % 60);
}

/* Exactly @n digits; moves *at behind them. */
static gboolean
take_digits (const char **at, int n, int *value)
{
  *value = 0;
  for (int i = 0; i < n; i++, (*at)++)
    {
      if (!g_ascii_isdigit (**at))
        return FALSE;
      *value = *value * 10 + (**at - '0');
    }
  return TRUE;
}

static gboolean
take_char (const char **at, const char *allowed)
{
  if (**at == '\0' || strchr (allowed, **at) == NULL)
    return FALSE;
  (*at)++;
  return TRUE;
}

static gboolean
take_date (const char **at, Parts *parts)
{
  return take_digits (at, 4, &parts->year) && take_char (at, "-")
         && take_digits (at, 2, &parts->month) && take_char (at, "-")
         && take_digits (at, 2, &parts->day)
         && g_date_valid_dmy ((GDateDay)parts->day, (GDateMonth)parts->month,
                              (GDateYear)parts->year);
}

static gboolean
take_clock (const char **at, Parts *parts)
{
  if (!take_digits (at, 2, &parts->hour) || !take_char (at, ":")
      || !take_digits (at, 2, &parts->minute))
    return FALSE;
  if (take_char (at, ":") && !take_digits (at, 2, &parts->second))
    return FALSE;
  return parts->hour < 24 && parts->minute < 60 && parts->second < 60;
}

static gboolean
take_offset (const char **at, Parts *parts)
{
  gboolean west = **at == '-';
  int hours;
  int minutes;

  parts->has_offset = TRUE;
  if (take_char (at, "Z"))
    return TRUE;
  if (!take_char (at, "+-") || !take_digits (at, 2, &hours) || !take_char (at, ":")
      || !take_digits (at, 2, &minutes) || minutes > 59)
    return FALSE;
  parts->offset_min = (hours * 60 + minutes) * (west ? -1 : 1);
  return ABS (parts->offset_min) <= LARGEST_OFFSET_MIN;
}

static gboolean
take_all (const char *at, Parts *parts)
{
  if (!take_date (&at, parts))
    return FALSE;
  if (*at == '\0')
    return TRUE;
  if (!take_char (&at, " T") || !take_clock (&at, parts))
    return FALSE;
  return *at == '\0' || (take_offset (&at, parts) && *at == '\0');
}

/* FALSE for an hour that the zone skipped when its clocks went forward. An hour that came twice is
 * the later of the two, after the clocks went back: GLib reads it so. */
static gboolean
resolve (const Parts *parts, GTimeZone *zone, gint64 *utc_ms)
{
  g_autoptr (GTimeZone) offset
      = parts->has_offset ? g_time_zone_new_offset (parts->offset_min * 60) : NULL;
  g_autoptr (GDateTime) time
      = g_date_time_new (offset != NULL ? offset : zone, parts->year, parts->month, parts->day,
                         parts->hour, parts->minute, parts->second);

  if (time == NULL || g_date_time_get_hour (time) != parts->hour
      || g_date_time_get_minute (time) != parts->minute)
    return FALSE;
  *utc_ms = g_date_time_to_unix (time) * 1000;
  return TRUE;
}

gboolean
sw_iso_parse (const char *text, GTimeZone *zone, gint64 *utc_ms, GError **error)
{
  SwFault fault = { .code = SW_FAULT_NOT_A_NUMBER,
                    .quantity = SW_QUANTITY_DATE,
                    .value = NAN,
                    .low = -INFINITY,
                    .high = INFINITY,
                    .typed = text };
  Parts parts = { 0 };

  g_return_val_if_fail (zone != NULL && utc_ms != NULL, FALSE);
  if (text == NULL || *text == '\0')
    {
      fault.code = SW_FAULT_MISSING;
      return sw_fault_set (error, &fault);
    }
  if (!g_utf8_validate (text, -1, NULL))
    fault.typed = NULL;
  if (!take_all (text, &parts) || !resolve (&parts, zone, utc_ms))
    return sw_fault_set (error, &fault);
  return TRUE;
}
