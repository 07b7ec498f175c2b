/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences: what people read, in the source language. Every code has a sentence of its own. */
#include "support/support.h"
#include "wording/sentence.h"

#include <string.h>

#define SP "\342\200\257"
#define ALL .low = -INFINITY, .high = INFINITY

typedef struct
{
  const char *name;
  SwFault fault;
  const char *text;
} FaultRow;

/* clang-format off */
static const FaultRow fault_rows[] = {
  { "too much", { SW_FAULT_RANGE, SW_QUANTITY_SAMPLE_VOLUME, 5000, 1, 2000, SW_UNIT_ML },
    "Sample volume: 5000" SP "mL is too much. Allowed: 1 to 2000" SP "mL." },
  { "too little", { SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME, 0, 0.001, 5, SW_UNIT_ML },
    "Drop volume: 0" SP "mL is too little. Allowed: 0.001 to 5" SP "mL." },
  { "open above", { SW_FAULT_RANGE, SW_QUANTITY_COUNT, -2, 0, INFINITY, SW_UNIT_NONE },
    "Count: \342\210\222" "2 is too little. Allowed: 0 or more." },
  { "missing", { SW_FAULT_MISSING, SW_QUANTITY_SYSTEM_VOLUME, NAN, 1, 100000, SW_UNIT_LITRE },
    "System volume: nothing is entered. Allowed: 1 to 100" SP "000" SP "L." },
  { "missing text", { SW_FAULT_MISSING, SW_QUANTITY_NAME, NAN, ALL },
    "Name: nothing is entered." },
  { "no number", { SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_BLANK, NAN, 0, 100, SW_UNIT_STEP, .typed = "two" },
    "Blank: “two” is not a number. Allowed: 0 to 100 steps." },
  { "not finite", { SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_BLANK, NAN, 0, 100, SW_UNIT_STEP },
    "Blank: this is not a number. Allowed: 0 to 100 steps." },
  { "date", { SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_DATE, NAN, ALL, .typed = "24.5." },
    "Date: “24.5.” cannot be read. Type a date like 2026-05-24." },
  { "unit", { SW_FAULT_UNIT, SW_QUANTITY_SYSTEM_VOLUME, NAN, 1, 9, SW_UNIT_LITRE, .typed = "4 kg" },
    "System volume: “4 kg” needs a unit that fits, such as L." },
  { "no unit", { SW_FAULT_UNIT, SW_QUANTITY_PASS_AT, NAN, 0, 9, SW_UNIT_STEP, .typed = "4 %" },
    "First passing reading: “4 %” has a unit that does not belong here." },
  { "ambiguous", { SW_FAULT_AMBIGUOUS, SW_QUANTITY_ADDED_AMOUNT, 1234, 1.234, INFINITY, SW_UNIT_ML, .typed = "1.234" },
    "Added amount: “1.234” may mean 1.234" SP "mL or 1234" SP "mL. For the first, type one more "
    "zero at the end; for the second, leave out the mark." },
  { "comma", { SW_FAULT_DECIMAL_COMMA, SW_QUANTITY_DROP_VOLUME, NAN, 0.001, 5, SW_UNIT_ML, .typed = "0,05" },
    "Drop volume: “0,05” has a comma. Use a point." },
  { "order", { SW_FAULT_ORDER, SW_QUANTITY_READING_TOTAL, 2, 3, 1000, SW_UNIT_STEP },
    "Titrant so far: 2 steps does not fit the order of the values. Allowed: 3 to 1000 steps." },
  { "order of dates", { SW_FAULT_ORDER, SW_QUANTITY_DATE, NAN, ALL },
    "Date: this does not fit the order of the values." },
  /* `date -u -d 2026-05-24 +%s` is 1779580800 */
  { "late date", { SW_FAULT_RANGE, SW_QUANTITY_DATE, 1779580800000.0, 1, 1779000000000.0 },
    "Date: 24 May 2026 is too late." },
  { "blank", { SW_FAULT_COMBINATION, SW_QUANTITY_BLANK, 1, 0, 0, SW_UNIT_STEP },
    "A blank cannot be used together with a caustic addition, nor with an acid titrant." },
  { "combination", { SW_FAULT_COMBINATION, SW_QUANTITY_RESERVE_HIGH, 1, 0, 0, SW_UNIT_STEP },
    "High mark of the reserve: this excludes another value that is set." },
  { "coarse", { SW_FAULT_COARSE, SW_QUANTITY_GRADUATION, 500, 0, 126, SW_UNIT_ML },
    "Marks of the measuring jug: 500" SP "mL is too coarse for this dose. Use a smaller measure. "
    "Allowed: 0 to 126" SP "mL." },
  { "text", { SW_FAULT_TEXT, SW_QUANTITY_CODE, NAN, ALL, .typed = "M-07" },
    "Code: “M-07” is in use already, or is not known." },
  { "no text", { SW_FAULT_TEXT, SW_QUANTITY_CODE, NAN, 1, 40 },
    "Code: the text is empty, too long, or already in use." },
  { "long text", { SW_FAULT_TEXT, SW_QUANTITY_CODE, NAN, 1, 5, .typed = "Grün-7" },
    "Code: the text is too long. Allowed: 5 letters." },
  { "uncertainty of", { SW_FAULT_RANGE, SW_QUANTITY_UNCERTAINTY, -1, 0, 2, SW_UNIT_ML, .of = SW_QUANTITY_DROP_VOLUME },
    "Uncertainty of drop volume: \342\210\222" "1" SP "mL is too little. Allowed: 0 to 2" SP "mL." },
};

