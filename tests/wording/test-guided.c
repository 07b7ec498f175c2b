/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test's own sentences: the figures in them, and the times a person types. */
#include <string.h>

#include "support/support.h"
#include "wording/sentence-test.h"

#define NARROW_SPACE "\342\200\257" /* U+202F */
/* 2026-11-24 05:00 UTC, 06:00 in Berlin */
#define NOW_MS G_GINT64_CONSTANT (1795496400000)
#define MINUTE_MS G_GINT64_CONSTANT (60000)

static SwWording *wording;

/* ---- times of today ---- */

typedef struct
{
  const char *name;
  const char *typed;
  int minutes; /* since midnight, where it is fine */
  SwFaultCode fault;
} Clock;

static const Clock clocks[] = {
  { "plain", "05:30", 330, 0 },
  { "one digit", "5:30", 330, 0 },
  { "point", "5.30", 330, 0 },
  { "blanks", " 05:30 ", 330, 0 },
  { "midnight", "0:00", 0, 0 },
  { "now", "6:00", 360, 0 },
  { "later than now", "6:01", -1, SW_FAULT_RANGE },
  { "empty", "", -1, SW_FAULT_MISSING },
  { "blank", "  ", -1, SW_FAULT_MISSING },
  { "text", "early", -1, SW_FAULT_TEXT },
  { "number", "530", -1, SW_FAULT_TEXT },
  { "hour 24", "24:00", -1, SW_FAULT_TEXT },
  { "minute 60", "5:60", -1, SW_FAULT_TEXT },
  { "one minute digit", "5:3", -1, SW_FAULT_TEXT },
  { "seconds", "5:30:10", -1, SW_FAULT_TEXT },
  { "negative", "-5:30", -1, SW_FAULT_TEXT },
};

static void
test_clock (gconstpointer data)
{
  const Clock *row = data;
  const gint64 midnight_ms = NOW_MS - 360 * MINUTE_MS;
  GError *error = NULL;
  gint64 utc_ms = -1;
  gboolean fine
      = sw_clock_parse (row->typed, sw_wording_get_zone (wording), NOW_MS, &utc_ms, &error);

  if (row->minutes < 0)
    {
      g_assert_false (fine);
      sw_assert_fault (&error, row->fault, SW_QUANTITY_DATE);
      return;
    }
  g_assert_no_error (error);
  g_assert_cmpint (utc_ms, ==, midnight_ms + row->minutes * MINUTE_MS);
}

/* ---- a second look ---- */

typedef struct
{
  const char *name;
  double value;
  double usual;
  gboolean asks;
} Look;

static const Look looks[] = {
  { "the same", 50.0, 50.0, FALSE },      { "three times", 150.0, 50.0, FALSE },
  { "ten times", 500.0, 50.0, TRUE },     { "a tenth", 5.0, 50.0, TRUE },
  { "a third", 17.0, 50.0, FALSE },       { "zero", 0.0, 50.0, FALSE },
  { "usual unknown", 500.0, NAN, FALSE }, { "a thousand times", 50000.0, 50.0, TRUE },
};

static void
test_look (gconstpointer data)
{
  const Look *row = data;
  g_autofree char *text
      = sw_say_second_look (wording, SW_QUANTITY_SAMPLE_VOLUME, row->value, row->usual, SW_UNIT_ML);

  g_assert_cmpint (text != NULL, ==, row->asks);
  if (text == NULL)
    return;
  g_assert_nonnull (strstr (text, "ample volume"));
  g_assert_nonnull (strstr (text, "50" NARROW_SPACE "mL"));
}

/* ---- contents, by hand: 1000 x 0.05 mL x 0.1 mmol/mL / 50 mL = 0.1 mmol/L a drop; hydrogen
 * chloride 36.458 g/mol (CIAAW 2021, conventional values) ---- */

static void
test_content (void)
{
  const SwInterval net = { 2.0, 3.0 };
  const SwInterval open = { -INFINITY, 0.0 };
  g_autofree char *bounded = sw_say_content (wording, net, 0.05, 0.1, 50.0);
  g_autofree char *passed = sw_say_content (wording, open, 0.05, 0.1, 50.0);
  g_autofree char *unknown = sw_say_content (wording, net, 0.05, NAN, 50.0);

  g_assert_nonnull (strstr (bounded, "0.2" NARROW_SPACE "mmol/L"));
  g_assert_nonnull (strstr (bounded, "0.3" NARROW_SPACE "mmol/L"));
  g_assert_nonnull (strstr (bounded, "7.29 to 10.9 mg/L"));
  g_assert_nonnull (strstr (passed, "at most 0" NARROW_SPACE "mmol/L"));
  g_assert_nonnull (strstr (unknown, "Set-up"));
}

