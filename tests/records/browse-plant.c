/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows in every table, by a seeded random hand. All names are invented. */
#include "browse-draw.h"

#include "records/checkpoint-private.h"
#include "records/row-private.h"

#define SEED 20260504
#define TESTS 45

/* ---- the plant ---- */

static void
insert_people (BrowsePlant *plant)
{

  plant->people[0] = plant->plant.person;
  for (int i = 1; i < (int)G_N_ELEMENTS (plant->people); i++)
    {
      SwPerson *person = sw_person_new ();

      person->name = g_strdup_printf ("Ünal Invented %d", i);
      person->initials = g_strdup_printf ("U%d", i);
      person->role = (SwRole)i;
      INSERT (sw_person, person);
      plant->people[i] = plant->last_id;
    }
}

static void
insert_liquids (BrowsePlant *plant)
{

  plant->products[0] = plant->plant.product;
  for (int i = 1; i < (int)G_N_ELEMENTS (plant->products); i++)
    {
      SwProduct *product = sw_product_new ();
      SwSolvent *solvent = sw_solvent_new ();
      SwLot *lot = sw_lot_new ();
      SwCalibration *calibration = sw_calibration_new ();

      product->name = g_strdup_printf ("Demo Ölfilm %d", i);
      product->no_limits_by = browse_draw_text (plant);
      INSERT (sw_product, product);
      plant->products[i] = plant->last_id;
      solvent->name = g_strdup_printf ("demo solvent %d", i);
      solvent->sds_reference = browse_draw_text (plant);
      INSERT (sw_solvent, solvent);
      lot->product = plant->products[i];
      lot->code = g_strdup_printf ("L-%d", i);
      INSERT (sw_lot, lot);
      calibration->product = plant->products[i];
      calibration->dropper = browse_draw_text (plant);
      INSERT (sw_calibration, calibration);
    }
}

static void
insert_machine (BrowsePlant *plant, int i)
{
  SwMachine *machine = sw_machine_new ();
  SwCompartment *compartment = sw_compartment_new ();
  SwSamplingPoint *point = sw_sampling_point_new ();
  SwFill *fill = sw_fill_new ();
  SwPlan *plan = sw_plan_new ();

  machine->tag = g_strdup_printf ("M-1%d", i);
  machine->area = browse_draw_text (plant);
  INSERT (sw_machine, machine);
  plant->machines[i] = plant->last_id;
  compartment->machine = point->machine = fill->machine = plan->machine = plant->machines[i];
  compartment->name = browse_draw_text (plant);
  INSERT (sw_compartment, compartment);
  point->directions = browse_draw_text (plant);
  INSERT (sw_sampling_point, point);
  fill->solvent = plant->plant.solvent;
  INSERT (sw_fill, fill);
  plan->method = plant->plant.method;
  INSERT (sw_plan, plan);
}

/* Its time is signed, so that it comes before the row does. */
static void
insert_checkpoint (BrowsePlant *plant, gint64 seq)
{
  g_autoptr (SwCheckpoint) checkpoint = sw_checkpoint_new ();
  GError *error = NULL;

  checkpoint->record.happened_ms = browse_draw_time (plant);
  fixture_sign (&plant->base, checkpoint, seq);
  sw_checkpoint_insert (plant->base.store, checkpoint, &error);
  g_assert_no_error (error);
  plant->last_id = checkpoint->record.id;
}

static void
insert_file_rows (BrowsePlant *plant)
{

  for (int i = 0; i < 4; i++)
    {
      SwSignIn *sign_in = sw_sign_in_new ();
      SwRestoration *restoration = sw_restoration_new ();
      SwSetting *setting = sw_setting_new ();

      sign_in->person = DRAW (plant->people);
      sign_in->accepted = i % 2;
      INSERT (sw_sign_in, sign_in);
      insert_checkpoint (plant, i + 2);
      restoration->backup = g_strdup_printf ("plant-%d.backup", i);
      restoration->kept_seq = i + 1;
      g_assert_true (
          sw_checkpoint_find_hash (plant->base.store, i + 1, &restoration->kept_head, NULL));
      INSERT (sw_restoration, restoration);
      setting->name = g_strdup_printf ("setting %d", i);
      setting->value = browse_draw_text (plant);
      INSERT (sw_setting, setting);
    }
}

/* ---- tests ---- */

