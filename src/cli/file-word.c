/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What several commands read: the word FILE, and times. */
#include "cli/command.h"
#include "records/plant.h"
#include "wording/time.h"

#include <string.h>

const char *
sw_cli_read_file (const SwCliRun *run, GError **error)
{
  const char *path = sw_options_get_word (run->options, 0);

  if (path == NULL)
    g_set_error (error, SW_CLI_ERROR, 0, "FILE: %s", sw_tr (run->wording, "This word is missing."));
  return path;
}

/* A day alone means its beginning, or the beginning of the next one. */
gboolean
sw_cli_read_time (const SwCliRun *run,
                  const char *option,
                  GTimeZone *zone,
                  gboolean end_of_day,
                  gint64 *utc_ms,
                  GError **error)
{
  const char *text = sw_options_get_text (run->options, option);
  g_autoptr (GDateTime) day = NULL;
  g_autoptr (GDateTime) next = NULL;

  if (text == NULL)
    return TRUE;
  if (!sw_iso_parse (text, zone, utc_ms, NULL))
    return sw_options_refuse (run->options, option,
                              sw_tr (run->wording, "This is no date. Write 2026-05-24, or with a "
                                                   "time of day 2026-05-24T06:20."),
                              error);
  if (!end_of_day || strlen (text) > strlen ("2026-05-24"))
    return TRUE;
  day = g_date_time_new_from_unix_utc (*utc_ms / 1000);
  next = g_date_time_to_timezone (day, zone);
  g_date_time_unref (g_steal_pointer (&day));
  day = g_date_time_add_days (next, 1);
  *utc_ms = g_date_time_to_unix (day) * 1000;
  return TRUE;
}

SwWording *
sw_cli_make_wording (const SwCliRun *run, SwStore *store, GError **error)
{
  g_autoptr (SwSite) site = sw_site_get (store, error);
  const char *language = sw_options_get_text (run->options, "language");
  g_autoptr (SwWording) wording = NULL;

  if (site == NULL)
    return NULL;
  wording = sw_wording_new (language != NULL ? language : sw_wording_get_language (run->wording),
                            site->zone);
  /* English is the source and has no catalogue */
  if (language != NULL && sw_wording_get_domain (wording) == NULL
      && !g_str_has_prefix (language, "en"))
    {
      sw_options_refuse (run->options, "language",
                         sw_tr (run->wording, "There is no translation into this language."),
                         error);
      return NULL;
    }
  return g_steal_pointer (&wording);
}
