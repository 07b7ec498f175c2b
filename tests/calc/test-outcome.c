/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings to outcome: the table of the design's 2.1, row by row. A row's readings are written as
 * text: "a0 n1 n1" is acid at 0, neutral at 1, neutral at 1; "b" between, "k" alkaline; "/" after a
 * reading strikes it, "!" says that its drops were not added. */
#include "calc/outcome.h"
#include "support/support.h"

#include <string.h>

#define NONE NAN

typedef struct
{
  const char *name;
  SwMethodFacts method;
  const char *readings;
  SwOutcomeKind kind;
  SwNext next;
  SwInterval net;
  double acid_at;
  double pass_at;
} Row;

#define BASE                                                                                       \
  {                                                                                                \
    SW_DIRECTION_BASE, 10, 0, 0                                                                    \
  }
#define BLANK(b)                                                                                   \
  {                                                                                                \
    SW_DIRECTION_BASE, 10, b, 0                                                                    \
  }
#define CAUSTIC(c)                                                                                 \
  {                                                                                                \
    SW_DIRECTION_BASE, 10, 0, c                                                                    \
  }
#define ACID                                                                                       \
  {                                                                                                \
    SW_DIRECTION_ACID, 10, 0, 0                                                                    \
  }
#define OPEN                                                                                       \
  {                                                                                                \
    NAN, NAN                                                                                       \
  }

