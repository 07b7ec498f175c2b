/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From dose to jug: rounding up once, refusing a coarse jug, splitting, and the supplier's chart.
 */
#include "calc/dose.h"
#include "support/support.h"

/* 3 drops of 0.05 mL of the product itself on 50 mL, 420 L; every volume exact. */
static SwDoseInput
make_input (void)
{
  return (SwDoseInput){ .step_ml = SW_EXACT (0.05),
                        .sample_ml = SW_EXACT (50),
                        .system_l = SW_EXACT (420),
                        .titrant = SW_UNKNOWN,
                        .product = SW_UNKNOWN,
                        .strength_ratio = SW_EXACT (1),
                        .caustic_mmol = SW_EXACT (0),
                        .acid_at = 2,
                        .pass_at = 3 };
}

typedef struct
{
  const char *name;
  double acid_at;
  double pass_at;
  double extra;
  double graduation_ml;
  double dose_ml;
  double measure_ml; /* 0: refused as too coarse */
} RoundRow;

static const RoundRow round_rows[] = {
  { "whole already", 2, 3, 0, 20, 1260, 1260 },
  { "up", 2, 3, 0, 50, 1260, 1300 },
  { "up by most of a mark", 2, 3, 0, 100, 1260, 1300 },
  { "up by 90, under 10 %", 2, 3, 0, 150, 1260, 1350 },
  { "up by 140, over 10 %", 2, 3, 0, 200, 1260, 0 },
  { "extra is rounded with the rest", 2, 3, 0.1, 20, 1302, 1320 },
  /* 20 drops: 8400; 250 more is 3 % but over half of a drop's 420. */
  { "half a drop's worth", 19, 20, 0, 8650, 8400, 0 },
  { "just half a drop's worth", 19, 20, 0, 8610, 8400, 8610 },
  { "exactly 10 %", 3, 4, 0, 1848, 1680, 1848 },
  { "just over 10 %", 3, 4, 0, 1848.84, 1680, 0 },
  { "just over half a drop's worth", 19, 20, 0, 8611.05, 8400, 0 },
  { "not rounded", 2, 3, 0, NAN, 1260, NAN },
};

static void
test_round (gconstpointer data)
{
  const RoundRow *row = data;
  SwDoseInput input = make_input ();
  SwDoseRules rules = { row->graduation_ml, INFINITY, INFINITY };
  g_autoptr (GError) error = NULL;
  SwDose dose;

  input.acid_at = row->acid_at;
  input.pass_at = row->pass_at;
  input.extra = row->extra;
  if (row->graduation_ml > 5000)
    {
      /* No jug is that coarse: the same in a machine and a jug a tenth as large. */
      input.system_l.value /= 10;
      rules.graduation_ml /= 10;
    }
  if (row->measure_ml == 0)
    {
      g_assert_false (sw_dose_compute (&input, &rules, &dose, &error));
      sw_assert_fault (&error, SW_FAULT_COARSE, SW_QUANTITY_GRADUATION);
      return;
    }
  g_assert_true (sw_dose_compute (&input, &rules, &dose, &error));
  sw_assert_close (dose.dose_ml.value, row->dose_ml * input.system_l.value / 420, 1e-12);
  sw_assert_close (dose.measure_ml, row->measure_ml * input.system_l.value / 420, 1e-12);
}

/* The product of the factors may end a hair above a whole number of marks: that is no reason for
 * one more. */
static void
test_round_off (void)
{
  SwDoseRules rules = { 20, INFINITY, INFINITY };

  for (double n = 1; n <= 200; n++)
    {
      SwDoseInput input = make_input ();
      SwDose dose;

      input.acid_at = n - 1;
      input.pass_at = n;
      g_assert_true (sw_dose_compute (&input, &rules, &dose, NULL));
      g_assert_cmpfloat (dose.measure_ml, ==, 420 * n);
    }
}

typedef struct
{
  const char *name;
  double measure_ml;
  SwDoseRules rules;
  double parts[5];
  gsize n;
} SplitRow;

static const SplitRow split_rows[] = {
  { "one", 1260, { 20, INFINITY, INFINITY }, { 1260 }, 1 },
  { "just at the limit", 1260, { 20, 1260, INFINITY }, { 1260 }, 1 },
  { "three", 1260, { 20, 500, INFINITY }, { 500, 500, 260 }, 3 },
  { "limit between two marks", 1260, { 20, 510, INFINITY }, { 500, 500, 260 }, 3 },
  { "even", 1000, { 20, 500, INFINITY }, { 500, 500 }, 2 },
  { "no marks", 1260, { NAN, 500.5, INFINITY }, { 500.5, 500.5, 259 }, 3 },
  { "decimal marks", 0.3, { 0.1, 0.1, INFINITY }, { 0.1, 0.1, 0.1 }, 3 },
  { "nothing", 0, { 20, 500, INFINITY }, { 0 }, 0 },
};

