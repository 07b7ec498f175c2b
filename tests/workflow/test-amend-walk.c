/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A random walk of tests and corrections on one machine: whatever is amended or voided, in whatever
 * order, verify and the recomputation find nothing, nothing is put off, no incident closed.
 *
 * A re-test's own time may move with that of its dose (amend.h): where the day of one is compared,
 * corrections of a dose's time are left out. */
#include "correct.h"

#include "workflow/incident.h"

#include <string.h>

#define DEEDS 260
#define SEED 20261125

typedef struct
{
  Scene *scene;
  GRand *random;
  guint done;
  guint refused;
  guint kinds[SW_N_TABLES]; /* corrections that succeeded */
} Walk;

static int
draw_below (Walk *walk, int end)
{
  return g_rand_int_range (walk->random, 0, end);
}

/* Any row of a table, voided ones left out; 0 = there is none. */
static gint64
draw_row (Walk *walk, SwTable table)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_record_ids (walk->scene->plant->store, table, NULL, 0, &error);

  g_assert_no_error (error);
  return ids->len == 0 ? 0 : g_array_index (ids, gint64, draw_below (walk, (int)ids->len));
}

/* ---- the plant goes on ---- */

static gint64
find_unanswered (Walk *walk)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids
      = sw_dose_unanswered_ids (walk->scene->plant->store, walk->scene->machine.machine, &error);

  g_assert_no_error (error);
  return ids->len > 0 ? g_array_index (ids, gint64, 0) : 0;
}

/* A dose that cannot be shown (another one waits, the limit of the fill is reached) is none. */
static void
finish_dose (Walk *walk)
{
  Scene *scene = walk->scene;
  const SwSigner signer = sw_test_plant_signer (scene->plant->reviewer);
  g_autoptr (GError) error = NULL;

  if (scene_step (scene) == SW_STEP_DOSE
      && !sw_guided_test_decide_dose (scene->test, 0.0, NULL, &signer, &error))
    {
      g_assert_nonnull (sw_workflow_error_get_fact (error));
      g_clear_error (&error);
      sw_guided_test_no_dose (scene->test, &error);
    }
  else if (scene_step (scene) == SW_STEP_ADDED && draw_below (walk, 3) > 0)
    scene_record (scene, sw_guided_test_get_dose (scene->test)->measured_ml);
  else if (scene_step (scene) == SW_STEP_ADDED)
    sw_guided_test_not_added (scene->test, "the pump stood still", &error);
  g_assert_no_error (error);
}

static void
do_test (Walk *walk)
{
  Scene *scene = walk->scene;
  gint64 dose = find_unanswered (walk);
  SwPurpose purpose = dose != 0 ? SW_PURPOSE_RETEST : SW_PURPOSE_ROUTINE;
  int drops = MAX (0, draw_below (walk, 6) - 2);

  sw_test_plant_advance (scene->plant, 60.0 + 60.0 * draw_below (walk, 30));
  if (drops > 0)
    correct_acid_test (scene, purpose, dose, drops);
  else
    scene_test (scene, purpose, dose, 0);
  finish_dose (walk);
}

static void
close_one (Walk *walk)
{
  const SwActor actor = sw_test_plant_actor (walk->scene->plant, walk->scene->plant->reviewer);
  const SwSigner signer = sw_test_plant_signer (walk->scene->plant->reviewer);
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_record_ids (walk->scene->plant->store, SW_TABLE_INCIDENT, "state",
                                          SW_INCIDENT_RETEST_PASSED, &error);

  g_assert_no_error (error);
  if (ids->len > 0)
    sw_incident_close (walk->scene->plant->store, &actor, g_array_index (ids, gint64, 0), "oil",
                       &signer, &error);
  g_assert_no_error (error);
}

/* ---- corrections ---- */

