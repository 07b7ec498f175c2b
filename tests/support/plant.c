/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An invented plant. No name in it is anybody's. */
#include "support/plant.h"

#define FILE_NAME "plant.swlog"

/* crypto_pwhash_str_alg (SW_TEST_PLANT_SECRET, 1 operation, 8 KiB, Argon2id) */
#define SECRET_HASH                                                                                \
  "$argon2id$v=19$m=8,t=1,p=1$swABG172BPVyvddGUDy0ZQ$r+G2BjnRx4Jv1j0Y0ZM/aJkaqkit4y2RSE+6eQdhm24"

/* Inserts a record, keeps its id, frees it. */
#define INSERT(prefix, row, inserted)                                                              \
  G_STMT_START                                                                                     \
  {                                                                                                \
    GError *failure = NULL;                                                                        \
    prefix##_insert (plant->store, row, &failure);                                                 \
    g_assert_no_error (failure);                                                                   \
    inserted = (row)->record.id;                                                                   \
    prefix##_free (row);                                                                           \
  }                                                                                                \
  G_STMT_END

/* ---- clock and acts ---- */

static gint64
now_cb (gpointer data)
{
  return ((SwTestPlant *)data)->now_ms;
}

static int
offset_cb (gpointer data, gint64 utc_ms)
{
  return ((SwTestPlant *)data)->offset_min;
}

SwClock
sw_test_plant_clock (SwTestPlant *plant)
{
  return (SwClock){ .now_ms = now_cb, .offset_min = offset_cb, .data = plant };
}

void
sw_test_plant_advance (SwTestPlant *plant, double minutes)
{
  plant->now_ms += (gint64)(minutes * (double)SW_TEST_MINUTE_MS);
}

static void
open_file (SwTestPlant *plant, SwOpenMode mode)
{
  const SwClock clock = sw_test_plant_clock (plant);
  GError *error = NULL;

  plant->store = sw_store_open (plant->path, mode, &clock, &error);
  g_assert_no_error (error);
  g_assert_nonnull (plant->store);
}

void
sw_test_plant_reopen (SwTestPlant *plant, SwOpenMode mode)
{
  g_clear_pointer (&plant->store, sw_store_close);
  open_file (plant, mode);
}

SwActor
sw_test_plant_actor (const SwTestPlant *plant, gint64 person)
{
  return (SwActor){
    .person = person, .identified = SW_IDENTIFIED_SECRET, .workstation = "bench", .reason = NULL
  };
}

SwSigner
sw_test_plant_signer (gint64 person)
{
  return (SwSigner){ .person = person, .identified = SW_IDENTIFIED_SECRET };
}

void
sw_test_plant_begin (SwTestPlant *plant, SwActKind kind)
{
  SwActor actor = sw_test_plant_actor (plant, plant->administrator);
  GError *error = NULL;

  actor.reason = "for a test";
  sw_act_begin (plant->store, kind, &actor, &error);
  g_assert_no_error (error);
}

void
sw_test_plant_commit (SwTestPlant *plant)
{
  GError *error = NULL;

  sw_act_commit (plant->store, &error);
  g_assert_no_error (error);
}

/* ---- rows ---- */

static gint64
insert_person (SwTestPlant *plant, const char *name, const char *initials, SwRole role)
{
  SwPerson *person = sw_person_new ();
  gint64 id;

  person->name = g_strdup (name);
  person->initials = g_strdup (initials);
  person->role = role;
  person->active = TRUE;
  person->secret = g_strdup (SECRET_HASH);
  INSERT (sw_person, person, id);
  return id;
}

static void
insert_people (SwTestPlant *plant)
{
  plant->technician = insert_person (plant, "T. Invented", "TI", SW_ROLE_TECHNICIAN);
  plant->colleague = insert_person (plant, "C. Invented", "CI", SW_ROLE_TECHNICIAN);
  plant->reviewer = insert_person (plant, "R. Invented", "RI", SW_ROLE_REVIEWER);
  plant->administrator = insert_person (plant, "A. Invented", "AI", SW_ROLE_ADMINISTRATOR);
  plant->auditor = insert_person (plant, "U. Invented", "UI", SW_ROLE_AUDITOR);
}

