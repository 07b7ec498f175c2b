/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amendments and voids by what they lead to. Each row sets a scene, corrects one thing, and names
 * what must be so afterwards; that nothing is put off or closed, and that verify and the
 * recomputation find nothing, is asked of every one. */
#include "change.h"
#include "correct.h"

#include "workflow/incident.h"

typedef enum
{
  SCENE_PASSED,        /* a routine test passed */
  SCENE_PASSED_TWICE,  /* two days apart */
  SCENE_MISREAD,       /* 3 drops, no dose, then corrected to a pass */
  SCENE_ACID,          /* 3 drops, no dose: at the Dose page */
  SCENE_NO_DOSE,       /* 3 drops, no dose was added */
  SCENE_ANSWERED,      /* the same, and a later test passed */
  SCENE_DOSED,         /* 3 drops, dosed, waits for its re-test */
  SCENE_RETESTED,      /* dosed, and the re-test passed */
  SCENE_RETESTED_ACID, /* dosed, and the re-test found acid: at the Dose page */
  SCENE_CLOSED,        /* re-tested, and the incident closed */
  SCENE_FRESH          /* acid in a first portion that was given up, a second one passed */
} Setting;

typedef enum
{
  DO_ACID_TO_NEUTRAL, /* every acid reading of the last test */
  DO_NEUTRAL_TO_ACID, /* every neutral reading of the last test */
  DO_ZERO_TO_ACID,    /* the first two of the last test */
  DO_OVER_RANGE,      /* every neutral one, and the method's maximum is where the test ends */
  DO_FIRST_TO_ACID,   /* the neutral readings of the first test */
  DO_STRIKE_LAST,     /* the second strip of the last test */
  DO_STRIKE_FIRST_ACID,
  DO_PORTION,     /* 40 mL instead of 50 in the first test */
  DO_DRAWN_EARLY, /* the last test's sample was drawn before the dose had circulated */
  DO_DRAWN_FIRST, /* the last test's sample was drawn before that of the first */
  DO_ADDED_LATER, /* the dose went in 30 min later than recorded */
  DO_VOID_LAST,
  DO_VOID_FIRST,
  DO_VOID_SAMPLE, /* of the last test */
  DO_VOID_DOSE
} Deed;

typedef struct
{
  const char *name;
  Setting setting;
  Deed deed;
  SwFactCode state; /* of the machine afterwards */
  SwOutcomeKind last;
  SwIncidentState incident; /* the newest one; SW_N_INCIDENT_STATES = none */
  gboolean due_now;
  double computed_ml; /* of the first test's dose; 0 = there is none, NAN = it has no figure */
} Row;

