/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The machine's form as tables, and the rows that belong to a machine. */
#include "app/setup/machine-tables.h"

#include "app/setup/plant-choices.h"
#include "wording/sentence-setup.h"

/* Shown in a new plan, for the technician to change (2-calculations: no silent default). */
#define SHORTEST_DAYS 1.0
#define LONGEST_DAYS 7.0
#define ALPHA 0.10

/* clang-format off */
const SwFormSpec sw_machine_fields[SW_N_MACHINE_FIELDS] = {
  { .id = "tag", .label = N_ ("Tag"), .hint = N_ ("As it stands on the machine, such as M-07."),
    .kind = SW_FORM_TEXT, .needed = TRUE, .offset = G_STRUCT_OFFSET (SwMachine, tag),
    .quantity = SW_QUANTITY_CODE },
  { .id = "name", .label = N_ ("Name"), .hint = N_ ("What people call it."), .kind = SW_FORM_TEXT,
    .offset = G_STRUCT_OFFSET (SwMachine, name), .quantity = SW_QUANTITY_NAME },
  { .id = "area", .label = N_ ("Area"), .hint = N_ ("Where it stands."), .kind = SW_FORM_TEXT,
    .offset = G_STRUCT_OFFSET (SwMachine, area) },
  { .id = "service", .label = N_ ("Service"), .kind = SW_FORM_WORD,
    .offset = G_STRUCT_OFFSET (SwMachine, service), .word = sw_say_service_state,
    .n_words = SW_N_SERVICE_STATES },
  { .id = "solvent", .label = N_ ("Solvent"), .kind = SW_FORM_RECORD, .needed = TRUE, .wide = TRUE,
    .offset = G_STRUCT_OFFSET (SwMachine, solvent), .quantity = SW_QUANTITY_NAME,
    .rows = sw_choose_solvents, .say_row = sw_choice_solvent },
  { .id = "neutraliser", .group = N_ ("Dosing"), .label = N_ ("Neutraliser dosed into it"),
    .hint = N_ ("The maker's manual and the product's sheets must both allow it."),
    .kind = SW_FORM_RECORD, .wide = TRUE, .offset = G_STRUCT_OFFSET (SwMachine, neutraliser),
    .rows = sw_choose_neutralisers, .say_row = sw_choice_product,
    .empty = N_ ("Not decided: no dose is shown") },
  { .id = "place", .label = N_ ("Dosing place"),
    .hint = N_ ("Where the maker's manual allows it, often the still. Never open a port under "
                "vacuum or heat."),
    .kind = SW_FORM_TEXT, .wide = TRUE, .offset = G_STRUCT_OFFSET (SwMachine, dosing_place) },
  { .id = "circulation", .label = N_ ("Circulation time"),
    .hint = N_ ("How long until a dose is spread evenly; the re-test waits for it."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwMachine, circulation_min),
    .quantity = SW_QUANTITY_CIRCULATION_TIME, .unit = SW_UNIT_MINUTE },
  { .id = "graduation", .label = N_ ("Marks of the measuring jug"),
    .hint = N_ ("From one mark to the next; doses are rounded up to it."),
    .kind = SW_FORM_AMOUNT, .offset = G_STRUCT_OFFSET (SwMachine, graduation),
    .quantity = SW_QUANTITY_GRADUATION, .unit = SW_UNIT_ML },
  { .id = "reserve-low", .group = N_ ("Only where the reserve is titrated"),
    .label = N_ ("Low mark of the reserve"), .kind = SW_FORM_REAL,
    .offset = G_STRUCT_OFFSET (SwMachine, reserve_low), .quantity = SW_QUANTITY_RESERVE_LOW,
    .unit = SW_UNIT_STEP, .hint = N_ ("In drops. Leave both empty otherwise.") },
  { .id = "reserve-high", .label = N_ ("High mark of the reserve"), .kind = SW_FORM_REAL,
    .offset = G_STRUCT_OFFSET (SwMachine, reserve_high), .quantity = SW_QUANTITY_RESERVE_HIGH,
    .unit = SW_UNIT_STEP },
  { .id = "chamber", .group = N_ ("Vacuum"), .label = N_ ("Chamber volume"),
    .hint = N_ ("For leak rates. May be left empty."), .kind = SW_FORM_REAL,
    .offset = G_STRUCT_OFFSET (SwMachine, chamber_l), .quantity = SW_QUANTITY_CHAMBER_VOLUME,
    .unit = SW_UNIT_LITRE },
};

