/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Another tool's hands on a file: the sqlite3 shell, with the triggers put back word for word. */
#include "tamper.h"

#include <string.h>

/* The file that every test starts from: made once, copied for each. */
static char *master;

/* A table's triggers, as the shell prints them, each ended by a semicolon. (transfer full) */
static char *
read_triggers (Fixture *fixture, const char *table)
{
  g_autofree char *sql = g_strdup_printf (
      "SELECT sql || ';' FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = '%s'", table);

  return fixture_sql (fixture, sql);
}

/* Runs @sql on the closed file with the table's triggers out of the way and back after. */
void
tamper_run (Fixture *fixture, const char *table, const char *sql)
{
  g_autofree char *triggers = read_triggers (fixture, table);
  g_autofree char *script = g_strdup_printf ("PRAGMA ignore_check_constraints = ON;"
                                             "DROP TRIGGER %s_insert; DROP TRIGGER %s_update;"
                                             "DROP TRIGGER %s_delete; %s; %s",
                                             table, table, table, sql, triggers);
  g_autofree char *output = NULL;

  g_assert_nonnull (strstr (triggers, "BEGIN"));
  output = fixture_sql (fixture, script);
  g_assert_cmpstr (output, ==, "");
}

void
tamper_set_up (Fixture *fixture, gconstpointer data)
{
  g_autofree char *contents = NULL;
  gsize length;

  fixture_set_up_folder (fixture, data);
  g_assert_true (g_file_get_contents (master, &contents, &length, NULL));
  g_assert_true (g_file_set_contents (fixture->path, contents, (gssize)length, NULL));
}

/* (transfer full) */
SwVerifyReport *
tamper_verify (Fixture *fixture)
{
  SwVerifyReport *report;
  GError *error = NULL;

  fixture_open (fixture, SW_OPEN_READ_ONLY);
  report = sw_verify_full (fixture->store, NULL, NULL, &error);
  g_assert_no_error (error);
  fixture_close (fixture);
  return report;
}

/* NULL column: any. The first finding of the kind at that place. */
const SwFinding *
tamper_find (
    SwVerifyReport *report, SwFindingKind kind, const char *table, gint64 row, const char *column)
{
  for (guint i = 0; i < report->findings->len; i++)
    {
      const SwFinding *finding = report->findings->pdata[i];

      if (finding->kind == kind && g_strcmp0 (finding->table, table) == 0 && finding->row == row
          && (column == NULL || g_strcmp0 (finding->column, column) == 0))
        return finding;
    }
  return NULL;
}

guint
tamper_count (SwVerifyReport *report, SwFindingKind kind)
{
  guint count = 0;

  for (guint i = 0; i < report->findings->len; i++)
    if (((SwFinding *)report->findings->pdata[i])->kind == kind)
      count++;
  return count;
}

void
tamper_make_master (Fixture *fixture)
{
  FixturePlant plant;

  fixture_set_up (fixture, NULL);
  fixture_plant (fixture, &plant);
  fixture_close (fixture);
  master = fixture->path;
}