#define NONE SW_N_INCIDENT_STATES
#define WAITS SW_INCIDENT_RETEST_PASSED
/* 3 drops in the machine of 420 mL a drop; with 40 mL of sample a drop is worth a quarter more */
#define FIGURE 1260.0
/* clang-format off */
static const Row rows[] = {
  { "passed now acid", SCENE_PASSED, DO_NEUTRAL_TO_ACID, SW_FACT_STATE_NEVER_TESTED, SW_OUTCOME_OPEN, SW_INCIDENT_OPEN, TRUE, 0 },
  { "passed twice, last now acid", SCENE_PASSED_TWICE, DO_NEUTRAL_TO_ACID, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, SW_INCIDENT_OPEN, TRUE, 0 },
  { "passed twice, first now acid", SCENE_PASSED_TWICE, DO_FIRST_TO_ACID, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, SW_INCIDENT_OPEN, TRUE, 0 },
  { "misread now acid", SCENE_MISREAD, DO_ZERO_TO_ACID, SW_FACT_STATE_ACID, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, 0 },
  { "passed, a strip struck", SCENE_PASSED, DO_STRIKE_LAST, SW_FACT_STATE_NEVER_TESTED, SW_OUTCOME_OPEN, NONE, TRUE, 0 },
  { "passed, voided", SCENE_PASSED, DO_VOID_LAST, SW_FACT_STATE_NEVER_TESTED, SW_OUTCOME_OPEN, NONE, TRUE, 0 },
  { "passed, sample voided", SCENE_PASSED, DO_VOID_SAMPLE, SW_FACT_STATE_NEVER_TESTED, SW_OUTCOME_OPEN, NONE, TRUE, 0 },
  { "passed twice, last voided", SCENE_PASSED_TWICE, DO_VOID_LAST, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, NONE, TRUE, 0 },
  { "passed twice, first voided", SCENE_PASSED_TWICE, DO_VOID_FIRST, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, NONE, FALSE, 0 },
  { "passed twice, last over range", SCENE_PASSED_TWICE, DO_OVER_RANGE, SW_FACT_STATE_OVER_RANGE, SW_OUTCOME_OVER_RANGE, SW_INCIDENT_OPEN, TRUE, 0 },
  { "acid now neutral", SCENE_ACID, DO_ACID_TO_NEUTRAL, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, SW_INCIDENT_OPEN, TRUE, 0 },
  { "acid, a strip struck", SCENE_ACID, DO_STRIKE_LAST, SW_FACT_STATE_NEVER_TESTED, SW_OUTCOME_OPEN, SW_INCIDENT_OPEN, TRUE, 0 },
  { "acid, voided", SCENE_ACID, DO_VOID_LAST, SW_FACT_STATE_NEVER_TESTED, SW_OUTCOME_OPEN, SW_INCIDENT_OPEN, TRUE, 0 },
  { "acid, over range", SCENE_ACID, DO_OVER_RANGE, SW_FACT_STATE_OVER_RANGE, SW_OUTCOME_OVER_RANGE, SW_INCIDENT_OPEN, TRUE, 0 },
  { "no dose, now neutral", SCENE_NO_DOSE, DO_ACID_TO_NEUTRAL, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, SW_INCIDENT_OPEN, TRUE, 0 },
  { "no dose, first acid struck", SCENE_NO_DOSE, DO_STRIKE_FIRST_ACID, SW_FACT_STATE_ACID, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, 0 },
  { "answered, last drawn first", SCENE_ANSWERED, DO_DRAWN_FIRST, SW_FACT_STATE_ACID, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, 0 },
  { "answered, last voided", SCENE_ANSWERED, DO_VOID_LAST, SW_FACT_STATE_ACID, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, 0 },
  { "dosed, portion smaller", SCENE_DOSED, DO_PORTION, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, FIGURE * 1.25 },
  { "dosed, now neutral", SCENE_DOSED, DO_ACID_TO_NEUTRAL, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_PASSED, SW_INCIDENT_OPEN, TRUE, NAN },
  { "dosed, over range", SCENE_DOSED, DO_OVER_RANGE, SW_FACT_STATE_OVER_RANGE, SW_OUTCOME_OVER_RANGE, SW_INCIDENT_OPEN, TRUE, NAN },
  { "dosed, voided", SCENE_DOSED, DO_VOID_LAST, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_OPEN, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "dosed, dose voided", SCENE_DOSED, DO_VOID_DOSE, SW_FACT_STATE_ACID, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, 0 },
  { "re-test now acid", SCENE_RETESTED, DO_NEUTRAL_TO_ACID, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "re-test over range", SCENE_RETESTED, DO_OVER_RANGE, SW_FACT_STATE_OVER_RANGE, SW_OUTCOME_OVER_RANGE, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "re-test, a strip struck", SCENE_RETESTED, DO_STRIKE_LAST, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "re-test voided", SCENE_RETESTED, DO_VOID_LAST, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "re-test drawn early", SCENE_RETESTED, DO_DRAWN_EARLY, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_PASSED, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "re-tested, added later", SCENE_RETESTED, DO_ADDED_LATER, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_PASSED, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "re-tested, first test voided", SCENE_RETESTED, DO_VOID_FIRST, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, WAITS, FALSE, FIGURE },
  { "re-tested, portion smaller", SCENE_RETESTED, DO_PORTION, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, WAITS, FALSE, FIGURE * 1.25 },
  { "acid re-test now neutral", SCENE_RETESTED_ACID, DO_ACID_TO_NEUTRAL, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "acid re-test voided", SCENE_RETESTED_ACID, DO_VOID_LAST, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "closed, re-test voided", SCENE_CLOSED, DO_VOID_LAST, SW_FACT_STATE_RETEST_DUE, SW_OUTCOME_ACID_FOUND, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "closed, re-test over range", SCENE_CLOSED, DO_OVER_RANGE, SW_FACT_STATE_OVER_RANGE, SW_OUTCOME_OVER_RANGE, SW_INCIDENT_OPEN, TRUE, FIGURE },
  { "closed, first test voided", SCENE_CLOSED, DO_VOID_FIRST, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, SW_INCIDENT_CLOSED, FALSE, FIGURE },
  { "closed, portion smaller", SCENE_CLOSED, DO_PORTION, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, SW_INCIDENT_CLOSED, FALSE, FIGURE * 1.25 },
  { "given-up portion amended", SCENE_FRESH, DO_FIRST_TO_ACID, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, NONE, FALSE, 0 },
  { "given-up portion voided", SCENE_FRESH, DO_VOID_FIRST, SW_FACT_STATE_PASSED, SW_OUTCOME_PASSED, NONE, FALSE, 0 },
  { "second portion voided", SCENE_FRESH, DO_VOID_LAST, SW_FACT_STATE_NEVER_TESTED, SW_OUTCOME_OPEN, NONE, TRUE, 0 },
};
/* clang-format on */

