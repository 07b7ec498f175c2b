/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One reading of a guided test, committed, against one write and fdatasync of a small file beside
 * it: what a press of a colour tile costs, in units of what the disk asks for at least. */
#include "bench.h"
#include "support/plant.h"
#include "workflow/guided.h"

#include <fcntl.h>
#include <unistd.h>

#define TESTS 20
#define READINGS 15

static void
sync_small_file (int fd, Bench *bench)
{
  char block[4096] = { 0 };

  bench_start (bench);
  g_assert_cmpint (pwrite (fd, block, sizeof block, 0), ==, (gssize)sizeof block);
  g_assert_cmpint (fdatasync (fd), ==, 0);
  bench_stop (bench);
}

static gint64
find_field (const SwGuidedTest *test, SwField meaning)
{
  GPtrArray *fields = sw_guided_test_get_fields (test);

  for (guint i = 0; i < fields->len; i++)
    if (((SwColourField *)fields->pdata[i])->meaning == meaning)
      return ((SwColourField *)fields->pdata[i])->record.id;
  g_assert_not_reached ();
}

static SwGuidedTest *
begin (SwTestPlant *plant, const SwActor *actor)
{
  const SwDrawEntry draw = { .point = plant->first.point,
                             .running = SW_ANSWER_YES,
                             .level_ok = SW_ANSWER_YES,
                             .added_since = SW_ANSWER_NO,
                             .volume = { .value = 150.0, .typed = (char *)"150 mL" },
                             .temperature = { .value = 22.0, .typed = (char *)"22 degC" },
                             .retained = TRUE };
  const SwPrepareEntry prepare = { .portion = { .value = 50.0, .typed = (char *)"50 mL" },
                                   .titrant_lot = plant->neutraliser_lot,
                                   .strip_lot = plant->strip_lot };
  GError *error = NULL;
  SwGuidedTest *test = sw_guided_test_begin (plant->store, actor, plant->first.plan,
                                             SW_PURPOSE_ROUTINE, 0, &error);

  g_assert_no_error (error);
  sw_guided_test_draw (test, &draw, &error);
  g_assert_no_error (error);
  sw_guided_test_prepare (test, &prepare, &error);
  g_assert_no_error (error);
  return test;
}

/* Acid at each step: a strip read, a drop added, in turns with the small file. */
static void
read_strips (SwTestPlant *plant, SwGuidedTest *test, int fd, Bench *reading, Bench *sync)
{
  const gint64 acid = find_field (test, SW_FIELD_ACID);
  GError *error = NULL;

  for (int i = 0; i < READINGS; i++)
    {
      sync_small_file (fd, sync);
      sw_guided_test_shake (test, &error);
      g_assert_no_error (error);
      bench_start (reading);
      sw_guided_test_read (test, acid, &error);
      bench_stop (reading);
      g_assert_no_error (error);
      sw_guided_test_add (test, 1.0, &error);
      g_assert_no_error (error);
      sw_test_plant_advance (plant, 1.0);
    }
}

int
main (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  const SwActor actor = sw_test_plant_actor (plant, plant->technician);
  g_autofree char *path = g_strconcat (plant->path, ".small", NULL);
  const int fd = open (path, O_CREAT | O_RDWR | O_CLOEXEC, 0600);
  Bench reading, sync;

  g_assert_cmpint (fd, >=, 0);
  bench_init (&reading);
  bench_init (&sync);
  for (int i = 0; i < TESTS; i++)
    {
      g_autoptr (SwGuidedTest) test = begin (plant, &actor);
      GError *error = NULL;

      read_strips (plant, test, fd, &reading, &sync);
      sw_guided_test_abandon (test, "measured", &error);
      g_assert_no_error (error);
    }
  bench_print ("committed reading / fdatasync", &reading, &sync);
  bench_clear (&reading);
  bench_clear (&sync);
  close (fd);
  return 0;
}
