/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates and times for a reader.
 *
 * Month and day names come from our own catalogues, not from the process's locale, so that one
 * process can write a French paper while its window speaks German. Days are counted on the calendar
 * of the reader's zone: "tomorrow" begins at midnight, whatever the clocks did that night.
 */
#include "wording/time.h"

#include <glib/gi18n.h>

#define MINUTE_MS (60 * G_GINT64_CONSTANT (1000))
#define HOUR_MS (60 * MINUTE_MS)
#define DAY_MS (24 * HOUR_MS)

static const char *const months[] = {
  NC_ ("month in a date", "January"),   NC_ ("month in a date", "February"),
  NC_ ("month in a date", "March"),     NC_ ("month in a date", "April"),
  NC_ ("month in a date", "May"),       NC_ ("month in a date", "June"),
  NC_ ("month in a date", "July"),      NC_ ("month in a date", "August"),
  NC_ ("month in a date", "September"), NC_ ("month in a date", "October"),
  NC_ ("month in a date", "November"),  NC_ ("month in a date", "December"),
};

static const char *const on_weekdays[] = {
  N_ ("on Monday"), N_ ("on Tuesday"),  N_ ("on Wednesday"), N_ ("on Thursday"),
  N_ ("on Friday"), N_ ("on Saturday"), N_ ("on Sunday"),
};

/* NULL for a time outside the years 1 to 9999, which only a damaged record could hold. */
static GDateTime *
open_time (const SwWording *wording, gint64 utc_ms)
{
  gint64 seconds = utc_ms >= 0 ? utc_ms / 1000 : -((999 - utc_ms) / 1000);
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (seconds);

  return utc != NULL ? g_date_time_to_timezone (utc, sw_wording_get_zone (wording)) : NULL;
}

static char *
format_unknown (const SwWording *wording)
{
  /* Translators: a date or time that is not on record. */
  return g_strdup (sw_tr (wording, "no date"));
}

static char *
format_date (const SwWording *wording, GDateTime *time)
{
  const char *month = sw_trc (wording, "month in a date", months[g_date_time_get_month (time) - 1]);

  /* Translators: a date: 1 day, 2 name of the month, 3 year. */
  return g_strdup_printf (sw_tr (wording, "%1$d %2$s %3$d"), g_date_time_get_day_of_month (time),
                          month, g_date_time_get_year (time));
}

static char *
format_clock (const SwWording *wording, GDateTime *time)
{
  /* Translators: time of day: 1 hour of 0 to 23, 2 minute. */
  return g_strdup_printf (sw_tr (wording, "%1$02d:%2$02d"), g_date_time_get_hour (time),
                          g_date_time_get_minute (time));
}

/* Calendar days from @now to @time, in one zone. */
static int
count_days (GDateTime *now, GDateTime *time)
{
  GDate from;
  GDate to;

  g_date_set_dmy (&from, (GDateDay)g_date_time_get_day_of_month (now),
                  (GDateMonth)g_date_time_get_month (now), (GDateYear)g_date_time_get_year (now));
  g_date_set_dmy (&to, (GDateDay)g_date_time_get_day_of_month (time),
                  (GDateMonth)g_date_time_get_month (time), (GDateYear)g_date_time_get_year (time));
  return g_date_days_between (&from, &to);
}

char *
sw_date_format (const SwWording *wording, gint64 utc_ms)
{
  g_autoptr (GDateTime) time = open_time (wording, utc_ms);

  return time != NULL ? format_date (wording, time) : format_unknown (wording);
}

char *
sw_date_time_format (const SwWording *wording, gint64 utc_ms)
{
  g_autoptr (GDateTime) time = open_time (wording, utc_ms);
  g_autofree char *date = NULL;
  g_autofree char *clock = NULL;

  if (time == NULL)
    return format_unknown (wording);
  date = format_date (wording, time);
  clock = format_clock (wording, time);
  /* Translators: 1 a date such as "24 May 2026", 2 a time of day. */
  return g_strdup_printf (sw_tr (wording, "%1$s %2$s"), date, clock);
}