static gint64
insert_product (SwTestPlant *plant, const char *name, SwProductUse use)
{
  SwProduct *product = sw_product_new ();
  gint64 id;

  product->name = g_strdup (name);
  product->use = use;
  if (use == SW_PRODUCT_NEUTRALISER)
    {
      product->kind = SW_NEUTRALISER_AMINE;
      product->limit_each_ml_l = 10.0;
      product->limit_total_ml_l = 60.0;
    }
  INSERT (sw_product, product, id);
  return id;
}

static gint64
insert_lot (SwTestPlant *plant, gint64 product, const char *code, double days_left)
{
  SwLot *lot = sw_lot_new ();
  gint64 id;

  lot->product = product;
  lot->code = g_strdup (code);
  lot->expires_ms = plant->now_ms + (gint64)(days_left * (double)SW_TEST_DAY_MS);
  INSERT (sw_lot, lot, id);
  return id;
}

static void
insert_liquids (SwTestPlant *plant)
{
  SwSolvent *solvent = sw_solvent_new ();

  solvent->name = g_strdup ("invented hydrocarbon");
  solvent->family = SW_FAMILY_HYDROCARBON;
  solvent->density_g_ml = 0.76;
  INSERT (sw_solvent, solvent, plant->solvent);
  plant->neutraliser = insert_product (plant, "invented amine", SW_PRODUCT_NEUTRALISER);
  plant->caustic = insert_product (plant, "invented caustic", SW_PRODUCT_CAUSTIC);
  plant->strips = insert_product (plant, "invented strips", SW_PRODUCT_STRIPS);
  plant->neutraliser_lot = insert_lot (plant, plant->neutraliser, "N-1", 400.0);
  plant->expired_lot = insert_lot (plant, plant->neutraliser, "N-0", -30.0);
  plant->caustic_lot = insert_lot (plant, plant->caustic, "C-1", 400.0);
  plant->strip_lot = insert_lot (plant, plant->strips, "S-1", 400.0);
}

static void
insert_method (SwTestPlant *plant)
{
  SwCalibration *calibration = sw_calibration_new ();
  GError *error = NULL;

  sw_method_adopt (plant->store, "drop-test-neutraliser", "Drop test", plant->neutraliser, 0,
                   &plant->method, &error);
  g_assert_no_error (error);
  plant->version = sw_method_latest_version (plant->store, plant->method, &error);
  g_assert_no_error (error);
  calibration->product = plant->neutraliser;
  calibration->dropper = g_strdup ("dropper A");
  calibration->drop.value = SW_TEST_PLANT_DROP_ML;
  calibration->drop_u_ml = 0.001;
  calibration->freedom = 9.0;
  calibration->weighings = 10;
  INSERT (sw_calibration, calibration, plant->calibration);
}

static void
insert_compartment (
    SwTestPlant *plant, gint64 machine, SwCompartmentKind kind, const char *name, double volume_l)
{
  SwCompartment *compartment = sw_compartment_new ();
  gint64 id G_GNUC_UNUSED;

  compartment->machine = machine;
  compartment->kind = kind;
  compartment->name = g_strdup (name);
  compartment->volume.value = volume_l;
  compartment->volume_u_l = 5.0;
  INSERT (sw_compartment, compartment, id);
}

static gint64
insert_point (SwTestPlant *plant, gint64 machine, int rank, const char *name, gboolean basis)
{
  SwSamplingPoint *point = sw_sampling_point_new ();
  gint64 id;

  point->machine = machine;
  point->rank = rank;
  point->name = g_strdup (name);
  point->dose_basis = basis;
  INSERT (sw_sampling_point, point, id);
  return id;
}

