/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences of the To Do page: one pair of functions per kind of task, found through a table. */
#include "wording/sentence-todo.h"

#include <glib/gi18n.h>
#include <math.h>

#include "wording/number.h"
#include "wording/sentence.h"

#define MS_PER_MIN 60000

/* Heading by count: numbers up to twelve are words in running text. */
static const char *const headings[] = {
  N_ ("Nothing to do now"),   N_ ("One thing to do"),    N_ ("Two things to do"),
  N_ ("Three things to do"),  N_ ("Four things to do"),  N_ ("Five things to do"),
  N_ ("Six things to do"),    N_ ("Seven things to do"), N_ ("Eight things to do"),
  N_ ("Nine things to do"),   N_ ("Ten things to do"),   N_ ("Eleven things to do"),
  N_ ("Twelve things to do"),
};

/* ---- over range ---- */

static char *
say_over_range_title (const SwWording *wording, const SwTaskFacts *facts)
{
  /* Translators: %s is a machine */
  return g_strdup_printf (sw_tr (wording, "%s: over range, stop"), facts->subject);
}

static char *
say_over_range_text (const SwWording *wording, const SwTaskFacts *facts)
{
  return g_strdup (sw_tr (wording,
                          "More acid than the method can measure. Keep people away from vapour and "
                          "call the person responsible. No dose is worked out."));
}

/* ---- a dose to record ---- */

static char *
say_record_dose_title (const SwWording *wording, const SwTaskFacts *facts)
{
  /* Translators: %s is a machine */
  return g_strdup_printf (sw_tr (wording, "%s: was the dose added?"), facts->subject);
}

static char *
say_record_dose_text (const SwWording *wording, const SwTaskFacts *facts)
{
  if (isnan (facts->total) || facts->since_ms == 0)
    return g_strdup (
        sw_tr (wording, "A dose was worked out, and nobody has recorded what was added."));

  g_autofree char *amount = sw_volume_format (wording, facts->total);
  g_autofree char *clock = sw_clock_format (wording, facts->since_ms);
  g_autofree char *day = sw_day_format (wording, facts->since_ms, facts->now_ms);
  /* Translators: an amount of liquid, a day such as "today" or "on 13 June", a time of day */
  return g_strdup_printf (
      sw_tr (wording,
             "%s was worked out %s at %s. Record what was really added, or that nothing was."),
      amount, day, clock);
}

/* ---- a test left open ---- */

static char *
say_resume_title (const SwWording *wording, const SwTaskFacts *facts)
{
  /* Translators: %s is a machine */
  return g_strdup_printf (sw_tr (wording, "%s: a test was left open"), facts->subject);
}

static char *
say_resume_text (const SwWording *wording, const SwTaskFacts *facts)
{
  if (isnan (facts->total) || facts->total <= 0)
    return g_strdup (sw_tr (wording, "No titrant is in the flask yet. Go on where it was left."));

  g_autofree char *steps = sw_step_count_format (wording, facts->total, facts->burette);
  if (facts->since_ms == 0)
    /* Translators: %s is "2 drops" or "2.5 mL" */
    return g_strdup_printf (sw_tr (wording, "%s counted so far."), steps);

  g_autofree char *clock = sw_clock_format (wording, facts->since_ms);
  if (facts->now_ms - facts->since_ms <= (gint64)(facts->good_min * MS_PER_MIN))
    /* Translators: "2 drops" or "2.5 mL", a time of day */
    return g_strdup_printf (sw_tr (wording, "%s counted, left at %s."), steps, clock);

  g_autofree char *day = sw_day_format (wording, facts->since_ms, facts->now_ms);
  g_autofree char *good = sw_duration_format (wording, (gint64)(facts->good_min * MS_PER_MIN));
  /* Translators: "2 drops" or "2.5 mL", a day such as "today", a time of day, "30 min" */
  return g_strdup_printf (
      sw_tr (wording, "%s counted, left %s at %s. The portion is older than %s: take a fresh one."),
      steps, day, clock, good);
}

/* ---- acid found, no dose yet ---- */

static char *
say_dose_title (const SwWording *wording, const SwTaskFacts *facts)
{
  /* Translators: %s is a machine */
  return g_strdup_printf (sw_tr (wording, "%s: acid found, not dosed"), facts->subject);
}

static char *
say_dose_text (const SwWording *wording, const SwTaskFacts *facts)
{
  if (facts->since_ms == 0)
    return g_strdup (sw_tr (wording, "Acid was found, and no dose has been added since."));

  g_autofree char *day = sw_day_format (wording, facts->since_ms, facts->now_ms);
  g_autofree char *clock = sw_clock_format (wording, facts->since_ms);
  /* Translators: a day such as "today" or "on 13 June", a time of day */
  return g_strdup_printf (
      sw_tr (wording, "Acid was found %s at %s, and no dose has been added since."), day, clock);
}

