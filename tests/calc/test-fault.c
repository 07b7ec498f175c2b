/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults carry what a field needs to say; the range table covers every quantity; facts keep their
 * text. */
#include "calc/fact.h"
#include "calc/range.h"
#include "support/support.h"

#include <string.h>

typedef struct
{
  const char *name;
  SwFault fault;
  const char *message;
} MessageRow;

#define ALL .low = -INFINITY, .high = INFINITY

static const MessageRow message_rows[] = {
  { "range",
    { SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME, 0, 0.001, 5, SW_UNIT_ML },
    "drop_volume 0 mL is outside 0.001 to 5 mL" },
  { "range, no unit",
    { SW_FAULT_RANGE, SW_QUANTITY_STRENGTH_RATIO, -1, 0.5, 2, SW_UNIT_NONE },
    "strength_ratio -1 is outside 0.5 to 2" },
  { "range, as typed",
    { SW_FAULT_RANGE, SW_QUANTITY_SYSTEM_VOLUME, 0, 1, 9, SW_UNIT_LITRE, .typed = "0 L" },
    "system_volume \"0 L\" is outside 1 to 9 L" },
  { "range, open above",
    { SW_FAULT_RANGE, SW_QUANTITY_COUNT, -2, 0, INFINITY, SW_UNIT_NONE },
    "count -2 is outside at least 0" },
  { "range, open below",
    { SW_FAULT_RANGE, SW_QUANTITY_COUNT, 7, -INFINITY, 5, SW_UNIT_NONE },
    "count 7 is outside at most 5" },
  { "missing",
    { SW_FAULT_MISSING, SW_QUANTITY_SAMPLE_VOLUME, NAN, ALL },
    "sample_volume is missing" },
  { "no number",
    { SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_BLANK, NAN, 0, 100, SW_UNIT_STEP, .typed = "two" },
    "blank \"two\" is no number (allowed: 0 to 100 steps)" },
  { "uncertainty of",
    { SW_FAULT_RANGE, SW_QUANTITY_UNCERTAINTY, -1, 0, 2, SW_UNIT_ML,
      .of = SW_QUANTITY_DROP_VOLUME },
    "uncertainty of drop_volume -1 mL is outside 0 to 2 mL" },
  { "unit",
    { SW_FAULT_UNIT, SW_QUANTITY_SYSTEM_VOLUME, NAN, ALL, .typed = "4 kg" },
    "system_volume \"4 kg\" has no unit that fits" },
  { "ambiguous",
    { SW_FAULT_AMBIGUOUS, SW_QUANTITY_ADDED_AMOUNT, 1234, 1.234, INFINITY, .typed = "1.234" },
    "added_amount \"1.234\" can be read in two ways" },
  { "decimal comma",
    { SW_FAULT_DECIMAL_COMMA, SW_QUANTITY_DROP_VOLUME, NAN, ALL, .typed = "0,05" },
    "drop_volume \"0,05\" has a decimal comma; use a point" },
  { "order",
    { SW_FAULT_ORDER, SW_QUANTITY_READING_TOTAL, 2, 3, 10, SW_UNIT_STEP },
    "reading_total 2 steps is out of order (allowed: 3 to 10 steps)" },
  { "combination",
    { SW_FAULT_COMBINATION, SW_QUANTITY_BLANK, 1, ALL, SW_UNIT_STEP },
    "blank 1 steps excludes another input" },
  { "coarse",
    { SW_FAULT_COARSE, SW_QUANTITY_GRADUATION, 500, 0, 126, SW_UNIT_ML },
    "graduation 500 mL is too coarse (allowed: 0 to 126 mL)" },
  { "text",
    { SW_FAULT_TEXT, SW_QUANTITY_NAME, NAN, ALL, .typed = "" },
    "name \"\" is empty, too long or taken" },
};

static void
test_message (gconstpointer data)
{
  const MessageRow *row = data;
  g_autoptr (GError) error = NULL;
  const SwFault *fault;

  g_assert_false (sw_fault_set (&error, &row->fault));
  g_assert_cmpstr (error->message, ==, row->message);
  fault = sw_fault_get (error);
  g_assert_nonnull (fault);
  g_assert_cmpint (error->code, ==, (int)row->fault.code);
  g_assert_cmpint ((int)fault->quantity, ==, (int)row->fault.quantity);
  sw_assert_close (fault->value, row->fault.value, 0);
  g_assert_cmpstr (fault->typed, ==, row->fault.typed);
}

