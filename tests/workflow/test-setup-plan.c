/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up: plans, solvent changes, taking out of use, and what is still missing. */
#include "setup-fields.h"

#include "workflow/amend.h"

/* ---- plans ---- */

static void
test_first_decision (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwPlan) plan = setup_good_plan (scene);
  g_autoptr (SwDecision) first = NULL;
  GError *error = NULL;

  plan->active = FALSE;
  sw_setup_plan (scene->plant->store, &actor, plan, &error);
  g_assert_no_error (error);
  first = sw_decision_load (
      scene->plant->store, sw_decision_last (scene->plant->store, plan->record.id, &error), &error);
  g_assert_no_error (error);
  g_assert_cmpint (first->due_ms, ==, scene_now (scene));
  g_assert_cmpint (first->reason, ==, SW_SCHEDULE_START);
  sw_assert_close (first->interval_days, 1.0, 1e-12);
  g_assert_cmpint (first->titration, ==, 0);
}

static void
check_plan_fault (Scene *scene, SwPlan *plan, SwFaultCode code, SwQuantityName quantity)
{
  const SwActor actor = setup_actor (scene);
  GError *error = NULL;

  g_assert_false (sw_setup_plan (scene->plant->store, &actor, plan, &error));
  sw_assert_fault (&error, code, quantity);
  g_assert_cmpint (plan->record.id, ==, 0);
}

static void
test_plan_refusals (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwPlan) plan = setup_good_plan (scene);
  gint64 machine = plan->machine;
  GError *error = NULL;

  plan->machine = 0;
  check_plan_fault (scene, plan, SW_FAULT_MISSING, SW_QUANTITY_NAME);
  plan->machine = machine;
  plan->longest_days = 0.5;
  check_plan_fault (scene, plan, SW_FAULT_ORDER, SW_QUANTITY_LONGEST);
  plan->longest_days = 7.0;
  /* The machine has an active plan of this method. */
  plan->active = TRUE;
  check_plan_fault (scene, plan, SW_FAULT_COMBINATION, SW_QUANTITY_NAME);
  CHANGE (scene, SwSolvent, sw_solvent, scene->plant->solvent, row->family = SW_FAMILY_CHLORINATED);
  g_assert_false (sw_setup_plan (scene->plant->store, &actor, plan, &error));
  scene_assert_fact (&error, SW_FACT_FAMILY_REFUSED);
}

/* ---- solvent ---- */

static void
test_new_fill (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwFill) old = NULL;
  GError *error = NULL;
  gint64 machine = scene->machine.machine;

  sw_test_plant_advance (scene->plant, 60.0);
  g_assert_false (
      sw_setup_new_fill (scene->plant->store, &actor, machine, scene_now (scene) + 1, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_DATE);
  g_assert_false (
      sw_setup_new_fill (scene->plant->store, &actor, machine, SW_TEST_PLANT_START_MS - 1, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_DATE);
  sw_setup_new_fill (scene->plant->store, &actor, machine, scene_now (scene) - 1000, &error);
  g_assert_no_error (error);
  old = sw_fill_load (scene->plant->store, scene->machine.fill, &error);
  g_assert_cmpint (old->ended_ms, ==, scene_now (scene) - 1000);
  g_assert_cmpint (sw_machine_fill (scene->plant->store, machine, &error), !=, scene->machine.fill);
}

/* ---- out of use ---- */

static void
test_void (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwActor actor = setup_actor (scene);
  g_autoptr (SwLot) lot = NULL;
  GError *error = NULL;

  actor.reason = NULL;
  g_assert_false (sw_void_record (scene->plant->store, &actor, SW_TABLE_LOT,
                                  scene->plant->expired_lot, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
  actor.reason = "poured away";
  sw_void_record (scene->plant->store, &actor, SW_TABLE_LOT, scene->plant->expired_lot, &error);
  g_assert_no_error (error);
  lot = sw_lot_load (scene->plant->store, scene->plant->expired_lot, &error);
  g_assert_true (lot->record.voided);
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  g_assert_false (sw_void_record (scene->plant->store, &actor, SW_TABLE_MACHINE,
                                  scene->machine.machine, &error));
  scene_assert_fact (&error, SW_FACT_MACHINE_HAS_OPEN_TEST);
}

/* A name of a row out of use is still taken: its records keep it. */
static void
test_name_of_voided (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwProduct) product = setup_good_product ();
  GError *error = NULL;

  g_assert_false (
      sw_void_record (scene->plant->store, &actor, SW_TABLE_PRODUCT, scene->plant->strips, &error));
  g_assert_cmpstr (sw_workflow_error_get_fact (error)->text, ==, "S-1");
  scene_assert_fact (&error, SW_FACT_STILL_USED);
  sw_void_record (scene->plant->store, &actor, SW_TABLE_LOT, scene->plant->strip_lot, &error);
  g_assert_no_error (error);
  sw_void_record (scene->plant->store, &actor, SW_TABLE_PRODUCT, scene->plant->strips, &error);
  g_assert_no_error (error);
  g_free (product->name);
  product->name = g_strdup ("invented strips");
  g_assert_false (sw_setup_product (scene->plant->store, &actor, product, &error));
  sw_assert_fault (&error, SW_FAULT_TEXT, SW_QUANTITY_NAME);
  g_assert_cmpint (product->record.id, ==, 0);
}

static void
test_read_only (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwProduct) product = setup_good_product ();
  GError *error = NULL;

  sw_test_plant_reopen (scene->plant, SW_OPEN_READ_ONLY);
  g_assert_false (sw_setup_product (scene->plant->store, &actor, product, &error));
  scene_assert_fact (&error, SW_FACT_READ_ONLY);
}

/* ---- what is missing ---- */

static GArray *
get_missing (Scene *scene, gint64 machine)
{
  GError *error = NULL;
  GArray *facts = sw_setup_missing (scene->plant->store, machine, &error);

  g_assert_no_error (error);
  return facts;
}

static void
test_nothing_missing (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GArray) facts = get_missing (scene, scene->machine.machine);

  g_assert_cmpuint (facts->len, ==, 0);
}

