/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences around a dose: how much, from what, where to, in which parts, and what was added. */
#include "wording/sentence-test.h"

#include <string.h>

#define MS_PER_MIN 60000

char *
sw_say_dose_button (const SwWording *wording, double ml)
{
  g_autofree char *amount = sw_volume_format (wording, ml);

  /* Translators: a button; %s is the amount that will be added to the machine. */
  return g_strdup_printf (sw_tr (wording, "_Dose %s"), amount);
}

char *
sw_say_per_step (const SwWording *wording, double per_step_ml, gboolean burette)
{
  g_autofree char *amount = sw_amount_format (wording, per_step_ml, SW_UNIT_ML, 4);

  if (burette)
    return g_strdup_printf (sw_tr (wording, "One mL of titrant is worth %s in this machine."),
                            amount);
  return g_strdup_printf (sw_tr (wording, "One drop is worth %s in this machine."), amount);
}

char *
sw_say_dose_bounds (const SwWording *wording, const SwDose *dose)
{
  g_autofree char *low = sw_volume_format (wording, dose->bounds_ml.low);
  g_autofree char *high = sw_volume_format (wording, dose->bounds_ml.high);
  g_autofree char *doubt_low = sw_volume_format (wording, dose->doubt_ml.low);
  g_autofree char *doubt_high = sw_volume_format (wording, dose->doubt_ml.high);

  return g_strdup_printf (
      sw_tr (wording, "The acid needs %1$s to %2$s by the drops counted; %3$s to %4$s with the "
                      "uncertainty of the volumes."),
      low, high, doubt_low, doubt_high);
}

char *
sw_say_dose_best (const SwWording *wording, const SwDose *dose, SwInterval likely_ml)
{
  g_autofree char *best = sw_volume_format (wording, dose->best_ml.value);
  g_autofree char *low = sw_amount_format (wording, MAX (likely_ml.low, 0.0), SW_UNIT_ML, 3);
  g_autofree char *high = sw_amount_format (wording, likely_ml.high, SW_UNIT_ML, 3);

  /* Translators: %1$s is the most likely amount; 95 of 100 such doses lie between %2$s and %3$s. */
  return g_strdup_printf (
      sw_tr (wording, "Best estimate %1$s; with 95 %% confidence between %2$s and %3$s."), best,
      low, high);
}

char *
sw_say_dose_where (const SwWording *wording, const char *product, const char *place)
{
  return g_strdup_printf (sw_tr (wording, "%1$s, into: %2$s"), product, place);
}

/* "800 mL, 460 mL": the list mark is a translator's. */
static char *
say_list (const SwWording *wording, const double *parts, gsize n)
{
  g_autoptr (GString) list = g_string_new (NULL);

  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *part = sw_volume_format (wording, parts[i]);

      if (i > 0)
        /* Translators: between the members of a list. */
        g_string_append (list, sw_trc (wording, "list", ", "));
      g_string_append (list, part);
    }
  return g_string_free (g_steal_pointer (&list), FALSE);
}

char *
sw_say_dose_split (const SwWording *wording, const double *parts, gsize n, double wait_min)
{
  g_autofree char *first = NULL;
  g_autofree char *list = NULL;
  g_autofree char *wait = NULL;

  if (n < 2)
    return NULL;
  first = sw_volume_format (wording, parts[0]);
  list = say_list (wording, parts, n);
  wait = sw_duration_format (wording, (gint64)(wait_min * MS_PER_MIN));
  return g_strdup_printf (
      sw_tr (wording, "In %1$d additions: %2$s. Add %3$s now, let it circulate for %4$s and "
                      "re-test; the rest is then worked out anew."),
      (int)n, list, first, wait);
}

char *
sw_say_supplier (
    const SwWording *wording, double supplier_ml, double ratio, gboolean flagged, gboolean governs)
{
  g_autofree char *amount = NULL;
  g_autofree char *percent = NULL;

  if (isnan (supplier_ml))
    return NULL;
  amount = sw_volume_format (wording, supplier_ml);
  percent = sw_amount_format (wording, 100.0 * ratio, SW_UNIT_PERCENT, 3);
  if (governs)
    return g_strdup_printf (
        sw_tr (wording, "The supplier’s chart says %1$s (%2$s of ours), and this method follows "
                        "the chart."),
        amount, percent);
  if (flagged)
    return g_strdup_printf (
        sw_tr (wording,
               "The supplier’s chart says %1$s (%2$s of ours): more than 10 %% apart. Find "
               "out why before you dose."),
        amount, percent);
  return g_strdup_printf (
      sw_tr (wording, "The supplier’s chart says %1$s (%2$s of ours): they agree."), amount,
      percent);
}

