/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What To Do, the sidebar and the machine page say, sentence by sentence: the words of the design's
 * sketches and glossary, written out here by hand. */
#include "wording/sentence-todo.h"

#include <math.h>

#include "support/support.h"

#define MIN_MS G_GINT64_CONSTANT (60000)
#define HOUR_MS (60 * MIN_MS)
#define DAY_MS (24 * HOUR_MS)
/* 2026-11-25 07:30 in Berlin, a Wednesday */
#define NOW_MS G_GINT64_CONSTANT (1795588200000)
#define U202F "\342\200\257"

static SwWording *wording;

typedef struct
{
  const char *name;
  SwTaskFacts facts;
  const char *title;
  const char *text; /* NULL: another function's sentence, tested there */
} Row;

static const Row rows[] = {
  { "over range",
    { .task = SW_TASK_OVER_RANGE, .subject = "M-07 Long bed" },
    "M-07 Long bed: over range, stop",
    "More acid than the method can measure. Keep people away from vapour and call the person "
    "responsible. No dose is worked out." },
  { "record dose",
    { .task = SW_TASK_RECORD_DOSE,
      .subject = "M-07 Long bed",
      .total = 1260,
      .since_ms = NOW_MS - 50 * MIN_MS },
    "M-07 Long bed: was the dose added?",
    "1260" U202F "mL was worked out today at 06:40. Record what was really added, or that nothing "
    "was." },
  { "record dose, amount not known",
    { .task = SW_TASK_RECORD_DOSE, .subject = "M-07 Long bed", .total = NAN },
    "M-07 Long bed: was the dose added?",
    "A dose was worked out, and nobody has recorded what was added." },
  { "resume at once",
    { .task = SW_TASK_RESUME,
      .subject = "M-11 Rotary",
      .total = 2,
      .since_ms = NOW_MS - 30 * MIN_MS,
      .good_min = 30 },
    "M-11 Rotary: a test was left open",
    "2 drops counted, left at 07:00." },
  { "resume too late",
    { .task = SW_TASK_RESUME,
      .subject = "M-11 Rotary",
      .total = 2,
      .since_ms = NOW_MS - 31 * MIN_MS,
      .good_min = 30 },
    "M-11 Rotary: a test was left open",
    "2 drops counted, left today at 06:59. The portion is older than 30 min: take a fresh one." },
  { "resume with nothing in the flask",
    { .task = SW_TASK_RESUME, .subject = "M-11 Rotary", .total = 0, .good_min = 30 },
    "M-11 Rotary: a test was left open",
    "No titrant is in the flask yet. Go on where it was left." },
  { "dose",
    { .task = SW_TASK_DOSE, .subject = "M-07 Long bed", .since_ms = NOW_MS - DAY_MS },
    "M-07 Long bed: acid found, not dosed",
    "Acid was found yesterday at 07:30, and no dose has been added since." },
  { "re-test",
    { .task = SW_TASK_RETEST,
      .subject = "M-07 Long bed",
      .total = 1260,
      .since_ms = NOW_MS - 50 * MIN_MS,
      .due_ms = NOW_MS - 5 * MIN_MS },
    "M-07 Long bed: re-test after dose",
    "1260" U202F "mL added at 06:40, circulated 50 min. Only a re-test that passes closes it." },
  { "re-test of yesterday's dose",
    { .task = SW_TASK_RETEST,
      .subject = "M-07 Long bed",
      .total = 1260,
      .since_ms = NOW_MS - 9 * HOUR_MS,
      .due_ms = NOW_MS - 8 * HOUR_MS },
    "M-07 Long bed: re-test after dose",
    "1260" U202F
    "mL added yesterday at 22:30, circulated 9 h. Only a re-test that passes closes it." },
  { "re-test too early",
    { .task = SW_TASK_RETEST,
      .subject = "M-07 Long bed",
      .total = 1260,
      .since_ms = NOW_MS - 5 * MIN_MS,
      .due_ms = NOW_MS + 40 * MIN_MS },
    "M-07 Long bed: re-test after dose",
    "1260" U202F "mL added at 07:25. It circulates until 08:10; test then." },
  { "re-test of who knows what",
    { .task = SW_TASK_RETEST, .subject = "M-07 Long bed", .total = NAN },
    "M-07 Long bed: re-test after dose",
    "Nobody knows whether the dose was added. Only a re-test can tell; dose nothing before." },
  { "test due today",
    { .task = SW_TASK_TEST, .subject = "M-03 Twin tank", .due_ms = NOW_MS - HOUR_MS },
    "M-03 Twin tank: test due today",
    NULL },
  { "test due this evening",
    { .task = SW_TASK_TEST, .subject = "M-03 Twin tank", .due_ms = NOW_MS + 8 * HOUR_MS },
    "M-03 Twin tank: test due today",
    NULL },
  { "test late",
    { .task = SW_TASK_TEST, .subject = "M-03 Twin tank", .due_ms = NOW_MS - DAY_MS },
    "M-03 Twin tank: test was due yesterday",
    NULL },
  { "test later",
    { .task = SW_TASK_TEST, .subject = "M-03 Twin tank", .due_ms = NOW_MS + DAY_MS },
    "M-03 Twin tank: test due tomorrow",
    NULL },
  { "review",
    { .task = SW_TASK_REVIEW, .subject = "M-07 Long bed" },
    "M-07 Long bed: an acid incident waits for its review",
    "The re-test passed. A reviewer looks at it, names the cause and closes it." },
  { "lot",
    { .task = SW_TASK_LOT, .subject = "Strips", .code = "S-2291", .due_ms = NOW_MS + 2 * DAY_MS },
    "Strips, lot S-2291: expires on Friday",
    "See that a new lot is at hand before then." },
  { "lot expired",
    { .task = SW_TASK_LOT, .subject = "Strips", .code = "S-2291", .due_ms = NOW_MS - DAY_MS },
    "Strips, lot S-2291: expired yesterday",
    "Open a new lot, or mark this one as used up." },
  { "calibration",
    { .task = SW_TASK_CALIBRATION,
      .subject = "Neutraliser",
      .code = "Dropper A",
      .due_ms = NOW_MS - DAY_MS },
    "Dropper A for Neutraliser: calibration was due yesterday",
    "Weigh its drops again. Every amount worked out depends on the drop's size." },
  { "one test to review",
    { .task = SW_TASK_REVIEW_TESTS, .total = 1 },
    "1 test waits for your review",
    NULL },
  { "tests to review",
    { .task = SW_TASK_REVIEW_TESTS, .total = 12 },
    "12 tests wait for your review",
    "Look at what another person read, worked out and added, and sign that it is right." },
};

