/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The staircase, rule by rule. Its long-run share of acid results is in tests/reference. */
#include "calc/schedule.h"
#include "support/support.h"

typedef struct
{
  const char *name;
  SwStaircase before;
  SwScheduleFacts facts;
  SwScheduleLimits limits;
  SwStaircase after;
  SwScheduleReason reason;
} Row;

#define WEEK                                                                                       \
  {                                                                                                \
    1, 7                                                                                           \
  }

/* clang-format off */
static const Row rows[] = {
  { "first test passes", { 1, 0 }, { .elapsed_days = INFINITY }, WEEK, { 1, 1 }, SW_SCHEDULE_SAME },
  { "second pass", { 1, 1 }, { .elapsed_days = 1 }, WEEK, { 1, 2 }, SW_SCHEDULE_SAME },
  { "third pass", { 1, 2 }, { .elapsed_days = 1 }, WEEK, { 1.25, 0 }, SW_SCHEDULE_LONGER },
  { "real number", { 1.25, 2 }, { .elapsed_days = 1.3 }, WEEK, { 1.5625, 0 }, SW_SCHEDULE_LONGER },
  { "at 0.8", { 5, 0 }, { .elapsed_days = 4 }, WEEK, { 5, 1 }, SW_SCHEDULE_SAME },
  { "just before 0.8", { 5, 1 }, { .elapsed_days = 3.99 }, WEEK, { 5, 1 }, SW_SCHEDULE_EARLY },
  { "before 0.8, but on its day", { 1.5625, 0 }, { .elapsed_days = 1, .on_due_day = TRUE }, WEEK, { 1.5625, 1 }, SW_SCHEDULE_SAME },
  { "acid on its day", { 1.5625, 2 }, { .acid = TRUE, .elapsed_days = 1, .on_due_day = TRUE }, { 0.5, 7 }, { 0.78125, 0 }, SW_SCHEDULE_HALVED },
  { "re-test on its day", { 5, 2 }, { .retest = TRUE, .elapsed_days = 5, .on_due_day = TRUE }, WEEK, { 5, 2 }, SW_SCHEDULE_RETEST },
  { "at once", { 5, 2 }, { .elapsed_days = 0 }, WEEK, { 5, 2 }, SW_SCHEDULE_EARLY },
  { "re-test passes", { 5, 2 }, { .retest = TRUE, .elapsed_days = 5 }, WEEK, { 5, 2 }, SW_SCHEDULE_RETEST },
  { "re-test finds acid", { 4, 0 }, { .acid = TRUE, .retest = TRUE, .elapsed_days = 1 }, WEEK, { 2, 0 }, SW_SCHEDULE_HALVED },
  { "acid", { 5, 2 }, { .acid = TRUE, .elapsed_days = 5 }, WEEK, { 2.5, 0 }, SW_SCHEDULE_HALVED },
  { "acid, early", { 5, 2 }, { .acid = TRUE, .elapsed_days = 1 }, WEEK, { 2.5, 0 }, SW_SCHEDULE_HALVED },
  { "acid at the shortest", { 1, 1 }, { .acid = TRUE, .elapsed_days = 1 }, WEEK, { 1, 0 }, SW_SCHEDULE_AT_SHORTEST },
  { "acid just above the shortest", { 1.25, 1 }, { .acid = TRUE, .elapsed_days = 1 }, WEEK, { 1, 0 }, SW_SCHEDULE_AT_SHORTEST },
  { "acid to exactly the shortest", { 2, 1 }, { .acid = TRUE, .elapsed_days = 1 }, WEEK, { 1, 0 }, SW_SCHEDULE_HALVED },
  { "back to start", { 5, 2 }, { .back_to_start = TRUE, .elapsed_days = 5 }, WEEK, { 1, 0 }, SW_SCHEDULE_RETURNED },
  { "much acid", { 5, 2 }, { .acid = TRUE, .back_to_start = TRUE, .elapsed_days = 5 }, WEEK, { 1, 0 }, SW_SCHEDULE_RETURNED },
  { "back to start, held at the shortest", { 5, 2 }, { .back_to_start = TRUE, .elapsed_days = 5 }, { 2, 7 }, { 2, 0 }, SW_SCHEDULE_RETURNED },
  { "held at the longest", { 6, 2 }, { .elapsed_days = 6 }, WEEK, { 7, 0 }, SW_SCHEDULE_AT_LONGEST },
  { "stays at the longest", { 7, 2 }, { .elapsed_days = 7 }, WEEK, { 7, 0 }, SW_SCHEDULE_AT_LONGEST },
  { "to exactly the longest", { 8, 2 }, { .elapsed_days = 8 }, { 1, 10 }, { 10, 0 }, SW_SCHEDULE_LONGER },
  { "the longest was lowered", { 14, 0 }, { .elapsed_days = 14 }, WEEK, { 7, 1 }, SW_SCHEDULE_AT_LONGEST },
  { "the shortest was raised", { 1, 0 }, { .elapsed_days = 1 }, { 2, 7 }, { 2, 1 }, SW_SCHEDULE_AT_SHORTEST },
};
/* clang-format on */

typedef struct
{
  const char *name;
  SwStaircase before;
  SwScheduleFacts facts;
  SwScheduleLimits limits;
  SwFaultCode code;
  SwQuantityName quantity;
} ErrorRow;

