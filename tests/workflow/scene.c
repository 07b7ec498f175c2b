/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A guided test on the invented plant, driven move by move. */
#include "scene.h"

#include "records/verify.h"
#include "workflow/due.h"
#include "workflow/recompute.h"

Scene *
scene_new (void)
{
  Scene *scene = g_new0 (Scene, 1);

  scene->plant = sw_test_plant_new ();
  scene->machine = scene->plant->first;
  scene->person = scene->plant->technician;
  return scene;
}

void
scene_free (Scene *scene)
{
  if (scene == NULL)
    return;
  sw_guided_test_free (scene->test);
  sw_test_plant_free (scene->plant);
  g_free (scene);
}

/* ---- asking ---- */

SwActor
scene_actor (const Scene *scene)
{
  return sw_test_plant_actor (scene->plant, scene->person);
}

SwStep
scene_step (const Scene *scene)
{
  return sw_guided_test_get_step (scene->test);
}

gint64
scene_now (const Scene *scene)
{
  return sw_store_now (scene->plant->store);
}

gint64
scene_titration (const Scene *scene)
{
  return sw_guided_test_get_titration (scene->test)->record.id;
}

gint64
scene_field (const Scene *scene, SwField meaning)
{
  GPtrArray *fields = sw_guided_test_get_fields (scene->test);

  if (meaning == SW_FIELD_BETWEEN)
    return 0;
  for (guint i = 0; i < fields->len; i++)
    if (((SwColourField *)fields->pdata[i])->meaning == meaning)
      return ((SwColourField *)fields->pdata[i])->record.id;
  g_assert_not_reached ();
}

SwDrawEntry
scene_draw_entry (const Scene *scene)
{
  return (SwDrawEntry){ .point = scene->machine.point,
                        .running = SW_ANSWER_YES,
                        .level_ok = SW_ANSWER_YES,
                        .added_since = SW_ANSWER_NO,
                        .volume = { .value = 150.0, .typed = (char *)"150 mL" },
                        .temperature = { .value = 22.0, .typed = (char *)"22 degC" },
                        .appearance = "clear",
                        .retained = TRUE };
}

SwPrepareEntry
scene_prepare_entry (const Scene *scene)
{
  return (SwPrepareEntry){ .portion
                           = { .value = SW_TEST_PLANT_SAMPLE_ML, .typed = (char *)"50 mL" },
                           .titrant_lot = scene->plant->neutraliser_lot,
                           .strip_lot = scene->plant->strip_lot };
}

SwIncident *
scene_incident (const Scene *scene)
{
  GError *error = NULL;
  gint64 id = sw_incident_open_id (scene->plant->store, scene->machine.machine, &error);
  SwIncident *incident = NULL;

  g_assert_no_error (error);
  if (id != 0)
    {
      incident = sw_incident_load (scene->plant->store, id, &error);
      g_assert_no_error (error);
    }
  return incident;
}

/* ---- moves ---- */

void
scene_leave (Scene *scene)
{
  g_clear_pointer (&scene->test, sw_guided_test_free);
}

void
scene_resume (Scene *scene, gint64 titration)
{
  const SwActor actor = scene_actor (scene);
  GError *error = NULL;

  scene_leave (scene);
  scene->test = sw_guided_test_resume (scene->plant->store, &actor, titration, &error);
  g_assert_no_error (error);
  g_assert_nonnull (scene->test);
}

static void
after_move (Scene *scene, gboolean moved, GError *error)
{
  gint64 titration;

  g_assert_no_error (error);
  g_assert_true (moved);
  sw_test_plant_advance (scene->plant, 1.0);
  if (!scene->restart)
    return;
  titration = scene_titration (scene);
  scene_leave (scene);
  sw_test_plant_reopen (scene->plant, SW_OPEN_WRITE);
  scene_resume (scene, titration);
}

void
scene_begin (Scene *scene, SwPurpose purpose, gint64 answers_dose)
{
  const SwActor actor = scene_actor (scene);
  GError *error = NULL;

  scene_leave (scene);
  scene->test = sw_guided_test_begin (scene->plant->store, &actor, scene->machine.plan, purpose,
                                      answers_dose, &error);
  after_move (scene, scene->test != NULL, error);
}

void
scene_draw (Scene *scene)
{
  const SwDrawEntry entry = scene_draw_entry (scene);
  GError *error = NULL;
  gboolean moved = sw_guided_test_draw (scene->test, &entry, &error);

  after_move (scene, moved, error);
}

void
scene_prepare (Scene *scene)
{
  const SwPrepareEntry entry = scene_prepare_entry (scene);
  GError *error = NULL;
  gboolean moved = sw_guided_test_prepare (scene->test, &entry, &error);

  after_move (scene, moved, error);
}

void
scene_add (Scene *scene, double steps)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_add (scene->test, steps, &error);

  after_move (scene, moved, error);
}

void
scene_read (Scene *scene, SwField field)
{
  GError *error = NULL;
  gboolean moved;

  sw_guided_test_shake (scene->test, &error);
  g_assert_no_error (error);
  moved = sw_guided_test_read (scene->test, scene_field (scene, field), &error);
  after_move (scene, moved, error);
}

