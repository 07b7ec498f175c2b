/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may amend and void, when, and what is refused: one's own work and others', reviewed and not,
 * by each role; values that cannot be; rows that read as before. */
#include "change.h"
#include "correct.h"

#include "records/verify.h"
#include "workflow/review.h"

#define PERSON(member) G_STRUCT_OFFSET (SwTestPlant, member)

/* ---- by whom ---- */

typedef enum
{
  REVIEW_NONE,
  REVIEW_HOLDS,
  REVIEW_LOST, /* reviewed, then amended by the administrator */
} Reviewed;

typedef struct
{
  const char *name;
  gsize person; /* the technician did all of it */
  Reviewed reviewed;
  SwFactCode refusal;
} ByRow;

/* clang-format off */
static const ByRow by_rows[] = {
  { "own", PERSON (technician), REVIEW_NONE, SW_FACT_NONE },
  { "own, reviewed", PERSON (technician), REVIEW_HOLDS, SW_FACT_REVIEWED_ALREADY },
  { "own, review lost", PERSON (technician), REVIEW_LOST, SW_FACT_REVIEWED_ALREADY },
  { "colleague", PERSON (colleague), REVIEW_NONE, SW_FACT_NEEDS_ROLE_REVIEW },
  { "colleague, reviewed", PERSON (colleague), REVIEW_HOLDS, SW_FACT_NEEDS_ROLE_REVIEW },
  { "reviewer", PERSON (reviewer), REVIEW_NONE, SW_FACT_NONE },
  { "reviewer, reviewed", PERSON (reviewer), REVIEW_HOLDS, SW_FACT_NONE },
  { "administrator", PERSON (administrator), REVIEW_NONE, SW_FACT_NONE },
  { "administrator, review lost", PERSON (administrator), REVIEW_LOST, SW_FACT_NONE },
  { "auditor", PERSON (auditor), REVIEW_NONE, SW_FACT_AUDITOR_READS },
};
/* clang-format on */

typedef struct
{
  gint64 id[SW_N_TABLES]; /* of the parts of one dosed test; 0 = not a part */
} Parts;

static Parts
make_test (Scene *scene)
{
  Parts parts = { 0 };
  g_autoptr (SwTitration) titration = NULL;
  g_autoptr (SwReadingRow) reading = NULL;

  parts.id[SW_TABLE_DOSE] = scene_dosed_test (scene, 3);
  parts.id[SW_TABLE_TITRATION] = scene_titration (scene);
  titration = correct_titration (scene, parts.id[SW_TABLE_TITRATION]);
  reading = correct_reading (scene, parts.id[SW_TABLE_TITRATION], 1);
  parts.id[SW_TABLE_SAMPLE] = titration->sample;
  parts.id[SW_TABLE_READING] = reading->record.id;
  return parts;
}

static void
set_remark (SwSample *sample, const char *text)
{
  g_free (sample->remarks);
  sample->remarks = g_strdup (text);
}

static void
set_reviewed (Scene *scene, Reviewed reviewed, const Parts *parts)
{
  const SwActor reviewer = correct_actor (scene, scene->plant->reviewer, NULL);
  const SwActor administrator = correct_actor (scene, scene->plant->administrator, "by the label");
  const SwSigner signer = sw_test_plant_signer (scene->plant->reviewer);
  g_autoptr (SwSample) sample = correct_sample (scene, parts->id[SW_TABLE_SAMPLE]);
  GError *error = NULL;

  if (reviewed == REVIEW_NONE)
    return;
  sw_review_sign (scene->plant->store, &reviewer, &signer, &parts->id[SW_TABLE_TITRATION], 1,
                  &error);
  g_assert_no_error (error);
  if (reviewed == REVIEW_HOLDS)
    return;
  set_remark (sample, "cloudy");
  sw_amend_sample (scene->plant->store, &administrator, sample, &error);
  g_assert_no_error (error);
}

