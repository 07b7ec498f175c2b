/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences put together: filled in, set one after the other, begun with a capital.
 *
 * A sentence of a table is filled in here, not by printf: a directive that a translation got wrong
 * is then shown as it stands and cannot read memory that is not there. */
#include "wording/sentence-private.h"

/* "%s" or "%2$s" at @at: which value it asks for, from 0, and where it ends; NULL when it is none.
 */
static const char *
read_directive (const char *at, gsize next, gsize *value)
{
  if (at[1] == 's')
    {
      *value = next;
      return at + 2;
    }
  if (g_ascii_isdigit (at[1]) && at[1] != '0' && at[2] == '$' && at[3] == 's')
    {
      *value = (gsize)(at[1] - '1');
      return at + 4;
    }
  return NULL;
}

char *
sw_say_filled_with (const char *message, const char *const *values)
{
  GString *out = g_string_new (NULL);
  gsize n = g_strv_length ((char **)values);
  gsize next = 0;

  while (*message != '\0')
    {
      gsize value = 0;
      const char *end = *message == '%' ? read_directive (message, next, &value) : NULL;

      if (end == NULL || value >= n)
        {
          g_string_append_c (out, *message);
          message += g_str_has_prefix (message, "%%") ? 2 : 1;
          continue;
        }
      g_string_append (out, values[value]);
      next = value + 1;
      message = end;
    }
  return g_string_free (out, FALSE);
}

char *
sw_say_both (const SwWording *wording, const char *first, const char *second)
{
  if (*first == '\0' || *second == '\0')
    return g_strconcat (first, second, NULL);
  /* Translators: two whole sentences; leave the space out where your language needs none. */
  return g_strdup_printf (sw_trc (wording, "two sentences", "%1$s %2$s"), first, second);
}

char *
sw_say_capital (const SwWording *wording, const char *words)
{
  const char *language = sw_wording_get_language (wording);
  gunichar first = g_utf8_get_char (words);
  char letter[7] = "";

  /* Unicode's plain rule loses the dot of a Turkish i. */
  if (first == 'i' && (g_str_has_prefix (language, "tr") || g_str_has_prefix (language, "az")))
    first = 0x130;
  else
    first = g_unichar_toupper (first);
  letter[g_unichar_to_utf8 (first, letter)] = '\0';
  return *words == '\0' ? g_strdup ("") : g_strconcat (letter, g_utf8_next_char (words), NULL);
}