static void
insert_readings (BrowsePlant *plant, gint64 titration)
{

  for (int i = 1; i <= g_rand_int_range (plant->rand, 1, 4); i++)
    {
      SwReadingRow *reading = sw_reading_row_new ();

      reading->titration = titration;
      reading->ordinal = i;
      reading->colour_field = g_rand_boolean (plant->rand) ? 1 : 0;
      reading->meaning = (SwField)g_rand_int_range (plant->rand, 0, SW_N_FIELDS);
      reading->struck_reason = browse_draw_text (plant);
      reading->reader = g_rand_boolean (plant->rand) ? DRAW (plant->people) : 0;
      INSERT (sw_reading_row, reading);
    }
}

static void
insert_dose (BrowsePlant *plant, gint64 titration, gint64 machine)
{
  SwDoseRow *dose = sw_dose_row_new ();
  SwIncident *incident = sw_incident_new ();

  incident->machine = machine;
  incident->opened_by_titration = g_rand_boolean (plant->rand) ? titration : 0;
  incident->state = (SwIncidentState)g_rand_int_range (plant->rand, 0, SW_N_INCIDENT_STATES);
  incident->cause = browse_draw_text (plant);
  incident->closed_by = g_rand_boolean (plant->rand) ? DRAW (plant->people) : 0;
  INSERT (sw_incident, incident);
  dose->titration = titration;
  dose->incident = plant->last_id;
  dose->product = DRAW (plant->products);
  dose->state = (SwDoseState)g_rand_int_range (plant->rand, 0, SW_N_DOSE_STATES);
  dose->place = browse_draw_text (plant);
  dose->measured_ml = 20.0;
  dose->added.value = g_rand_boolean (plant->rand) ? 40.0 : NAN;
  dose->added_by = g_rand_boolean (plant->rand) ? DRAW (plant->people) : 0;
  dose->released_by = g_rand_boolean (plant->rand) ? DRAW (plant->people) : 0;
  INSERT (sw_dose_row, dose);
}

static void
insert_titration (BrowsePlant *plant, gint64 sample, gint64 machine, int portion)
{
  SwTitration *titration = sw_titration_new ();
  SwDecision *decision = sw_decision_new ();
  gint64 id;

  titration->sample = sample;
  titration->method_version = plant->plant.version;
  titration->portion = portion;
  titration->analyst = g_rand_int_range (plant->rand, 0, 4) > 0 ? DRAW (plant->people) : 0;
  titration->second_reader = g_rand_boolean (plant->rand) ? DRAW (plant->people) : 0;
  titration->step = (SwStep)g_rand_int_range (plant->rand, 0, SW_N_STEPS);
  titration->outcome = (SwOutcomeKind)g_rand_int_range (plant->rand, 0, SW_N_OUTCOMES);
  titration->net_low = portion == 1 ? -INFINITY : 1.5;
  titration->net_high = portion == 1 ? 2.5 : INFINITY;
  titration->lot_reason = browse_draw_text (plant);
  INSERT (sw_titration, titration);
  id = plant->last_id;
  insert_readings (plant, id);
  if (g_rand_boolean (plant->rand))
    insert_dose (plant, id, machine);
  decision->plan = plant->plant.plan;
  decision->titration = g_rand_boolean (plant->rand) ? id : 0;
  INSERT (sw_decision, decision);
}

static void
insert_test (BrowsePlant *plant, int i)
{
  SwSample *sample = sw_sample_new ();
  gint64 machine = DRAW (plant->machines);
  gint64 id;

  sample->code = g_strdup_printf ("S-%d", i);
  sample->machine = machine;
  sample->drawn_by = g_rand_boolean (plant->rand) ? DRAW (plant->people) : 0;
  sample->purpose = (SwPurpose)g_rand_int_range (plant->rand, 0, SW_N_PURPOSES);
  sample->remarks = browse_draw_text (plant);
  sample->appearance = browse_draw_text (plant);
  INSERT (sw_sample, sample);
  id = plant->last_id;
  for (int portion = 1; portion <= g_rand_int_range (plant->rand, 0, 3); portion++)
    insert_titration (plant, id, machine, portion);
}

/* ---- what happens later ---- */

static void
insert_review (BrowsePlant *plant)
{
  static const SwTable subjects[]
      = { SW_TABLE_TITRATION, SW_TABLE_TITRATION, SW_TABLE_DOSE, SW_TABLE_INCIDENT };
  SwTable table = subjects[g_rand_int_range (plant->rand, 0, G_N_ELEMENTS (subjects))];
  SwReview *review = sw_review_new ();

  review->subject_table = g_strdup (sw_table_name (table));
  review->subject = browse_draw_row (plant, table);
  review->person = DRAW (plant->people);
  review->meaning = g_rand_int_range (plant->rand, 0, 5) < 3
                        ? SW_MEANING_PERFORMED
                        : (SwMeaning)g_rand_int_range (plant->rand, 0, SW_N_MEANINGS);
  INSERT (sw_review, review);
}

