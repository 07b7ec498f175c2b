/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Presses and types; never calls a move of workflow itself. */
#include "tests/app/guided-bench.h"

#include "app/test/answer-row.h"
#include "app/test/choice-row.h"
#include "app/test/point-list.h"
#include "app/test/reason-row.h"
#include "app/test/step-page.h"

#include <string.h>

static const SwBenchLook plain = { 1280, 900, FALSE, NULL };

SwBench *
sw_bench_new (const SwBenchLook *look)
{
  SwBench *bench = g_new0 (SwBench, 1);
  GtkWidget *page;

  look = look != NULL ? look : &plain;
  bench->plant = sw_test_plant_new ();
  bench->wording = sw_wording_new (look->language != NULL ? look->language : "en", "Europe/Berlin");
  bench->context = sw_context_new (g_steal_pointer (&bench->plant->store), bench->wording);
  sw_bench_work_as (bench, bench->plant->technician);
  page = sw_test_page_new (bench->context);
  bench->page = SW_TEST_PAGE (page);
  bench->window = sw_snapshot_window (page, look->width, look->height, look->dark);
  return bench;
}

void
sw_bench_work_as (SwBench *bench, gint64 person)
{
  const SwSigner signer = sw_test_plant_signer (person);

  sw_context_set_signer (bench->context, &signer);
}

void
sw_bench_free (SwBench *bench)
{
  gtk_window_destroy (bench->window);
  g_object_unref (bench->context);
  sw_wording_unref (bench->wording);
  sw_test_plant_free (bench->plant);
  g_free (bench);
}

static void
open_test (SwBench *bench, SwGuidedTest *test, GError *error)
{
  g_assert_no_error (error);
  g_assert_nonnull (test);
  bench->test = test;
  sw_test_page_open (bench->page, test);
  sw_snapshot_settle (GTK_WIDGET (bench->window));
}

void
sw_bench_begin (SwBench *bench, SwPurpose purpose, gint64 answers_dose)
{
  GError *error = NULL;
  SwGuidedTest *test = sw_guided_test_begin (
      sw_context_get_store (bench->context), sw_context_get_actor (bench->context),
      bench->plant->first.plan, purpose, answers_dose, &error);

  open_test (bench, test, error);
}

void
sw_bench_resume (SwBench *bench, gint64 titration)
{
  GError *error = NULL;
  SwGuidedTest *test;

  sw_test_page_close (bench->page);
  test = sw_guided_test_resume (sw_context_get_store (bench->context),
                                sw_context_get_actor (bench->context), titration, &error);
  open_test (bench, test, error);
}

/* ---- finding ---- */

GtkWidget *
sw_bench_shown (SwBench *bench)
{
  GtkWidget *stack = sw_find_widget (GTK_WIDGET (bench->page), GTK_TYPE_STACK, "pages");

  return gtk_stack_get_visible_child (GTK_STACK (stack));
}

GtkWidget *
sw_bench_find (SwBench *bench, GType type, const char *id)
{
  GtkWidget *found = sw_find_widget (sw_bench_shown (bench), type, id);

  if (found == NULL)
    g_error ("no %s on %s", id, G_OBJECT_TYPE_NAME (sw_bench_shown (bench)));
  return found;
}

/* ---- doing ---- */

void
sw_bench_press (SwBench *bench, const char *id)
{
  GtkWidget *button = sw_bench_find (bench, GTK_TYPE_BUTTON, id);

  g_assert_true (gtk_widget_get_visible (button));
  g_assert_true (gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
}

void
sw_bench_type (SwBench *bench, const char *id, const char *text)
{
  SwFormRow *row = SW_FORM_ROW (sw_bench_find (bench, SW_TYPE_FORM_ROW, id));

  gtk_editable_set_text (GTK_EDITABLE (sw_form_row_get_entry (row)), text);
}

void
sw_bench_answer (SwBench *bench, const char *id, SwAnswer answer)
{
  static const char *const ids[SW_N_ANSWERS] = { NULL, "yes", "no", "unknown" };
  GtkWidget *row = sw_bench_find (bench, SW_TYPE_ANSWER_ROW, id);
  GtkWidget *button = sw_find_widget (row, GTK_TYPE_TOGGLE_BUTTON, ids[answer]);

  g_assert_true (gtk_widget_get_visible (button));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), TRUE);
}