static void
check_answer (SwFactCode expected, gboolean may, SwFact refusal, GError *error)
{
  g_assert_no_error (error);
  g_assert_cmpint (may, ==, expected == SW_FACT_NONE);
  g_assert_cmpint (refusal.code, ==, expected);
}

static void
test_by (gconstpointer data)
{
  const ByRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, G_STRUCT_MEMBER (gint64, scene->plant, row->person),
                                       "a slip of the pen");
  const Parts parts = make_test (scene);
  SwStore *store = scene->plant->store;
  GError *error = NULL;

  set_reviewed (scene, row->reviewed, &parts);
  for (int table = 0; table < SW_N_TABLES; table++)
    {
      gint64 id = parts.id[table];
      SwFact refusal = sw_fact (SW_FACT_NONE);

      if (id == 0)
        continue;
      check_answer (row->refusal,
                    sw_amend_may (store, &actor, (SwTable)table, id, &refusal, &error), refusal,
                    error);
      if (table != SW_TABLE_READING)
        check_answer (row->refusal,
                      sw_void_may (store, &actor, (SwTable)table, id, &refusal, &error), refusal,
                      error);
    }
}

/* The same asked of the functions that write: nobody gets past them. */
static void
test_write (gconstpointer data)
{
  const ByRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, G_STRUCT_MEMBER (gint64, scene->plant, row->person),
                                       "a slip of the pen");
  const Parts parts = make_test (scene);
  g_autoptr (SwDoseRow) dose = NULL;
  GError *error = NULL;
  gboolean good = row->refusal == SW_FACT_NONE;

  set_reviewed (scene, row->reviewed, &parts);
  dose = correct_dose (scene, parts.id[SW_TABLE_DOSE]);
  dose->added.value = 1240.0;
  g_assert_cmpint (sw_amend_dose (scene->plant->store, &actor, dose, &error), ==, good);
  if (!good)
    scene_assert_fact (&error, row->refusal);
  g_assert_cmpint (sw_void_record (scene->plant->store, &actor, SW_TABLE_TITRATION,
                                   parts.id[SW_TABLE_TITRATION], &error),
                   ==, good);
  if (!good)
    scene_assert_fact (&error, row->refusal);
  scene_assert_sound (scene);
}

/* ---- when ---- */

/* Head of the journal: the same as long as nothing is written. (transfer full) */
static char *
get_head (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  char *head = sw_journal_head (scene->plant->store, &error);

  g_assert_no_error (error);
  return head;
}

static void
assert_untouched (Scene *scene, const char *head)
{
  g_autofree char *now = get_head (scene);

  g_assert_cmpstr (now, ==, head);
}

static void
refuse_sample (Scene *scene, SwFactCode code)
{
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "by the label");
  g_autoptr (SwTitration) titration = correct_titration (scene, scene_titration (scene));
  g_autoptr (SwSample) sample = correct_sample (scene, titration->sample);
  g_autofree char *head = get_head (scene);
  GError *error = NULL;

  set_remark (sample, "cloudy");
  g_assert_false (sw_amend_sample (scene->plant->store, &actor, sample, &error));
  scene_assert_fact (&error, code);
  g_assert_false (sw_void_record (scene->plant->store, &actor, SW_TABLE_TITRATION,
                                  titration->record.id, &error));
  scene_assert_fact (&error, code);
  assert_untouched (scene, head);
}

static void
test_open (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  refuse_sample (scene, SW_FACT_TEST_STILL_OPEN);
}

/* Somebody holds the figure at the machine: first it is said what became of it. */
static void
test_dose_out (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  scene_decide (scene, 0.0);
  refuse_sample (scene, SW_FACT_MACHINE_LOCKED);
}

