/* SPDX-License-Identifier: GPL-3.0-or-later */
/* When to test next: the staircase (2-calculations 2.7). The model rule joins it with the demand
 * work.
 *
 * Source: ILAC-G24:2022 / OIML D 10 describe staircase adjustment for calibration; the numbers are
 * the house's, see docs.
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

#define SW_STAIRCASE_START_DAYS 1.0
#define SW_STAIRCASE_FACTOR 1.25
#define SW_STAIRCASE_PASSES 3
/* Share of the decided interval after which a test earns credit. */
#define SW_STAIRCASE_CREDIT 0.8

typedef struct
{
  double interval_days; /* in force before this test; real, > 0 */
  int credit;           /* straight passes counted so far, 0..2 */
} SwStaircase;

typedef enum
{
  SW_SCHEDULE_START,      /* no test yet */
  SW_SCHEDULE_LONGER,     /* the third straight pass */
  SW_SCHEDULE_SAME,       /* a pass that counts, but not yet three */
  SW_SCHEDULE_EARLY,      /* a pass that came too early to count */
  SW_SCHEDULE_RETEST,     /* a re-test never counts */
  SW_SCHEDULE_HALVED,     /* acid found */
  SW_SCHEDULE_RETURNED,   /* back to one day: acid above the set size, new soil, leak, restart, a
                             correction that would have put the test off */
  SW_SCHEDULE_AT_LONGEST, /* would be longer, held at the plan's longest */
  SW_SCHEDULE_AT_SHORTEST,
  SW_N_SCHEDULE_REASONS
} SwScheduleReason;

typedef struct
{
  gboolean acid;          /* the test found acid (or is over range) */
  gboolean retest;        /* it was a re-test after a dose */
  gboolean back_to_start; /* acid above the set size, new soil, leak, restart */
  double elapsed_days;    /* since the last routine test closed; INFINITY for the first; >= 0 */
  gboolean on_due_day;    /* done on the day that the last decision named, or later: it earns credit
                             even    where rounding that day down left less than the share above */
} SwScheduleFacts;

typedef struct
{
  double shortest_days; /* default 1 */
  double longest_days;  /* default 7 */
} SwScheduleLimits;

/* The staircase after a test. Before the first test pass @facts NULL (and @before may be NULL): it
 * starts at one day, within the limits. A re-test that passes changes nothing; acid halves whatever
 * the test was. An interval outside the limits is brought inside, and the reason says so. Errors:
 * limits that cross, are not finite or <= 0; a negative elapsed time. */
gboolean sw_schedule_advance (const SwStaircase *before,
                              const SwScheduleFacts *facts,
                              const SwScheduleLimits *limits,
                              SwStaircase *after,
                              SwScheduleReason *reason,
                              GError **error);

const char *sw_schedule_reason_name (SwScheduleReason reason);
gboolean sw_schedule_reason_from_name (const char *name, SwScheduleReason *reason);

G_END_DECLS
