/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes a file with everything in it that an auditor asks about. Usage: make-audited FOLDER
 *
 *   FOLDER/plant.stillwarden      the file: a test that passed and was reviewed, one that found
 * acid, its dose, the re-test, the closed incident; an amended sample, a voided titration, a sample
 * written down late, an act after the clock was put back; sign-ins; checkpoints, the last at the
 * end FOLDER/yesterday.stillwarden  the same file a day before FOLDER/trust                  the
 * key and the checkpoints, as beside a real file
 *
 * It goes through the same workflow as the window. People, places and liquids are invented.
 */
#include "../workflow/scene.h"

#include "records/checkpoint.h"
#include "records/trust.h"
#include "workflow/incident.h"

#include <string.h>

/* A libsodium Argon2id text, of a secret that nobody uses. */
#define INVENTED_SECRET                                                                            \
  "$argon2id$v=19$m=65536,t=2,p=1$c29tZS1zYWx0LWZvci10ZXN0$"                                       \
  "qY0sEGpq2Xk1lW3V9h4b0Yw8m5uZc7dR2tNfKjHgLxQ"

static const char *folder;

static SwActor
actor_of (Scene *scene, gint64 person, const char *reason)
{
  SwActor actor = sw_test_plant_actor (scene->plant, person);

  actor.reason = reason;
  return actor;
}

static void
begin (Scene *scene, SwActKind kind, gint64 person, const char *reason)
{
  const SwActor actor = actor_of (scene, person, reason);
  GError *error = NULL;

  sw_act_begin (scene->plant->store, kind, &actor, &error);
  g_assert_no_error (error);
}

static void
commit (Scene *scene)
{
  sw_test_plant_commit (scene->plant);
  sw_test_plant_advance (scene->plant, 1.0);
}

/* ---- what is in the file ---- */

static void
give_secrets (Scene *scene)
{
  const gint64 people[] = { scene->plant->administrator, scene->plant->reviewer };

  for (gsize i = 0; i < G_N_ELEMENTS (people); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (SwPerson) person = sw_person_load (scene->plant->store, people[i], &error);

      g_assert_no_error (error);
      g_free (person->secret);
      person->secret = g_strdup (INVENTED_SECRET);
      begin (scene, SW_ACT_SETUP, people[i], NULL);
      g_assert_true (sw_person_update (scene->plant->store, person, &error));
      commit (scene);
    }
}

static void
sign_in (Scene *scene, gint64 person, gboolean accepted)
{
  g_autoptr (SwSignIn) row = sw_sign_in_new ();
  GError *error = NULL;

  row->person = person;
  row->accepted = accepted;
  begin (scene, SW_ACT_SIGN_IN, accepted ? person : 0, NULL);
  sw_sign_in_insert (scene->plant->store, row, &error);
  g_assert_no_error (error);
  commit (scene);
}

static void
review (Scene *scene, gint64 titration)
{
  g_autoptr (SwTitration) subject = NULL;
  g_autoptr (SwReview) row = sw_review_new ();
  GError *error = NULL;

  subject = sw_titration_load (scene->plant->store, titration, &error);
  g_assert_no_error (error);
  row->subject_table = g_strdup ("titration");
  row->subject = titration;
  row->person = scene->plant->reviewer;
  row->meaning = SW_MEANING_REVIEWED;
  row->subject_seq = subject->record.journal_seq;
  row->identified_by = g_strdup ("demo");
  begin (scene, SW_ACT_SIGN, scene->plant->reviewer, NULL);
  sw_review_insert (scene->plant->store, row, &error);
  g_assert_no_error (error);
  commit (scene);
}

static void
close_incident (Scene *scene)
{
  const SwActor actor = actor_of (scene, scene->plant->reviewer, NULL);
  const SwSigner signer = { scene->plant->reviewer, actor.identified };
  g_autoptr (SwIncident) incident = scene_incident (scene);
  GError *error = NULL;

  g_assert_nonnull (incident);
  sw_incident_close (scene->plant->store, &actor, incident->record.id, "an invented cause", &signer,
                     &error);
  g_assert_no_error (error);
  sw_test_plant_advance (scene->plant, 1.0);
}

static void
amend_sample (Scene *scene, gint64 id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwSample) sample = sw_sample_load (scene->plant->store, id, &error);

  g_assert_no_error (error);
  g_free (sample->remarks);
  sample->remarks = g_strdup ("drawn at the condenser");
  begin (scene, SW_ACT_AMEND, scene->plant->reviewer, "read the label again");
  g_assert_true (sw_sample_update (scene->plant->store, sample, &error));
  commit (scene);
}

