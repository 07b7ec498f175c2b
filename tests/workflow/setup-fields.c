/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of set-up at a time. */
#include "setup-fields.h"

SwActor
setup_actor (const Scene *scene)
{
  SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->administrator);

  actor.reason = "for a test";
  return actor;
}

/* ---- good rows ---- */

SwMachine *
setup_good_machine (const Scene *scene)
{
  SwMachine *machine = sw_machine_new ();

  machine->tag = g_strdup ("M-20");
  machine->solvent = scene->plant->solvent;
  machine->neutraliser = scene->plant->neutraliser;
  return machine;
}

SwProduct *
setup_good_product (void)
{
  SwProduct *product = sw_product_new ();

  product->name = g_strdup ("another amine");
  product->kind = SW_NEUTRALISER_AMINE;
  return product;
}

SwPlan *
setup_good_plan (const Scene *scene)
{
  SwPlan *plan = sw_plan_new ();

  plan->machine = sw_test_plant_add_machine (scene->plant, "M-21").machine;
  plan->method = scene->plant->method;
  plan->shortest_days = 1.0;
  plan->longest_days = 7.0;
  plan->alpha = 0.1;
  return plan;
}

static SwSolvent *
make_solvent (void)
{
  SwSolvent *solvent = sw_solvent_new ();

  solvent->name = g_strdup ("another solvent");
  return solvent;
}

static SwPerson *
make_person (void)
{
  SwPerson *person = sw_person_new ();

  person->name = g_strdup ("X. Invented");
  person->initials = g_strdup ("XI");
  return person;
}

static SwLot *
make_lot (const Scene *scene)
{
  SwLot *lot = sw_lot_new ();

  lot->product = scene->plant->neutraliser;
  lot->code = g_strdup ("N-9");
  return lot;
}

static SwCalibration *
make_calibration (const Scene *scene)
{
  SwCalibration *calibration = sw_calibration_new ();

  calibration->product = scene->plant->neutraliser;
  calibration->dropper = g_strdup ("dropper C");
  calibration->drop.value = 0.05;
  return calibration;
}

static SwSite *
make_site (const Scene *scene)
{
  return sw_site_get (scene->plant->store, NULL);
}

/* ---- setters: a good row, one member, the set-up function ---- */

#define SETTER(function, parameters, Type, prefix, make, assign, call)                             \
  static gboolean function parameters                                                              \
  {                                                                                                \
    const SwActor actor = setup_actor (scene);                                                     \
    SwStore *store = scene->plant->store;                                                          \
    Type *row = make;                                                                              \
    gboolean written;                                                                              \
                                                                                                   \
    assign;                                                                                        \
    written = call;                                                                                \
    prefix##_free (row);                                                                           \
    return written;                                                                                \
  }
#define NUMBER(function, Type, prefix, make, member, call)                                         \
  SETTER (function, (Scene * scene, double value, const char *typed, GError **error), Type,        \
          prefix, make, row->member = value, call)
#define AMOUNT(function, Type, prefix, make, member, call)                                         \
  SETTER (function, (Scene * scene, double value, const char *typed, GError **error), Type,        \
          prefix, make, row->member = ((SwAmount){ value, g_strdup (typed) }), call)
#define TEXT(function, Type, prefix, make, member, call)                                           \
  SETTER (function, (Scene * scene, const char *text, GError **error), Type, prefix, make,         \
          g_free (row->member);                                                                    \
          row->member = g_strdup (text), call)
#define CALL(what) sw_setup_##what (store, &actor, row, error)
#define CALL_MACHINE sw_setup_machine (store, &actor, row, NULL, NULL, error)

NUMBER (set_density, SwSolvent, sw_solvent, make_solvent (), density_g_ml, CALL (solvent))
NUMBER (
    set_strength, SwProduct, sw_product, setup_good_product (), strength_mmol_ml, CALL (product))
NUMBER (
    set_product_density, SwProduct, sw_product, setup_good_product (), density_g_ml, CALL (product))