void
sw_bench_tile (SwBench *bench, guint number)
{
  GtkWidget *tile = gtk_widget_get_first_child (sw_bench_find (bench, GTK_TYPE_BOX, "tiles"));

  for (guint i = 1; i < number; i++)
    tile = gtk_widget_get_next_sibling (tile);
  g_assert_true (gtk_widget_is_sensitive (tile));
  g_signal_emit_by_name (tile, "clicked");
}

const char *
sw_bench_error (SwBench *bench, const char *id)
{
  GtkWidget *page = sw_bench_shown (bench);
  GtkWidget *row;

  if ((row = sw_find_widget (page, SW_TYPE_FORM_ROW, id)) != NULL)
    return sw_form_row_get_error (SW_FORM_ROW (row));
  if ((row = sw_find_widget (page, SW_TYPE_CHOICE_ROW, id)) != NULL)
    return sw_choice_row_get_error (SW_CHOICE_ROW (row));
  if ((row = sw_find_widget (page, SW_TYPE_ANSWER_ROW, id)) != NULL)
    return sw_answer_row_get_error (SW_ANSWER_ROW (row));
  if ((row = sw_find_widget (page, SW_TYPE_REASON_ROW, id)) != NULL)
    return sw_reason_row_get_error (SW_REASON_ROW (row));
  row = sw_bench_find (bench, SW_TYPE_POINT_LIST, id);
  return sw_point_list_get_error (SW_POINT_LIST (row));
}

gboolean
sw_bench_shows (SwBench *bench, const char *words)
{
  GtkWidget *head = sw_find_widget (GTK_WIDGET (bench->page), GTK_TYPE_WIDGET, "head");
  g_autofree char *above = sw_visible_text (head);
  g_autofree char *below = sw_visible_text (sw_bench_shown (bench));

  return strstr (above, words) != NULL || strstr (below, words) != NULL;
}

/* ---- the box over the page ---- */

GtkWidget *
sw_bench_box (SwBench *bench)
{
  return sw_box_over (GTK_WIDGET (bench->window));
}

void
sw_bench_sign (SwBench *bench)
{
  sw_bench_press (bench, "sign");
  sw_box_answer (sw_bench_box (bench), SW_TEST_PLANT_SECRET);
}

/* ---- whole pages ---- */

void
sw_bench_draw (SwBench *bench)
{
  GtkWidget *points = sw_bench_find (bench, SW_TYPE_POINT_LIST, "points");
  GtkWidget *first = sw_find_widget (points, GTK_TYPE_CHECK_BUTTON, NULL);

  sw_bench_type (bench, "tag", "m-07");
  sw_bench_answer (bench, "running", SW_ANSWER_YES);
  sw_bench_answer (bench, "level_ok", SW_ANSWER_YES);
  sw_bench_answer (bench, "added_since", SW_ANSWER_NO);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (first), TRUE);
  sw_bench_type (bench, "volume", "150");
  sw_bench_type (bench, "temperature", "21.5");
  sw_bench_type (bench, "appearance", "clear");
  sw_bench_press (bench, "next");
  sw_bench_assert_step (bench, SW_STEP_PREPARE);
}

void
sw_bench_prepare (SwBench *bench)
{
  sw_bench_press (bench, "next");
  sw_bench_assert_step (bench, SW_STEP_READ);
}

static void
shake (SwBench *bench)
{
  sw_bench_press (bench, "shake");
  sw_test_plant_advance (bench->plant, 1.0);
}

void
sw_bench_titrate (SwBench *bench, guint drops)
{
  for (guint i = 0; i < drops; i++)
    {
      shake (bench);
      sw_bench_tile (bench, 1);
      sw_bench_press (bench, "add");
    }
  for (guint strip = 0; strip < 2; strip++)
    {
      shake (bench);
      sw_bench_tile (bench, 2);
    }
  sw_bench_press (bench, "close");
}

/* ---- the file ---- */

static void
add_file (GChecksum *sum, const char *path)
{
  g_autofree char *bytes = NULL;
  gsize length;

  if (g_file_get_contents (path, &bytes, &length, NULL))
    g_checksum_update (sum, (const guchar *)bytes, (gssize)length);
}

char *
sw_bench_digest (SwBench *bench)
{
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autofree char *wal = g_strconcat (bench->plant->path, "-wal", NULL);

  add_file (sum, bench->plant->path);
  add_file (sum, wal);
  return g_strdup (g_checksum_get_string (sum));
}