/* A copied error owns its own text. */
static void
test_copy (void)
{
  char typed[] = "0,05";
  SwFault fault = { SW_FAULT_DECIMAL_COMMA, SW_QUANTITY_DROP_VOLUME, NAN, ALL, .typed = typed };
  g_autoptr (GError) copy = NULL;
  GError *error = NULL;

  sw_fault_set (&error, &fault);
  typed[0] = '9';
  copy = g_error_copy (error);
  g_error_free (error);
  g_assert_cmpstr (sw_fault_get (copy)->typed, ==, "0,05");
}

static void
test_foreign (void)
{
  g_autoptr (GError) error = g_error_new_literal (G_FILE_ERROR, G_FILE_ERROR_NOENT, "none");
  SwFault fault = { SW_FAULT_MISSING, SW_QUANTITY_NAME };

  g_assert_null (sw_fault_get (error));
  g_assert_null (sw_fault_get (NULL));
  g_assert_false (sw_fault_set (NULL, &fault));
}

/* Every quantity has its own snake_case name. */
static void
test_names (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (int i = 0; i < SW_N_QUANTITIES; i++)
    {
      const char *name = sw_quantity_name ((SwQuantityName)i);

      g_assert_nonnull (name);
      g_assert_cmpuint (strspn (name, "abcdefghijklmnopqrstuvwxyz_"), ==, strlen (name));
      g_assert_true (g_hash_table_add (seen, (gpointer)name));
    }
}