/* clang-format off */
static const Row rows[] = {
  /* open, with the next action */
  { "nothing yet", BASE, "", SW_OUTCOME_OPEN, SW_NEXT_READ_FIRST, OPEN, NONE, NONE },
  { "acid at 0", BASE, "a0", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 0, NONE },
  { "pass at 0 wants a second strip", BASE, "n0", SW_OUTCOME_OPEN, SW_NEXT_SECOND_STRIP, OPEN, NONE, NONE },
  { "pass at 3 wants a second strip", BASE, "a0 a2 n3", SW_OUTCOME_OPEN, SW_NEXT_SECOND_STRIP, OPEN, 2, NONE },
  { "second strip acid", BASE, "a2 n3 a3", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 3, NONE },
  { "second strip between", BASE, "a2 n3 b3", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 2, NONE },
  { "between", BASE, "a2 b3", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 2, NONE },
  { "between at 0", BASE, "b0", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, NONE, NONE },
  { "between twice closes nothing", BASE, "a2 b3 b3", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 2, NONE },
  { "between at the maximum", BASE, "a9 b10", SW_OUTCOME_OPEN, SW_NEXT_READ_AGAIN, OPEN, 9, NONE },
  { "first reading passes above 0", BASE, "n2", SW_OUTCOME_OPEN, SW_NEXT_FRESH_PORTION, OPEN, NONE, NONE },
  { "and a second strip does not help", BASE, "n2 n2", SW_OUTCOME_OPEN, SW_NEXT_FRESH_PORTION, OPEN, NONE, NONE },
  { "between at 0, pass above", BASE, "b0 n1 n1", SW_OUTCOME_OPEN, SW_NEXT_FRESH_PORTION, OPEN, NONE, NONE },
  { "acid after a blind pass", BASE, "n2 a2", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 2, NONE },
  { "acid after a held pass reopens", BASE, "a2 n3 n3 a3", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 3, NONE },
  { "acid after a pass at 0 reopens", BASE, "n0 n0 a0", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 0, NONE },
  { "pass at the acid's own total", BASE, "a3 n3 n3", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 3, NONE },
  { "pass at a higher total starts anew", BASE, "a2 n3 n4", SW_OUTCOME_OPEN, SW_NEXT_SECOND_STRIP, OPEN, 2, NONE },
  /* struck readings */
  { "struck first reading", BASE, "a0/", SW_OUTCOME_OPEN, SW_NEXT_READ_FIRST, OPEN, NONE, NONE },
  { "struck, the drops are in", BASE, "a0 n1/", SW_OUTCOME_OPEN, SW_NEXT_READ_AGAIN, OPEN, 0, NONE },
  { "struck first reading above 0", BASE, "a2/", SW_OUTCOME_OPEN, SW_NEXT_READ_AGAIN, OPEN, NONE, NONE },
  { "struck second strip", BASE, "a0 n1 n1/", SW_OUTCOME_OPEN, SW_NEXT_SECOND_STRIP, OPEN, 0, NONE },
  { "struck pass, drop on top", BASE, "a0 n1 k2/", SW_OUTCOME_OPEN, SW_NEXT_READ_AGAIN, OPEN, 0, NONE },
  { "struck, not added", BASE, "a0 n5/! a1", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 1, NONE },
  { "not added alone voids all", BASE, "a0 n5!", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 0, NONE },
  { "struck 0: the first counted passes above", BASE, "a0/ n1", SW_OUTCOME_OPEN, SW_NEXT_FRESH_PORTION, OPEN, NONE, NONE },
  { "struck acid does not bound", BASE, "a1 a2/ n3 n3", SW_OUTCOME_ACID_FOUND, SW_NEXT_ONE_BY_ONE, { 1, 3 }, 1, 3 },
  { "not added keeps the bound", BASE, "a2 n3/! n3 n3", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 2, 3 }, 2, 3 },
  { "struck after closing", BASE, "a2 n3 n3 b4/", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 2, 3 }, 2, 3 },
  { "struck acid at the pass", BASE, "a2 a3/ n3 n3", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 2, 3 }, 2, 3 },
  /* passed */
  { "passed", BASE, "n0 n0", SW_OUTCOME_PASSED, SW_NEXT_CLOSE, { -INFINITY, 0 }, NONE, 0 },
  { "passed, alkaline", BASE, "k0 n0", SW_OUTCOME_PASSED, SW_NEXT_CLOSE, { -INFINITY, 0 }, NONE, 0 },
  { "passed, third strip", BASE, "n0 n0 n0", SW_OUTCOME_PASSED, SW_NEXT_CLOSE, { -INFINITY, 0 }, NONE, 0 },
  { "passed, counting caustic", CAUSTIC (20), "k0 k0", SW_OUTCOME_PASSED, SW_NEXT_CLOSE, { -INFINITY, 20 }, NONE, 0 },
  /* acid found */
  { "acid found", BASE, "a0 a1 a2 n3 n3", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 2, 3 }, 2, 3 },
  { "acid found, green then blue", BASE, "a0 n1 k1", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 0, 1 }, 0, 1 },
  { "several drops at once", BASE, "a0 a5 n8 n8", SW_OUTCOME_ACID_FOUND, SW_NEXT_ONE_BY_ONE, { 5, 8 }, 5, 8 },
  { "two at once", BASE, "a0 n2 n2", SW_OUTCOME_ACID_FOUND, SW_NEXT_ONE_BY_ONE, { 0, 2 }, 0, 2 },
  { "a tenth of the end point", { SW_DIRECTION_BASE, 99, 0, 0 }, "a27 n30 n30", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 27, 30 }, 27, 30 },
  { "just over a tenth", { SW_DIRECTION_BASE, 99, 0, 0 }, "a26 n29 n29", SW_OUTCOME_ACID_FOUND, SW_NEXT_ONE_BY_ONE, { 26, 29 }, 26, 29 },
  { "just over one step", BASE, "a0.995 n2 n2", SW_OUTCOME_ACID_FOUND, SW_NEXT_ONE_BY_ONE, { 0.995, 2 }, 0.995, 2 },
  { "a hair over a tenth", { SW_DIRECTION_BASE, 200, 0, 0 }, "a89.95 n100 n100", SW_OUTCOME_ACID_FOUND, SW_NEXT_ONE_BY_ONE, { 89.95, 100 },
    89.95, 100 },
  { "between keeps both bounds", BASE, "a2 b3 n4 n4", SW_OUTCOME_ACID_FOUND, SW_NEXT_ONE_BY_ONE, { 2, 4 }, 2, 4 },
  { "between after it held", BASE, "a2 n3 n3 b3", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 2, 3 }, 2, 3 },
  { "reopened, then found", BASE, "a2 n3 a3 n4 n4", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 3, 4 }, 3, 4 },
  { "reopened after holding, then found", BASE, "a2 n3 n3 a3 n4 n4", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 3, 4 }, 3, 4 },
  { "acid found, counting caustic", CAUSTIC (20), "a0 a2 n3 n3", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 22, 23 }, 2, 3 },
  { "burette", BASE, "a0 a1.9 n2 n2", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 1.9, 2 }, 1.9, 2 },
  { "passes at the maximum", BASE, "a9 n10 n10", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 9, 10 }, 9, 10 },
  /* blank */
  { "passed at 0 with a blank", BLANK (2), "n0 n0", SW_OUTCOME_PASSED, SW_NEXT_CLOSE, { -INFINITY, -1 }, NONE, 0 },
  { "passed at the blank", BLANK (2), "a0 a1 n2 n2", SW_OUTCOME_PASSED, SW_NEXT_CLOSE, { -INFINITY, 1 }, 1, 2 },
  { "first reading passes up to the blank", BLANK (2), "n2 n2", SW_OUTCOME_PASSED, SW_NEXT_CLOSE, { -INFINITY, 1 }, NONE, 2 },
  { "first reading passes above the blank", BLANK (2), "n3 n3", SW_OUTCOME_OPEN, SW_NEXT_FRESH_PORTION, OPEN, NONE, NONE },
  { "acid found with a blank", BLANK (2), "a0 a3 n4 n4", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 1, 3 }, 3, 4 },
  { "acid found one above the blank", BLANK (1), "a0 a1 n2 n2", SW_OUTCOME_ACID_FOUND, SW_NEXT_CLOSE, { 0, 2 }, 1, 2 },
  { "acid found over the blank from below", BLANK (2), "a1 n3 n3", SW_OUTCOME_ACID_FOUND, SW_NEXT_ONE_BY_ONE, { -1, 2 }, 1, 3 },
  /* over range */
  { "over range", BASE, "a0 a10", SW_OUTCOME_OVER_RANGE, SW_NEXT_STOP_AND_CALL, { 10, INFINITY }, 10, NONE },
  { "over range, past the maximum", BASE, "a0 a12", SW_OUTCOME_OVER_RANGE, SW_NEXT_STOP_AND_CALL, { 12, INFINITY }, 12, NONE },
  { "over range stays over range", BASE, "a10 n11 n11", SW_OUTCOME_OVER_RANGE, SW_NEXT_STOP_AND_CALL, { 10, INFINITY }, 10, NONE },
  { "over range struck", BASE, "a9 a10/", SW_OUTCOME_OPEN, SW_NEXT_READ_AGAIN, OPEN, 9, NONE },
  { "over range with a blank", BLANK (2), "a10", SW_OUTCOME_OVER_RANGE, SW_NEXT_STOP_AND_CALL, { 8, INFINITY }, 10, NONE },
  { "over range, counting caustic", CAUSTIC (20), "a10", SW_OUTCOME_OVER_RANGE, SW_NEXT_STOP_AND_CALL, { 30, INFINITY }, 10, NONE },
  /* acid titrant */
  { "reserve: start", ACID, "", SW_OUTCOME_OPEN, SW_NEXT_READ_FIRST, OPEN, NONE, NONE },
  { "reserve: alkaline at 0", ACID, "k0", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 0, NONE },
  { "reserve found", ACID, "k0 k3 n4 n4", SW_OUTCOME_RESERVE_FOUND, SW_NEXT_CLOSE, { -4, -3 }, 3, 4 },
  { "reserve found, acid field", ACID, "k0 a1 n1", SW_OUTCOME_RESERVE_FOUND, SW_NEXT_CLOSE, { -1, 0 }, 0, 1 },
  { "reserve wants a second strip", ACID, "k0 k3 n4", SW_OUTCOME_OPEN, SW_NEXT_SECOND_STRIP, OPEN, 3, NONE },
  { "reserve: between closes nothing", ACID, "k3 b4", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 3, NONE },
  { "reserve reopened", ACID, "k3 n4 n4 k4", SW_OUTCOME_OPEN, SW_NEXT_ADD, OPEN, 4, NONE },
  { "no reserve", ACID, "n0 n0", SW_OUTCOME_NO_RESERVE, SW_NEXT_CLOSE, { 0, INFINITY }, NONE, 0 },
  { "no reserve, acid", ACID, "a0 a0", SW_OUTCOME_NO_RESERVE, SW_NEXT_CLOSE, { 0, INFINITY }, NONE, 0 },
  { "reserve: blind end point", ACID, "n2 n2", SW_OUTCOME_OPEN, SW_NEXT_FRESH_PORTION, OPEN, NONE, NONE },
  { "reserve over range", ACID, "k0 k10", SW_OUTCOME_RESERVE_OVER_RANGE, SW_NEXT_CLOSE, { -INFINITY, -10 }, 10, NONE },
};
/* clang-format on */