/* A test that was begun on the wrong machine: left, and taken out of use. */
static void
void_titration (Scene *scene)
{
  GError *error = NULL;
  gint64 id;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  id = scene_titration (scene);
  sw_guided_test_abandon (scene->test, "the wrong machine", &error);
  g_assert_no_error (error);
  scene_leave (scene);
  begin (scene, SW_ACT_VOID, scene->plant->reviewer, "begun on the wrong machine");
  sw_record_void (scene->plant->store, SW_TABLE_TITRATION, id, &error);
  g_assert_no_error (error);
  commit (scene);
}

/* Drawn in the morning, written down an hour later. */
static void
test_late (Scene *scene)
{
  SwDrawEntry entry;
  GError *error = NULL;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  sw_test_plant_advance (scene->plant, 60.0);
  entry = scene_draw_entry (scene);
  entry.drawn_ms = scene_now (scene) - 55 * SW_TEST_MINUTE_MS;
  sw_guided_test_draw (scene->test, &entry, &error);
  g_assert_no_error (error);
  sw_test_plant_advance (scene->plant, 1.0);
  scene_prepare (scene);
  scene_titrate (scene, 0);
  scene_close (scene);
  scene_sign (scene);
}

static void
put_clock_back (Scene *scene, const char *setting, double hours)
{
  GError *error = NULL;

  sw_test_plant_advance (scene->plant, -60.0 * hours);
  begin (scene, SW_ACT_SETUP, scene->plant->administrator, NULL);
  g_assert_true (sw_setting_put (scene->plant->store, setting, "x", &error));
  commit (scene);
  sw_test_plant_advance (scene->plant, 60.0 * hours);
}

/* ---- a clock put ahead: told by a second clock that nobody sets ---- */

static gint64
steady_cb (gpointer data)
{
  return 0;
}

static void
put_clock_ahead (Scene *scene, const char *setting, double hours)
{
  SwClock clock = sw_test_plant_clock (scene->plant);
  GError *error = NULL;

  clock.steady_ms = steady_cb;
  scene_leave (scene);
  g_clear_pointer (&scene->plant->store, sw_store_close);
  scene->plant->store = sw_store_open (scene->plant->path, SW_OPEN_WRITE, &clock, &error);
  g_assert_no_error (error);
  sw_test_plant_advance (scene->plant, 60.0 * hours);
  begin (scene, SW_ACT_SETUP, scene->plant->administrator, NULL);
  g_assert_true (sw_setting_put (scene->plant->store, setting, "x", &error));
  commit (scene);
  sw_test_plant_reopen (scene->plant, SW_OPEN_WRITE);
}

/* ---- the file and what stands beside it ---- */

static void
checkpoint (Scene *scene)
{
  g_autofree char *trust = g_build_filename (folder, "trust", NULL);
  gint64 seq = 0;
  GError *error = NULL;

  sw_checkpoint_sign (scene->plant->store, trust, &seq, &error);
  g_assert_no_error (error);
  g_assert_cmpint (seq, >, 0);
  sw_test_plant_advance (scene->plant, 1.0);
}

static void
copy (Scene *scene, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  GError *error = NULL;

  sw_store_copy (scene->plant->store, path, &error);
  g_assert_no_error (error);
}

static void
work_first_day (Scene *scene)
{
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  review (scene, scene_titration (scene));
  sw_test_plant_advance (scene->plant, 24.0 * 60.0);
  scene_dosed_test (scene, 3);
}

static void
work_second_day (Scene *scene)
{
  gint64 dose = sw_guided_test_get_dose (scene->test)->record.id;

  sw_test_plant_advance (scene->plant, SW_TEST_PLANT_CIRCULATION_MIN);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  amend_sample (scene, sw_guided_test_get_sample (scene->test)->record.id);
  close_incident (scene);
  sw_test_plant_advance (scene->plant, 24.0 * 60.0);
  void_titration (scene);
  test_late (scene);
}

int
main (int argc, char **argv)
{
  g_autoptr (Scene) scene = NULL;

  g_assert_cmpint (argc, ==, 2);
  folder = argv[1];
  scene = scene_new ();
  give_secrets (scene);
  sign_in (scene, scene->plant->reviewer, FALSE);
  sign_in (scene, scene->plant->reviewer, TRUE);
  work_first_day (scene);
  checkpoint (scene);
  copy (scene, "yesterday.stillwarden");
  work_second_day (scene);
  put_clock_back (scene, "theme", 2.0);
  put_clock_ahead (scene, "size", 3.0);
  checkpoint (scene);
  scene_assert_sound (scene);
  copy (scene, "plant.stillwarden");
  return 0;
}
