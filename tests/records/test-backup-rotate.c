/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of backups, which of them stay, and when the next is due. Dates are written as names have
 * them, and what must stay was worked out with a calendar by hand. */
#include "records/backup.h"
#include "support/support.h"

#include <string.h>

#define DAY_MS G_GINT64_CONSTANT (86400000)

/* ---- names ---- */

typedef struct
{
  const char *name;
  const char *file;
  const char *backup;
  gint64 made_ms; /* -1 = no backup of that file */
  SwBackupWhy why;
} NameRow;

static const NameRow name_rows[] = {
  { "daily", "/x/Plant.stillwarden", "Plant-20260504T060000Z.stillwarden",
    G_GINT64_CONSTANT (1777874400000), SW_BACKUP_DAILY },
  { "by hand", "/x/Plant.stillwarden", "Plant-20260504T060000Z-by-hand.stillwarden",
    G_GINT64_CONSTANT (1777874400000), SW_BACKUP_BY_HAND },
  { "before migration", "/x/A-b.stillwarden", "A-b-20260504T060000Z-before-migration.stillwarden",
    G_GINT64_CONSTANT (1777874400000), SW_BACKUP_BEFORE_MIGRATION },
  { "before restore", "/x/A b.stillwarden", "A b-20260504T060000Z-before-restore.stillwarden",
    G_GINT64_CONSTANT (1777874400000), SW_BACKUP_BEFORE_RESTORE },
  { "another suffix", "/x/plant.swlog", "plant.swlog-20260504T060000Z.stillwarden",
    G_GINT64_CONSTANT (1777874400000), SW_BACKUP_DAILY },
  { "another file", "/x/Plant.stillwarden", "Plan-20260504T060000Z.stillwarden", -1, 0 },
  { "a longer name", "/x/Plant.stillwarden", "Plant-2-20260504T060000Z.stillwarden", -1, 0 },
  { "moved aside", "/x/Plant.stillwarden", "Plant-20260504T060000Z-damaged.stillwarden", -1, 0 },
  { "month 13", "/x/Plant.stillwarden", "Plant-20261304T060000Z.stillwarden", -1, 0 },
  { "no zone", "/x/Plant.stillwarden", "Plant-20260504T060000.stillwarden", -1, 0 },
  { "extended form", "/x/Plant.stillwarden", "Plant-2026-05-04T06:00.stillwarden", -1, 0 },
  { "unfinished", "/x/Plant.stillwarden", "Plant-20260504T060000Z.stillwarden.new", -1, 0 },
  { "the file itself", "/x/Plant.stillwarden", "Plant.stillwarden", -1, 0 },
  { "no name", "/x/.stillwarden", "-20260504T060000Z.stillwarden", -1, 0 },
};

static void
test_name (gconstpointer data)
{
  const NameRow *row = data;
  gint64 made_ms = 0;
  SwBackupWhy why = SW_N_BACKUP_WHYS;

  g_assert_cmpint (sw_backup_name_parse (row->file, row->backup, &made_ms, &why), ==,
                   row->made_ms >= 0);
  if (row->made_ms < 0)
    return;
  g_assert_cmpint (made_ms, ==, row->made_ms);
  g_assert_cmpint ((int)why, ==, (int)row->why);
  g_autofree char *made = sw_backup_name (row->file, row->made_ms + 999, row->why);
  g_assert_cmpstr (made, ==, row->backup);
}

static void
test_folder (void)
{
  g_autofree char *folder = sw_backup_default_folder ("/x/Plant 1.stillwarden");

  g_assert_cmpstr (folder, ==, "/x/Plant 1 backups");
}

/* ---- rotation ---- */

typedef struct
{
  const char *name;
  const char *now; /* a time without its Z */
  int offset_min;
  const char *there; /* times, each with the first letter of its why where it has one: h, m, r */
  const char *kept;
} RotateRow;

static const RotateRow rotate_rows[] = {
  { "none", "20260504T060000", 0, "", "" },
  { "one of long ago", "20260504T060000", 0, "20200101T060000", "20200101T060000" },
  { "the last of a day", "20260504T060000", 0,
    "20260504T060000 20260504T050000h 20260504T040000 20260503T060000",
    "20260504T060000 20260503T060000" },
  { "the day of the plant", "20260504T060000", 120, /* 22:30 UTC is the next day there */
    "20260503T213000 20260503T223000", "20260503T213000 20260503T223000" },
  { "the day of Greenwich", "20260504T060000", 0, "20260503T213000 20260503T223000",
    "20260503T223000" },
  /* Days: 14 to 8 May. Weeks: the 14th; Sundays 10 and 3 May, 26 and 19 April. Months: 14 May and
   * 30 April. */
  { "days, weeks and a month", "20260514T060000", 0,
    "20260514T060000 20260513T060000 20260512T060000 20260511T060000 20260510T060000 "
    "20260509T060000 20260508T060000 20260507T060000 20260506T060000 20260503T060000 "
    "20260430T060000 20260426T060000 20260425T060000 20260419T060000 20260412T060000",
    "20260514T060000 20260513T060000 20260512T060000 20260511T060000 20260510T060000 "
    "20260509T060000 20260508T060000 20260503T060000 20260430T060000 20260426T060000 "
    "20260419T060000" },
  /* one a month: twelve months, of which the seven newest are days, too */
  { "thirteen months", "20260504T060000", 0,
    "20260501T060000 20260401T060000 20260301T060000 20260201T060000 20260101T060000 "
    "20251201T060000 20251101T060000 20251001T060000 20250901T060000 20250801T060000 "
    "20250701T060000 20250601T060000 20250501T060000",
    "20260501T060000 20260401T060000 20260301T060000 20260201T060000 20260101T060000 "
    "20251201T060000 20251101T060000 20251001T060000 20250901T060000 20250801T060000 "
    "20250701T060000 20250601T060000" },
  { "before a migration, before a restore", "20260504T060000", 0,
    "20260504T050000m 20260504T040000r 20260504T030000 20250505T060000m 20250503T060000m "
    "20250503T060000r",
    "20260504T050000m 20260504T040000r 20260504T030000 20250505T060000m" },
  { "a clock that ran ahead", "20260504T060000", 0, "20990101T060000 20260504T050000",
    "20990101T060000 20260504T050000" },
};

