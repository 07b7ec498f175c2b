/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every page of the guided test as a picture, in each look: small (the 600 px of a bench screen
 * less the header bar) and large window, light and dark, and in the pseudo-locale, whose texts are
 * longer. What a picture cannot fail on is asserted here: the buttons of the bar lie inside the
 * window, no two mnemonics of a page are the same, what can have the focus has a name.
 */
#include <libintl.h>
#include <string.h>

#include "app/test/reason-row.h"
#include "tests/app/guided-bench.h"

typedef struct
{
  const char *name;
  SwBenchLook look;
} Look;

static const Look looks[] = {
  { "small-light", { 1024, 552, FALSE, NULL } }, { "small-dark", { 1024, 552, TRUE, NULL } },
  { "large-light", { 1280, 900, FALSE, NULL } }, { "large-dark", { 1280, 900, TRUE, NULL } },
  { "small-long", { 1024, 552, FALSE, "xx" } },  { "large-long", { 1280, 900, FALSE, "xx" } },
};

/* ---- what must hold on every page ---- */

static void
collect_mnemonics (GtkWidget *widget, GString *keys)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (GTK_IS_LABEL (widget)
      && gtk_label_get_mnemonic_keyval (GTK_LABEL (widget)) != GDK_KEY_VoidSymbol)
    {
      guint key = gdk_keyval_to_lower (gtk_label_get_mnemonic_keyval (GTK_LABEL (widget)));

      /* 0: a label that could have a mnemonic and has none */
      if (key != 0 && strchr (keys->str, (int)key) != NULL)
        g_error ("mnemonic %c twice: \"%s\", all so far: %s", (char)key,
                 gtk_label_get_text (GTK_LABEL (widget)), keys->str);
      if (key != 0)
        g_string_append_c (keys, (char)key);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect_mnemonics (child, keys);
}

static void
assert_inside (SwBench *bench, GtkWidget *widget)
{
  graphene_rect_t bounds;

  if (!gtk_widget_get_mapped (widget))
    return;
  if (GTK_IS_BUTTON (widget))
    {
      g_assert_true (gtk_widget_compute_bounds (widget, GTK_WIDGET (bench->window), &bounds));
      g_assert_cmpfloat (bounds.origin.x, >=, 0.0F);
      g_assert_cmpfloat (bounds.origin.x + bounds.size.width, <=,
                         (float)gtk_widget_get_width (GTK_WIDGET (bench->window)));
      g_assert_cmpfloat (bounds.origin.y + bounds.size.height, <=,
                         (float)gtk_widget_get_height (GTK_WIDGET (bench->window)));
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    assert_inside (bench, child);
}

/* What can have the focus has a name for who cannot see it. */
static void
assert_named (GtkWidget *widget)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (widget);
  gboolean by_relation
      = gtk_test_accessible_has_relation (accessible, GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  gboolean by_property
      = gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL);
  g_autofree char *words = sw_visible_text (widget);

  if (!gtk_widget_get_mapped (widget))
    return;
  if (GTK_IS_ENTRY (widget) || GTK_IS_DROP_DOWN (widget))
    {
      if (!by_relation)
        g_error ("%s without a name", G_OBJECT_TYPE_NAME (widget));
      return;
    }
  if ((GTK_IS_BUTTON (widget) || GTK_IS_MENU_BUTTON (widget)) && *words == '\0' && !by_property)
    g_error ("%s without a name", G_OBJECT_TYPE_NAME (widget));
  if (GTK_IS_MENU_BUTTON (widget))
    return;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    assert_named (child);
}

static void
take (SwBench *bench, const Look *look, const char *page)
{
  g_autofree char *name = g_strdup_printf ("guided-%s-%s", look->name, page);
  g_autoptr (GString) keys = g_string_new (NULL);

  /* What scrolls to its place does so some frames later. */
  for (int frame = 0; frame < 4; frame++)
    gtk_test_widget_wait_for_draw (GTK_WIDGET (bench->window));
  sw_snapshot (GTK_WIDGET (bench->window), name);
  if (look->look.language == NULL)
    collect_mnemonics (GTK_WIDGET (bench->page), keys);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (bench->window)), ==, look->look.width);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (bench->window)), ==, look->look.height);
  assert_inside (bench, sw_bench_find (bench, GTK_TYPE_BOX, "actions"));
  assert_named (GTK_WIDGET (bench->page));
}

/* ---- the pages, in the order of a test ---- */

static void
take_readings (SwBench *bench, const Look *look)
{
  take (bench, look, "3-read-first");
  sw_bench_press (bench, "shake");
  sw_bench_tile (bench, 1);
  take (bench, look, "3-read-add");
  sw_bench_press (bench, "add");
  sw_bench_press (bench, "shake");
  sw_test_plant_advance (bench->plant, 0.7);
  sw_bench_resume (bench, sw_guided_test_get_titration (bench->test)->record.id);
  take (bench, look, "3-read-shaken");
  sw_bench_tile (bench, 3);
  sw_bench_press (bench, "take_back");
  take (bench, look, "3-take-back");
  sw_bench_answer (bench, "went_in", SW_ANSWER_YES);
  sw_reason_row_pick (SW_REASON_ROW (sw_bench_find (bench, SW_TYPE_REASON_ROW, "reason")), 0);
  sw_bench_press (bench, "go");
  for (guint i = 1; i < 3; i++)
    {
      sw_bench_tile (bench, 1);
      sw_bench_press (bench, "add");
    }
  sw_bench_tile (bench, 2);
  take (bench, look, "3-read-second");
  sw_bench_tile (bench, 2);
  take (bench, look, "3-read-holds");
  sw_bench_press (bench, "close");
}