/* ---- a re-test ---- */

static char *
say_retest_title (const SwWording *wording, const SwTaskFacts *facts)
{
  /* Translators: %s is a machine */
  return g_strdup_printf (sw_tr (wording, "%s: re-test after dose"), facts->subject);
}

static char *
say_retest_text (const SwWording *wording, const SwTaskFacts *facts)
{
  if (isnan (facts->total) || facts->since_ms == 0)
    return g_strdup (sw_tr (
        wording,
        "Nobody knows whether the dose was added. Only a re-test can tell; dose nothing before."));

  g_autofree char *amount = sw_volume_format (wording, facts->total);
  g_autofree char *clock = sw_clock_format (wording, facts->since_ms);
  if (facts->due_ms > facts->now_ms)
    {
      g_autofree char *due = sw_clock_format (wording, facts->due_ms);
      /* Translators: an amount of liquid, two times of day */
      return g_strdup_printf (sw_tr (wording, "%s added at %s. It circulates until %s; test then."),
                              amount, clock, due);
    }
  g_autofree char *ago = sw_duration_format (wording, facts->now_ms - facts->since_ms);
  if (facts->since_ms >= sw_day_start (wording, facts->now_ms))
    /* Translators: an amount of liquid, a time of day, a duration such as "40 min" */
    return g_strdup_printf (
        sw_tr (wording, "%s added at %s, circulated %s. Only a re-test that passes closes it."),
        amount, clock, ago);
  g_autofree char *day = sw_day_format (wording, facts->since_ms, facts->now_ms);
  /* Translators: an amount of liquid, a day such as "yesterday" or "on 13 June", a time of day, a
   * duration such as "2 days" */
  return g_strdup_printf (
      sw_tr (wording, "%s added %s at %s, circulated %s. Only a re-test that passes closes it."),
      amount, day, clock, ago);
}

/* ---- a test ---- */

static char *
say_test_title (const SwWording *wording, const SwTaskFacts *facts)
{
  gint64 today = sw_day_start (wording, facts->now_ms);

  if (facts->due_ms != 0 && facts->due_ms < today)
    {
      g_autofree char *day = sw_day_format (wording, facts->due_ms, facts->now_ms);
      /* Translators: a machine; a day such as "on 13 June" */
      return g_strdup_printf (sw_tr (wording, "%s: test was due %s"), facts->subject, day);
    }
  if (facts->due_ms > facts->now_ms)
    {
      g_autofree char *day = sw_day_format (wording, facts->due_ms, facts->now_ms);
      /* Translators: a machine; a day such as "tomorrow" or "on 13 June" */
      return g_strdup_printf (sw_tr (wording, "%s: test due %s"), facts->subject, day);
    }
  /* Translators: %s is a machine */
  return g_strdup_printf (sw_tr (wording, "%s: test due today"), facts->subject);
}

static char *
say_test_text (const SwWording *wording, const SwTaskFacts *facts)
{
  return sw_say_schedule (wording, facts->reason, facts->interval_days, facts->due_ms,
                          facts->now_ms);
}

/* ---- review, lot, calibration ---- */

static char *
say_review_title (const SwWording *wording, const SwTaskFacts *facts)
{
  /* Translators: %s is a machine */
  return g_strdup_printf (sw_tr (wording, "%s: an acid incident waits for its review"),
                          facts->subject);
}

static char *
say_review_text (const SwWording *wording, const SwTaskFacts *facts)
{
  return g_strdup (sw_tr (
      wording, "The re-test passed. A reviewer looks at it, names the cause and closes it."));
}

static char *
say_lot_title (const SwWording *wording, const SwTaskFacts *facts)
{
  g_autofree char *day = sw_day_format (wording, facts->due_ms, facts->now_ms);

  if (facts->due_ms <= facts->now_ms)
    /* Translators: a product, a lot's code, a day such as "on 13 June" */
    return g_strdup_printf (sw_tr (wording, "%s, lot %s: expired %s"), facts->subject, facts->code,
                            day);
  /* Translators: a product, a lot's code, a day such as "on Thursday" or "on 13 June" */
  return g_strdup_printf (sw_tr (wording, "%s, lot %s: expires %s"), facts->subject, facts->code,
                          day);
}

static char *
say_lot_text (const SwWording *wording, const SwTaskFacts *facts)
{
  return g_strdup (facts->due_ms <= facts->now_ms
                       ? sw_tr (wording, "Open a new lot, or mark this one as used up.")
                       : sw_tr (wording, "See that a new lot is at hand before then."));
}

