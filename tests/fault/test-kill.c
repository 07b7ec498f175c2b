/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program killed in the middle of a test, at any moment: what it acknowledged is there, and the
 * test goes on. The program is a forked process that reports each act through a pipe after its
 * commit. */
#include "script.h"

#include <signal.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#define KILLS 25
#define LONGEST_US 9000 /* the whole script takes a few milliseconds */

static GRand *dice;

/* In the child. Never returns. */
static void
run_child (Script *script, int report)
{
  SwStore *store = script_open (script, NULL, NULL);
  char byte = 'o';

  if (store == NULL || write (report, &byte, 1) != 1)
    _exit (1);
  for (int i = 0; i < SCRIPT_ACTS; i++)
    if (!script_run (script, store, i, NULL) || write (report, &byte, 1) != 1)
      _exit (2);
  sw_store_close (store);
  pause ();
  _exit (0);
}

/* The bytes left in the pipe after the child's death. */
static int
count_reports (int report)
{
  char byte;
  int count = 0;

  while (read (report, &byte, 1) == 1)
    count++;
  return count;
}

static int
kill_once (Script *script)
{
  int ends[2];
  char byte;
  pid_t child;
  int acknowledged;

  g_assert_cmpint (pipe (ends), ==, 0);
  child = fork ();
  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    {
      close (ends[0]);
      run_child (script, ends[1]);
    }
  close (ends[1]);
  g_assert_cmpint (read (ends[0], &byte, 1), ==, 1); /* it has the file open */
  g_usleep ((gulong)g_rand_int_range (dice, 0, LONGEST_US));
  g_assert_cmpint (kill (child, SIGKILL), ==, 0);
  g_assert_cmpint (waitpid (child, NULL, 0), ==, child);
  acknowledged = count_reports (ends[0]);
  close (ends[0]);
  return acknowledged;
}

static void
test_kill (void)
{
  const char *wanted = g_getenv ("SW_TEST_KILLS"); /* the thorough set-up asks for more */
  int kills = wanted != NULL ? atoi (wanted) : KILLS;
  gboolean inside = FALSE;

  for (int i = 0; i < kills; i++)
    {
      Script script;
      int acknowledged;

      script_set_up (&script);
      acknowledged = kill_once (&script);
      inside = inside || (acknowledged > 0 && acknowledged < SCRIPT_ACTS);
      script_assert_recovered (&script, acknowledged, MIN (acknowledged + 1, SCRIPT_ACTS));
      script_tear_down (&script);
    }
  /* all kills before the first act or after the last would prove nothing */
  g_assert_true (inside);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  dice = g_rand_new_with_seed (25);
  script_make_master ();
  g_test_add_func ("/fault/kill", test_kill);
  status = g_test_run ();
  script_free_master ();
  g_rand_free (dice);
  return status;
}