/* clang-format off */
static const ErrorRow error_rows[] = {
  { "limits cross", { 1, 0 }, { .elapsed_days = 1 }, { 7, 1 }, SW_FAULT_ORDER, SW_QUANTITY_LONGEST },
  { "shortest 0", { 1, 0 }, { .elapsed_days = 1 }, { 0, 7 }, SW_FAULT_RANGE, SW_QUANTITY_SHORTEST },
  { "shortest negative", { 1, 0 }, { .elapsed_days = 1 }, { -1, 7 }, SW_FAULT_RANGE, SW_QUANTITY_SHORTEST },
  { "shortest NaN", { 1, 0 }, { .elapsed_days = 1 }, { NAN, 7 }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_SHORTEST },
  { "longest negative", { 1, 0 }, { .elapsed_days = 1 }, { 1, -7 }, SW_FAULT_RANGE, SW_QUANTITY_LONGEST },
  { "longest infinite", { 1, 0 }, { .elapsed_days = 1 }, { 1, INFINITY }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_LONGEST },
  { "longest NaN", { 1, 0 }, { .elapsed_days = 1 }, { 1, NAN }, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_LONGEST },
  { "elapsed negative", { 1, 0 }, { .elapsed_days = -0.1 }, WEEK, SW_FAULT_RANGE, SW_QUANTITY_INTERVAL },
  { "elapsed NaN", { 1, 0 }, { .elapsed_days = NAN }, WEEK, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_INTERVAL },
  { "interval 0", { 0, 0 }, { .elapsed_days = 1 }, WEEK, SW_FAULT_RANGE, SW_QUANTITY_INTERVAL },
  { "interval NaN", { NAN, 0 }, { .elapsed_days = 1 }, WEEK, SW_FAULT_NOT_A_NUMBER, SW_QUANTITY_INTERVAL },
  { "credit 3", { 1, 3 }, { .elapsed_days = 1 }, WEEK, SW_FAULT_RANGE, SW_QUANTITY_COUNT },
  { "credit -1", { 1, -1 }, { .elapsed_days = 1 }, WEEK, SW_FAULT_RANGE, SW_QUANTITY_COUNT },
};
/* clang-format on */

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (GError) error = NULL;
  SwStaircase after;
  SwScheduleReason reason;

  g_assert_true (
      sw_schedule_advance (&row->before, &row->facts, &row->limits, &after, &reason, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (sw_schedule_reason_name (reason), ==, sw_schedule_reason_name (row->reason));
  sw_assert_close (after.interval_days, row->after.interval_days, 1e-15);
  g_assert_cmpint (after.credit, ==, row->after.credit);
}

static void
test_error (gconstpointer data)
{
  const ErrorRow *row = data;
  g_autoptr (GError) error = NULL;
  SwStaircase after = { 77, 0 };
  SwScheduleReason reason = SW_SCHEDULE_SAME;

  g_assert_false (
      sw_schedule_advance (&row->before, &row->facts, &row->limits, &after, &reason, &error));
  sw_assert_fault (&error, row->code, row->quantity);
  g_assert_cmpfloat (after.interval_days, ==, 77);
}

static void
test_start (void)
{
  SwScheduleLimits wide = { 0.5, 7 };
  SwScheduleLimits late = { 2, 7 };
  SwStaircase after;
  SwScheduleReason reason;

  g_assert_true (sw_schedule_advance (NULL, NULL, &wide, &after, &reason, NULL));
  g_assert_cmpfloat (after.interval_days, ==, 1);
  g_assert_cmpint (after.credit, ==, 0);
  g_assert_cmpint ((int)reason, ==, SW_SCHEDULE_START);
  g_assert_true (sw_schedule_advance (NULL, NULL, &late, &after, &reason, NULL));
  g_assert_cmpfloat (after.interval_days, ==, 2);
}

static void
test_names (void)
{
  SwScheduleReason reason;

  for (int i = 0; i < SW_N_SCHEDULE_REASONS; i++)
    {
      g_assert_true (
          sw_schedule_reason_from_name (sw_schedule_reason_name ((SwScheduleReason)i), &reason));
      g_assert_cmpint ((int)reason, ==, i);
    }
  g_assert_false (sw_schedule_reason_from_name ("sooner", &reason));
}

/* Property: the interval never leaves the limits, and grows by no more than a quarter at a time. */
static void
test_fuzz (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20261124);
  SwScheduleLimits limits = { 0.5, 14 };
  SwStaircase staircase = { 1, 0 };

  for (int i = 0; i < 100000; i++)
    {
      SwScheduleFacts facts = { .acid = g_rand_int_range (random, 0, 12) == 0,
                                .retest = g_rand_int_range (random, 0, 9) == 0,
                                .back_to_start = g_rand_int_range (random, 0, 60) == 0,
                                .elapsed_days = g_rand_double_range (random, 0, 20) };
      double last = staircase.interval_days;
      SwScheduleReason reason;

      g_assert_true (sw_schedule_advance (&staircase, &facts, &limits, &staircase, &reason, NULL));
      g_assert_cmpfloat (staircase.interval_days, >=, limits.shortest_days);
      g_assert_cmpfloat (staircase.interval_days, <=, limits.longest_days);
      if (!facts.back_to_start)
        g_assert_cmpfloat (staircase.interval_days, <=, last * 1.25 + 1e-12);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/schedule/row", rows, test_row);
  SW_TEST_ROWS ("/schedule/error", error_rows, test_error);
  g_test_add_func ("/schedule/start", test_start);
  g_test_add_func ("/schedule/names", test_names);
  g_test_add_func ("/schedule/fuzz", test_fuzz);
  return g_test_run ();
}
