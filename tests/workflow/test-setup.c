/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up: whole machines, and what belongs together or excludes each other. */
#include "setup-fields.h"

#include "records/verify.h"

/* ---- a machine ---- */

static char *
get_head (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  char *head = sw_journal_head (scene->plant->store, &error);

  g_assert_no_error (error);
  return head;
}

static void
test_new_machine (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwMachine) machine = setup_good_machine (scene);
  g_autoptr (SwFill) fill = NULL;
  GError *error = NULL;
  gint64 id;

  sw_setup_machine (scene->plant->store, &actor, machine, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (machine->record.id, !=, 0);
  id = sw_machine_fill (scene->plant->store, machine->record.id, &error);
  fill = sw_fill_load (scene->plant->store, id, &error);
  g_assert_no_error (error);
  g_assert_cmpint (fill->solvent, ==, scene->plant->solvent);
  g_assert_cmpint (fill->record.happened_ms, ==, scene_now (scene));
}

/* Compartments listed no more are taken out of use; the sum follows. */
static void
test_amend_machine (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwActor actor = setup_actor (scene);
  g_autoptr (SwMachine) machine = NULL;
  g_autoptr (GPtrArray) compartments
      = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_compartment_free);
  SwCompartment *only = sw_compartment_new ();
  SwQuantity system_l;
  GError *error = NULL;

  machine = sw_machine_load (scene->plant->store, scene->machine.machine, &error);
  only->volume.value = 250.0;
  g_ptr_array_add (compartments, only);
  actor.reason = NULL;
  g_assert_false (
      sw_setup_machine (scene->plant->store, &actor, machine, compartments, NULL, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
  g_assert_cmpint (only->record.id, ==, 0);
  actor.reason = "rebuilt";
  sw_setup_machine (scene->plant->store, &actor, machine, compartments, NULL, &error);
  g_assert_no_error (error);
  sw_machine_volume (scene->plant->store, scene->machine.machine, &system_l, NULL, &error);
  sw_assert_close (system_l.value, 250.0, 1e-12);
  scene_assert_sound (scene);
}

/* The file's own rule refuses: nothing was written, and the caller's rows have no ids. */
static void
test_machine_all_or_nothing (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwMachine) machine = setup_good_machine (scene);
  g_autoptr (GPtrArray) points
      = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_sampling_point_free);
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  SwSamplingPoint *good = sw_sampling_point_new ();
  SwSamplingPoint *foreign = sw_sampling_point_new ();
  GError *error = NULL;

  good->rank = foreign->rank = 1;
  good->name = g_strdup ("condensate");
  foreign->name = g_strdup ("gone");
  foreign->record.id = 9999;
  g_ptr_array_add (points, good);
  g_ptr_array_add (points, foreign);
  before = get_head (scene);
  g_assert_false (sw_setup_machine (scene->plant->store, &actor, machine, NULL, points, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NO_SUCH_ROW);
  g_clear_error (&error);
  after = get_head (scene);
  g_assert_cmpstr (after, ==, before);
  g_assert_cmpint (machine->record.id, ==, 0);
  g_assert_cmpint (good->record.id, ==, 0);
}

/* ---- what excludes each other ---- */

static void
check_machine_fault (Scene *scene, SwMachine *machine, SwFaultCode code, SwQuantityName quantity)
{
  const SwActor actor = setup_actor (scene);
  GError *error = NULL;

  g_assert_false (sw_setup_machine (scene->plant->store, &actor, machine, NULL, NULL, &error));
  sw_assert_fault (&error, code, quantity);
}

static void
test_machine_products (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwMachine) machine = setup_good_machine (scene);

  machine->neutraliser = scene->plant->caustic;
  check_machine_fault (scene, machine, SW_FAULT_COMBINATION, SW_QUANTITY_NAME);
  machine->neutraliser = scene->plant->strips;
  check_machine_fault (scene, machine, SW_FAULT_COMBINATION, SW_QUANTITY_NAME);
  machine->neutraliser = 0;
  machine->solvent = 0;
  check_machine_fault (scene, machine, SW_FAULT_MISSING, SW_QUANTITY_NAME);
}

