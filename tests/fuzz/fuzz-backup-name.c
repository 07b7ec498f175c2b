/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of backups: rotation deletes by them.
 *
 * Invariants: a name that is read is the one that is written for that file, time and reason; and it
 * is that of no other file. */
#include "fuzz.h"

#include "records/backup.h"

#include <string.h>

/* What stands before the time: where the last part that looks like one begins. */
static char *
cut_stem (const char *name, gint64 made_ms, SwBackupWhy why)
{
  g_autofree char *none = sw_backup_name ("x.stillwarden", made_ms, why);
  gsize tail = strlen (none) - 1;

  g_assert_cmpuint (strlen (name), >, tail);
  return g_strndup (name, strlen (name) - tail);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *name = fuzz_text (data, size);
  g_autofree char *stem = NULL;
  g_autofree char *path = NULL;
  g_autofree char *again = NULL;
  gint64 made_ms;
  gint64 same_ms;
  SwBackupWhy why;
  SwBackupWhy same;

  if (strchr (name, '/') != NULL || !sw_backup_name_parse (NULL, name, &made_ms, &why))
    return 0;
  g_assert_true ((int)why >= 0 && why < SW_N_BACKUP_WHYS);
  stem = cut_stem (name, made_ms, why);
  path = g_strconcat ("/plant/", stem, ".stillwarden", NULL);
  again = sw_backup_name (path, made_ms, why);
  g_assert_cmpstr (again, ==, name);
  g_assert_true (sw_backup_name_parse (path, name, &same_ms, &same));
  g_assert_true (same_ms == made_ms && same == why);
  g_assert_false (sw_backup_name_parse ("/plant/another.stillwarden", name, &same_ms, &same)
                  && strcmp (stem, "another") != 0);
  return 0;
}
