/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences of the guided test's pages Draw to Check; those of the dose are in sentence-add.c. */
#include "wording/sentence-test.h"

#include "calc/content.h"

#define MS_PER_S 1000
#define CONTENT_DIGITS 3
/* "About ten times": a slipped decimal point with other digits around it still counts. */
#define SLIP_FACTOR 8.0

/* ---- frame ---- */

char *
sw_say_machine (const SwWording *wording, const char *tag, const char *name)
{
  if (name == NULL || *name == '\0')
    return g_strdup (tag);
  /* Translators: a machine's tag and its name, as in "M-07 Long bed". */
  return g_strdup_printf (sw_tr (wording, "%1$s %2$s"), tag, name);
}

char *
sw_say_test_caption (
    const SwWording *wording, const char *tag, const char *name, const char *code, int step, int of)
{
  g_autofree char *machine = sw_say_machine (wording, tag, name);

  /* Translators: a machine, the code of the sample drawn from it, and which page this is. */
  return g_strdup_printf (sw_tr (wording, "%1$s, sample %2$s. Step %3$d of %4$d"), machine, code,
                          step, of);
}

/* ---- draw, prepare ---- */

char *
sw_say_wrong_tag (const SwWording *wording, const char *typed, const char *tag)
{
  return g_strdup_printf (sw_tr (wording, "This test is for %2$s, not for “%1$s”. Go to %2$s, or "
                                          "leave this test and begin one for the other machine."),
                          typed, tag);
}

char *
sw_say_second_look (
    const SwWording *wording, SwQuantityName quantity, double value, double usual, SwUnit unit)
{
  g_autofree char *typed = NULL;
  g_autofree char *expected = NULL;

  if (!(value > 0.0 && usual > 0.0) || (value < usual * SLIP_FACTOR && value > usual / SLIP_FACTOR))
    return NULL;
  typed = sw_amount_format (wording, value, unit, 6);
  expected = sw_amount_format (wording, usual, unit, 6);
  return g_strdup_printf (
      /* Translators: quantity, the number typed, the usual number. */
      sw_tr (wording, "%1$s: %2$s is far from the usual %3$s. Look again; if it is right, press "
                      "the button once more."),
      sw_say_quantity (wording, quantity), typed, expected);
}

char *
sw_say_amount_of (const SwWording *wording, double ml, const char *name)
{
  g_autofree char *amount = NULL;

  if (isnan (ml))
    return g_strdup (name);
  amount = sw_amount_format (wording, ml, SW_UNIT_ML, 4);
  /* Translators: an amount of a product, as in "5 mL of sodium hydroxide solution". */
  return g_strdup_printf (sw_tr (wording, "%1$s of %2$s"), amount, name);
}

char *
sw_say_water (const SwWording *wording, double ml, const char *kind)
{
  g_autofree char *amount = sw_amount_format (wording, ml, SW_UNIT_ML, 4);

  if (g_strcmp0 (kind, "deionised") == 0)
    return g_strdup_printf (sw_tr (wording, "%s of deionised water"), amount);
  if (g_strcmp0 (kind, "any clean") == 0)
    return g_strdup_printf (sw_tr (wording, "%s of any clean water"), amount);
  return g_strdup_printf (sw_tr (wording, "%s of water"), amount);
}

char *
sw_say_lot (const SwWording *wording, const char *code, gint64 expires_ms, gint64 now_ms)
{
  g_autofree char *date = NULL;

  if (expires_ms == 0)
    return g_strdup_printf (sw_tr (wording, "%s, no date given"), code);
  date = sw_date_format (wording, expires_ms);
  if (expires_ms <= now_ms)
    return g_strdup_printf (sw_tr (wording, "%1$s, EXPIRED on %2$s"), code, date);
  return g_strdup_printf (sw_tr (wording, "%1$s, good until %2$s"), code, date);
}

char *
sw_say_no_lot (const SwWording *wording, const char *product)
{
  if (product == NULL)
    return g_strdup (sw_tr (wording, "No lot is on file. Enter one in Set-up."));
  return g_strdup_printf (sw_tr (wording, "No lot of %s is on file. Enter one in Set-up."),
                          product);
}

/* ---- read ---- */

const char *
sw_say_read_title (const SwWording *wording, SwNext next)
{
  switch (next)
    {
    case SW_NEXT_ADD:
      return sw_tr (wording, "Titrate on");
    case SW_NEXT_SECOND_STRIP:
      return sw_tr (wording, "What does a second strip show?");
    case SW_NEXT_CLOSE:
      return sw_tr (wording, "The end point holds");
    case SW_NEXT_FRESH_PORTION:
      return sw_tr (wording, "A fresh portion is needed");
    case SW_NEXT_ONE_BY_ONE:
      return sw_tr (wording, "Acid found, but in too wide a step");
    case SW_NEXT_STOP_AND_CALL:
      return sw_tr (wording, "Stop: over range");
    case SW_NEXT_READ_FIRST:
    case SW_NEXT_READ_AGAIN:
    case SW_N_NEXTS:
    default:
      return sw_tr (wording, "What does the strip show now?");
    }
}

char *
sw_say_light (const SwWording *wording, double strip_wait_s)
{
  if (!(strip_wait_s > 0.0))
    return g_strdup (sw_tr (wording, "White light, fresh wet strip, water layer only."));
  return g_strdup_printf (
      sw_trn (wording, "White light, fresh wet strip, water layer only, within %d second.",
              "White light, fresh wet strip, water layer only, within %d seconds.",
              (gulong)strip_wait_s),
      (int)strip_wait_s);
}

