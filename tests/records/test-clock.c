/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A clock that is put ahead or back shows in the journal. */
#include "fixture.h"

#include <string.h>

typedef struct
{
  Fixture file;
  gint64 steady_ms;
} Bench;

static gint64
steady_cb (gpointer data)
{
  return ((Bench *)data)->steady_ms;
}

static gint64
now_cb (gpointer data)
{
  return ((Bench *)data)->file.now_ms;
}

static int
offset_cb (gpointer data, gint64 utc_ms)
{
  return 120;
}

static void
set_up (Bench *bench, gconstpointer data)
{
  fixture_set_up_folder (&bench->file, data);
  bench->steady_ms = 5000;
  bench->file.clock = (SwClock){
    .now_ms = now_cb, .offset_min = offset_cb, .data = bench, .steady_ms = steady_cb
  };
  fixture_open (&bench->file, SW_OPEN_CREATE);
}

static void
tear_down (Bench *bench, gconstpointer data)
{
  fixture_tear_down (&bench->file, data);
}

static void
move (Bench *bench, gint64 wall_ms, gint64 steady_ms)
{
  bench->file.now_ms += wall_ms;
  bench->steady_ms += steady_ms;
}

static gint64
ask_last (Bench *bench, const char *column)
{
  g_autofree char *sql
      = g_strdup_printf ("SELECT coalesce(%s, 0) FROM journal ORDER BY seq DESC LIMIT 1", column);

  return fixture_ask (&bench->file, sql);
}

/* ---- one step of both clocks, then an act ---- */

typedef struct
{
  const char *name;
  gint64 wall_ms;
  gint64 steady_ms;
  gint64 ahead_ms; /* expected */
  gint64 back_ms;
} StepCase;

static const StepCase step_cases[] = {
  { "alike", 3600000, 3600000, 0, 0 },     { "slept", 86400000, 86400000, 0, 0 },
  { "slow-clock", 1000, 3600000, 0, 0 },   { "a-minute", 60000, 0, 0, 0 },
  { "over-a-minute", 60001, 0, 60001, 0 }, { "a-day-in-an-hour", 90000000, 3600000, 86400000, 0 },
  { "back", -5000, 1000, 0, 5000 },
};

static void
test_step (Bench *bench, gconstpointer data)
{
  const StepCase *row = data;
  g_autofree char *line = g_strdup_printf ("\nclock=ahead %" G_GINT64_FORMAT "\n", row->ahead_ms);
  g_autofree char *entry = NULL;

  fixture_add_person (&bench->file, "NI");
  move (bench, row->wall_ms, row->steady_ms);
  fixture_add_person (&bench->file, "OI");
  g_assert_cmpint (ask_last (bench, "clock_ahead_ms"), ==, row->ahead_ms);
  g_assert_cmpint (ask_last (bench, "clock_back_ms"), ==, row->back_ms);
  entry = fixture_sql (&bench->file, "SELECT entry FROM journal ORDER BY seq DESC LIMIT 1");
  g_assert_cmpint (strstr (entry, line) != NULL, ==, row->ahead_ms != 0);
  g_assert_cmpint (strstr (entry, "\nclock=ahead ") != NULL, ==, row->ahead_ms != 0);
  /* said once */
  move (bench, 1000, 1000);
  fixture_add_person (&bench->file, "PI");
  g_assert_cmpint (ask_last (bench, "clock_ahead_ms"), ==, 0);
  fixture_assert_sound (&bench->file);
}

/* ---- what counts as the act before ---- */

static void
test_since_opening (Bench *bench, gconstpointer data)
{
  fixture_close (&bench->file);
  /* nobody watches a clock while the file is closed */
  move (bench, 7200000, 0);
  fixture_open (&bench->file, SW_OPEN_WRITE);
  move (bench, 120000, 10);
  fixture_add_person (&bench->file, "NI");
  g_assert_cmpint (ask_last (bench, "clock_ahead_ms"), ==, 119990);
}

static void
test_cancelled (Bench *bench, gconstpointer data)
{
  move (bench, 120000, 0);
  fixture_begin (&bench->file, SW_ACT_SETUP, NULL);
  sw_act_cancel (bench->file.store);
  fixture_begin (&bench->file, SW_ACT_SETUP, NULL);
  fixture_commit (&bench->file);
  fixture_add_person (&bench->file, "NI");
  g_assert_cmpint (ask_last (bench, "clock_ahead_ms"), ==, 120000);
}

/* The journal's last time comes from a PC that was further ahead still. */
static void
test_both (Bench *bench, gconstpointer data)
{
  move (bench, 7200000, 7200000);
  fixture_add_person (&bench->file, "NI");
  fixture_close (&bench->file);
  move (bench, -7200000, 1000);
  fixture_open (&bench->file, SW_OPEN_WRITE);
  move (bench, 3600000, 0);
  fixture_add_person (&bench->file, "OI");
  g_assert_cmpint (ask_last (bench, "clock_ahead_ms"), ==, 3600000);
  g_assert_cmpint (ask_last (bench, "clock_back_ms"), ==, 3600000);
  fixture_assert_sound (&bench->file);
}

static void
test_unknown (Bench *bench, gconstpointer data)
{
  fixture_close (&bench->file);
  bench->file.clock.steady_ms = NULL;
  fixture_open (&bench->file, SW_OPEN_WRITE);
  move (bench, 86400000, 0);
  fixture_add_person (&bench->file, "NI");
  g_assert_cmpint (ask_last (bench, "clock_ahead_ms"), ==, 0);
}

/* A file of version 1 has no place for it until it is migrated; its own rows stay as they were. */
static void
test_version_1 (Bench *bench, gconstpointer data)
{
  g_autofree char *old = sw_test_source_path ("tests/records/data/version-1.stillwarden");
  gint64 before;

  fixture_close (&bench->file);
  g_free (fixture_run ("cp '%s' '%s'", old, bench->file.path));
  bench->file.now_ms += G_GINT64_CONSTANT (86400000) * 365;
  fixture_open (&bench->file, SW_OPEN_READ_ONLY);
  fixture_assert_sound (&bench->file);
  before = fixture_ask (&bench->file, "SELECT count(*) FROM journal");
  fixture_close (&bench->file);
  fixture_open (&bench->file, SW_OPEN_WRITE);
  g_assert_cmpint (ask_last (bench, "seq"), ==, before + 1);
  move (bench, 61000, 0);
  fixture_add_person (&bench->file, "XX");
  g_assert_cmpint (ask_last (bench, "clock_ahead_ms"), ==, 61000);
  fixture_assert_sound (&bench->file);
}

/* The system's steady clock goes on by itself. */
static void
test_system (void)
{
  const SwClock *clock = sw_clock_system ();
  gint64 first = clock->steady_ms (clock->data);

  g_usleep (20000);
  g_assert_cmpint (clock->steady_ms (clock->data), >=, first + 19);
}

/* ---- registration ---- */

static void
add (const char *name, gconstpointer data, void (*func) (Bench *, gconstpointer))
{
  g_autofree char *path = g_strdup_printf ("/records/clock/%s", name);

  g_test_add (path, Bench, data, set_up, func, tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (step_cases); i++)
    {
      g_autofree char *name = g_strconcat ("step/", step_cases[i].name, NULL);

      add (name, &step_cases[i], test_step);
    }
  add ("since-opening", NULL, test_since_opening);
  add ("cancelled", NULL, test_cancelled);
  add ("both", NULL, test_both);
  add ("unknown", NULL, test_unknown);
  add ("version-1", NULL, test_version_1);
  g_test_add_func ("/records/clock/system", test_system);
  return g_test_run ();
}
