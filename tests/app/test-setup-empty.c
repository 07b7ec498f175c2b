/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From an empty file to a machine that can be tested and dosed, through the forms alone. */
#include "tests/app/setup-bench.h"
#include "workflow/guided.h"
#include "workflow/setup.h"

typedef struct
{
  gint64 person, solvent, neutraliser, lot, dropper, method, machine;
} Plant;

static void
add_bench (Bench *bench, Plant *plant)
{
  plant->person = bench->administrator;
  plant->solvent = bench_add_solvent (bench);
  plant->neutraliser = bench_add_neutraliser (bench);
  plant->lot = bench_add_lot (bench, plant->neutraliser);
  plant->dropper = bench_add_dropper (bench, plant->neutraliser);
  plant->method = bench_adopt_method (bench, plant->neutraliser);
}

static void
add_plant (Bench *bench, Plant *plant)
{
  add_bench (bench, plant);
  bench_fill_machine (bench, plant->solvent, plant->neutraliser, plant->method);
  g_assert_true (bench_save (bench));
  plant->machine = bench_only (bench, SW_TABLE_MACHINE);
}

static void
assert_ready (Bench *bench, gint64 machine)
{
  g_autoptr (GArray) missing = sw_setup_missing (bench_store (bench), machine, NULL);
  g_autoptr (GArray) unready = sw_setup_unready (bench_store (bench), machine, NULL);

  g_assert_cmpuint (missing->len, ==, 0);
  g_assert_cmpuint (unready->len, ==, 0);
}

static void
assert_machine (Bench *bench, const Plant *plant)
{
  g_autoptr (SwMachine) machine = sw_machine_load (bench_store (bench), plant->machine, NULL);
  SwQuantity system_l;
  gboolean complete;

  g_assert_cmpstr (machine->tag, ==, "M-07");
  g_assert_cmpint (machine->solvent, ==, plant->solvent);
  g_assert_cmpint (machine->neutraliser, ==, plant->neutraliser);
  g_assert_cmpfloat (machine->circulation_min, ==, 45.0);
  sw_assert_close (machine->graduation.value, 20.0, 1e-12);
  g_assert_true (
      sw_machine_volume (bench_store (bench), plant->machine, &system_l, &complete, NULL));
  /* 180 + 120 L with 3 and 4 L: 300 L with 5 L. */
  sw_assert_close (system_l.value, 300.0, 1e-12);
  sw_assert_close (system_l.u, 5.0, 1e-12);
  g_assert_true (complete);
}

static void
assert_parts (Bench *bench, const Plant *plant)
{
  g_autoptr (GArray) points = sw_record_ids (bench_store (bench), SW_TABLE_SAMPLING_POINT,
                                             "machine", plant->machine, NULL);
  g_autoptr (SwSamplingPoint) first = NULL;
  g_autoptr (SwSamplingPoint) second = NULL;
  g_autoptr (SwPlan) plan
      = sw_plan_load (bench_store (bench), bench_only (bench, SW_TABLE_PLAN), NULL);

  g_assert_cmpuint (points->len, ==, 2);
  first = sw_sampling_point_load (bench_store (bench), g_array_index (points, gint64, 0), NULL);
  second = sw_sampling_point_load (bench_store (bench), g_array_index (points, gint64, 1), NULL);
  g_assert_cmpstr (first->name, ==, "Condensate side");
  g_assert_cmpint (first->rank, ==, 1);
  g_assert_true (first->dose_basis);
  g_assert_cmpint (second->rank, ==, 2);
  g_assert_false (second->dose_basis);
  g_assert_cmpint (plan->machine, ==, plant->machine);
  g_assert_cmpint (plan->method, ==, plant->method);
  g_assert_cmpfloat (plan->shortest_days, ==, 1.0);
  g_assert_cmpfloat (plan->longest_days, ==, 7.0);
  sw_assert_close (plan->alpha, 0.10, 1e-12);
}

static void
test_whole (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1280, 900, FALSE);
  g_autoptr (SwGuidedTest) test = NULL;
  g_autoptr (GError) error = NULL;
  Plant plant;

  add_plant (bench, &plant);
  assert_machine (bench, &plant);
  assert_parts (bench, &plant);
  assert_ready (bench, plant.machine);
  bench_assert_says (bench, "Nothing is missing");
  /* The first person added is at the bench, and every row says so. */
  g_assert_cmpint (sw_context_get_person (bench->context), ==, plant.person);
  test = sw_guided_test_begin (bench_store (bench), sw_context_get_actor (bench->context),
                               bench_only (bench, SW_TABLE_PLAN), SW_PURPOSE_ROUTINE, 0, &error);
  g_assert_no_error (error);
  g_assert_nonnull (test);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/setup/empty/whole", test_whole);
  return g_test_run ();
}