typedef struct
{
  const char *name;
  SwMethodFacts method;
  const char *readings;
  SwFaultCode code;
  SwQuantityName quantity;
} ErrorRow;

/* clang-format off */
static const ErrorRow error_rows[] = {
  { "totals fall", BASE, "a0 a2 a1", SW_FAULT_ORDER, SW_QUANTITY_READING_TOTAL },
  { "totals fall past a struck one", BASE, "a0 a2/ a1", SW_FAULT_ORDER, SW_QUANTITY_READING_TOTAL },
  { "negative", BASE, "a-1", SW_FAULT_RANGE, SW_QUANTITY_READING_TOTAL },
  { "negative, not added", BASE, "a-1!", SW_FAULT_RANGE, SW_QUANTITY_READING_TOTAL },
  { "NaN", BASE, "anan", SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_READING_TOTAL },
  { "infinite", BASE, "ainf", SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_READING_TOTAL },
  { "absurd", BASE, "a1e6", SW_FAULT_RANGE, SW_QUANTITY_READING_TOTAL },
  { "maximum 0", { SW_DIRECTION_BASE, 0, 0, 0 }, "", SW_FAULT_RANGE, SW_QUANTITY_MAXIMUM },
  { "maximum negative", { SW_DIRECTION_BASE, -1, 0, 0 }, "", SW_FAULT_RANGE, SW_QUANTITY_MAXIMUM },
  { "maximum NaN", { SW_DIRECTION_BASE, NAN, 0, 0 }, "", SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_MAXIMUM },
  { "maximum infinite", { SW_DIRECTION_BASE, INFINITY, 0, 0 }, "", SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_MAXIMUM },
  { "blank negative", BLANK (-1), "", SW_FAULT_RANGE, SW_QUANTITY_BLANK },
  { "blank NaN", BLANK (NAN), "", SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_BLANK },
  { "caustic negative", CAUSTIC (-1), "", SW_FAULT_RANGE, SW_QUANTITY_CAUSTIC },
  { "caustic NaN", CAUSTIC (NAN), "", SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_CAUSTIC },
  { "blank and caustic", { SW_DIRECTION_BASE, 10, 1, 5 }, "", SW_FAULT_COMBINATION, SW_QUANTITY_BLANK },
  { "blank, acid titrant", { SW_DIRECTION_ACID, 10, 1, 0 }, "", SW_FAULT_COMBINATION, SW_QUANTITY_BLANK },
  { "caustic, acid titrant", { SW_DIRECTION_ACID, 10, 0, 5 }, "", SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC },
};
/* clang-format on */