char *
sw_clock_format (const SwWording *wording, gint64 utc_ms)
{
  g_autoptr (GDateTime) time = open_time (wording, utc_ms);

  return time != NULL ? format_clock (wording, time) : format_unknown (wording);
}

/* "on 13 June", with the year where it is another one than now. */
static char *
format_far_day (const SwWording *wording, GDateTime *time, GDateTime *now)
{
  const char *month = sw_trc (wording, "month in a date", months[g_date_time_get_month (time) - 1]);

  if (g_date_time_get_year (time) == g_date_time_get_year (now))
    /* Translators: 1 day, 2 name of the month. */
    return g_strdup_printf (sw_tr (wording, "on %1$d %2$s"), g_date_time_get_day_of_month (time),
                            month);
  /* Translators: 1 day, 2 name of the month, 3 year. */
  return g_strdup_printf (sw_tr (wording, "on %1$d %2$s %3$d"), g_date_time_get_day_of_month (time),
                          month, g_date_time_get_year (time));
}

char *
sw_day_format (const SwWording *wording, gint64 utc_ms, gint64 now_ms)
{
  g_autoptr (GDateTime) time = open_time (wording, utc_ms);
  g_autoptr (GDateTime) now = open_time (wording, now_ms);
  int days;

  if (time == NULL || now == NULL)
    return format_unknown (wording);
  days = count_days (now, time);
  if (days == 0)
    return g_strdup (sw_tr (wording, "today"));
  if (days == 1)
    return g_strdup (sw_tr (wording, "tomorrow"));
  if (days == -1)
    return g_strdup (sw_tr (wording, "yesterday"));
  if (days > 1 && days <= 6)
    return g_strdup (sw_tr (wording, on_weekdays[g_date_time_get_day_of_week (time) - 1]));
  return format_far_day (wording, time, now);
}

char *
sw_due_format (const SwWording *wording, gint64 due_ms, gint64 now_ms)
{
  g_autoptr (GDateTime) due = open_time (wording, due_ms);
  g_autoptr (GDateTime) now = open_time (wording, now_ms);
  int days;

  if (due == NULL || now == NULL)
    return format_unknown (wording);
  days = count_days (now, due);
  if (days == 0)
    return g_strdup (due_ms <= now_ms ? sw_tr (wording, "now") : sw_tr (wording, "today"));
  if (days > 0)
    /* Translators: time left until a test is due, in a narrow column. */
    return g_strdup_printf (sw_trn (wording, "%d day", "%d days", (gulong)days), days);
  /* Translators: a test is late by so many days, in a narrow column. */
  return g_strdup_printf (sw_trn (wording, "%d day late", "%d days late", (gulong)-days), -days);
}

/* Under ten hours minutes still matter; from two days on hours do not. */
char *
sw_duration_format (const SwWording *wording, gint64 ms)
{
  guint64 size = ms < 0 ? (guint64) - (ms + 1) + 1 : (guint64)ms;
  int minutes = (int)(size / MINUTE_MS % 60);
  gint64 hours = (gint64)(size / HOUR_MS);
  gint64 days = (gint64)((size + DAY_MS / 2) / DAY_MS);

  if (hours == 0)
    /* Translators: a duration in minutes. */
    return g_strdup_printf (sw_tr (wording, "%d min"), minutes);
  if (hours < 10 && minutes > 0)
    /* Translators: a duration: 1 hours, 2 minutes. */
    return g_strdup_printf (sw_tr (wording, "%1$d h %2$d min"), (int)hours, minutes);
  if (hours < 48)
    /* Translators: a duration in hours. */
    return g_strdup_printf (sw_tr (wording, "%d h"), (int)((size + HOUR_MS / 2) / HOUR_MS));
  return g_strdup_printf (sw_trn (wording, "%d day", "%d days", (gulong)days),
                          (int)MIN (days, G_MAXINT));
}

char *
sw_timer_format (const SwWording *wording, gint64 seconds)
{
  gint64 size = ABS (CLAMP (seconds, -G_MAXINT, G_MAXINT));

  /* The same in every language, with U+2212 before the time that is over. */
  return g_strdup_printf ("%s%" G_GINT64_FORMAT ":%02d", seconds < 0 ? "\342\210\222" : "",
                          size / 60, (int)(size % 60));
}