static SwBackupMark
parse_mark (const char *text)
{
  g_autofree char *time = g_strndup (text, 15);
  g_autofree char *name = g_strconcat ("x-", time, "Z.stillwarden", NULL);
  SwBackupMark mark = { 0 };

  g_assert_true (sw_backup_name_parse (NULL, name, &mark.made_ms, &mark.why));
  if (text[15] != '\0')
    mark.why = text[15] == 'h'   ? SW_BACKUP_BY_HAND
               : text[15] == 'm' ? SW_BACKUP_BEFORE_MIGRATION
                                 : SW_BACKUP_BEFORE_RESTORE;
  return mark;
}

/* In whatever order they are given. */
static void
check_rotation (const RotateRow *row, gboolean backwards)
{
  g_auto (GStrv) there = g_strsplit (row->there, " ", -1);
  g_auto (GStrv) kept = g_strsplit (row->kept, " ", -1);
  guint n = g_strv_length (there);
  g_autofree SwBackupMark *marks = g_new0 (SwBackupMark, n + 1);
  g_autofree gboolean *keep = g_new0 (gboolean, n + 1);

  for (guint i = 0; i < n; i++)
    marks[i] = parse_mark (there[backwards ? n - 1 - i : i]);
  sw_backup_rotate (marks, n, parse_mark (row->now).made_ms, row->offset_min, keep);
  for (guint i = 0; i < n; i++)
    {
      const char *text = there[backwards ? n - 1 - i : i];

      if (keep[i] != g_strv_contains ((const char *const *)kept, text))
        g_error ("%s: %s", text, keep[i] ? "kept" : "gone");
    }
}

static void
test_rotate (gconstpointer data)
{
  check_rotation (data, FALSE);
  check_rotation (data, TRUE);
}

/* A year of daily ones, thinned every day as the program does it, ends as thinning all of them at
 * once would: what a rule will want later is never let go before. */
static void
test_every_day (void)
{
  g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (SwBackupMark));
  gint64 now_ms = 0;

  for (int day = 0; day < 400; day++)
    {
      SwBackupMark mark = { .made_ms = G_GINT64_CONSTANT (1777874400000) - (399 - day) * DAY_MS };
      g_autofree gboolean *keep = NULL;

      now_ms = mark.made_ms;
      g_array_append_val (marks, mark);
      keep = g_new0 (gboolean, marks->len);
      sw_backup_rotate ((SwBackupMark *)(void *)marks->data, marks->len, now_ms, 0, keep);
      for (guint i = marks->len; i-- > 0;)
        if (!keep[i])
          g_array_remove_index (marks, i);
    }
  /* 4 May 2026, a Monday: 7 days from 4 May to 28 April; Sundays 26, 19, 12 April (3 May is a day);
   * month ends from March back to June (30 April is a day) */
  g_assert_cmpuint (marks->len, ==, 7 + 3 + 10);
  g_assert_cmpint (g_array_index (marks, SwBackupMark, 0).made_ms, ==,
                   G_GINT64_CONSTANT (1751263200000)); /* 2025-06-30 06:00 UTC */
}

/* ---- due ---- */

typedef struct
{
  const char *name;
  gint64 age_ms; /* of the last one */
  const char *last_head;
  gboolean due;
} DueRow;

static const DueRow due_rows[] = {
  { "a day old, journal grown", DAY_MS, "a", TRUE },
  { "a second younger", DAY_MS - 1000, "a", FALSE },
  { "old, nothing new", 30 * DAY_MS, "b", FALSE },
  { "of the future, journal grown", -DAY_MS, "a", TRUE },
  { "of the future, nothing new", -DAY_MS, "b", FALSE },
};

static void
test_due (gconstpointer data)
{
  const DueRow *row = data;
  const gint64 now_ms = G_GINT64_CONSTANT (1777874400000);
  SwBackupInfo last = { .made_ms = now_ms - row->age_ms, .head = (char *)row->last_head };

  g_assert_cmpint (sw_backup_is_due (&last, "b", now_ms), ==, row->due);
}

static void
test_due_first (void)
{
  g_assert_true (sw_backup_is_due (NULL, "b", 0));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/records/backup/name", name_rows, test_name);
  g_test_add_func ("/records/backup/folder", test_folder);
  SW_TEST_ROWS ("/records/backup/rotate", rotate_rows, test_rotate);
  g_test_add_func ("/records/backup/rotate/every-day", test_every_day);
  SW_TEST_ROWS ("/records/backup/due", due_rows, test_due);
  g_test_add_func ("/records/backup/due/first", test_due_first);
  return g_test_run ();
}