typedef struct
{
  const char *name;
  SwOutcome outcome;
  gboolean burette;
  const char *result;
  const char *next;
} OutcomeRow;

static const OutcomeRow outcome_rows[] = {
  { "open", { SW_OUTCOME_OPEN, { NAN, NAN }, NAN, NAN, 0, SW_NEXT_READ_FIRST }, FALSE,
    "The end point is not settled yet.",
    "Shake, let the layers part, and read a fresh strip before adding anything." },
  { "add", { SW_OUTCOME_OPEN, { NAN, NAN }, 1, NAN, 1, SW_NEXT_ADD }, FALSE,
    "The end point is not settled yet.", "Add a drop, shake, read a fresh strip." },
  { "add from a burette", { SW_OUTCOME_OPEN, { NAN, NAN }, 1, NAN, 1, SW_NEXT_ADD }, TRUE,
    "The end point is not settled yet.", "Add a little titrant, shake, read a fresh strip." },
  { "passed", { SW_OUTCOME_PASSED, { -INFINITY, 0 }, NAN, 0, 0, SW_NEXT_CLOSE }, FALSE,
    "Passed: the test found no acid.", "The result stands." },
  { "passed with a threshold", { SW_OUTCOME_PASSED, { -INFINITY, 2 }, NAN, 0, 0, SW_NEXT_CLOSE }, FALSE,
    "Passed: the acid is worth 2 drops at most.", "The result stands." },
  { "acid", { SW_OUTCOME_ACID_FOUND, { 2, 3 }, 2, 3, 3, SW_NEXT_CLOSE }, FALSE,
    "Acid found, worth 2 to 3 drops.", "The result stands." },
  { "wide", { SW_OUTCOME_ACID_FOUND, { 8, 13 }, 8, 13, 13, SW_NEXT_ONE_BY_ONE }, FALSE,
    "Acid found, worth 8 to 13 drops.",
    "Titrate a second portion one drop at a time from 8 drops: the last step was too wide for a dose." },
  { "over range", { SW_OUTCOME_OVER_RANGE, { 20, INFINITY }, 20, NAN, 20, SW_NEXT_STOP_AND_CALL }, FALSE,
    "Over range: the acid is worth more than 20 drops. Do not dose; call the responsible person.",
    "Stop. Do not dose. Keep people away from the vapour and call the responsible person." },
  { "reserve", { SW_OUTCOME_RESERVE_FOUND, { -5, -4 }, 4, 5, 5, SW_NEXT_CLOSE }, FALSE,
    "The solvent has an alkaline reserve of 4 to 5 drops.", "The result stands." },
  { "no reserve", { SW_OUTCOME_NO_RESERVE, { 0, INFINITY }, NAN, 0, 0, SW_NEXT_CLOSE }, FALSE,
    "The solvent has no alkaline reserve. Test it for acid with a base.", "The result stands." },
  { "reserve over range", { SW_OUTCOME_RESERVE_OVER_RANGE, { -INFINITY, -20 }, 20, NAN, 20, SW_NEXT_CLOSE }, FALSE,
    "The solvent has an alkaline reserve of 20 drops or more.", "The result stands." },
};

typedef struct
{
  const char *name;
  SwDose dose;
  double pass_at, extra;
  gboolean burette;
  const char *text;
} DoseRow;

