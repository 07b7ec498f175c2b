/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Backups in words. */
#include "wording/sentence-backup.h"

#include <glib/gi18n.h>
#include <string.h>

#include "wording/number.h"
#include "wording/time.h"

#define KILO 1e3
#define MEGA 1e6
#define GIGA 1e9

/* ---- kinds ---- */

/* In the order of SwBackupWhy. */
static const char *const whys[] = {
  NC_ ("backup", "Daily"),
  NC_ ("backup", "By hand"),
  NC_ ("backup", "Before the file was brought up to date"),
  NC_ ("backup", "Before a restore"),
};

/* In the order of SwBackupState. */
static const char *const states[] = {
  "",
  NC_ ("backup", "Cannot be read"),
  NC_ ("backup", "Of another site"),
  NC_ ("backup", "Of a newer program version"),
};

/* In the order of SwRestoreRelation. */
static const char *const relations[] = {
  N_ ("The file stands where this backup stands: there is nothing to restore."),
  N_ ("This backup is an earlier state of the file."),
  N_ ("This backup and the file parted some time ago: each holds entries that the other does not "
      "have. That is so after a restore."),
  N_ ("This is a backup of another site. It is not put in the place of this file."),
  N_ ("The file itself cannot be read, so nothing can be said about what it holds. It is kept "
      "beside the restored one, under a name that says that it is damaged."),
};

static const char *
pick (const SwWording *wording, const char *const *texts, gsize n, guint i)
{
  if (i >= n)
    return NULL;
  return *texts[i] != '\0' ? sw_trc (wording, "backup", texts[i]) : "";
}

const char *
sw_say_backup_why (const SwWording *wording, guint why)
{
  return pick (wording, whys, G_N_ELEMENTS (whys), why);
}

const char *
sw_say_backup_state (const SwWording *wording, guint state)
{
  return pick (wording, states, G_N_ELEMENTS (states), state);
}

const char *
sw_say_restore_relation (const SwWording *wording, guint relation)
{
  return relation < G_N_ELEMENTS (relations) ? sw_tr (wording, relations[relation]) : NULL;
}

/* ---- lines ---- */

char *
sw_say_bytes (const SwWording *wording, gint64 bytes)
{
  double value = (double)bytes;
  const double unit = value >= GIGA ? GIGA : value >= MEGA ? MEGA : KILO;
  const char *symbol = value >= GIGA ? "GB" : value >= MEGA ? "MB" : "kB";
  g_autofree char *number = sw_number_format (wording, value / unit, 3);

  return g_strconcat (number, "\u202f", symbol, NULL);
}

static char *
say_tests (const SwWording *wording, gulong n)
{
  g_autofree char *number = sw_number_format (wording, (double)n, 9);

  return g_strdup_printf (sw_trn (wording, "%s test", "%s tests", n), number);
}

char *
sw_say_backup_line (const SwWording *wording, guint why, gint64 bytes, gulong tests)
{
  g_autofree char *size = sw_say_bytes (wording, bytes);
  g_autofree char *held = say_tests (wording, tests);

  /* Translators: why a backup was made, its size, how many tests it holds. */
  return g_strdup_printf (sw_trc (wording, "backup", "%s, %s, %s"),
                          sw_say_backup_why (wording, why), size, held);
}

char *
sw_say_backup_last (const SwWording *wording, gint64 made_ms, gboolean by_itself)
{
  g_autofree char *made = sw_date_time_format (wording, made_ms);

  if (made_ms == 0)
    return g_strdup (sw_tr (wording, "There is no good backup yet."));
  if (!by_itself)
    /* Translators: %s is a date and time. */
    return g_strdup_printf (sw_tr (wording, "The last good backup is of %s."), made);
  /* Translators: %s is a date and time. */
  return g_strdup_printf (
      sw_tr (wording, "The last good backup is of %s. Another one is made by itself once it is a "
                      "day old and something was written since."),
      made);
}

char *
sw_say_backup_folder (const SwWording *wording, const char *folder, gboolean beside)
{
  if (beside)
    /* Translators: %s is a folder. */
    return g_strdup_printf (
        sw_tr (wording, "They are kept in %s, on the same disk as the file. A disk that fails "
                        "takes both along: choose a folder on another disk."),
        folder);
  /* Translators: %s is a folder. */
  return g_strdup_printf (sw_tr (wording, "They are kept in %s."), folder);
}

char *
sw_say_backup_done (const SwWording *wording, const char *name)
{
  /* Translators: %s is the name of a file. */
  return g_strdup_printf (sw_tr (wording, "Written and checked: %s"), name);
}

char *
sw_say_snapshot_done (const SwWording *wording, const char *path)
{
  /* Translators: %s is a file with its folder. */
  return g_strdup_printf (
      sw_tr (wording, "Written and checked: %s. It can be read and not be changed."), path);
}

/* ---- failures ---- */

