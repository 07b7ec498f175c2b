/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a machine still lacks before it can be tested and dosed, the sum of compartments that are
 * being typed, and the colours of a site's own strips. */
#include "support/plant.h"
#include "workflow/guided.h"
#include "workflow/setup.h"

/* ---- what is missing ---- */

/* Takes one thing away from a plant that lacks nothing. */
typedef struct
{
  const char *name;
  void (*take) (SwTestPlant *plant);
  SwFactCode code;
  const char *text;
} LackRow;

static void
void_row (SwTestPlant *plant, SwTable table, gint64 id)
{
  g_assert_true (sw_record_void (plant->store, table, id, NULL));
}

static void
take_plan (SwTestPlant *plant)
{
  void_row (plant, SW_TABLE_PLAN, plant->first.plan);
}

static void
rest_plan (SwTestPlant *plant)
{
  g_autoptr (SwPlan) plan = sw_plan_load (plant->store, plant->first.plan, NULL);

  plan->active = FALSE;
  g_assert_true (sw_plan_update (plant->store, plan, NULL));
}

/* The expired lot is left, and does not count. */
static void
take_lot (SwTestPlant *plant)
{
  void_row (plant, SW_TABLE_LOT, plant->neutraliser_lot);
}

static void
use_up_strips (SwTestPlant *plant)
{
  g_autoptr (SwLot) lot = sw_lot_load (plant->store, plant->strip_lot, NULL);

  lot->used_up = TRUE;
  g_assert_true (sw_lot_update (plant->store, lot, NULL));
}

static void
take_calibration (SwTestPlant *plant)
{
  void_row (plant, SW_TABLE_CALIBRATION, plant->calibration);
}

static void
take_place (SwTestPlant *plant)
{
  g_autoptr (SwMachine) machine = sw_machine_load (plant->store, plant->first.machine, NULL);

  g_clear_pointer (&machine->dosing_place, g_free);
  g_assert_true (sw_machine_update (plant->store, machine, NULL));
}

static void
retire (SwTestPlant *plant)
{
  g_autoptr (SwMachine) machine = sw_machine_load (plant->store, plant->first.machine, NULL);

  machine->service = SW_SERVICE_RETIRED;
  g_assert_true (sw_machine_update (plant->store, machine, NULL));
}

static const LackRow lacks[] = {
  { "plan out of use", take_plan, SW_FACT_NO_PLAN, "" },
  { "plan at rest", rest_plan, SW_FACT_NO_PLAN, "" },
  { "lot", take_lot, SW_FACT_NO_LOT, NULL },
  { "strips", use_up_strips, SW_FACT_NO_LOT, NULL },
  { "calibration", take_calibration, SW_FACT_CALIBRATION_MISSING, "" },
  { "dosing place", take_place, SW_FACT_NO_DOSE_PLACE, "" },
  { "service", retire, SW_FACT_MACHINE_RETIRED, "" },
};

static GArray *
get_unready (SwTestPlant *plant)
{
  GError *error = NULL;
  GArray *facts = sw_setup_unready (plant->store, plant->first.machine, &error);

  g_assert_no_error (error);
  return facts;
}

static void
test_lack (gconstpointer data)
{
  const LackRow *row = data;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autoptr (GArray) before = get_unready (plant);
  g_autoptr (GArray) after = NULL;
  const SwFact *fact;

  g_assert_cmpuint (before->len, ==, 0);
  sw_test_plant_begin (plant, SW_ACT_AMEND);
  row->take (plant);
  sw_test_plant_commit (plant);
  after = get_unready (plant);
  g_assert_cmpuint (after->len, ==, 1);
  fact = &g_array_index (after, SwFact, 0);
  g_assert_cmpint (fact->code, ==, row->code);
  if (row->text != NULL)
    g_assert_cmpstr (fact->text, ==, row->text);
  else
    g_assert_cmpstr (fact->text, !=, "");
}

/* ---- the sum ---- */

typedef struct
{
  const char *name;
  double volumes[3][2]; /* volume and uncertainty, L */
  guint n;
  double sum; /* NAN: not known */
  double u;
  gboolean complete;
} SumRow;

/* Sums by hand; 3, 4, 12 give the root 13. */
static const SumRow sums[] = {
  { "none", { { 0 } }, 0, NAN, 0, FALSE },
  { "one", { { 120, 3 } }, 1, 120, 3, TRUE },
  { "three", { { 180, 3 }, { 120, 4 }, { 20.5, 12 } }, 3, 320.5, 13, TRUE },
  { "one exact", { { 180, 3 }, { 120, NAN }, { 20, 4 } }, 3, 320, 5, FALSE },
  { "one unknown", { { 180, 3 }, { NAN, 4 }, { 20, 4 } }, 3, NAN, 0, FALSE },
  { "empty vessel", { { 180, 0 }, { 0, 0 } }, 2, 180, 0, TRUE },
};

static void
free_compartment (gpointer data)
{
  sw_compartment_free (data);
}

