/* SPDX-License-Identifier: GPL-3.0-or-later */
/* journal: the whole journal and single records in words. */
#include "records/verify.h"
#include "spawn.h"
#include "support/plant.h"

#include <string.h>

static SwSpawned *
tell (SwTestPlant *plant, const char *options)
{
  g_autofree char *quoted = g_shell_quote (plant->path);
  g_autofree char *arguments = g_strconcat ("journal ", quoted, " ", options, NULL);

  return sw_spawn (arguments, NULL);
}

static guint
count_lines (const SwSpawned *spawned, const char *start)
{
  g_auto (GStrv) lines = g_strsplit (spawned->out, "\n", -1);
  guint count = 0;

  for (guint i = 0; lines[i] != NULL; i++)
    count += g_str_has_prefix (lines[i], start) ? 1 : 0;
  return count;
}

static SwTestPlant *
make_plant (void)
{
  SwTestPlant *plant = sw_test_plant_new ();

  sw_test_plant_advance (plant, 2 * 24 * 60);
  sw_test_plant_add_machine (plant, "M-08");
  return plant;
}

/* One entry and one hash for each journal row; oldest first; the head behind all. */
static void
test_whole (void)
{
  g_autoptr (SwTestPlant) plant = make_plant ();
  g_autoptr (SwVerifyReport) report = sw_verify_full (plant->store, NULL, NULL, NULL);
  g_autofree char *head = g_strdup_printf ("head\t%s", report->head);
  g_autofree char *last = g_strdup_printf ("hash\t%s\n%s\n", report->head, head);
  g_autoptr (SwSpawned) spawned = tell (plant, "");

  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  g_assert_cmpuint (count_lines (spawned, "entry\t"), ==, (guint)report->journal_rows);
  g_assert_cmpuint (count_lines (spawned, "hash\t"), ==, (guint)report->journal_rows);
  g_assert_true (g_str_has_prefix (spawned->out, "entry\t1 "));
  g_assert_true (g_str_has_suffix (spawned->out, last));
}

static void
test_record (void)
{
  g_autoptr (SwTestPlant) plant = make_plant ();
  g_autofree char *by_id
      = g_strdup_printf ("--record machine:%" G_GINT64_FORMAT, plant->first.machine);
  g_autoptr (SwSpawned) one = tell (plant, by_id);
  g_autoptr (SwSpawned) same = tell (plant, "--record machine/M-07");
  g_autoptr (SwSpawned) two = tell (plant, "--record machine/M-08 --record=machine/M-07");

  g_assert_cmpint (one->code, ==, 0);
  g_assert_true (sw_spawned_has_line (one, "change\tTag: M-07"));
  g_assert_nonnull (strstr (one->out, " Machine M-07: "));
  g_assert_null (strstr (one->out, "M-08"));
  g_assert_cmpstr (one->out, ==, same->out);
  g_assert_cmpuint (count_lines (two, "entry\t"), ==, count_lines (one, "entry\t") + 1);
  g_assert_true (sw_spawned_has_line (two, "change\tTag: M-08"));
}

/* The plant was set up on 24 November, the second machine two days later. */
static void
test_times (void)
{
  g_autoptr (SwTestPlant) plant = make_plant ();
  g_autoptr (SwSpawned) all = tell (plant, "");
  g_autoptr (SwSpawned) before = tell (plant, "--to 2026-11-25");
  g_autoptr (SwSpawned) after = tell (plant, "--from 2026-11-26");
  g_autoptr (SwSpawned) both
      = tell (plant, "--from 2026-11-25 --to 2026-11-25 --record machine/M-08");

  g_assert_null (strstr (before->out, "M-08"));
  g_assert_true (sw_spawned_has_line (after, "change\tTag: M-08"));
  g_assert_false (sw_spawned_has_line (after, "change\tTag: M-07"));
  g_assert_cmpuint (count_lines (before, "entry\t") + count_lines (after, "entry\t"), ==,
                    count_lines (all, "entry\t"));
  g_assert_cmpuint (count_lines (both, "entry\t"), ==, 0);
  g_assert_cmpint (both->code, ==, 0);
}

typedef struct
{
  const char *name;
  const char *options;
} Row;

static const Row rows[] = {
  { "no such number", "--record machine:99" },
  { "no such name", "--record machine/M-99" },
  { "no such table", "--record bench:1" },
  { "no number", "--record machine:one" },
  { "table alone", "--record machine" },
  { "nothing behind", "--record machine:" },
  { "another tool", "--record 'machine;DROP TABLE x:1'" },
};

static void
test_refused (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autoptr (SwSpawned) spawned = tell (plant, row->options);

  g_assert_cmpint (spawned->code, ==, 2);
  g_assert_cmpstr (spawned->out, ==, "");
  g_assert_true (g_str_has_prefix (spawned->err, "stillwarden: --record: "));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  sw_spawn_init (argc, argv);
  g_test_add_func ("/journal/whole", test_whole);
  g_test_add_func ("/journal/record", test_record);
  g_test_add_func ("/journal/times", test_times);
  SW_TEST_ROWS ("/journal/refused", rows, test_refused);
  return g_test_run ();
}
