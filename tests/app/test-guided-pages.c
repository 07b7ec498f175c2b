/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Guided tests through the buttons of their pages: what passes, what is taken back, changed, left
 * or goes over range. Those that end in a dose: test-guided-doses.c. */
#include "tests/app/guided-bench.h"

#include <string.h>

#include "app/test/reason-row.h"
#include "app/test/step-page.h"

/* ---- a pass: five pages, straight to Check ---- */

static void
test_pass (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_titrate (bench, 0);
  sw_bench_assert_step (bench, SW_STEP_CHECK);
  sw_bench_assert_shows (bench, "Step 5 of 5");
  sw_bench_sign (bench);
  sw_bench_assert_step (bench, SW_STEP_DONE);
  sw_bench_assert_shows (bench, "Passed. The test is complete.");
  g_assert_nonnull (sw_guided_test_get_decision (bench->test));
  sw_bench_press (bench, "todo");
}

/* ---- taking back, changing, leaving ---- */

static void
test_take_back (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_tile (bench, 1);
  sw_bench_press (bench, "add");
  sw_bench_tile (bench, 3);
  sw_bench_press (bench, "take_back");
  sw_bench_press (bench, "go");
  g_assert_nonnull (sw_bench_error (bench, "went_in"));
  sw_bench_answer (bench, "went_in", SW_ANSWER_YES);
  sw_reason_row_pick (SW_REASON_ROW (sw_bench_find (bench, SW_TYPE_REASON_ROW, "reason")), 0);
  sw_bench_press (bench, "go");
  sw_bench_assert_step (bench, SW_STEP_READ);
  sw_bench_assert_shows (bench, "taken back");
  sw_assert_close (sw_guided_test_get_total (bench->test), 1.0, 0.0);
}

static void
test_several (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_tile (bench, 1);
  sw_bench_type (bench, "several_steps", "4");
  sw_bench_press (bench, "several_go");
  sw_assert_close (sw_guided_test_get_total (bench->test), 4.0, 0.0);
  sw_bench_assert_shows (bench, "What does the strip show now?");
  sw_bench_assert_shows (bench, "read now");
}

/* Change goes back over Result to Read, and the readings are as they were. */
static void
test_change (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_titrate (bench, 1);
  sw_bench_press (bench, "next");
  sw_bench_assert_step (bench, SW_STEP_CHECK);
  sw_bench_press (bench, "change");
  sw_bench_assert_step (bench, SW_STEP_READ);
  g_assert_cmpuint (sw_guided_test_get_readings (bench->test)->len, ==, 3);
  sw_bench_press (bench, "close");
  sw_bench_assert_step (bench, SW_STEP_RESULT);
}

/* Back shows what was typed for this sample. */
static void
test_back (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  GtkWidget *volume;

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  gtk_widget_activate_action (GTK_WIDGET (bench->page), "test.back", NULL);
  sw_bench_assert_step (bench, SW_STEP_DRAW);
  volume = sw_bench_find (bench, SW_TYPE_FORM_ROW, "volume");
  g_assert_cmpstr (sw_form_row_get_text (SW_FORM_ROW (volume)), ==, "150 mL");
}

/* Half an hour and more: nothing but a fresh portion. */
static void
test_paused (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  gint64 titration;

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_tile (bench, 1);
  sw_bench_press (bench, "add");
  titration = sw_guided_test_get_titration (bench->test)->record.id;
  sw_test_plant_advance (bench->plant, 31.0);
  sw_bench_resume (bench, titration);
  sw_bench_assert_shows (bench, "A fresh portion is needed");
  g_assert_false (gtk_widget_get_visible (sw_bench_find (bench, GTK_TYPE_BOX, "tiles")));
  sw_bench_press (bench, "fresh");
  sw_reason_row_pick (SW_REASON_ROW (sw_bench_find (bench, SW_TYPE_REASON_ROW, "reason")), 0);
  sw_bench_press (bench, "go");
  sw_bench_assert_step (bench, SW_STEP_PREPARE);
  g_assert_cmpint (sw_guided_test_get_titration (bench->test)->portion, ==, 2);
}

static void
test_over_range (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_tile (bench, 1);
  sw_bench_type (bench, "several_steps", "20");
  sw_bench_press (bench, "several_go");
  sw_bench_tile (bench, 1);
  sw_bench_assert_shows (bench, "Stop: over range");
  sw_bench_assert_shows (bench, "this is not a dosing job");
  sw_bench_press (bench, "close");
  sw_bench_press (bench, "next");
  sw_bench_sign (bench);
  sw_bench_assert_step (bench, SW_STEP_DONE);
  sw_bench_assert_shows (bench, "do not dose");
}

/* The wrong machine's tag stops the first page. */
static void
test_wrong_tag (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_type (bench, "tag", "M-08");
  sw_bench_type (bench, "volume", "150");
  sw_bench_press (bench, "next");
  g_assert_nonnull (strstr (sw_bench_error (bench, "tag"), "M-08"));
  g_assert_nonnull (strstr (sw_bench_error (bench, "tag"), "M-07"));
  g_assert_nonnull (sw_bench_error (bench, "running"));
  g_assert_nonnull (sw_bench_error (bench, "points"));
  sw_bench_assert_step (bench, SW_STEP_DRAW);
}

/* The timer goes on over a restart: its start is the file's. */
static void
test_shake_survives (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  gint64 titration;

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_press (bench, "shake");
  titration = sw_guided_test_get_titration (bench->test)->record.id;
  sw_test_plant_advance (bench->plant, 0.7);
  sw_bench_resume (bench, titration);
  sw_bench_assert_shows (bench, "0:42");
  sw_bench_assert_shows (bench, "of 1:00");
}

/* Who takes over at the bench reads and signs from then on; what was typed stays. */
static void
test_another_person (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  SwStore *store = sw_context_get_store (bench->context);
  g_autoptr (GArray) readings = NULL;
  g_autoptr (SwReadingRow) reading = NULL;
  gint64 titration;

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_type (bench, "portion", "49");
  titration = sw_guided_test_get_titration (bench->test)->record.id;
  sw_bench_work_as (bench, bench->plant->colleague);
  sw_bench_press (bench, "next");
  sw_bench_tile (bench, 1);
  readings = sw_record_ids (store, SW_TABLE_READING, "titration", titration, NULL);
  g_assert_cmpuint (readings->len, ==, 1);
  reading = sw_reading_row_load (store, g_array_index (readings, gint64, 0), NULL);
  g_assert_cmpint (reading->reader, ==, bench->plant->colleague);
  sw_bench_assert_shows (bench, "Step 3 of 7");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  sw_wording_init (NULL);
  g_test_add_func ("/guided/pass", test_pass);
  g_test_add_func ("/guided/take-back", test_take_back);
  g_test_add_func ("/guided/several", test_several);
  g_test_add_func ("/guided/change", test_change);
  g_test_add_func ("/guided/back", test_back);
  g_test_add_func ("/guided/paused", test_paused);
  g_test_add_func ("/guided/over-range", test_over_range);
  g_test_add_func ("/guided/wrong-tag", test_wrong_tag);
  g_test_add_func ("/guided/another-person", test_another_person);
  g_test_add_func ("/guided/shake-survives", test_shake_survives);
  return g_test_run ();
}