NUMBER (
    set_limit_each, SwProduct, sw_product, setup_good_product (), limit_each_ml_l, CALL (product))
NUMBER (
    set_limit_total, SwProduct, sw_product, setup_good_product (), limit_total_ml_l, CALL (product))
NUMBER (set_reaction, SwProduct, sw_product, setup_good_product (), reaction_min, CALL (product))
NUMBER (set_chamber, SwMachine, sw_machine, setup_good_machine (scene), chamber_l, CALL_MACHINE)
NUMBER (set_circulation,
        SwMachine,
        sw_machine,
        setup_good_machine (scene),
        circulation_min,
        CALL_MACHINE)
AMOUNT (set_graduation, SwMachine, sw_machine, setup_good_machine (scene), graduation, CALL_MACHINE)
AMOUNT (set_quantity, SwLot, sw_lot, make_lot (scene), quantity, CALL (lot))
AMOUNT (set_drop, SwCalibration, sw_calibration, make_calibration (scene), drop, CALL (calibration))
NUMBER (set_shortest, SwPlan, sw_plan, setup_good_plan (scene), shortest_days, CALL (plan))
NUMBER (set_longest, SwPlan, sw_plan, setup_good_plan (scene), longest_days, CALL (plan))
NUMBER (set_alpha, SwPlan, sw_plan, setup_good_plan (scene), alpha, CALL (plan))
NUMBER (set_back_to_start, SwPlan, sw_plan, setup_good_plan (scene), back_to_start_at, CALL (plan))

TEXT (set_site_name, SwSite, sw_site, make_site (scene), name, CALL (site))
TEXT (set_person_name, SwPerson, sw_person, make_person (), name, CALL (person))
TEXT (set_initials, SwPerson, sw_person, make_person (), initials, CALL (person))
TEXT (set_solvent_name, SwSolvent, sw_solvent, make_solvent (), name, CALL (solvent))
TEXT (set_product_name, SwProduct, sw_product, setup_good_product (), name, CALL (product))
TEXT (set_lot_code, SwLot, sw_lot, make_lot (scene), code, CALL (lot))
TEXT (set_tag, SwMachine, sw_machine, setup_good_machine (scene), tag, CALL_MACHINE)
TEXT (set_dropper,
      SwCalibration,
      sw_calibration,
      make_calibration (scene),
      dropper,
      CALL (calibration))

static gboolean
set_compartment (Scene *scene, double value, const char *typed, GError **error)
{
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwMachine) machine = setup_good_machine (scene);
  g_autoptr (GPtrArray) compartments
      = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_compartment_free);
  SwCompartment *still = sw_compartment_new ();
  SwCompartment *tank = sw_compartment_new ();

  tank->volume.value = 100.0;
  still->volume = (SwAmount){ value, g_strdup (typed) };
  g_ptr_array_add (compartments, tank);
  g_ptr_array_add (compartments, still);
  return sw_setup_machine (scene->plant->store, &actor, machine, compartments, NULL, error);
}

static gboolean
set_caustic (Scene *scene, double value, const char *typed, GError **error)
{
  const SwActor actor = setup_actor (scene);

  return sw_setup_adopt_method (scene->plant->store, &actor, "drop-test-caustic", "Caustic test",
                                scene->plant->neutraliser, scene->plant->caustic, value, FALSE,
                                NULL, error);
}

static gboolean
set_method_name (Scene *scene, const char *text, GError **error)
{
  const SwActor actor = setup_actor (scene);

  return sw_setup_adopt_method (scene->plant->store, &actor, "drop-test-neutraliser", text,
                                scene->plant->neutraliser, 0, NAN, FALSE, NULL, error);
}

