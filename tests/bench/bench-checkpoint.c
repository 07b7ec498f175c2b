/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A checkpoint against the act that it signs for, and against a folder of ten thousand checkpoints:
 * what a signature costs beside its own commit, and what opening a file costs after years. */
#include "bench.h"
#include "records/checkpoint.h"
#include "records/plant.h"
#include "support/plant.h"

#define ACTS 100
#define CHECKPOINTS 10000

static void
write_act (SwTestPlant *plant, int i)
{
  g_autofree char *value = g_strdup_printf ("%d", i);

  sw_test_plant_advance (plant, 1.0);
  sw_test_plant_begin (plant, SW_ACT_SETUP);
  g_assert_true (sw_setting_put (plant->store, "measured", value, NULL));
  sw_test_plant_commit (plant);
}

/* The lines of years: the newest line again and again. */
static void
repeat_lines (const char *folder)
{
  g_autofree char *script = g_strdup_printf (
      "cd '%s' && for f in *.checkpoints; do line=$(tail -n 1 $f); for i in $(seq %d); do"
      " echo $line; done >> $f; done",
      folder, CHECKPOINTS);
  const char *const argv[] = { "sh", "-c", script, NULL };
  int status = 0;

  g_assert_true (g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL,
                               NULL, &status, NULL));
  g_assert_cmpint (status, ==, 0);
}

int
main (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autofree char *folder = g_strconcat (plant->path, ".trust", NULL);
  SwCheckpointLoss loss;
  Bench act, sign, compare;

  bench_init (&act);
  bench_init (&sign);
  bench_init (&compare);
  for (int i = 0; i < ACTS; i++)
    {
      bench_start (&act);
      write_act (plant, i);
      bench_stop (&act);
      bench_start (&sign);
      g_assert_true (sw_checkpoint_sign (plant->store, folder, NULL, NULL));
      bench_stop (&sign);
    }
  bench_print ("checkpoint / act", &sign, &act);
  repeat_lines (folder);
  for (int i = 0; i < 5; i++)
    {
      bench_start (&compare);
      g_assert_true (sw_checkpoint_compare (plant->store, folder, &loss, NULL));
      bench_stop (&compare);
    }
  g_assert_cmpuint (loss.n_lost, ==, 0);
  bench_print ("10,000 checkpoints compared / act", &compare, &act);
  bench_clear (&act);
  bench_clear (&sign);
  bench_clear (&compare);
  return 0;
}
