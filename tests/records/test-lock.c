/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two programs and one file: one writes, the other is told who does, and may read. The other
 * program is a forked process here. */
#include "fixture.h"
#include "records/store-private.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

typedef struct
{
  pid_t process;
  int ready;  /* read end: a byte comes when the child has the file open */
  int finish; /* write end: closing it tells the child to close and leave */
} Other;

/* In the child: opens, writes one person, waits, closes. Never returns. */
static void
run_child (Fixture *fixture, int ready, int finish)
{
  const SwActor actor = { .identified = SW_IDENTIFIED_DEMO };
  g_autoptr (SwPerson) person = sw_person_new ();
  SwStore *store = sw_store_open (fixture->path, SW_OPEN_WRITE, &fixture->clock, NULL);
  char byte = 'r';

  person->name = g_strdup ("by the other program");
  if (store == NULL || !sw_act_begin (store, SW_ACT_SETUP, &actor, NULL)
      || !sw_person_insert (store, person, NULL) || !sw_act_commit (store, NULL))
    _exit (1);
  if (write (ready, &byte, 1) != 1)
    _exit (2);
  while (read (finish, &byte, 1) > 0)
    ;
  sw_store_close (store);
  _exit (0);
}

static void
start_other (Fixture *fixture, Other *other)
{
  int ready[2];
  int finish[2];
  char byte;

  g_assert_cmpint (pipe (ready), ==, 0);
  g_assert_cmpint (pipe (finish), ==, 0);
  other->process = fork ();
  g_assert_cmpint (other->process, >=, 0);
  if (other->process == 0)
    {
      close (ready[0]);
      close (finish[1]);
      run_child (fixture, ready[1], finish[0]);
    }
  close (ready[1]);
  close (finish[0]);
  other->ready = ready[0];
  other->finish = finish[1];
  g_assert_cmpint (read (other->ready, &byte, 1), ==, 1);
}

static void
end_other (Other *other, int signal_number)
{
  int status;

  if (signal_number != 0)
    g_assert_cmpint (kill (other->process, signal_number), ==, 0);
  close (other->finish);
  close (other->ready);
  g_assert_cmpint (waitpid (other->process, &status, 0), ==, other->process);
  if (signal_number == 0)
    g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
  else
    g_assert_true (WIFSIGNALED (status));
}

static guint
count_people (Fixture *fixture)
{
  GError *error = NULL;
  g_autoptr (GArray) ids = sw_record_ids (fixture->store, SW_TABLE_PERSON, NULL, 0, &error);

  g_assert_no_error (error);
  return ids->len;
}

static void
set_up_closed (Fixture *fixture, gconstpointer data)
{
  fixture_set_up (fixture, data);
  fixture_close (fixture);
}

static void
test_second_writer (Fixture *fixture, gconstpointer data)
{
  Other other;
  g_autoptr (GError) error = NULL;
  g_autofree char *owner = NULL;

  start_other (fixture, &other);
  fixture->store = sw_store_open (fixture->path, SW_OPEN_WRITE, &fixture->clock, &error);
  g_assert_null (fixture->store);
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_BUSY);
  g_assert_nonnull (strstr (error->message, g_get_user_name ()));
  g_assert_nonnull (strstr (error->message, g_get_host_name ()));
  g_assert_nonnull (strstr (error->message, "2026-05-04T08:00:00+02"));
  owner = sw_store_dup_owner (fixture->path);
  g_assert_nonnull (owner);
  g_assert_nonnull (strstr (error->message, owner));

  end_other (&other, 0);
  fixture_open (fixture, SW_OPEN_WRITE);
  g_assert_cmpuint (count_people (fixture), ==, 1);
}

/* The reader sees what the writer has committed, and what it commits later. */
static void
test_reader_beside_writer (Fixture *fixture, gconstpointer data)
{
  Other other;

  start_other (fixture, &other);
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  g_assert_cmpuint (count_people (fixture), ==, 1);
  fixture_assert_sound (fixture);
  end_other (&other, 0);
  g_assert_cmpuint (count_people (fixture), ==, 1);
  fixture_close (fixture);
}

static void
test_reader_sees_later (Fixture *fixture, gconstpointer data)
{
  SwStore *reader;
  g_autoptr (SwPerson) person = sw_person_new ();
  g_autoptr (GArray) ids = NULL;

  fixture_open (fixture, SW_OPEN_WRITE);
  reader = sw_store_open (fixture->path, SW_OPEN_READ_ONLY, &fixture->clock, NULL);
  g_assert_nonnull (reader);
  person->name = g_strdup ("later");
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_true (sw_person_insert (fixture->store, person, NULL));
  fixture_commit (fixture);
  ids = sw_record_ids (reader, SW_TABLE_PERSON, NULL, 0, NULL);
  g_assert_cmpuint (ids->len, ==, 1);
  sw_store_close (reader);
}