static void
test_voided (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  correct_void (scene, SW_TABLE_TITRATION, scene_titration (scene));
  {
    const SwActor actor = correct_actor (scene, scene->plant->reviewer, "once more");
    GError *error = NULL;

    g_assert_false (sw_void_record (scene->plant->store, &actor, SW_TABLE_TITRATION,
                                    scene_titration (scene), &error));
    scene_assert_fact (&error, SW_FACT_VOIDED);
  }
}

/* A test that was voided while its Dose page was open goes nowhere. */
static void
test_voided_under_way (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  correct_void (scene, SW_TABLE_TITRATION, scene_titration (scene));
  g_assert_false (sw_guided_test_no_dose (scene->test, &error));
  scene_assert_fact (&error, SW_FACT_VOIDED);
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
}

static void
test_read_only (void)
{
  g_autoptr (Scene) scene = scene_new ();

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  sw_test_plant_reopen (scene->plant, SW_OPEN_READ_ONLY);
  refuse_sample (scene, SW_FACT_READ_ONLY);
}

static void
test_no_reason (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwActor actor = correct_actor (scene, scene->plant->reviewer, "  ");
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  g_assert_false (sw_void_record (scene->plant->store, &actor, SW_TABLE_TITRATION,
                                  scene_titration (scene), &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
}

/* ---- what ---- */

static void
test_same (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->colleague, NULL);
  const Parts parts = make_test (scene);
  g_autoptr (SwSample) sample = correct_sample (scene, parts.id[SW_TABLE_SAMPLE]);
  g_autoptr (SwTitration) titration = correct_titration (scene, parts.id[SW_TABLE_TITRATION]);
  g_autoptr (SwReadingRow) reading = correct_reading (scene, parts.id[SW_TABLE_TITRATION], 2);
  g_autoptr (SwDoseRow) dose = correct_dose (scene, parts.id[SW_TABLE_DOSE]);
  g_autofree char *head = get_head (scene);
  GError *error = NULL;

  g_assert_true (sw_amend_sample (scene->plant->store, &actor, sample, &error));
  g_assert_true (sw_amend_titration (scene->plant->store, &actor, titration, &error));
  g_assert_true (sw_amend_reading (scene->plant->store, &actor, reading, &error));
  g_assert_true (sw_amend_dose (scene->plant->store, &actor, dose, &error));
  g_assert_no_error (error);
  assert_untouched (scene, head);
}

/* What no result depends on leaves every result as it is, to the last bit. */
static void
test_no_result (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->technician, "he read along");
  const Parts parts = make_test (scene);
  g_autoptr (SwTitration) titration = correct_titration (scene, parts.id[SW_TABLE_TITRATION]);
  g_autoptr (SwDoseRow) before = correct_dose (scene, parts.id[SW_TABLE_DOSE]);
  g_autoptr (SwDoseRow) after = NULL;
  g_autoptr (SwTitration) written = NULL;
  GError *error = NULL;

  titration->second_reader = scene->plant->colleague;
  g_assert_true (sw_amend_titration (scene->plant->store, &actor, titration, &error));
  g_assert_no_error (error);
  after = correct_dose (scene, parts.id[SW_TABLE_DOSE]);
  written = correct_titration (scene, parts.id[SW_TABLE_TITRATION]);
  g_assert_cmpint (after->record.journal_seq, ==, before->record.journal_seq);
  g_assert_cmpint (written->second_reader, ==, scene->plant->colleague);
  scene_assert_sound (scene);
}

/* Each changes one row as no amendment may: refused with that fact, or (NONE) as that fault. */
typedef struct
{
  const char *name;
  void (*change) (Scene *, SwSample *, SwTitration *, SwReadingRow *, SwDoseRow *);
  SwFactCode refusal;
  SwFaultCode fault;
  SwQuantityName quantity;
} BadRow;

#define CHANGE_ROW(name, statement)                                                                \
  static void name (Scene *scene, SwSample *sample, SwTitration *titration, SwReadingRow *reading, \
                    SwDoseRow *dose)                                                               \
  {                                                                                                \
    statement;                                                                                     \
  }
