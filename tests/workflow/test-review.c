/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Review by a second person: who may, all or none, what waits, and what an amendment takes away. */
#include "change.h"
#include "correct.h"

#include "records/review-state.h"
#include "workflow/review.h"

static gboolean
review (Scene *scene, gint64 person, const gint64 *ids, gsize n, GError **error)
{
  const SwActor actor = sw_test_plant_actor (scene->plant, person);
  const SwSigner signer = sw_test_plant_signer (person);

  return sw_review_sign (scene->plant->store, &actor, &signer, ids, n, error);
}

static void
assert_reviewed (Scene *scene, gint64 titration)
{
  GError *error = NULL;

  g_assert_true (review (scene, scene->plant->reviewer, &titration, 1, &error));
  g_assert_no_error (error);
}

static SwReviewState
get_state (Scene *scene, gint64 titration)
{
  SwReviewState state;
  GError *error = NULL;

  sw_review_state (scene->plant->store, SW_TABLE_TITRATION, titration, &state, &error);
  g_assert_no_error (error);
  return state;
}

/* (transfer full) */
static GArray *
get_waiting (Scene *scene, gint64 person)
{
  GError *error = NULL;
  GArray *ids = sw_review_waiting (scene->plant->store, person, &error);

  g_assert_no_error (error);
  return ids;
}

static guint
count_waiting (Scene *scene, gint64 person)
{
  g_autoptr (GArray) ids = get_waiting (scene, person);

  return ids->len;
}

/* ---- who may ---- */

typedef enum
{
  PART_NONE,
  PART_ANALYST,
  PART_SECOND_READER,
  PART_DRAWER,
  PART_READER,
  PART_ADDER,
  PART_AMENDER
} Part;

typedef struct
{
  const char *name;
  gsize person; /* offset in SwTestPlant */
  Part part;    /* what the person did in the test */
  SwFactCode refusal;
} MayRow;

#define PERSON(member) G_STRUCT_OFFSET (SwTestPlant, member)
/* clang-format off */
static const MayRow may_rows[] = {
  { "reviewer", PERSON (reviewer), PART_NONE, SW_FACT_NONE },
  { "administrator", PERSON (administrator), PART_NONE, SW_FACT_NONE },
  { "technician", PERSON (technician), PART_NONE, SW_FACT_NEEDS_ROLE_REVIEW },
  { "colleague", PERSON (colleague), PART_NONE, SW_FACT_NEEDS_ROLE_REVIEW },
  { "auditor", PERSON (auditor), PART_NONE, SW_FACT_AUDITOR_READS },
  { "analyst", PERSON (reviewer), PART_ANALYST, SW_FACT_OWN_WORK },
  { "second reader", PERSON (reviewer), PART_SECOND_READER, SW_FACT_OWN_WORK },
  { "drawer", PERSON (administrator), PART_DRAWER, SW_FACT_OWN_WORK },
  { "reader", PERSON (reviewer), PART_READER, SW_FACT_OWN_WORK },
  { "adder", PERSON (reviewer), PART_ADDER, SW_FACT_OWN_WORK },
  { "amender", PERSON (reviewer), PART_AMENDER, SW_FACT_OWN_WORK },
};
/* clang-format on */

static void
remark (Scene *scene, gint64 person, gint64 titration)
{
  const SwActor actor = correct_actor (scene, person, "forgotten");
  g_autoptr (SwTitration) row = correct_titration (scene, titration);
  g_autoptr (SwSample) sample = correct_sample (scene, row->sample);
  g_autofree char *said = g_strconcat (sample->remarks != NULL ? sample->remarks : "", ".", NULL);
  GError *error = NULL;

  g_free (sample->remarks);
  sample->remarks = g_steal_pointer (&said);
  sw_amend_sample (scene->plant->store, &actor, sample, &error);
  g_assert_no_error (error);
}

static void
take_part (Scene *scene, Part part, gint64 person, gint64 titration, gint64 dose)
{
  g_autoptr (SwTitration) test = correct_titration (scene, titration);
  g_autoptr (SwReadingRow) reading = correct_reading (scene, titration, 1);

  if (part == PART_ANALYST)
    CHANGE (scene, SwTitration, sw_titration, titration, row->analyst = person);
  if (part == PART_SECOND_READER)
    CHANGE (scene, SwTitration, sw_titration, titration, row->second_reader = person);
  if (part == PART_DRAWER)
    CHANGE (scene, SwSample, sw_sample, test->sample, row->drawn_by = person);
  if (part == PART_READER)
    CHANGE (scene, SwReadingRow, sw_reading_row, reading->record.id, row->reader = person);
  if (part == PART_ADDER)
    CHANGE (scene, SwDoseRow, sw_dose_row, dose, row->added_by = person);
  if (part == PART_AMENDER)
    remark (scene, person, titration);
}