static void
test_sum (gconstpointer data)
{
  const SumRow *row = data;
  g_autoptr (GPtrArray) compartments = g_ptr_array_new_with_free_func (free_compartment);
  SwQuantity system_l;
  gboolean complete;

  for (guint i = 0; i < row->n; i++)
    {
      SwCompartment *compartment = sw_compartment_new ();

      compartment->volume.value = row->volumes[i][0];
      compartment->volume_u_l = row->volumes[i][1];
      g_ptr_array_add (compartments, compartment);
    }
  sw_setup_sum_compartments (compartments, &system_l, &complete);
  sw_assert_close (system_l.value, row->sum, 1e-12);
  sw_assert_close (system_l.u, row->u, 1e-12);
  g_assert_cmpint (complete, ==, row->complete);
}

/* ---- the strips ---- */

static void
free_field (gpointer data)
{
  sw_colour_field_free (data);
}

static GPtrArray *
load_fields (SwTestPlant *plant, gint64 version)
{
  g_autoptr (GArray) ids
      = sw_record_ids (plant->store, SW_TABLE_COLOUR_FIELD, "method_version", version, NULL);
  GPtrArray *fields = g_ptr_array_new_with_free_func (free_field);

  for (guint i = 0; i < ids->len; i++)
    g_ptr_array_add (fields,
                     sw_colour_field_load (plant->store, g_array_index (ids, gint64, i), NULL));
  g_assert_cmpuint (fields->len, ==, 3);
  return fields;
}

static void
rename_field (GPtrArray *fields, guint at, const char *label, const char *swatch)
{
  SwColourField *field = g_ptr_array_index (fields, at);

  g_free (field->label);
  field->label = g_strdup (label);
  g_free (field->swatch);
  field->swatch = g_strdup (swatch);
}

typedef struct
{
  const char *name;
  const char *label;
  const char *swatch;
  gboolean fine;
  SwFaultCode code;
  SwQuantityName quantity;
} StripRow;

static const StripRow strips[] = {
  { "own words", "Amber", "#AABB01", TRUE, 0, 0 },
  { "lower case", "Amber", "#aabb01", TRUE, 0, 0 },
  { "no label", "", "#AABB01", FALSE, SW_FAULT_MISSING, SW_QUANTITY_NAME },
  { "no swatch", "Amber", NULL, FALSE, SW_FAULT_TEXT, SW_QUANTITY_CODE },
  { "a word", "Amber", "yellow", FALSE, SW_FAULT_TEXT, SW_QUANTITY_CODE },
  { "too long", "Amber", "#AABB0122", FALSE, SW_FAULT_TEXT, SW_QUANTITY_CODE },
  { "too short", "Amber", "#ABC", FALSE, SW_FAULT_TEXT, SW_QUANTITY_CODE },
};

static void
test_strips (gconstpointer data)
{
  const StripRow *row = data;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  const SwActor actor = sw_test_plant_actor (plant, plant->administrator);
  g_autoptr (GPtrArray) fields = load_fields (plant, plant->version);
  g_autoptr (GPtrArray) after = NULL;
  const SwColourField *first;
  GError *error = NULL;

  rename_field (fields, 0, row->label, row->swatch);
  ((SwColourField *)g_ptr_array_index (fields, 0))->meaning = SW_FIELD_ALKALINE;
  g_assert_cmpint (sw_setup_colour_fields (plant->store, &actor, fields, &error), ==, row->fine);
  after = load_fields (plant, plant->version);
  first = g_ptr_array_index (after, 0);
  /* What a colour means is never the site's to change. */
  g_assert_cmpint (first->meaning, ==, SW_FIELD_ACID);
  if (!row->fine)
    {
      sw_assert_fault (&error, row->code, row->quantity);
      g_assert_cmpstr (first->label, ==, "Yellow");
      return;
    }
  g_assert_cmpstr (first->label, ==, "Amber");
  g_assert_cmpstr (first->swatch, ==, "#AABB01");
}

/* A version never changes once a titration uses it. */
static void
test_strips_used (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  const SwActor actor = sw_test_plant_actor (plant, plant->technician);
  g_autoptr (GPtrArray) fields = load_fields (plant, plant->version);
  g_autoptr (SwGuidedTest) test
      = sw_guided_test_begin (plant->store, &actor, plant->first.plan, SW_PURPOSE_ROUTINE, 0, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (test);
  rename_field (fields, 0, "Amber", "#AABB01");
  g_assert_false (sw_setup_colour_fields (plant->store, &actor, fields, &error));
  g_assert_error (error, SW_WORKFLOW_ERROR, SW_WORKFLOW_ERROR_REFUSED);
}

static void
add (const char *group, const char *name, gconstpointer data, GTestDataFunc func)
{
  g_autofree char *in = g_strconcat ("/ready/", group, NULL);
  g_autofree char *path = sw_test_path (in, name);

  g_test_add_data_func (path, data, func);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (lacks); i++)
    add ("lack", lacks[i].name, &lacks[i], test_lack);
  for (gsize i = 0; i < G_N_ELEMENTS (sums); i++)
    add ("sum", sums[i].name, &sums[i], test_sum);
  for (gsize i = 0; i < G_N_ELEMENTS (strips); i++)
    add ("strips", strips[i].name, &strips[i], test_strips);
  g_test_add_func ("/ready/strips/used", test_strips_used);
  return g_test_run ();
}