char *
sw_say_reading (
    const SwWording *wording, const char *label, SwField field, gboolean struck, gboolean not_added)
{
  const char *word = sw_say_field (wording, field);

  if (label == NULL)
    label = sw_say_test_word (wording, SW_TEST_WORD_BETWEEN);
  if (not_added)
    return g_strdup_printf (sw_tr (wording, "%s, taken back, never added"), label);
  if (struck)
    return g_strdup_printf (sw_tr (wording, "%s, taken back"), label);
  if (field == SW_FIELD_BETWEEN)
    return g_strdup (label);
  /* Translators: what a strip showed and what it means, as in "Yellow, acid". */
  return g_strdup_printf (sw_tr (wording, "%1$s, %2$s"), label, word);
}

char *
sw_say_between_key (const SwWording *wording, guint key)
{
  /* Translators: a number key and what it says about the colour of a strip. */
  return g_strdup_printf (sw_tr (wording, "%u Between Two"), key);
}

char *
sw_say_add_one (const SwWording *wording, gboolean burette)
{
  return g_strdup (burette ? sw_tr (wording, "+ 1 mL") : sw_tr (wording, "+ 1 Drop"));
}

void
sw_say_shake (
    const SwWording *wording, gint64 started_ms, gint64 now_ms, double shake_s, SwShakeText *text)
{
  const double elapsed_s = (double)(now_ms - started_ms) / MS_PER_S;
  const double shown_s = CLAMP (elapsed_s, 0.0, shake_s > 0.0 ? shake_s : elapsed_s);
  g_autofree char *whole = sw_timer_format (wording, (gint64)shake_s);

  *text = (SwShakeText){ .running = started_ms > 0 };
  text->done = text->running && elapsed_s >= shake_s;
  text->fraction = text->running && shake_s > 0.0 ? shown_s / shake_s : 0.0;
  text->elapsed = sw_timer_format (wording, text->running ? (gint64)shown_s : 0);
  /* Translators: beside a running time, as in "0:42 of 1:00". */
  text->of = g_strdup_printf (sw_tr (wording, "of %s"), whole);
}

void
sw_shake_text_clear (SwShakeText *text)
{
  g_clear_pointer (&text->elapsed, g_free);
  g_clear_pointer (&text->of, g_free);
}

/* ---- result, check, done ---- */

/* One end or both of an acid content; only what is bounded is said. */
static char *
say_content_range (const SwWording *wording, double low, double high)
{
  g_autofree char *low_mmol = sw_amount_format (wording, low, SW_UNIT_MMOL_PER_L, CONTENT_DIGITS);
  g_autofree char *high_mmol = sw_amount_format (wording, high, SW_UNIT_MMOL_PER_L, CONTENT_DIGITS);
  g_autofree char *low_mg
      = sw_number_format (wording, sw_content_as_hcl_mg_l (low), CONTENT_DIGITS);
  g_autofree char *high_mg
      = sw_number_format (wording, sw_content_as_hcl_mg_l (high), CONTENT_DIGITS);

  if (isinf (low))
    return g_strdup_printf (sw_tr (wording, "at most %1$s (%2$s mg/L as hydrogen chloride)"),
                            high_mmol, high_mg);
  if (isinf (high))
    return g_strdup_printf (sw_tr (wording, "more than %1$s (%2$s mg/L as hydrogen chloride)"),
                            low_mmol, low_mg);
  return g_strdup_printf (
      sw_tr (wording, "between %1$s and %2$s (%3$s to %4$s mg/L as hydrogen chloride)"), low_mmol,
      high_mmol, low_mg, high_mg);
}

char *
sw_say_content (const SwWording *wording,
                SwInterval net,
                double step_ml,
                double titrant_mmol_ml,
                double sample_ml)
{
  double per_step;

  if (isnan (net.low) || isnan (net.high))
    return g_strdup (sw_say_test_word (wording, SW_TEST_WORD_NONE_GIVEN));
  if (isnan (titrant_mmol_ml)
      || !sw_content_per_step (step_ml, titrant_mmol_ml, sample_ml, &per_step, NULL))
    return g_strdup (sw_say_test_word (wording, SW_TEST_WORD_ENTER_STRENGTH));
  return say_content_range (wording, net.low * per_step, net.high * per_step);
}

char *
sw_say_threshold (const SwWording *wording,
                  double caustic_mmol,
                  gboolean caustic_counts,
                  double sample_ml)
{
  g_autofree char *hidden = NULL;

  if (!(caustic_mmol > 0.0) || caustic_counts || !(sample_ml > 0.0))
    return NULL;
  hidden = sw_amount_format (wording, 1000.0 * caustic_mmol / sample_ml, SW_UNIT_MMOL_PER_L, 3);
  return g_strdup_printf (
      sw_tr (wording, "The caustic addition is this test’s threshold: up to %s of acid passes "
                      "unseen and stays behind after a dose. Amounts are above that threshold."),
      hidden);
}

char *
sw_say_signature (const SwWording *wording, const char *name)
{
  return g_strdup_printf (sw_tr (wording, "I, %s, did this test as it is recorded on this page."),
                          name);
}

char *
sw_say_retest_due (const SwWording *wording, gint64 due_ms, gint64 now_ms)
{
  g_autofree char *clock = sw_clock_format (wording, due_ms);
  g_autofree char *wait = NULL;

  if (due_ms <= now_ms)
    return g_strdup (sw_tr (wording, "The re-test is due now."));
  wait = sw_duration_format (wording, due_ms - now_ms);
  return g_strdup_printf (
      sw_tr (wording, "The re-test is due at %1$s, in %2$s. Until then the dose circulates."),
      clock, wait);
}