char *
sw_say_last_dose (
    const SwWording *wording, double added_ml, gint64 added_ms, gint64 now_ms, SwOutcomeKind retest)
{
  g_autofree char *amount = sw_volume_format (wording, added_ml);
  g_autofree char *date = sw_date_format (wording, added_ms);

  (void)now_ms;
  if (retest == SW_OUTCOME_OPEN)
    return g_strdup_printf (sw_tr (wording, "Last dose: %1$s on %2$s, not re-tested yet."), amount,
                            date);
  return g_strdup_printf (sw_tr (wording, "Last dose: %1$s on %2$s; its re-test: %3$s."), amount,
                          date, sw_say_outcome (wording, retest));
}

/* What gets a missing entry of the set-up filled. */
static const char *
say_set_up (const SwWording *wording)
{
  return sw_tr (wording, "Close this test without a dose, have it entered in Set-up by someone who "
                         "knows, and test again.");
}

const char *
sw_say_no_dose_advice (const SwWording *wording, SwFactCode code)
{
  switch (code)
    {
    case SW_FACT_NO_DOSE_OVER_RANGE:
      return sw_say_caution (wording, SW_CAUTION_OVER_RANGE);
    case SW_FACT_NO_DOSE_POINT:
      return sw_tr (wording, "Draw a sample from a point that doses may be worked out from, and "
                             "test that.");
    case SW_FACT_NO_DOSE_STEP_WIDE:
      return sw_tr (wording, "Test again, and add single drops near the end point.");
    case SW_FACT_NO_DOSE_LAPSED:
    case SW_FACT_RETEST_FIRST:
      return sw_tr (wording, "Test the machine again: what it needs now may be another amount.");
    case SW_FACT_NO_DOSE_TOTAL:
      return sw_tr (wording,
                    "Call the responsible person: this solvent has had all the neutraliser "
                    "that its limit allows. It may have to be changed.");
    case SW_FACT_NO_DOSE_COARSE:
      return sw_tr (wording, "Use a smaller measure: enter its marks in Set-up, and test again.");
    case SW_FACT_NO_DOSE_CAUSTIC_PRODUCT:
      return sw_tr (wording, "Never put caustic into the machine. Have the right neutraliser "
                             "entered in Set-up.");
    case SW_FACT_NO_DOSE_OUTCOME:
      return sw_tr (wording, "There is nothing to dose.");
    default:
      return say_set_up (wording);
    }
}

char *
sw_say_to_add (const SwWording *wording, double ml, const char *product, const char *place)
{
  g_autofree char *amount = sw_volume_format (wording, ml);

  /* Translators: amount, product, dosing place. */
  return g_strdup_printf (sw_tr (wording, "%1$s of %2$s, into: %3$s"), amount, product, place);
}

static gboolean
refuse_clock (const char *text, SwFaultCode code, GError **error)
{
  return sw_fault_set (error, &(SwFault){ .code = code,
                                          .quantity = SW_QUANTITY_DATE,
                                          .value = NAN,
                                          .low = -INFINITY,
                                          .high = INFINITY,
                                          .typed = text });
}

/* "6:20", "06.20", "0620" is left out: it may be a number of something else. */
static gboolean
scan_clock (const char *text, int *hour, int *minute)
{
  char *end = NULL;
  gint64 number = g_ascii_strtoll (text, &end, 10);

  if (end == text || (*end != ':' && *end != '.') || number < 0 || number > 23)
    return FALSE;
  *hour = (int)number;
  text = end + 1;
  if (strspn (text, "0123456789") != 2)
    return FALSE;
  number = g_ascii_strtoll (text, &end, 10);
  *minute = (int)number;
  return *end == '\0' && number <= 59;
}

gboolean
sw_clock_parse (const char *text, GTimeZone *zone, gint64 now_ms, gint64 *utc_ms, GError **error)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (now_ms / 1000);
  g_autoptr (GDateTime) today = g_date_time_to_timezone (utc, zone);
  g_autoptr (GDateTime) then = NULL;
  int hour;
  int minute;

  if (*stripped == '\0')
    return refuse_clock (text, SW_FAULT_MISSING, error);
  if (!scan_clock (stripped, &hour, &minute))
    return refuse_clock (text, SW_FAULT_TEXT, error);
  then = g_date_time_new (zone, g_date_time_get_year (today), g_date_time_get_month (today),
                          g_date_time_get_day_of_month (today), hour, minute, 0.0);
  if (then == NULL || g_date_time_to_unix (then) * 1000 > now_ms)
    return refuse_clock (text, SW_FAULT_RANGE, error);
  *utc_ms = g_date_time_to_unix (then) * 1000;
  return TRUE;
}
