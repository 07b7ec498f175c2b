/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words of the Records page's list. */
#include "wording/sentence-list.h"

#include <glib/gi18n.h>
#include <string.h>

#include "wording/sentence-private.h"
#include "wording/sentence-setup.h"

/* Translators: marks beside a record in a list, lower case, as short as they can be. */
static const struct
{
  SwMark mark;
  const char *word;
} marks_in_order[SW_N_MARKS] = {
  { SW_MARK_VOIDED, NC_ ("mark of a record", "void") },
  { SW_MARK_REVIEW_LOST, NC_ ("mark of a record", "review lost") },
  { SW_MARK_AMENDED, NC_ ("mark of a record", "amended") },
  { SW_MARK_LATE, NC_ ("mark of a record", "late entry") },
  { SW_MARK_REVIEWED, NC_ ("mark of a record", "reviewed") },
  { SW_MARK_TO_REVIEW, NC_ ("mark of a record", "to review") },
  { SW_MARK_UNSIGNED, NC_ ("mark of a record", "not signed") },
};

/* Translators: which records a list shows. */
static const char *const states[] = {
  NC_ ("filter of records", "In use"),      NC_ ("filter of records", "In use and void"),
  NC_ ("filter of records", "Void"),        NC_ ("filter of records", "Late entries"),
  NC_ ("filter of records", "Amended"),     NC_ ("filter of records", "To review"),
  NC_ ("filter of records", "Review lost"),
};

const char *
sw_say_mark (const SwWording *wording, SwMark mark)
{
  for (guint i = 0; i < SW_N_MARKS; i++)
    if (marks_in_order[i].mark == mark)
      return sw_trc (wording, "mark of a record", marks_in_order[i].word);
  return "";
}

char *
sw_say_listed (const SwWording *wording, const char *const *words, guint n)
{
  g_autofree char *all = NULL;

  for (guint i = 0; i < n; i++)
    {
      if (words[i] == NULL || *words[i] == '\0')
        continue;
      /* Translators: two items of a list of words. */
      char *longer = all != NULL ? sw_say_filled (sw_trc (wording, "list of words", "%1$s, %2$s"),
                                                  all, words[i])
                                 : g_strdup (words[i]);
      g_free (all);
      all = longer;
    }
  return all != NULL ? g_steal_pointer (&all) : g_strdup ("");
}

char *
sw_say_marks (const SwWording *wording, guint marks)
{
  const char *words[SW_N_MARKS] = { NULL };

  for (guint i = 0; i < SW_N_MARKS; i++)
    if ((marks & marks_in_order[i].mark) != 0)
      words[i] = sw_trc (wording, "mark of a record", marks_in_order[i].word);
  return sw_say_listed (wording, words, SW_N_MARKS);
}

const char *
sw_say_list_state (const SwWording *wording, guint state)
{
  g_return_val_if_fail (state < G_N_ELEMENTS (states), NULL);
  return sw_trc (wording, "filter of records", states[state]);
}

char *
sw_say_list_outcome (const SwWording *wording, SwOutcomeKind kind)
{
  return sw_say_capital (wording, sw_say_outcome (wording, kind));
}

char *
sw_say_days (const SwWording *wording, gint64 from_ms, gint64 to_ms)
{
  g_autofree char *from = sw_date_format (wording, from_ms);
  g_autofree char *last = sw_date_format (wording, to_ms - 1);

  if (from_ms == 0 && to_ms == 0)
    return g_strdup (sw_tr (wording, "Any time"));
  if (to_ms == 0)
    return sw_say_filled (sw_tr (wording, "From %s"), from);
  if (from_ms == 0)
    return sw_say_filled (sw_tr (wording, "Until %s"), last);
  if (strcmp (from, last) == 0)
    return g_steal_pointer (&from);
  return sw_say_filled (sw_tr (wording, "%1$s to %2$s"), from, last);
}

char *
sw_moment_typed_format (const SwWording *wording, gint64 utc_ms)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (utc_ms / 1000);
  g_autoptr (GDateTime) local
      = utc != NULL ? g_date_time_to_timezone (utc, sw_wording_get_zone (wording)) : NULL;
  g_autofree char *day = sw_date_typed_format (wording, utc_ms);

  if (local == NULL)
    return g_strdup ("");
  /* Not by strftime: the digits are these in every language, and are read back. */
  return g_strdup_printf ("%s %02d:%02d", day, g_date_time_get_hour (local),
                          g_date_time_get_minute (local));
}

