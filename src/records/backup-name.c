/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of backups: they sort by time, say why they were made, and need no list beside them. */
#include "records/backup.h"

#include <string.h>

#define SUFFIX ".stillwarden"
#define TIME_FORMAT "%Y%m%dT%H%M%SZ"
#define TIME_LENGTH 16u /* 20260524T062000Z */

/* A daily one has no word. */
static const char *const why_words[SW_N_BACKUP_WHYS] = {
  [SW_BACKUP_DAILY] = "",
  [SW_BACKUP_BY_HAND] = "-by-hand",
  [SW_BACKUP_BEFORE_MIGRATION] = "-before-migration",
  [SW_BACKUP_BEFORE_RESTORE] = "-before-restore",
};

/* The file's name without its suffix. (transfer full) */
static char *
make_stem (const char *path)
{
  char *name = g_path_get_basename (path);

  if (g_str_has_suffix (name, SUFFIX) && strlen (name) > strlen (SUFFIX))
    name[strlen (name) - strlen (SUFFIX)] = '\0';
  return name;
}

char *
sw_backup_default_folder (const char *path)
{
  g_autofree char *whole = NULL;
  g_autofree char *folder = NULL;
  g_autofree char *stem = NULL;
  g_autofree char *name = NULL;

  g_return_val_if_fail (path != NULL, NULL);
  whole = g_canonicalize_filename (path, NULL);
  folder = g_path_get_dirname (whole);
  stem = make_stem (whole);
  name = g_strconcat (stem, " backups", NULL);
  return g_build_filename (folder, name, NULL);
}

/* A time no calendar has is shown as the epoch: the name must be one that is found again. */
static char *
format_time (gint64 made_ms)
{
  g_autoptr (GDateTime) made = g_date_time_new_from_unix_utc (made_ms / 1000);

  return made != NULL ? g_date_time_format (made, TIME_FORMAT) : g_strdup ("19700101T000000Z");
}

char *
sw_backup_name (const char *path, gint64 made_ms, SwBackupWhy why)
{
  g_autofree char *stem = NULL;
  g_autofree char *made = NULL;

  g_return_val_if_fail (path != NULL && (int)why >= 0 && why < SW_N_BACKUP_WHYS, NULL);
  stem = make_stem (path);
  made = format_time (made_ms);
  return g_strconcat (stem, "-", made, why_words[why], SUFFIX, NULL);
}

/* The length of @name without its last word of the table; the daily one's empty word fits last. */
static gsize
cut_why (const char *name, gsize length, SwBackupWhy *why)
{
  for (int i = SW_N_BACKUP_WHYS - 1; i > 0; i--)
    {
      gsize word = strlen (why_words[i]);

      if (length > word && strncmp (name + length - word, why_words[i], word) == 0)
        {
          *why = (SwBackupWhy)i;
          return length - word;
        }
    }
  *why = SW_BACKUP_DAILY;
  return length;
}

/* "20260524T062000Z", and nothing that merely resembles it. */
static gboolean
parse_time (const char *text, gint64 *made_ms)
{
  static const char form[] = "00000000T000000Z";
  g_autofree char *whole = g_strndup (text, TIME_LENGTH);
  g_autofree char *again = NULL;
  g_autoptr (GDateTime) made = NULL;

  for (gsize i = 0; i < TIME_LENGTH; i++)
    if (form[i] == '0' ? !g_ascii_isdigit (whole[i]) : whole[i] != form[i])
      return FALSE;
  made = g_date_time_new_from_iso8601 (whole, NULL);
  if (made == NULL)
    return FALSE;
  *made_ms = g_date_time_to_unix (made) * 1000;
  /* a second 60 would be read as 59: a name that we never wrote */
  again = format_time (*made_ms);
  return strcmp (again, whole) == 0;
}

gboolean
sw_backup_name_parse (const char *path, const char *name, gint64 *made_ms, SwBackupWhy *why)
{
  g_autofree char *stem = path != NULL ? make_stem (path) : NULL;
  gsize length;

  g_return_val_if_fail (name != NULL && made_ms != NULL && why != NULL, FALSE);
  if (!g_str_has_suffix (name, SUFFIX))
    return FALSE;
  length = cut_why (name, strlen (name) - strlen (SUFFIX), why);
  /* at least one character of a name, a hyphen, the time */
  if (length < TIME_LENGTH + 2 || name[length - TIME_LENGTH - 1] != '-')
    return FALSE;
  if (stem != NULL
      && (strlen (stem) != length - TIME_LENGTH - 1 || strncmp (name, stem, strlen (stem)) != 0))
    return FALSE;
  return parse_time (name + length - TIME_LENGTH, made_ms);
}