/* Wording knows no records: their errors by the name of the domain and the order of SwRecordsError.
 */
static const struct
{
  int code;
  const char *sentence;
} failures[] = {
  { 2, N_ ("There is already a file of that name. Choose another name.") },
  { 5, N_ ("The file is damaged, so it could not be copied whole. Run Verify.") },
  { 7, N_ ("The folder for backups cannot be written. Ask for the right to write there, or choose "
           "another folder.") },
  { 8, N_ ("There is no room for a backup on that disk. Make room, or choose a folder on another "
           "disk.") },
  { 9, N_ ("The folder for backups cannot be used: is its disk connected? Otherwise choose another "
           "folder.") },
  { 14, N_ ("The copy did not pass its check and was not kept: another program may have changed "
            "the file, or damaged it. Run Verify.") },
};

char *
sw_say_backup_error (const SwWording *wording, const GError *error)
{
  if (error != NULL && strstr (g_quark_to_string (error->domain), "records") != NULL)
    for (gsize i = 0; i < G_N_ELEMENTS (failures); i++)
      if (failures[i].code == error->code)
        return g_strdup (sw_tr (wording, failures[i].sentence));
  return sw_say_error (wording, error);
}

char *
sw_say_backup_failed (const SwWording *wording, const char *why, gint64 last_ms)
{
  g_autofree char *last = sw_date_time_format (wording, last_ms);

  if (last_ms == 0)
    /* Translators: %s is a whole sentence: what is wrong. */
    return g_strdup_printf (sw_tr (wording, "No backup could be written, and there is none. %s"),
                            why);
  /* Translators: a date and time; a whole sentence: what is wrong. */
  return g_strdup_printf (
      sw_tr (wording, "No backup could be written; the last good one is of %s. %s"), last, why);
}

/* ---- restoring ---- */

char *
sw_say_backup_holds (const SwWording *wording, const SwBackupFacts *facts)
{
  g_autofree char *tests = say_tests (wording, facts->tests);
  g_autofree char *doses_number = sw_number_format (wording, (double)facts->doses, 9);
  g_autofree char *machines_number = sw_number_format (wording, (double)facts->machines, 9);
  g_autofree char *doses
      = g_strdup_printf (sw_trn (wording, "%s dose", "%s doses", facts->doses), doses_number);
  g_autofree char *machines = g_strdup_printf (
      sw_trn (wording, "%s machine", "%s machines", facts->machines), machines_number);
  g_autofree char *last = sw_date_time_format (wording, facts->last_ms);

  /* Translators: how many machines, tests and doses; a date and time. */
  return g_strdup_printf (
      sw_tr (wording, "It holds %s, %s and %s. Its last entry was written on %s."), machines, tests,
      doses, last);
}

char *
sw_say_backup_last_test (const SwWording *wording, const SwBackupFacts *facts)
{
  g_autofree char *drawn = sw_date_time_format (wording, facts->last_test_ms);

  if (facts->last_test == NULL)
    return g_strdup (sw_tr (wording, "It holds no sample."));
  /* Translators: code of a sample; a date and time. */
  return g_strdup_printf (sw_tr (wording, "The last sample in it is %s, drawn on %s."),
                          facts->last_test, drawn);
}

char *
sw_say_restore_lost (const SwWording *wording, gulong n)
{
  g_autofree char *number = sw_number_format (wording, (double)n, 9);

  if (n == 0)
    return g_strdup (
        sw_tr (wording, "Nothing that stands in the file would be missing afterwards."));
  /* Translators: an action is what a person did in one go, such as a step of a test. */
  return g_strdup_printf (
      sw_trn (wording,
              "%s action of the file would be missing afterwards. A backup of the file as it "
              "stands now is made first and keeps it.",
              "%s actions of the file would be missing afterwards. A backup of the file as it "
              "stands now is made first and keeps them.",
              n),
      number);
}

char *
sw_say_backup_findings (const SwWording *wording, gulong n)
{
  g_autofree char *number = sw_number_format (wording, (double)n, 9);

  return g_strdup_printf (
      sw_trn (wording,
              "The check found %s difference in this backup: another program changed or damaged "
              "it. It is not restored; choose an older one.",
              "The check found %s differences in this backup: another program changed or damaged "
              "it. It is not restored; choose an older one.",
              n),
      number);
}

char *
sw_say_restore_subject (const SwWording *wording, gint64 made_ms)
{
  g_autofree char *made = sw_date_time_format (wording, made_ms);

  /* Translators: %s is a date and time. */
  return g_strdup_printf (sw_tr (wording, "Backup of %s"), made);
}

char *
sw_say_restore_done (const SwWording *wording, gint64 made_ms)
{
  g_autofree char *made = sw_date_time_format (wording, made_ms);

  /* Translators: %s is a date and time. */
  return g_strdup_printf (
      sw_tr (wording, "The backup of %s is in the place of the file now. The journal says so."),
      made);
}
