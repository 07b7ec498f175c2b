/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dose against worked figures. They are identities of stoichiometry, worked by hand for this
 * program, not published checks; the independent check of value and uncertainty is oracle.py. */
#include "calc/dose.h"
#include "support/support.h"

typedef struct
{
  const char *name;
  const char *source;
  double titrant; /* mmol/mL; NAN: the product itself, strength unknown */
  double product;
  double caustic_mmol; /* counts */
  double dose_ml;
} Row;

/* 3 drops of 0.05 mL, 50 mL sample, 420 L. */
/* clang-format off */
static const Row rows[] = {
  { "the product itself", "by hand: 3 * 0.05 * 420 000 / 50", NAN, NAN, 0, 1260 },
  { "dilute titrant", "by hand: 3 * 0.05 * 0.1 * 420 000 / (7.5 * 50)", 0.1, 7.5, 0, 16.8 },
  { "dilute, counting caustic", "by hand: (0.015 + 0.1) * 420 000 / (7.5 * 50)", 0.1, 7.5, 0.1, 128.8 },
  { "product itself, strength known", "by hand: 3 * 0.05 * 420 000 / 50", 7.5, 7.5, 0, 1260 },
  { "product itself, counting caustic", "by hand: (1.125 + 0.1) * 420 000 / (7.5 * 50)", 7.5, 7.5, 0.1, 1372 },
};
/* clang-format on */

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

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  SwDoseInput input = make_input ();
  g_autoptr (GError) error = NULL;
  SwDose dose;

  input.titrant.value = row->titrant;
  input.product.value = row->product;
  input.caustic_mmol.value = row->caustic_mmol;
  input.caustic_counts = row->caustic_mmol > 0;
  g_assert_true (sw_dose_compute (&input, NULL, &dose, &error));
  g_assert_no_error (error);
  sw_assert_close (dose.dose_ml.value, row->dose_ml, 1e-12);
}

/* One drop is worth 420 mL; between 2 and 3 drops is 840 to 1260 mL, the middle 1050, the jug
 * marked every 20 mL shows 1260. End point: 420 / sqrt(12) = 121.24 mL. */
static void
test_worked_example (void)
{
  SwDoseInput input = make_input ();
  SwDoseRules rules = { 20, INFINITY, INFINITY };
  SwDose dose;

  g_assert_true (sw_dose_compute (&input, &rules, &dose, NULL));
  sw_assert_close (dose.per_step_ml, 420, 1e-12);
  sw_assert_close (dose.bounds_ml.low, 840, 1e-12);
  sw_assert_close (dose.bounds_ml.high, 1260, 1e-12);
  sw_assert_close (dose.best_ml.value, 1050, 1e-12);
  sw_assert_close (dose.dose_ml.value, 1260, 1e-12);
  g_assert_cmpfloat (dose.measure_ml, ==, 1260);
  sw_assert_close (dose.best_ml.u, 121.24, 0.005 / 121.24);
}

/* 3 drops of 0.1 mmol/mL: 0.05 mL * 0.1 / 50 mL is 0.1 mmol/L a drop: 0.2 to 0.3, middle 0.25. */
static void
test_content (void)
{
  SwDoseInput input = make_input ();
  SwDose dose;

  input.titrant = SW_EXACT (0.1);
  input.product = SW_EXACT (7.5);
  g_assert_true (sw_dose_compute (&input, NULL, &dose, NULL));
  sw_assert_close (dose.content_mmol_l.low, 0.2, 1e-12);
  sw_assert_close (dose.content_mmol_l.high, 0.3, 1e-12);
  sw_assert_close (dose.content_best_mmol_l, 0.25, 1e-12);
}

/* A blank of 1: net acid (2 - 1, 3 - 1 + 1], middle 2; two rectangles one step wide have the
 * variance 2/12 of a triangle of half-width 1 (GUM 4.3.9: a^2/6). */
static void
test_blank (void)
{
  SwDoseInput input = make_input ();
  SwDose dose;

  input.blank = 1;
  g_assert_true (sw_dose_compute (&input, NULL, &dose, NULL));
  sw_assert_close (dose.best_ml.value, 2 * 420, 1e-12);
  sw_assert_close (dose.best_ml.u, 420 / sqrt (6), 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reference/dose", rows, test_row);
  g_test_add_func ("/reference/dose/worked-example", test_worked_example);
  g_test_add_func ("/reference/dose/content", test_content);
  g_test_add_func ("/reference/dose/blank", test_blank);
  return g_test_run ();
}