char *
sw_moment_list_format (const SwWording *wording, gint64 utc_ms)
{
  g_autofree char *moment = sw_moment_typed_format (wording, utc_ms);

  /* U+2066 ... U+2069: one piece, from left to right */
  return sw_wording_is_right_to_left (wording) ? g_strconcat ("\u2066", moment, "\u2069", NULL)
                                               : g_steal_pointer (&moment);
}

char *
sw_say_act_count (const SwWording *wording, guint n)
{
  g_autofree char *number = sw_number_format (wording, n, 9);

  return sw_say_filled (sw_trn (wording, "%s act", "%s acts", n), number);
}

char *
sw_say_entry_count (const SwWording *wording, guint n)
{
  g_autofree char *number = sw_number_format (wording, n, 9);

  return sw_say_filled (sw_trn (wording, "%s entry", "%s entries", n), number);
}

/* Translators: what somebody did, as a short heading. */
static const struct
{
  const char *kind;
  const char *words;
} acts[] = {
  { "setup", NC_ ("act", "Set-up") },
  { "test", NC_ ("act", "Step of a test") },
  { "dose", NC_ ("act", "Dose") },
  { "sign", NC_ ("act", "Signature") },
  { "amend", NC_ ("act", "Amendment") },
  { "void", NC_ ("act", "Void") },
  { "import", NC_ ("act", "Import") },
  { "migrate", NC_ ("act", "Change of the file's version") },
  { "sign_in", NC_ ("act", "Sign-in") },
  { "checkpoint", NC_ ("act", "Checkpoint") },
  { "restore", NC_ ("act", "Backup restored") },
};

const char *
sw_say_act (const SwWording *wording, const char *kind)
{
  for (guint i = 0; i < G_N_ELEMENTS (acts); i++)
    if (g_strcmp0 (acts[i].kind, kind) == 0)
      return sw_trc (wording, "act", acts[i].words);
  return sw_trc (wording, "act", NC_ ("act", "Unknown act"));
}

char *
sw_say_act_because (const SwWording *wording, const char *kind, const char *reason)
{
  const char *act = sw_say_act (wording, kind);

  if (reason == NULL || *reason == '\0')
    return g_strdup (act);
  /* Translators: what somebody did, and the reason as it was typed: "Amendment: misread". */
  return sw_say_filled (sw_trc (wording, "act", "%1$s: %2$s"), act, reason);
}

char *
sw_say_chosen (const SwWording *wording, guint n)
{
  g_autofree char *number = sw_number_format (wording, n, 9);

  if (n == 0)
    return g_strdup ("");
  return sw_say_filled (sw_trn (wording, "%s chosen", "%s chosen", n), number);
}

char *
sw_say_review_button (const SwWording *wording, guint n)
{
  g_autofree char *number = sw_number_format (wording, n, 9);

  if (n == 0)
    return g_strdup (sw_tr (wording, "_Review Tests…"));
  return sw_say_filled (sw_trn (wording, "_Review %s Test…", "_Review %s Tests…", n), number);
}

char *
sw_say_review_subject (const SwWording *wording, guint n, const char *first, const char *last)
{
  g_autofree char *number = sw_number_format (wording, n, 9);

  if (n == 1)
    return sw_say_filled (sw_tr (wording, "Test %s"), first);
  return sw_say_filled (
      sw_trn (wording, "%1$s test, from %2$s to %3$s", "%1$s tests, from %2$s to %3$s", n), number,
      first, last);
}

char *
sw_say_reviewed (const SwWording *wording, guint n)
{
  g_autofree char *number = sw_number_format (wording, n, 9);

  return sw_say_filled (sw_trn (wording, "%s test is reviewed.", "%s tests are reviewed.", n),
                        number);
}

char *
sw_say_left_out (const SwWording *wording, guint n, guint of, const char *why)
{
  g_autofree char *number = sw_number_format (wording, n, 9);
  g_autofree char *all = sw_number_format (wording, of, 9);
  g_autofree char *count = sw_say_filled (
      sw_trn (wording, "%1$s of the %2$s chosen cannot be reviewed and is left out.",
              "%1$s of the %2$s chosen cannot be reviewed and are left out.", n),
      number, all);

  return sw_say_both (wording, count, why);
}