static void
test_task (gconstpointer data)
{
  const Row *row = data;
  SwTaskFacts facts = row->facts;

  facts.now_ms = NOW_MS;
  g_autofree char *title = sw_say_task_title (wording, &facts);
  g_autofree char *text = sw_say_task_text (wording, &facts);
  g_assert_cmpstr (title, ==, row->title);
  if (row->text != NULL)
    g_assert_cmpstr (text, ==, row->text);
  else
    g_assert_nonnull (text);
  g_assert_cmpstr (sw_say_task_button (wording, facts.task), !=, "");
}

static void
test_headings (void)
{
  static const struct
  {
    guint count;
    const char *words;
  } counts[] = { { 0, "Nothing to do now" },
                 { 1, "One thing to do" },
                 { 4, "Four things to do" },
                 { 12, "Twelve things to do" },
                 { 13, "13 things to do" } };

  for (gsize i = 0; i < G_N_ELEMENTS (counts); i++)
    {
      g_autofree char *words = sw_say_todo_heading (wording, counts[i].count);
      g_assert_cmpstr (words, ==, counts[i].words);
    }
  g_autofree char *one = sw_say_todo_count (wording, 1);
  g_autofree char *next
      = sw_say_todo_next (wording, "M-14 Small parts", NOW_MS + DAY_MS, NOW_MS, FALSE);
  g_assert_cmpstr (one, ==, "1 thing");
  g_assert_cmpstr (next, ==, "Next after these: M-14 Small parts tomorrow.");
}

