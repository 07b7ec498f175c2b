/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The days of the demo plant, one event after the other.
 *
 * Each machine has one next event; the earliest of all is done, with the clock set to it. The last
 * hours are staged (stage_ending), so that To Do shows something of each kind at the end.
 */
#include "cli/demo-private.h"

#include "data/demo/demo-data.h"
#include "records/bulk.h"
#include "workflow/due.h"
#include "workflow/setup.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <unistd.h>

#define HOUR_MS (60 * SW_DEMO_MINUTE_MS)
#define LONGEST_DAYS 7

/* ---- clock and people ---- */

static gint64
now_cb (gpointer data)
{
  return ((SwDemo *)data)->now_ms;
}

static int
offset_cb (gpointer data, gint64 utc_ms)
{
  const SwDemo *demo = data;
  const int interval = g_time_zone_find_interval (demo->zone, G_TIME_TYPE_UNIVERSAL, utc_ms / 1000);

  return interval < 0 ? 0 : (int)(g_time_zone_get_offset (demo->zone, interval) / 60);
}

void
sw_demo_wait (SwDemo *demo, double minutes)
{
  demo->now_ms += (gint64)(minutes * g_rand_double_range (demo->random, 0.9, 1.4)
                           * (double)SW_DEMO_MINUTE_MS);
}

SwActor
sw_demo_actor (const SwDemo *demo, gint64 person)
{
  return (SwActor){ .person = person,
                    .identified = person != 0 ? SW_IDENTIFIED_DEMO : SW_IDENTIFIED_SYSTEM,
                    .workstation = demo->workstation };
}

SwSigner
sw_demo_signer (gint64 person)
{
  return (SwSigner){ .person = person, .identified = SW_IDENTIFIED_DEMO };
}

/* ---- events ---- */

/* Until when a machine lives by its plan; then its ending is staged. */
static gint64
get_last_ms (const SwDemo *demo, const SwDemoMachine *machine)
{
  return demo->end_ms - (machine->answers_dose != 0 ? 4 : 12) * HOUR_MS;
}

static SwDemoMachine *
find_next (SwDemo *demo)
{
  SwDemoMachine *next = NULL;

  for (guint i = 0; i < demo->machines->len; i++)
    {
      SwDemoMachine *machine = &g_array_index (demo->machines, SwDemoMachine, i);

      if (machine->next_ms <= get_last_ms (demo, machine)
          && (next == NULL || machine->next_ms < next->next_ms))
        next = machine;
    }
  return next;
}

static gboolean
change_solvent (SwDemo *demo, SwDemoMachine *machine, GError **error)
{
  const SwActor actor = sw_demo_actor (demo, demo->administrator);

  sw_demo_wait (demo, 10.0);
  if (!sw_setup_new_fill (demo->store, &actor, machine->id, demo->now_ms, error))
    return FALSE;
  sw_demo_machine_renew (machine, demo->now_ms);
  machine->next_ms = demo->now_ms + 3 * HOUR_MS;
  return TRUE;
}

/* Noon of the last day: what is due then is due on that day, whenever in it the story ends. */
static gint64
get_last_noon (const SwDemo *demo)
{
  const gint64 offset_ms = offset_cb ((gpointer)demo, demo->end_ms) * SW_DEMO_MINUTE_MS;
  const gint64 local_ms = demo->end_ms + offset_ms;

  return local_ms - local_ms % SW_DEMO_DAY_MS + 12 * HOUR_MS - offset_ms;
}

/* A machine that is to be due on the last day is tested its longest interval before it, once it has
 * reached that interval. */
static void
steer_to_due_today (const SwDemo *demo, SwDemoMachine *machine)
{
  const gint64 longest_ms = LONGEST_DAYS * SW_DEMO_DAY_MS;
  const gint64 target_ms = get_last_noon (demo) - longest_ms;

  if (machine->answers_dose != 0 || machine->next_ms <= target_ms)
    return;
  machine->next_ms = demo->now_ms < target_ms ? target_ms : G_MAXINT64;
}

/* Times of a machine that is tested by its list of visits, not by its plan. */
static void
follow_visits (SwDemo *demo, SwDemoMachine *machine)
{
  if (machine->answers_dose != 0)
    return;
  machine->next_ms = G_MAXINT64;
  for (guint i = machine->visits->len; i > 0; i--)
    if (g_array_index (machine->visits, gint64, i - 1) > demo->now_ms)
      machine->next_ms = g_array_index (machine->visits, gint64, i - 1);
}

static gboolean
do_event (SwDemo *demo, SwDemoMachine *machine, GError **error)
{
  demo->random = machine->random;
  demo->now_ms = MAX (demo->now_ms, machine->next_ms);
  if (!sw_demo_keep_house (demo, error) || !sw_demo_review (demo, error))
    return FALSE;
  if (machine->id == 0 && !sw_demo_set_up_machine (demo, machine, error))
    return FALSE;
  if (machine->change_ms != 0 && demo->now_ms >= machine->change_ms && machine->answers_dose == 0)
    return change_solvent (demo, machine, error);
  if (!sw_demo_test (demo, machine, error))
    return FALSE;
  if (machine->visits != NULL)
    follow_visits (demo, machine);
  else if (machine->ending == SW_DEMO_ENDING_DUE_TODAY)
    steer_to_due_today (demo, machine);
  return TRUE;
}

/* ---- the last hours ---- */

