/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The invented plant on a busy morning, made by guided tests only. */
#include "tests/app/busy-plant.h"

#include "app/theme.h"
#include "tests/app/snapshot.h"

#define DAYS_OF_HISTORY 28
#define PATIENCE_US (60 * G_USEC_PER_SEC)

/* Drops of M-07 on a day: it turns acid now and then. */
static int
get_drops (int day)
{
  return day % 9 == 8 ? 1 + day % 3 : 0;
}

static void
test_machine (Scene *scene, SwTestMachine machine, int drops)
{
  scene->machine = machine;
  if (drops == 0)
    {
      scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
      scene_leave (scene);
      return;
    }
  gint64 dose = scene_dosed_test (scene, drops);
  scene_leave (scene);
  sw_test_plant_advance (scene->plant, SW_TEST_PLANT_CIRCULATION_MIN + 5);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  scene_leave (scene);
}

/* Goes to six in the morning, @day days after the start. */
static void
go_to_day (Scene *scene, int day)
{
  scene->plant->now_ms = SW_TEST_PLANT_START_MS + day * SW_TEST_DAY_MS;
}

static void
make_history (BusyPlant *plant)
{
  Scene *scene = plant->scene;

  for (int day = 0; day < DAYS_OF_HISTORY; day++)
    {
      go_to_day (scene, day);
      test_machine (scene, plant->retest, get_drops (day));
      if (day % 2 == 0)
        test_machine (scene, plant->due, 0);
    }
}

static void
make_this_morning (BusyPlant *plant)
{
  Scene *scene = plant->scene;

  go_to_day (scene, DAYS_OF_HISTORY);
  test_machine (scene, plant->later, 0);
  scene->machine = plant->retest;
  plant->dose = scene_dosed_test (scene, 3);
  scene_leave (scene);
  scene->machine = plant->open;
  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  for (int drop = 0; drop < 2; drop++)
    {
      scene_read (scene, SW_FIELD_ACID);
      scene_add (scene, 1);
    }
  plant->open_titration = scene_titration (scene);
  scene_leave (scene);
  sw_test_plant_advance (scene->plant, SW_TEST_PLANT_CIRCULATION_MIN + 5);
}

static void
name_machine (BusyPlant *plant, gint64 id, const char *name)
{
  SwStore *store = plant->scene->plant->store;
  g_autoptr (SwMachine) machine = sw_machine_load (store, id, NULL);

  g_free (machine->name);
  machine->name = g_strdup (name);
  sw_test_plant_begin (plant->scene->plant, SW_ACT_AMEND);
  g_assert_true (sw_machine_update (store, machine, NULL));
  sw_test_plant_commit (plant->scene->plant);
}

BusyPlant *
busy_plant_new_quiet (void)
{
  BusyPlant *plant = g_new0 (BusyPlant, 1);

  plant->scene = scene_new ();
  plant->retest = plant->scene->plant->first;
  name_machine (plant, plant->retest.machine, "Long bed");
  return plant;
}

BusyPlant *
busy_plant_new (void)
{
  BusyPlant *plant = busy_plant_new_quiet ();

  plant->open = sw_test_plant_add_machine (plant->scene->plant, "M-11");
  plant->due = sw_test_plant_add_machine (plant->scene->plant, "M-03");
  plant->later = sw_test_plant_add_machine (plant->scene->plant, "M-14");
  name_machine (plant, plant->open.machine, "Rotary");
  name_machine (plant, plant->due.machine, "Twin tank");
  name_machine (plant, plant->later.machine, "Small parts");
  make_history (plant);
  make_this_morning (plant);
  return plant;
}

void
busy_plant_work_as (BusyPlant *plant, gint64 person)
{
  const SwSigner signer = sw_test_plant_signer (person);

  sw_context_set_signer (plant->context, &signer);
}

SwWindow *
busy_plant_open_window (
    BusyPlant *plant, const char *language, int width, int height, gboolean dark)
{
  g_autoptr (SwWording) wording = sw_wording_new (language, "Europe/Berlin");

  if (plant->scene->plant->store == NULL)
    sw_test_plant_reopen (plant->scene->plant, SW_OPEN_WRITE);
  sw_theme_install (gdk_display_get_default ());
  sw_theme_force (dark ? SW_SCHEME_DARK : SW_SCHEME_LIGHT, FALSE);
  plant->context = sw_context_new (g_steal_pointer (&plant->scene->plant->store), wording);
  busy_plant_work_as (plant, plant->scene->plant->technician);
  sw_context_set_trust_folder (plant->context, plant->trust);
  plant->window = sw_window_new (NULL, plant->context);
  gtk_window_set_default_size (GTK_WINDOW (plant->window), width, height);
  gtk_window_present (GTK_WINDOW (plant->window));
  sw_snapshot_settle (GTK_WIDGET (plant->window));
  return plant->window;
}

/* A worker may still write an export or a backup: it holds the context, which closes the file by
 * the plant's clock. */
static void
let_go_of_context (BusyPlant *plant)
{
  gint64 end = g_get_monotonic_time () + PATIENCE_US;
  gpointer alive = plant->context;

  if (alive == NULL)
    return;
  g_object_add_weak_pointer (alive, &alive);
  g_clear_object (&plant->context);
  while (alive != NULL && g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
  g_assert_null (alive);
}

void
busy_plant_close_window (BusyPlant *plant)
{
  if (plant->window != NULL)
    gtk_window_destroy (GTK_WINDOW (plant->window));
  plant->window = NULL;
  /* The window lets go of pages and context in idle time. */
  while (g_main_context_iteration (NULL, FALSE))
    ;
  let_go_of_context (plant);
}

void
busy_plant_free (BusyPlant *plant)
{
  if (plant == NULL)
    return;
  busy_plant_close_window (plant);
  scene_free (plant->scene);
  g_free (plant);
}
