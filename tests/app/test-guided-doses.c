/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Guided tests that find acid, through the buttons of their pages, to each end that a dose can
 * have.
 *
 * The dose of the plant by hand, from the formula of the design (2.3) with the product itself as
 * titrant: 3 drops x 0.05 mL x 1000 x 420 L / 50 mL = 1260 mL, one drop 420 mL; the jug's marks of
 * 20 mL need no rounding.
 */
#include "tests/app/guided-bench.h"

#include <string.h>

#include "app/test/choice-row.h"
#include "app/test/reason-row.h"

#define NARROW_SPACE "\342\200\257" /* U+202F, between number and unit */

static SwDoseRow *
load_dose (SwBench *bench)
{
  SwStore *store = sw_context_get_store (bench->context);
  g_autoptr (GArray) ids = sw_dose_ids (store, bench->plant->first.machine, 1, NULL);

  g_assert_cmpuint (ids->len, ==, 1);
  return sw_dose_row_load (store, g_array_index (ids, gint64, 0), NULL);
}

static void
titrate_to_result (SwBench *bench)
{
  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_titrate (bench, 3);
  sw_bench_assert_step (bench, SW_STEP_RESULT);
  sw_bench_assert_shows (bench, "Step 4 of 7");
  sw_bench_assert_shows (bench, "2 to 3 drops");
}

static void
titrate_to_dose (SwBench *bench)
{
  if (bench->test == NULL)
    titrate_to_result (bench);
  sw_bench_press (bench, "next");
  sw_bench_assert_shows (bench, "Step 5 of 7");
  sw_bench_sign (bench);
  sw_bench_assert_step (bench, SW_STEP_DOSE);
}

/* ---- acid: 1260 mL ---- */

static void
test_acid (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  g_autoptr (SwDoseRow) dose = NULL;

  titrate_to_result (bench);
  sw_bench_assert_shows (bench, "of the uncertainty is");
  titrate_to_dose (bench);
  sw_bench_assert_shows (bench, "1260" NARROW_SPACE "mL");
  sw_bench_assert_shows (bench, "420" NARROW_SPACE "mL");
  sw_bench_type (bench, "extra", "0");
  sw_bench_type (bench, "tag", " M-07 ");
  sw_bench_press (bench, "accept");
  sw_bench_assert_step (bench, SW_STEP_ADDED);
  sw_bench_assert_shows (bench, "1260" NARROW_SPACE "mL");

  sw_bench_type (bench, "added", "1260");
  sw_bench_answer (bench, "when", SW_ANSWER_YES);
  sw_bench_press (bench, "record");
  sw_bench_assert_step (bench, SW_STEP_DONE);
  sw_bench_assert_shows (bench, "The re-test is due at ");
  sw_bench_assert_shows (bench, "Back to To Do");
  dose = load_dose (bench);
  g_assert_cmpint (dose->state, ==, SW_DOSE_ADDED);
  sw_assert_close (dose->measured_ml, 1260.0, 1e-12);
  sw_assert_close (dose->added.value, 1260.0, 1e-12);
  sw_assert_close ((double)(dose->retest_due_ms - dose->added_ms),
                   SW_TEST_PLANT_CIRCULATION_MIN * (double)SW_TEST_MINUTE_MS, 0.0);
}

/* ---- the other ends ---- */

static void
decide (SwBench *bench)
{
  titrate_to_dose (bench);
  sw_bench_type (bench, "extra", "0");
  sw_bench_type (bench, "tag", "M-07");
  sw_bench_press (bench, "accept");
}

static void
test_nobody_added (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  g_autoptr (SwDoseRow) dose = NULL;

  decide (bench);
  sw_bench_press (bench, "nobody");
  sw_bench_press (bench, "go");
  g_assert_nonnull (sw_bench_error (bench, "reason"));
  sw_bench_assert_step (bench, SW_STEP_ADDED);
  sw_reason_row_pick (SW_REASON_ROW (sw_bench_find (bench, SW_TYPE_REASON_ROW, "reason")), 0);
  sw_bench_press (bench, "go");
  sw_bench_assert_step (bench, SW_STEP_DONE);
  sw_bench_assert_shows (bench, "still acid");
  dose = load_dose (bench);
  g_assert_cmpint (dose->state, ==, SW_DOSE_NOT_ADDED);
}

static void
test_nobody_knows (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  g_autoptr (SwDoseRow) dose = NULL;

  decide (bench);
  sw_bench_press (bench, "nobody_knows");
  sw_bench_assert_shows (bench, "The re-test is due now.");
  dose = load_dose (bench);
  g_assert_cmpint (dose->state, ==, SW_DOSE_NOT_KNOWN);
}

/* Not now: the frame shows nothing, the file still asks. */
static void
test_not_now (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  g_autoptr (SwDoseRow) dose = NULL;

  decide (bench);
  sw_bench_press (bench, "later");
  dose = load_dose (bench);
  g_assert_cmpint (dose->state, ==, SW_DOSE_OPEN);
  sw_bench_resume (bench, dose->titration);
  sw_bench_assert_shows (bench, "Has Anyone Added It?");
}

