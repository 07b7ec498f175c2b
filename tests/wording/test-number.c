/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading numbers: what a person types, what a command line takes. The expected values are the
 * numbers as written in decimal; no row comes from our own output. */
#include "support/support.h"
#include "wording/number.h"

#define NNBSP "\342\200\257"
#define NBSP "\302\240"
#define MINUS "\342\210\222"

typedef struct
{
  const char *text;
  SwQuantityName quantity;
  SwUnit unit;
  double value;
} ReadRow;

/* clang-format off */
static const ReadRow read_rows[] = {
  { "0", SW_QUANTITY_BLANK, SW_UNIT_STEP, 0 },
  { "50", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "  50  ", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "+50", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "0.05", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "0,05", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { ".05", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { ",05", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "0,050", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "0.123", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 0.123 },
  { "-12,5", SW_QUANTITY_SAMPLE_TEMPERATURE, SW_UNIT_CELSIUS, -12.5 },
  { MINUS "12.5", SW_QUANTITY_SAMPLE_TEMPERATURE, SW_UNIT_CELSIUS, -12.5 },
  { "5e-2", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "5E-2 mL", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "1,260e3", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1260 },
  /* units */
  { "50 mL", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "50ml", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "50" NNBSP "mL", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "50" NBSP "mL", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "0,42 m3", SW_QUANTITY_SYSTEM_VOLUME, SW_UNIT_LITRE, 420 },
  { "50 uL", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "50 \302\265L", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  /* 231 cubic inches of 25.4 mm, exactly */
  { "100 US gal", SW_QUANTITY_SYSTEM_VOLUME, SW_UNIT_LITRE, 378.5411784 },
  { "10 %", SW_QUANTITY_ALPHA, SW_UNIT_NONE, 0.1 },
  { "3 drops", SW_QUANTITY_PASS_AT, SW_UNIT_STEP, 3 },
  { "68 \302\260F", SW_QUANTITY_SAMPLE_TEMPERATURE, SW_UNIT_CELSIUS, 20 },
  { "2 h", SW_QUANTITY_CIRCULATION_TIME, SW_UNIT_MINUTE, 120 },
  /* group marks that can be nothing else */
  { "12 600", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 12600 },
  { "12" NNBSP "600", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 12600 },
  { "12" NBSP "600 mL", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 12600 },
  { "1 234,567", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1234.567 },
  { "1 234.567", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1234.567 },
  { "1.234,5", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1234.5 },
  { "1,234.5", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1234.5 },
  { "1.234,567", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1234.567 },
  { "1,234,567", SW_QUANTITY_COUNT, SW_UNIT_NONE, 1234567 },
  { "1.234.567", SW_QUANTITY_COUNT, SW_UNIT_NONE, 1234567 },
  { "1,234,567.5", SW_QUANTITY_COUNT, SW_UNIT_NONE, 1234567.5 },
  /* one mark that cannot group */
  { "1234,567", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1234.567 },
  { "1,2345", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1.2345 },
  { "1,23", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1.23 },
  { "01,234", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1.234 },
  /* two readings, and only one of them possible */
  { "1.234", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 1.234 },
  { "1,005", SW_QUANTITY_DENSITY, SW_UNIT_G_PER_ML, 1.005 },
  { "0.998", SW_QUANTITY_DENSITY, SW_UNIT_G_PER_ML, 0.998 },
  { "1,260 g/mL", SW_QUANTITY_DENSITY, SW_UNIT_G_PER_ML, 1.26 },
  { "100.000", SW_QUANTITY_WATER_VOLUME, SW_UNIT_ML, 100 },
  { "10,000 mL", SW_QUANTITY_SYSTEM_VOLUME, SW_UNIT_LITRE, 10 },
  /* other scripts' digits and marks */
  { "\331\245\331\240", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "\331\241\331\253\331\242\331\243\331\244", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1.234 },
  { "\333\265\333\260", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "\357\274\225\357\274\220", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "\357\274\220\357\274\216\357\274\220\357\274\225", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
};

typedef struct
{
  const char *text;
  SwQuantityName quantity;
  SwUnit unit;
  SwFaultCode code;
} RefuseRow;

#define ADDED SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML

static const RefuseRow refuse_rows[] = {
  { NULL, ADDED, SW_FAULT_MISSING },
  { "", ADDED, SW_FAULT_MISSING },
  { " " NNBSP "\t", ADDED, SW_FAULT_MISSING },
  { "1.234", ADDED, SW_FAULT_AMBIGUOUS },
  { "1,234", ADDED, SW_FAULT_AMBIGUOUS },
  { "12,600 mL", ADDED, SW_FAULT_AMBIGUOUS },
  { "420,000", SW_QUANTITY_COUNT, SW_UNIT_NONE, SW_FAULT_AMBIGUOUS },
  { "drei", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "-", ADDED, SW_FAULT_NOT_A_NUMBER },
  { ".", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "5.", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "5,", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "--5", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "5..5", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1,23,456", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1.23.456", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1,234,56", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1234,567,890", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1,234.567,8", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1 23", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "12 34", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1 2345", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1  234", ADDED, SW_FAULT_UNIT },
  { "\331\241\331\253\331\242\331\243\331\244\331\253\331\241\331\242\331\243", ADDED,
    SW_FAULT_NOT_A_NUMBER },
  { "nan", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "inf", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "0x10", ADDED, SW_FAULT_UNIT },
  { "1e400", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1e-400", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "\377", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "5 kg", ADDED, SW_FAULT_UNIT },
  { "5 mL mL", ADDED, SW_FAULT_UNIT },
  { "5 gal", ADDED, SW_FAULT_UNIT },
  { "5 drops", SW_QUANTITY_STRENGTH_RATIO, SW_UNIT_NONE, SW_FAULT_UNIT },
  { "5 %", SW_QUANTITY_PASS_AT, SW_UNIT_STEP, SW_FAULT_UNIT },
  { "-1", ADDED, SW_FAULT_RANGE },
  { "0", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, SW_FAULT_RANGE },
  { "5000", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, SW_FAULT_RANGE },
  { "5 L", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, SW_FAULT_RANGE },
  { "9.500", SW_QUANTITY_DENSITY, SW_UNIT_G_PER_ML, SW_FAULT_RANGE },
};

static const ReadRow strict_rows[] = {
  { "50 mL", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "50mL", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, 50 },
  { "0.05 mL", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "5e-2 mL", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "50 uL", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, 0.05 },
  { "1.234 mL", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, 1.234 },
  { "420 L", SW_QUANTITY_SYSTEM_VOLUME, SW_UNIT_LITRE, 420 },
  { "3", SW_QUANTITY_PASS_AT, SW_UNIT_STEP, 3 },
  { "1", SW_QUANTITY_STRENGTH_RATIO, SW_UNIT_NONE, 1 },
  { "-10 degC", SW_QUANTITY_SAMPLE_TEMPERATURE, SW_UNIT_CELSIUS, -10 },
};

static const RefuseRow strict_refuse_rows[] = {
  { NULL, ADDED, SW_FAULT_MISSING },
  { "", ADDED, SW_FAULT_MISSING },
  { "5", ADDED, SW_FAULT_UNIT },
  { "5,5 mL", ADDED, SW_FAULT_DECIMAL_COMMA },
  { "1,234 mL", ADDED, SW_FAULT_DECIMAL_COMMA },
  { "1 234 mL", ADDED, SW_FAULT_UNIT },
  { ".5 mL", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "5. mL", ADDED, SW_FAULT_NOT_A_NUMBER },
  { " 5 mL", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "0x10 mL", ADDED, SW_FAULT_UNIT },
  { "inf mL", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "1e999 mL", ADDED, SW_FAULT_NOT_A_NUMBER },
  { MINUS "5 mL", ADDED, SW_FAULT_NOT_A_NUMBER },
  { "5 kg", ADDED, SW_FAULT_UNIT },
  { "-5 mL", ADDED, SW_FAULT_RANGE },
};
/* clang-format on */

static void
test_read (gconstpointer data)
{
  const ReadRow *row = data;
  g_autoptr (GError) error = NULL;
  SwParsedAmount parsed;

  g_assert_true (sw_number_parse (row->text, row->quantity, row->unit, &parsed, &error));
  g_assert_no_error (error);
  sw_assert_close (parsed.value, row->value, 1e-14);
}

static void
test_refuse (gconstpointer data)
{
  const RefuseRow *row = data;
  g_autoptr (GError) error = NULL;
  SwParsedAmount parsed;

  g_assert_false (sw_number_parse (row->text, row->quantity, row->unit, &parsed, &error));
  sw_assert_fault (&error, row->code, row->quantity);
}

static void
test_strict (gconstpointer data)
{
  const ReadRow *row = data;
  g_autoptr (GError) error = NULL;
  SwParsedAmount parsed;

  g_assert_true (sw_number_parse_strict (row->text, row->quantity, row->unit, &parsed, &error));
  g_assert_no_error (error);
  sw_assert_close (parsed.value, row->value, 1e-14);
}

static void
test_strict_refuse (gconstpointer data)
{
  const RefuseRow *row = data;
  g_autoptr (GError) error = NULL;
  SwParsedAmount parsed;

  g_assert_false (sw_number_parse_strict (row->text, row->quantity, row->unit, &parsed, &error));
  sw_assert_fault (&error, row->code, row->quantity);
}

/* What was typed is kept with its unit, and a fault names value and range in the unit asked for. */
static void
test_details (void)
{
  g_autoptr (GError) error = NULL;
  SwParsedAmount parsed;
  const SwFault *fault;

  g_assert_true (sw_number_parse ("1,5 L", ADDED, &parsed, &error));
  g_assert_cmpint ((int)parsed.typed_unit, ==, SW_UNIT_LITRE);
  sw_assert_close (parsed.typed_value, 1.5, 0);
  sw_assert_close (parsed.value, 1500, 1e-15);

  g_assert_false (sw_number_parse ("1.234 mL", ADDED, &parsed, &error));
  fault = sw_fault_get (error);
  sw_assert_close (fault->value, 1234, 0);
  sw_assert_close (fault->low, 1.234, 0);
  g_assert_cmpstr (fault->typed, ==, "1.234 mL");
  g_clear_error (&error);

  g_assert_false (
      sw_number_parse ("3 m3", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_LITRE, &parsed, &error));
  fault = sw_fault_get (error);
  g_assert_cmpint ((int)fault->unit, ==, SW_UNIT_LITRE);
  sw_assert_close (fault->value, 3000, 1e-15);
  sw_assert_close (fault->low, 0.001, 1e-15);
  sw_assert_close (fault->high, 2, 1e-15);
}

static void
add_rows (const char *group, const void *rows, gsize n, gsize size, GTestDataFunc function)
{
  for (gsize i = 0; i < n; i++)
    {
      const char *row = (const char *)rows + i * size;
      const char *text = *(const char *const *)(const void *)row;
      g_autofree char *name = g_strdup_printf ("%02d %s", (int)i, text != NULL ? text : "NULL");
      g_autofree char *plain = g_uri_escape_string (name, " ,.+", FALSE);
      g_autofree char *path = sw_test_path (group, plain);

      g_test_add_data_func (path, row, function);
    }
}
#define ADD_ROWS(group, rows, function)                                                            \
  add_rows (group, rows, G_N_ELEMENTS (rows), sizeof rows[0], function)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD_ROWS ("/number/read", read_rows, test_read);
  ADD_ROWS ("/number/refuse", refuse_rows, test_refuse);
  ADD_ROWS ("/number/strict", strict_rows, test_strict);
  ADD_ROWS ("/number/strict-refuse", strict_refuse_rows, test_strict_refuse);
  g_test_add_func ("/number/details", test_details);
  return g_test_run ();
}