static void
test_may (gconstpointer data)
{
  const MayRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  gint64 person = G_STRUCT_MEMBER (gint64, scene->plant, row->person);
  const SwActor actor = sw_test_plant_actor (scene->plant, person);
  gint64 dose = scene_dosed_test (scene, 3);
  gint64 id = scene_titration (scene);
  SwFact refusal;
  GError *error = NULL;

  take_part (scene, row->part, person, id, dose);
  g_assert_cmpint (sw_review_may (scene->plant->store, &actor, id, &refusal, &error), ==,
                   row->refusal == SW_FACT_NONE);
  g_assert_no_error (error);
  g_assert_cmpint (refusal.code, ==, row->refusal);
  g_assert_cmpint (review (scene, person, &id, 1, &error), ==, row->refusal == SW_FACT_NONE);
  if (row->refusal != SW_FACT_NONE)
    scene_assert_fact (&error, row->refusal);
  if (row->part != PART_NONE)
    g_assert_cmpuint (count_waiting (scene, person), ==, 0);
}

/* ---- what ---- */

static void
test_not_signed (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gint64 id;

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_titrate (scene, 0);
  id = scene_titration (scene);
  g_assert_cmpuint (count_waiting (scene, 0), ==, 0);
  g_assert_false (review (scene, scene->plant->reviewer, &id, 1, &error));
  scene_assert_fact (&error, SW_FACT_SIGNATURE_MISSING);
}

static void
test_voided (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwTitration) row = NULL;
  GError *error = NULL;
  gint64 id;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  id = scene_titration (scene);
  row = correct_titration (scene, id);
  correct_void (scene, SW_TABLE_SAMPLE, row->sample);
  g_assert_false (review (scene, scene->plant->administrator, &id, 1, &error));
  scene_assert_fact (&error, SW_FACT_VOIDED);
  g_assert_cmpuint (count_waiting (scene, 0), ==, 0);
}

static void
test_signer (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->technician);
  const SwSigner signer = sw_test_plant_signer (scene->plant->reviewer);
  GError *error = NULL;
  gint64 id;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  id = scene_titration (scene);
  g_assert_false (sw_review_sign (scene->plant->store, &actor, &signer, &id, 1, &error));
  scene_assert_fact (&error, SW_FACT_NOT_THE_SIGNER);
}

/* The row says who, how the program knew, what was signed and what it means. */
static void
test_row_written (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GArray) ids = NULL;
  g_autoptr (SwReview) row = NULL;
  g_autoptr (SwTitration) titration = NULL;
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  assert_reviewed (scene, scene_titration (scene));
  titration = correct_titration (scene, scene_titration (scene));
  ids = sw_review_ids (scene->plant->store, SW_TABLE_TITRATION, scene_titration (scene), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (ids->len, ==, 2);
  row = sw_review_load (scene->plant->store, g_array_index (ids, gint64, 1), &error);
  g_assert_no_error (error);
  g_assert_cmpint (row->meaning, ==, SW_MEANING_REVIEWED);
  g_assert_cmpint (row->person, ==, scene->plant->reviewer);
  g_assert_cmpint (row->subject_seq, ==, titration->record.journal_seq);
  g_assert_cmpstr (row->identified_by, ==, "secret");
  scene_assert_sound (scene);
}

/* ---- batch ---- */

