/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences of signing: the meanings are those of the design, written out here by hand, and each
 * code of the layers below has its words. */
#include "wording/sentence-sign.h"

#include "records/test.h"
#include "support/support.h"
#include "wording/sentence.h"

#include <string.h>

#define U202F "\342\200\257"
/* 2026-11-24 06:00 in Berlin */
#define DAY_MS G_GINT64_CONSTANT (1795496400000)

static SwWording *wording;

static void
test_meanings (void)
{
  static const char *const meanings[SW_N_MEANINGS] = {
    [SW_MEANING_PERFORMED] = "I did this test as recorded.",
    [SW_MEANING_REVIEWED] = "I have looked at this test and agree.",
    [SW_MEANING_RELEASED] = "I release this dose.",
    [SW_MEANING_CLOSED] = "I close this incident.",
  };

  for (guint i = 0; i < SW_N_MEANINGS; i++)
    g_assert_cmpstr (sw_say_meaning (wording, i, 1), ==, meanings[i]);
  g_assert_cmpstr (sw_say_meaning (wording, SW_MEANING_REVIEWED, 2), ==,
                   "I have looked at each of these tests and agree.");
}

static void
check (char *said, const char *expected)
{
  g_assert_cmpstr (said, ==, expected);
  g_free (said);
}

static void
test_sentences (void)
{
  check (sw_say_test_subject (wording, "M-07-261124-1"), "Test M-07-261124-1");
  check (sw_say_dose_subject (wording, 1260, "M-07 Long bed"),
         "A dose of 1260" U202F "mL for M-07 Long bed");
  check (sw_say_incident_subject (wording, DAY_MS, "M-07 Long bed"),
         "The acid incident of 24 November 2026 on M-07 Long bed");
  check (
      sw_say_idle_lock (wording, "T. Invented", 10),
      "T. Invented was signed out, because nobody touched this window for 10 min. What was typed "
      "is still here.");
  check (sw_say_wrong_initials (wording, "CI", "T. Invented"),
         "“CI” are not the initials of T. Invented.");
  check (sw_say_secret_state (wording, TRUE, "A. Invented"),
         "A. Invented set the secret; another must be chosen at the next sign-in.");
}

/* The wait is said in whole seconds, rounded up: 1 s until it is over. */
static void
test_wait (void)
{
  static const struct
  {
    double seconds;
    const char *said;
  } rows[] = {
    { 0.001, "1 s" },      { 1.0, "1 s" },          { 1.001, "2 s" },       { 59.0, "59 s" },
    { 60.0, "1 min 0 s" }, { 256.0, "4 min 16 s" }, { 300.0, "5 min 0 s" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const SwFact fact = { .code = SW_FACT_WAIT, .number = { rows[i].seconds / 60.0 } };
      g_autofree char *expected
          = g_strdup_printf ("Too many wrong attempts. The next is possible in %s.", rows[i].said);

      check (sw_say_fact (wording, &fact), expected);
    }
}

/* No code is left without words, and no two say the same. */
static void
test_all (void)
{
  for (int i = 0; i < SW_N_SIGN_WORDS; i++)
    {
      const char *said = sw_say_sign_word (wording, (SwSignWord)i);

      g_assert_cmpstr (said, !=, "");
      for (int j = 0; j < i; j++)
        g_assert_cmpstr (said, !=, sw_say_sign_word (wording, (SwSignWord)j));
    }
  for (int i = 0; i < SW_N_KNOWN; i++)
    {
      g_autofree char *who = sw_say_who_works (wording, "T. Invented", (SwKnown)i);
      g_autofree char *note = sw_say_sign_note (wording, (SwKnown)i, "T. Invented");

      g_assert_true (g_str_has_prefix (who, "T. Invented "));
      g_assert_cmpstr (sw_say_known (wording, (SwKnown)i), !=, "");
      g_assert_cmpstr (sw_say_at_bench (wording, (SwKnown)i), !=, "");
      g_assert_cmpstr (note, !=, "");
      g_assert_true ((strstr (note, "T. Invented") != NULL) == (i == SW_KNOWN_INVENTED));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  wording = sw_wording_new ("en", "Europe/Berlin");
  g_test_add_func ("/sign/meanings", test_meanings);
  g_test_add_func ("/sign/sentences", test_sentences);
  g_test_add_func ("/sign/wait", test_wait);
  g_test_add_func ("/sign/all", test_all);
  int result = g_test_run ();
  sw_wording_unref (wording);
  return result;
}