/* Both ends are allowed, the next number beyond is not, and neither are NaN and the infinities. */
static void
test_range (gconstpointer data)
{
  SwQuantityName quantity = (SwQuantityName)GPOINTER_TO_INT (data);
  g_autoptr (GError) error = NULL;
  double low = NAN;
  double high = NAN;

  g_assert_true (sw_range_get (quantity, &low, &high, NULL));
  g_assert_cmpfloat (low, <, high);
  g_assert_true (sw_range_check (quantity, low, &error));
  g_assert_no_error (error);
  g_assert_false (sw_range_check (quantity, nextafter (low, -INFINITY), &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, quantity);
  g_assert_false (sw_range_check (quantity, NAN, &error));
  sw_assert_fault (&error, SW_FAULT_NOT_A_NUMBER, quantity);
  g_assert_false (sw_range_check (quantity, INFINITY, &error));
  sw_assert_fault (&error, SW_FAULT_NOT_A_NUMBER, quantity);
  if (isinf (high))
    return;
  g_assert_true (sw_range_check (quantity, high, &error));
  g_assert_no_error (error);
  g_assert_false (sw_range_check (quantity, nextafter (high, INFINITY), &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, quantity);
}

typedef struct
{
  const char *name;
  SwQuantityName quantity;
  SwQuantity value;
  int code; /* -1: fine */
  SwQuantityName about;
} QuantityRow;

static const QuantityRow quantity_rows[] = {
  { "fine", SW_QUANTITY_DROP_VOLUME, { 0.05, 0.002, 9 }, -1 },
  { "exact", SW_QUANTITY_DROP_VOLUME, { 0.05, 0, INFINITY }, -1 },
  { "half of it", SW_QUANTITY_DROP_VOLUME, { 0.05, 0.025, 3 }, -1 },
  { "may be 0, so any uncertainty", SW_QUANTITY_CAUSTIC, { 0, 0.1, INFINITY }, -1 },
  { "unknown",
    SW_QUANTITY_DROP_VOLUME,
    { NAN, 0, INFINITY },
    SW_FAULT_MISSING,
    SW_QUANTITY_DROP_VOLUME },
  { "value", SW_QUANTITY_DROP_VOLUME, { 0, 0, INFINITY }, SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME },
  { "negative u",
    SW_QUANTITY_DROP_VOLUME,
    { 1, -0.1, 9 },
    SW_FAULT_RANGE,
    SW_QUANTITY_UNCERTAINTY },
  { "u above half",
    SW_QUANTITY_DROP_VOLUME,
    { 1, 0.502, 9 },
    SW_FAULT_RANGE,
    SW_QUANTITY_UNCERTAINTY },
  { "u NaN",
    SW_QUANTITY_DROP_VOLUME,
    { 1, NAN, 9 },
    SW_FAULT_NOT_A_NUMBER,
    SW_QUANTITY_UNCERTAINTY },
  { "u infinite",
    SW_QUANTITY_CAUSTIC,
    { 1, INFINITY, 9 },
    SW_FAULT_NOT_A_NUMBER,
    SW_QUANTITY_UNCERTAINTY },
  { "half a freedom",
    SW_QUANTITY_DROP_VOLUME,
    { 1, 0.1, 0.5 },
    SW_FAULT_RANGE,
    SW_QUANTITY_FREEDOM },
  { "no freedom", SW_QUANTITY_DROP_VOLUME, { 1, 0.1, 0 }, SW_FAULT_RANGE, SW_QUANTITY_FREEDOM },
  { "freedom NaN",
    SW_QUANTITY_DROP_VOLUME,
    { 1, 0.1, NAN },
    SW_FAULT_NOT_A_NUMBER,
    SW_QUANTITY_FREEDOM },
};

static void
test_quantity (gconstpointer data)
{
  const QuantityRow *row = data;
  g_autoptr (GError) error = NULL;
  gboolean fine = sw_range_check_quantity (row->quantity, row->value, &error);

  g_assert_true (fine == (row->code < 0));
  g_assert_true (fine == (error == NULL));
  if (!fine)
    sw_assert_fault (&error, (SwFaultCode)row->code, row->about);
}

static void
test_no_number (void)
{
  const SwQuantityName texts[] = { SW_QUANTITY_NONE, SW_QUANTITY_DATE,   SW_QUANTITY_NAME,
                                   SW_QUANTITY_CODE, SW_QUANTITY_REASON, SW_QUANTITY_SECRET };
  int n = 0;

  for (int i = 0; i < SW_N_QUANTITIES; i++)
    n += sw_range_get ((SwQuantityName)i, NULL, NULL, NULL) ? 0 : 1;
  g_assert_cmpint (n, ==, (int)G_N_ELEMENTS (texts));
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_assert_false (sw_range_get (texts[i], NULL, NULL, NULL));
}

static void
test_fact (void)
{
  /* 94 letters and a two-byte character would end at byte 96: there is room for 95 and the NUL. */
  g_autofree char *fits = g_strnfill (95, 'a');
  g_autofree char *letters = g_strnfill (94, 'a');
  g_autofree char *cut = g_strconcat (letters, "\303\244", NULL);

  g_assert_cmpstr (sw_fact_with_text (SW_FACT_LOT_EXPIRED, fits).text, ==, fits);
  g_assert_cmpstr (sw_fact_with_text (SW_FACT_LOT_EXPIRED, cut).text, ==, letters);
  g_assert_cmpstr (sw_fact_with_text (SW_FACT_LOT_EXPIRED, NULL).text, ==, "");
  g_assert_cmpint ((int)sw_fact_with_text (SW_FACT_LOT_EXPIRED, "L-1").code, ==,
                   SW_FACT_LOT_EXPIRED);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/fault/message", message_rows, test_message);
  SW_TEST_ROWS ("/range/quantity", quantity_rows, test_quantity);
  for (int i = 0; i < SW_N_QUANTITIES; i++)
    {
      g_autofree char *path = sw_test_path ("/range/table", sw_quantity_name ((SwQuantityName)i));
      if (sw_range_get ((SwQuantityName)i, NULL, NULL, NULL))
        g_test_add_data_func (path, GINT_TO_POINTER (i), test_range);
    }
  g_test_add_func ("/range/no-number", test_no_number);
  g_test_add_func ("/fault/copy", test_copy);
  g_test_add_func ("/fault/foreign", test_foreign);
  g_test_add_func ("/fault/names", test_names);
  g_test_add_func ("/fact/text", test_fact);
  return g_test_run ();
}