static void
test_batch (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GArray) waiting = NULL;
  GError *error = NULL;
  gint64 ids[4];

  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
      ids[i] = scene_titration (scene);
    }
  waiting = get_waiting (scene, scene->plant->reviewer);
  g_assert_cmpuint (waiting->len, ==, G_N_ELEMENTS (ids));
  g_assert_cmpmem (waiting->data, waiting->len * sizeof (gint64), ids, sizeof ids);
  assert_reviewed (scene, ids[2]);
  g_assert_cmpuint (count_waiting (scene, scene->plant->reviewer), ==, G_N_ELEMENTS (ids) - 1);
  /* One of them is reviewed: none of the four is written. */
  g_assert_false (review (scene, scene->plant->reviewer, ids, G_N_ELEMENTS (ids), &error));
  scene_assert_fact (&error, SW_FACT_REVIEWED_ALREADY);
  g_assert_cmpint (get_state (scene, ids[0]), ==, SW_REVIEW_SIGNED);
  ids[2] = ids[3];
  g_assert_true (review (scene, scene->plant->reviewer, ids, 3, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (count_waiting (scene, 0), ==, 0);
  g_assert_true (review (scene, scene->plant->reviewer, NULL, 0, &error));
}

/* ---- lost ---- */

static void
test_lost (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gint64 id;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  id = scene_titration (scene);
  assert_reviewed (scene, id);
  g_assert_cmpint (get_state (scene, id), ==, SW_REVIEW_REVIEWED);
  remark (scene, scene->plant->administrator, id);
  g_assert_cmpint (get_state (scene, id), ==, SW_REVIEW_LOST);
  /* Who amended it is the second person no more. */
  g_assert_cmpuint (count_waiting (scene, scene->plant->administrator), ==, 0);
  g_assert_cmpuint (count_waiting (scene, scene->plant->reviewer), ==, 1);
  g_assert_false (review (scene, scene->plant->administrator, &id, 1, &error));
  scene_assert_fact (&error, SW_FACT_OWN_WORK);
  assert_reviewed (scene, id);
  g_assert_cmpint (get_state (scene, id), ==, SW_REVIEW_REVIEWED);
}

/* Every kind of amendment, and the void of the dose, takes the review away; a re-test does not. */
static void
test_what_takes_away (void)
{
  g_autoptr (Scene) scene = scene_new ();
  gint64 dose = scene_dosed_test (scene, 3);
  gint64 id = scene_titration (scene);

  assert_reviewed (scene, id);
  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 0);
  g_assert_cmpint (get_state (scene, id), ==, SW_REVIEW_REVIEWED);
  correct_void (scene, SW_TABLE_TITRATION, scene_titration (scene));
  g_assert_cmpint (get_state (scene, id), ==, SW_REVIEW_REVIEWED);
  correct_void (scene, SW_TABLE_DOSE, dose);
  g_assert_cmpint (get_state (scene, id), ==, SW_REVIEW_LOST);
}

static void
test_reading_takes_away (void)
{
  g_autoptr (Scene) scene = scene_new ();
  gint64 id;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  id = scene_titration (scene);
  assert_reviewed (scene, id);
  correct_strike (scene, id, -1);
  g_assert_cmpint (get_state (scene, id), ==, SW_REVIEW_LOST);
}

/* A review signed by mistake is taken back; the test waits for another. */
static void
test_take_back (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "the wrong test");
  g_autoptr (GArray) ids = NULL;
  GError *error = NULL;
  gint64 id;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  id = scene_titration (scene);
  assert_reviewed (scene, id);
  ids = sw_review_ids (scene->plant->store, SW_TABLE_TITRATION, id, &error);
  g_assert_false (sw_void_record (scene->plant->store, &actor, SW_TABLE_REVIEW,
                                  g_array_index (ids, gint64, 0), &error));
  scene_assert_fact (&error, SW_FACT_NEVER_VOIDED);
  correct_void (scene, SW_TABLE_REVIEW, g_array_index (ids, gint64, 1));
  g_assert_cmpint (get_state (scene, id), ==, SW_REVIEW_SIGNED);
  g_assert_cmpuint (count_waiting (scene, scene->plant->reviewer), ==, 1);
}

static void
test_read_only (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gint64 id;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  id = scene_titration (scene);
  scene_leave (scene);
  sw_test_plant_reopen (scene->plant, SW_OPEN_READ_ONLY);
  g_assert_false (review (scene, scene->plant->reviewer, &id, 1, &error));
  scene_assert_fact (&error, SW_FACT_READ_ONLY);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/review/not-signed", test_not_signed },
  { "/review/voided", test_voided },
  { "/review/signer", test_signer },
  { "/review/row", test_row_written },
  { "/review/batch", test_batch },
  { "/review/lost", test_lost },
  { "/review/retest-and-dose", test_what_takes_away },
  { "/review/reading", test_reading_takes_away },
  { "/review/take-back", test_take_back },
  { "/review/read-only", test_read_only },
};
/* clang-format on */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].test);
  SW_TEST_ROWS ("/review/may", may_rows, test_may);
  return g_test_run ();
}
