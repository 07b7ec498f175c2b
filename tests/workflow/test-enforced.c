/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rights are asked for by whatever writes: each function tried by each role, and by a person whom
 * the program does not know well enough. What is refused leaves no row in the journal. */
#include "scene.h"

#include "change.h"
#include "records/verify.h"
#include "setup-fields.h"
#include "workflow/amend.h"
#include "workflow/incident.h"
#include "workflow/sign-in.h"

/* ---- every function that writes, once ---- */

typedef gboolean (*Write) (Scene *scene, const SwActor *actor, GError **error);

static gboolean
write_site (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (SwSite) site = sw_site_get (scene->plant->store, NULL);

  site->retention_years = 10;
  return sw_setup_site (scene->plant->store, actor, site, error);
}

static gboolean
write_person (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (SwPerson) person = sw_person_new ();

  person->name = g_strdup ("N. Invented");
  person->initials = g_strdup ("NI");
  person->active = TRUE;
  return sw_setup_person (scene->plant->store, actor, person, error);
}

static gboolean
write_solvent (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (SwSolvent) solvent = sw_solvent_new ();

  solvent->name = g_strdup ("another invented one");
  return sw_setup_solvent (scene->plant->store, actor, solvent, error);
}

static gboolean
write_product (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (SwProduct) product = setup_good_product ();

  return sw_setup_product (scene->plant->store, actor, product, error);
}

static gboolean
write_lot (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (SwLot) lot = sw_lot_new ();

  lot->product = scene->plant->neutraliser;
  lot->code = g_strdup ("N-9");
  return sw_setup_lot (scene->plant->store, actor, lot, error);
}

static gboolean
write_calibration (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (SwCalibration) calibration
      = sw_calibration_load (scene->plant->store, scene->plant->calibration, NULL);

  calibration->record = (SwRecord){ 0 };
  return sw_setup_calibration (scene->plant->store, actor, calibration, error);
}

static gboolean
write_machine (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (SwMachine) machine = setup_good_machine (scene);

  return sw_setup_machine (scene->plant->store, actor, machine, NULL, NULL, error);
}

static gboolean
write_method (Scene *scene, const SwActor *actor, GError **error)
{
  return sw_setup_adopt_method (scene->plant->store, actor, "drop-test-neutraliser", "Another",
                                scene->plant->neutraliser, 0, NAN, FALSE, NULL, error);
}

static gboolean
write_fields (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (GPtrArray) fields
      = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_colour_field_free);
  SwColourField *field = sw_colour_field_load (scene->plant->store, 1, NULL);

  g_free (field->label);
  field->label = g_strdup ("as ours looks");
  g_ptr_array_add (fields, field);
  return sw_setup_colour_fields (scene->plant->store, actor, fields, error);
}

static gboolean
write_plan (Scene *scene, const SwActor *actor, GError **error)
{
  g_autoptr (SwPlan) plan = sw_plan_load (scene->plant->store, scene->machine.plan, NULL);

  plan->longest_days = 6.0;
  return sw_setup_plan (scene->plant->store, actor, plan, error);
}

static gboolean
write_fill (Scene *scene, const SwActor *actor, GError **error)
{
  return sw_setup_new_fill (scene->plant->store, actor, scene->machine.machine, 0, error);
}

static gboolean
void_lot (Scene *scene, const SwActor *actor, GError **error)
{
  return sw_void_record (scene->plant->store, actor, SW_TABLE_LOT, scene->plant->expired_lot,
                         error);
}

static gboolean
void_point (Scene *scene, const SwActor *actor, GError **error)
{
  return sw_void_record (scene->plant->store, actor, SW_TABLE_SAMPLING_POINT,
                         scene->machine.separator, error);
}

static gboolean
give_secret (Scene *scene, const SwActor *actor, GError **error)
{
  return sw_secret_set (scene->plant->store, actor, scene->plant->colleague, NULL, "given to you",
                        error);
}

