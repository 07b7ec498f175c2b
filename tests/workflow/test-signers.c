/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who signs: known well enough, a second person where one is asked for, and a second reader. */
#include "scene.h"

#include "change.h"
#include "workflow/incident.h"

/* ---- how the program knows the signer ---- */

static SwSigner
picked (gint64 person)
{
  return (SwSigner){ .person = person, .identified = SW_IDENTIFIED_SELECTED };
}

/* The session was begun with the secret; for the signature the name alone is not enough. */
static void
test_performed_by_name (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwSigner signer = picked (scene->person);
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 0);
  scene_close (scene);
  g_assert_false (sw_guided_test_sign (scene->test, &signer, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_SECRET);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_CHECK);
}

/* Where names are allowed, a technician signs by name, and the record says so. */
static void
test_performed_where_allowed (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = { .person = scene->person, .identified = SW_IDENTIFIED_SELECTED };
  const SwSigner signer = picked (scene->person);
  g_autoptr (GArray) ids = NULL;
  g_autoptr (SwReview) review = NULL;
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 0);
  scene_close (scene);
  CHANGE (scene, SwPerson, sw_person, scene->person, g_clear_pointer (&row->secret, g_free));
  sw_test_plant_begin (scene->plant, SW_ACT_SETUP);
  sw_setting_put (scene->plant->store, SW_SETTING_NAME_ONLY, "yes", &error);
  sw_test_plant_commit (scene->plant);
  gint64 titration = scene_titration (scene);
  scene_leave (scene);
  scene->test = sw_guided_test_resume (scene->plant->store, &actor, titration, &error);
  g_assert_true (sw_guided_test_sign (scene->test, &signer, &error));
  g_assert_no_error (error);
  ids = sw_record_ids (scene->plant->store, SW_TABLE_REVIEW, "subject", titration, &error);
  review = sw_review_load (scene->plant->store, g_array_index (ids, gint64, 0), &error);
  g_assert_cmpstr (review->identified_by, ==, "selected");
}

static void
test_released_by_name (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwSigner release = picked (scene->plant->reviewer);
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 5);
  g_assert_false (sw_guided_test_decide_dose (scene->test, 0.0, NULL, &release, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_SECRET);
  g_assert_null (sw_guided_test_get_dose (scene->test));
  scene_decide (scene, 0.0);
}

static void
test_closed_by_name (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 dose = scene_dosed_test (scene, 2);
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->reviewer);
  const SwActor by_name = { .person = actor.person, .identified = SW_IDENTIFIED_SELECTED };
  const SwSigner signer = picked (scene->plant->reviewer);
  const SwSigner known = sw_test_plant_signer (scene->plant->reviewer);
  g_autoptr (SwIncident) incident = NULL;
  SwFact refusal = { SW_FACT_NONE };
  GError *error = NULL;

  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  incident = scene_incident (scene);
  g_assert_false (
      sw_incident_may_close (scene->plant->store, &by_name, incident, &refusal, &error));
  g_assert_no_error (error);
  g_assert_cmpint (refusal.code, ==, SW_FACT_NEEDS_SECRET);
  g_assert_false (
      sw_incident_close (scene->plant->store, &actor, incident->record.id, "oil", &signer, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_SECRET);
  g_assert_true (
      sw_incident_close (scene->plant->store, &actor, incident->record.id, "oil", &known, &error));
  g_assert_no_error (error);
}

/* ---- a second person releases ---- */

/* The technician began; the reviewer took over at the strip, or at the signature: not a second pair
 * of eyes any more. */
static void
check_not_released_by (Scene *scene, gint64 person)
{
  const SwSigner release = sw_test_plant_signer (person);
  GError *error = NULL;

  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DOSE);
  g_assert_false (sw_guided_test_decide_dose (scene->test, 0.0, NULL, &release, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_RELEASE_DROPS);
}

static void
hand_over (Scene *scene, gint64 person)
{
  scene->person = person;
  scene_resume (scene, scene_titration (scene));
}

static void
test_released_by_reader (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  hand_over (scene, scene->plant->reviewer);
  scene_titrate (scene, 5);
  hand_over (scene, scene->plant->technician);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
  check_not_released_by (scene, scene->plant->reviewer);
}

static void
test_released_by_who_signed (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 5);
  scene_close (scene);
  scene_accept (scene);
  hand_over (scene, scene->plant->reviewer);
  scene_sign (scene);
  check_not_released_by (scene, scene->plant->reviewer);
}

/* ---- a second reader ---- */

static void
test_second_reader (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwPrepareEntry entry = scene_prepare_entry (scene);
  GError *error = NULL;

  CHANGE (scene, SwPerson, sw_person, scene->person, row->second_reader = TRUE);
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  scene_draw (scene);
  g_assert_false (sw_guided_test_prepare (scene->test, &entry, &error));
  scene_assert_fact (&error, SW_FACT_SECOND_READER_MISSING);
  entry.second_reader = scene->person;
  g_assert_false (sw_guided_test_prepare (scene->test, &entry, &error));
  sw_assert_fault (&error, SW_FAULT_COMBINATION, SW_QUANTITY_NAME);
  entry.second_reader = scene->plant->colleague;
  g_assert_true (sw_guided_test_prepare (scene->test, &entry, &error));
  g_assert_no_error (error);
  g_assert_cmpint (sw_guided_test_get_titration (scene->test)->second_reader, ==,
                   scene->plant->colleague);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/signers/performed/by-name", test_performed_by_name },
  { "/signers/performed/where-names-are-allowed", test_performed_where_allowed },
  { "/signers/released/by-name", test_released_by_name },
  { "/signers/released/by-a-reader", test_released_by_reader },
  { "/signers/released/by-who-signed", test_released_by_who_signed },
  { "/signers/closed/by-name", test_closed_by_name },
  { "/signers/second-reader", test_second_reader },
};
/* clang-format on */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].test);
  return g_test_run ();
}