static const SwFormSpec compartment_fields[] = {
  { .id = "kind", .label = N_ ("Kind"), .kind = SW_FORM_WORD,
    .offset = G_STRUCT_OFFSET (SwCompartment, kind), .word = sw_say_compartment_kind,
    .n_words = SW_N_COMPARTMENT_KINDS },
  { .id = "name", .label = N_ ("Name"), .kind = SW_FORM_TEXT,
    .offset = G_STRUCT_OFFSET (SwCompartment, name) },
  { .id = "volume", .label = N_ ("Running volume"), .kind = SW_FORM_AMOUNT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwCompartment, volume), .quantity = SW_QUANTITY_COMPARTMENT_VOLUME,
    .unit = SW_UNIT_LITRE },
  { .id = "volume-u", .label = N_ ("Standard uncertainty"), .kind = SW_FORM_REAL,
    .offset = G_STRUCT_OFFSET (SwCompartment, volume_u_l), .quantity = SW_QUANTITY_UNCERTAINTY,
    .of = SW_QUANTITY_COMPARTMENT_VOLUME, .unit = SW_UNIT_LITRE },
};

static const SwFormSpec point_fields[] = {
  { .id = "name", .label = N_ ("Name"), .kind = SW_FORM_TEXT, .needed = TRUE, .wide = TRUE,
    .offset = G_STRUCT_OFFSET (SwSamplingPoint, name), .quantity = SW_QUANTITY_NAME },
  { .id = "directions", .label = N_ ("Directions"),
    .hint = N_ ("How to draw here safely: valve, bottle, what to watch for."), .wide = TRUE,
    .kind = SW_FORM_PROSE, .offset = G_STRUCT_OFFSET (SwSamplingPoint, directions) },
  { .id = "basis", .label = N_ ("Doses may be worked out from here"), .wide = TRUE,
    .hint = N_ ("Only where a sample stands for the whole solvent. Never the separator's water."),
    .kind = SW_FORM_SWITCH, .offset = G_STRUCT_OFFSET (SwSamplingPoint, dose_basis) },
};

static const SwFormSpec plan_fields[] = {
  { .id = "method", .label = N_ ("Method"), .kind = SW_FORM_RECORD, .needed = TRUE, .wide = TRUE,
    .offset = G_STRUCT_OFFSET (SwPlan, method), .quantity = SW_QUANTITY_NAME,
    .rows = sw_choose_methods, .say_row = sw_choice_method },
  { .id = "shortest", .label = N_ ("Shortest interval"), .kind = SW_FORM_REAL, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwPlan, shortest_days), .quantity = SW_QUANTITY_SHORTEST,
    .unit = SW_UNIT_DAY },
  { .id = "longest", .label = N_ ("Longest interval"), .kind = SW_FORM_REAL, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwPlan, longest_days), .quantity = SW_QUANTITY_LONGEST,
    .unit = SW_UNIT_DAY },
  { .id = "alpha", .label = N_ ("Accepted risk"),
    .hint = N_ ("That a test finds acid. 10 % is usual."), .kind = SW_FORM_REAL, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwPlan, alpha), .quantity = SW_QUANTITY_ALPHA,
    .unit = SW_UNIT_PERCENT },
  { .id = "active", .label = N_ ("Comes due"), .kind = SW_FORM_SWITCH,
    .offset = G_STRUCT_OFFSET (SwPlan, active) },
};
/* clang-format on */

