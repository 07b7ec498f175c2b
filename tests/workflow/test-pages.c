/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be typed on Draw and Prepare: each field with what may be in it and what may not. */
#include "change.h"

#include "workflow/setup.h"

/* ---- draw ---- */

typedef struct
{
  const char *name;
  double volume_ml;
  const char *volume_typed;
  double temperature;
  const char *temperature_typed;
  int fault; /* SwFaultCode, -1 = none */
  SwQuantityName quantity;
} Draw;

/* clang-format off */
static const Draw draws[] = {
  { "usual", 150, NULL, 22, NULL, -1, SW_QUANTITY_NONE },
  { "temperature not measured", 150, NULL, NAN, NULL, -1, SW_QUANTITY_NONE },
  { "smallest", 1, NULL, -30, NULL, -1, SW_QUANTITY_NONE },
  { "largest", 10000, NULL, 200, NULL, -1, SW_QUANTITY_NONE },
  { "volume empty", NAN, NULL, 22, NULL, SW_FAULT_MISSING, SW_QUANTITY_DRAWN_VOLUME },
  { "volume text", NAN, "much", 22, NULL, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_DRAWN_VOLUME },
  { "volume negative", -150, NULL, 22, NULL, SW_FAULT_RANGE, SW_QUANTITY_DRAWN_VOLUME },
  { "volume 0", 0, NULL, 22, NULL, SW_FAULT_RANGE, SW_QUANTITY_DRAWN_VOLUME },
  { "volume in litres", 0.15, NULL, 22, NULL, SW_FAULT_RANGE, SW_QUANTITY_DRAWN_VOLUME },
  { "volume infinite", INFINITY, NULL, 22, NULL, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_DRAWN_VOLUME },
  { "temperature text", 150, NULL, NAN, "warm", SW_FAULT_NOT_A_NUMBER,
    SW_QUANTITY_SAMPLE_TEMPERATURE },
  { "temperature in kelvin", 150, NULL, 295, NULL, SW_FAULT_RANGE,
    SW_QUANTITY_SAMPLE_TEMPERATURE },
};
/* clang-format on */

static void
test_draw (gconstpointer data)
{
  const Draw *row = data;
  g_autoptr (Scene) scene = scene_new ();
  SwDrawEntry entry;
  GError *error = NULL;
  gboolean moved;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  entry = scene_draw_entry (scene);
  entry.volume = (SwAmount){ row->volume_ml, (char *)row->volume_typed };
  entry.temperature = (SwAmount){ row->temperature, (char *)row->temperature_typed };
  moved = sw_guided_test_draw (scene->test, &entry, &error);
  g_assert_cmpint (moved, ==, row->fault < 0);
  if (row->fault >= 0)
    sw_assert_fault (&error, (SwFaultCode)row->fault, row->quantity);
  g_assert_cmpint (scene_step (scene), ==, moved ? SW_STEP_PREPARE : SW_STEP_DRAW);
}

