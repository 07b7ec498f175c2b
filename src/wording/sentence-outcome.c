/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a titration means, and what to do next. */
#include "wording/sentence-private.h"

#include <glib/gi18n.h>

/* Two forms where drops and burette differ. */
typedef struct
{
  const char *drops;
  const char *burette;
} NextSentence;

/* clang-format off */
static const NextSentence next_sentences[SW_N_NEXTS] = {
  [SW_NEXT_READ_FIRST] = { N_ ("Shake, let the layers part, and read a fresh strip before adding "
                               "anything."), NULL },
  [SW_NEXT_ADD] = { N_ ("Add a drop, shake, read a fresh strip."),
                    N_ ("Add a little titrant, shake, read a fresh strip.") },
  [SW_NEXT_READ_AGAIN] = { N_ ("Shake and read a fresh strip; add nothing."), NULL },
  [SW_NEXT_SECOND_STRIP] = { N_ ("Shake again and read a second strip: the colour must hold."),
                             NULL },
  [SW_NEXT_FRESH_PORTION] = { N_ ("Take a fresh portion of the sample: the first strip had turned "
                                  "already, so nothing is known below it."), NULL },
  [SW_NEXT_CLOSE] = { N_ ("The result stands."), NULL },
  [SW_NEXT_ONE_BY_ONE] = { N_ ("Titrate a second portion one drop at a time from the last acid "
                               "reading: the last step was too wide for a dose."),
                           N_ ("Titrate a second portion in small steps from the last acid "
                               "reading: the last step was too wide for a dose.") },
  [SW_NEXT_STOP_AND_CALL] = { N_ ("Stop. Do not dose. Keep people away from the vapour and call "
                                  "the responsible person."), NULL },
};
/* clang-format on */

const char *
sw_say_next_step (const SwWording *wording, SwNext next, gboolean burette)
{
  const NextSentence *sentence;

  g_return_val_if_fail ((int)next >= 0 && next < SW_N_NEXTS, "");
  sentence = &next_sentences[next];
  return sw_tr (wording,
                burette && sentence->burette != NULL ? sentence->burette : sentence->drops);
}

char *
sw_say_next (const SwWording *wording, const SwOutcome *outcome, gboolean burette)
{
  g_autofree char *from = NULL;

  g_return_val_if_fail (wording != NULL && outcome != NULL, g_strdup (""));
  if (outcome->next != SW_NEXT_ONE_BY_ONE || isnan (outcome->acid_at))
    return g_strdup (sw_say_next_step (wording, outcome->next, burette));

  from = sw_step_count_format (wording, outcome->acid_at, burette);
  if (burette)
    /* Translators: %s is an amount such as "2.5 mL". */
    return g_strdup_printf (
        sw_tr (wording, "Titrate a second portion in small steps from %s: the last step was too "
                        "wide for a dose."),
        from);
  /* Translators: %s is a count such as "8 drops". */
  return g_strdup_printf (
      sw_tr (wording, "Titrate a second portion one drop at a time from %s: the last step was too "
                      "wide for a dose."),
      from);
}

/* A pass says only what the method can see: up to a threshold acid goes unseen. */
static char *
say_passed (const SwWording *wording, const SwOutcome *outcome, gboolean burette)
{
  g_autofree char *high = NULL;

  if (!(outcome->net.high > 0.0))
    return g_strdup (sw_tr (wording, "Passed: the test found no acid."));
  high = sw_step_count_format (wording, outcome->net.high, burette);
  /* Translators: %s is a count such as "1 drop". */
  return g_strdup_printf (sw_tr (wording, "Passed: the acid is worth %s at most."), high);
}

static char *
say_reserve (const SwWording *wording, const SwInterval *net, gboolean burette)
{
  g_autofree char *low = sw_number_format (wording, fabs (net->high), 4);
  g_autofree char *high = sw_step_count_format (wording, fabs (net->low), burette);

  /* Translators: 1 a number, 2 a count such as "5 drops". */
  return g_strdup_printf (sw_tr (wording, "The solvent has an alkaline reserve of %1$s to %2$s."),
                          low, high);
}

static char *
say_with_count (const SwWording *wording, const char *sentence, double steps, gboolean burette)
{
  g_autofree char *count = sw_step_count_format (wording, fabs (steps), burette);

  return sw_say_filled (sw_tr (wording, sentence), count);
}

char *
sw_say_result (const SwWording *wording, const SwOutcome *outcome, gboolean burette)
{
  g_autofree char *bounds = NULL;

  g_return_val_if_fail (wording != NULL && outcome != NULL, g_strdup (""));
  switch (outcome->kind)
    {
    case SW_OUTCOME_PASSED:
      return say_passed (wording, outcome, burette);
    case SW_OUTCOME_ACID_FOUND:
      bounds = sw_steps_format (wording, outcome->net.low, outcome->net.high, burette);
      /* Translators: %s is an amount such as "2 to 3 drops". */
      return g_strdup_printf (sw_tr (wording, "Acid found, worth %s."), bounds);
    case SW_OUTCOME_OVER_RANGE:
      /* Translators: %s is a count such as "20 drops". */
      return say_with_count (
          wording,
          N_ ("Over range: the acid is worth more than %s. Do not dose; call the "
              "responsible person."),
          outcome->net.low, burette);
    case SW_OUTCOME_RESERVE_FOUND:
      return say_reserve (wording, &outcome->net, burette);
    case SW_OUTCOME_NO_RESERVE:
      return g_strdup (
          sw_tr (wording, "The solvent has no alkaline reserve. Test it for acid with a base."));
    case SW_OUTCOME_RESERVE_OVER_RANGE:
      /* Translators: %s is a count such as "20 drops". */
      return say_with_count (wording, N_ ("The solvent has an alkaline reserve of %s or more."),
                             outcome->net.high, burette);
    case SW_OUTCOME_OPEN:
    case SW_N_OUTCOMES:
    default:
      return g_strdup (sw_tr (wording, "The end point is not settled yet."));
    }
}
