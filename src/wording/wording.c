/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One reader's language, decimal mark, zone and paper, and the catalogues behind it.
 *
 * gettext speaks one language per process: the one that LANGUAGE and LC_MESSAGES name. To speak any
 * of them at any time, every catalogue is also installed as a domain of its own, in the folder of a
 * language that is always on the list:
 *
 *   <locale dir>/xx/LC_MESSAGES/stillwarden-de.mo      dgettext ("stillwarden-de", ...)
 *
 * LANGUAGE gets ":xx" at its end once, in sw_wording_init, and LC_MESSAGES leaves "C", where
 * gettext would not look at all.
 *
 * Invariants:
 * 1. domain is NULL (the source language) or a bound domain whose file existed at init.
 * 2. After sw_wording_init nothing here reads or writes the environment but sw_wording_new.
 */
#include "wording/wording.h"

#include <glib/gi18n.h>
#include <locale.h>
#ifdef __GLIBC__
#include <gnu/libc-version.h>
#endif
#include <string.h>

#include "sw-config.h"
#include "wording/territory.h"

#define DOMAIN_PREFIX SW_GETTEXT_DOMAIN "-"
/* The language in whose folder all catalogues lie; also the name of the pseudo-locale. */
#define ANY_LANGUAGE "xx"

struct _SwWording
{
  /* Owned */
  char *language;
  char *domain;
  GTimeZone *zone;

  const char *decimal_mark;
  SwPaper paper;
};

/* Owned: the domains found by sw_wording_init, as a set; lives as long as the program. */
static GHashTable *domains;

/* "de_AT.UTF-8@euro" to "de_AT". (transfer full) */
static char *
strip_codeset (const char *locale)
{
  return g_strndup (locale, strcspn (locale, ".@"));
}

/* "de_AT" to "de". (transfer full) */
static char *
strip_territory (const char *locale)
{
  return g_strndup (locale, strcspn (locale, "_-"));
}

static gboolean
is_plain_locale (const char *locale)
{
  return *locale == '\0' || strcmp (locale, "C") == 0 || strcmp (locale, "POSIX") == 0;
}

/* The first of the named variables that is not empty, without codeset; "" when there is none.
 * (transfer full) */
static char *
read_locale (const char *const *variables)
{
  for (gsize i = 0; variables[i] != NULL; i++)
    {
      const char *value = g_getenv (variables[i]);

      if (value != NULL && *value != '\0')
        return strip_codeset (value);
    }
  return g_strdup ("");
}

/* The domain that speaks @language or the language without its territory, or NULL. (transfer full)
 */
static char *
find_domain (const char *language)
{
  g_autofree char *base = strip_territory (language);
  const char *const candidates[] = { language, base };

  for (gsize i = 0; i < G_N_ELEMENTS (candidates) && domains != NULL; i++)
    {
      g_autofree char *domain = g_strconcat (DOMAIN_PREFIX, candidates[i], NULL);
      if (g_hash_table_contains (domains, domain))
        return g_steal_pointer (&domain);
    }
  return NULL;
}

static gboolean
is_english (const char *language)
{
  g_autofree char *base = strip_territory (language);

  return strcmp (base, "en") == 0;
}

/* The first language of the environment that has a catalogue, or is English. (transfer full) */
static char *
choose_language (void)
{
  const char *const variables[] = { "LC_ALL", "LC_MESSAGES", "LANG", NULL };
  g_autofree char *locale = read_locale (variables);
  const char *list = g_getenv ("LANGUAGE");
  g_autofree char *all = g_strconcat (list != NULL ? list : "", ":", locale, NULL);
  g_auto (GStrv) names = g_strsplit (all, ":", -1);

  for (gsize i = 0; names[i] != NULL; i++)
    {
      g_autofree char *name = strip_codeset (names[i]);
      g_autofree char *domain = NULL;

      /* Our own entry at the end of the list is no wish of the person. */
      if (is_plain_locale (name) || (strcmp (name, ANY_LANGUAGE) == 0 && i > 0))
        continue;
      domain = find_domain (name);
      if (domain != NULL || is_english (name))
        return g_steal_pointer (&name);
    }
  return g_strdup ("en");
}