CHANGE_ROW (change_code, sample->code[0] = 'X')
CHANGE_ROW (change_machine, sample->machine++)
CHANGE_ROW (change_purpose, sample->purpose = SW_PURPOSE_CONTROL)
CHANGE_ROW (change_drawn_future, sample->record.happened_ms = scene_now (scene) + 1)
CHANGE_ROW (change_drawn_after,
            sample->record.happened_ms = reading->record.happened_ms + 10 * SW_TEST_MINUTE_MS)
CHANGE_ROW (change_volume_zero, sample->volume.value = 0.0)
CHANGE_ROW (change_volume_under, sample->volume.value = 49.0)
CHANGE_ROW (change_volume_none, sample->volume.value = NAN)
CHANGE_ROW (change_temperature, sample->temperature.value = 900.0)
CHANGE_ROW (change_point, sample->point = 0)
CHANGE_ROW (change_drawer, sample->drawn_by = 0)
CHANGE_ROW (change_analyst, titration->analyst = scene->plant->colleague)
CHANGE_ROW (change_outcome, titration->outcome = SW_OUTCOME_PASSED)
CHANGE_ROW (change_step_volume, titration->step_ml *= 2.0)
CHANGE_ROW (change_portion_over, titration->portion_volume.value = 151.0)
CHANGE_ROW (change_portion_under, titration->portion_volume.value = 0.5)
CHANGE_ROW (change_titrant_lot, titration->titrant_lot = scene->plant->caustic_lot)
CHANGE_ROW (change_expired_lot, titration->titrant_lot = scene->plant->expired_lot)
CHANGE_ROW (change_no_strips, titration->strip_lot = 0)
CHANGE_ROW (change_caustic, titration->caustic_lot = scene->plant->caustic_lot)
CHANGE_ROW (change_own_reader, titration->second_reader = titration->analyst)
CHANGE_ROW (change_total, reading->total += 1.0)
CHANGE_ROW (change_reader, reading->reader = scene->plant->colleague)
CHANGE_ROW (change_added_ten, dose->added.value *= 10.0)
CHANGE_ROW (change_added_none, dose->added.value = 0.0)
CHANGE_ROW (change_added_nan, dose->added.value = NAN)
CHANGE_ROW (change_added_before, dose->added_ms = dose->decided_ms - 1)
CHANGE_ROW (change_added_future, dose->added_ms = scene_now (scene) + 1)
CHANGE_ROW (change_dose_lot, dose->lot = scene->plant->caustic_lot)
CHANGE_ROW (change_measured, dose->measured_ml = 1.0)
CHANGE_ROW (change_state, dose->state = SW_DOSE_NOT_ADDED)
CHANGE_ROW (change_adder, dose->added_by = 0)