static gboolean
allow_names (Scene *scene, const SwActor *actor, GError **error)
{
  return sw_right_set_name_only (scene->plant->store, actor, TRUE, error);
}

static gboolean
set_lock (Scene *scene, const SwActor *actor, GError **error)
{
  return sw_right_set_idle_lock_min (scene->plant->store, actor, 5.0, error);
}

static gboolean
begin_test (Scene *scene, const SwActor *actor, GError **error)
{
  scene_leave (scene);
  scene->test = sw_guided_test_begin (scene->plant->store, actor, scene->machine.plan,
                                      SW_PURPOSE_ROUTINE, 0, error);
  return scene->test != NULL;
}

/* ---- one machine more, whose test or incident is there already ---- */

static gint64
make_incident (Scene *scene)
{
  gint64 dose;
  g_autoptr (SwIncident) incident = NULL;

  scene->machine = sw_test_plant_add_machine (scene->plant, "M-08");
  dose = scene_dosed_test (scene, 2);
  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  incident = scene_incident (scene);
  return incident->record.id;
}

static gboolean
close_incident (Scene *scene, const SwActor *actor, GError **error)
{
  const SwSigner signer = { .person = actor->person, .identified = actor->identified };
  g_autoptr (GArray) ids = sw_record_ids (scene->plant->store, SW_TABLE_INCIDENT, NULL, 0, NULL);

  return sw_incident_close (scene->plant->store, actor, g_array_index (ids, gint64, 0), "oil",
                            &signer, error);
}

typedef struct
{
  const char *name;
  Write write;
  SwRight right;
} WriteRow;

static const WriteRow writes[] = {
  { "site", write_site, SW_RIGHT_SET_UP },
  { "person", write_person, SW_RIGHT_SET_UP },
  { "solvent", write_solvent, SW_RIGHT_SET_UP },
  { "product", write_product, SW_RIGHT_SET_UP },
  { "lot", write_lot, SW_RIGHT_BENCH },
  { "calibration", write_calibration, SW_RIGHT_BENCH },
  { "machine", write_machine, SW_RIGHT_SET_UP },
  { "method", write_method, SW_RIGHT_SET_UP },
  { "colour-fields", write_fields, SW_RIGHT_SET_UP },
  { "plan", write_plan, SW_RIGHT_SET_UP },
  { "fill", write_fill, SW_RIGHT_SET_UP },
  { "void-lot", void_lot, SW_RIGHT_BENCH },
  { "void-point", void_point, SW_RIGHT_SET_UP },
  { "give-secret", give_secret, SW_RIGHT_SET_UP },
  { "allow-names", allow_names, SW_RIGHT_SET_UP },
  { "idle-lock", set_lock, SW_RIGHT_SET_UP },
  { "begin-test", begin_test, SW_RIGHT_TEST },
  { "close-incident", close_incident, SW_RIGHT_REVIEW },
};

static char *
get_head (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  char *head = sw_journal_head (scene->plant->store, &error);

  g_assert_no_error (error);
  return head;
}

static void
check_refused (Scene *scene, const WriteRow *row, const SwActor *actor)
{
  g_autofree char *before = get_head (scene);
  g_autofree char *after = NULL;
  GError *error = NULL;

  g_assert_false (row->write (scene, actor, &error));
  g_assert_nonnull (sw_workflow_error_get_fact (error));
  g_clear_error (&error);
  after = get_head (scene);
  g_assert_cmpstr (after, ==, before);
}

/* Refused for whoever may not, in the order of their rights, and then done by who may: so that
 * nothing but the person was wrong. */
