/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files for the tests of records. All names are invented. */
#include "fixture.h"
#include "records/store-private.h"
#include "records/verify.h"

#include <string.h>
#include <unistd.h>

#define NOBODY 65534

static gint64
now_cb (gpointer data)
{
  return ((Fixture *)data)->now_ms;
}

static int
offset_cb (gpointer data, gint64 utc_ms)
{
  return ((Fixture *)data)->offset_min;
}

void
fixture_set_up_folder (Fixture *fixture, gconstpointer data)
{
  fixture->folder = sw_test_folder_new ();
  fixture->path = g_build_filename (fixture->folder, "plant.swlog", NULL);
  fixture->now_ms = FIXTURE_START_MS;
  fixture->offset_min = FIXTURE_OFFSET_MIN;
  fixture->clock = (SwClock){ .now_ms = now_cb, .offset_min = offset_cb, .data = fixture };
}

void
fixture_open (Fixture *fixture, SwOpenMode mode)
{
  GError *error = NULL;

  g_assert_null (fixture->store);
  fixture->store = sw_store_open (fixture->path, mode, &fixture->clock, &error);
  g_assert_no_error (error);
  g_assert_nonnull (fixture->store);
}

void
fixture_close (Fixture *fixture)
{
  g_clear_pointer (&fixture->store, sw_store_close);
}

void
fixture_set_up (Fixture *fixture, gconstpointer data)
{
  fixture_set_up_folder (fixture, data);
  fixture_open (fixture, SW_OPEN_CREATE);
}

void
fixture_tear_down (Fixture *fixture, gconstpointer data)
{
  fixture_close (fixture);
  sw_test_folder_free (fixture->folder);
  g_free (fixture->path);
}

void
fixture_begin (Fixture *fixture, SwActKind kind, const char *reason)
{
  const SwActor actor
      = { .identified = SW_IDENTIFIED_DEMO, .workstation = "bench-2", .reason = reason };
  GError *error = NULL;

  sw_act_begin (fixture->store, kind, &actor, &error);
  g_assert_no_error (error);
}

void
fixture_commit (Fixture *fixture)
{
  GError *error = NULL;

  sw_act_commit (fixture->store, &error);
  g_assert_no_error (error);
}

/* Output and complaints together; TRUE when the exit status was 0. */
static gboolean
spawn_shell (const char *command, char **output)
{
  const char *argv[] = { "/bin/sh", "-c", command, NULL };
  g_autofree char *complaints = NULL;
  g_autofree char *plain = NULL;
  GError *error = NULL;
  int status = 0;

  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &plain, &complaints,
                &status, &error);
  g_assert_no_error (error);
  *output = g_strconcat (plain, complaints, NULL);
  return g_spawn_check_wait_status (status, NULL);
}

char *
fixture_run (const char *format, ...)
{
  g_autofree char *command = NULL;
  char *output = NULL;
  va_list args;

  va_start (args, format);
  command = g_strdup_vprintf (format, args);
  va_end (args);
  if (!spawn_shell (command, &output))
    g_error ("%s: %s", command, output);
  return output;
}

static char *
make_sql_command (Fixture *fixture, const char *sql)
{
  g_autofree char *path = g_shell_quote (fixture->path);
  g_autofree char *text = g_shell_quote (sql);

  return g_strdup_printf ("sqlite3 -batch -bail %s %s", path, text);
}

char *
fixture_sql (Fixture *fixture, const char *sql)
{
  g_autofree char *command = make_sql_command (fixture, sql);

  return fixture_run ("%s", command);
}

char *
fixture_sql_refused (Fixture *fixture, const char *sql)
{
  g_autofree char *command = make_sql_command (fixture, sql);
  char *output = NULL;

  if (spawn_shell (command, &output))
    g_error ("%s: was not refused", command);
  return output;
}

void
fixture_assert_sound (Fixture *fixture)
{
  GError *error = NULL;
  g_autoptr (SwVerifyReport) report = sw_verify_full (fixture->store, NULL, NULL, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < report->findings->len; i++)
    {
      const SwFinding *finding = report->findings->pdata[i];

      g_test_message ("finding %d: %s %" G_GINT64_FORMAT " %s, expected %s, found %s; %s",
                      (int)finding->kind, finding->table, finding->row, finding->column,
                      finding->expected, finding->found, finding->text);
    }
  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_cmpint (report->journal_rows, >, 0);
  g_assert_cmpuint (strlen (report->head), ==, 64);
}

SwPerson *
fixture_person (const char *initials)
{
  SwPerson *person = sw_person_new ();

  person->name = g_strdup ("N. Invented");
  person->initials = g_strdup (initials);
  return person;
}

gint64
fixture_ask (Fixture *fixture, const char *sql)
{
  gint64 value = -1;
  GError *error = NULL;

  sw_sql_integer (fixture->store, sql, NULL, 0, &value, &error);
  g_assert_no_error (error);
  return value;
}

/* Inserts in an act of its own and gives the id. */
gint64
fixture_add_person (Fixture *fixture, const char *initials)
{
  g_autoptr (SwPerson) person = fixture_person (initials);
  GError *error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  sw_person_insert (fixture->store, person, &error);
  g_assert_no_error (error);
  fixture_commit (fixture);
  return person->record.id;
}

void
fixture_drop_rights (void)
{
  if (getuid () == 0)
    g_assert_cmpint (seteuid (NOBODY), ==, 0);
}

void
fixture_regain_rights (void)
{
  if (getuid () == 0)
    g_assert_cmpint (seteuid (0), ==, 0);
}
