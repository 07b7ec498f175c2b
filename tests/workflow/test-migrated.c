/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The test that stood open when version 1 of the file was written goes on in this program: one drop
 * in the flask, not read yet. The file holds the plant of support/plant.h, so that the scene knows
 * its ids (tests/records/data/README.md). */
#include "scene.h"
#include "workflow/secret-private.h"

#include <sodium.h>

#define LAST_MS G_GINT64_CONSTANT (1795674840000) /* of the file's journal */
#define OPEN_TITRATION 4

/* The plant's file replaced by the stored one, opened for writing a few minutes after. */
static Scene *
open_stored (double minutes)
{
  Scene *scene = scene_new ();
  g_autofree char *source = sw_test_source_path ("tests/records/data/version-1.stillwarden");
  g_autofree char *contents = NULL;
  gsize length;
  GError *error = NULL;

  g_clear_pointer (&scene->plant->store, sw_store_close);
  g_file_get_contents (source, &contents, &length, &error);
  g_assert_no_error (error);
  g_file_set_contents (scene->plant->path, contents, (gssize)length, &error);
  g_assert_no_error (error);
  scene->plant->now_ms = LAST_MS;
  sw_test_plant_advance (scene->plant, minutes);
  sw_test_plant_reopen (scene->plant, SW_OPEN_WRITE);
  return scene;
}

static void
give_secret (Scene *scene, gint64 giver, SwIdentified identified, gint64 person)
{
  const SwSecretCost cheap
      = { .operations = crypto_pwhash_OPSLIMIT_MIN, .memory_bytes = crypto_pwhash_MEMLIMIT_MIN };
  const SwActor actor = { .person = giver, .identified = identified };
  GError *error = NULL;

  sw_secret_set_at (scene->plant->store, &actor, person, NULL, SW_TEST_PLANT_SECRET, &cheap,
                    &error);
  g_assert_no_error (error);
}

/* Nobody had a secret in version 1. The administrator comes first, then gives the others one. */
static void
guard (Scene *scene)
{
  const SwTestPlant *plant = scene->plant;

  give_secret (scene, plant->administrator, SW_IDENTIFIED_SELECTED, plant->administrator);
  give_secret (scene, plant->administrator, SW_IDENTIFIED_SECRET, plant->technician);
  give_secret (scene, plant->administrator, SW_IDENTIFIED_SECRET, plant->reviewer);
}

/* Before that it can be looked at, and nothing can be written. */
static void
test_unguarded (void)
{
  g_autoptr (Scene) scene = open_stored (5.0);
  SwFact refusal = { SW_FACT_NONE };
  GError *error = NULL;

  scene_resume (scene, OPEN_TITRATION);
  g_assert_false (sw_guided_test_can (scene->test, SW_MOVE_READ, scene_now (scene), &refusal));
  g_assert_cmpint (refusal.code, ==, SW_FACT_UNGUARDED);
  g_assert_false (sw_guided_test_shake (scene->test, &error));
  scene_assert_fact (&error, SW_FACT_UNGUARDED);
}

/* Whoever changes the plant so that its ids move sees it here. */
static void
check_layout (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwPerson) person
      = sw_person_load (scene->plant->store, scene->plant->technician, &error);
  g_autoptr (SwPerson) reviewer
      = sw_person_load (scene->plant->store, scene->plant->reviewer, &error);
  g_autoptr (SwLot) lot = sw_lot_load (scene->plant->store, scene->plant->neutraliser_lot, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (person->initials, ==, "TI");
  g_assert_cmpstr (reviewer->initials, ==, "RI");
  g_assert_cmpstr (lot->code, ==, "N-1");
}

static void
test_goes_on (void)
{
  g_autoptr (Scene) scene = open_stored (5.0);
  gint64 dose;

  check_layout (scene);
  guard (scene);
  scene_resume (scene, OPEN_TITRATION);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_READ);
  g_assert_cmpfloat (sw_guided_test_get_total (scene->test), ==, 1.0);
  g_assert_cmpuint (sw_guided_test_get_readings (scene->test)->len, ==, 1);

  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DOSE);
  /* acid at 0 drops, neutral at 1; a drop is worth 420 mL of this plant (support/plant.h) */
  g_assert_cmpfloat (sw_guided_test_get_titration (scene->test)->net_low, ==, 0.0);
  g_assert_cmpfloat (sw_guided_test_get_titration (scene->test)->net_high, ==, 1.0);
  scene_decide (scene, 0.0);
  g_assert_cmpfloat (sw_guided_test_get_dose (scene->test)->measured_ml, ==, 420.0);
  scene_record (scene, 420.0);
  dose = sw_guided_test_get_dose (scene->test)->record.id;
  sw_test_plant_advance (scene->plant, SW_TEST_PLANT_CIRCULATION_MIN);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  scene_assert_machine (scene, scene->machine.machine);
  scene_assert_sound (scene);
}

/* Opened half an hour later, the portion is too old, as it would be without a migration. */
static void
test_paused_too_long (void)
{
  g_autoptr (Scene) scene = open_stored (SW_PORTION_GOOD_MIN + 1.0);
  SwFact refusal = { SW_FACT_NONE };

  guard (scene);
  scene_resume (scene, OPEN_TITRATION);
  g_assert_false (sw_guided_test_can (scene->test, SW_MOVE_READ, scene_now (scene), &refusal));
  g_assert_cmpint (refusal.code, ==, SW_FACT_PAUSED_TOO_LONG);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/workflow/migrated/goes-on", test_goes_on);
  g_test_add_func ("/workflow/migrated/unguarded", test_unguarded);
  g_test_add_func ("/workflow/migrated/paused-too-long", test_paused_too_long);
  return g_test_run ();
}
