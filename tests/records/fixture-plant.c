/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small invented plant with one finished test and its dose. */
#include "fixture.h"
#include "records/checkpoint-private.h"

/* Inserts, checks, keeps the id and frees. */
#define INSERT(prefix, row, inserted)                                                              \
  G_STMT_START                                                                                     \
  {                                                                                                \
    GError *failure = NULL;                                                                        \
    prefix##_insert (fixture->store, row, &failure);                                               \
    g_assert_no_error (failure);                                                                   \
    inserted = (row)->record.id;                                                                   \
    prefix##_free (row);                                                                           \
  }                                                                                                \
  G_STMT_END

static void
insert_liquids (Fixture *fixture, FixturePlant *plant)
{
  SwPerson *person = sw_person_new ();
  SwSolvent *solvent = sw_solvent_new ();
  SwProduct *product = sw_product_new ();
  SwProduct *caustic = sw_product_new ();
  SwLot *lot = sw_lot_new ();

  person->name = g_strdup ("N. Invented");
  person->initials = g_strdup ("NI");
  person->active = TRUE;
  INSERT (sw_person, person, plant->person);
  solvent->name = g_strdup ("demo hydrocarbon");
  solvent->density_g_ml = 0.76;
  INSERT (sw_solvent, solvent, plant->solvent);
  product->name = g_strdup ("demo amine");
  product->kind = SW_NEUTRALISER_AMINE;
  product->strength_mmol_ml = 8.2;
  INSERT (sw_product, product, plant->product);
  caustic->name = g_strdup ("demo caustic");
  caustic->use = SW_PRODUCT_CAUSTIC;
  INSERT (sw_product, caustic, plant->caustic);
  lot->product = plant->product;
  lot->code = g_strdup ("L-1");
  INSERT (sw_lot, lot, plant->lot);
}

static void
insert_machine (Fixture *fixture, FixturePlant *plant)
{
  SwMachine *machine = sw_machine_new ();
  SwCompartment *compartment = sw_compartment_new ();
  SwSamplingPoint *point = sw_sampling_point_new ();
  SwFill *fill = sw_fill_new ();

  machine->tag = g_strdup ("M-07");
  machine->name = g_strdup ("Long bed");
  machine->solvent = plant->solvent;
  machine->neutraliser = plant->product;
  INSERT (sw_machine, machine, plant->machine);
  compartment->machine = plant->machine;
  compartment->volume.value = 420.0;
  compartment->volume_u_l = 12.0;
  INSERT (sw_compartment, compartment, plant->compartment);
  point->machine = plant->machine;
  point->rank = 1;
  point->name = g_strdup ("beside the condenser");
  INSERT (sw_sampling_point, point, plant->point);
  fill->machine = plant->machine;
  fill->solvent = plant->solvent;
  INSERT (sw_fill, fill, plant->fill);
}

static void
insert_method (Fixture *fixture, FixturePlant *plant)
{
  SwCalibration *calibration = sw_calibration_new ();
  SwPlan *plan = sw_plan_new ();
  GError *error = NULL;

  sw_method_adopt (fixture->store, "drop-test-neutraliser", "Drop test", plant->product, 0,
                   &plant->method, &error);
  g_assert_no_error (error);
  plant->version = sw_method_latest_version (fixture->store, plant->method, &error);
  g_assert_no_error (error);
  calibration->product = plant->product;
  calibration->drop.value = 0.031;
  INSERT (sw_calibration, calibration, plant->calibration);
  plan->machine = plant->machine;
  plan->method = plant->method;
  plan->shortest_days = 1.0;
  plan->longest_days = 7.0;
  INSERT (sw_plan, plan, plant->plan);
}

