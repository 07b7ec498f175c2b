/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corrections on the scene's machine. */
#include "correct.h"

SwActor
correct_actor (const Scene *scene, gint64 person, const char *reason)
{
  SwActor actor = sw_test_plant_actor (scene->plant, person);

  actor.reason = reason;
  return actor;
}

/* ---- rows ---- */

#define DEFINE_GET(name, Type, prefix)                                                             \
  Type *name (Scene *scene, gint64 id)                                                             \
  {                                                                                                \
    GError *error = NULL;                                                                          \
    Type *row = prefix##_load (scene->plant->store, id, &error);                                   \
                                                                                                   \
    g_assert_no_error (error);                                                                     \
    return row;                                                                                    \
  }
DEFINE_GET (correct_titration, SwTitration, sw_titration)
DEFINE_GET (correct_sample, SwSample, sw_sample)
DEFINE_GET (correct_dose, SwDoseRow, sw_dose_row)
#undef DEFINE_GET

SwReadingRow *
correct_reading (Scene *scene, gint64 titration, int ordinal)
{
  GError *error = NULL;
  g_autoptr (GArray) ids
      = sw_record_ids (scene->plant->store, SW_TABLE_READING, "titration", titration, &error);
  SwReadingRow *row;

  g_assert_no_error (error);
  row = sw_reading_row_load (
      scene->plant->store,
      g_array_index (ids, gint64, ordinal < 0 ? (int)ids->len + ordinal : ordinal - 1), &error);
  g_assert_no_error (error);
  return row;
}

gint64
correct_field (Scene *scene, SwField meaning)
{
  GError *error = NULL;
  g_autoptr (GArray) ids = sw_record_ids (scene->plant->store, SW_TABLE_COLOUR_FIELD,
                                          "method_version", scene->plant->version, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwColourField) field
          = sw_colour_field_load (scene->plant->store, g_array_index (ids, gint64, i), &error);

      g_assert_no_error (error);
      if (field->meaning == meaning)
        return field->record.id;
    }
  return 0;
}

/* ---- standing ---- */

/* Whole local days of the plant's clock: an hour ahead of UTC. */
static gint64
get_day (const Scene *scene, gint64 ms)
{
  gint64 offset_ms = scene->plant->offset_min * SW_TEST_MINUTE_MS;

  return (MAX (ms, scene_now (scene)) + offset_ms) / SW_TEST_DAY_MS;
}

static GArray *
list_incidents (Scene *scene)
{
  GError *error = NULL;
  GArray *ids = sw_record_ids (scene->plant->store, SW_TABLE_INCIDENT, "machine",
                               scene->machine.machine, &error);

  g_assert_no_error (error);
  return ids;
}

static SwIncidentState
get_incident_state (Scene *scene, gint64 id)
{
  GError *error = NULL;
  g_autoptr (SwIncident) incident = sw_incident_load (scene->plant->store, id, &error);

  g_assert_no_error (error);
  return incident->state;
}

SwIncidentState
correct_incident_state (Scene *scene)
{
  g_autoptr (GArray) ids = list_incidents (scene);

  return ids->len == 0 ? SW_N_INCIDENT_STATES
                       : get_incident_state (scene, g_array_index (ids, gint64, ids->len - 1));
}

static guint
count_open (Scene *scene, SwIncidentState up_to)
{
  g_autoptr (GArray) ids = list_incidents (scene);
  guint open = 0;

  for (guint i = 0; i < ids->len; i++)
    open += get_incident_state (scene, g_array_index (ids, gint64, i)) <= up_to;
  return open;
}

Standing
correct_look (Scene *scene)
{
  Standing standing;
  GError *error = NULL;

  sw_machine_state (scene->plant->store, scene->machine.machine, scene_now (scene), &standing.state,
                    &error);
  g_assert_no_error (error);
  standing.due_day_ms
      = standing.state.due_ms == 0 ? G_MAXINT64 : get_day (scene, standing.state.due_ms);
  standing.open = count_open (scene, SW_INCIDENT_RETEST_PASSED);
  sw_dose_total (scene->plant->store, scene->machine.fill, scene->plant->neutraliser,
                 &standing.dosed_ml, &error);
  g_assert_no_error (error);
  return standing;
}

void
correct_assert_safe (Scene *scene, const Standing *before)
{
  Standing after = correct_look (scene);

  scene_assert_sound (scene);
  g_assert_cmpint (after.due_day_ms, <=, before->due_day_ms);
  g_assert_cmpuint (after.open, >=, before->open);
  if (after.state.last == SW_OUTCOME_ACID_FOUND || after.state.last == SW_OUTCOME_OVER_RANGE)
    g_assert_cmpuint (count_open (scene, SW_INCIDENT_OPEN), >=, 1);
}

/* ---- amendments ---- */

void
correct_acid_test (Scene *scene, SwPurpose purpose, gint64 answers_dose, int drops)
{
  scene_start (scene, purpose, answers_dose);
  scene_read (scene, SW_FIELD_ACID);
  scene_titrate (scene, drops);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
}

void
correct_set_reading (Scene *scene, gint64 titration, int ordinal, SwField field)
{
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "the strip was misread");
  g_autoptr (SwReadingRow) row = correct_reading (scene, titration, ordinal);
  GError *error = NULL;

  row->colour_field = correct_field (scene, field);
  sw_amend_reading (scene->plant->store, &actor, row, &error);
  g_assert_no_error (error);
}

void
correct_strike (Scene *scene, gint64 titration, int ordinal)
{
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "the strip was wet");
  g_autoptr (SwReadingRow) row = correct_reading (scene, titration, ordinal);
  GError *error = NULL;

  row->struck = TRUE;
  sw_amend_reading (scene->plant->store, &actor, row, &error);
  g_assert_no_error (error);
}

void
correct_void (Scene *scene, SwTable table, gint64 id)
{
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "the wrong machine");
  GError *error = NULL;

  sw_void_record (scene->plant->store, &actor, table, id, &error);
  g_assert_no_error (error);
}