/* A person who chose a language reads its mark, unless the PC speaks that very language as another
 * territory writes it; a person who chose nothing reads what the PC's numbers look like. */
static const char *
choose_mark (const char *language, gboolean chosen)
{
  const char *const variables[] = { "LC_ALL", "LC_NUMERIC", NULL };
  g_autofree char *locale = read_locale (variables);
  g_autofree char *base = strip_territory (locale);
  g_autofree char *own_base = strip_territory (language);

  if (is_plain_locale (locale) || strchr (locale, '_') == NULL)
    return sw_territory_decimal_mark (language);
  if (chosen && (strchr (language, '_') != NULL || strcmp (base, own_base) != 0))
    return sw_territory_decimal_mark (language);
  return sw_territory_decimal_mark (locale);
}

static SwPaper
choose_paper (void)
{
  const char *const variables[] = { "LC_ALL", "LC_PAPER", "LANG", NULL };
  g_autofree char *locale = read_locale (variables);

  return sw_territory_is_letter (locale) ? SW_PAPER_LETTER : SW_PAPER_A4;
}

static GTimeZone *
open_zone (const char *zone)
{
  GTimeZone *opened = zone != NULL ? g_time_zone_new_identifier (zone) : NULL;

  return opened != NULL ? opened : g_time_zone_new_local ();
}

static void
clear_wording (gpointer data)
{
  SwWording *wording = data;

  g_free (wording->language);
  g_free (wording->domain);
  g_time_zone_unref (wording->zone);
}

/* Binds each catalogue found below @dir. */
static void
bind_domains (const char *dir)
{
  g_autofree char *folder = g_build_filename (dir, ANY_LANGUAGE, "LC_MESSAGES", NULL);
  g_autoptr (GDir) files = g_dir_open (folder, 0, NULL);
  const char *name;

  while (files != NULL && (name = g_dir_read_name (files)) != NULL)
    if (g_str_has_prefix (name, DOMAIN_PREFIX) && g_str_has_suffix (name, ".mo"))
      {
        char *domain = g_strndup (name, strlen (name) - strlen (".mo"));

        bindtextdomain (domain, dir);
        bind_textdomain_codeset (domain, "UTF-8");
        g_hash_table_add (domains, domain);
      }
}

#ifdef __GLIBC__
/* Locales that are likely to be installed where there is any. */
static const char *const candidates[]
    = { "en_US.UTF-8", "en_GB.UTF-8", "de_DE.UTF-8", "fr_FR.UTF-8", "es_ES.UTF-8",
        "it_IT.UTF-8", "pl_PL.UTF-8", "cs_CZ.UTF-8", "hu_HU.UTF-8", "tr_TR.UTF-8",
        "pt_BR.UTF-8", "zh_CN.UTF-8", "ja_JP.UTF-8" };

static gboolean
is_newer_glibc (void)
{
  char *minor = NULL;
  guint64 major = g_ascii_strtoull (gnu_get_libc_version (), &minor, 10);

  return major > 2 || (*minor == '.' && g_ascii_strtoull (minor + 1, NULL, 10) >= 39);
}
#endif

/* Leaves a locale for which gettext does not read LANGUAGE: "C", and from glibc 2.39 on "C.UTF-8"
 * too (sourceware bug 16621). There any other installed locale does; its own language plays no
 * part, because LANGUAGE goes first. */
static void
leave_plain_locale (void)
{
  const char *present = setlocale (LC_MESSAGES, NULL);

  if (!is_plain_locale (present) && !g_str_has_prefix (present, "C."))
    return;
#ifdef __GLIBC__
  if (is_newer_glibc ())
    for (gsize i = 0; i < G_N_ELEMENTS (candidates); i++)
      if (setlocale (LC_MESSAGES, candidates[i]) != NULL)
        return;
#endif
  setlocale (LC_MESSAGES, "C.UTF-8");
}

