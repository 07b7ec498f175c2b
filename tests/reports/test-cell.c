/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Single values of a workbook's cells.
 *
 * Serial numbers: the documentation of spreadsheets says that 1 January 2008 is 39448 and that noon
 * is half a day. Escapes: ECMA-376 part 1, 22.9.2.19. */
#include "reports/sheet-private.h"
#include "support/support.h"

#define S(seconds) (G_GINT64_CONSTANT (seconds) * 1000)

typedef struct
{
  const char *name;
  const char *zone;
  gint64 utc_ms;
  double serial;
} SerialRow;

static const SerialRow serial_rows[] = {
  { "documented day", "UTC", S (1199145600), 39448.0 }, /* date -u -d 2008-01-01 +%s */
  { "noon", "UTC", S (1199188800), 39448.5 },           /* ... 12:00 */
  { "winter in Berlin", "Europe/Berlin", S (1199142000),
    39448.0 }, /* TZ=Europe/Berlin date -d 2008-01-01 +%s */
  { "summer in Berlin", "Europe/Berlin", S (1214863200),
    39630.0 }, /* 2008-07-01, day 182 of 2008 from 0 */
  { "before 1970", "UTC", S (-86400), 25568.0 },
  { "a quarter past", "Asia/Kathmandu", S (1199124900), 39448.0 }, /* 5:45 h east */
};

static void
test_serial (gconstpointer data)
{
  const SerialRow *row = data;
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (row->zone);

  g_assert_cmpfloat (fabs (sw_sheet_cell_serial (row->utc_ms, zone) - row->serial), <, 1e-9);
}

typedef struct
{
  const char *name;
  const char *text;
  const char *escaped;
} EscapeRow;

static const EscapeRow escape_rows[] = {
  { "plain", "plain", "plain" },
  { "formula stays as it is", "=1+1", "=1+1" },
  { "carriage return", "a\rb", "a_x000D_b" },
  { "control", "a\x01", "a_x0001_" },
  { "tab and line feed stay", "a\tb\nc", "a\tb\nc" },
  { "looks escaped", "_x0041_", "_x005F_x0041_" },
  { "does not look escaped", "_x004_ _xZZZZ_ x0041_", "_x004_ _xZZZZ_ x0041_" },
  { "umlauts and more", "\303\204 \346\226\207 \360\237\247\252",
    "\303\204 \346\226\207 \360\237\247\252" },
  { "broken UTF-8", "a\377b", "a\357\277\275b" },
  { "empty", "", "" },
};

static void
test_escape (gconstpointer data)
{
  const EscapeRow *row = data;
  g_autofree char *escaped = sw_sheet_cell_escape (row->text);

  g_assert_cmpstr (escaped, ==, row->escaped);
}

/* A cell holds 32767 characters: longer text is cut, and says so by its last character. */
static void
test_long (void)
{
  g_autofree char *text = g_strnfill (40000, 'x');
  g_autofree char *escaped = sw_sheet_cell_escape (text);

  g_assert_cmpint (g_utf8_strlen (escaped, -1), <=, 32767);
  g_assert_true (g_str_has_suffix (escaped, "xx\u2026"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reports/cell/serial", serial_rows, test_serial);
  SW_TEST_ROWS ("/reports/cell/escape", escape_rows, test_escape);
  g_test_add_func ("/reports/cell/long", test_long);
  return g_test_run ();
}
