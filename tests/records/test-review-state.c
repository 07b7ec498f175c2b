/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What signatures are worth after this and that: one row per story, one letter per act.
 *
 *   p r c   a signature on the test: performed, reviewed; on the incident: closed
 *   S T R D an amendment of the sample, titration, reading, dose; I of the incident
 *   s t e d the same rows voided
 *   w k     work: the dose recorded, its re-test linked
 *   u       the re-test was voided: the dose waits again; b: and its place was corrected
 *   o       another test's reading amended
 *   x       the last signature voided
 */
#include "fixture.h"
#include "records/review-state.h"

#include <string.h>

typedef struct
{
  const char *name;
  const char *acts;
  SwReviewState state; /* of the test */
  const char *holding; /* of its signatures in use, oldest first: '+' it holds, '-' it does not */
  SwReviewState incident; /* of the incident */
} Story;

static const Story stories[] = {
  { "nothing", "", SW_REVIEW_NONE, "", SW_REVIEW_NONE },
  { "amended-unsigned", "R", SW_REVIEW_NONE, "", SW_REVIEW_NONE },
  { "signed", "p", SW_REVIEW_SIGNED, "+", SW_REVIEW_NONE },
  { "amended-then-signed", "RSTDp", SW_REVIEW_SIGNED, "+", SW_REVIEW_NONE },
  { "signed-then-amended", "pR", SW_REVIEW_SIGNED, "-", SW_REVIEW_NONE },
  { "reviewed", "pr", SW_REVIEW_REVIEWED, "++", SW_REVIEW_NONE },
  { "amended-before-review", "pRr", SW_REVIEW_REVIEWED, "-+", SW_REVIEW_NONE },
  { "sample-amended", "prS", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "titration-amended", "prT", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "reading-amended", "prR", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "dose-amended", "prD", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "incident-amended", "prI", SW_REVIEW_REVIEWED, "++", SW_REVIEW_NONE },
  { "sample-voided", "prs", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "titration-voided", "prt", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "reading-voided", "pre", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "dose-voided", "prd", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "work-goes-on", "prwk", SW_REVIEW_REVIEWED, "++", SW_REVIEW_NONE },
  { "retest-voided", "prwku", SW_REVIEW_REVIEWED, "++", SW_REVIEW_NONE },
  { "retest-voided-and-more", "prwkb", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "another-test", "pro", SW_REVIEW_REVIEWED, "++", SW_REVIEW_NONE },
  { "reviewed-again", "prRr", SW_REVIEW_REVIEWED, "--+", SW_REVIEW_NONE },
  { "lost-twice", "prRrS", SW_REVIEW_LOST, "---", SW_REVIEW_NONE },
  { "work-after-loss", "prRw", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "review-voided", "prx", SW_REVIEW_SIGNED, "+", SW_REVIEW_NONE },
  { "lost-then-voided", "prRrx", SW_REVIEW_LOST, "--", SW_REVIEW_NONE },
  { "incident-closed", "c", SW_REVIEW_NONE, "", SW_REVIEW_REVIEWED },
  { "closed-then-amended", "cI", SW_REVIEW_NONE, "", SW_REVIEW_LOST },
  { "closed-then-reading-amended", "cR", SW_REVIEW_NONE, "", SW_REVIEW_REVIEWED },
};

typedef struct
{
  Fixture base;
  FixturePlant plant;
  gint64 retest; /* sample */
  gint64 other;  /* a reading of another test */
} Bench;

#define STORE(bench) ((bench)->base.store)