static char *
say_calibration_title (const SwWording *wording, const SwTaskFacts *facts)
{
  g_autofree char *day = sw_day_format (wording, facts->due_ms, facts->now_ms);

  if (facts->due_ms <= facts->now_ms)
    /* Translators: a dropper, the liquid it delivers, a day such as "on 13 June" */
    return g_strdup_printf (sw_tr (wording, "%s for %s: calibration was due %s"), facts->code,
                            facts->subject, day);
  /* Translators: a dropper, the liquid it delivers, a day such as "on Thursday" */
  return g_strdup_printf (sw_tr (wording, "%s for %s: calibration due %s"), facts->code,
                          facts->subject, day);
}

static char *
say_calibration_text (const SwWording *wording, const SwTaskFacts *facts)
{
  return g_strdup (sw_tr (
      wording, "Weigh its drops again. Every amount worked out depends on the drop's size."));
}

/* ---- tests to review ---- */

static char *
say_review_tests_title (const SwWording *wording, const SwTaskFacts *facts)
{
  guint count = facts->total > 0.0 ? (guint)facts->total : 0;

  /* Translators: signed tests that a second person has not looked at yet */
  return g_strdup_printf (
      sw_trn (wording, "%u test waits for your review", "%u tests wait for your review", count),
      count);
}

static char *
say_review_tests_text (const SwWording *wording, const SwTaskFacts *facts)
{
  return g_strdup (
      sw_tr (wording,
             "Look at what another person read, worked out and added, and sign that it is right."));
}

/* ---- the table ---- */

static const struct
{
  char *(*title) (const SwWording *wording, const SwTaskFacts *facts);
  char *(*text) (const SwWording *wording, const SwTaskFacts *facts);
  const char *button;
} tasks[SW_N_TASKS] = {
  [SW_TASK_OVER_RANGE] = { say_over_range_title, say_over_range_text, NC_ ("button", "Open") },
  [SW_TASK_RECORD_DOSE] = { say_record_dose_title, say_record_dose_text, NC_ ("button", "Record") },
  [SW_TASK_RESUME] = { say_resume_title, say_resume_text, NC_ ("button", "Resume") },
  [SW_TASK_DOSE] = { say_dose_title, say_dose_text, NC_ ("button", "Dose") },
  [SW_TASK_RETEST] = { say_retest_title, say_retest_text, NC_ ("button", "Re-test") },
  [SW_TASK_TEST] = { say_test_title, say_test_text, NC_ ("button", "Test") },
  [SW_TASK_REVIEW] = { say_review_title, say_review_text, NC_ ("button", "Open") },
  [SW_TASK_LOT] = { say_lot_title, say_lot_text, NC_ ("button", "Lots") },
  [SW_TASK_CALIBRATION]
  = { say_calibration_title, say_calibration_text, NC_ ("button", "Calibrate") },
  [SW_TASK_REVIEW_TESTS]
  = { say_review_tests_title, say_review_tests_text, NC_ ("button", "Review") },
};

char *
sw_say_task_title (const SwWording *wording, const SwTaskFacts *facts)
{
  g_return_val_if_fail (facts->task < SW_N_TASKS, NULL);
  return tasks[facts->task].title (wording, facts);
}

char *
sw_say_task_text (const SwWording *wording, const SwTaskFacts *facts)
{
  g_return_val_if_fail (facts->task < SW_N_TASKS, NULL);
  return tasks[facts->task].text (wording, facts);
}

const char *
sw_say_task_button (const SwWording *wording, SwTask task)
{
  g_return_val_if_fail (task < SW_N_TASKS, NULL);
  return sw_trc (wording, "button", tasks[task].button);
}

char *
sw_say_todo_heading (const SwWording *wording, guint count)
{
  if (count < G_N_ELEMENTS (headings))
    return g_strdup (sw_tr (wording, headings[count]));
  return g_strdup_printf (sw_trn (wording, "%u thing to do", "%u things to do", count), count);
}

char *
sw_say_todo_count (const SwWording *wording, guint count)
{
  return g_strdup_printf (sw_trn (wording, "%u thing", "%u things", count), count);
}

char *
sw_say_todo_next (
    const SwWording *wording, const char *subject, gint64 due_ms, gint64 now_ms, gboolean alone)
{
  g_autofree char *day = sw_day_format (wording, due_ms, now_ms);

  /* Translators: a machine or lot; a day such as "tomorrow", "on Thursday" or "on 13 June" */
  return g_strdup_printf (alone ? sw_tr (wording, "Next: %s %s.")
                                : sw_tr (wording, "Next after these: %s %s."),
                          subject, day);
}

gint64
sw_day_start (const SwWording *wording, gint64 now_ms)
{
  GTimeZone *zone = sw_wording_get_zone (wording);
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (now_ms / 1000);
  g_autoptr (GDateTime) now = g_date_time_to_timezone (utc, zone);
  g_autoptr (GDateTime) midnight
      = g_date_time_new (zone, g_date_time_get_year (now), g_date_time_get_month (now),
                         g_date_time_get_day_of_month (now), 0, 0, 0);

  return g_date_time_to_unix (midnight) * 1000;
}
