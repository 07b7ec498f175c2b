/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words that the file has for states and kinds, in the reader's language.
 *
 * The file's words never change (docs/file-format.md); those that the rest of the program already
 * has names for are looked up there, so that one thing has one name.
 */
#include "wording/sentence-record-private.h"
#include "wording/sentence-setup.h"

#include <glib/gi18n.h>

#include <string.h>

#define MOST_WORDS 10

/* ---- named elsewhere ---- */

static const char *
say_field (const SwWording *wording, guint field)
{
  return sw_say_field (wording, (SwField)field);
}

static const char *
say_outcome (const SwWording *wording, guint outcome)
{
  return sw_say_outcome (wording, (SwOutcomeKind)outcome);
}

/* In the order in which the functions count. */
static const struct
{
  const char *kind;
  const char *(*say) (const SwWording *wording, guint i);
  const char *words[MOST_WORDS];
} named[] = {
  { "role", sw_say_role, { "technician", "reviewer", "administrator", "auditor" } },
  { "family", sw_say_family, { "hydrocarbon", "modified_alcohol", "chlorinated", "other" } },
  { "use", sw_say_product_use, { "neutraliser", "caustic", "titrant", "strips", "control" } },
  { "neutraliser", sw_say_neutraliser_kind, { "unknown", "amine", "epoxide", "both" } },
  { "service", sw_say_service_state, { "running", "stopped", "retired" } },
  { "compartment",
    sw_say_compartment_kind,
    { "wash_tank", "chamber", "still", "condensate", "separator", "pipes", "other" } },
  { "field", say_field, { "acid", "between", "neutral", "alkaline" } },
  { "outcome",
    say_outcome,
    { "open", "passed", "acid_found", "over_range", "reserve_found", "no_reserve",
      "reserve_over_range" } },
  { "paper", sw_say_paper, { "a4", "letter" } },
};

/* ---- named here ---- */

typedef struct
{
  const char *kind;
  const char *word;
  const char *context;
  const char *said;
} Word;

static const Word words[] = {
  { "purpose", "routine", "purpose of a sample", NC_ ("purpose of a sample", "routine") },
  { "purpose", "retest", "purpose of a sample", NC_ ("purpose of a sample", "re-test") },
  { "purpose", "control", "purpose of a sample", NC_ ("purpose of a sample", "control") },
  { "purpose", "duplicate", "purpose of a sample", NC_ ("purpose of a sample", "duplicate") },
  { "answer", "none", "answer", NC_ ("answer", "not asked") },
  { "answer", "yes", "answer", NC_ ("answer", "yes") },
  { "answer", "no", "answer", NC_ ("answer", "no") },
  { "answer", "unknown", "answer", NC_ ("answer", "not known") },
  { "step", "draw", "step of a test", NC_ ("step of a test", "draw") },
  { "step", "prepare", "step of a test", NC_ ("step of a test", "prepare") },
  { "step", "read", "step of a test", NC_ ("step of a test", "read") },
  { "step", "result", "step of a test", NC_ ("step of a test", "result") },
  { "step", "check", "step of a test", NC_ ("step of a test", "check and sign") },
  { "step", "dose", "step of a test", NC_ ("step of a test", "dose") },
  { "step", "added", "step of a test", NC_ ("step of a test", "added") },
  { "step", "done", "step of a test", NC_ ("step of a test", "done") },
  { "step", "abandoned", "step of a test", NC_ ("step of a test", "abandoned") },
  { "dose", "open", "state of a dose", NC_ ("state of a dose", "worked out, not recorded") },
  { "dose", "added", "state of a dose", NC_ ("state of a dose", "added") },
  { "dose", "not_added", "state of a dose", NC_ ("state of a dose", "not added") },
  { "dose", "not_known", "state of a dose", NC_ ("state of a dose", "not known") },
  { "dose", "lapsed", "state of a dose", NC_ ("state of a dose", "lapsed") },
  { "incident", "open", "incident", NC_ ("incident", "open") },
  { "incident", "retest_passed", "incident", NC_ ("incident", "re-test passed, waits for review") },
  { "incident", "closed", "incident", NC_ ("incident", "closed") },
  { "direction", "base", "direction", NC_ ("direction", "base") },
  { "direction", "acid", "direction", NC_ ("direction", "acid") },
  { "meaning", "performed", "signature", NC_ ("signature", "I did this as recorded") },
  { "meaning", "reviewed", "signature", NC_ ("signature", "I reviewed this") },
  { "meaning", "released", "signature", NC_ ("signature", "I release this dose") },
  { "meaning", "closed", "signature", NC_ ("signature", "I close this incident") },
  { "schedule", "start", "schedule", NC_ ("schedule", "first test of the plan") },
  { "schedule", "longer", "schedule", NC_ ("schedule", "tests pass: longer") },
  { "schedule", "same", "schedule", NC_ ("schedule", "as before") },
  { "schedule", "early", "schedule", NC_ ("schedule", "tested early: as before") },
  { "schedule", "retest", "schedule", NC_ ("schedule", "re-test passed") },
  { "schedule", "halved", "schedule", NC_ ("schedule", "acid found: halved") },
  { "schedule", "returned", "schedule", NC_ ("schedule", "much acid: back to the start") },
  { "schedule", "at_longest", "schedule", NC_ ("schedule", "at the longest allowed") },
  { "schedule", "at_shortest", "schedule", NC_ ("schedule", "at the shortest allowed") },
  { "known", "selected", "known", NC_ ("known", "by name only") },
  { "known", "secret", "known", NC_ ("known", "by a secret") },
  { "known", "import", "known", NC_ ("known", "by an import") },
  { "known", "demo", "known", NC_ ("known", "an invented person") },
  { "known", "system", "known", NC_ ("known", "the program itself") },
  { "sign_in", "accepted", "sign-in", NC_ ("sign-in", "accepted") },
  { "sign_in", "refused", "sign-in", NC_ ("sign-in", "refused") },
  { "setting", "name_only", "setting", NC_ ("setting", "Technicians may work by name only") },
  { "setting", "idle_lock_min", "setting", NC_ ("setting", "Minutes until the program locks") },
};

static const char *
find_named (const SwWording *wording, gsize i, const char *word)
{
  for (guint k = 0; k < MOST_WORDS && named[i].words[k] != NULL; k++)
    if (strcmp (named[i].words[k], word) == 0)
      return named[i].say (wording, k);
  return NULL;
}

static const char *
find_language (const char *code)
{
  for (guint i = 0; i < SW_N_SETUP_LANGUAGES; i++)
    if (strcmp (sw_setup_languages[i], code) == 0)
      return sw_say_language (NULL, i);
  return NULL;
}

const char *
sw_say_word (const SwWording *wording, const char *kind, const char *word)
{
  if (strcmp (kind, "language") == 0)
    return find_language (word);
  if (strcmp (kind, "table") == 0)
    return sw_say_table (wording, word);
  if (strcmp (kind, "text") == 0)
    return sw_say_method_step (wording, word);
  for (gsize i = 0; i < G_N_ELEMENTS (named); i++)
    if (strcmp (named[i].kind, kind) == 0)
      return find_named (wording, i, word);
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcmp (words[i].kind, kind) == 0 && strcmp (words[i].word, word) == 0)
      return sw_trc (wording, words[i].context, words[i].said);
  return NULL;
}
