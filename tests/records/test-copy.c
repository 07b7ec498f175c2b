/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Copies of an open file, and the story of a record. */
#include "fixture.h"
#include "records/store-private.h"
#include "records/story.h"
#include "records/verify.h"

#include <glib/gstdio.h>
#include <string.h>

static char *
copy_path (Fixture *fixture)
{
  return g_build_filename (fixture->folder, "copy.swlog", NULL);
}

/* Acts that are only in the -wal file are in the copy; a plain copy of the file would lack them. */
static void
test_copy (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = copy_path (fixture);
  g_autofree char *head = NULL;
  g_autofree char *copied_head = NULL;
  g_autofree char *list = NULL;
  GError *error = NULL;

  fixture_add_person (fixture, "A1");
  head = sw_journal_head (fixture->store, NULL);
  sw_store_copy (fixture->store, path, &error);
  g_assert_no_error (error);
  fixture_add_person (fixture, "A2"); /* the original goes on */
  fixture_close (fixture);
  list = fixture_run ("ls %s", fixture->folder);
  g_assert_cmpstr (list, ==, "copy.swlog\nplant.swlog\n");

  g_free (fixture->path);
  fixture->path = g_steal_pointer (&path);
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  fixture_assert_sound (fixture);
  copied_head = sw_journal_head (fixture->store, NULL);
  g_assert_cmpstr (copied_head, ==, head);
  g_assert_cmpint (fixture_ask (fixture, "SELECT count(*) FROM person"), ==, 1);
}

/* From a store that only reads, such as that of an export. */
static void
test_copy_read_only (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = copy_path (fixture);
  GError *error = NULL;

  fixture_close (fixture);
  fixture_open (fixture, SW_OPEN_READ_ONLY);
  sw_store_copy (fixture->store, path, &error);
  g_assert_no_error (error);
}

static void
test_copy_refused (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = copy_path (fixture);
  g_autofree char *nowhere = g_build_filename (fixture->folder, "no-such-folder", "x.swlog", NULL);
  g_autofree char *contents = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (path, "somebody's", -1, NULL));
  g_assert_false (sw_store_copy (fixture->store, path, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_EXISTS);
  g_assert_true (g_file_get_contents (path, &contents, NULL, NULL));
  g_assert_cmpstr (contents, ==, "somebody's");
  g_clear_error (&error);
  g_assert_false (sw_store_copy (fixture->store, nowhere, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_unlink (path);
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_store_copy (fixture->store, path, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED);
}

/* ---- story ---- */

/* NULL: empty */
static void
assert_change (const SwChapter *chapter, const char *column, const char *before, const char *after)
{
  for (guint i = 0; i < chapter->changes->len; i++)
    {
      const SwChange *change = chapter->changes->pdata[i];

      if (strcmp (change->column, column) != 0)
        continue;
      g_assert_cmpstr (change->before, ==, before);
      g_assert_cmpstr (change->after, ==, after);
      return;
    }
  g_error ("%s did not change", column);
}

static void
amend_name (Fixture *fixture, gint64 id, const char *name)
{
  g_autoptr (SwPerson) person = sw_person_load (fixture->store, id, NULL);

  fixture->now_ms += 60000;
  fixture_begin (fixture, SW_ACT_AMEND, "married");
  g_free (person->name);
  person->name = g_strdup (name);
  g_clear_pointer (&person->initials, g_free);
  g_assert_true (sw_person_update (fixture->store, person, NULL));
  fixture_commit (fixture);
}

static void
test_story (Fixture *fixture, gconstpointer data)
{
  gint64 id = fixture_add_person (fixture, "A1");
  g_autoptr (GPtrArray) story = NULL;
  const SwChapter *first;
  const SwChapter *second;

  fixture_add_person (fixture, "A2");
  amend_name (fixture, id, "N. Other");
  story = sw_story_read (fixture->store, SW_TABLE_PERSON, id, NULL);
  g_assert_cmpuint (story->len, ==, 2);
  first = story->pdata[0];
  second = story->pdata[1];
  g_assert_cmpstr (first->action, ==, "insert");
  g_assert_null (first->reason);
  assert_change (first, "initials", NULL, "A1");
  g_assert_cmpstr (second->action, ==, "update");
  g_assert_cmpstr (second->kind, ==, "amend");
  g_assert_cmpstr (second->reason, ==, "married");
  g_assert_cmpstr (second->workstation, ==, "bench-2");
  g_assert_cmpint (second->utc_ms, ==, FIXTURE_START_MS + 60000);
  g_assert_cmpint (second->offset_min, ==, FIXTURE_OFFSET_MIN);
  g_assert_cmpuint (second->changes->len, ==, 2);
  assert_change (second, "name", "N. Invented", "N. Other");
  assert_change (second, "initials", "A1", NULL);
}

static void
test_story_empty (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) story = sw_story_read (fixture->store, SW_TABLE_PERSON, 7, NULL);

  g_assert_cmpuint (story->len, ==, 0);
}

static void
add (const char *name, void (*func) (Fixture *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/records/copy/", name, NULL);

  g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("whole", test_copy);
  add ("read-only", test_copy_read_only);
  add ("refused", test_copy_refused);
  add ("story", test_story);
  add ("story-empty", test_story_empty);
  return g_test_run ();
}
