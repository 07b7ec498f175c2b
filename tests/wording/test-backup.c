/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of backups: one for each kind that the records know, in their order, and whole
 * sentences. */
#include "records/restore.h"
#include "support/support.h"
#include "wording/sentence-backup.h"

#include <string.h>

/* ---- kinds ---- */

typedef struct
{
  const char *name;
  const char *(*say) (const SwWording *, guint);
  guint n;
  guint known; /* one value whose words must hold ... */
  const char *part;
} KindRow;

static const KindRow kind_rows[] = {
  { "why", sw_say_backup_why, SW_N_BACKUP_WHYS, SW_BACKUP_BEFORE_RESTORE, "restore" },
  { "why migration", sw_say_backup_why, SW_N_BACKUP_WHYS, SW_BACKUP_BEFORE_MIGRATION,
    "up to date" },
  { "why by hand", sw_say_backup_why, SW_N_BACKUP_WHYS, SW_BACKUP_BY_HAND, "hand" },
  { "state", sw_say_backup_state, SW_N_BACKUP_STATES, SW_BACKUP_OTHER_SITE, "another site" },
  { "state newer", sw_say_backup_state, SW_N_BACKUP_STATES, SW_BACKUP_NEWER, "newer" },
  { "relation", sw_say_restore_relation, SW_N_RESTORE_RELATIONS, SW_RESTORE_ANCESTOR, "earlier" },
  { "relation other", sw_say_restore_relation, SW_N_RESTORE_RELATIONS, SW_RESTORE_OTHER_SITE,
    "another site" },
  { "relation none", sw_say_restore_relation, SW_N_RESTORE_RELATIONS, SW_RESTORE_NO_FILE,
    "cannot be read" },
  { "relation parted", sw_say_restore_relation, SW_N_RESTORE_RELATIONS, SW_RESTORE_DIVERGED,
    "parted" },
};

static void
test_kind (gconstpointer data)
{
  const KindRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");

  for (guint i = 0; i < row->n; i++)
    g_assert_nonnull (row->say (wording, i));
  g_assert_null (row->say (wording, row->n));
  g_assert_nonnull (strstr (row->say (wording, row->known), row->part));
}

/* ---- sizes ---- */

typedef struct
{
  const char *name;
  gint64 bytes;
  const char *text;
} SizeRow;

static const SizeRow size_rows[] = {
  { "kilo", 348160, "348\u202fkB" },
  { "mega", 1440000, "1.44\u202fMB" },
  { "giga", G_GINT64_CONSTANT (2500000000), "2.5\u202fGB" },
};

static void
test_size (gconstpointer data)
{
  const SizeRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autofree char *text = sw_say_bytes (wording, row->bytes);

  g_assert_cmpstr (text, ==, row->text);
}

/* ---- failures ---- */

typedef struct
{
  const char *name;
  SwRecordsError code;
  const char *part;
} FailureRow;

static const FailureRow failure_rows[] = {
  { "exists", SW_RECORDS_ERROR_EXISTS, "another name" },
  { "damaged", SW_RECORDS_ERROR_DAMAGED, "copied whole" },
  { "read only", SW_RECORDS_ERROR_READ_ONLY, "folder for backups cannot be written" },
  { "disk full", SW_RECORDS_ERROR_DISK_FULL, "no room" },
  { "io", SW_RECORDS_ERROR_IO, "connected" },
  { "unverified", SW_RECORDS_ERROR_UNVERIFIED, "did not pass its check" },
  { "any other", SW_RECORDS_ERROR_NETWORK, "network" },
};

static void
test_failure (gconstpointer data)
{
  const FailureRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autoptr (GError) error = g_error_new (SW_RECORDS_ERROR, (int)row->code, "x");
  g_autofree char *text = sw_say_backup_error (wording, error);

  g_assert_nonnull (strstr (text, row->part));
}

/* ---- sentences ---- */

static void
test_sentences (void)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  const SwBackupFacts facts = { .tests = 1,
                                .doses = 31,
                                .machines = 4,
                                .last_test = "M-07-261124-1",
                                .last_test_ms = G_GINT64_CONSTANT (1795496400000),
                                .last_ms = G_GINT64_CONSTANT (1795496400000) };
  g_autofree char *holds = sw_say_backup_holds (wording, &facts);
  g_autofree char *last = sw_say_backup_last_test (wording, &facts);
  g_autofree char *one = sw_say_restore_lost (wording, 1);
  g_autofree char *many = sw_say_restore_lost (wording, 12);
  g_autofree char *none = sw_say_restore_lost (wording, 0);
  g_autofree char *first = sw_say_backup_last (wording, 0, TRUE);

  g_assert_cmpstr (holds, ==,
                   "It holds 4 machines, 1 test and 31 doses. Its last entry was written on 24 "
                   "November 2026 05:00.");
  g_assert_cmpstr (last, ==,
                   "The last sample in it is M-07-261124-1, drawn on 24 November 2026 05:00.");
  g_assert_true (g_str_has_prefix (one, "1 action of the file would"));
  g_assert_true (g_str_has_prefix (many, "12 actions of the file would"));
  g_assert_true (g_str_has_prefix (none, "Nothing"));
  g_assert_cmpstr (first, ==, "There is no good backup yet.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/wording/backup/kind", kind_rows, test_kind);
  SW_TEST_ROWS ("/wording/backup/size", size_rows, test_size);
  SW_TEST_ROWS ("/wording/backup/failure", failure_rows, test_failure);
  g_test_add_func ("/wording/backup/sentences", test_sentences);
  return g_test_run ();
}