static SwDemoMachine *
find_ending (SwDemo *demo, SwDemoEnding ending)
{
  for (guint i = 0; i < demo->machines->len; i++)
    {
      SwDemoMachine *machine = &g_array_index (demo->machines, SwDemoMachine, i);

      if (machine->ending == ending)
        return machine;
    }
  return NULL;
}

static gboolean
stage_endings (SwDemo *demo, GError **error)
{
  SwDemoMachine *sour = find_ending (demo, SW_DEMO_ENDING_RETEST);
  SwDemoMachine *open = find_ending (demo, SW_DEMO_ENDING_OPEN);

  demo->now_ms = MAX (demo->now_ms, demo->end_ms - 210 * SW_DEMO_MINUTE_MS);
  demo->random = sour->random;
  sw_demo_machine_age (demo, sour, demo->now_ms);
  /* clearly acid today, whatever the last days were */
  sour->acid = MAX (sour->acid, 2.4);
  if (!sw_demo_test (demo, sour, error))
    return FALSE;
  demo->now_ms = MAX (demo->now_ms, demo->end_ms - 32 * SW_DEMO_MINUTE_MS);
  demo->random = open->random;
  return sw_demo_open_test (demo, open, error);
}

static gboolean
live (SwDemo *demo, GError **error)
{
  SwDemoMachine *machine;

  if (!sw_demo_set_up_plant (demo, error))
    return FALSE;
  while ((machine = find_next (demo)) != NULL)
    if (!do_event (demo, machine, error))
      return FALSE;
  return stage_endings (demo, error);
}

/* ---- file ---- */

static gboolean
load_texts (SwDemo *demo, GError **error)
{
  g_autoptr (GBytes) bytes
      = g_resource_lookup_data (demo_data_get_resource (), "/org/stillwarden/demo/plant.ini",
                                G_RESOURCE_LOOKUP_FLAGS_NONE, error);
  g_autofree char *zone = NULL;

  demo->texts = g_key_file_new ();
  if (bytes == NULL
      || !g_key_file_load_from_bytes (demo->texts, bytes, G_KEY_FILE_KEEP_TRANSLATIONS, error))
    return FALSE;
  demo->workstation = sw_demo_text (demo, "site", "workstation");
  zone = sw_demo_text (demo, "site", "zone");
  demo->zone = g_time_zone_new_identifier (zone);
  if (demo->zone == NULL)
    demo->zone = g_time_zone_new_utc ();
  demo->tags = g_key_file_get_string_list (demo->texts, "machines", "tags", NULL, error);
  return demo->tags != NULL;
}

static void
load_machines (SwDemo *demo)
{
  const guint n = g_strv_length (demo->tags);

  demo->machines = g_array_sized_new (FALSE, TRUE, sizeof (SwDemoMachine), n);
  g_array_set_clear_func (demo->machines, (GDestroyNotify)sw_demo_machine_clear);
  g_array_set_size (demo->machines, n);
  demo->now_ms = demo->end_ms;
  for (guint i = 0; i < n; i++)
    {
      SwDemoMachine *machine = &g_array_index (demo->machines, SwDemoMachine, i);

      sw_demo_machine_load (demo, machine, demo->tags[i]);
      demo->now_ms = MIN (demo->now_ms, machine->start_ms - 2 * HOUR_MS);
    }
}

static void
clear_demo (SwDemo *demo)
{
  g_clear_pointer (&demo->store, sw_store_close);
  g_clear_pointer (&demo->texts, g_key_file_unref);
  g_clear_pointer (&demo->machines, g_array_unref);
  g_clear_pointer (&demo->zone, g_time_zone_unref);
  g_strfreev (demo->tags);
  g_free (demo->workstation);
}

/* Without replacing what came into being meanwhile. */
static gboolean
give_name (const char *fresh, const char *path, GError **error)
{
  if (link (fresh, path) == 0 || (errno != EEXIST && g_rename (fresh, path) == 0))
    {
      g_unlink (fresh);
      return TRUE;
    }
  g_set_error (error, SW_RECORDS_ERROR,
               errno == EEXIST ? SW_RECORDS_ERROR_EXISTS : SW_RECORDS_ERROR_IO, "%s: %s", path,
               g_strerror (errno));
  return FALSE;
}

static gboolean
make_file (SwDemo *demo, const char *fresh, GError **error)
{
  const SwClock clock = { .now_ms = now_cb, .offset_min = offset_cb, .data = demo };

  if (!load_texts (demo, error))
    return FALSE;
  load_machines (demo);
  demo->store = sw_store_create_bulk (fresh, &clock, error);
  return demo->store != NULL && live (demo, error) && sw_store_finish_bulk (demo->store, error);
}

gboolean
sw_demo_create (const char *path, gint64 at_ms, SwDemoCounts *counts, GError **error)
{
  g_autofree char *fresh = g_strconcat (path, ".making", NULL);
  SwDemo demo = { .end_ms = at_ms };
  gboolean made;

  if (g_file_test (path, G_FILE_TEST_EXISTS))
    {
      g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_EXISTS, "%s", path);
      return FALSE;
    }
  g_unlink (fresh);
  made = make_file (&demo, fresh, error);
  if (counts != NULL)
    *counts = demo.counts;
  clear_demo (&demo);
  if (made && give_name (fresh, path, error))
    return TRUE;
  g_unlink (fresh);
  return FALSE;
}