void
scene_strike (Scene *scene, gboolean not_added)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_strike (scene->test, not_added, "read too late", &error);

  after_move (scene, moved, error);
}

void
scene_close (Scene *scene)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_close (scene->test, &error);

  after_move (scene, moved, error);
}

void
scene_accept (Scene *scene)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_accept (scene->test, &error);

  after_move (scene, moved, error);
}

void
scene_sign (Scene *scene)
{
  const SwSigner signer = sw_test_plant_signer (scene->person);
  GError *error = NULL;
  gboolean moved = sw_guided_test_sign (scene->test, &signer, &error);

  after_move (scene, moved, error);
}

void
scene_decide (Scene *scene, double extra)
{
  const SwSigner release = sw_test_plant_signer (scene->plant->reviewer);
  GError *error = NULL;
  gboolean moved = sw_guided_test_decide_dose (scene->test, extra, NULL, &release, &error);

  after_move (scene, moved, error);
}

void
scene_record (Scene *scene, double added_ml)
{
  const SwAddedEntry entry
      = { .added = { .value = added_ml }, .lot = scene->plant->neutraliser_lot };
  GError *error = NULL;
  gboolean moved = sw_guided_test_record_added (scene->test, &entry, &error);

  after_move (scene, moved, error);
}

/* ---- several moves ---- */

void
scene_start (Scene *scene, SwPurpose purpose, gint64 answers_dose)
{
  scene_begin (scene, purpose, answers_dose);
  scene_draw (scene);
  scene_prepare (scene);
}

void
scene_titrate (Scene *scene, int drops)
{
  for (int i = 0; i < drops; i++)
    {
      scene_read (scene, SW_FIELD_ACID);
      scene_add (scene, 1.0);
    }
  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_read (scene, SW_FIELD_NEUTRAL);
}

void
scene_test (Scene *scene, SwPurpose purpose, gint64 answers_dose, int drops)
{
  scene_start (scene, purpose, answers_dose);
  scene_titrate (scene, drops);
  scene_close (scene);
  if (scene_step (scene) == SW_STEP_RESULT)
    scene_accept (scene);
  scene_sign (scene);
}

gint64
scene_dosed_test (Scene *scene, int drops)
{
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, drops);
  scene_decide (scene, 0.0);
  scene_record (scene, sw_guided_test_get_dose (scene->test)->measured_ml);
  return sw_guided_test_get_dose (scene->test)->record.id;
}

/* ---- assertions ---- */

void
scene_check_fact (const char *file, int line, const char *function, GError **error, SwFactCode code)
{
  const SwFact *fact = sw_workflow_error_get_fact (*error);
  g_autofree char *message = NULL;

  if (fact != NULL && fact->code == code)
    {
      g_clear_error (error);
      return;
    }
  message = g_strdup_printf ("expected a refusal with fact %d, got: %s", (int)code,
                             *error != NULL ? (*error)->message : "no error");
  g_assertion_message (G_LOG_DOMAIN, file, line, function, message);
}

void
scene_assert_sound (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwVerifyReport) report = sw_verify_full (scene->plant->store, NULL, NULL, &error);

  g_assert_no_error (error);
  sw_recompute_all (scene->plant->store, report, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < report->findings->len; i++)
    {
      const SwFinding *finding = report->findings->pdata[i];

      g_test_message ("finding %d: %s.%s row %" G_GINT64_FORMAT ": expected %s, found %s, %s",
                      finding->kind, finding->table, finding->column, finding->row,
                      finding->expected, finding->found, finding->text);
    }
  g_assert_cmpuint (report->findings->len, ==, 0);
}

static void
check_doses (Scene *scene, gint64 machine)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) open = sw_titration_open_ids (scene->plant->store, machine, &error);
  g_autoptr (GArray) doses
      = sw_dose_ids_in_state (scene->plant->store, machine, SW_DOSE_OPEN, &error);
  g_autoptr (GArray) unanswered = sw_dose_unanswered_ids (scene->plant->store, machine, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (open->len, <=, 1);
  g_assert_cmpuint (doses->len, <=, 1);
  g_assert_cmpuint (unanswered->len, <=, 1);
  /* A dose is decided only when none waits for its re-test. */
  g_assert_cmpuint (doses->len + unanswered->len, <=, 1);
}

static void
check_incidents (Scene *scene, gint64 machine)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids
      = sw_record_ids (scene->plant->store, SW_TABLE_INCIDENT, "machine", machine, &error);
  SwMachineState state;
  guint open = 0;

  g_assert_no_error (error);
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwIncident) incident
          = sw_incident_load (scene->plant->store, g_array_index (ids, gint64, i), &error);

      g_assert_no_error (error);
      open += incident->state == SW_INCIDENT_OPEN;
    }
  g_assert_cmpuint (open, <=, 1);
  sw_machine_state (scene->plant->store, machine, scene_now (scene), &state, &error);
  g_assert_no_error (error);
  if (state.last == SW_OUTCOME_ACID_FOUND || state.last == SW_OUTCOME_OVER_RANGE)
    g_assert_cmpuint (open, ==, 1);
}

void
scene_assert_machine (Scene *scene, gint64 machine)
{
  check_doses (scene, machine);
  check_incidents (scene, machine);
}