static gboolean
amend_reading (Walk *walk, const SwActor *actor, gint64 id, GError **error)
{
  g_autoptr (SwReadingRow) row = sw_reading_row_load (walk->scene->plant->store, id, error);

  if (draw_below (walk, 3) == 0)
    row->struck = !row->struck;
  else
    row->colour_field = correct_field (walk->scene, (SwField)draw_below (walk, SW_N_FIELDS));
  return sw_amend_reading (walk->scene->plant->store, actor, row, error);
}

static gboolean
amend_sample (Walk *walk, const SwActor *actor, gint64 id, GError **error)
{
  g_autoptr (SwSample) row = correct_sample (walk->scene, id);

  row->record.happened_ms -= SW_TEST_MINUTE_MS * draw_below (walk, 300);
  return sw_amend_sample (walk->scene->plant->store, actor, row, error);
}

static gboolean
amend_titration (Walk *walk, const SwActor *actor, gint64 id, GError **error)
{
  g_autoptr (SwTitration) row = correct_titration (walk->scene, id);

  row->portion_volume.value = 20.0 + draw_below (walk, 100);
  return sw_amend_titration (walk->scene->plant->store, actor, row, error);
}

static gboolean
amend_dose (Walk *walk, const SwActor *actor, gint64 id, GError **error)
{
  g_autoptr (SwDoseRow) row = correct_dose (walk->scene, id);

  row->added.value *= 0.5 + 0.1 * draw_below (walk, 10);
  return sw_amend_dose (walk->scene->plant->store, actor, row, error);
}

static gboolean
amend (Walk *walk, const SwActor *actor, SwTable table, gint64 id, GError **error)
{
  if (table == SW_TABLE_READING)
    return amend_reading (walk, actor, id, error);
  if (table == SW_TABLE_SAMPLE)
    return amend_sample (walk, actor, id, error);
  if (table == SW_TABLE_TITRATION)
    return amend_titration (walk, actor, id, error);
  return amend_dose (walk, actor, id, error);
}

static void
correct (Walk *walk)
{
  /* Readings, where the results come from, more often than the rest. */
  static const SwTable tables[] = { SW_TABLE_READING, SW_TABLE_READING,   SW_TABLE_READING,
                                    SW_TABLE_SAMPLE,  SW_TABLE_TITRATION, SW_TABLE_DOSE };
  const SwActor actor = correct_actor (walk->scene, walk->scene->plant->reviewer, "at random");
  const SwTable table = tables[draw_below (walk, G_N_ELEMENTS (tables))];
  const gint64 id = draw_row (walk, table);
  const Standing before = correct_look (walk->scene);
  g_autoptr (GError) error = NULL;
  gboolean done;

  if (id == 0)
    return;
  if (table != SW_TABLE_READING && draw_below (walk, 3) == 0)
    done = sw_void_record (walk->scene->plant->store, &actor, table, id, &error);
  else
    done = amend (walk, &actor, table, id, &error);
  if (!done && sw_workflow_error_get_fact (error) == NULL && sw_fault_get (error) == NULL)
    g_error ("table %d: %s", (int)table, error->message);
  walk->refused += !done;
  walk->kinds[table] += (guint)done;
  correct_assert_safe (walk->scene, &before);
}

static void
test_walk (void)
{
  Walk walk = { .scene = scene_new (), .random = g_rand_new_with_seed (SEED) };

  for (guint i = 0; i < DEEDS; i++)
    {
      int deed = draw_below (&walk, 10);

      if (deed < 3)
        do_test (&walk);
      else if (deed == 3)
        close_one (&walk);
      else
        correct (&walk);
      sw_test_plant_advance (walk.scene->plant, 5.0);
    }
  g_test_message ("%u refused", walk.refused);
  /* A walk that never corrected a kind of record would prove nothing about it. */
  for (int table = SW_TABLE_SAMPLE; table <= SW_TABLE_DOSE; table++)
    {
      g_test_message ("%s: %u", sw_table_name ((SwTable)table), walk.kinds[table]);
      g_assert_cmpuint (walk.kinds[table], >, 5);
    }
  g_rand_free (walk.random);
  scene_free (walk.scene);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/amend/walk", test_walk);
  return g_test_run ();
}
