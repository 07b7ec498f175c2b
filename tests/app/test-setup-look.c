/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the set-up looks: every list and form, light and dark, in the smallest window, with half as
 * long words again. Draws them all; with SW_SNAPSHOT_DIR they are written for a person to look at.
 */
#include "tests/app/setup-bench.h"

typedef struct
{
  const char *name;
  const char *language;
  int width;
  int height;
  gboolean dark;
} LookRow;

static const LookRow looks[] = {
  { "light", "en", 1280, 900, FALSE },    { "dark", "en", 1280, 900, TRUE },
  { "small", "en", 1024, 600, FALSE },    { "long", "xx", 1024, 600, FALSE },
  { "long-dark", "xx", 1024, 600, TRUE },
};

static const char *const sections[]
    = { "machines", "methods", "products", "lots", "droppers", "solvents", "people", "site" };

/* No page may ask for more room than the window has. */
static void
assert_fits (Bench *bench, const LookRow *row)
{
  int width;
  int height;

  gtk_widget_measure (GTK_WIDGET (bench->window), GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL,
                      NULL, NULL);
  gtk_widget_measure (GTK_WIDGET (bench->window), GTK_ORIENTATION_VERTICAL, row->width, &height,
                      NULL, NULL, NULL);
  g_assert_cmpint (width, <=, row->width);
  g_assert_cmpint (height, <=, row->height);
}

static void
draw (Bench *bench, const LookRow *row, const char *section, const char *what)
{
  g_autofree char *name = g_strdup_printf ("setup-%s-%s-%s", row->name, section, what);

  sw_snapshot (GTK_WIDGET (bench->window), name);
  assert_fits (bench, row);
}

/* The lower half of a long form. */
static void
scroll_down (Bench *bench, double part)
{
  GtkWidget *page = sw_find_widget (bench_section (bench), g_type_from_name ("SwFormPage"), NULL);
  GtkWidget *scroller = sw_find_widget (page, GTK_TYPE_SCROLLED_WINDOW, NULL);
  GtkAdjustment *at = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));

  sw_snapshot_settle (GTK_WIDGET (bench->window));
  gtk_adjustment_set_value (at, gtk_adjustment_get_upper (at) * part);
}

static void
draw_forms (Bench *bench, const LookRow *row)
{
  gint64 solvent = bench_add_solvent (bench);
  gint64 neutraliser = bench_add_neutraliser (bench);
  gint64 method;

  bench_open (bench, "products", neutraliser);
  draw (bench, row, "products", "saved");
  bench_add_lot (bench, neutraliser);
  bench_open (bench, "lots", 1);
  draw (bench, row, "lots", "saved");
  bench_add_dropper (bench, neutraliser);
  method = bench_adopt_method (bench, neutraliser);
  bench_open (bench, "methods", method);
  draw (bench, row, "methods", "saved");
  scroll_down (bench, 0.5);
  draw (bench, row, "methods", "saved-below");
  bench_fill_machine (bench, solvent, neutraliser, method);
  bench_type (bench, "circulation", "");
  draw (bench, row, "machines", "filled");
  for (int i = 1; i <= 3; i++)
    {
      g_autofree char *name = g_strdup_printf ("filled-%d", i);

      scroll_down (bench, i * 0.25);
      draw (bench, row, "machines", name);
    }
  g_assert_true (bench_save (bench));
  scroll_down (bench, 0);
  draw (bench, row, "machines", "missing");
  scroll_down (bench, 1);
  draw (bench, row, "machines", "missing-below");
}

static void
draw_weighings (Bench *bench, const LookRow *row)
{
  static const char *const grams[] = { "0.612", "0.618", "0.609", "0.615", "0.820" };

  bench_open (bench, "droppers", 0);
  bench_pick (bench, "product", 1);
  bench_type (bench, "dropper", "Dropper B");
  bench_pick (bench, "way", 1);
  bench_type (bench, "drops", "20");
  bench_type (bench, "density", "0.95");
  for (guint i = 0; i < G_N_ELEMENTS (grams); i++)
    {
      bench_add_to (bench, "weighings");
      bench_type_in (bench, "weighings", i, "grams", grams[i]);
    }
  draw (bench, row, "droppers", "weighed");
  scroll_down (bench, 1);
  draw (bench, row, "droppers", "weighed-below");
}

static void
draw_errors (Bench *bench, const LookRow *row)
{
  bench_open (bench, "products", 0);
  bench_pick (bench, "use", SW_PRODUCT_NEUTRALISER);
  bench_type (bench, "strength", "-3");
  bench_type (bench, "limit-each", "a lot");
  g_assert_false (bench_save (bench));
  draw (bench, row, "products", "errors");
  bench_press (bench, "Cancel");
  draw (bench, row, "products", "draft");
}

static void
test_look (gconstpointer data)
{
  const LookRow *row = data;
  g_autoptr (Bench) bench = bench_new (row->language, row->width, row->height, row->dark);

  draw (bench, row, "machines", "empty");
  draw_forms (bench, row);
  draw_weighings (bench, row);
  if (g_str_equal (row->language, "en"))
    draw_errors (bench, row);
  for (guint i = 0; i < G_N_ELEMENTS (sections); i++)
    {
      gboolean listed = i + 1 < G_N_ELEMENTS (sections);

      bench_open (bench, sections[i], listed ? 0 : 1);
      draw (bench, row, sections[i], "new");
      if (!listed)
        continue;
      gtk_widget_activate_action (
          sw_find_widget (bench_section (bench), g_type_from_name ("SwFormPage"), NULL),
          "form.cancel", NULL);
      draw (bench, row, sections[i], "list");
    }
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  for (guint i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      g_autofree char *path = sw_test_path ("/setup/look", looks[i].name);

      g_test_add_data_func (path, &looks[i], test_look);
    }
  return g_test_run ();
}
