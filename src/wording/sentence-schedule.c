/* SPDX-License-Identifier: GPL-3.0-or-later */
/* When to test next, and why, in one sentence. */
#include "wording/sentence-private.h"

#include <glib/gi18n.h>

/* In each: 1 the day, such as "on Thursday" or "tomorrow"; 2 the interval, such as "1.25 days". */
static const char *const reasons[SW_N_SCHEDULE_REASONS] = {
  [SW_SCHEDULE_START]
  = N_ ("Test due %1$s: the first tests of a machine come %2$s apart, until passes in a row "
        "allow more."),
  [SW_SCHEDULE_LONGER] = N_ ("Test due %1$s: three tests in a row passed, so the interval is now "
                             "%2$s."),
  [SW_SCHEDULE_SAME] = N_ ("Test due %1$s: the test passed, and the interval stays at %2$s until "
                           "three in a row have passed."),
  [SW_SCHEDULE_EARLY] = N_ ("Test due %1$s: the test passed, but too early to count, so the "
                            "interval stays at %2$s."),
  [SW_SCHEDULE_RETEST] = N_ ("Test due %1$s: a re-test does not change the interval of %2$s."),
  [SW_SCHEDULE_HALVED] = N_ ("Test due %1$s: acid was found, so the interval is halved to %2$s."),
  [SW_SCHEDULE_RETURNED] = N_ ("Test due %1$s: after much acid, a new soil, a leak, a restart or "
                               "a corrected record the interval starts again at %2$s."),
  [SW_SCHEDULE_AT_LONGEST] = N_ ("Test due %1$s: the test passed, and the plan allows no interval "
                                 "longer than %2$s."),
  [SW_SCHEDULE_AT_SHORTEST] = N_ ("Test due %1$s: acid was found, and the plan allows no interval "
                                  "shorter than %2$s."),
};

char *
sw_say_schedule (const SwWording *wording,
                 SwScheduleReason reason,
                 double interval_days,
                 gint64 due_ms,
                 gint64 now_ms)
{
  g_autofree char *day = NULL;
  g_autofree char *number = NULL;
  g_autofree char *interval = NULL;
  gulong count;

  g_return_val_if_fail (wording != NULL, g_strdup (""));
  g_return_val_if_fail ((int)reason >= 0 && reason < SW_N_SCHEDULE_REASONS, g_strdup (""));
  day = sw_day_format (wording, due_ms, now_ms);
  number = sw_number_format (wording, interval_days, 3);
  count = interval_days == floor (interval_days) ? (gulong)interval_days : 2;
  /* Translators: an interval; %s is the number, which may have a fraction. */
  interval = g_strdup_printf (sw_trn (wording, "%s day", "%s days", count), number);
  return sw_say_filled (sw_tr (wording, reasons[reason]), day, interval);
}