#define FACT(code) SW_FACT_##code, 0, SW_QUANTITY_NONE
#define FAULT(code, quantity) SW_FACT_NONE, SW_FAULT_##code, SW_QUANTITY_##quantity
/* clang-format off */
static const BadRow bad_rows[] = {
  { "sample code", change_code, FACT (NOT_AMENDABLE) },
  { "machine", change_machine, FACT (NOT_AMENDABLE) },
  { "purpose", change_purpose, FACT (NOT_AMENDABLE) },
  { "drawn in the future", change_drawn_future, FAULT (RANGE, DATE) },
  { "drawn after the strip", change_drawn_after, FAULT (RANGE, DATE) },
  { "volume zero", change_volume_zero, FAULT (RANGE, DRAWN_VOLUME) },
  { "volume below the portion", change_volume_under, FAULT (RANGE, DRAWN_VOLUME) },
  { "volume missing", change_volume_none, FAULT (NOT_A_NUMBER, DRAWN_VOLUME) },
  { "temperature", change_temperature, FAULT (RANGE, SAMPLE_TEMPERATURE) },
  { "point", change_point, FAULT (MISSING, NAME) },
  { "drawn by nobody", change_drawer, FAULT (MISSING, NAME) },
  { "analyst", change_analyst, FACT (NOT_AMENDABLE) },
  { "outcome", change_outcome, FACT (NOT_AMENDABLE) },
  { "drop volume", change_step_volume, FACT (NOT_AMENDABLE) },
  { "portion above the sample", change_portion_over, FAULT (RANGE, SAMPLE_VOLUME) },
  { "portion too small", change_portion_under, FAULT (RANGE, SAMPLE_VOLUME) },
  { "lot of another product", change_titrant_lot, FACT (LOT_MISSING) },
  { "lot expired then", change_expired_lot, FACT (LOT_EXPIRED) },
  { "strip lot gone", change_no_strips, FACT (LOT_MISSING) },
  { "caustic where there is none", change_caustic, FAULT (COMBINATION, CAUSTIC) },
  { "second reader is the first", change_own_reader, FAULT (COMBINATION, NAME) },
  { "total", change_total, FACT (NOT_AMENDABLE) },
  { "reader", change_reader, FACT (NOT_AMENDABLE) },
  { "ten times added", change_added_ten, FAULT (RANGE, ADDED_AMOUNT) },
  { "nothing added", change_added_none, FAULT (RANGE, ADDED_AMOUNT) },
  { "added unknown", change_added_nan, FAULT (MISSING, ADDED_AMOUNT) },
  { "added before decided", change_added_before, FAULT (RANGE, DATE) },
  { "added in the future", change_added_future, FAULT (RANGE, DATE) },
  { "caustic dosed", change_dose_lot, FACT (LOT_MISSING) },
  { "measured amount", change_measured, FACT (NOT_AMENDABLE) },
  { "state", change_state, FACT (NOT_AMENDABLE) },
  { "added by nobody", change_adder, FAULT (MISSING, NAME) },
};
/* clang-format on */

static void
test_bad (gconstpointer data)
{
  const BadRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "a slip of the pen");
  const Parts parts = make_test (scene);
  g_autoptr (SwSample) sample = correct_sample (scene, parts.id[SW_TABLE_SAMPLE]);
  g_autoptr (SwTitration) titration = correct_titration (scene, parts.id[SW_TABLE_TITRATION]);
  g_autoptr (SwReadingRow) reading = correct_reading (scene, parts.id[SW_TABLE_TITRATION], 1);
  g_autoptr (SwDoseRow) dose = correct_dose (scene, parts.id[SW_TABLE_DOSE]);
  g_autofree char *head = get_head (scene);
  SwStore *store = scene->plant->store;
  GError *error = NULL;

  row->change (scene, sample, titration, reading, dose);
  /* Whichever row was changed; the others read as before and are TRUE. */
  g_assert_false (sw_amend_sample (store, &actor, sample, &error)
                  && sw_amend_titration (store, &actor, titration, &error)
                  && sw_amend_reading (store, &actor, reading, &error)
                  && sw_amend_dose (store, &actor, dose, &error));
  if (row->refusal != SW_FACT_NONE)
    scene_assert_fact (&error, row->refusal);
  else
    sw_assert_fault (&error, row->fault, row->quantity);
  assert_untouched (scene, head);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/amend/when/open", test_open },
  { "/amend/when/dose-out", test_dose_out },
  { "/amend/when/voided", test_voided },
  { "/amend/when/voided-under-way", test_voided_under_way },
  { "/amend/when/read-only", test_read_only },
  { "/amend/when/no-reason", test_no_reason },
  { "/amend/same", test_same },
  { "/amend/no-result", test_no_result },
};
/* clang-format on */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].test);
  SW_TEST_ROWS ("/amend/by", by_rows, test_by);
  SW_TEST_ROWS ("/amend/write", by_rows, test_write);
  SW_TEST_ROWS ("/amend/bad", bad_rows, test_bad);
  return g_test_run ();
}