/* Loads a row, lets CHANGE write into it as `row`, updates it. */
#define CHANGE(prefix, Type, row_id, CHANGE_IT)                                                    \
  G_STMT_START                                                                                     \
  {                                                                                                \
    g_autoptr (Type) row = prefix##_load (STORE (bench), row_id, NULL);                            \
    g_assert_nonnull (row);                                                                        \
    CHANGE_IT;                                                                                     \
    g_assert_true (prefix##_update (STORE (bench), row, NULL));                                    \
  }                                                                                                \
  G_STMT_END

/* The retest's test, so that amending it is amending another record. */
static void
insert_other (Bench *bench)
{
  g_autoptr (SwSample) sample = sw_sample_new ();
  g_autoptr (SwTitration) titration = sw_titration_new ();
  g_autoptr (SwReadingRow) reading = sw_reading_row_new ();

  sample->code = g_strdup ("M-07-260504-2");
  sample->machine = bench->plant.machine;
  g_assert_true (sw_sample_insert (STORE (bench), sample, NULL));
  titration->sample = sample->record.id;
  titration->method_version = bench->plant.version;
  titration->portion = 1;
  g_assert_true (sw_titration_insert (STORE (bench), titration, NULL));
  reading->titration = titration->record.id;
  reading->ordinal = 1;
  g_assert_true (sw_reading_row_insert (STORE (bench), reading, NULL));
  bench->retest = sample->record.id;
  bench->other = reading->record.id;
}

/* The fixture's own signature goes: each story begins unsigned. */
static void
set_up (Bench *bench, gconstpointer data)
{
  fixture_set_up (&bench->base, data);
  fixture_plant (&bench->base, &bench->plant);
  fixture_begin (&bench->base, SW_ACT_TEST, NULL);
  insert_other (bench);
  fixture_commit (&bench->base);
  fixture_begin (&bench->base, SW_ACT_VOID, "made for another test");
  g_assert_true (sw_record_void (STORE (bench), SW_TABLE_REVIEW, bench->plant.review, NULL));
  fixture_commit (&bench->base);
}

static void
tear_down (Bench *bench, gconstpointer data)
{
  fixture_assert_sound (&bench->base);
  fixture_tear_down (&bench->base, data);
}

static void
sign (Bench *bench, SwTable table, gint64 subject, SwMeaning meaning)
{
  g_autoptr (SwReview) review = sw_review_new ();

  review->subject_table = g_strdup (sw_table_name (table));
  review->subject = subject;
  review->person = bench->plant.person;
  review->meaning = meaning;
  g_assert_true (sw_review_insert (STORE (bench), review, NULL));
}

/* Texts that differ each time, so that an amendment always writes. */
static char *
make_text (Bench *bench)
{
  return g_strdup_printf ("corrected at %" G_GINT64_FORMAT, bench->base.now_ms);
}

#define SET_TEXT(member) g_free (row->member), row->member = make_text (bench)

static void
amend (Bench *bench, char act)
{
  const FixturePlant *plant = &bench->plant;

  if (act == 'S')
    CHANGE (sw_sample, SwSample, plant->sample, SET_TEXT (remarks));
  else if (act == 'T')
    CHANGE (sw_titration, SwTitration, plant->titration, SET_TEXT (lot_reason));
  else if (act == 'R')
    CHANGE (sw_reading_row, SwReadingRow, plant->reading, SET_TEXT (struck_reason));
  else if (act == 'D')
    CHANGE (sw_dose_row, SwDoseRow, plant->dose, SET_TEXT (place));
  else if (act == 'I')
    CHANGE (sw_incident, SwIncident, plant->incident, SET_TEXT (cause));
  else
    CHANGE (sw_reading_row, SwReadingRow, bench->other, SET_TEXT (struck_reason));
}

static gint64
find_last_signature (Bench *bench)
{
  return fixture_ask (&bench->base, "SELECT max(id) FROM review WHERE voided = 0");
}

static void
void_row (Bench *bench, char act)
{
  const FixturePlant *plant = &bench->plant;
  const struct
  {
    char act;
    SwTable table;
    gint64 id;
  } rows[] = {
    { 's', SW_TABLE_SAMPLE, plant->sample },
    { 't', SW_TABLE_TITRATION, plant->titration },
    { 'e', SW_TABLE_READING, plant->reading },
    { 'd', SW_TABLE_DOSE, plant->dose },
    { 'x', SW_TABLE_REVIEW, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i].act == act)
      g_assert_true (sw_record_void (STORE (bench), rows[i].table,
                                     rows[i].id != 0 ? rows[i].id : find_last_signature (bench),
                                     NULL));
}

static void
unlink_retest (Bench *bench, gboolean more)
{
  CHANGE (sw_dose_row, SwDoseRow, bench->plant.dose, {
    g_assert_cmpint (row->retest_sample, ==, bench->retest);
    row->retest_sample = 0;
    if (more)
      SET_TEXT (place);
  });
}

static void
work (Bench *bench, char act)
{
  if (act == 'w')
    CHANGE (sw_dose_row, SwDoseRow, bench->plant.dose, row->added.value += 10.0);
  else
    CHANGE (sw_dose_row, SwDoseRow, bench->plant.dose, row->retest_sample = bench->retest);
}

static void
write_act (Bench *bench, char act)
{
  if (act == 'p' || act == 'r')
    sign (bench, SW_TABLE_TITRATION, bench->plant.titration,
          act == 'p' ? SW_MEANING_PERFORMED : SW_MEANING_REVIEWED);
  else if (act == 'c')
    sign (bench, SW_TABLE_INCIDENT, bench->plant.incident, SW_MEANING_CLOSED);
  else if (act == 'w' || act == 'k')
    work (bench, act);
  else if (act == 'u' || act == 'b')
    unlink_retest (bench, act == 'b');
  else if (strchr ("STRDIo", act) != NULL)
    amend (bench, act);
  else
    void_row (bench, act);
}

static SwActKind
get_kind (char act)
{
  if (strchr ("STRDIo", act) != NULL)
    return SW_ACT_AMEND;
  if (strchr ("stedxub", act) != NULL)
    return SW_ACT_VOID;
  return act == 'w' ? SW_ACT_DOSE : SW_ACT_SIGN;
}

static char *
list_holding (Bench *bench)
{
  GString *holding = g_string_new (NULL);
  g_autoptr (GArray) ids
      = sw_review_ids (STORE (bench), SW_TABLE_TITRATION, bench->plant.titration, NULL);

  g_assert_nonnull (ids);
  for (guint i = 0; i < ids->len; i++)
    {
      gboolean holds;

      g_assert_true (sw_review_holds (STORE (bench), g_array_index (ids, gint64, i), &holds, NULL));
      g_string_append_c (holding, holds ? '+' : '-');
    }
  return g_string_free (holding, FALSE);
}

static void
test_story (Bench *bench, gconstpointer data)
{
  const Story *story = data;
  SwReviewState state;
  g_autofree char *holding = NULL;

  for (const char *act = story->acts; *act != '\0'; act++)
    {
      bench->base.now_ms += 60000;
      fixture_begin (&bench->base, get_kind (*act), "read the label again");
      write_act (bench, *act);
      fixture_commit (&bench->base);
    }
  g_assert_true (
      sw_review_state (STORE (bench), SW_TABLE_TITRATION, bench->plant.titration, &state, NULL));
  g_assert_cmpint (state, ==, story->state);
  holding = list_holding (bench);
  g_assert_cmpstr (holding, ==, story->holding);
  g_assert_true (
      sw_review_state (STORE (bench), SW_TABLE_INCIDENT, bench->plant.incident, &state, NULL));
  g_assert_cmpint (state, ==, story->incident);
}

/* What is not there holds nothing, and a voided signature neither. */
static void
test_no_signature (Bench *bench, gconstpointer data)
{
  gboolean holds = TRUE;

  g_assert_true (sw_review_holds (STORE (bench), 999, &holds, NULL));
  g_assert_false (holds);
  holds = TRUE;
  g_assert_true (sw_review_holds (STORE (bench), bench->plant.review, &holds, NULL));
  g_assert_false (holds);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (stories); i++)
    {
      g_autofree char *path = g_strconcat ("/records/review-state/", stories[i].name, NULL);

      g_test_add (path, Bench, &stories[i], set_up, test_story, tear_down);
    }
  g_test_add ("/records/review-state/no-signature", Bench, NULL, set_up, test_no_signature,
              tear_down);
  return g_test_run ();
}