/* ---- settings ---- */

typedef struct
{
  gint64 first; /* titrations */
  gint64 last;
  gint64 dose;
} Cast;

static void
set_all (Scene *scene, gint64 titration, SwField from, SwField to)
{
  GError *error = NULL;
  g_autoptr (GArray) ids
      = sw_record_ids (scene->plant->store, SW_TABLE_READING, "titration", titration, &error);

  g_assert_no_error (error);
  for (int i = 1; i <= (int)ids->len; i++)
    {
      g_autoptr (SwReadingRow) row = correct_reading (scene, titration, i);

      if (row->meaning == from)
        correct_set_reading (scene, titration, i, to);
    }
}

static void
end_without_dose (Scene *scene)
{
  GError *error = NULL;

  sw_guided_test_no_dose (scene->test, &error);
  g_assert_no_error (error);
}

/* Passes, one drop below the blank where the deed needs a drop in the flask. */
static void
pass_test (Scene *scene, Deed deed, SwPurpose purpose, gint64 answers_dose)
{
  gboolean drop = deed == DO_OVER_RANGE;

  if (drop)
    CHANGE (scene, SwMethodVersion, sw_method_version, scene->plant->version, row->blank = 1.0);
  scene_test (scene, purpose, answers_dose, drop ? 1 : 0);
  g_assert_cmpint (sw_guided_test_get_titration (scene->test)->outcome, ==, SW_OUTCOME_PASSED);
}

static void
add_retest (Scene *scene, const Row *row, Cast *cast)
{
  sw_test_plant_advance (scene->plant, 60.0);
  if (row->setting == SCENE_RETESTED_ACID)
    correct_acid_test (scene, SW_PURPOSE_RETEST, cast->dose, 2);
  else
    pass_test (scene, row->deed, SW_PURPOSE_RETEST, cast->dose);
  cast->last = scene_titration (scene);
}

static void
close_incident (Scene *scene)
{
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->reviewer);
  const SwSigner signer = sw_test_plant_signer (scene->plant->reviewer);
  g_autoptr (SwIncident) incident = scene_incident (scene);
  GError *error = NULL;

  sw_incident_close (scene->plant->store, &actor, incident->record.id, "oil", &signer, &error);
  g_assert_no_error (error);
}

/* The first portion is read alkaline once, and thrown away. */
static void
test_two_portions (Scene *scene, Cast *cast)
{
  GError *error = NULL;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_NEUTRAL);
  cast->first = scene_titration (scene);
  sw_guided_test_fresh_portion (scene->test, "spilt", &error);
  g_assert_no_error (error);
  scene_prepare (scene);
  scene_titrate (scene, 0);
  scene_close (scene);
  scene_sign (scene);
  cast->last = scene_titration (scene);
}

