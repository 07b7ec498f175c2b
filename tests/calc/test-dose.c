/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dose: rules of 2.3 and 2.4, and everything that is refused. Published and worked figures are
 * in tests/reference. */
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

/* The same with a dilute titrant and volume doubt. */
static SwDoseInput
make_doubtful (void)
{
  SwDoseInput input = make_input ();

  input.step_ml = (SwQuantity){ 0.05, 0.002, 9 };
  input.sample_ml.u = 0.3;
  input.system_l.u = 12;
  input.titrant = (SwQuantity){ 0.1, 0.001, INFINITY };
  input.product = (SwQuantity){ 7.5, 0.15, INFINITY };
  input.strength_ratio = SW_UNKNOWN;
  return input;
}

static SwDoseRules
make_rules (void)
{
  return (SwDoseRules){ 20, INFINITY, INFINITY };
}

static SwDose
compute (const SwDoseInput *input, const SwDoseRules *rules)
{
  g_autoptr (GError) error = NULL;
  SwDose dose;

  g_assert_true (sw_dose_compute (input, rules, &dose, &error));
  g_assert_no_error (error);
  return dose;
}

typedef void (*Spoil) (SwDoseInput *input, SwDoseRules *rules, double value);

#define SPOIL(name, member)                                                                        \
  static void name (SwDoseInput *input, SwDoseRules *rules, double value) { member = value; }

SPOIL (set_step, input->step_ml.value)
SPOIL (set_step_u, input->step_ml.u)
SPOIL (set_step_freedom, input->step_ml.freedom)
SPOIL (set_sample, input->sample_ml.value)
SPOIL (set_system, input->system_l.value)
SPOIL (set_titrant, input->titrant.value)
SPOIL (set_product, input->product.value)
SPOIL (set_ratio, input->strength_ratio.value)
SPOIL (set_caustic, input->caustic_mmol.value)
SPOIL (set_acid_at, input->acid_at)
SPOIL (set_pass_at, input->pass_at)
SPOIL (set_blank, input->blank)
SPOIL (set_extra, input->extra)
SPOIL (set_band, input->reserve_high)
SPOIL (set_graduation, rules->graduation_ml)
SPOIL (set_limit_each, rules->limit_each_ml)
SPOIL (set_limit_total, rules->limit_total_ml)

static void
set_blank_and_caustic (SwDoseInput *input, SwDoseRules *rules, double value)
{
  input->blank = 1;
  input->caustic_mmol.value = value;
}

static void
set_counting_caustic (SwDoseInput *input, SwDoseRules *rules, double value)
{
  input->caustic_counts = TRUE;
  input->caustic_mmol.value = value;
}

static void
set_both_strengths (SwDoseInput *input, SwDoseRules *rules, double value)
{
  input->strength_ratio = SW_UNKNOWN;
  input->titrant = SW_EXACT (0.1);
  input->product = SW_EXACT (value);
}

static void
set_reserve (SwDoseInput *input, SwDoseRules *rules, double value)
{
  input->direction = SW_DIRECTION_ACID;
  input->reserve_high = value;
}

static void
set_reserve_blank (SwDoseInput *input, SwDoseRules *rules, double value)
{
  set_reserve (input, rules, 6);
  input->blank = value;
}

static void
set_reserve_caustic (SwDoseInput *input, SwDoseRules *rules, double value)
{
  set_reserve (input, rules, 6);
  input->caustic_mmol.value = value;
}

typedef struct
{
  const char *name;
  Spoil spoil;
  double value;
  SwFaultCode code;
  SwQuantityName quantity;
} ErrorRow;

