/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One journal entry as a sentence: what was done, when, by whom, how the program knew, where, why;
 * then whatever was out of the ordinary about its time.
 */
#include "wording/sentence-private.h"
#include "wording/sentence-record.h"

#include <glib/gi18n.h>

#include <string.h>

/* Each twice: without a reason, and with one. */
typedef struct
{
  const char *kind;   /* of the act; NULL = any */
  const char *action; /* NULL = any */
  const char *table;  /* NULL = any */
  const char *plain;
  const char *because;
} Sentence;

/* The first that fits. */
/* Translators: in all messages with the context "journal": 1 date and time,
 * 2 a person and how the program knew them, 3 the name of a computer, 4 the reason as typed. */
static const Sentence sentences[] = {
  { NULL, "void", NULL, NC_ ("journal", "Voided on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "Voided on %1$s by %2$s, at %3$s: %4$s.") },
  { "amend", "insert", NULL, NC_ ("journal", "Added by an amendment on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "Added by an amendment on %1$s by %2$s, at %3$s: %4$s.") },
  { "amend", NULL, NULL, NC_ ("journal", "Amended on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "Amended on %1$s by %2$s, at %3$s: %4$s.") },
  { "void", NULL, NULL, NC_ ("journal", "Changed on %1$s by %2$s, at %3$s, with a record voided."),
    NC_ ("journal", "Changed on %1$s by %2$s, at %3$s, with a record voided: %4$s.") },
  { NULL, "migrate", NULL,
    NC_ ("journal", "The file was changed to a newer form on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "The file was changed to a newer form on %1$s by %2$s, at %3$s: %4$s.") },
  { "import", "insert", NULL, NC_ ("journal", "Imported on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "Imported on %1$s by %2$s, at %3$s: %4$s.") },
  { NULL, "insert", "review", NC_ ("journal", "Signed on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "Signed on %1$s by %2$s, at %3$s: %4$s.") },
  { NULL, "insert", "sign_in", NC_ ("journal", "Sign-in of %2$s on %1$s, at %3$s."),
    NC_ ("journal", "Sign-in of %2$s on %1$s, at %3$s: %4$s.") },
  { NULL, "insert", "checkpoint",
    NC_ ("journal", "The journal’s head was signed on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "The journal’s head was signed on %1$s by %2$s, at %3$s: %4$s.") },
  { NULL, "insert", "restoration",
    NC_ ("journal", "A backup was restored on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "A backup was restored on %1$s by %2$s, at %3$s: %4$s.") },
  { NULL, "insert", NULL, NC_ ("journal", "Added on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "Added on %1$s by %2$s, at %3$s: %4$s.") },
  { NULL, NULL, NULL, NC_ ("journal", "Changed on %1$s by %2$s, at %3$s."),
    NC_ ("journal", "Changed on %1$s by %2$s, at %3$s: %4$s.") },
};

static gboolean
fits (const char *wanted, const char *found)
{
  return wanted == NULL || (found != NULL && strcmp (wanted, found) == 0);
}

static const Sentence refused
    = { "sign_in", "insert", "sign_in",
        NC_ ("journal", "A wrong secret was refused on %1$s by %2$s, at %3$s."),
        NC_ ("journal", "A wrong secret was refused on %1$s by %2$s, at %3$s: %4$s.") };
static const Sentence made
    = { "migrate", "migrate", NULL, NC_ ("journal", "The file was made on %1$s by %2$s, at %3$s."),
        NC_ ("journal", "The file was made on %1$s by %2$s, at %3$s: %4$s.") };

static const Sentence *
find_sentence (const SwEntryFacts *facts)
{
  gsize i = 0;

  if (facts->makes_file)
    return &made;
  if (facts->refuses)
    return &refused;
  while (i < G_N_ELEMENTS (sentences) - 1
         && !(fits (sentences[i].kind, facts->kind) && fits (sentences[i].action, facts->action)
              && fits (sentences[i].table, facts->table)))
    i++;
  return &sentences[i];
}

/* Translators: in all messages with the context "who", %s is a person's name; it stands inside a
 * sentence such as "Amended on 24 May 2026 by N. Invented, signed in with a secret, at bench-2." */
static char *
say_who (const SwWording *wording, const SwEntryFacts *facts)
{
  static const struct
  {
    const char *word;
    const char *said;
  } ways[] = {
    { "secret", NC_ ("who", "%s, signed in with a secret") },
    { "selected", NC_ ("who", "%s, by name only") },
    { "import", NC_ ("who", "%s, through an import") },
    { "demo", NC_ ("who", "%s, an invented person") },
  };

  if (facts->person == NULL)
    return g_strdup (sw_trc (wording, "who", "the program"));
  if (fits ("sign_in", facts->table))
    return g_strdup (facts->person); /* how they were known is what the sentence is about */
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    if (fits (ways[i].word, facts->identified_by))
      return sw_say_filled (sw_trc (wording, "who", ways[i].said), facts->person);
  return g_strdup (facts->person);
}

/* The sentence brings its own full stop. (transfer full) */
static char *
trim_reason (const char *reason)
{
  char *trimmed = g_strdup (reason != NULL ? reason : "");
  gsize n;

  g_strstrip (trimmed);
  n = strlen (trimmed);
  if (n > 1 && trimmed[n - 1] == '.' && trimmed[n - 2] != '.')
    trimmed[n - 1] = '\0';
  return trimmed;
}

static char *
say_deed (const SwWording *wording, const SwEntryFacts *facts)
{
  const Sentence *sentence = find_sentence (facts);
  g_autofree char *when = sw_date_time_format (wording, facts->utc_ms);
  g_autofree char *who = say_who (wording, facts);
  g_autofree char *reason = trim_reason (facts->reason);
  const char *where = facts->workstation != NULL ? facts->workstation : "";

  if (strcmp (reason, SW_REASON_UNDONE) == 0)
    return sw_say_filled (sw_trc (wording, "journal", "Undone at once on %1$s by %2$s, at %3$s."),
                          when, who, where);
  if (*reason == '\0')
    return sw_say_filled (sw_trc (wording, "journal", sentence->plain), when, who, where);
  return sw_say_filled (sw_trc (wording, "journal", sentence->because), when, who, where, reason);
}

/* @sentence is taken, and so is what is returned. */
static char *
add_time (const SwWording *wording, char *sentence, const char *message, gint64 ms)
{
  g_autofree char *first = sentence;
  g_autofree char *length = NULL;
  g_autofree char *second = NULL;

  if (ms <= 0)
    return g_steal_pointer (&first);
  length = sw_duration_format (wording, ms);
  second = sw_say_filled (message, length);
  return sw_say_both (wording, first, second);
}

char *
sw_say_entry (const SwWording *wording, const SwEntryFacts *facts)
{
  char *sentence;

  g_return_val_if_fail (wording != NULL && facts != NULL, NULL);
  sentence = say_deed (wording, facts);
  /* Translators: %s is a length of time such as "2 h" */
  sentence = add_time (wording, sentence, sw_tr (wording, "Written %s after it happened."),
                       facts->late_ms);
  /* Translators: %s is a length of time such as "5 min" */
  sentence = add_time (wording, sentence,
                       sw_tr (wording, "The clock stood %s before the journal’s last entry."),
                       facts->clock_back_ms);
  /* Translators: %s is a length of time such as "5 min" */
  return add_time (wording, sentence,
                   sw_tr (wording, "The clock had jumped ahead by %s since the act before."),
                   facts->clock_ahead_ms);
}
