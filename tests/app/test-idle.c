/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The idle lock: what counts as input, by real input on the test's own X server, and who is signed
 * out when. No list of people is opened in this program: a grab would keep the keys. */
#include "app/setup/setup-page.h"
#include "app/sign/idle-lock.h"
#include "app/widgets/form-row.h"
#include "tests/app/box.h"
#include "tests/app/busy-plant.h"

#include <string.h>

#define US_PER_MIN (60 * G_USEC_PER_SEC)

static BusyPlant *
open_plant (const char *language, gboolean dark)
{
  BusyPlant *plant = busy_plant_new_quiet ();

  busy_plant_open_window (plant, language, 1024, 600, dark);
  sw_context_set_person (plant->context, 0);
  return plant;
}

static void
assert_works (BusyPlant *plant, gint64 person, SwIdentified identified)
{
  const SwActor *actor = sw_context_get_actor (plant->context);

  g_assert_cmpint (sw_context_get_person (plant->context), ==, person);
  g_assert_cmpint (actor->person, ==, person);
  if (person != 0)
    g_assert_cmpint (actor->identified, ==, identified);
}

static SwStore *
store_of (BusyPlant *plant)
{
  return sw_context_get_store (plant->context);
}

static void
begin_act (BusyPlant *plant)
{
  SwActor actor = sw_test_plant_actor (plant->scene->plant, plant->scene->plant->administrator);

  actor.reason = "for a test";
  g_assert_true (sw_act_begin (store_of (plant), SW_ACT_AMEND, &actor, NULL));
}

static void
put_setting (BusyPlant *plant, const char *name, const char *value)
{
  begin_act (plant);
  g_assert_true (sw_setting_put (store_of (plant), name, value, NULL));
  g_assert_true (sw_act_commit (store_of (plant), NULL));
}

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

static gboolean
check_after (BusyPlant *plant, double minutes)
{
  gint64 us = (gint64)(minutes * US_PER_MIN);

  return sw_window_check_idle (plant->window, g_get_monotonic_time () + us,
                               g_get_real_time () + us);
}

static void
test_idle (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  gint64 person = plant->scene->plant->technician;

  g_assert_false (check_after (plant, 60));
  busy_plant_work_as (plant, person);
  g_assert_false (check_after (plant, 9.9));
  assert_works (plant, person, SW_IDENTIFIED_SECRET);
  g_assert_true (check_after (plant, 10.1));
  assert_works (plant, 0, 0);
  g_autofree char *text = sw_visible_text (GTK_WIDGET (plant->window));
  g_assert_nonnull (strstr (text, "T. Invented was signed out, because nobody"));
  sw_snapshot (GTK_WIDGET (plant->window), "idle-lock");
}

/* The monotonic clock stands still while the computer sleeps; the other can be set back. */
static void
test_idle_clocks (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  gint64 monotonic_us = g_get_monotonic_time ();
  gint64 real_us = g_get_real_time ();

  busy_plant_work_as (plant, plant->scene->plant->technician);
  g_assert_true (sw_window_check_idle (plant->window, monotonic_us, real_us + 11 * US_PER_MIN));
  busy_plant_work_as (plant, plant->scene->plant->technician);
  g_assert_true (
      sw_window_check_idle (plant->window, monotonic_us + 11 * US_PER_MIN, real_us - US_PER_MIN));
}

static const struct
{
  const char *name;
  const char *value;
  double minutes;
  gboolean locks;
} idle_rows[] = {
  { "never", "0", 10000, FALSE },
  { "one, before", "1", 0.9, FALSE },
  { "one, after", "1", 1.1, TRUE },
  { "eight hours", "480", 479, FALSE },
  { "no number counts as not set", "soon", 10.1, TRUE },
};

static void
test_idle_setting (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);

  put_setting (plant, SW_SETTING_IDLE_LOCK, idle_rows[i].value);
  busy_plant_work_as (plant, plant->scene->plant->technician);
  g_assert_cmpint (check_after (plant, idle_rows[i].minutes), ==, idle_rows[i].locks);
}

/* Never during a titration; the time begins when the test is left. */
static void
test_idle_test (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  gint64 person = plant->scene->plant->technician;

  busy_plant_work_as (plant, person);
  sw_window_begin_test (plant->window, plant->retest.plan, SW_PURPOSE_ROUTINE, 0);
  g_assert_false (check_after (plant, 600));
  sw_window_leave_test (plant->window);
  g_assert_false (check_after (plant, 9));
  g_assert_true (check_after (plant, 11));
}

/* What was typed waits for the person, and the box that asked is gone. */
static void
test_idle_keeps (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  gint64 person = plant->scene->plant->administrator;

  busy_plant_work_as (plant, person);
  sw_window_show_setup (plant->window, "solvents");
  GtkWidget *page = sw_find_widget (GTK_WIDGET (plant->window), SW_TYPE_SETUP_PAGE, NULL);
  sw_setup_page_open (SW_SETUP_PAGE (page), "solvents", 0, NULL);
  GtkWidget *row = sw_find_widget (page, SW_TYPE_FORM_ROW, "name");
  sw_form_row_set_text (SW_FORM_ROW (row), "Half a name");
  sw_window_ask_first_secret (plant->window);
  g_assert_nonnull (sw_box_over (GTK_WIDGET (plant->window)));
  g_assert_true (check_after (plant, 11));
  assert_works (plant, 0, 0);
  g_assert_null (sw_box_over (GTK_WIDGET (plant->window)));
  g_assert_cmpstr (sw_form_row_get_text (SW_FORM_ROW (row)), ==, "Half a name");
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/idle/input", test_idle_input);
  g_test_add_func ("/idle/signs out", test_idle);
  g_test_add_func ("/idle/clocks", test_idle_clocks);
  g_test_add_func ("/idle/titration", test_idle_test);
  g_test_add_func ("/idle/keeps what was typed", test_idle_keeps);
  for (guint i = 0; i < G_N_ELEMENTS (idle_rows); i++)
    {
      g_autofree char *path = g_strconcat ("/idle/setting/", idle_rows[i].name, NULL);
      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_idle_setting);
    }
  return g_test_run ();
}