/* clang-format off */
static const ErrorRow error_rows[] = {
  { "drop unknown", set_step, NAN, SW_FAULT_MISSING, SW_QUANTITY_DROP_VOLUME },
  { "drop 0", set_step, 0, SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME },
  { "drop negative", set_step, -0.05, SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME },
  { "drop infinite", set_step, INFINITY, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_DROP_VOLUME },
  { "drop in uL", set_step, 50, SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME },
  { "u negative", set_step_u, -1, SW_FAULT_RANGE, SW_QUANTITY_UNCERTAINTY },
  { "u NaN", set_step_u, NAN, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_UNCERTAINTY },
  { "freedom 0", set_step_freedom, 0, SW_FAULT_RANGE, SW_QUANTITY_FREEDOM },
  { "sample unknown", set_sample, NAN, SW_FAULT_MISSING, SW_QUANTITY_SAMPLE_VOLUME },
  { "sample 0", set_sample, 0, SW_FAULT_RANGE, SW_QUANTITY_SAMPLE_VOLUME },
  { "sample negative", set_sample, -50, SW_FAULT_RANGE, SW_QUANTITY_SAMPLE_VOLUME },
  { "system unknown", set_system, NAN, SW_FAULT_MISSING, SW_QUANTITY_SYSTEM_VOLUME },
  { "system 0", set_system, 0, SW_FAULT_RANGE, SW_QUANTITY_SYSTEM_VOLUME },
  { "system infinite", set_system, -INFINITY, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_SYSTEM_VOLUME },
  { "titrant 0", set_titrant, 0, SW_FAULT_RANGE, SW_QUANTITY_TITRANT_STRENGTH },
  { "product 0", set_product, 0, SW_FAULT_RANGE, SW_QUANTITY_PRODUCT_STRENGTH },
  { "product 0, both given", set_both_strengths, 0, SW_FAULT_RANGE, SW_QUANTITY_PRODUCT_STRENGTH },
  { "no strength at all", set_ratio, NAN, SW_FAULT_MISSING, SW_QUANTITY_STRENGTH_RATIO },
  { "ratio 0", set_ratio, 0, SW_FAULT_RANGE, SW_QUANTITY_STRENGTH_RATIO },
  { "ratio negative", set_ratio, -1, SW_FAULT_RANGE, SW_QUANTITY_STRENGTH_RATIO },
  { "caustic unknown", set_caustic, NAN, SW_FAULT_MISSING, SW_QUANTITY_CAUSTIC },
  { "caustic negative", set_caustic, -0.1, SW_FAULT_RANGE, SW_QUANTITY_CAUSTIC },
  { "caustic counts, strength unknown", set_counting_caustic, 0.1, SW_FAULT_MISSING, SW_QUANTITY_TITRANT_STRENGTH },
  { "acid at unknown", set_acid_at, NAN, SW_FAULT_MISSING, SW_QUANTITY_ACID_AT },
  { "acid at negative", set_acid_at, -1, SW_FAULT_RANGE, SW_QUANTITY_ACID_AT },
  { "pass at unknown", set_pass_at, NAN, SW_FAULT_MISSING, SW_QUANTITY_PASS_AT },
  { "pass at the acid", set_pass_at, 2, SW_FAULT_ORDER, SW_QUANTITY_PASS_AT },
  { "pass below the acid", set_pass_at, 1, SW_FAULT_ORDER, SW_QUANTITY_PASS_AT },
  { "blank unknown", set_blank, NAN, SW_FAULT_MISSING, SW_QUANTITY_BLANK },
  { "blank negative", set_blank, -1, SW_FAULT_RANGE, SW_QUANTITY_BLANK },
  { "pass at the blank", set_blank, 3, SW_FAULT_ORDER, SW_QUANTITY_PASS_AT },
  { "blank and caustic", set_blank_and_caustic, 0.1, SW_FAULT_COMBINATION, SW_QUANTITY_BLANK },
  { "extra negative", set_extra, -1, SW_FAULT_RANGE, SW_QUANTITY_EXTRA },
  { "extra unknown", set_extra, NAN, SW_FAULT_MISSING, SW_QUANTITY_EXTRA },
  { "a band with a base titrant", set_band, 6, SW_FAULT_COMBINATION, SW_QUANTITY_RESERVE_HIGH },
  { "reserve at the high mark", set_reserve, 2, SW_FAULT_RANGE, SW_QUANTITY_RESERVE_HIGH },
  { "reserve, no mark", set_reserve, NAN, SW_FAULT_MISSING, SW_QUANTITY_RESERVE_HIGH },
  { "reserve and blank", set_reserve_blank, 1, SW_FAULT_COMBINATION, SW_QUANTITY_BLANK },
  { "reserve and caustic", set_reserve_caustic, 0.1, SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC },
  { "graduation 0", set_graduation, 0, SW_FAULT_RANGE, SW_QUANTITY_GRADUATION },
  { "graduation negative", set_graduation, -20, SW_FAULT_RANGE, SW_QUANTITY_GRADUATION },
  { "graduation infinite", set_graduation, INFINITY, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_GRADUATION },
  { "no limit on file", set_limit_each, NAN, SW_FAULT_MISSING, SW_QUANTITY_LIMIT_EACH },
  { "limit 0", set_limit_each, 0, SW_FAULT_RANGE, SW_QUANTITY_LIMIT_EACH },
  { "no total limit on file", set_limit_total, NAN, SW_FAULT_MISSING, SW_QUANTITY_LIMIT_TOTAL },
  { "total limit too low", set_limit_total, 1259, SW_FAULT_RANGE, SW_QUANTITY_LIMIT_TOTAL },
  { "total limit used up", set_limit_total, 0, SW_FAULT_RANGE, SW_QUANTITY_LIMIT_TOTAL },
  { "total limit overdrawn", set_limit_total, -100, SW_FAULT_RANGE, SW_QUANTITY_LIMIT_TOTAL },
  /* 1260 rounded up to 1500 adds 240: over 10 %, and over half of 420. */
  { "jug too coarse", set_graduation, 500, SW_FAULT_COARSE, SW_QUANTITY_GRADUATION },
};
/* clang-format on */