static void
test_split (gconstpointer data)
{
  const SplitRow *row = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) parts = sw_dose_split (row->measure_ml, &row->rules, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (parts->len, ==, row->n);
  for (gsize i = 0; i < row->n; i++)
    sw_assert_close (g_array_index (parts, double, i), row->parts[i], 1e-12);
}

typedef struct
{
  const char *name;
  double measure_ml;
  SwDoseRules rules;
  SwFaultCode code;
  SwQuantityName quantity;
} SplitErrorRow;

static const SplitErrorRow split_error_rows[] = {
  { "negative", -20, { 20, 500, INFINITY }, SW_FAULT_RANGE, SW_QUANTITY_ADDED_AMOUNT },
  { "NaN", NAN, { 20, 500, INFINITY }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_ADDED_AMOUNT },
  { "between marks", 1250, { 20, 500, INFINITY }, SW_FAULT_COARSE, SW_QUANTITY_GRADUATION },
  { "limit below the first mark",
    1260,
    { 20, 19, INFINITY },
    SW_FAULT_COARSE,
    SW_QUANTITY_GRADUATION },
  { "no limit on file", 1260, { 20, NAN, INFINITY }, SW_FAULT_MISSING, SW_QUANTITY_LIMIT_EACH },
  { "limit negative", 1260, { 20, -1, INFINITY }, SW_FAULT_RANGE, SW_QUANTITY_LIMIT_EACH },
  { "limit mistyped", 1260, { NAN, 0.001, INFINITY }, SW_FAULT_RANGE, SW_QUANTITY_LIMIT_EACH },
};

static void
test_split_error (gconstpointer data)
{
  const SplitErrorRow *row = data;
  g_autoptr (GError) error = NULL;

  g_assert_null (sw_dose_split (row->measure_ml, &row->rules, &error));
  sw_assert_fault (&error, row->code, row->quantity);
}

/* Property: the parts add up, none is above the limit or off the marks, none is larger than the one
 * before. */
static void
test_split_fuzz (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20261124);

  for (int i = 0; i < 20000; i++)
    {
      double marks = g_rand_int_range (random, 1, 400);
      SwDoseRules rules = { g_rand_double_range (random, 0.05, 50), INFINITY, INFINITY };
      g_autoptr (GArray) parts = NULL;
      double sum = 0;

      rules.limit_each_ml = rules.graduation_ml * g_rand_double_range (random, 1, 100);
      parts = sw_dose_split (marks * rules.graduation_ml, &rules, NULL);
      g_assert_nonnull (parts);
      for (guint k = 0; k < parts->len; k++)
        {
          double part = g_array_index (parts, double, k);
          double quotient = part / rules.graduation_ml;

          sum += part;
          g_assert_cmpfloat (part, >, 0);
          g_assert_cmpfloat (part, <=, rules.limit_each_ml * (1 + 1e-9));
          sw_assert_close (quotient, round (quotient), 1e-9);
          if (k > 0)
            g_assert_cmpfloat (part, <=, g_array_index (parts, double, k - 1) * (1 + 1e-12));
        }
      sw_assert_close (sum, marks * rules.graduation_ml, 1e-9);
    }
}

static void
test_supplier (void)
{
  gboolean flagged = TRUE;

  sw_assert_close (sw_dose_supplier_ratio (1000, 1100, &flagged), 1.1, 1e-15);
  g_assert_false (flagged);
  sw_assert_close (sw_dose_supplier_ratio (1000, 1101, &flagged), 1.101, 1e-15);
  g_assert_true (flagged);
  sw_dose_supplier_ratio (1000, 900, &flagged);
  g_assert_false (flagged);
  sw_dose_supplier_ratio (1000, 899, &flagged);
  g_assert_true (flagged);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/dose/round", round_rows, test_round);
  SW_TEST_ROWS ("/dose/split", split_rows, test_split);
  SW_TEST_ROWS ("/dose/split-error", split_error_rows, test_split_error);
  g_test_add_func ("/dose/round-off", test_round_off);
  g_test_add_func ("/dose/split-fuzz", test_split_fuzz);
  g_test_add_func ("/dose/supplier", test_supplier);
  return g_test_run ();
}
