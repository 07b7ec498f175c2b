/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Questions about the plant and its methods: volume, fill, settings, versions, calibrations, texts.
 */
#include "questions.h"

#include <string.h>

/* ---- plant ---- */

static void
test_volume (Plant *plant, gconstpointer data)
{
  g_autoptr (SwCompartment) tank = sw_compartment_new ();
  g_autoptr (SwCompartment) pipes = sw_compartment_new ();
  SwQuantity volume;
  gboolean complete;
  gint64 empty;

  g_assert_true (sw_machine_volume (STORE (plant), plant->plant.machine, &volume, &complete, NULL));
  g_assert_cmpfloat (volume.value, ==, 420.0);
  g_assert_cmpfloat (volume.u, ==, 12.0);
  g_assert_true (complete);

  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  tank->machine = plant->plant.machine;
  tank->volume.value = 80.0;
  tank->volume_u_l = 5.0;
  g_assert_true (sw_compartment_insert (STORE (plant), tank, NULL));
  pipes->machine = plant->plant.machine;
  pipes->volume.value = 7.5;
  g_assert_true (sw_compartment_insert (STORE (plant), pipes, NULL));
  empty = add_machine (plant, "M-08");
  fixture_commit (&plant->base);
  g_assert_true (sw_machine_volume (STORE (plant), plant->plant.machine, &volume, &complete, NULL));
  g_assert_cmpfloat (volume.value, ==, 507.5);
  g_assert_cmpfloat (volume.u, ==, 13.0); /* 5, 12, 13 */
  g_assert_false (complete);
  g_assert_true (sw_machine_volume (STORE (plant), empty, &volume, &complete, NULL));
  g_assert_false (sw_quantity_is_known (volume));
  g_assert_false (complete);
}

/* One compartment without a volume: the sum is not known, rather than too small. */
static void
test_volume_unknown (Plant *plant, gconstpointer data)
{
  g_autoptr (SwCompartment) tank = sw_compartment_new ();
  SwQuantity volume;

  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  tank->machine = plant->plant.machine;
  g_assert_true (sw_compartment_insert (STORE (plant), tank, NULL));
  fixture_commit (&plant->base);
  g_assert_true (sw_machine_volume (STORE (plant), plant->plant.machine, &volume, NULL, NULL));
  g_assert_false (sw_quantity_is_known (volume));
}

static void
test_fill (Plant *plant, gconstpointer data)
{
  g_autoptr (SwFill) old = sw_fill_load (STORE (plant), plant->plant.fill, NULL);
  g_autoptr (SwFill) fresh = sw_fill_new ();

  g_assert_cmpint (sw_machine_fill (STORE (plant), plant->plant.machine, NULL), ==,
                   plant->plant.fill);
  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  old->ended_ms = plant->base.now_ms;
  g_assert_true (sw_fill_update (STORE (plant), old, NULL));
  fixture_commit (&plant->base);
  g_assert_cmpint (sw_machine_fill (STORE (plant), plant->plant.machine, NULL), ==, 0);
  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  fresh->machine = plant->plant.machine;
  g_assert_true (sw_fill_insert (STORE (plant), fresh, NULL));
  fixture_commit (&plant->base);
  g_assert_cmpint (sw_machine_fill (STORE (plant), plant->plant.machine, NULL), ==,
                   fresh->record.id);
}

static void
test_setting (Plant *plant, gconstpointer data)
{
  g_autofree char *first = sw_setting_dup (STORE (plant), "theme", NULL);
  g_autofree char *second = NULL;

  g_assert_cmpstr (first, ==, "dark");
  g_assert_null (sw_setting_dup (STORE (plant), "unknown", NULL));
  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  g_assert_true (sw_setting_put (STORE (plant), "theme", "light", NULL));
  g_assert_true (sw_setting_put (STORE (plant), "font", "large", NULL));
  fixture_commit (&plant->base);
  second = sw_setting_dup (STORE (plant), "theme", NULL);
  g_assert_cmpstr (second, ==, "light");
  assert_ids (sw_record_ids (STORE (plant), SW_TABLE_SETTING, NULL, 0, NULL), "1 2");
}