static void
test_error (gconstpointer data)
{
  const ErrorRow *row = data;
  SwDoseInput input = make_input ();
  SwDoseRules rules = make_rules ();
  g_autoptr (GError) error = NULL;
  SwDose dose = { .extra_ml = 77 };

  row->spoil (&input, &rules, row->value);
  g_assert_false (sw_dose_compute (&input, &rules, &dose, &error));
  sw_assert_fault (&error, row->code, row->quantity);
  g_assert_cmpfloat (dose.extra_ml, ==, 77);
}

static void
test_no_rules (void)
{
  SwDoseInput input = make_input ();
  SwDose dose = compute (&input, NULL);

  sw_assert_close (dose.dose_ml.value, 1260, 1e-12);
  g_assert_true (isnan (dose.measure_ml));
}

static void
test_step_too_wide (void)
{
  SwDoseInput input = make_input ();
  SwDoseRules rules = make_rules ();
  SwDose dose;

  input.acid_at = 1;
  dose = compute (&input, &rules);
  g_assert_true (dose.step_too_wide);
  g_assert_true (isnan (dose.dose_ml.value));
  g_assert_true (isnan (dose.measure_ml));
  sw_assert_close (dose.bounds_ml.low, 420, 1e-12);
  sw_assert_close (dose.bounds_ml.high, 1260, 1e-12);
}

/* With one relative uncertainty U_f for both ends the design's formula must come out. */
static void
test_doubt (void)
{
  SwDoseInput input = make_input ();
  SwDose dose;
  double relative;

  input.system_l = (SwQuantity){ 420, 21, 8 };
  relative = 21 / 420.0 * sw_coverage_95 (8);
  dose = compute (&input, NULL);
  sw_assert_close (dose.doubt_ml.low, 840 * (1 - relative), 1e-12);
  sw_assert_close (dose.doubt_ml.high, 1260 * (1 + relative), 1e-12);
  g_assert_true (dose.budget.lines[dose.budget.dominant].name == SW_LINE_END_POINT);
}

/* A blank can put the low end below 0: doubt then widens it downwards. */
static void
test_doubt_negative_low (void)
{
  SwDoseInput input = make_input ();
  SwDose dose;

  input.system_l = (SwQuantity){ 420, 21, INFINITY };
  input.acid_at = 1;
  input.pass_at = 2;
  input.blank = 1.5;
  dose = compute (&input, NULL);
  sw_assert_close (dose.net.low, -0.5, 1e-15);
  sw_assert_close (dose.net.high, 1.5, 1e-15);
  sw_assert_close (dose.bounds_ml.low, -210, 1e-12);
  sw_assert_close (dose.doubt_ml.low, -210 * (1 + 0.05 * sw_coverage_95 (INFINITY)), 1e-12);
}

static void
test_blank (void)
{
  SwDoseInput input = make_input ();
  SwDose dose;

  input.acid_at = 4;
  input.pass_at = 5;
  input.blank = 2;
  dose = compute (&input, NULL);
  /* Net acid (4 - 2, 5 - 2 + 1]; the count and the blank are two rectangles one step wide. */
  sw_assert_close (dose.bounds_ml.low, 2 * 420, 1e-12);
  sw_assert_close (dose.bounds_ml.high, 4 * 420, 1e-12);
  sw_assert_close (dose.best_ml.value, 3 * 420, 1e-12);
  sw_assert_close (dose.best_ml.u, 420 * sqrt (2 / 12.0), 1e-12);
  sw_assert_close (dose.dose_ml.value, 4 * 420, 1e-12);
}

/* A large counting addition: the drop size hardly matters, the addition does. */
static void
test_counting_caustic (void)
{
  SwDoseInput input = make_doubtful ();
  SwDose dose;
  double drop;

  input.caustic_mmol = (SwQuantity){ 0.1, 0.002, INFINITY };
  input.caustic_counts = TRUE;
  dose = compute (&input, NULL);
  drop = dose.budget.lines[1].share;
  g_assert_true (dose.budget.lines[1].name == SW_LINE_DROP_VOLUME);
  g_assert_cmpfloat (drop, <, 0.02);
  g_assert_true (dose.budget.lines[dose.budget.n - 1].name == SW_LINE_CAUSTIC);
  sw_assert_close (dose.net.low, 22, 1e-12);
  sw_assert_close (dose.net.high, 23, 1e-12);
  sw_assert_close (dose.content_mmol_l.high, 2.3, 1e-12);
}