static void
take_dose (SwBench *bench, const Look *look)
{
  take (bench, look, "6-dose");
  sw_bench_type (bench, "extra", "2");
  sw_bench_type (bench, "tag", "M-08");
  sw_bench_press (bench, "accept");
  take (bench, look, "6-dose-wrong");
  sw_bench_type (bench, "extra", "0");
  sw_bench_type (bench, "tag", "M-07");
  sw_bench_press (bench, "accept");
  take (bench, look, "7-added");
  sw_bench_type (bench, "added", "12600");
  sw_bench_press (bench, "record");
  take (bench, look, "7-added-wrong");
  sw_bench_type (bench, "added", "1260");
  sw_bench_answer (bench, "when", SW_ANSWER_YES);
  sw_bench_press (bench, "record");
  take (bench, look, "8-done");
}

static void
test_pages (gconstpointer data)
{
  const Look *look = data;
  g_autoptr (SwBench) bench = sw_bench_new (&look->look);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  take (bench, look, "1-draw");
  sw_bench_type (bench, "volume", "lots");
  sw_bench_press (bench, "next");
  take (bench, look, "1-draw-wrong");
  sw_bench_draw (bench);
  take (bench, look, "2-prepare");
  sw_bench_prepare (bench);
  take_readings (bench, look);
  take (bench, look, "4-result");
  sw_bench_press (bench, "next");
  take (bench, look, "5-check");
  sw_bench_press (bench, "sign");
  take (bench, look, "5-sign");
  sw_box_answer (sw_bench_box (bench), SW_TEST_PLANT_SECRET);
  take_dose (bench, look);
}

/* The pages that a good test never shows. */
static void
test_notices (gconstpointer data)
{
  const Look *look = data;
  g_autoptr (SwBench) bench = sw_bench_new (&look->look);

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
  sw_bench_prepare (bench);
  sw_bench_tile (bench, 1);
  sw_bench_type (bench, "several_steps", "20");
  sw_bench_press (bench, "several_go");
  sw_test_plant_advance (bench->plant, 40.0);
  sw_bench_resume (bench, sw_guided_test_get_titration (bench->test)->record.id);
  take (bench, look, "9-paused");
  sw_test_plant_advance (bench->plant, -40.0);
  sw_bench_resume (bench, sw_guided_test_get_titration (bench->test)->record.id);
  sw_bench_tile (bench, 1);
  take (bench, look, "9-over-range");
  sw_bench_press (bench, "close");
  take (bench, look, "9-over-range-result");
  sw_bench_press (bench, "next");
  sw_bench_sign (bench);
  take (bench, look, "9-over-range-done");
}

/* Templates read the window's own catalogue; the pseudo-locale has none, so that nobody's missing
 * words ever turn into it. Here it gets one, in a folder of its own. */
static SwTestFolder *
speak_pseudo (void)
{
  SwTestFolder *folder = sw_test_folder_new ();
  g_autofree char *own = g_build_filename (folder, "yy", "LC_MESSAGES", NULL);
  g_autofree char *to = g_build_filename (own, "stillwarden.mo", NULL);
  g_autofree char *from = g_build_filename (g_getenv ("SW_LOCALE_DIR"), "xx", "LC_MESSAGES",
                                            "stillwarden-xx.mo", NULL);
  g_autofree char *bytes = NULL;
  gsize length;

  g_setenv ("LANGUAGE", "yy", TRUE);
  sw_wording_init (NULL);
  g_assert_true (g_file_get_contents (from, &bytes, &length, NULL));
  g_assert_cmpint (g_mkdir_with_parents (own, 0700), ==, 0);
  g_assert_true (g_file_set_contents (to, bytes, (gssize)length, NULL));
  bindtextdomain ("stillwarden", folder);
  return folder;
}

int
main (int argc, char **argv)
{
  g_autoptr (SwTestFolder) folder = NULL;
  gboolean pseudo = g_getenv ("SW_TEST_PSEUDO") != NULL;

  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  if (pseudo)
    folder = speak_pseudo ();
  else
    sw_wording_init (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      g_autofree char *pages = sw_test_path ("/guided-pictures/pages", looks[i].name);
      g_autofree char *notices = sw_test_path ("/guided-pictures/notices", looks[i].name);

      if (pseudo != (looks[i].look.language != NULL))
        continue;
      g_test_add_data_func (pages, &looks[i], test_pages);
      g_test_add_data_func (notices, &looks[i], test_notices);
    }
  return g_test_run ();
}
