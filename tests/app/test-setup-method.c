/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drops and methods at the set-up: weighings worked out and doubted, a template taken over with the
 * site's own colours. */
#include "app/setup/strip-editor.h"
#include "app/widgets/form-row.h"
#include "tests/app/setup-bench.h"

static GtkWidget *
find (Bench *bench, const char *type, const char *name)
{
  return sw_find_widget (bench_section (bench), g_type_from_name (type), name);
}

/* ---- droppers ---- */

static void
weigh (Bench *bench, const char *const *grams, guint n)
{
  bench_open (bench, "droppers", 0);
  bench_pick (bench, "product", bench_only (bench, SW_TABLE_PRODUCT));
  bench_type (bench, "dropper", "Dropper B");
  bench_pick (bench, "way", 1);
  bench_type (bench, "drops", "20");
  bench_type (bench, "density", "0.95");
  for (guint i = 0; i < n; i++)
    {
      bench_add_to (bench, "weighings");
      bench_type_in (bench, "weighings", i, "grams", grams[i]);
    }
}

/* By hand: mean 0.6135 g, so 0.6135/20/0.95 = 0.03228947 mL; deviations 1.5, 4.5, 4.5, 1.5 mg give
 * s = 3.872983 mg, s/sqrt(4)/20/0.95 = 0.1019206 uL. */
static void
test_weighed (void)
{
  static const char *const grams[] = { "0.612", "0.618", "0.609", "0,615" };
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autoptr (SwCalibration) row = NULL;

  bench_add_neutraliser (bench);
  weigh (bench, grams, G_N_ELEMENTS (grams));
  bench_assert_says (bench, "One drop is 0.0323\342\200\257mL");
  bench_assert_says (bench, "from 4 weighings");
  bench_assert_says (bench, "Drops of water prove nothing about another liquid");
  g_assert_false (gtk_widget_get_visible (find (bench, "GtkLabel", "outlier")));
  g_assert_true (bench_save (bench));
  row = sw_calibration_load (bench_store (bench), bench_only (bench, SW_TABLE_CALIBRATION), NULL);
  sw_assert_close (row->drop.value, 0.03228947, 1e-6);
  sw_assert_close (row->drop_u_ml, 0.0001019206, 1e-6);
  g_assert_cmpfloat (row->freedom, ==, 3.0);
  g_assert_cmpint (row->weighings, ==, 4);
}

static void
test_outlier (void)
{
  static const char *const grams[] = { "0.612", "0.618", "0.609", "0.615", "0.820" };
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);

  bench_add_neutraliser (bench);
  weigh (bench, grams, G_N_ELEMENTS (grams));
  bench_assert_says (bench, "Weighing 5 does not fit the others");
  /* A warning, no refusal. */
  g_assert_true (bench_save (bench));
}

/* ---- methods ---- */

/* The masks of the form, against what the templates say themselves. */
static void
test_templates (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  const char *const *names = sw_method_template_names ();

  bench_open (bench, "methods", 0);
  for (guint i = 0; names[i] != NULL; i++)
    {
      g_autoptr (SwMethodVersion) version = NULL;
      g_autoptr (GPtrArray) colours = NULL;
      gboolean has_caustic;
      gboolean acid;

      g_assert_true (sw_method_template_load (names[i], &version, &colours, &has_caustic, NULL));
      acid = version->direction == SW_DIRECTION_ACID;
      bench_pick (bench, "template", i);
      g_assert_cmpint (gtk_widget_get_visible (bench_row (bench, NULL, 0, "caustic")), ==,
                       has_caustic);
      g_assert_cmpint (gtk_widget_get_visible (bench_row (bench, NULL, 0, "acid")), ==, acid);
      g_assert_cmpint (gtk_widget_get_visible (bench_row (bench, NULL, 0, "titrant")), ==, !acid);
    }
}

/* The site's own names and colours end up in the method's rows; a typed name moves with its meaning
 * when another template is looked at. */
static void
test_strips (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autoptr (GArray) ids = NULL;
  g_autoptr (SwColourField) first = NULL;
  const GdkRGBA amber = { 0.5F, 0.25F, 0.0F, 1.0F };
  GtkWidget *strips;

  bench_add_neutraliser (bench);
  bench_open (bench, "methods", 0);
  bench_type (bench, "name", "Our drop test");
  strips = find (bench, "SwStripEditor", "strips");
  sw_form_row_set_text (SW_FORM_ROW (sw_find_widget (strips, SW_TYPE_FORM_ROW, NULL)), "Amber");
  gtk_color_chooser_set_rgba (
      GTK_COLOR_CHOOSER (sw_find_widget (strips, GTK_TYPE_COLOR_BUTTON, NULL)), &amber);
  bench_pick (bench, "template", 2);
  bench_pick (bench, "template", 0);
  bench_pick (bench, "titrant", bench_only (bench, SW_TABLE_PRODUCT));
  g_assert_true (bench_save (bench));
  ids = sw_record_ids (bench_store (bench), SW_TABLE_COLOUR_FIELD, NULL, 0, NULL);
  g_assert_cmpuint (ids->len, ==, 3);
  first = sw_colour_field_load (bench_store (bench), g_array_index (ids, gint64, 0), NULL);
  g_assert_cmpint (first->meaning, ==, SW_FIELD_ACID);
  g_assert_cmpstr (first->label, ==, "Amber");
  g_assert_cmpstr (first->swatch, ==, "#804000");
  bench_open (bench, "methods", bench_only (bench, SW_TABLE_METHOD));
  bench_assert_says (bench, "Amber means acid");
  bench_assert_says (bench, "Draw the sample");
  g_assert_false (bench_save (bench));
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/setup/dropper/weighed", test_weighed);
  g_test_add_func ("/setup/dropper/outlier", test_outlier);
  g_test_add_func ("/setup/method/templates", test_templates);
  g_test_add_func ("/setup/method/strips", test_strips);
  return g_test_run ();
}
