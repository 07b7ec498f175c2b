/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimal marks, paper and reading direction by language and territory.
 *
 * Our own tables, because the process's locale may not be installed and is not the reader's.
 * Source: Unicode CLDR, from memory; common practice for paper, no source. */
#include "wording/territory.h"

#include <string.h>

/* Languages whose decimal mark is a comma. */
static const char *const comma_languages[]
    = { "bg", "ca", "cs", "da", "de", "el", "es", "et", "fi", "fr", "hr",
        "hu", "id", "it", "lt", "lv", "nb", "nl", "nn", "no", "pl", "pt",
        "ro", "ru", "sk", "sl", "sr", "sv", "tr", "uk", "vi", NULL };
static const char *const right_to_left_languages[]
    = { "ar", "dv", "fa", "he", "ps", "sd", "ug", "ur", "xr", "yi", NULL };
/* Territories that print on letter paper. */
static const char *const letter_territories[]
    = { "US", "CA", "MX", "CL", "CO", "CR", "GT", "NI", "PA", "PH", "PR", "SV", "VE", NULL };

/* Where a territory writes another mark than its language does elsewhere. */
static const struct
{
  const char *locale;
  const char *mark;
} territory_marks[] = {
  { "de_CH", "." }, { "de_LI", "." }, { "it_CH", "." }, { "es_MX", "." }, { "es_US", "." },
  { "es_GT", "." }, { "es_HN", "." }, { "es_NI", "." }, { "es_PA", "." }, { "es_PE", "." },
  { "es_PR", "." }, { "es_SV", "." }, { "es_DO", "." }, { "en_ZA", "," }, { "en_DE", "," },
};

static gboolean
contains_language (const char *const *languages, const char *locale)
{
  g_autofree char *language = g_strndup (locale, strcspn (locale, "_-"));

  return g_strv_contains (languages, language);
}

const char *
sw_territory_decimal_mark (const char *locale)
{
  for (gsize i = 0; i < G_N_ELEMENTS (territory_marks); i++)
    if (strcmp (territory_marks[i].locale, locale) == 0)
      return territory_marks[i].mark;
  return contains_language (comma_languages, locale) ? "," : ".";
}

gboolean
sw_territory_is_letter (const char *locale)
{
  const char *territory = strchr (locale, '_');

  return territory != NULL && g_strv_contains (letter_territories, territory + 1);
}

gboolean
sw_territory_is_right_to_left (const char *locale)
{
  return contains_language (right_to_left_languages, locale);
}