static SwField
parse_field (char letter)
{
  switch (letter)
    {
    case 'a':
      return SW_FIELD_ACID;
    case 'b':
      return SW_FIELD_BETWEEN;
    case 'n':
      return SW_FIELD_NEUTRAL;
    case 'k':
      return SW_FIELD_ALKALINE;
    default:
      g_assert_not_reached ();
    }
}

static GArray *
parse_readings (const char *text)
{
  GArray *readings = g_array_new (FALSE, FALSE, sizeof (SwReading));
  g_auto (GStrv) words = g_strsplit (text, " ", -1);

  for (gsize i = 0; words[i] != NULL && words[i][0] != '\0'; i++)
    {
      SwReading reading = { .total = g_ascii_strtod (words[i] + 1, NULL),
                            .field = parse_field (words[i][0]),
                            .struck = strchr (words[i], '/') != NULL,
                            .not_added = strchr (words[i], '!') != NULL };
      g_array_append_val (readings, reading);
    }
  return readings;
}

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (GArray) readings = parse_readings (row->readings);
  g_autoptr (GError) error = NULL;
  SwOutcome outcome;

  g_assert_true (sw_outcome_compute (&row->method, (const SwReading *)readings->data, readings->len,
                                     &outcome, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (sw_outcome_name (outcome.kind), ==, sw_outcome_name (row->kind));
  g_assert_cmpstr (sw_next_name (outcome.next), ==, sw_next_name (row->next));
  sw_assert_close (outcome.net.low, row->net.low, 1e-12);
  sw_assert_close (outcome.net.high, row->net.high, 1e-12);
  sw_assert_close (outcome.acid_at, row->acid_at, 0);
  sw_assert_close (outcome.pass_at, row->pass_at, 0);
}

static void
test_error (gconstpointer data)
{
  const ErrorRow *row = data;
  g_autoptr (GArray) readings = parse_readings (row->readings);
  g_autoptr (GError) error = NULL;
  SwOutcome outcome = { .total = 77 };

  g_assert_false (sw_outcome_compute (&row->method, (const SwReading *)readings->data,
                                      readings->len, &outcome, &error));
  sw_assert_fault (&error, row->code, row->quantity);
  g_assert_cmpfloat (outcome.total, ==, 77);
}

/* The flask's total counts struck drops, not those that never went in. */
static void
test_total (void)
{
  SwMethodFacts method = BASE;
  g_autoptr (GArray) readings = parse_readings ("a0 a2 n3/ n5/!");
  SwOutcome outcome;

  g_assert_true (sw_outcome_compute (&method, (const SwReading *)readings->data, readings->len,
                                     &outcome, NULL));
  g_assert_cmpfloat (outcome.total, ==, 3);
}

static void
check_property (const SwOutcome *outcome)
{
  if (outcome->kind == SW_OUTCOME_OPEN)
    {
      g_assert_true (isnan (outcome->net.low) && isnan (outcome->net.high));
      g_assert_cmpint ((int)outcome->next, !=, SW_NEXT_CLOSE);
      return;
    }
  g_assert_cmpfloat (outcome->net.low, <, outcome->net.high);
  if (!isnan (outcome->acid_at) && !isnan (outcome->pass_at))
    g_assert_cmpfloat (outcome->acid_at, <, outcome->pass_at);
}

/* Property: whatever the readings, a closed outcome has an ordered interval and an open one names
 * something to do. */
static void
test_fuzz (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20261124);

  for (int i = 0; i < 200000; i++)
    {
      SwMethodFacts method = { SW_DIRECTION_BASE, g_rand_int_range (random, 1, 12), 0, 0 };
      SwReading readings[12] = { 0 };
      gsize n = (gsize)g_rand_int_range (random, 0, 13);
      double total = g_rand_int_range (random, 0, 2);
      SwOutcome outcome;

      if (g_rand_boolean (random))
        method.direction = SW_DIRECTION_ACID;
      else if (g_rand_boolean (random))
        method.blank = g_rand_int_range (random, 0, 4);
      else
        method.caustic_steps = g_rand_double_range (random, 0, 30);
      for (gsize k = 0; k < n; k++)
        {
          readings[k].total = total;
          readings[k].field = (SwField)g_rand_int_range (random, 0, SW_N_FIELDS);
          readings[k].struck = g_rand_int_range (random, 0, 5) == 0;
          readings[k].not_added = g_rand_int_range (random, 0, 9) == 0;
          total += readings[k].not_added ? 0 : g_rand_int_range (random, 0, 3);
        }
      g_assert_true (sw_outcome_compute (&method, readings, n, &outcome, NULL));
      check_property (&outcome);
    }
}

static void
test_names (void)
{
  SwField field;

  for (int i = 0; i < SW_N_FIELDS; i++)
    {
      g_assert_true (sw_field_from_name (sw_field_name ((SwField)i), &field));
      g_assert_cmpint ((int)field, ==, i);
    }
  g_assert_false (sw_field_from_name ("green", &field));
}

static void
test_caustic (void)
{
  /* 0.1 mmol is 20 drops of 0.05 mL at 0.1 mmol/mL. */
  sw_assert_close (sw_caustic_in_steps (0.1, 0.05, 0.1), 20, 1e-12);
  sw_assert_close (sw_caustic_in_steps (0, 0.05, 0.1), 0, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/outcome/row", rows, test_row);
  SW_TEST_ROWS ("/outcome/error", error_rows, test_error);
  g_test_add_func ("/outcome/total", test_total);
  g_test_add_func ("/outcome/fuzz", test_fuzz);
  g_test_add_func ("/outcome/names", test_names);
  g_test_add_func ("/outcome/caustic", test_caustic);
  return g_test_run ();
}