char *
sw_say_too_many (const SwWording *wording, guint most)
{
  g_autofree char *number = sw_number_format (wording, most, 9);

  return sw_say_filled (sw_tr (wording,
                               "Choose at most %s tests at once: a review says that somebody "
                               "has looked at each of them."),
                        number);
}

char *
sw_say_two_sentences (const SwWording *wording, const char *first, const char *second)
{
  return sw_say_both (wording, first, second);
}

/* ---- doses ---- */

/* In the order of SwDoseState. */
static const char *const doses[] = {
  N_ ("%s worked out, not recorded yet"), N_ ("%s added"),
  N_ ("%s worked out, not added"),        N_ ("%s worked out, not known whether added"),
  N_ ("%s worked out, not used in time"),
};

char *
sw_say_dose_short (const SwWording *wording, guint state, double ml)
{
  g_return_val_if_fail (state < G_N_ELEMENTS (doses), NULL);

  g_autofree char *amount = sw_volume_format (wording, ml);
  return sw_say_filled (sw_tr (wording, doses[state]), amount);
}

char *
sw_say_total (const SwWording *wording, const char *total, const char *reading)
{
  /* Translators: titrant counted so far, and what the strip showed: "2 drops: Yellow, acid". */
  return sw_say_filled (sw_tr (wording, "%1$s: %2$s"), total, reading);
}

char *
sw_say_exported (const SwWording *wording, const char *name)
{
  return sw_say_filled (sw_tr (wording, "%s is written."), name);
}

/* ---- signatures ---- */

/* Translators: how the program knew who signed. */
static const struct
{
  const char *word;
  const char *words;
} identifications[] = {
  { "selected", NC_ ("how a signer is known", "by name alone") },
  { "secret", NC_ ("how a signer is known", "with a secret") },
  { "import", NC_ ("how a signer is known", "as imported") },
  { "demo", NC_ ("how a signer is known", "an invented person") },
  { "system", NC_ ("how a signer is known", "the program") },
};

static const char *
say_identified (const SwWording *wording, const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (identifications); i++)
    if (g_strcmp0 (identifications[i].word, word) == 0)
      return sw_trc (wording, "how a signer is known", identifications[i].words);
  return NULL;
}

char *
sw_say_signed (const SwWording *wording,
               const char *meaning,
               const char *person,
               gint64 at_ms,
               const char *identified_by)
{
  g_autofree char *when = sw_date_time_format (wording, at_ms);
  const char *how = say_identified (wording, identified_by);

  if (how == NULL)
    /* Translators: what a signature means, who signed, when. */
    return sw_say_filled (sw_tr (wording, "%1$s: %2$s, %3$s."), meaning, person, when);
  /* Translators: what a signature means, who signed, when, and how the signer is known: "Reviewed:
   * R. Invented, 24 May 2026 06:20, with a secret." */
  return sw_say_filled (sw_tr (wording, "%1$s: %2$s, %3$s, %4$s."), meaning, person, when, how);
}

const char *
sw_say_holds (const SwWording *wording, gboolean holds)
{
  return holds ? sw_tr (wording, "Still holds: nothing that it covers was changed since.")
               : sw_tr (wording, "No longer holds: what it covers was amended or made void since.");
}

/* ---- amending ---- */

/* In the order of SwAnswer. */
static const char *const answers[] = {
  NC_ ("answer", "No answer"),
  NC_ ("answer", "Yes"),
  NC_ ("answer", "No"),
  NC_ ("answer", "Not known"),
};

const char *
sw_say_answer (const SwWording *wording, guint answer)
{
  g_return_val_if_fail (answer < G_N_ELEMENTS (answers), NULL);
  return sw_trc (wording, "answer", answers[answer]);
}

char *
sw_say_lot_choice (const SwWording *wording, const char *product, const char *code)
{
  /* Translators: a product, and the code of a lot of it. */
  return sw_say_filled (sw_trc (wording, "lot of a product", "%1$s: %2$s"), product, code);
}
