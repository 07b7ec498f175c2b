/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SIGKILL at random moments of guided tests: no acknowledged step is lost, and verify finds
 * nothing.
 *
 * Usage: test-kills DRIVER KILLS. Each kill is a test of its own. The moments are seeded; what the
 * machine does with them is not, which is the point.
 */
#include "records/verify.h"
#include "support/plant.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#define SEED 20261124
#define LONGEST_LIFE_MS 250
#define VERIFY_EVERY 10

typedef struct
{
  const char *driver;
  SwTestPlant *plant;
  GRand *moments;
  gint64 start_real_us;
  guint steps; /* acknowledged in all */
} Kills;

typedef struct
{
  gint64 titration;
  gint64 seq;
  int step;
} Acknowledged;

static Kills kills;

static GPid
spawn (int *output)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *machine = g_strdup_printf ("%" G_GINT64_FORMAT, kills.plant->first.machine);
  g_autofree char *start = g_strdup_printf ("%" G_GINT64_FORMAT, kills.start_real_us);
  const char *arguments[] = { kills.driver, kills.plant->path, machine, start, NULL };
  GPid pid;

  g_spawn_async_with_pipes (NULL, (char **)arguments, NULL, G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL,
                            &pid, NULL, output, NULL, &error);
  g_assert_no_error (error);
  return pid;
}

static char *
read_all (int descriptor)
{
  GString *text = g_string_new (NULL);
  char buffer[4096];
  ssize_t n;

  while ((n = read (descriptor, buffer, sizeof buffer)) > 0)
    g_string_append_len (text, buffer, n);
  close (descriptor);
  return g_string_free (text, FALSE);
}

/* The last whole line: a line cut by the kill was never shown to anybody. */
static gboolean
parse_last (const char *text, Acknowledged *last)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  const guint n = g_strv_length (lines);

  kills.steps += n - 1;
  return n >= 2
         && sscanf (lines[n - 2], "%" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %d", &last->titration,
                    &last->seq, &last->step)
                == 3;
}

static void
check_file (const Acknowledged *last, gboolean verify)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwStore) store = sw_store_open (kills.plant->path, SW_OPEN_WRITE, NULL, &error);
  g_autoptr (SwTitration) titration = NULL;

  g_assert_no_error (error);
  titration = sw_titration_load (store, last->titration, &error);
  g_assert_no_error (error);
  g_assert_cmpint (titration->record.journal_seq, >=, last->seq);
  if (titration->record.journal_seq == last->seq)
    g_assert_cmpint ((int)titration->step, ==, last->step);
  if (verify)
    {
      g_autoptr (SwVerifyReport) report = sw_verify_full (store, NULL, NULL, &error);

      g_assert_no_error (error);
      g_assert_cmpuint (report->findings->len, ==, 0);
    }
}

static void
test_kill (gconstpointer data)
{
  const guint index = GPOINTER_TO_UINT (data);
  int output, status;
  GPid pid = spawn (&output);
  Acknowledged last;
  g_autofree char *text = NULL;

  g_usleep ((gulong)g_rand_int_range (kills.moments, 0, LONGEST_LIFE_MS) * 1000);
  kill (pid, SIGKILL);
  text = read_all (output);
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  g_assert_true (WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL);
  if (parse_last (text, &last))
    check_file (&last, index % VERIFY_EVERY == 0);
}

static void
test_enough (void)
{
  g_test_message ("%u steps acknowledged", kills.steps);
  g_assert_cmpuint (kills.steps, >, 50);
}

/* A minute of the plant is 30 ms of the driver's, so that few kills hit a driver that waits. */
static void
shorten_circulation (SwTestPlant *plant)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwMachine) machine = sw_machine_load (plant->store, plant->first.machine, &error);

  g_assert_no_error (error);
  machine->circulation_min = 1.0;
  sw_test_plant_begin (plant, SW_ACT_AMEND);
  sw_machine_update (plant->store, machine, &error);
  g_assert_no_error (error);
  sw_test_plant_commit (plant);
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 3);
  kills.driver = argv[1];
  kills.moments = g_rand_new_with_seed (SEED);
  kills.start_real_us = g_get_real_time ();
  kills.plant = sw_test_plant_new ();
  shorten_circulation (kills.plant);
  g_clear_pointer (&kills.plant->store, sw_store_close);
  for (int i = 1; i <= atoi (argv[2]); i++)
    {
      g_autofree char *path = g_strdup_printf ("/kills/%04d", i);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_kill);
    }
  g_test_add_func ("/kills/enough-was-going-on", test_enough);
  result = g_test_run ();
  g_clear_pointer (&kills.plant, sw_test_plant_free);
  g_rand_free (kills.moments);
  return result;
}
