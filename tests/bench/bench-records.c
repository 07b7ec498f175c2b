/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Records page on 200,000 tests of one machine against 2,000 tests of another, in the same
 * window and run: asking and drawing the first screen, and jumping to a place in the list and
 * drawing that. Needs a display. Another number of tests may be given.
 */
#include "app/records/record-table.h"
#include "bench.h"
#include "tests/app/busy-plant.h"
#include "tests/app/snapshot.h"

#include <stdlib.h>

#define TESTS 200000
#define FEW 2000
#define TESTS_PER_ACT 2000
#define RUNS 9
#define SEED 20261125

static void
check (gboolean done, GError *error)
{
  g_assert_no_error (error);
  g_assert_true (done);
}

static void
insert_test (SwTestPlant *plant, const SwTestMachine *machine, int i)
{
  g_autoptr (SwSample) sample = sw_sample_new ();
  g_autoptr (SwTitration) titration = sw_titration_new ();
  GError *error = NULL;

  sample->record.happened_ms = titration->record.happened_ms
      = plant->now_ms - (gint64)i * SW_TEST_HOUR_MS / 4;
  sample->code = g_strdup_printf ("%" G_GINT64_FORMAT "-%d", machine->machine, i);
  sample->machine = machine->machine;
  sample->drawn_by = plant->technician;
  check (sw_sample_insert (plant->store, sample, &error), error);
  titration->sample = sample->record.id;
  titration->method_version = plant->version;
  titration->analyst = plant->technician;
  titration->portion = 1;
  titration->step = SW_STEP_DONE;
  titration->outcome = i % 5 == 0 ? SW_OUTCOME_ACID_FOUND : SW_OUTCOME_PASSED;
  titration->net_low = i % 5;
  titration->net_high = i % 5 + 1;
  titration->closed_ms = titration->signed_ms = titration->record.happened_ms;
  check (sw_titration_insert (plant->store, titration, &error), error);
}

static void
insert_tests (SwTestPlant *plant, const SwTestMachine *machine, int n)
{
  for (int i = 0; i < n; i += TESTS_PER_ACT)
    {
      sw_test_plant_begin (plant, SW_ACT_TEST);
      for (int k = i; k < MIN (i + TESTS_PER_ACT, n); k++)
        insert_test (plant, machine, k);
      sw_test_plant_commit (plant);
    }
}

static void
ask (SwWindow *window, gint64 machine, Bench *bench)
{
  const SwBrowseFilter filter = { .table = SW_TABLE_TITRATION, .outcome = -1, .machine = machine };

  bench_start (bench);
  sw_window_show_records (window, &filter);
  sw_snapshot_settle (GTK_WIDGET (window));
  bench_stop (bench);
}

static void
jump (SwWindow *window, GRand *rand, Bench *bench)
{
  GtkWidget *widget = sw_find_widget (GTK_WIDGET (window), SW_TYPE_RECORD_TABLE, NULL);
  SwRecordTable *table = SW_RECORD_TABLE (widget);
  SwRecordList *list = sw_record_table_get_list (table);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (list));
  gint64 id = sw_record_list_get_id (list, (guint)g_rand_int_range (rand, 0, (int)n));

  bench_start (bench);
  sw_record_table_choose (table, id);
  sw_snapshot_settle (GTK_WIDGET (window));
  bench_stop (bench);
}

static void
measure (SwWindow *window, gint64 many, gint64 few)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  Bench asked[2], jumped[2];
  guint64 loads = sw_record_item_count_loads ();

  for (int i = 0; i < 2; i++)
    {
      bench_init (&asked[i]);
      bench_init (&jumped[i]);
    }
  for (int i = 0; i < RUNS; i++)
    {
      ask (window, many, &asked[0]);
      jump (window, rand, &jumped[0]);
      ask (window, few, &asked[1]);
      jump (window, rand, &jumped[1]);
    }
  loads = sw_record_item_count_loads () - loads;
  g_print ("%.0f rows loaded for each screen\n", (double)loads / (4 * RUNS));
  bench_print ("asking for many / few tests", &asked[0], &asked[1]);
  bench_print ("a jump among many / few tests", &jumped[0], &jumped[1]);
  for (int i = 0; i < 2; i++)
    {
      bench_clear (&asked[i]);
      bench_clear (&jumped[i]);
    }
}

int
main (int argc, char **argv)
{
  int n = argc > 1 ? atoi (argv[1]) : TESTS;

  gtk_init ();
  sw_wording_init (NULL);
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();
  SwTestMachine other = sw_test_plant_add_machine (plant->scene->plant, "M-03");
  insert_tests (plant->scene->plant, &plant->retest, n);
  insert_tests (plant->scene->plant, &other, FEW);
  SwWindow *window = busy_plant_open_window (plant, "en", 1024, 600, FALSE);
  measure (window, plant->retest.machine, other.machine);
  return 0;
}
