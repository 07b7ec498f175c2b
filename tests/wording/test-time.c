/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates for a reader and ISO 8601. Expected instants come from the coreutils `date -u -d` command;
 * zone rules from the system's IANA database. */
#include "support/support.h"
#include "wording/time.h"

/* 2026-05-24T06:20:00+02:00 is 1779596400 (date -u -d 2026-05-24T04:20:00Z +%s). */
#define MAY_24 G_GINT64_CONSTANT (1779596400000)
#define HOUR G_GINT64_CONSTANT (3600000)
#define DAY (24 * HOUR)
#define MINUTE G_GINT64_CONSTANT (60000)

typedef struct
{
  gint64 when;
  const char *day;
  const char *due;
} DayRow;

/* now is Sunday 24 May 2026 06:20 in Berlin */
static const DayRow day_rows[] = {
  { MAY_24, "today", "now" },
  { MAY_24 - 40 * MINUTE, "today", "now" },
  { MAY_24 + 1, "today", "today" },
  { MAY_24 + 17 * HOUR, "today", "today" },
  { MAY_24 + 18 * HOUR, "tomorrow", "1 day" },
  { MAY_24 - 7 * HOUR, "yesterday", "1 day late" },
  { MAY_24 + 4 * DAY, "on Thursday", "4 days" },
  { MAY_24 + 6 * DAY, "on Saturday", "6 days" },
  { MAY_24 + 7 * DAY, "on 31 May", "7 days" },
  { MAY_24 + 20 * DAY, "on 13 June", "20 days" },
  { MAY_24 + 240 * DAY, "on 19 January 2027", "240 days" },
  { MAY_24 - 3 * DAY, "on 21 May", "3 days late" },
  { G_MAXINT64, "no date", "no date" },
};

static void
test_day (gconstpointer data)
{
  const DayRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "Europe/Berlin");
  g_autofree char *day = sw_day_format (wording, row->when, MAY_24);
  g_autofree char *due = sw_due_format (wording, row->when, MAY_24);

  g_assert_cmpstr (day, ==, row->day);
  g_assert_cmpstr (due, ==, row->due);
}

static void
test_date (void)
{
  g_autoptr (SwWording) berlin = sw_wording_new ("en", "Europe/Berlin");
  g_autoptr (SwWording) tokyo = sw_wording_new ("en", "Asia/Tokyo");
  g_autofree char *date = sw_date_format (berlin, MAY_24);
  g_autofree char *both = sw_date_time_format (berlin, MAY_24);
  g_autofree char *clock = sw_clock_format (tokyo, MAY_24);
  g_autofree char *before = sw_date_time_format (berlin, -1);

  g_assert_cmpstr (date, ==, "24 May 2026");
  g_assert_cmpstr (both, ==, "24 May 2026 06:20");
  g_assert_cmpstr (clock, ==, "13:20");
  g_assert_cmpstr (before, ==, "1 January 1970 00:59");
}

typedef struct
{
  gint64 ms;
  const char *text;
} DurationRow;

static const DurationRow duration_rows[] = {
  { 0, "0 min" },
  { 59999, "0 min" },
  { 40 * MINUTE, "40 min" },
  { HOUR, "1 h" },
  { 90 * MINUTE, "1 h 30 min" },
  { 10 * HOUR + 29 * MINUTE, "10 h" },
  { 23 * HOUR + 40 * MINUTE, "24 h" },
  { 47 * HOUR, "47 h" },
  { 2 * DAY, "2 days" },
  { -3 * DAY, "3 days" },
  { -400 * DAY, "400 days" },
};

static void
test_duration (gconstpointer data)
{
  const DurationRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autofree char *text = sw_duration_format (wording, row->ms);

  g_assert_cmpstr (text, ==, row->text);
}

static void
test_timer (void)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autofree char *a = sw_timer_format (wording, 42);
  g_autofree char *b = sw_timer_format (wording, 60);
  g_autofree char *c = sw_timer_format (wording, -5);

  g_assert_cmpstr (a, ==, "0:42");
  g_assert_cmpstr (b, ==, "1:00");
  g_assert_cmpstr (c, ==,
                   "\342\210\222"
                   "0:05");
}

