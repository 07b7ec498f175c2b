/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the start of the process to the first frame: the program on the demo plant against an empty
 * window of the same toolkit. Needs a display.
 *
 *   bench-start           measures, running itself as a child in turns
 *   bench-start empty     the child: an empty window, gone after its first frame
 *   bench-start FILE      the child: the program on FILE, the same
 */
#include "bench.h"
#include "app/application.h"
#include "cli/demo.h"
#include "support/support.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define RUNS 15

/* The first frame of any window ends the process: what cleaning up costs is not measured. */
static void
after_paint_cb (GdkFrameClock *clock, gpointer data)
{
  _exit (0);
}

static gboolean
map_cb (GSignalInvocationHint *hint, guint n_values, const GValue *values, gpointer data)
{
  GObject *widget = g_value_get_object (&values[0]);

  if (GTK_IS_WINDOW (widget))
    g_signal_connect (gtk_widget_get_frame_clock (GTK_WIDGET (widget)), "after-paint",
                      G_CALLBACK (after_paint_cb), NULL);
  return G_SOURCE_CONTINUE;
}

static void
hook_first_frame (void)
{
  /* signals are known once the class is */
  g_type_class_unref (g_type_class_ref (GTK_TYPE_WINDOW));
  g_signal_add_emission_hook (g_signal_lookup ("map", GTK_TYPE_WIDGET), 0, map_cb, NULL, NULL);
}

static void
activate_cb (GtkApplication *application, gpointer data)
{
  hook_first_frame ();
  gtk_window_present (GTK_WINDOW (gtk_application_window_new (application)));
}

static int
run_empty (char *program)
{
  g_autoptr (GtkApplication) application = gtk_application_new (NULL, G_APPLICATION_NON_UNIQUE);
  char *argv[] = { program, NULL };

  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  return g_application_run (G_APPLICATION (application), 1, argv);
}

static void
startup_cb (GApplication *application, gpointer data)
{
  hook_first_frame ();
}

static int
run_program (int argc, char **argv)
{
  g_autoptr (SwApplication) application = NULL;

  sw_wording_init (NULL);
  application = sw_application_new ();
  g_signal_connect_after (application, "startup", G_CALLBACK (startup_cb), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}

static void
measure (char *program, const char *argument, Bench *bench)
{
  const char *const argv[] = { program, argument, NULL };
  GError *error = NULL;
  int status = 0;

  bench_start (bench);
  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, NULL, NULL, &status,
                &error);
  bench_stop (bench);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
}

int
main (int argc, char **argv)
{
  g_autoptr (SwTestFolder) folder = NULL;
  g_autofree char *path = NULL;
  Bench program, empty;

  if (argc == 2)
    return strcmp (argv[1], "empty") == 0 ? run_empty (argv[0]) : run_program (argc, argv);
  g_setenv ("SW_NON_UNIQUE", "1", TRUE);
  folder = sw_test_folder_new ();
  path = g_build_filename (folder, "demo.swlog", NULL);
  g_assert_true (sw_demo_create (path, g_get_real_time () / 1000, NULL, NULL));
  bench_init (&program);
  bench_init (&empty);
  for (int i = 0; i < RUNS; i++)
    {
      measure (argv[0], path, &program);
      measure (argv[0], "empty", &empty);
    }
  bench_print ("program on the demo plant / empty window", &program, &empty);
  bench_clear (&program);
  bench_clear (&empty);
  return 0;
}