/* ---- records ---- */

SW_RECORD_OPS (compartment, SwCompartment, sw_compartment)
SW_RECORD_OPS (point, SwSamplingPoint, sw_sampling_point)
SW_RECORD_OPS (plan, SwPlan, sw_plan)

static gpointer
create_plan (void)
{
  SwPlan *plan = sw_plan_new ();

  plan->shortest_days = SHORTEST_DAYS;
  plan->longest_days = LONGEST_DAYS;
  plan->alpha = ALPHA;
  plan->active = TRUE;
  return plan;
}

const SwFormListSpec sw_machine_compartments = {
  .id = "compartments",
  .title = N_ ("Compartments"),
  .hint = N_ ("Every vessel that holds solvent while the machine runs, with what is really in it. "
              "Their sum is the volume that a dose is worked out for."),
  .add_label = N_ ("Add Compartment"),
  .empty = N_ ("No compartment yet."),
  .columns = 2,
  .fields = compartment_fields,
  .n_fields = G_N_ELEMENTS (compartment_fields),
  .create = compartment_create,
  .copy = compartment_copy,
  .free = compartment_free,
};

const SwFormListSpec sw_machine_points = {
  .id = "points",
  .title = N_ ("Sampling points"),
  .hint = N_ ("In the order of preference: the first one is offered first. Best is the condensate "
              "side next to the condenser, then the last wash tank."),
  .add_label = N_ ("Add Sampling Point"),
  .empty = N_ ("No sampling point yet."),
  .ordered = TRUE,
  .columns = 1,
  .fields = point_fields,
  .n_fields = G_N_ELEMENTS (point_fields),
  .create = point_create,
  .copy = point_copy,
  .free = point_free,
};

const SwFormListSpec sw_machine_plans = {
  .id = "plans",
  .title = N_ ("Plan"),
  .hint = N_ ("How often it is tested, and how. The program finds the interval between these two, "
              "beginning with one day."),
  .add_label = N_ ("Add Plan"),
  .empty = N_ ("No plan yet: the machine never comes due."),
  .columns = 2,
  .fields = plan_fields,
  .n_fields = G_N_ELEMENTS (plan_fields),
  .create = create_plan,
  .copy = plan_copy,
  .free = plan_free,
};

static GPtrArray *
load_rows (SwStore *store, SwTable table, const SwRecordOps *ops, gint64 machine, GError **error)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (ops->free);
  g_autoptr (GArray) ids = NULL;

  if (machine == 0)
    return g_steal_pointer (&rows);
  ids = sw_record_ids (store, table, "machine", machine, error);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gpointer row = ops->load (store, g_array_index (ids, gint64, i), error);

      if (row == NULL)
        return NULL;
      g_ptr_array_add (rows, row);
    }
  return ids != NULL ? g_steal_pointer (&rows) : NULL;
}

GPtrArray *
sw_machine_load_compartments (SwStore *store, gint64 machine, GError **error)
{
  return load_rows (store, SW_TABLE_COMPARTMENT, &compartment_ops, machine, error);
}

static int
compare_ranks (gconstpointer a, gconstpointer b)
{
  const SwSamplingPoint *first = *(SwSamplingPoint *const *)a;
  const SwSamplingPoint *second = *(SwSamplingPoint *const *)b;

  return first->rank - second->rank;
}

GPtrArray *
sw_machine_load_points (SwStore *store, gint64 machine, GError **error)
{
  GPtrArray *rows = load_rows (store, SW_TABLE_SAMPLING_POINT, &point_ops, machine, error);

  if (rows != NULL)
    g_ptr_array_sort (rows, compare_ranks);
  return rows;
}

GPtrArray *
sw_machine_load_plans (SwStore *store, gint64 machine, GError **error)
{
  return load_rows (store, SW_TABLE_PLAN, &plan_ops, machine, error);
}