/* A reader that was there first, while the file was at rest, follows into WAL mode; the file goes
 * back to rest with the next close that has it alone. */
static void
test_reader_first (Fixture *fixture, gconstpointer data)
{
  SwStore *reader = sw_store_open (fixture->path, SW_OPEN_READ_ONLY, &fixture->clock, NULL);
  g_autoptr (GArray) before = sw_record_ids (reader, SW_TABLE_PERSON, NULL, 0, NULL);
  g_autoptr (GArray) after = NULL;
  g_autofree char *list = NULL;

  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_add_person (fixture, "A1");
  after = sw_record_ids (reader, SW_TABLE_PERSON, NULL, 0, NULL);
  g_assert_cmpuint (before->len, ==, 0);
  g_assert_cmpuint (after->len, ==, 1);
  fixture_close (fixture); /* cannot leave WAL mode while somebody reads */
  g_array_unref (after);
  after = sw_record_ids (reader, SW_TABLE_PERSON, NULL, 0, NULL);
  g_assert_cmpuint (after->len, ==, 1);
  sw_store_close (reader);
  fixture_open (fixture, SW_OPEN_WRITE);
  fixture_close (fixture);
  list = fixture_run ("ls %s", fixture->folder);
  g_assert_cmpstr (list, ==, "plant.swlog\n");
}

/* Killed: the lock goes with the process, what was committed stays, and the next close tidies up.
 */
static void
test_killed (Fixture *fixture, gconstpointer data)
{
  Other other;
  g_autofree char *list = NULL;

  start_other (fixture, &other);
  end_other (&other, SIGKILL);
  g_assert_null (sw_store_dup_owner (fixture->path));
  fixture_open (fixture, SW_OPEN_WRITE);
  g_assert_cmpuint (count_people (fixture), ==, 1);
  fixture_assert_sound (fixture);
  fixture_close (fixture);
  list = fixture_run ("ls %s", fixture->folder);
  g_assert_cmpstr (list, ==, "plant.swlog\n");
}

static void
test_read_after_kill (Fixture *fixture, gconstpointer data)
{
  Other other;

  start_other (fixture, &other);
  end_other (&other, SIGKILL);
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  g_assert_cmpuint (count_people (fixture), ==, 1);
}

/* Nobody else, and we do not count. */
static void
test_owner (Fixture *fixture, gconstpointer data)
{
  g_assert_null (sw_store_dup_owner (fixture->path));
  fixture_open (fixture, SW_OPEN_WRITE);
  g_assert_null (sw_store_dup_owner (fixture->path));
}

/* A second writer in the same program is refused too, under any name of the file. */
static void
test_other_name (Fixture *fixture, gconstpointer data)
{
  g_autofree char *link = g_build_filename (fixture->folder, "link.swlog", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (symlink (fixture->path, link), ==, 0);
  fixture_open (fixture, SW_OPEN_WRITE);
  g_assert_null (sw_store_open (link, SW_OPEN_WRITE, &fixture->clock, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_BUSY);
}

/* Another tool in the middle of writing: busy, after a short wait, and nothing lost. */
static void
test_foreign_writer (Fixture *fixture, gconstpointer data)
{
  const SwActor actor = { .identified = SW_IDENTIFIED_DEMO };
  g_autoptr (GError) error = NULL;
  sqlite3 *other = NULL;

  fixture_open (fixture, SW_OPEN_WRITE);
  sqlite3_busy_timeout (fixture->store->db, 50);
  g_assert_cmpint (sqlite3_open (fixture->path, &other), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (other, "BEGIN IMMEDIATE", NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_false (sw_act_begin (fixture->store, SW_ACT_SETUP, &actor, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_BUSY);
  sqlite3_close (other);
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  fixture_commit (fixture);
}

static void
add (const char *name, void (*func) (Fixture *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/records/lock/", name, NULL);

  g_test_add (path, Fixture, NULL, set_up_closed, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("second-writer", test_second_writer);
  add ("reader-beside-writer", test_reader_beside_writer);
  add ("reader-sees-later", test_reader_sees_later);
  add ("reader-first", test_reader_first);
  add ("killed", test_killed);
  add ("read-after-kill", test_read_after_kill);
  add ("owner", test_owner);
  add ("other-name", test_other_name);
  add ("foreign-writer", test_foreign_writer);
  return g_test_run ();
}
