/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: signature, control test, re-test and incident. */
#include "scene.h"
#include "workflow/incident.h"

/* ---- signature ---- */

static void
test_sign (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GArray) ids = NULL;
  g_autoptr (SwReview) review = NULL;
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  ids = sw_record_ids (scene->plant->store, SW_TABLE_REVIEW, "subject", scene_titration (scene),
                       &error);
  g_assert_no_error (error);
  g_assert_cmpuint (ids->len, ==, 1);
  review = sw_review_load (scene->plant->store, g_array_index (ids, gint64, 0), &error);
  g_assert_no_error (error);
  g_assert_cmpstr (review->subject_table, ==, "titration");
  g_assert_cmpint (review->meaning, ==, SW_MEANING_PERFORMED);
  g_assert_cmpint (review->person, ==, scene->plant->technician);
  g_assert_cmpstr (review->identified_by, ==, "secret");
  g_assert_cmpint (review->subject_seq, ==,
                   sw_guided_test_get_titration (scene->test)->record.journal_seq);
}

static void
test_sign_needs_a_person (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwSigner nobody = sw_test_plant_signer (0);
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 0);
  scene_close (scene);
  g_assert_false (sw_guided_test_sign (scene->test, &nobody, &error));
  scene_assert_fact (&error, SW_FACT_NOT_THE_SIGNER);
  scene->person = 0;
  scene_resume (scene, scene_titration (scene));
  g_assert_false (sw_guided_test_sign (scene->test, &nobody, &error));
  scene_assert_fact (&error, SW_FACT_NOBODY);
}

/* Nobody signs what somebody else did, a reviewer neither. */
static void
test_sign_by_another (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwSigner reviewer = sw_test_plant_signer (scene->plant->reviewer);
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 0);
  scene_close (scene);
  g_assert_false (sw_guided_test_sign (scene->test, &reviewer, &error));
  scene_assert_fact (&error, SW_FACT_NOT_THE_SIGNER);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_CHECK);
  g_assert_cmpint (sw_guided_test_get_titration (scene->test)->signed_ms, ==, 0);
  scene_sign (scene);
}

/* A control test is about the bench: no incident, no schedule, no dose. */
static void
test_control (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;

  scene_test (scene, SW_PURPOSE_CONTROL, 0, 2);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  incident = scene_incident (scene);
  g_assert_null (incident);
  g_assert_null (sw_guided_test_get_decision (scene->test));
}

/* ---- re-test and incident ---- */

static void
test_retest_finds_acid (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;
  g_autoptr (SwDoseRow) answered = NULL;
  GError *error = NULL;
  gint64 dose = scene_dosed_test (scene, 3);

  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 1);
  answered = sw_dose_row_load (scene->plant->store, dose, &error);
  g_assert_no_error (error);
  g_assert_cmpint (answered->retest_sample, ==, sw_guided_test_get_sample (scene->test)->record.id);
  incident = scene_incident (scene);
  g_assert_cmpint (incident->record.id, ==, answered->incident);
  g_assert_cmpint (incident->state, ==, SW_INCIDENT_OPEN);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DOSE);
}

/* A pass drawn for something else leaves the dose waiting for its own re-test. */
static void
test_routine_pass_does_not_answer (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;

  scene_dosed_test (scene, 3);
  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  incident = scene_incident (scene);
  g_assert_cmpint (incident->state, ==, SW_INCIDENT_OPEN);
}

/* Nothing was dosed (the solvent was changed, say): a later pass ends the incident too. */
static void
test_pass_without_dose (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  sw_guided_test_no_dose (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  incident = scene_incident (scene);
  g_assert_cmpint (incident->state, ==, SW_INCIDENT_RETEST_PASSED);
}

/* Acid after a passing re-test that nobody reviewed yet is another incident. */
static void
test_new_incident (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) first = NULL;
  g_autoptr (SwIncident) second = NULL;
  gint64 dose = scene_dosed_test (scene, 3);

  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  first = scene_incident (scene);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 2);
  second = scene_incident (scene);
  g_assert_cmpint (second->record.id, !=, first->record.id);
  g_assert_cmpint (second->state, ==, SW_INCIDENT_OPEN);
}