static void
set_dosed (Scene *scene, const Row *row, Cast *cast)
{
  correct_acid_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  scene_decide (scene, 0.0);
  scene_record (scene, sw_guided_test_get_dose (scene->test)->measured_ml);
  cast->dose = sw_guided_test_get_dose (scene->test)->record.id;
  cast->first = cast->last = scene_titration (scene);
  if (row->setting == SCENE_DOSED)
    return;
  add_retest (scene, row, cast);
  if (row->setting == SCENE_CLOSED)
    close_incident (scene);
}

static void
set_passed (Scene *scene, const Row *row, Cast *cast)
{
  pass_test (scene, row->setting == SCENE_PASSED ? row->deed : DO_VOID_LAST, SW_PURPOSE_ROUTINE, 0);
  cast->first = cast->last = scene_titration (scene);
  if (row->setting == SCENE_PASSED)
    return;
  sw_test_plant_advance (scene->plant, 24.0 * 60.0);
  pass_test (scene, row->deed, SW_PURPOSE_ROUTINE, 0);
  cast->last = scene_titration (scene);
}

static void
set_acid (Scene *scene, const Row *row, Cast *cast)
{
  correct_acid_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  cast->first = cast->last = scene_titration (scene);
  if (row->setting != SCENE_ACID)
    end_without_dose (scene);
  if (row->setting == SCENE_MISREAD)
    set_all (scene, cast->last, SW_FIELD_ACID, SW_FIELD_NEUTRAL);
  if (row->setting != SCENE_ANSWERED)
    return;
  pass_test (scene, row->deed, SW_PURPOSE_ROUTINE, 0);
  cast->last = scene_titration (scene);
}

static void
set_scene (Scene *scene, const Row *row, Cast *cast)
{
  if (row->setting <= SCENE_PASSED_TWICE)
    set_passed (scene, row, cast);
  else if (row->setting <= SCENE_ANSWERED)
    set_acid (scene, row, cast);
  else if (row->setting == SCENE_FRESH)
    test_two_portions (scene, cast);
  else
    set_dosed (scene, row, cast);
}

/* ---- deeds ---- */

/* The method ends where this test did, so that acid there is over its range. */
static void
go_over_range (Scene *scene, gint64 titration)
{
  g_autoptr (SwReadingRow) last = correct_reading (scene, titration, -1);

  CHANGE (scene, SwTitration, sw_titration, titration, row->maximum = last->total);
  set_all (scene, titration, SW_FIELD_NEUTRAL, SW_FIELD_ACID);
}

static void
set_portion (Scene *scene, gint64 titration)
{
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "the flask held less");
  g_autoptr (SwTitration) row = correct_titration (scene, titration);
  GError *error = NULL;

  row->portion_volume.value = 40.0;
  g_free (row->portion_volume.typed);
  row->portion_volume.typed = g_strdup ("40 mL");
  sw_amend_titration (scene->plant->store, &actor, row, &error);
  g_assert_no_error (error);
}

static void
draw_at (Scene *scene, gint64 titration_id, gint64 at_ms)
{
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "by the label");
  g_autoptr (SwTitration) titration = correct_titration (scene, titration_id);
  g_autoptr (SwSample) row = correct_sample (scene, titration->sample);
  GError *error = NULL;

  row->record.happened_ms = at_ms;
  sw_amend_sample (scene->plant->store, &actor, row, &error);
  g_assert_no_error (error);
}

static void
draw_early (Scene *scene, const Cast *cast)
{
  g_autoptr (SwDoseRow) dose = correct_dose (scene, cast->dose);

  draw_at (scene, cast->last, dose->retest_due_ms - SW_TEST_MINUTE_MS);
}

static void
draw_first (Scene *scene, const Cast *cast)
{
  g_autoptr (SwTitration) first = correct_titration (scene, cast->first);
  g_autoptr (SwSample) sample = correct_sample (scene, first->sample);

  draw_at (scene, cast->last, sample->record.happened_ms - SW_TEST_MINUTE_MS);
}