static void
test_machine_reserve (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwMachine) machine = setup_good_machine (scene);
  const SwActor actor = setup_actor (scene);
  GError *error = NULL;

  machine->reserve_low = 6.0;
  check_machine_fault (scene, machine, SW_FAULT_MISSING, SW_QUANTITY_RESERVE_HIGH);
  machine->reserve_high = 3.0;
  check_machine_fault (scene, machine, SW_FAULT_ORDER, SW_QUANTITY_RESERVE_HIGH);
  machine->reserve_high = 9.0;
  sw_setup_machine (scene->plant->store, &actor, machine, NULL, NULL, &error);
  g_assert_no_error (error);
}

static void
check_product_fault (Scene *scene, SwProduct *product, SwFaultCode code, SwQuantityName quantity)
{
  const SwActor actor = setup_actor (scene);
  GError *error = NULL;

  g_assert_false (sw_setup_product (scene->plant->store, &actor, product, &error));
  sw_assert_fault (&error, code, quantity);
}

static void
test_product (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwProduct) product = setup_good_product ();

  product->limit_each_ml_l = 10.0;
  product->limit_total_ml_l = 5.0;
  check_product_fault (scene, product, SW_FAULT_ORDER, SW_QUANTITY_LIMIT_TOTAL);
  product->limit_total_ml_l = 50.0;
  product->no_limits_by = g_strdup ("A. Invented");
  check_product_fault (scene, product, SW_FAULT_COMBINATION, SW_QUANTITY_LIMIT_EACH);
  g_clear_pointer (&product->no_limits_by, g_free);
  product->kind = SW_NEUTRALISER_EPOXIDE;
  check_product_fault (scene, product, SW_FAULT_MISSING, SW_QUANTITY_REACTION_TIME);
  product->kind = SW_NEUTRALISER_AMINE;
  product->strength_mmol_ml = 7.5;
  product->strength_u_mmol_ml = 5.0;
  check_product_fault (scene, product, SW_FAULT_RANGE, SW_QUANTITY_UNCERTAINTY);
}

/* ---- methods ---- */

static void
check_adopt (Scene *scene,
             const char *template_name,
             gint64 titrant,
             gint64 caustic,
             double caustic_mmol,
             gboolean counts,
             int code,
             SwQuantityName quantity)
{
  const SwActor actor = setup_actor (scene);
  GError *error = NULL;
  gboolean adopted = sw_setup_adopt_method (scene->plant->store, &actor, template_name, "Another",
                                            titrant, caustic, caustic_mmol, counts, NULL, &error);

  g_assert_cmpint (adopted, ==, code < 0);
  if (adopted)
    g_assert_no_error (error);
  else
    sw_assert_fault (&error, (SwFaultCode)code, quantity);
}

static void
test_adopt (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwTestPlant *plant = scene->plant;

  check_adopt (scene, "drop-test-neutraliser", plant->neutraliser, 0, 0.1, FALSE,
               SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC);
  check_adopt (scene, "drop-test-neutraliser", 0, 0, NAN, FALSE, SW_FAULT_MISSING,
               SW_QUANTITY_NAME);
  check_adopt (scene, "drop-test-caustic", plant->neutraliser, plant->caustic, NAN, TRUE,
               SW_FAULT_MISSING, SW_QUANTITY_CAUSTIC);
  /* It counts, but the titrant's strength is not known: how many drops is it worth? */
  check_adopt (scene, "drop-test-caustic", plant->neutraliser, plant->caustic, 0.1, TRUE,
               SW_FAULT_MISSING, SW_QUANTITY_TITRANT_STRENGTH);
  CHANGE (scene, SwProduct, sw_product, plant->neutraliser, row->kind = SW_NEUTRALISER_EPOXIDE);
  check_adopt (scene, "drop-test-neutraliser", plant->neutraliser, 0, NAN, FALSE,
               SW_FAULT_COMBINATION, SW_QUANTITY_NAME);
  CHANGE (scene, SwProduct, sw_product, plant->neutraliser, row->kind = SW_NEUTRALISER_AMINE;
          row->strength_mmol_ml = 7.5);
  check_adopt (scene, "drop-test-caustic", plant->neutraliser, plant->caustic, 0.1, TRUE, -1,
               SW_QUANTITY_NONE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/setup/machine/new", test_new_machine);
  g_test_add_func ("/setup/machine/amend", test_amend_machine);
  g_test_add_func ("/setup/machine/all-or-nothing", test_machine_all_or_nothing);
  g_test_add_func ("/setup/machine/products", test_machine_products);
  g_test_add_func ("/setup/machine/reserve", test_machine_reserve);
  g_test_add_func ("/setup/product", test_product);
  g_test_add_func ("/setup/adopt", test_adopt);
  return g_test_run ();
}