/* 0.5 mmol in 50 mL: 10 mmol/L passes unseen. */
static void
test_threshold (void)
{
  g_autofree char *hidden = sw_say_threshold (wording, 0.5, FALSE, 50.0);
  g_autofree char *counts = sw_say_threshold (wording, 0.5, TRUE, 50.0);
  g_autofree char *none = sw_say_threshold (wording, NAN, FALSE, 50.0);

  g_assert_nonnull (strstr (hidden, "10" NARROW_SPACE "mmol/L"));
  g_assert_null (counts);
  g_assert_null (none);
}

/* ---- the shake timer ---- */

static void
test_shake (void)
{
  g_auto (SwShakeText) still = { 0 };
  g_auto (SwShakeText) half = { 0 };
  g_auto (SwShakeText) over = { 0 };

  sw_say_shake (wording, 0, NOW_MS, 60.0, &still);
  g_assert_false (still.running);
  g_assert_cmpstr (still.elapsed, ==, "0:00");
  sw_say_shake (wording, NOW_MS - 42000, NOW_MS, 60.0, &half);
  g_assert_true (half.running && !half.done);
  g_assert_cmpstr (half.elapsed, ==, "0:42");
  g_assert_cmpstr (half.of, ==, "of 1:00");
  sw_assert_close (half.fraction, 0.7, 1e-12);
  sw_say_shake (wording, NOW_MS - 3600000, NOW_MS, 60.0, &over);
  g_assert_true (over.done);
  g_assert_cmpstr (over.elapsed, ==, "1:00");
  sw_assert_close (over.fraction, 1.0, 0.0);
}

/* ---- the plan of additions, the supplier's chart ---- */

static void
test_dose (void)
{
  const double parts[] = { 800.0, 460.0 };
  g_autofree char *split = sw_say_dose_split (wording, parts, 2, 45.0);
  g_autofree char *whole = sw_say_dose_split (wording, parts, 1, 45.0);
  g_autofree char *agrees = sw_say_supplier (wording, 1300.0, 1300.0 / 1260.0, FALSE, FALSE);
  g_autofree char *apart = sw_say_supplier (wording, 1500.0, 1500.0 / 1260.0, TRUE, FALSE);
  g_autofree char *none = sw_say_supplier (wording, NAN, NAN, FALSE, FALSE);

  g_assert_nonnull (strstr (split, "In 2 additions: 800" NARROW_SPACE "mL, 460" NARROW_SPACE "mL"));
  g_assert_nonnull (strstr (split, "circulate for 45 min"));
  g_assert_null (whole);
  g_assert_nonnull (strstr (agrees, "they agree"));
  g_assert_nonnull (strstr (apart, "more than 10 % apart"));
  g_assert_null (none);
}

/* Every word and every reason is there, and whole: a gap in a table would be an empty label. */
static void
test_tables (void)
{
  for (int word = 0; word < SW_N_TEST_WORDS; word++)
    g_assert_cmpstr (sw_say_test_word (wording, (SwTestWord)word), !=, "");
  for (int kind = 0; kind < SW_N_REASONS; kind++)
    {
      guint n = 0;

      while (sw_say_reason (wording, (SwReasonKind)kind, n) != NULL)
        n++;
      g_assert_cmpuint (n, >=, 3);
    }
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  wording = sw_wording_new ("en", "Europe/Berlin");
  SW_TEST_ROWS ("/wording/guided/clock", clocks, test_clock);
  SW_TEST_ROWS ("/wording/guided/second-look", looks, test_look);
  g_test_add_func ("/wording/guided/content", test_content);
  g_test_add_func ("/wording/guided/threshold", test_threshold);
  g_test_add_func ("/wording/guided/shake", test_shake);
  g_test_add_func ("/wording/guided/dose", test_dose);
  g_test_add_func ("/wording/guided/tables", test_tables);
  result = g_test_run ();
  sw_wording_unref (wording);
  return result;
}
