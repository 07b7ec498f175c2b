/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences of signing in and of signing.
 *
 * Meanings and kinds of identification are counted as records/test.h and records/store.h count
 * them; wording knows no records, so they come as plain numbers.
 */
#pragma once

#include "wording/wording.h"

G_BEGIN_DECLS

/* How a person is known, or could be. */
typedef enum
{
  SW_KNOWN_NAME,      /* works by name alone */
  SW_KNOWN_SECRET,    /* has a secret */
  SW_KNOWN_NO_SECRET, /* needs one, and has none yet */
  SW_KNOWN_INVENTED,  /* of the demo plant */
  SW_N_KNOWN
} SwKnown;
/* A word beside a name in the list of people: "by name". (transfer none) */
const char *sw_say_known (const SwWording *wording, SwKnown known);
/* The word beside the name of who works now: "signed in". (transfer none) */
const char *sw_say_at_bench (const SwWording *wording, SwKnown known);
/* The same as a whole sentence. (transfer full) */
char *sw_say_who_works (const SwWording *wording, const char *name, SwKnown known);
/* What the list of people says below the names: what picking one proves. (transfer none) */
const char *sw_say_list_proves (const SwWording *wording, gboolean demo);

/* What a signature means, in the signer's own voice: SwMeaning; on so many at once. (transfer none)
 */
const char *sw_say_meaning (const SwWording *wording, guint meaning, guint n_subjects);
/* What a signature is put to. (transfer full) */
char *sw_say_test_subject (const SwWording *wording, const char *code);
char *sw_say_dose_subject (const SwWording *wording, double ml, const char *machine);
char *sw_say_incident_subject (const SwWording *wording, gint64 opened_ms, const char *machine);

/* What the box says about how the signer is known. (transfer full) */
char *sw_say_sign_note (const SwWording *wording, SwKnown known, const char *name);
/* (transfer full) */
char *sw_say_secret_of (const SwWording *wording, const char *name);
char *sw_say_initials_of (const SwWording *wording, const char *name);
char *sw_say_wrong_initials (const SwWording *wording, const char *typed, const char *name);
char *sw_say_new_secret_of (const SwWording *wording, const char *name);
char *sw_say_given_secret (const SwWording *wording, const char *giver);

/* Whether a person has a secret; @giver: who chose it for them, NULL = they did. (transfer full) */
char *sw_say_secret_state (const SwWording *wording, gboolean has, const char *giver);

/* Short texts of the boxes. (transfer none) */
typedef enum
{
  SW_SIGN_WORD_SIGN, /* buttons */
  SW_SIGN_WORD_SIGN_IN,
  SW_SIGN_WORD_SET_SECRET,
  SW_SIGN_WORD_CHANGE_SECRET,
  SW_SIGN_WORD_OWN_SECRET,          /* the first of one's own */
  SW_SIGN_WORD_SET_SECRET_ELLIPSIS, /* a box follows */
  SW_SIGN_WORD_SET_OWN_ELLIPSIS,
  SW_SIGN_WORD_CHANGE_OWN_ELLIPSIS,
  SW_SIGN_WORD_CANCEL,
  SW_SIGN_WORD_WHO_SIGNS,    /* above the list of people */
  SW_SIGN_WORD_NO_SIGNER,    /* nobody who may */
  SW_SIGN_WORD_TYPE_SECRET,  /* nothing typed */
  SW_SIGN_WORD_NOT_THE_SAME, /* the second time differs from the first */
  SW_SIGN_WORD_NOT_CHANGED,  /* the new secret is the old one */
  SW_SIGN_WORD_OLD_SECRET,   /* labels */
  SW_SIGN_WORD_GIVEN_SECRET,
  SW_SIGN_WORD_NEW_SECRET,
  SW_SIGN_WORD_AGAIN,
  SW_SIGN_WORD_SECRET_RULE, /* how long, and what makes a good one */
  SW_SIGN_WORD_LOST_SECRET, /* nobody can read a secret out of the file */
  SW_SIGN_WORD_GIVE_SECRET, /* what setting somebody else's secret means */
  SW_SIGN_WORD_FIRST_TITLE, /* an administrator's first secret */
  SW_SIGN_WORD_FIRST_TEXT,
  SW_SIGN_WORD_WHO_SETS, /* above the list of administrators */
  SW_SIGN_WORD_NO_ADMINISTRATOR,
  SW_SIGN_WORD_SECRET_SET,   /* done */
  SW_SIGN_WORD_SECRET_LATER, /* of a person who is not saved yet */
  SW_SIGN_WORD_SIGNED_OUT,
  SW_N_SIGN_WORDS
} SwSignWord;
const char *sw_say_sign_word (const SwWording *wording, SwSignWord word);

/* Signed out because nobody touched the window. (transfer full) */
char *sw_say_idle_lock (const SwWording *wording, const char *name, double minutes);

G_END_DECLS