/* 45 min of circulation: what was drawn before proves nothing, whatever the clock says now. */
static void
test_retest_drawn_too_early (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gint64 dose = scene_dosed_test (scene, 3);
  gint64 due_ms = sw_guided_test_get_dose (scene->test)->retest_due_ms;
  SwDrawEntry entry;

  scene_begin (scene, SW_PURPOSE_RETEST, dose);
  scene->plant->now_ms = due_ms - 15 * SW_TEST_MINUTE_MS;
  entry = scene_draw_entry (scene);
  g_assert_false (sw_guided_test_draw (scene->test, &entry, &error));
  sw_assert_close (sw_workflow_error_get_fact (error)->number[0], 15.0, 1e-12);
  scene_assert_fact (&error, SW_FACT_RETEST_TOO_EARLY);
  scene->plant->now_ms = due_ms + SW_TEST_HOUR_MS;
  entry.drawn_ms = due_ms - 1;
  g_assert_false (sw_guided_test_draw (scene->test, &entry, &error));
  scene_assert_fact (&error, SW_FACT_RETEST_TOO_EARLY);
  entry.drawn_ms = scene_now (scene) + SW_TEST_MINUTE_MS;
  g_assert_false (sw_guided_test_draw (scene->test, &entry, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_DATE);
  entry.drawn_ms = due_ms;
  sw_guided_test_draw (scene->test, &entry, &error);
  g_assert_no_error (error);
}

/* ---- the end of an incident ---- */

typedef struct
{
  const char *name;
  gsize person; /* offset in SwTestPlant; the technician did the re-test */
  gboolean passed;
  const char *cause;
  SwFactCode refusal;
} CloseRow;

static const CloseRow close_rows[] = {
  { "reviewer", G_STRUCT_OFFSET (SwTestPlant, reviewer), TRUE, "oil", SW_FACT_NONE },
  { "administrator", G_STRUCT_OFFSET (SwTestPlant, administrator), TRUE, "oil", SW_FACT_NONE },
  { "analyst", G_STRUCT_OFFSET (SwTestPlant, technician), TRUE, "oil", SW_FACT_NEEDS_REVIEWER },
  { "colleague", G_STRUCT_OFFSET (SwTestPlant, colleague), TRUE, "oil", SW_FACT_NEEDS_REVIEWER },
  { "auditor", G_STRUCT_OFFSET (SwTestPlant, auditor), TRUE, "oil", SW_FACT_NEEDS_REVIEWER },
  { "still-acid", G_STRUCT_OFFSET (SwTestPlant, reviewer), FALSE, "oil", SW_FACT_NOT_FROM_HERE },
};

/* An incident that waits (or, without @passed, is still open). */
static gint64
make_incident (Scene *scene, gboolean passed)
{
  gint64 dose = scene_dosed_test (scene, 3);
  g_autoptr (SwIncident) incident = NULL;

  if (passed)
    {
      sw_test_plant_advance (scene->plant, 60.0);
      scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
    }
  incident = scene_incident (scene);
  g_assert_nonnull (incident);
  return incident != NULL ? incident->record.id : 0;
}

static void
test_close (gconstpointer data)
{
  const CloseRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  const gint64 id = make_incident (scene, row->passed);
  const SwActor actor
      = sw_test_plant_actor (scene->plant, G_STRUCT_MEMBER (gint64, scene->plant, row->person));
  const SwSigner signer = sw_test_plant_signer (actor.person);
  g_autoptr (SwIncident) incident = NULL;
  GError *error = NULL;
  gboolean closed
      = sw_incident_close (scene->plant->store, &actor, id, row->cause, &signer, &error);

  if (row->refusal != SW_FACT_NONE)
    scene_assert_fact (&error, row->refusal);
  g_assert_no_error (error);
  g_assert_cmpint (closed, ==, row->refusal == SW_FACT_NONE);
  incident = sw_incident_load (scene->plant->store, id, &error);
  g_assert_no_error (error);
  g_assert_cmpint (incident->state == SW_INCIDENT_CLOSED, ==, closed);
  g_assert_cmpint (incident->closed_by, ==, closed ? actor.person : 0);
  scene_assert_sound (scene);
}

/* The reviewer at the bench cannot close it with the administrator's signature. */
static void
test_close_by_another (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 id = make_incident (scene, TRUE);
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->reviewer);
  const SwSigner other = sw_test_plant_signer (scene->plant->administrator);
  GError *error = NULL;

  g_assert_false (sw_incident_close (scene->plant->store, &actor, id, "oil", &other, &error));
  scene_assert_fact (&error, SW_FACT_NOT_THE_SIGNER);
}

static void
test_close_needs_a_cause (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 id = make_incident (scene, TRUE);
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->reviewer);
  const SwSigner signer = sw_test_plant_signer (scene->plant->reviewer);
  GError *error = NULL;

  g_assert_false (sw_incident_close (scene->plant->store, &actor, id, "  ", &signer, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
  g_assert_true (
      sw_incident_close (scene->plant->store, &actor, id, "none found", &signer, &error));
  g_assert_no_error (error);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/incident/sign/review-row", test_sign },
  { "/incident/sign/needs-a-person", test_sign_needs_a_person },
  { "/incident/sign/by-another", test_sign_by_another },
  { "/incident/control", test_control },
  { "/incident/retest/acid", test_retest_finds_acid },
  { "/incident/retest/routine-pass", test_routine_pass_does_not_answer },
  { "/incident/retest/pass-without-dose", test_pass_without_dose },
  { "/incident/retest/new-incident", test_new_incident },
  { "/incident/retest/too-early", test_retest_drawn_too_early },
  { "/incident/close/by-another", test_close_by_another },
  { "/incident/close/needs-a-cause", test_close_needs_a_cause },
};
/* clang-format on */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].test);
  SW_TEST_ROWS ("/incident/close", close_rows, test_close);
  return g_test_run ();
}