/* An addition that does not count changes nothing. */
static void
test_silent_caustic (void)
{
  SwDoseInput input = make_doubtful ();
  SwDose without = compute (&input, NULL);
  SwDose with;

  input.caustic_mmol = (SwQuantity){ 0.1, 0.002, INFINITY };
  with = compute (&input, NULL);
  g_assert_cmpfloat (with.dose_ml.value, ==, without.dose_ml.value);
  g_assert_cmpfloat (with.best_ml.u, ==, without.best_ml.u);
}

/* The product itself as titrant: its strength cancels, uncertainty and all, whichever way it is
 * said. */
static void
test_product_is_titrant (void)
{
  SwDoseInput input = make_doubtful ();
  SwDose by_ratio;
  SwDose by_both;

  input.titrant = SW_UNKNOWN;
  input.product = SW_UNKNOWN;
  input.strength_ratio = SW_EXACT (1);
  by_ratio = compute (&input, NULL);
  g_assert_true (isnan (by_ratio.content_best_mmol_l));
  input.titrant = (SwQuantity){ 7.5, 0.5, INFINITY };
  input.product = input.titrant;
  by_both = compute (&input, NULL);
  g_assert_cmpfloat (by_both.best_ml.value, ==, by_ratio.best_ml.value);
  g_assert_cmpfloat (by_both.best_ml.u, ==, by_ratio.best_ml.u);
  sw_assert_close (by_both.content_mmol_l.high, 22.5, 1e-12);
}

/* To a band: reserve between 2 and 3 steps, mark 6: 6 - 2 = 4 steps at most, 3 at least. */
static void
test_band (void)
{
  SwDoseInput input = make_input ();
  SwDose dose;

  input.direction = SW_DIRECTION_ACID;
  input.reserve_high = 6;
  dose = compute (&input, NULL);
  sw_assert_close (dose.net.low, -3, 1e-15);
  sw_assert_close (dose.net.high, -2, 1e-15);
  sw_assert_close (dose.bounds_ml.low, 3 * 420, 1e-12);
  sw_assert_close (dose.bounds_ml.high, 4 * 420, 1e-12);
  sw_assert_close (dose.best_ml.value, 3.5 * 420, 1e-12);
  sw_assert_close (dose.dose_ml.value, 4 * 420, 1e-12);
}

/* Property: one more drop is never less product, whatever else is given; bounds enclose the best
 * and doubt encloses the bounds. */
static void
test_monotone (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20261124);

  for (int i = 0; i < 5000; i++)
    {
      SwDoseInput input = make_doubtful ();
      double last = 0;

      input.step_ml.value = g_rand_double_range (random, 0.01, 0.1);
      input.system_l.value = g_rand_double_range (random, 50, 4000);
      input.extra = g_rand_double_range (random, 0, 5);
      if (g_rand_boolean (random))
        {
          input.caustic_mmol = (SwQuantity){ g_rand_double_range (random, 0, 1), 0.001, INFINITY };
          input.caustic_counts = TRUE;
        }
      for (double n = 1; n < 20; n++)
        {
          SwDose dose;

          input.acid_at = n - 1;
          input.pass_at = n;
          dose = compute (&input, NULL);
          g_assert_cmpfloat (dose.dose_ml.value, >, last);
          last = dose.dose_ml.value;
          g_assert_cmpfloat (dose.bounds_ml.low, <, dose.best_ml.value);
          g_assert_cmpfloat (dose.best_ml.value, <, dose.bounds_ml.high);
          g_assert_cmpfloat (dose.doubt_ml.low, <=, dose.bounds_ml.low);
          g_assert_cmpfloat (dose.doubt_ml.high, >, dose.bounds_ml.high);
          g_assert_cmpfloat (dose.dose_ml.value, >=, dose.bounds_ml.high);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/dose/error", error_rows, test_error);
  g_test_add_func ("/dose/no-rules", test_no_rules);
  g_test_add_func ("/dose/step-too-wide", test_step_too_wide);
  g_test_add_func ("/dose/doubt", test_doubt);
  g_test_add_func ("/dose/doubt-negative-low", test_doubt_negative_low);
  g_test_add_func ("/dose/blank", test_blank);
  g_test_add_func ("/dose/counting-caustic", test_counting_caustic);
  g_test_add_func ("/dose/silent-caustic", test_silent_caustic);
  g_test_add_func ("/dose/product-is-titrant", test_product_is_titrant);
  g_test_add_func ("/dose/band", test_band);
  g_test_add_func ("/dose/monotone", test_monotone);
  return g_test_run ();
}