static const DoseRow dose_rows[] = {
  { "plain", { .net = { 2, 3 }, .per_step_ml = 420, .dose_ml = { 1260, 0, 1 } }, 3, 0, FALSE,
    "3 drops × 420" SP "mL per drop = 1260" SP "mL" },
  { "extra", { .net = { 2, 3 }, .per_step_ml = 420, .dose_ml = { 2100, 0, 1 }, .extra_ml = 840 }, 3, 2, FALSE,
    "(3 drops + 2 drops extra) × 420" SP "mL per drop = 2100" SP "mL" },
  { "caustic", { .net = { 22, 23 }, .per_step_ml = 5.6, .dose_ml = { 128.8, 0, 1 } }, 3, 0, FALSE,
    "(3 drops + 20 drops for the caustic addition) × 5.6" SP "mL per drop = 128.8" SP "mL" },
  { "caustic, extra", { .net = { 22, 23 }, .per_step_ml = 5.6, .dose_ml = { 134.4, 0, 1 } }, 3, 1, FALSE,
    "(3 drops + 20 drops for the caustic addition + 1 drop extra) × 5.6" SP "mL per drop = 134.4" SP "mL" },
  { "blank", { .net = { 1, 3 }, .per_step_ml = 420, .dose_ml = { 1260, 0, 1 } }, 4, 0, FALSE,
    "(4 drops − 1 drop for the blank) × 420" SP "mL per drop = 1260" SP "mL" },
  { "burette", { .net = { 2.4, 2.5 }, .per_step_ml = 84, .dose_ml = { 210, 0, 1 } }, 2.5, 0, TRUE,
    "2.5" SP "mL × 84" SP "mL per mL = 210" SP "mL" },
  { "band", { .net = { -3, -2 }, .per_step_ml = 420, .dose_ml = { 1680, 0, 1 } }, 3, 0, FALSE,
    "4 drops short of the high mark × 420" SP "mL per drop = 1680" SP "mL" },
};
/* clang-format on */

static SwWording *
english (void)
{
  return sw_wording_new ("en", "Europe/Berlin");
}

static void
test_fault (gconstpointer data)
{
  const FaultRow *row = data;
  g_autoptr (SwWording) wording = english ();
  g_autofree char *text = sw_say_fault (wording, &row->fault);
  g_autoptr (GError) error = NULL;
  g_autofree char *from_error = NULL;

  g_assert_cmpstr (text, ==, row->text);
  sw_fault_set (&error, &row->fault);
  from_error = sw_say_error (wording, error);
  g_assert_cmpstr (from_error, ==, row->text);
}

static void
test_outcome (gconstpointer data)
{
  const OutcomeRow *row = data;
  g_autoptr (SwWording) wording = english ();
  g_autofree char *result = sw_say_result (wording, &row->outcome, row->burette);
  g_autofree char *next = sw_say_next (wording, &row->outcome, row->burette);

  g_assert_cmpstr (result, ==, row->result);
  g_assert_cmpstr (next, ==, row->next);
}

static void
test_dose (gconstpointer data)
{
  const DoseRow *row = data;
  g_autoptr (SwWording) wording = english ();
  g_autofree char *text
      = sw_say_dose_arithmetic (wording, &row->dose, row->pass_at, row->extra, row->burette);

  g_assert_cmpstr (text, ==, row->text);
}

/* Adds @text to the set; it must be there, valid, and new. */
static void
assert_new (GHashTable *seen, const char *text)
{
  g_assert_nonnull (text);
  g_assert_cmpstr (text, !=, "");
  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_null (strchr (text, '%'));
  if (!g_hash_table_add (seen, g_strdup (text)))
    g_error ("said twice: %s", text);
}