/* A bare machine lacks everything, the most fundamental first. */
static void
test_all_missing (void)
{
  static const SwFactCode expected[]
      = { SW_FACT_NO_DOSE_PRODUCT, SW_FACT_NO_DOSE_PLACE, SW_FACT_NO_DOSE_CIRCULATION,
          SW_FACT_NO_DOSE_VOLUME,  SW_FACT_NO_DOSE_JUG,   SW_FACT_NO_DOSE_POINT };
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwMachine) machine = setup_good_machine (scene);
  g_autoptr (GArray) facts = NULL;
  GError *error = NULL;

  machine->neutraliser = 0;
  sw_setup_machine (scene->plant->store, &actor, machine, NULL, NULL, &error);
  g_assert_no_error (error);
  facts = get_missing (scene, machine->record.id);
  g_assert_cmpuint (facts->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < facts->len; i++)
    g_assert_cmpint (g_array_index (facts, SwFact, i).code, ==, expected[i]);
}

static void
test_missing_for_method (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GArray) facts = NULL;
  const SwActor actor = setup_actor (scene);
  GError *error = NULL;

  CHANGE (scene, SwSolvent, sw_solvent, scene->plant->solvent, row->family = SW_FAMILY_CHLORINATED);
  CHANGE (scene, SwProduct, sw_product, scene->plant->neutraliser,
          row->kind = SW_NEUTRALISER_EPOXIDE);
  sw_void_record (scene->plant->store, &actor, SW_TABLE_CALIBRATION, scene->plant->calibration,
                  &error);
  g_assert_no_error (error);
  facts = get_missing (scene, scene->machine.machine);
  g_assert_cmpuint (facts->len, ==, 3);
  g_assert_cmpint (g_array_index (facts, SwFact, 0).code, ==, SW_FACT_FAMILY_REFUSED);
  g_assert_cmpint (g_array_index (facts, SwFact, 1).code, ==, SW_FACT_CALIBRATION_MISSING);
  g_assert_cmpint (g_array_index (facts, SwFact, 2).code, ==, SW_FACT_NO_DOSE_STRENGTH);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/setup/plan/first-decision", test_first_decision);
  g_test_add_func ("/setup/plan/refusals", test_plan_refusals);
  g_test_add_func ("/setup/fill", test_new_fill);
  g_test_add_func ("/setup/void/reason", test_void);
  g_test_add_func ("/setup/void/name", test_name_of_voided);
  g_test_add_func ("/setup/read-only", test_read_only);
  g_test_add_func ("/setup/missing/nothing", test_nothing_missing);
  g_test_add_func ("/setup/missing/everything", test_all_missing);
  g_test_add_func ("/setup/missing/method", test_missing_for_method);
  return g_test_run ();
}