/* A text of some row; a row with none is left alone. */
static void
change_row (BrowsePlant *plant)
{
  static const SwTable tables[] = { SW_TABLE_SAMPLE, SW_TABLE_TITRATION, SW_TABLE_READING,
                                    SW_TABLE_DOSE,   SW_TABLE_INCIDENT,  SW_TABLE_MACHINE };
  static const char *const columns[]
      = { "remarks", "lot_reason", "struck_reason", "place", "cause", "area" };
  int i = g_rand_int_range (plant->rand, 0, G_N_ELEMENTS (tables));
  const SwColumn *column = sw_table_find_column (sw_table_info (tables[i]), columns[i]);
  gpointer row
      = sw_row_load (plant->base.store, tables[i], browse_draw_row (plant, tables[i]), NULL);
  char **text = (char **)(gpointer)((char *)row + column->offset);
  GError *error = NULL;

  g_free (*text);
  *text = browse_draw_text (plant);
  sw_row_update (plant->base.store, tables[i], row, &error);
  g_assert_no_error (error);
  sw_row_free (tables[i], row);
}

/* A test, a part of one, or any row of any table but the site. */
static void
void_row (BrowsePlant *plant)
{
  static const SwTable often[] = { SW_TABLE_TITRATION, SW_TABLE_READING };
  SwTable table = g_rand_boolean (plant->rand)
                      ? often[g_rand_int_range (plant->rand, 0, G_N_ELEMENTS (often))]
                      : (SwTable)g_rand_int_range (plant->rand, 1, SW_N_TABLES);
  GError *error = NULL;

  sw_record_void (plant->base.store, table, browse_draw_row (plant, table), &error);
  g_assert_no_error (error);
}

static void
go_on (BrowsePlant *plant, int n)
{
  for (int i = 0; i < n; i++)
    {
      int what = g_rand_int_range (plant->rand, 0, 8);

      browse_begin (plant, what < 4   ? SW_ACT_SIGN
                           : what < 6 ? SW_ACT_AMEND
                           : what < 7 ? SW_ACT_VOID
                                      : SW_ACT_DOSE);
      if (what < 4)
        insert_review (plant);
      else if (what == 6)
        void_row (plant);
      else
        change_row (plant);
      fixture_commit (&plant->base);
    }
}

/* A review that nothing but the void of one reading has taken away: chance makes none. */
static void
lose_review_by_void (BrowsePlant *plant)
{
  SwReview *review = sw_review_new ();

  browse_begin (plant, SW_ACT_TEST);
  insert_titration (plant, browse_find_last (plant, SW_TABLE_SAMPLE), plant->machines[0], 9);
  review->subject_table = g_strdup ("titration");
  review->subject = browse_find_last (plant, SW_TABLE_TITRATION);
  review->person = plant->people[1];
  review->meaning = SW_MEANING_REVIEWED;
  INSERT (sw_review, review);
  fixture_commit (&plant->base);
  browse_begin (plant, SW_ACT_VOID);
  g_assert_true (sw_record_void (plant->base.store, SW_TABLE_READING,
                                 browse_find_last (plant, SW_TABLE_READING), NULL));
  fixture_commit (&plant->base);
}

void
browse_plant_make (BrowsePlant *plant)
{
  fixture_set_up (&plant->base, NULL);
  fixture_plant (&plant->base, &plant->plant);
  plant->rand = g_rand_new_with_seed (SEED);
  plant->people[1] = plant->people[2] = plant->people[3] = plant->people[0] = plant->plant.person;
  browse_begin (plant, SW_ACT_SETUP);
  insert_people (plant);
  insert_liquids (plant);
  plant->machines[0] = plant->plant.machine;
  for (int i = 1; i < (int)G_N_ELEMENTS (plant->machines); i++)
    insert_machine (plant, i);
  insert_file_rows (plant);
  fixture_commit (&plant->base);
  for (int i = 0; i < TESTS; i++)
    {
      browse_begin (plant, SW_ACT_TEST);
      insert_test (plant, i);
      fixture_commit (&plant->base);
    }
  go_on (plant, 300);
  lose_review_by_void (plant);
}

void
browse_plant_clear (BrowsePlant *plant)
{
  fixture_assert_sound (&plant->base);
  fixture_tear_down (&plant->base, NULL);
  g_rand_free (plant->rand);
}