static GHashTable *
new_set (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

static void
test_facts (void)
{
  g_autoptr (SwWording) wording = english ();
  g_autoptr (GHashTable) seen = new_set ();

  for (int i = SW_FACT_NONE + 1; i < SW_N_FACTS; i++)
    {
      SwFact bare = sw_fact ((SwFactCode)i);
      SwFact full = sw_fact_with_text ((SwFactCode)i, "X-1 100% %s");
      g_autofree char *plain = sw_say_fact (wording, &bare);
      g_autofree char *filled = NULL;

      full.number[0] = 3;
      bare.number[0] = -1;
      assert_new (seen, plain);
      filled = sw_say_fact (wording, &full);
      g_assert_cmpstr (filled, !=, "");
    }
}

typedef struct
{
  const char *name;
  SwFact fact;
  const char *text;
} FactRow;

static const FactRow fact_rows[] = {
  { "none", { SW_FACT_NONE }, "" },
  { "open with next",
    { SW_FACT_OUTCOME_OPEN, { SW_NEXT_ADD } },
    "The end point is not settled yet. Add a drop, shake, read a fresh strip." },
  { "paused",
    { SW_FACT_PAUSED_TOO_LONG, { 42 } },
    "The test was paused for 42 min, which is too long. Take a fresh portion of the retained "
    "sample." },
  { "lot with a percent",
    { SW_FACT_LOT_EXPIRED, .text = "100%s" },
    "Lot 100%s has expired. Choose another one, or say why it is used." },
  { "lot without text", { SW_FACT_LOT_EXPIRED }, "This lot has expired. Say why it is used." },
  { "total",
    { SW_FACT_NO_DOSE_TOTAL, { 120 } },
    "No dose: the product's total limit for this solvent fill leaves only 120" SP "mL." },
  { "reserve",
    { SW_FACT_STATE_RESERVE, { 4 } },
    "The solvent has an alkaline reserve of 4 drops." },
};

static void
test_fact (gconstpointer data)
{
  const FactRow *row = data;
  g_autoptr (SwWording) wording = english ();
  g_autofree char *text = sw_say_fact (wording, &row->fact);

  g_assert_cmpstr (text, ==, row->text);
}

static void
test_names (void)
{
  g_autoptr (SwWording) wording = english ();
  g_autoptr (GHashTable) quantities = new_set ();
  g_autoptr (GHashTable) words = new_set ();

  for (int i = 0; i < SW_N_QUANTITIES; i++)
    assert_new (quantities, sw_say_quantity (wording, (SwQuantityName)i));
  for (int i = 0; i < SW_N_LINES; i++)
    assert_new (words, sw_say_budget_line (wording, (SwBudgetLineName)i));
  for (int i = 0; i < SW_N_FIELDS; i++)
    assert_new (words, sw_say_field (wording, (SwField)i));
  for (int i = 0; i < SW_N_OUTCOMES; i++)
    assert_new (words, sw_say_outcome (wording, (SwOutcomeKind)i));
  for (int i = 0; i < SW_N_CAUTIONS; i++)
    assert_new (words, sw_say_caution (wording, (SwCaution)i));
}

/* The line that defers stands below every caution, once: none of the others says it again. */
static void
test_cautions (void)
{
  g_autoptr (SwWording) wording = english ();

  for (int i = 0; i < SW_N_CAUTIONS; i++)
    {
      const char *text = sw_say_caution (wording, (SwCaution)i);
      g_assert_cmpint (g_str_has_suffix (text, "come before this program."), ==,
                       i == SW_CAUTION_DEFER);
    }
}

static void
test_schedule (void)
{
  g_autoptr (SwWording) wording = english ();
  g_autoptr (GHashTable) seen = new_set ();
  gint64 now = G_GINT64_CONSTANT (1779596400000); /* Sunday 24 May 2026 06:20 in Berlin */
  g_autofree char *longer
      = sw_say_schedule (wording, SW_SCHEDULE_LONGER, 1.25, now + 4 * 86400000LL, now);
  g_autofree char *one = sw_say_schedule (wording, SW_SCHEDULE_RETEST, 1, now + 86400000, now);

  g_assert_cmpstr (
      longer, ==,
      "Test due on Thursday: three tests in a row passed, so the interval is now 1.25 days.");
  g_assert_cmpstr (one, ==, "Test due tomorrow: a re-test does not change the interval of 1 day.");
  for (int i = 0; i < SW_N_SCHEDULE_REASONS; i++)
    {
      g_autofree char *text = sw_say_schedule (wording, (SwScheduleReason)i, 2, now, now);
      assert_new (seen, text);
    }
}

static void
test_dominant (void)
{
  g_autoptr (SwWording) wording = english ();
  g_autoptr (GHashTable) seen = new_set ();
  SwBudget budget = { .n = 1, .u = 1.0 };
  SwBudget empty = { .n = 0 };
  g_autofree char *none = sw_say_dominant (wording, &empty);

  assert_new (seen, none);
  for (int i = 0; i < SW_N_LINES; i++)
    for (double share = 0.3; share < 1.0; share += 0.5)
      {
        g_autofree char *text = NULL;

        budget.lines[0].name = (SwBudgetLineName)i;
        budget.lines[0].share = share;
        text = sw_say_dominant (wording, &budget);
        assert_new (seen, text);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/sentence/fault", fault_rows, test_fault);
  SW_TEST_ROWS ("/sentence/outcome", outcome_rows, test_outcome);
  SW_TEST_ROWS ("/sentence/dose", dose_rows, test_dose);
  SW_TEST_ROWS ("/sentence/fact", fact_rows, test_fact);
  g_test_add_func ("/sentence/facts", test_facts);
  g_test_add_func ("/sentence/names", test_names);
  g_test_add_func ("/sentence/cautions", test_cautions);
  g_test_add_func ("/sentence/schedule", test_schedule);
  g_test_add_func ("/sentence/dominant", test_dominant);
  return g_test_run ();
}