static void
insert_test (Fixture *fixture, FixturePlant *plant)
{
  SwSample *sample = sw_sample_new ();
  SwTitration *titration = sw_titration_new ();
  SwReadingRow *reading = sw_reading_row_new ();

  sample->code = g_strdup ("M-07-260504-1");
  sample->machine = plant->machine;
  sample->point = plant->point;
  sample->plan = plant->plan;
  sample->fill = plant->fill;
  sample->drawn_by = plant->person;
  INSERT (sw_sample, sample, plant->sample);
  titration->sample = plant->sample;
  titration->method_version = plant->version;
  titration->portion = 1;
  titration->step = SW_STEP_DONE;
  titration->outcome = SW_OUTCOME_ACID_FOUND;
  titration->net_low = 2.0;
  titration->net_high = 3.0;
  titration->closed_ms = fixture->now_ms;
  INSERT (sw_titration, titration, plant->titration);
  reading->titration = plant->titration;
  reading->ordinal = 1;
  reading->total = 0.0;
  INSERT (sw_reading_row, reading, plant->reading);
}

static void
insert_dose (Fixture *fixture, FixturePlant *plant)
{
  SwIncident *incident = sw_incident_new ();
  SwDoseRow *dose = sw_dose_row_new ();
  SwReview *review = sw_review_new ();
  SwDecision *decision = sw_decision_new ();

  incident->machine = plant->machine;
  incident->opened_by_titration = plant->titration;
  INSERT (sw_incident, incident, plant->incident);
  dose->titration = plant->titration;
  dose->incident = plant->incident;
  dose->product = plant->product;
  dose->state = SW_DOSE_ADDED;
  dose->added.value = 780.0;
  dose->added.typed = g_strdup ("780 mL");
  INSERT (sw_dose_row, dose, plant->dose);
  review->subject_table = g_strdup ("titration");
  review->subject = plant->titration;
  review->person = plant->person;
  INSERT (sw_review, review, plant->review);
  decision->plan = plant->plan;
  decision->titration = plant->titration;
  decision->interval_days = 0.5;
  INSERT (sw_decision, decision, plant->decision);
}

void
fixture_sign (Fixture *fixture, SwCheckpoint *checkpoint, gint64 seq)
{
  const unsigned char seed[crypto_sign_SEEDBYTES] = { 1 };
  g_autoptr (SwSite) site = sw_site_get (fixture->store, NULL);
  gint64 now = checkpoint->record.happened_ms;
  g_autofree char *message = NULL;
  SwTrustKey key;

  checkpoint->seq = seq;
  g_assert_true (sw_checkpoint_find_hash (fixture->store, seq, &checkpoint->head, NULL));
  message = sw_checkpoint_message (site->uuid, seq, checkpoint->head,
                                   now != 0 ? now : sw_act_now (fixture->store));
  g_assert_true (sw_trust_key_from_seed (seed, &key));
  checkpoint->key = g_strdup (key.public_key);
  checkpoint->signature = sw_trust_key_sign (&key, message);
}

static void
insert_trust (Fixture *fixture, FixturePlant *plant)
{
  SwSignIn *sign_in = sw_sign_in_new ();
  SwCheckpoint *checkpoint = sw_checkpoint_new ();
  SwRestoration *restoration = sw_restoration_new ();

  sign_in->person = plant->person;
  sign_in->accepted = TRUE;
  INSERT (sw_sign_in, sign_in, plant->sign_in);
  fixture_sign (fixture, checkpoint, 1);
  restoration->kept_head = g_strdup (checkpoint->head);
  INSERT (sw_checkpoint, checkpoint, plant->checkpoint);
  restoration->backup = g_strdup ("plant.backup");
  restoration->kept_seq = 1;
  INSERT (sw_restoration, restoration, plant->restoration);
}

void
fixture_plant (Fixture *fixture, FixturePlant *plant)
{
  GError *error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  insert_liquids (fixture, plant);
  insert_machine (fixture, plant);
  insert_method (fixture, plant);
  sw_setting_put (fixture->store, "theme", "dark", &error);
  g_assert_no_error (error);
  fixture_commit (fixture);

  fixture_begin (fixture, SW_ACT_TEST, NULL);
  insert_test (fixture, plant);
  insert_dose (fixture, plant);
  insert_trust (fixture, plant);
  fixture_commit (fixture);
}