static gint64
insert_machine (SwTestPlant *plant, const char *tag)
{
  SwMachine *machine = sw_machine_new ();
  gint64 id;

  machine->tag = g_strdup (tag);
  machine->name = g_strdup ("Long bed");
  machine->solvent = plant->solvent;
  machine->neutraliser = plant->neutraliser;
  machine->service = SW_SERVICE_RUNNING;
  machine->dosing_place = g_strdup ("still, upper filling port");
  machine->circulation_min = SW_TEST_PLANT_CIRCULATION_MIN;
  machine->graduation.value = SW_TEST_PLANT_JUG_ML;
  INSERT (sw_machine, machine, id);
  insert_compartment (plant, id, SW_COMPARTMENT_WASH_TANK, "tank 1", 180.0);
  insert_compartment (plant, id, SW_COMPARTMENT_WASH_TANK, "tank 2", 120.0);
  insert_compartment (plant, id, SW_COMPARTMENT_STILL, "still", 80.0);
  insert_compartment (plant, id, SW_COMPARTMENT_CONDENSATE, "condensate", 40.0);
  return id;
}

static gint64
insert_fill (SwTestPlant *plant, gint64 machine)
{
  SwFill *fill = sw_fill_new ();
  gint64 id;

  fill->machine = machine;
  fill->solvent = plant->solvent;
  INSERT (sw_fill, fill, id);
  return id;
}

static gint64
insert_plan (SwTestPlant *plant, gint64 machine)
{
  SwPlan *plan = sw_plan_new ();
  SwDecision *decision = sw_decision_new ();
  gint64 first G_GNUC_UNUSED;
  gint64 id;

  plan->machine = machine;
  plan->method = plant->method;
  plan->shortest_days = 1.0;
  plan->longest_days = 7.0;
  plan->alpha = 0.1;
  plan->active = TRUE;
  INSERT (sw_plan, plan, id);
  decision->plan = id;
  decision->interval_days = SW_STAIRCASE_START_DAYS;
  decision->due_ms = plant->now_ms;
  decision->reason = SW_SCHEDULE_START;
  decision->shortest_days = 1.0;
  decision->longest_days = 7.0;
  INSERT (sw_decision, decision, first);
  return id;
}

static SwTestMachine
insert_tested_machine (SwTestPlant *plant, const char *tag)
{
  SwTestMachine added;

  added.machine = insert_machine (plant, tag);
  added.point = insert_point (plant, added.machine, 1, "beside the condenser", TRUE);
  added.separator = insert_point (plant, added.machine, 2, "water separator", FALSE);
  added.fill = insert_fill (plant, added.machine);
  added.plan = insert_plan (plant, added.machine);
  return added;
}

static void
name_site (SwTestPlant *plant)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwSite) site = sw_site_get (plant->store, &error);

  g_assert_no_error (error);
  g_free (site->name);
  site->name = g_strdup ("Invented plant");
  sw_site_update (plant->store, site, &error);
  g_assert_no_error (error);
}

/* ---- public ---- */

SwTestMachine
sw_test_plant_add_machine (SwTestPlant *plant, const char *tag)
{
  SwTestMachine added;

  sw_test_plant_begin (plant, SW_ACT_SETUP);
  added = insert_tested_machine (plant, tag);
  sw_test_plant_commit (plant);
  return added;
}

SwTestPlant *
sw_test_plant_new (void)
{
  SwTestPlant *plant = g_new0 (SwTestPlant, 1);

  plant->folder = sw_test_folder_new ();
  plant->path = g_build_filename (plant->folder, FILE_NAME, NULL);
  plant->now_ms = SW_TEST_PLANT_START_MS;
  plant->offset_min = SW_TEST_PLANT_OFFSET_MIN;
  open_file (plant, SW_OPEN_CREATE);

  sw_test_plant_begin (plant, SW_ACT_SETUP);
  name_site (plant);
  insert_people (plant);
  insert_liquids (plant);
  insert_method (plant);
  plant->first = insert_tested_machine (plant, "M-07");
  sw_test_plant_commit (plant);
  return plant;
}

void
sw_test_plant_free (SwTestPlant *plant)
{
  if (plant == NULL)
    return;
  sw_store_close (plant->store);
  sw_test_folder_free (plant->folder);
  g_free (plant->path);
  g_free (plant);
}