static void
add_later (Scene *scene, const Cast *cast)
{
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "by the clock of the hall");
  g_autoptr (SwDoseRow) row = correct_dose (scene, cast->dose);
  GError *error = NULL;

  row->added_ms += 30 * SW_TEST_MINUTE_MS;
  sw_amend_dose (scene->plant->store, &actor, row, &error);
  g_assert_no_error (error);
}

static void
void_sample (Scene *scene, gint64 titration)
{
  g_autoptr (SwTitration) row = correct_titration (scene, titration);

  correct_void (scene, SW_TABLE_SAMPLE, row->sample);
}

static void
do_void (Scene *scene, Deed deed, const Cast *cast)
{
  if (deed == DO_VOID_DOSE)
    correct_void (scene, SW_TABLE_DOSE, cast->dose);
  else if (deed == DO_VOID_SAMPLE)
    void_sample (scene, cast->last);
  else
    correct_void (scene, SW_TABLE_TITRATION, deed == DO_VOID_FIRST ? cast->first : cast->last);
}

static void
do_deed (Scene *scene, Deed deed, const Cast *cast)
{
  switch (deed)
    {
    case DO_ACID_TO_NEUTRAL:
      set_all (scene, cast->last, SW_FIELD_ACID, SW_FIELD_NEUTRAL);
      break;
    case DO_NEUTRAL_TO_ACID:
      set_all (scene, cast->last, SW_FIELD_NEUTRAL, SW_FIELD_ACID);
      break;
    case DO_ZERO_TO_ACID:
      correct_set_reading (scene, cast->last, 1, SW_FIELD_ACID);
      correct_set_reading (scene, cast->last, 2, SW_FIELD_ACID);
      break;
    case DO_FIRST_TO_ACID:
      set_all (scene, cast->first, SW_FIELD_NEUTRAL, SW_FIELD_ACID);
      break;
    case DO_OVER_RANGE:
      go_over_range (scene, cast->last);
      break;
    case DO_STRIKE_LAST:
      correct_strike (scene, cast->last, -1);
      break;
    case DO_STRIKE_FIRST_ACID:
      correct_strike (scene, cast->last, 1);
      break;
    case DO_PORTION:
      set_portion (scene, cast->first);
      break;
    case DO_DRAWN_EARLY:
      draw_early (scene, cast);
      break;
    case DO_DRAWN_FIRST:
      draw_first (scene, cast);
      break;
    case DO_ADDED_LATER:
      add_later (scene, cast);
      break;
    default:
      do_void (scene, deed, cast);
    }
}

/* ---- the table ---- */

static void
check_dose (Scene *scene, const Row *row, const Cast *cast, double dosed_ml)
{
  g_autoptr (SwDoseRow) dose = NULL;
  Standing now = correct_look (scene);

  if (row->computed_ml == 0.0)
    return;
  dose = correct_dose (scene, cast->dose);
  sw_assert_close (dose->computed_ml, row->computed_ml, 1e-12);
  /* What was poured was poured. */
  sw_assert_close (dose->added.value, FIGURE, 1e-12);
  sw_assert_close (now.dosed_ml, dosed_ml, 1e-12);
  g_assert_false (isnan (dose->per_step_ml));
}

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (Scene) scene = scene_new ();
  Cast cast = { 0 };
  Standing before;
  Standing after;

  set_scene (scene, row, &cast);
  before = correct_look (scene);
  do_deed (scene, row->deed, &cast);
  correct_assert_safe (scene, &before);
  after = correct_look (scene);
  g_assert_cmpint (after.state.state.code, ==, row->state);
  g_assert_cmpint (after.state.last, ==, row->last);
  g_assert_cmpint (correct_incident_state (scene), ==, row->incident);
  g_assert_cmpint (after.due_day_ms <= (scene_now (scene) + SW_TEST_HOUR_MS) / SW_TEST_DAY_MS, ==,
                   row->due_now);
  check_dose (scene, row, &cast, before.dosed_ml);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/amend", rows, test_row);
  return g_test_run ();
}