static void
test_write (gconstpointer data)
{
  const WriteRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  const SwTestPlant *plant = scene->plant;
  const gint64 least[SW_N_RIGHTS] = { [SW_RIGHT_TEST] = plant->technician,
                                      [SW_RIGHT_BENCH] = plant->technician,
                                      [SW_RIGHT_REVIEW] = plant->reviewer,
                                      [SW_RIGHT_SET_UP] = plant->administrator };
  const gint64 people[]
      = { plant->auditor, plant->technician, plant->reviewer, plant->administrator };
  SwActor actor = sw_test_plant_actor (plant, 0);
  GError *error = NULL;

  actor.reason = "for a test";
  if (row->right == SW_RIGHT_REVIEW)
    make_incident (scene);
  check_refused (scene, row, &actor);
  for (gsize i = 0; people[i] != least[row->right]; i++)
    {
      actor.person = people[i];
      check_refused (scene, row, &actor);
    }
  actor.person = least[row->right];
  actor.identified = SW_IDENTIFIED_SELECTED;
  check_refused (scene, row, &actor);
  actor.identified = SW_IDENTIFIED_SECRET;
  g_assert_true (row->write (scene, &actor, &error));
  g_assert_no_error (error);
  scene_assert_sound (scene);
}

/* ---- the moves of a test ---- */

/* Every move from where it is possible, by an auditor; then by the technician. */
static void
try_move (Scene *scene, SwMove move, gint64 person)
{
  g_autofree char *before = get_head (scene);
  g_autofree char *after = NULL;
  SwFact refusal = { SW_FACT_NONE };
  GError *error = NULL;

  scene->person = scene->plant->auditor;
  scene_resume (scene, scene_titration (scene));
  g_assert_false (sw_guided_test_can (scene->test, move, scene_now (scene), &refusal));
  g_assert_cmpint (refusal.code, ==, SW_FACT_AUDITOR_READS);
  g_assert_false (scene_try (scene, move, &error));
  scene_assert_fact (&error, SW_FACT_AUDITOR_READS);
  after = get_head (scene);
  g_assert_cmpstr (after, ==, before);
  scene->person = person;
  scene_resume (scene, scene_titration (scene));
  g_assert_true (scene_try (scene, move, &error));
  g_assert_no_error (error);
  sw_test_plant_advance (scene->plant, 1.0);
}

static void
test_moves (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 person = scene->plant->technician;
  const SwMove first[] = { SW_MOVE_DRAW, SW_MOVE_PREPARE, SW_MOVE_SHAKE,
                           SW_MOVE_READ, SW_MOVE_STRIKE,  SW_MOVE_FRESH_PORTION };

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (first); i++)
    try_move (scene, first[i], person);
  scene_prepare (scene);
  scene_titrate (scene, 2);
  try_move (scene, SW_MOVE_CLOSE, person);
  try_move (scene, SW_MOVE_BACK, person);
  try_move (scene, SW_MOVE_CLOSE, person);
  try_move (scene, SW_MOVE_ACCEPT, person);
  try_move (scene, SW_MOVE_SIGN, person);
  try_move (scene, SW_MOVE_DECIDE_DOSE, person);
  try_move (scene, SW_MOVE_RECORD_ADDED, person);
  scene_assert_sound (scene);
}

static void
test_abandon (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  try_move (scene, SW_MOVE_ABANDON, scene->plant->technician);
}

/* Looking at a dose that has lapsed writes nothing for who may not write. */
static void
test_resume_lapsed (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 2);
  scene_decide (scene, 0.0);
  sw_test_plant_advance (scene->plant, 9.0 * 60.0);
  before = get_head (scene);
  scene->person = scene->plant->auditor;
  scene_resume (scene, scene_titration (scene));
  after = get_head (scene);
  g_assert_cmpstr (after, ==, before);
  scene->person = scene->plant->technician;
  scene_resume (scene, scene_titration (scene));
  g_assert_cmpint (sw_guided_test_get_dose (scene->test)->state, ==, SW_DOSE_LAPSED);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/enforced/write", writes, test_write);
  g_test_add_func ("/enforced/moves", test_moves);
  g_test_add_func ("/enforced/abandon", test_abandon);
  g_test_add_func ("/enforced/resume-lapsed", test_resume_lapsed);
  return g_test_run ();
}