static void
test_draw_point (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwTestMachine other = sw_test_plant_add_machine (scene->plant, "M-11");
  SwDrawEntry entry;
  GError *error = NULL;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  entry = scene_draw_entry (scene);
  entry.point = 0;
  g_assert_false (sw_guided_test_draw (scene->test, &entry, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_NAME);
  entry.point = other.point;
  g_assert_false (sw_guided_test_draw (scene->test, &entry, &error));
  sw_assert_fault (&error, SW_FAULT_COMBINATION, SW_QUANTITY_NAME);
}

static void
test_draw_is_stored (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwSample *sample;
  SwDrawEntry entry;
  GError *error = NULL;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  entry = scene_draw_entry (scene);
  entry.drawn_ms = scene_now (scene) - 20 * SW_TEST_MINUTE_MS;
  entry.remarks = "bottle 3";
  sw_guided_test_draw (scene->test, &entry, &error);
  g_assert_no_error (error);
  sample = sw_guided_test_get_sample (scene->test);
  g_assert_cmpint (sample->record.happened_ms, ==, entry.drawn_ms);
  g_assert_cmpint (sample->point, ==, scene->machine.point);
  sw_assert_close (sample->volume.value, 150.0, 1e-12);
  g_assert_cmpstr (sample->volume.typed, ==, "150 mL");
  sw_assert_close (sample->temperature.value, 22.0, 1e-12);
  g_assert_cmpstr (sample->appearance, ==, "clear");
  g_assert_cmpstr (sample->remarks, ==, "bottle 3");
  g_assert_true (sample->retained);
  g_assert_cmpint (sample->running, ==, SW_ANSWER_YES);
  g_assert_cmpint (sample->added_since, ==, SW_ANSWER_NO);
  g_assert_cmpint (sample->fill, ==, scene->machine.fill);
}

/* ---- prepare ---- */

typedef struct
{
  const char *name;
  double portion_ml;
  const char *typed;
  int fault; /* SwFaultCode, -1 = none */
} Portion;

/* 150 mL were drawn. */
static const Portion portions[] = {
  { "usual", 50, NULL, -1 },
  { "all that was drawn", 150, NULL, -1 },
  { "more than was drawn", 151, NULL, SW_FAULT_RANGE },
  { "ten times", 500, NULL, SW_FAULT_RANGE },
  { "too little", 0.5, NULL, SW_FAULT_RANGE },
  { "nothing", 0, NULL, SW_FAULT_RANGE },
  { "negative", -50, NULL, SW_FAULT_RANGE },
  { "empty", NAN, NULL, SW_FAULT_MISSING },
  { "text", NAN, "fifty", SW_FAULT_NOT_A_NUMBER },
};

static void
test_portion (gconstpointer data)
{
  const Portion *row = data;
  g_autoptr (Scene) scene = scene_new ();
  SwPrepareEntry entry;
  GError *error = NULL;
  gboolean moved;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  scene_draw (scene);
  entry = scene_prepare_entry (scene);
  entry.portion = (SwAmount){ row->portion_ml, (char *)row->typed };
  moved = sw_guided_test_prepare (scene->test, &entry, &error);
  g_assert_cmpint (moved, ==, row->fault < 0);
  if (row->fault >= 0)
    sw_assert_fault (&error, (SwFaultCode)row->fault, SW_QUANTITY_SAMPLE_VOLUME);
}

static void
try_prepare (Scene *scene, const SwPrepareEntry *entry, SwFactCode expected)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_prepare (scene->test, entry, &error);

  g_assert_cmpint (moved, ==, expected == SW_FACT_NONE);
  if (moved)
    g_assert_no_error (error);
  else
    scene_assert_fact (&error, expected);
}

static void
test_lots (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwPrepareEntry entry;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  scene_draw (scene);
  entry = scene_prepare_entry (scene);
  entry.titrant_lot = 0;
  try_prepare (scene, &entry, SW_FACT_LOT_MISSING);
  entry.titrant_lot = scene->plant->caustic_lot;
  try_prepare (scene, &entry, SW_FACT_LOT_MISSING);
  entry.titrant_lot = scene->plant->expired_lot;
  try_prepare (scene, &entry, SW_FACT_LOT_EXPIRED);
  entry.lot_reason = " ";
  try_prepare (scene, &entry, SW_FACT_LOT_EXPIRED);
  entry.lot_reason = "only one at hand";
  entry.strip_lot = 0;
  try_prepare (scene, &entry, SW_FACT_LOT_MISSING);
  entry.strip_lot = scene->plant->neutraliser_lot;
  try_prepare (scene, &entry, SW_FACT_LOT_MISSING);
  entry.strip_lot = scene->plant->strip_lot;
  try_prepare (scene, &entry, SW_FACT_NONE);
  g_assert_cmpstr (sw_guided_test_get_titration (scene->test)->lot_reason, ==, "only one at hand");
}

