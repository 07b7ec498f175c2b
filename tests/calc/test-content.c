/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contents: what is refused. The figures themselves are in tests/reference. */
#include "calc/content.h"
#include "support/support.h"

typedef enum
{
  PER_STEP,
  PER_STEP_PRODUCT,
  ACID_NUMBER_OF_CONTENT,
  ACID_NUMBER,
  ACCEPTANCE
} Function;

typedef struct
{
  const char *name;
  Function function;
  double arguments[4];
  SwFaultCode code;
  SwQuantityName quantity;
} ErrorRow;

/* clang-format off */
static const ErrorRow error_rows[] = {
  { "per step, drop 0", PER_STEP, { 0, 1, 50 }, SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME },
  { "per step, drop NaN", PER_STEP, { NAN, 1, 50 }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_DROP_VOLUME },
  { "per step, drop negative", PER_STEP, { -0.05, 1, 50 }, SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME },
  { "per step, strength 0", PER_STEP, { 0.05, 0, 50 }, SW_FAULT_RANGE, SW_QUANTITY_TITRANT_STRENGTH },
  { "per step, strength infinite", PER_STEP, { 0.05, INFINITY, 50 }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_TITRANT_STRENGTH },
  { "per step, sample 0", PER_STEP, { 0.05, 1, 0 }, SW_FAULT_RANGE, SW_QUANTITY_SAMPLE_VOLUME },
  { "per step, sample in L", PER_STEP, { 0.05, 1, 0.05 }, SW_FAULT_RANGE, SW_QUANTITY_SAMPLE_VOLUME },
  { "product, ratio 0", PER_STEP_PRODUCT, { 0.05, 0, 50 }, SW_FAULT_RANGE, SW_QUANTITY_STRENGTH_RATIO },
  { "product, drop", PER_STEP_PRODUCT, { 0, 1, 50 }, SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME },
  { "product, sample", PER_STEP_PRODUCT, { 0.05, 1, -50 }, SW_FAULT_RANGE, SW_QUANTITY_SAMPLE_VOLUME },
  { "acid number of content, density 0", ACID_NUMBER_OF_CONTENT, { 1, 0 }, SW_FAULT_RANGE, SW_QUANTITY_DENSITY },
  { "acid number of content, density in kg/m3", ACID_NUMBER_OF_CONTENT, { 1, 780 }, SW_FAULT_RANGE, SW_QUANTITY_DENSITY },
  { "acid number, volume negative", ACID_NUMBER, { -1, 0, 0.1, 10 }, SW_FAULT_RANGE, SW_QUANTITY_READING_TOTAL },
  { "acid number, blank NaN", ACID_NUMBER, { 1, NAN, 0.1, 10 }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_BLANK },
  { "acid number, blank above the sample", ACID_NUMBER, { 1, 2, 0.1, 10 }, SW_FAULT_ORDER, SW_QUANTITY_READING_TOTAL },
  { "acid number, strength", ACID_NUMBER, { 1, 0, 0, 10 }, SW_FAULT_RANGE, SW_QUANTITY_TITRANT_STRENGTH },
  { "acid number, weight 0", ACID_NUMBER, { 1, 0, 0.1, 0 }, SW_FAULT_RANGE, SW_QUANTITY_WEIGHING },
  { "acceptance, sample above the blank", ACCEPTANCE, { 1, 2, 0.1, 10 }, SW_FAULT_ORDER, SW_QUANTITY_BLANK },
  { "acceptance, blank infinite", ACCEPTANCE, { INFINITY, 2, 0.1, 10 }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_BLANK },
  { "acceptance, sample negative", ACCEPTANCE, { 1, -2, 0.1, 10 }, SW_FAULT_RANGE, SW_QUANTITY_READING_TOTAL },
  { "acceptance, strength", ACCEPTANCE, { 2, 1, -0.1, 10 }, SW_FAULT_RANGE, SW_QUANTITY_TITRANT_STRENGTH },
  { "acceptance, weight", ACCEPTANCE, { 2, 1, 0.1, NAN }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_WEIGHING },
};
/* clang-format on */

static gboolean
call (const ErrorRow *row, double *result, GError **error)
{
  const double *a = row->arguments;

  switch (row->function)
    {
    case PER_STEP:
      return sw_content_per_step (a[0], a[1], a[2], result, error);
    case PER_STEP_PRODUCT:
      return sw_content_per_step_product (a[0], a[1], a[2], result, error);
    case ACID_NUMBER_OF_CONTENT:
      return sw_content_as_acid_number (a[0], a[1], result, error);
    case ACID_NUMBER:
      return sw_acid_number (a[0], a[1], a[2], a[3], result, error);
    case ACCEPTANCE:
      return sw_acid_acceptance (a[0], a[1], a[2], a[3], result, error);
    default:
      g_assert_not_reached ();
    }
}

/* Refused, and nothing is written. */
static void
test_error (gconstpointer data)
{
  const ErrorRow *row = data;
  g_autoptr (GError) error = NULL;
  double result = 77;

  g_assert_false (call (row, &result, &error));
  sw_assert_fault (&error, row->code, row->quantity);
  g_assert_cmpfloat (result, ==, 77);
}

/* Both units of account agree where the titrant is the product: mmol/L = mL/L times its strength.
 */
static void
test_units_agree (void)
{
  double mmol_l;
  double ml_l;

  g_assert_true (sw_content_per_step (0.05, 7.5, 50, &mmol_l, NULL));
  g_assert_true (sw_content_per_step_product (0.05, 1, 50, &ml_l, NULL));
  sw_assert_close (mmol_l, ml_l * 7.5, 1e-14);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/content/error", error_rows, test_error);
  g_test_add_func ("/content/units-agree", test_units_agree);
  return g_test_run ();
}
