/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a preview says of a backup and of the file that it would replace. */
#include "records/restore.h"
#include "fixture.h"

#include <glib/gstdio.h>

static SwBackupInfo *
back_up (Fixture *fixture)
{
  GError *error = NULL;
  SwBackupInfo *info = sw_backup_write (fixture->path, NULL, SW_BACKUP_BY_HAND, fixture->now_ms,
                                        NULL, NULL, &error);

  g_assert_no_error (error);
  return info;
}

static SwRestorePreview *
look (Fixture *fixture, const SwBackupInfo *backup)
{
  GError *error = NULL;
  SwRestorePreview *preview = sw_restore_preview (fixture->path, backup->path, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (preview->n_findings, ==, 0);
  g_assert_cmpstr (preview->backup->head, ==, backup->head);
  return preview;
}

static void
test_same (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) backup = back_up (fixture);
  g_autoptr (SwRestorePreview) preview = look (fixture, backup);

  g_assert_cmpint ((int)preview->relation, ==, SW_RESTORE_SAME);
  g_assert_cmpint (preview->n_lost, ==, 0);
  g_assert_cmpuint (preview->lost->len, ==, 0);
}

/* Seven acts later, while the file is open; the newest five are told. */
static void
test_ancestor (Fixture *fixture, gconstpointer data)
{
  static const char *const initials[] = { "A1", "A2", "A3", "A4", "A5", "A6" };
  g_autoptr (SwBackupInfo) backup = back_up (fixture);
  g_autoptr (SwRestorePreview) preview = NULL;
  const SwLostAct *newest;

  for (gsize i = 0; i < G_N_ELEMENTS (initials); i++)
    fixture_add_person (fixture, initials[i]);
  fixture->now_ms += 60000;
  const SwActor actor
      = { .person = 1, .identified = SW_IDENTIFIED_DEMO, .reason = "left the company" };
  g_assert_true (sw_act_begin (fixture->store, SW_ACT_VOID, &actor, NULL));
  g_assert_true (sw_record_void (fixture->store, SW_TABLE_PERSON, 6, NULL));
  fixture_commit (fixture);
  preview = look (fixture, backup);
  g_assert_cmpint ((int)preview->relation, ==, SW_RESTORE_ANCESTOR);
  g_assert_cmpint (preview->n_lost, ==, 7);
  g_assert_cmpint (preview->common_seq, ==, backup->seq);
  g_assert_cmpint (preview->file_seq, ==, backup->seq + 7);
  g_assert_cmpuint (preview->lost->len, ==, SW_RESTORE_SHOWN);
  newest = preview->lost->pdata[0];
  g_assert_cmpstr (newest->kind, ==, "void");
  g_assert_cmpstr (newest->action, ==, "void");
  g_assert_cmpstr (newest->table, ==, "person");
  g_assert_cmpstr (newest->identified_by, ==, "demo");
  g_assert_cmpstr (newest->person, ==, "N. Invented");
  g_assert_cmpstr (newest->reason, ==, "left the company");
  g_assert_cmpint (newest->utc_ms, ==, FIXTURE_START_MS + 60000);
  g_assert_cmpint (newest->act, ==, backup->seq + 7);
  g_assert_null (((SwLostAct *)preview->lost->pdata[1])->reason);
}

/* A restore parts the file from the backup made before it, after what both have. */
static void
test_diverged (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) early = back_up (fixture);
  g_autoptr (SwBackupInfo) late = NULL;
  g_autoptr (SwRestorePreview) preview = NULL;
  GError *error = NULL;

  fixture_add_person (fixture, "A1");
  fixture_add_person (fixture, "A2");
  late = back_up (fixture);
  fixture_close (fixture);
  const SwRestoreOrder order = { .path = fixture->path,
                                 .backup = early->path,
                                 .actor = { .identified = SW_IDENTIFIED_SYSTEM } };
  sw_backup_restore (&order, &fixture->clock, &error);
  g_assert_no_error (error);
  preview = look (fixture, late);
  g_assert_cmpint ((int)preview->relation, ==, SW_RESTORE_DIVERGED);
  g_assert_cmpint (preview->common_seq, ==, early->seq);
  g_assert_cmpint (preview->n_lost, ==, 1);
  g_assert_cmpstr (((SwLostAct *)preview->lost->pdata[0])->kind, ==, "restore");
}

/* Put back by hand to yesterday's copy: the backup is ahead of the file, and nothing would be lost.
 */
static void
test_ahead (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) early = back_up (fixture);
  g_autoptr (SwBackupInfo) late = NULL;
  g_autoptr (SwRestorePreview) preview = NULL;

  fixture_add_person (fixture, "A1");
  late = back_up (fixture);
  fixture_close (fixture);
  g_free (fixture_run ("cp -f '%s' '%s'", early->path, fixture->path));
  preview = look (fixture, late);
  g_assert_cmpint ((int)preview->relation, ==, SW_RESTORE_DIVERGED);
  g_assert_cmpint (preview->common_seq, ==, early->seq);
  g_assert_cmpint (preview->n_lost, ==, 0);
}

static void
test_other_site (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) backup = back_up (fixture);
  g_autoptr (SwRestorePreview) preview = NULL;

  fixture_close (fixture);
  g_assert_cmpint (g_unlink (fixture->path), ==, 0);
  fixture_open (fixture, SW_OPEN_CREATE);
  preview = look (fixture, backup);
  g_assert_cmpint ((int)preview->relation, ==, SW_RESTORE_OTHER_SITE);
}

static void
test_no_file (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) backup = back_up (fixture);
  g_autoptr (SwRestorePreview) gone = NULL;
  g_autoptr (SwRestorePreview) damaged = NULL;

  fixture_close (fixture);
  g_assert_cmpint (g_unlink (fixture->path), ==, 0);
  gone = look (fixture, backup);
  g_assert_cmpint ((int)gone->relation, ==, SW_RESTORE_NO_FILE);
  g_assert_true (g_file_set_contents (fixture->path, "no database", -1, NULL));
  damaged = look (fixture, backup);
  g_assert_cmpint ((int)damaged->relation, ==, SW_RESTORE_NO_FILE);
  g_assert_cmpint (damaged->file_seq, ==, 0);
}

/* A backup that another tool changed says so before anybody decides. */
static void
test_findings (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwBackupInfo) backup = NULL;
  g_autoptr (SwRestorePreview) preview = NULL;
  GError *error = NULL;

  fixture_add_person (fixture, "A1");
  backup = back_up (fixture);
  g_free (fixture_run ("chmod u+w '%s' && sqlite3 '%s' \"DROP TRIGGER person_update\"",
                       backup->path, backup->path));
  preview = sw_restore_preview (fixture->path, backup->path, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (preview->n_findings, ==, 1);
}

static void
add (const char *name, void (*func) (Fixture *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/records/restore-preview/", name, NULL);

  g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("same", test_same);
  add ("ancestor", test_ancestor);
  add ("diverged", test_diverged);
  add ("ahead", test_ahead);
  add ("other-site", test_other_site);
  add ("no-file", test_no_file);
  add ("findings", test_findings);
  return g_test_run ();
}
