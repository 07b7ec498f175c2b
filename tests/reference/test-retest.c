/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The re-test: "net acid (2,3] drops, dose 3, repeatability 0.5, volume doubt 6 %, no rate:
 * expected -2.07 to +1.07 (2 u), so a re-test of 1 drop is no contradiction" (reference figures of
 * the design, recomputed); the volumes by hand. */
#include "calc/retest.h"
#include "support/support.h"

#include <math.h>

static const SwRetestInput example = { .before = { 2, 3 },
                                       .after = { 0, 1 },
                                       .dose = 3.0,
                                       .repeatability = 0.5,
                                       .u_relative = 0.06,
                                       .system_l = 420.0,
                                       .half_width_l = 50.0 };

static void
test_example (void)
{
  SwRetest result;

  g_assert_true (sw_retest_compare (&example, &result));
  sw_assert_close (result.expected, -0.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (result.likely.low, -2.0693735, 1e-5);
  g_assert_cmpfloat_with_epsilon (result.likely.high, 1.0693735, 1e-5);
  g_assert_true (result.agrees);
}

typedef struct
{
  const char *name;
  SwInterval after;
  double used;
  gboolean agrees;
  SwInterval volume; /* 420 L * 3 drops = 1260 L drops over the difference */
  gboolean doubtful;
} AfterRow;

static const AfterRow after_rows[] = {
  { "passed", { -INFINITY, 0 }, 0, TRUE, { 0.0, 630.0 }, FALSE },
  { "one drop", { 0, 1 }, 0, TRUE, { 420.0, 1260.0 }, FALSE },
  { "two drops", { 1, 2 }, 0, TRUE, { 630.0, INFINITY }, TRUE },
  { "three drops", { 2, 3 }, 0, FALSE, { 1260.0, INFINITY }, TRUE },
  { "four drops", { 3, 4 }, 0, FALSE, { NAN, NAN }, FALSE },
  { "three drops, two were used", { 2, 3 }, 2, TRUE, { 420.0, 1260.0 }, FALSE },
  { "far below", { -6, -4 }, 0, FALSE, { 140.0, 210.0 }, TRUE },
};

static void
test_after (gconstpointer data)
{
  const AfterRow *row = data;
  SwRetestInput input = example;
  SwRetest result;

  input.after = row->after;
  input.used = row->used;
  g_assert_true (sw_retest_compare (&input, &result));
  g_assert_true (result.agrees == row->agrees);
  g_assert_true (result.volume == row->doubtful);
  sw_assert_close (result.volume_l.low, row->volume.low, 1e-12);
  sw_assert_close (result.volume_l.high, row->volume.high, 1e-12);
}

static void
test_open (void)
{
  SwRetestInput input = example;
  SwRetest result;

  input.before.high = INFINITY;
  g_assert_false (sw_retest_compare (&input, &result));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reference/retest/example", test_example);
  SW_TEST_ROWS ("/reference/retest/after", after_rows, test_after);
  g_test_add_func ("/reference/retest/open", test_open);
  return g_test_run ();
}