typedef struct
{
  const char *text;
  gint64 seconds; /* -1: refused */
} IsoRow;

static const IsoRow iso_rows[] = {
  { "2026-05-24", 1779573600 }, /* midnight in Berlin: 22:00 UTC the day before */
  { "2026-05-24 06:20", 1779596400 },
  { "2026-05-24T06:20", 1779596400 },
  { "2026-05-24T06:20:30", 1779596430 },
  { "2026-05-24T06:20Z", 1779603600 },
  { "2026-05-24T06:20-05:00", 1779621600 },
  { "2026-05-24T06:20:00+05:30", 1779583800 },
  { "2024-02-29", 1709161200 },
  { "2026-10-25 02:30", 1792891800 }, /* comes twice: the later one */
  { "2026-03-29 02:30", -1 },         /* skipped */
  { "2026-02-29", -1 },
  { "2026-13-01", -1 },
  { "2026-5-24", -1 },
  { "24.05.2026", -1 },
  { "05/24/2026", -1 },
  { "2026-05-24 24:00", -1 },
  { "2026-05-24 6:20", -1 },
  { "2026-05-24 06:60", -1 },
  { "2026-05-24T06:20+5:00", -1 },
  { "2026-05-24T06:20+19:00", -1 },
  { "2026-05-24x", -1 },
  { "2026-05-24 ", -1 },
  { "0000-01-01", -1 },
  { "\377", -1 },
};

static void
test_iso (gconstpointer data)
{
  const IsoRow *row = data;
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier ("Europe/Berlin");
  g_autoptr (GError) error = NULL;
  gint64 ms = 0;

  g_assert_true (sw_iso_parse (row->text, zone, &ms, &error) == (row->seconds >= 0));
  if (row->seconds < 0)
    sw_assert_fault (&error, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_DATE);
  else
    g_assert_cmpint (ms, ==, row->seconds * 1000);
}

static void
test_iso_round_trip (void)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_utc ();
  g_autofree char *shown = sw_iso_format (MAY_24, 120);
  g_autofree char *west = sw_iso_format (-1, -210);

  g_assert_cmpstr (shown, ==, "2026-05-24T06:20:00+02:00");
  g_assert_cmpstr (west, ==, "1969-12-31T20:29:59-03:30");
  for (int i = 0; i < 5000; i++)
    {
      gint64 ms = (gint64)g_test_rand_double_range (-6e10, 2.5e11) * 1000;
      g_autofree char *text = sw_iso_format (ms, g_test_rand_int_range (-840, 841));
      gint64 back = 0;

      g_assert_true (sw_iso_parse (text, zone, &back, NULL));
      g_assert_cmpint (back, ==, ms);
    }
}

static void
test_missing (void)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_utc ();
  g_autoptr (GError) error = NULL;
  gint64 ms;

  g_assert_false (sw_iso_parse ("", zone, &ms, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_DATE);
  g_assert_false (sw_iso_parse (NULL, zone, &ms, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_DATE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (day_rows); i++)
    {
      g_autofree char *name = g_strdup_printf ("%d %s", (int)i, day_rows[i].day);
      g_autofree char *path = sw_test_path ("/time/day", name);
      g_test_add_data_func (path, &day_rows[i], test_day);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (duration_rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/time/duration/%d", (int)i);
      g_test_add_data_func (path, &duration_rows[i], test_duration);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (iso_rows); i++)
    {
      g_autofree char *plain = g_uri_escape_string (iso_rows[i].text, NULL, FALSE);
      g_autofree char *path = sw_test_path ("/time/iso", plain);
      g_test_add_data_func (path, &iso_rows[i], test_iso);
    }
  g_test_add_func ("/time/date", test_date);
  g_test_add_func ("/time/timer", test_timer);
  g_test_add_func ("/time/iso-round-trip", test_iso_round_trip);
  g_test_add_func ("/time/iso-missing", test_missing);
  return g_test_run ();
}