static void
test_machine (void)
{
  SwFact reserve = { .code = SW_FACT_STATE_RESERVE, .number = { 4 } };
  const SwFact retest = { .code = SW_FACT_STATE_RETEST_DUE };
  const SwFact passed = { .code = SW_FACT_STATE_PASSED };
  g_autofree char *word = sw_say_state_word (wording, &reserve);
  g_autofree char *due = sw_say_state_headline (wording, &retest, 0, NOW_MS, NOW_MS);
  g_autofree char *later = sw_say_state_headline (wording, &retest, 0, NOW_MS + 1, NOW_MS);
  g_autofree char *fine = sw_say_state_headline (wording, &passed, NOW_MS - DAY_MS, 0, NOW_MS);

  g_assert_cmpstr (word, ==, "reserve 4 drops");
  g_assert_cmpstr (due, ==, "Acid found, dosed, re-test due now");
  g_assert_cmpstr (later, ==, "Acid found, dosed, a re-test comes next");
  g_assert_cmpstr (fine, ==, "Passed yesterday");
  for (int code = SW_FACT_STATE_NEVER_TESTED; code <= SW_FACT_STATE_RETIRED; code++)
    {
      const SwFact state = { .code = (SwFactCode)code, .number = { NAN } };
      g_autofree char *said = sw_say_state_word (wording, &state);
      g_autofree char *headline = sw_say_state_headline (wording, &state, 0, 0, NOW_MS);
      g_assert_cmpstr (said, !=, "");
      g_assert_cmpstr (headline, !=, "");
    }
}

static void
test_results (void)
{
  g_autofree char *acid = sw_say_test_short (wording, SW_OUTCOME_ACID_FOUND, 2, 3, FALSE);
  g_autofree char *passed = sw_say_test_short (wording, SW_OUTCOME_PASSED, -INFINITY, 0, FALSE);
  g_autofree char *reserve = sw_say_test_short (wording, SW_OUTCOME_RESERVE_FOUND, -5, -4, FALSE);
  g_autofree char *added = sw_say_added (wording, 1260, NOW_MS - 50 * MIN_MS, "still");
  g_autofree char *done = sw_say_done (wording, "M-07", NOW_MS, acid, 1260, "NA");
  g_autofree char *unsigned_test = sw_say_done (wording, "M-07", NOW_MS, passed, NAN, NULL);

  g_assert_cmpstr (acid, ==, "acid, 2 to 3 drops");
  g_assert_cmpstr (passed, ==, "passed");
  g_assert_cmpstr (reserve, ==, "reserve 4 to 5 drops");
  g_assert_cmpstr (added, ==, "1260" U202F "mL added 06:40, still");
  g_assert_cmpstr (done, ==, "M-07 at 07:30: acid, 2 to 3 drops, 1260" U202F "mL added, signed NA");
  g_assert_cmpstr (unsigned_test, ==, "M-07 at 07:30: passed, not signed yet");
}

/* Midnight as the reader's clock shows it, also on the day that has 25 hours (2026-10-25: IANA
 * time zone database, Europe/Berlin). */
static void
test_day_start (void)
{
  g_assert_cmpint (sw_day_start (wording, NOW_MS), ==, NOW_MS - 7 * HOUR_MS - 30 * MIN_MS);
  /* 2026-10-25 23:00 there is 22:00 UTC; its midnight was 2026-10-24 22:00 UTC. */
  gint64 evening_ms = G_GINT64_CONSTANT (1792965600000);
  g_assert_cmpint (sw_day_start (wording, evening_ms), ==, evening_ms - 24 * HOUR_MS);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  wording = sw_wording_new ("en", "Europe/Berlin");
  SW_TEST_ROWS ("/wording/todo", rows, test_task);
  g_test_add_func ("/wording/todo/headings", test_headings);
  g_test_add_func ("/wording/todo/machine", test_machine);
  g_test_add_func ("/wording/todo/results", test_results);
  g_test_add_func ("/wording/todo/day start", test_day_start);
  int result = g_test_run ();
  sw_wording_unref (wording);
  return result;
}