static gboolean
set_point_name (Scene *scene, const char *text, GError **error)
{
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwMachine) machine = setup_good_machine (scene);
  g_autoptr (GPtrArray) points
      = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_sampling_point_free);
  SwSamplingPoint *first = sw_sampling_point_new ();
  SwSamplingPoint *second = sw_sampling_point_new ();

  first->rank = 1;
  first->name = g_strdup ("condensate");
  second->rank = 2;
  second->name = g_strdup (text);
  g_ptr_array_add (points, first);
  g_ptr_array_add (points, second);
  return sw_setup_machine (scene->plant->store, &actor, machine, NULL, points, error);
}

/* ---- the fields ---- */

/* clang-format off */
static const NumberField numbers[] = {
  { "solvent density", set_density, SW_QUANTITY_DENSITY, 0.76, FALSE, FALSE, FALSE },
  { "product strength", set_strength, SW_QUANTITY_PRODUCT_STRENGTH, 7.5, FALSE, FALSE, FALSE },
  { "product density", set_product_density, SW_QUANTITY_DENSITY, 0.9, FALSE, FALSE, FALSE },
  { "limit each", set_limit_each, SW_QUANTITY_LIMIT_EACH, 10.0, FALSE, FALSE, FALSE },
  { "limit total", set_limit_total, SW_QUANTITY_LIMIT_TOTAL, 60.0, FALSE, FALSE, FALSE },
  { "reaction time", set_reaction, SW_QUANTITY_REACTION_TIME, 30.0, FALSE, TRUE, FALSE },
  { "chamber", set_chamber, SW_QUANTITY_CHAMBER_VOLUME, 300.0, FALSE, FALSE, FALSE },
  { "circulation time", set_circulation, SW_QUANTITY_CIRCULATION_TIME, 45.0, FALSE, FALSE, FALSE },
  { "graduation", set_graduation, SW_QUANTITY_GRADUATION, 20.0, FALSE, FALSE, TRUE },
  { "compartment", set_compartment, SW_QUANTITY_COMPARTMENT_VOLUME, 80.0, TRUE, TRUE, TRUE },
  { "lot quantity", set_quantity, SW_QUANTITY_LOT_AMOUNT, 500.0, FALSE, TRUE, TRUE },
  { "drop volume", set_drop, SW_QUANTITY_DROP_VOLUME, 0.05, TRUE, FALSE, TRUE },
  { "caustic", set_caustic, SW_QUANTITY_CAUSTIC, 0.1, FALSE, TRUE, FALSE },
  { "shortest", set_shortest, SW_QUANTITY_SHORTEST, 1.0, TRUE, FALSE, FALSE },
  { "longest", set_longest, SW_QUANTITY_LONGEST, 7.0, TRUE, FALSE, FALSE },
  { "alpha", set_alpha, SW_QUANTITY_ALPHA, 0.1, TRUE, FALSE, FALSE },
  { "back to start", set_back_to_start, SW_QUANTITY_ACID_AT, 5.0, FALSE, TRUE, FALSE },
};

static const TextField texts[] = {
  { "site name", set_site_name, SW_QUANTITY_NAME, NULL },
  { "person name", set_person_name, SW_QUANTITY_NAME, NULL },
  { "initials", set_initials, SW_QUANTITY_CODE, "TI" },
  { "solvent name", set_solvent_name, SW_QUANTITY_NAME, "invented hydrocarbon" },
  { "product name", set_product_name, SW_QUANTITY_NAME, "invented amine" },
  { "lot code", set_lot_code, SW_QUANTITY_CODE, "N-1" },
  { "machine tag", set_tag, SW_QUANTITY_CODE, "M-07" },
  { "sampling point", set_point_name, SW_QUANTITY_NAME, "condensate" },
  { "dropper", set_dropper, SW_QUANTITY_NAME, NULL },
  { "method name", set_method_name, SW_QUANTITY_NAME, "Drop test" },
};
/* clang-format on */

const NumberField *
setup_number_fields (gsize *n)
{
  *n = G_N_ELEMENTS (numbers);
  return numbers;
}

const TextField *
setup_text_fields (gsize *n)
{
  *n = G_N_ELEMENTS (texts);
  return texts;
}
