/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences of signing in and of signing. */
#include "wording/sentence-sign.h"

#include <glib/gi18n.h>

#include "wording/number.h"
#include "wording/sentence-private.h"
#include "wording/time.h"

#define MS_PER_MIN 60000.0

/* ---- how a person is known ---- */

static const struct
{
  const char *listed;   /* beside a name in the list */
  const char *at_bench; /* beside the name of who works now */
  const char *sentence; /* the same, whole */
  const char *note;     /* in the box that asks for a signature */
} known_words[SW_N_KNOWN] = {
  [SW_KNOWN_NAME]
  = { NC_ ("how a person is known", "by name"), NC_ ("how a person is known", "by name"),
      /* Translators: %s is the name of a person. */
      N_ ("%s works by name alone, which proves nothing about who it is."),
      N_ ("A name alone proves nothing about who signed: anybody at this bench can type these "
          "initials. The record says that it was signed by name.") },
  [SW_KNOWN_SECRET]
  = { NC_ ("how a person is known", "with secret"), NC_ ("how a person is known", "signed in"),
      /* Translators: %s is the name of a person. */
      N_ ("%s signed in with the secret."),
      N_ ("The secret is asked for again, whoever is signed in: it is what makes this a "
          "signature.") },
  [SW_KNOWN_NO_SECRET] = { NC_ ("how a person is known", "no secret yet"),
                           NC_ ("how a person is known", "no secret yet"),
                           /* Translators: %s is the name of a person. */
                           N_ ("%s has no secret yet, and can write nothing."),
                           N_ ("Without a secret this person cannot sign.") },
  [SW_KNOWN_INVENTED]
  = { NC_ ("how a person is known", "invented"), NC_ ("how a person is known", "invented"),
      /* Translators: %s is the name of a person. */
      N_ ("%s is an invented person of the demo plant."),
      /* Translators: %s is the name of a person. */
      N_ ("Nobody in this invented plant has a secret: one press signs for %s. In a plant of yours "
          "the secret is asked for here.") },
};

const char *
sw_say_known (const SwWording *wording, SwKnown known)
{
  g_return_val_if_fail ((int)known >= 0 && known < SW_N_KNOWN, "");
  return sw_trc (wording, "how a person is known", known_words[known].listed);
}

const char *
sw_say_at_bench (const SwWording *wording, SwKnown known)
{
  g_return_val_if_fail ((int)known >= 0 && known < SW_N_KNOWN, "");
  return sw_trc (wording, "how a person is known", known_words[known].at_bench);
}

/* A note without a place for the name leaves it out. */
char *
sw_say_sign_note (const SwWording *wording, SwKnown known, const char *name)
{
  g_return_val_if_fail ((int)known >= 0 && known < SW_N_KNOWN, g_strdup (""));
  return sw_say_filled (sw_tr (wording, known_words[known].note), name);
}

char *
sw_say_who_works (const SwWording *wording, const char *name, SwKnown known)
{
  g_return_val_if_fail ((int)known >= 0 && known < SW_N_KNOWN, g_strdup (""));
  return sw_say_filled (sw_tr (wording, known_words[known].sentence), name);
}

const char *
sw_say_list_proves (const SwWording *wording, gboolean demo)
{
  if (demo)
    return sw_tr (wording, "Everybody here is invented and has no secret.");
  return sw_tr (wording, "A picked name proves nothing: anybody at this bench can pick it. Records "
                         "say how each person was known.");
}

/* ---- what is signed ---- */

#define REVIEWED 1 /* SwMeaning, which this layer does not know */

static const char *const meanings[] = {
  N_ ("I did this test as recorded."),
  N_ ("I have looked at this test and agree."),
  N_ ("I release this dose."),
  N_ ("I close this incident."),
};

const char *
sw_say_meaning (const SwWording *wording, guint meaning, guint n_subjects)
{
  g_return_val_if_fail (meaning < G_N_ELEMENTS (meanings), "");
  if (meaning == REVIEWED && n_subjects > 1)
    return sw_tr (wording, "I have looked at each of these tests and agree.");
  return sw_tr (wording, meanings[meaning]);
}

char *
sw_say_test_subject (const SwWording *wording, const char *code)
{
  /* Translators: %s is the code of a sample, such as "M-07-261124-1". */
  return g_strdup_printf (sw_tr (wording, "Test %s"), code);
}

char *
sw_say_dose_subject (const SwWording *wording, double ml, const char *machine)
{
  g_autofree char *volume = sw_volume_format (wording, ml);

  /* Translators: an amount such as "1260 mL", and a machine such as "M-07 Long bed". */
  return g_strdup_printf (sw_tr (wording, "A dose of %1$s for %2$s"), volume, machine);
}

char *
sw_say_incident_subject (const SwWording *wording, gint64 opened_ms, const char *machine)
{
  g_autofree char *day = sw_date_format (wording, opened_ms);

  /* Translators: a date, and a machine such as "M-07 Long bed". */
  return g_strdup_printf (sw_tr (wording, "The acid incident of %1$s on %2$s"), day, machine);
}

/* ---- the boxes ---- */

char *
sw_say_secret_of (const SwWording *wording, const char *name)
{
  /* Translators: label of a field; %s is the name of a person. */
  return g_strdup_printf (sw_tr (wording, "Secret of %s"), name);
}

char *
sw_say_initials_of (const SwWording *wording, const char *name)
{
  /* Translators: label of a field; %s is the name of a person. */
  return g_strdup_printf (sw_tr (wording, "Initials of %s"), name);
}

