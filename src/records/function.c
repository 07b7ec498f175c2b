/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions of our own that statements may call. */
#include "records/function-private.h"

#include <string.h>

static gboolean
is_ascii (const char *text)
{
  for (; *text != '\0'; text++)
    if ((guchar)*text > 127)
      return FALSE;
  return TRUE;
}

/* Most texts are ASCII: for them Unicode has nothing to say, and a list asks for thousands. */
char *
sw_text_fold (const char *text)
{
  g_autofree char *valid = NULL;
  g_autofree char *folded = NULL;

  if (is_ascii (text))
    return g_ascii_strdown (text, -1);
  valid = g_utf8_make_valid (text, -1);
  folded = g_utf8_casefold (valid, -1);
  return g_utf8_normalize (folded, -1, G_NORMALIZE_DEFAULT_COMPOSE);
}

static gboolean
has_each (const char *folded, const char *words)
{
  g_autofree char *copy = g_strdup (words);
  char *rest = NULL;

  for (char *word = strtok_r (copy, " ", &rest); word != NULL; word = strtok_r (NULL, " ", &rest))
    if (strstr (folded, word) == NULL)
      return FALSE;
  return TRUE;
}

static void
has_words_cb (sqlite3_context *context, int n, sqlite3_value **values)
{
  const char *text = (const char *)sqlite3_value_text (values[0]);
  const char *words = (const char *)sqlite3_value_text (values[1]);
  g_autofree char *folded = NULL;

  if (text == NULL || words == NULL)
    return sqlite3_result_int (context, 0);
  folded = sw_text_fold (text);
  sqlite3_result_int (context, has_each (folded, words));
}

/* DIRECTONLY: a schema of somebody else's making may not call it. */
int
sw_functions_install (sqlite3 *db)
{
  return sqlite3_create_function_v2 (db, "sw_has_words", 2,
                                     SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_DIRECTONLY, NULL,
                                     has_words_cb, NULL, NULL, NULL);
}
