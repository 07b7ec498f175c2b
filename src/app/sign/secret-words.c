/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of the box for a new secret. */
#include "app/sign/secret-words.h"

#include "wording/sentence-sign.h"

static char *
dup_name (SwContext *context, gint64 id)
{
  g_autoptr (SwPerson) person
      = id != 0 ? sw_person_load (sw_context_get_store (context), id, NULL) : NULL;

  return g_strdup (person != NULL ? person->name : "?");
}

static char *
dup_word (SwContext *context, SwSignWord word)
{
  return g_strdup (sw_say_sign_word (sw_context_get_wording (context), word));
}

char *
sw_secret_words_title (SwContext *context, SwSecretWhy why, gint64 person, gboolean has_secret)
{
  g_autofree char *name = dup_name (context, person);

  if (why == SW_SECRET_OWN)
    return dup_word (context, has_secret ? SW_SIGN_WORD_CHANGE_SECRET : SW_SIGN_WORD_OWN_SECRET);
  if (why == SW_SECRET_FIRST)
    return dup_word (context, SW_SIGN_WORD_FIRST_TITLE);
  return sw_say_new_secret_of (sw_context_get_wording (context), name);
}

char *
sw_secret_words_text (SwContext *context, SwSecretWhy why, gint64 person)
{
  g_autoptr (SwPerson) row = NULL;
  g_autofree char *giver = NULL;

  if (why == SW_SECRET_OTHER)
    return dup_word (context, SW_SIGN_WORD_GIVE_SECRET);
  if (why == SW_SECRET_FIRST)
    return dup_word (context, SW_SIGN_WORD_FIRST_TEXT);
  if (why == SW_SECRET_OWN)
    return NULL;
  row = sw_person_load (sw_context_get_store (context), person, NULL);
  giver = dup_name (context, row != NULL ? row->secret_given_by : 0);
  return sw_say_given_secret (sw_context_get_wording (context), giver);
}
