/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What counts as input for the idle lock, with real input on the test's own X server. In a program
 * of its own: no earlier window has a grab. */
#include "app/sign/idle-lock.h"
#include "tests/app/busy-plant.h"
#include "tests/app/snapshot.h"

static void
run_main_loop (guint ms)
{
  gint64 until = g_get_monotonic_time () + ms * G_TIME_SPAN_MILLISECOND;

  while (g_get_monotonic_time () < until)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
}

static gint64
idle_ms (BusyPlant *plant)
{
  return sw_idle_get_us (GTK_WIDGET (plant->window), g_get_monotonic_time (), g_get_real_time ())
         / 1000;
}

/* Real input, as the X server hands it on, by a tool that does not know this program. */
static void
do_input (const char *command)
{
  g_auto (GStrv) argv = NULL;
  g_autoptr (GError) error = NULL;
  int status;

  g_assert_true (g_shell_parse_argv (command, NULL, &argv, NULL));
  g_spawn_sync (NULL, argv, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL, NULL, NULL,
                NULL, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  run_main_loop (100);
}

/* Without a window manager keys go where the pointer is. A key and a pointer that moves count; a
 * redraw, a new layout, a pointer that rests do not. */
static void
test_idle_input (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();

  busy_plant_open_window (plant, "en", 1024, 600, FALSE);
  do_input ("xdotool mousemove 300 300");
  run_main_loop (1500);
  g_assert_cmpint (idle_ms (plant), >=, 1500);
  sw_window_show_setup (plant->window, NULL);
  sw_snapshot_settle (GTK_WIDGET (plant->window));
  sw_window_show_todo (plant->window);
  run_main_loop (200);
  g_assert_cmpint (idle_ms (plant), >=, 1700);
  do_input ("xdotool mousemove 320 330");
  g_assert_cmpint (idle_ms (plant), <, 1500);
  run_main_loop (1700);
  g_assert_cmpint (idle_ms (plant), >=, 1700);
  do_input ("xdotool key a");
  g_assert_cmpint (idle_ms (plant), <, 1500);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/idle/input", test_idle_input);
  return g_test_run ();
}