/* ---- methods ---- */

static void
test_latest_version (Plant *plant, gconstpointer data)
{
  g_autoptr (SwMethodVersion) version
      = sw_method_version_load (STORE (plant), plant->plant.version, NULL);

  version->record.id = 0;
  version->version = 2;
  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  g_assert_true (sw_method_version_insert (STORE (plant), version, NULL));
  fixture_commit (&plant->base);
  g_assert_cmpint (sw_method_latest_version (STORE (plant), plant->plant.method, NULL), ==,
                   version->record.id);
  g_assert_cmpint (sw_method_latest_version (STORE (plant), 99, NULL), ==, 0);
}

static void
test_calibration (Plant *plant, gconstpointer data)
{
  g_autoptr (SwCalibration) later = sw_calibration_new ();
  gint64 product = plant->plant.product;

  later->product = product;
  later->record.happened_ms = FIXTURE_START_MS + 2 * DAY_MS;
  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  g_assert_true (sw_calibration_insert (STORE (plant), later, NULL));
  fixture_commit (&plant->base);
  g_assert_cmpint (sw_calibration_in_force (STORE (plant), product, FIXTURE_START_MS - 1, NULL), ==,
                   0);
  g_assert_cmpint (sw_calibration_in_force (STORE (plant), product, FIXTURE_START_MS, NULL), ==,
                   plant->plant.calibration);
  g_assert_cmpint (
      sw_calibration_in_force (STORE (plant), product, FIXTURE_START_MS + 2 * DAY_MS - 1, NULL), ==,
      plant->plant.calibration);
  g_assert_cmpint (
      sw_calibration_in_force (STORE (plant), product, FIXTURE_START_MS + 2 * DAY_MS, NULL), ==,
      later->record.id);
  g_assert_cmpint (sw_calibration_in_force (STORE (plant), plant->plant.caustic, G_MAXINT64, NULL),
                   ==, 0);
}

static void
test_method_text (Plant *plant, gconstpointer data)
{
  static const struct
  {
    const char *language;
    const char *expected;
  } rows[] = { { "de", "Deutsch" },       { "de_AT", "Deutsch" }, { "de-CH", "Deutsch" },
               { "de.UTF-8", "Deutsch" }, { "fr", NULL },         { NULL, NULL } };
  g_autoptr (SwMethodText) text = sw_method_text_new ();
  g_autofree char *english
      = sw_method_text_dup (STORE (plant), plant->plant.version, "draw", "en", NULL);

  g_assert_nonnull (english);
  text->method_version = plant->plant.version;
  text->step = g_strdup ("draw");
  text->language = g_strdup ("de");
  text->text = g_strdup ("Deutsch");
  fixture_begin (&plant->base, SW_ACT_SETUP, NULL);
  g_assert_true (sw_method_text_insert (STORE (plant), text, NULL));
  fixture_commit (&plant->base);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *found = sw_method_text_dup (STORE (plant), plant->plant.version, "draw",
                                                   rows[i].language, NULL);

      g_assert_cmpstr (found, ==, rows[i].expected != NULL ? rows[i].expected : english);
    }
  g_assert_null (sw_method_text_dup (STORE (plant), plant->plant.version, "no-step", "en", NULL));
}

static void
add (const char *name, void (*func) (Plant *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/records/find-plant/", name, NULL);

  g_test_add (path, Plant, NULL, plant_set_up, func, plant_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("volume", test_volume);
  add ("volume-unknown", test_volume_unknown);
  add ("fill", test_fill);
  add ("setting", test_setting);
  add ("latest-version", test_latest_version);
  add ("calibration", test_calibration);
  add ("method-text", test_method_text);
  return g_test_run ();
}
