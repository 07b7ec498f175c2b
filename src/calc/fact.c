/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facts that carry a text. */
#include "calc/fact.h"

#include <string.h>

SwFact
sw_fact_with_text (SwFactCode code, const char *text)
{
  SwFact fact = sw_fact (code);
  const char *end = NULL;

  if (text == NULL)
    return fact;

  /* Cut at a character, and before the first byte that is no UTF-8: the text goes to a screen. */
  g_utf8_validate (text, (gssize)MIN (strlen (text), sizeof fact.text - 1), &end);
  memcpy (fact.text, text, (gsize)(end - text));
  return fact;
}