/* Added earlier today, from an expired lot, for a reason. */
static void
test_added_earlier (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  g_autoptr (SwDoseRow) dose = NULL;

  decide (bench);
  sw_test_plant_advance (bench->plant, 60.0);
  sw_bench_type (bench, "added", "1240");
  sw_bench_answer (bench, "when", SW_ANSWER_NO);
  sw_choice_row_set (SW_CHOICE_ROW (sw_bench_find (bench, SW_TYPE_CHOICE_ROW, "lot")),
                     bench->plant->expired_lot);
  /* the plant's day began at 06:00 */
  sw_bench_type (bench, "time", "23:59");
  sw_bench_press (bench, "record");
  g_assert_nonnull (sw_bench_error (bench, "time"));
  g_assert_nonnull (sw_bench_error (bench, "lot_reason"));
  sw_bench_type (bench, "time", "6:30");
  sw_reason_row_pick (SW_REASON_ROW (sw_bench_find (bench, SW_TYPE_REASON_ROW, "lot_reason")), 0);
  sw_bench_press (bench, "record");
  sw_bench_assert_step (bench, SW_STEP_DONE);
  dose = load_dose (bench);
  sw_assert_close ((double)dose->added_ms,
                   (double)(SW_TEST_PLANT_START_MS + 30 * SW_TEST_MINUTE_MS), 0.0);
}

static void
test_no_dose (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  titrate_to_dose (bench);
  sw_bench_press (bench, "no_dose");
  sw_bench_assert_step (bench, SW_STEP_DONE);
  sw_bench_assert_shows (bench, "still acid");
}

/* ---- extra neutraliser, by hand: (3 + 1) x 420 mL = 1680 mL ---- */

static void
test_extra (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  GtkWidget *amount;

  titrate_to_dose (bench);
  amount = sw_bench_find (bench, GTK_TYPE_LABEL, "amount");
  sw_bench_type (bench, "extra", "1");
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (amount)), ==, "1680" NARROW_SPACE "mL");
  sw_bench_type (bench, "extra", "two");
  g_assert_null (strstr (gtk_label_get_text (GTK_LABEL (amount)), "mL"));
  g_assert_nonnull (sw_bench_error (bench, "extra"));
  sw_bench_type (bench, "extra", "1");
  sw_bench_type (bench, "tag", "M-07");
  sw_bench_press (bench, "accept");
  g_assert_nonnull (sw_bench_error (bench, "extra_reason"));
  sw_reason_row_pick (SW_REASON_ROW (sw_bench_find (bench, SW_TYPE_REASON_ROW, "extra_reason")), 0);
  sw_bench_press (bench, "accept");
  sw_bench_assert_step (bench, SW_STEP_ADDED);
  sw_assert_close (sw_guided_test_get_dose (bench->test)->measured_ml, 1680.0, 1e-12);
}

/* Five drops need a reviewer. */
static void
test_release (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_titrate (bench, 5);
  sw_bench_press (bench, "next");
  sw_bench_sign (bench);
  sw_bench_type (bench, "extra", "0");
  sw_bench_type (bench, "tag", "M-07");
  sw_bench_press (bench, "accept");
  sw_bench_assert_step (bench, SW_STEP_DOSE);
  sw_box_pick (sw_bench_box (bench), "R. Invented");
  sw_box_answer (sw_bench_box (bench), SW_TEST_PLANT_SECRET);
  sw_bench_assert_step (bench, SW_STEP_ADDED);
  g_assert_cmpint (sw_guided_test_get_dose (bench->test)->released_by, ==, bench->plant->reviewer);
}

/* No dosing place on file: the fact in words, what to do, and the way out. */
static void
test_refused_dose (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  g_autoptr (SwMachine) machine = NULL;
  const SwActor *actor = sw_context_get_actor_because (bench->context, "test");
  SwStore *store = sw_context_get_store (bench->context);
  GError *error = NULL;

  machine = sw_machine_load (store, bench->plant->first.machine, &error);
  g_assert_no_error (error);
  g_clear_pointer (&machine->dosing_place, g_free);
  g_assert_true (sw_act_begin (store, SW_ACT_AMEND, actor, &error));
  g_assert_true (sw_machine_update (store, machine, &error));
  g_assert_true (sw_act_commit (store, &error));
  titrate_to_dose (bench);
  sw_bench_assert_shows (bench, "Set-up");
  g_assert_false (sw_bench_shows (bench, "1260"));
  g_assert_false (gtk_widget_get_visible (sw_bench_find (bench, GTK_TYPE_BUTTON, "accept")));
  sw_bench_press (bench, "no_dose");
  sw_bench_assert_step (bench, SW_STEP_DONE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  sw_wording_init (NULL);
  g_test_add_func ("/guided/acid-1260-mL", test_acid);
  g_test_add_func ("/guided/nobody-added", test_nobody_added);
  g_test_add_func ("/guided/nobody-knows", test_nobody_knows);
  g_test_add_func ("/guided/not-now", test_not_now);
  g_test_add_func ("/guided/added-earlier", test_added_earlier);
  g_test_add_func ("/guided/no-dose", test_no_dose);
  g_test_add_func ("/guided/extra", test_extra);
  g_test_add_func ("/guided/release", test_release);
  g_test_add_func ("/guided/refused-dose", test_refused_dose);
  return g_test_run ();
}