char *
sw_say_wrong_initials (const SwWording *wording, const char *typed, const char *name)
{
  if (*typed == '\0')
    return g_strdup (sw_tr (wording, "Type your initials: without them nothing is signed."));
  /* Translators: what was typed, and the name of a person. */
  return g_strdup_printf (sw_tr (wording, "“%1$s” are not the initials of %2$s."), typed, name);
}

char *
sw_say_new_secret_of (const SwWording *wording, const char *name)
{
  /* Translators: title of a box; %s is the name of a person. */
  return g_strdup_printf (sw_tr (wording, "A New Secret for %s"), name);
}

char *
sw_say_given_secret (const SwWording *wording, const char *giver)
{
  /* Translators: %s is the name of a person. */
  return g_strdup_printf (sw_tr (wording,
                                 "%s chose your present secret, and so knows it. Choose one "
                                 "of your own: with that you are signed in."),
                          giver);
}

char *
sw_say_secret_state (const SwWording *wording, gboolean has, const char *giver)
{
  if (!has)
    return g_strdup (sw_tr (wording, "No secret is set for this person."));
  if (giver == NULL)
    return g_strdup (sw_tr (wording, "This person has a secret that nobody else knows."));
  /* Translators: %s is the name of a person. */
  return g_strdup_printf (
      sw_tr (wording, "%s set the secret; another must be chosen at the next sign-in."), giver);
}

static const char *const words[SW_N_SIGN_WORDS] = {
  [SW_SIGN_WORD_SIGN] = NC_ ("button", "Sign"),
  [SW_SIGN_WORD_SIGN_IN] = NC_ ("button", "Sign In"),
  [SW_SIGN_WORD_SET_SECRET] = NC_ ("button", "Set Secret"),
  [SW_SIGN_WORD_CHANGE_SECRET] = NC_ ("button", "Change My Secret"),
  [SW_SIGN_WORD_OWN_SECRET] = NC_ ("button", "Set My Secret"),
  [SW_SIGN_WORD_SET_SECRET_ELLIPSIS] = NC_ ("button", "Set Secret…"),
  [SW_SIGN_WORD_SET_OWN_ELLIPSIS] = NC_ ("button", "Set My Secret…"),
  [SW_SIGN_WORD_CHANGE_OWN_ELLIPSIS] = NC_ ("button", "Change My Secret…"),
  [SW_SIGN_WORD_CANCEL] = NC_ ("button", "Cancel"),
  [SW_SIGN_WORD_WHO_SIGNS] = N_ ("Who signs?"),
  [SW_SIGN_WORD_NO_SIGNER]
  = N_ ("Nobody on file may sign this: it takes a reviewer or an administrator who did not do the "
        "work. Add one in Set-up, People."),
  [SW_SIGN_WORD_TYPE_SECRET] = N_ ("Type the secret."),
  [SW_SIGN_WORD_NOT_THE_SAME] = N_ ("The two differ. Type the new secret once more in both."),
  [SW_SIGN_WORD_NOT_CHANGED] = N_ ("This is the secret you have. Choose another."),
  [SW_SIGN_WORD_OLD_SECRET] = N_ ("Your secret as it is now"),
  [SW_SIGN_WORD_GIVEN_SECRET] = N_ ("The secret you were given"),
  [SW_SIGN_WORD_NEW_SECRET] = N_ ("The new secret"),
  [SW_SIGN_WORD_AGAIN] = N_ ("The new secret once more"),
  [SW_SIGN_WORD_SECRET_RULE] = N_ (
      "8 characters or more, of any kind. Some words that make a picture only you see are easy to "
      "keep and hard to guess."),
  [SW_SIGN_WORD_LOST_SECRET]
  = N_ ("Nobody can read a secret out of the file. When one is forgotten, an administrator sets a "
        "new one."),
  [SW_SIGN_WORD_GIVE_SECRET]
  = N_ ("You will know this secret, so it is good for one sign-in only: then another must be "
        "chosen. The journal says who set it."),
  [SW_SIGN_WORD_FIRST_TITLE] = N_ ("A Secret for an Administrator"),
  [SW_SIGN_WORD_FIRST_TEXT] = N_ (
      "As long as no administrator has a secret, anybody could pass for anybody, and so nothing is "
      "written. Whoever sets this one answers for the plant’s people."),
  [SW_SIGN_WORD_WHO_SETS] = N_ ("Which administrator are you?"),
  [SW_SIGN_WORD_NO_ADMINISTRATOR]
  = N_ ("No active administrator is on file, so nobody can set a secret here."),
  [SW_SIGN_WORD_SECRET_LATER] = N_ ("Save this person first; then a secret can be set here."),
  [SW_SIGN_WORD_SECRET_SET] = N_ ("The secret is set."),
  [SW_SIGN_WORD_SIGNED_OUT] = N_ ("Signed out."),
};

const char *
sw_say_sign_word (const SwWording *wording, SwSignWord word)
{
  g_return_val_if_fail ((int)word >= 0 && word < SW_N_SIGN_WORDS, "");
  if (word <= SW_SIGN_WORD_CANCEL)
    return sw_trc (wording, "button", words[word]);
  return sw_tr (wording, words[word]);
}

char *
sw_say_idle_lock (const SwWording *wording, const char *name, double minutes)
{
  g_autofree char *idle = sw_duration_format (wording, (gint64)(minutes * MS_PER_MIN));

  /* Translators: the name of a person, and a duration such as "10 min". */
  return g_strdup_printf (sw_tr (wording, "%1$s was signed out, because nobody touched this window "
                                          "for %2$s. What was typed is still here."),
                          name, idle);
}