static void
test_used_up_lot (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwPrepareEntry entry;

  CHANGE (scene, SwLot, sw_lot, scene->plant->neutraliser_lot, row->used_up = TRUE);
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  scene_draw (scene);
  entry = scene_prepare_entry (scene);
  try_prepare (scene, &entry, SW_FACT_LOT_MISSING);
}

static void
test_family (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwPrepareEntry entry;

  CHANGE (scene, SwSolvent, sw_solvent, scene->plant->solvent, row->family = SW_FAMILY_CHLORINATED);
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  scene_draw (scene);
  entry = scene_prepare_entry (scene);
  try_prepare (scene, &entry, SW_FACT_FAMILY_REFUSED);
  CHANGE (scene, SwMachine, sw_machine, scene->machine.machine, row->solvent = 0);
  try_prepare (scene, &entry, SW_FACT_FAMILY_REFUSED);
}

static void
test_calibration (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwPrepareEntry entry;
  GError *error = NULL;

  sw_test_plant_begin (scene->plant, SW_ACT_VOID);
  sw_record_void (scene->plant->store, SW_TABLE_CALIBRATION, scene->plant->calibration, &error);
  g_assert_no_error (error);
  sw_test_plant_commit (scene->plant);
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  scene_draw (scene);
  entry = scene_prepare_entry (scene);
  try_prepare (scene, &entry, SW_FACT_CALIBRATION_MISSING);
}

static void
test_second_reader (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwPrepareEntry entry;
  GError *error = NULL;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  scene_draw (scene);
  entry = scene_prepare_entry (scene);
  entry.second_reader = scene->plant->technician;
  g_assert_false (sw_guided_test_prepare (scene->test, &entry, &error));
  sw_assert_fault (&error, SW_FAULT_COMBINATION, SW_QUANTITY_NAME);
  entry.second_reader = scene->plant->colleague;
  try_prepare (scene, &entry, SW_FACT_NONE);
  g_assert_cmpint (sw_guided_test_get_titration (scene->test)->second_reader, ==,
                   scene->plant->colleague);
}

/* ---- read ---- */

static void
test_foreign_field (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->administrator);
  g_autoptr (GArray) fields = NULL;
  GError *error = NULL;
  gint64 method;
  gint64 version;

  sw_setup_adopt_method (scene->plant->store, &actor, "drop-test-caustic", "Other",
                         scene->plant->neutraliser, scene->plant->caustic, NAN, FALSE, &method,
                         &error);
  g_assert_no_error (error);
  version = sw_method_latest_version (scene->plant->store, method, &error);
  fields = sw_record_ids (scene->plant->store, SW_TABLE_COLOUR_FIELD, "method_version", version,
                          &error);
  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  g_assert_false (sw_guided_test_read (scene->test, g_array_index (fields, gint64, 0), &error));
  sw_assert_fault (&error, SW_FAULT_COMBINATION, SW_QUANTITY_NAME);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/pages/draw/point", test_draw_point },
  { "/pages/draw/stored", test_draw_is_stored },
  { "/pages/prepare/lots", test_lots },
  { "/pages/prepare/used-up", test_used_up_lot },
  { "/pages/prepare/family", test_family },
  { "/pages/prepare/calibration", test_calibration },
  { "/pages/prepare/second-reader", test_second_reader },
  { "/pages/read/foreign-field", test_foreign_field },
};
/* clang-format on */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (draws); i++)
    {
      g_autofree char *path = sw_test_path ("/pages/draw", draws[i].name);
      g_test_add_data_func (path, &draws[i], test_draw);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (portions); i++)
    {
      g_autofree char *path = sw_test_path ("/pages/prepare/portion", portions[i].name);
      g_test_add_data_func (path, &portions[i], test_portion);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].test);
  return g_test_run ();
}