/* Puts the folder of all catalogues at the end of gettext's list. */
static void
open_message_list (void)
{
  const char *list = g_getenv ("LANGUAGE");
  g_autofree char *longer = NULL;

  leave_plain_locale ();
  if (list != NULL && g_str_has_suffix (list, ANY_LANGUAGE))
    return;
  /* An empty list means "as the locale says": name it, or the new entry would hide it. */
  if (list == NULL || *list == '\0')
    {
      const char *const variables[] = { "LC_ALL", "LC_MESSAGES", "LANG", NULL };
      g_autofree char *locale = read_locale (variables);

      longer = g_strconcat (is_plain_locale (locale) ? "en" : locale, ":" ANY_LANGUAGE, NULL);
    }
  else
    longer = g_strconcat (list, ":" ANY_LANGUAGE, NULL);
  g_setenv ("LANGUAGE", longer, TRUE);
}

void
sw_wording_init (const char *locale_dir)
{
  if (locale_dir == NULL)
    locale_dir = g_getenv ("SW_LOCALE_DIR");
  if (locale_dir == NULL)
    locale_dir = SW_LOCALE_DIR;

  if (domains == NULL)
    domains = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  bindtextdomain (SW_GETTEXT_DOMAIN, locale_dir);
  bind_textdomain_codeset (SW_GETTEXT_DOMAIN, "UTF-8");
  bind_domains (locale_dir);
  open_message_list ();
}

SwWording *
sw_wording_new (const char *language, const char *zone)
{
  SwWording *wording = g_atomic_rc_box_new0 (SwWording);

  wording->language = language != NULL ? strip_codeset (language) : choose_language ();
  wording->domain = find_domain (wording->language);
  wording->zone = open_zone (zone);
  wording->decimal_mark = choose_mark (wording->language, language != NULL);
  wording->paper = choose_paper ();
  return wording;
}

SwWording *
sw_wording_ref (SwWording *wording)
{
  g_return_val_if_fail (wording != NULL, NULL);
  return g_atomic_rc_box_acquire (wording);
}

void
sw_wording_unref (SwWording *wording)
{
  if (wording != NULL)
    g_atomic_rc_box_release_full (wording, clear_wording);
}

const char *
sw_wording_get_language (const SwWording *wording)
{
  g_return_val_if_fail (wording != NULL, "en");
  return wording->language;
}

const char *
sw_wording_get_domain (const SwWording *wording)
{
  g_return_val_if_fail (wording != NULL, NULL);
  return wording->domain;
}

const char *
sw_wording_get_decimal_mark (const SwWording *wording)
{
  g_return_val_if_fail (wording != NULL, ".");
  return wording->decimal_mark;
}

GTimeZone *
sw_wording_get_zone (const SwWording *wording)
{
  g_return_val_if_fail (wording != NULL, NULL);
  return wording->zone;
}

SwPaper
sw_wording_get_paper (const SwWording *wording)
{
  g_return_val_if_fail (wording != NULL, SW_PAPER_A4);
  return wording->paper;
}

gboolean
sw_wording_is_right_to_left (const SwWording *wording)
{
  g_return_val_if_fail (wording != NULL, FALSE);
  return sw_territory_is_right_to_left (wording->language);
}

const char *
sw_tr (const SwWording *wording, const char *message)
{
  g_return_val_if_fail (wording != NULL && message != NULL, "");
  /* gettext answers an empty message with the catalogue's header. */
  if (wording->domain == NULL || *message == '\0')
    return message;
  return dgettext (wording->domain, message);
}

const char *
sw_trc (const SwWording *wording, const char *context, const char *message)
{
  g_return_val_if_fail (wording != NULL && context != NULL && message != NULL, "");
  if (wording->domain == NULL || *message == '\0')
    return message;
  return g_dpgettext2 (wording->domain, context, message);
}

const char *
sw_trn (const SwWording *wording, const char *singular, const char *plural, gulong n)
{
  g_return_val_if_fail (wording != NULL && singular != NULL && plural != NULL, "");
  if (wording->domain == NULL)
    return n == 1 ? singular : plural;
  return dngettext (wording->domain, singular, plural, n);
}
