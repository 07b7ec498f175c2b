/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as text, and the property that what is shown can be typed back. */
#include "support/support.h"
#include "wording/number.h"

#define SP "\342\200\257"
#define MINUS "\342\210\222"

typedef struct
{
  double value;
  int digits;
  const char *english;
  const char *german;
} NumberRow;

/* clang-format off */
static const NumberRow number_rows[] = {
  { 0, 3, "0", "0" },
  { -0.0, 3, "0", "0" },
  { 1, 3, "1", "1" },
  { 1260, 4, "1260", "1260" },
  { 12600, 4, "12" SP "600", "12" SP "600" },
  { 1234567, 7, "1" SP "234" SP "567", "1" SP "234" SP "567" },
  { 0.05, 3, "0.05", "0,05" },
  { 0.0501, 2, "0.05", "0,05" },
  { 16.8, 4, "16.8", "16,8" },
  { 9.996, 3, "10", "10" },
  { 0.09996, 3, "0.1", "0,1" },
  { 123456, 3, "123" SP "000", "123" SP "000" },
  { -12.5, 4, MINUS "12.5", MINUS "12,5" },
  { 12345.678, 8, "12" SP "345.678", "12" SP "345,678" },
  { 1.5e-12, 3, "1.5e-12", "1,5e-12" },
  { 1.5e20, 3, "1.5e20", "1,5e20" },
  { NAN, 3, "\342\200\224", "\342\200\224" },
  { INFINITY, 3, "\342\210\236", "\342\210\236" },
};

typedef struct
{
  double value;
  SwUnit unit;
  const char *text;
} AmountRow;

static const AmountRow amount_rows[] = {
  { 1260, SW_UNIT_ML, "1260" SP "mL" },
  { 20, SW_UNIT_CELSIUS, "20" SP "\302\260C" },
  { 3, SW_UNIT_STEP, "3 steps" },
  { 1, SW_UNIT_STEP, "1 step" },
  { 0.5, SW_UNIT_NONE, "0.5" },
  { 10, SW_UNIT_PERCENT, "10" SP "%" },
};

static const AmountRow volume_rows[] = {
  { 1260, SW_UNIT_NONE, "1260" SP "mL" },
  { 16.8, SW_UNIT_NONE, "16.8" SP "mL" },
  { 0.056, SW_UNIT_NONE, "0.06" SP "mL" },
  { 9999.4, SW_UNIT_NONE, "9999" SP "mL" },
  { 9999.6, SW_UNIT_NONE, "10" SP "L" },
  { 12650, SW_UNIT_NONE, "12.65" SP "L" },
  { 0, SW_UNIT_NONE, "0" SP "mL" },
};

typedef struct
{
  double low, high;
  gboolean burette;
  const char *text;
} StepsRow;

static const StepsRow steps_rows[] = {
  { 2, 3, FALSE, "2 to 3 drops" },
  { 0, 1, FALSE, "0 to 1 drop" },
  { 2.2, 2.4, TRUE, "2.2 to 2.4" SP "mL" },
  { -INFINITY, 0, FALSE, "no acid" },
  { -INFINITY, 1, FALSE, "up to 1 drop" },
  { 20, INFINITY, FALSE, "more than 20 drops" },
  { -5, -4, FALSE, "reserve 4 to 5 drops" },
  { -1, 0, FALSE, "reserve 0 to 1 drop" },
  { -1, 2, FALSE, MINUS "1 to 2 drops" },
  { -INFINITY, -20, FALSE, "reserve of 20 drops or more" },
  { 0, INFINITY, FALSE, "no reserve" },
  { NAN, NAN, FALSE, "not known" },
};
/* clang-format on */

static void
test_number (gconstpointer data)
{
  const NumberRow *row = data;
  g_autoptr (SwWording) english = sw_wording_new ("en", "UTC");
  g_autoptr (SwWording) german = sw_wording_new ("de", "UTC");
  g_autofree char *a = sw_number_format (english, row->value, row->digits);
  g_autofree char *b = sw_number_format (german, row->value, row->digits);

  g_assert_cmpstr (a, ==, row->english);
  g_assert_cmpstr (b, ==, row->german);
}

static void
test_amounts (void)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");

  for (gsize i = 0; i < G_N_ELEMENTS (amount_rows); i++)
    {
      g_autofree char *text
          = sw_amount_format (wording, amount_rows[i].value, amount_rows[i].unit, 4);
      g_assert_cmpstr (text, ==, amount_rows[i].text);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (volume_rows); i++)
    {
      g_autofree char *text = sw_volume_format (wording, volume_rows[i].value);
      g_assert_cmpstr (text, ==, volume_rows[i].text);
    }
}

static void
test_steps (gconstpointer data)
{
  const StepsRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autofree char *text = sw_steps_format (wording, row->low, row->high, row->burette);

  g_assert_cmpstr (text, ==, row->text);
}

/* A random number of every size: shown with 17 digits in any language and typed back it is the same
 * double, unless three digits behind one mark make it ambiguous, and then it is one of the two. */
static void
test_round_trip (gconstpointer data)
{
  g_autoptr (SwWording) wording = sw_wording_new (data, "UTC");

  for (int i = 0; i < 20000; i++)
    {
      double size = pow (10.0, g_test_rand_double_range (-12.0, 9.0));
      double value = g_test_rand_bit () ? size : round (size * 1000.0) / 1000.0;
      g_autofree char *text = sw_amount_format (wording, value, SW_UNIT_GRAM, 17);
      g_autoptr (GError) error = NULL;
      SwParsedAmount parsed;

      if (sw_number_parse (text, SW_QUANTITY_NONE, SW_UNIT_GRAM, &parsed, &error))
        sw_assert_close (parsed.value, value, 0);
      else
        {
          sw_assert_close (sw_fault_get (error)->low, value, 0);
          sw_assert_fault (&error, SW_FAULT_AMBIGUOUS, SW_QUANTITY_NONE);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (number_rows); i++)
    {
      g_autofree char *path
          = g_strdup_printf ("/format/number/%g-%d", number_rows[i].value, number_rows[i].digits);
      g_test_add_data_func (path, &number_rows[i], test_number);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (steps_rows); i++)
    {
      g_autofree char *path = sw_test_path ("/format/steps", steps_rows[i].text);
      g_test_add_data_func (path, &steps_rows[i], test_steps);
    }
  g_test_add_func ("/format/amounts", test_amounts);
  g_test_add_data_func ("/format/round-trip/en", "en", test_round_trip);
  g_test_add_data_func ("/format/round-trip/de", "de", test_round_trip);
  return g_test_run ();
}
