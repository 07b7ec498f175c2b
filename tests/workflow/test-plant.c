/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plant that other tests start from is what its header says. */
#include "support/plant.h"

/* 180 + 120 + 80 + 40 L, each with 5 L: root of four squares is 10 L. */
static void
check_volume (SwTestPlant *plant, gint64 machine)
{
  g_autoptr (GError) error = NULL;
  SwQuantity system_l;
  gboolean complete;

  sw_machine_volume (plant->store, machine, &system_l, &complete, &error);
  g_assert_no_error (error);
  g_assert_true (complete);
  sw_assert_close (system_l.value, SW_TEST_PLANT_SYSTEM_L, 1e-12);
  sw_assert_close (system_l.u, 10.0, 1e-12);
}

static void
test_machines (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  SwTestMachine second = sw_test_plant_add_machine (plant, "M-11");

  g_assert_cmpint (second.machine, !=, plant->first.machine);
  sw_test_plant_reopen (plant, SW_OPEN_WRITE);
  check_volume (plant, plant->first.machine);
  check_volume (plant, second.machine);
  g_assert_cmpint (sw_machine_fill (plant->store, second.machine, NULL), ==, second.fill);
}

static void
test_clock (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();

  g_assert_cmpint (sw_store_now (plant->store), ==, SW_TEST_PLANT_START_MS);
  sw_test_plant_advance (plant, 2.5);
  g_assert_cmpint (sw_store_now (plant->store), ==, SW_TEST_PLANT_START_MS + 150000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plant/machines", test_machines);
  g_test_add_func ("/plant/clock", test_clock);
  return g_test_run ();
}
