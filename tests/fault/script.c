/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The acts of one test: sample, titration, three readings (one struck), result with incident and
 * decision, signature, dose, dose decided, dose added, a note on the sample. */
#include "script.h"

#include "records/verify.h"

#include <string.h>

#define ACT_MS 60000

static SwTestPlant *plant;
static char *master;
static gsize master_length;
static char *heads[SCRIPT_ACTS + 2]; /* NULL-terminated */

/* ---- the acts; every one inside sw_act_begin and commit ---- */

static gboolean
draw (SwStore *store, GError **error)
{
  g_autoptr (SwSample) sample = sw_sample_new ();

  sample->code = g_strdup ("M-07-261124-1");
  sample->machine = plant->first.machine;
  sample->point = plant->first.point;
  sample->plan = plant->first.plan;
  sample->fill = plant->first.fill;
  sample->drawn_by = plant->technician;
  sample->volume.value = 150.0;
  sample->volume.typed = g_strdup ("150 mL");
  sample->retained = TRUE;
  return sw_sample_insert (store, sample, error);
}

static gboolean
prepare (SwStore *store, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_new ();

  titration->sample = 1;
  titration->method_version = plant->version;
  titration->calibration = plant->calibration;
  titration->analyst = plant->technician;
  titration->portion = 1;
  titration->step = SW_STEP_READ;
  titration->portion_volume.value = 50.0;
  titration->maximum = 20.0;
  return sw_titration_insert (store, titration, error);
}

/* Two rows in one act: the reading, and the titration that has no titrant pending any more. */
static gboolean
read_strip (SwStore *store, double total, SwField field, GError **error)
{
  g_autoptr (SwReadingRow) reading = sw_reading_row_new ();
  g_autoptr (SwTitration) titration = sw_titration_load (store, 1, error);

  if (titration == NULL)
    return FALSE;
  reading->titration = 1;
  reading->ordinal = (int)total + 1;
  reading->total = total;
  reading->meaning = field;
  reading->reader = plant->technician;
  titration->pending_total = total + 1.0;
  return sw_reading_row_insert (store, reading, error)
         && sw_titration_update (store, titration, error);
}

static gboolean
strike (SwStore *store, GError **error)
{
  g_autoptr (SwReadingRow) reading = sw_reading_row_load (store, 2, error);

  if (reading == NULL)
    return FALSE;
  reading->struck = TRUE;
  reading->struck_reason = g_strdup ("read too late\nby a minute");
  return sw_reading_row_update (store, reading, error);
}

static gboolean
close_test (SwStore *store, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_load (store, 1, error);
  g_autoptr (SwIncident) incident = sw_incident_new ();
  g_autoptr (SwDecision) decision = sw_decision_new ();

  if (titration == NULL)
    return FALSE;
  titration->step = SW_STEP_CHECK;
  titration->outcome = SW_OUTCOME_ACID_FOUND;
  titration->net_low = 0.0;
  titration->net_high = 2.0;
  titration->closed_ms = sw_act_now (store);
  incident->machine = plant->first.machine;
  incident->opened_by_titration = 1;
  decision->plan = plant->first.plan;
  decision->titration = 1;
  decision->interval_days = 0.5;
  decision->reason = SW_SCHEDULE_HALVED;
  return sw_titration_update (store, titration, error)
         && sw_incident_insert (store, incident, error)
         && sw_decision_insert (store, decision, error);
}

static gboolean
sign (SwStore *store, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_load (store, 1, error);
  g_autoptr (SwReview) review = sw_review_new ();

  if (titration == NULL)
    return FALSE;
  titration->step = SW_STEP_DOSE;
  titration->signed_ms = sw_act_now (store);
  if (!sw_titration_update (store, titration, error))
    return FALSE;
  review->subject_table = g_strdup ("titration");
  review->subject = 1;
  review->person = plant->technician;
  review->subject_seq = titration->record.journal_seq;
  return sw_review_insert (store, review, error);
}

static gboolean
work_out_dose (SwStore *store, GError **error)
{
  g_autoptr (SwDoseRow) dose = sw_dose_row_new ();

  dose->titration = 1;
  dose->incident = 1;
  dose->product = plant->neutraliser;
  dose->computed_ml = 833.3;
  dose->measured_ml = 840.0;
  return sw_dose_row_insert (store, dose, error);
}

static gboolean
add_dose (SwStore *store, GError **error)
{
  g_autoptr (SwDoseRow) dose = sw_dose_row_load (store, 1, error);
  g_autoptr (SwTitration) titration = sw_titration_load (store, 1, error);

  if (dose == NULL || titration == NULL)
    return FALSE;
  dose->state = SW_DOSE_ADDED;
  dose->added.value = 840.0;
  dose->added.typed = g_strdup ("840 mL");
  dose->added_ms = sw_act_now (store);
  dose->added_by = plant->technician;
  dose->lot = plant->neutraliser_lot;
  titration->step = SW_STEP_DONE;
  titration->ended_ms = sw_act_now (store);
  return sw_dose_row_update (store, dose, error) && sw_titration_update (store, titration, error);
}

static gboolean
remark (SwStore *store, GError **error)
{
  g_autoptr (SwSample) sample = sw_sample_load (store, 1, error);

  if (sample == NULL)
    return FALSE;
  sample->remarks = g_strdup ("smelled of nothing, because nobody smelled it");
  return sw_sample_update (store, sample, error);
}

static gboolean
write_act (SwStore *store, int i, GError **error)
{
  switch (i)
    {
    case 0:
      return draw (store, error);
    case 1:
      return prepare (store, error);
    case 2:
      return read_strip (store, 0.0, SW_FIELD_ACID, error);
    case 3:
      return read_strip (store, 1.0, SW_FIELD_NEUTRAL, error);
    case 4:
      return strike (store, error);
    case 5:
      return read_strip (store, 2.0, SW_FIELD_NEUTRAL, error);
    case 6:
      return close_test (store, error);
    case 7:
      return sign (store, error);
    case 8:
      return work_out_dose (store, error);
    case 9:
      return add_dose (store, error);
    case 10:
      return remark (store, error);
    default:
      g_assert_not_reached ();
    }
}

static SwActKind
kind_of (int i)
{
  if (i == 7)
    return SW_ACT_SIGN;
  return i == 8 || i == 9 ? SW_ACT_DOSE : SW_ACT_TEST;
}

gboolean
script_run (Script *script, SwStore *store, int i, GError **error)
{
  const SwActor actor
      = { .person = plant->technician, .identified = SW_IDENTIFIED_DEMO, .workstation = "bench-2" };

  script->now_ms = SW_TEST_PLANT_START_MS + (i + 1) * ACT_MS;
  if (!sw_act_begin (store, kind_of (i), &actor, error))
    return FALSE;
  if (write_act (store, i, error) && sw_act_commit (store, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

/* ---- files ---- */

static gint64
now_cb (gpointer data)
{
  return ((Script *)data)->now_ms;
}

static int
offset_cb (gpointer data, gint64 utc_ms)
{
  return SW_TEST_PLANT_OFFSET_MIN;
}

void
script_set_up_empty (Script *script)
{
  script->folder = sw_test_folder_new ();
  script->path = g_build_filename (script->folder, "plant.swlog", NULL);
  script->now_ms = SW_TEST_PLANT_START_MS;
  script->no_backup = FALSE;
  script->clock = (SwClock){ .now_ms = now_cb, .offset_min = offset_cb, .data = script };
}

void
script_set_up (Script *script)
{
  script_set_up_empty (script);
  g_assert_true (g_file_set_contents_full (script->path, master, (gssize)master_length,
                                           G_FILE_SET_CONTENTS_NONE, 0644, NULL));
}

void
script_tear_down (Script *script)
{
  sw_test_folder_free (script->folder);
  g_free (script->path);
}

SwStore *
script_open (Script *script, const char *vfs, GError **error)
{
  const SwStoreOptions options = { .vfs = vfs, .is_copy = script->no_backup };

  return sw_store_open_with (script->path, SW_OPEN_WRITE, &script->clock, &options, error);
}

/* ---- heads ---- */

static void
record_heads (void)
{
  GError *error = NULL;
  Script script;
  SwStore *store;

  script_set_up (&script);
  store = script_open (&script, NULL, &error);
  g_assert_no_error (error);
  heads[0] = sw_journal_head (store, NULL);
  for (int i = 0; i < SCRIPT_ACTS; i++)
    {
      script_run (&script, store, i, &error);
      g_assert_no_error (error);
      heads[i + 1] = sw_journal_head (store, NULL);
    }
  sw_store_close (store);
  script_tear_down (&script);
}

void
script_make_master (void)
{
  plant = sw_test_plant_new ();
  g_clear_pointer (&plant->store, sw_store_close);
  g_assert_true (g_file_get_contents (plant->path, &master, &master_length, NULL));
  record_heads ();
}

void
script_free_master (void)
{
  for (int i = 0; i <= SCRIPT_ACTS; i++)
    g_free (heads[i]);
  g_free (master);
  sw_test_plant_free (plant);
}

const char *const *
script_heads (void)
{
  return (const char *const *)heads;
}

int
script_count_acts (SwStore *store)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *head = sw_journal_head (store, &error);

  g_assert_no_error (error);
  for (int i = 0; i <= SCRIPT_ACTS; i++)
    if (g_strcmp0 (head, heads[i]) == 0)
      return i;
  return -1;
}

/* ---- after the cut ---- */

static void
assert_sound (SwStore *store)
{
  GError *error = NULL;
  g_autoptr (SwVerifyReport) report = sw_verify_full (store, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (report->findings->len, ==, 0);
}

void
script_assert_recovered (Script *script, int at_least, int at_most)
{
  GError *error = NULL;
  SwStore *store = script_open (script, NULL, &error);
  int acts;

  g_assert_no_error (error);
  acts = script_count_acts (store);
  g_assert_cmpint (acts, >=, at_least);
  g_assert_cmpint (acts, <=, at_most);
  assert_sound (store);
  for (int i = acts; i < SCRIPT_ACTS; i++)
    {
      script_run (script, store, i, &error);
      g_assert_no_error (error);
    }
  g_assert_cmpint (script_count_acts (store), ==, SCRIPT_ACTS);
  assert_sound (store);
  sw_store_close (store);
}
