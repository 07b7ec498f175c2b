/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exports that must not happen leave everything as it was. */
#include "../records/fixture.h"
#include "reports/workbook.h"
#include "support/support.h"

#include <glib/gstdio.h>
#include <unistd.h>

static gboolean
write_book (Fixture *fixture, const char *path, gboolean force, GError **error)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  const SwWorkbookRequest request
      = { .path = path, .force = force, .at_ms = FIXTURE_START_MS, .by = "tester" };

  return sw_workbook_write (fixture->store, wording, &request, error);
}

/* Workbooks, whole or half. */
static guint
count_books (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_prefix (name, "book.xlsx");
  return n;
}

static void
test_existing (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "book.xlsx", NULL);
  g_autofree char *contents = NULL;
  gsize length;
  GError *error = NULL;

  g_assert_true (g_file_set_contents (path, "keep me", -1, NULL));
  g_assert_false (write_book (fixture, path, FALSE, &error));
  g_assert_error (error, SW_REPORT_ERROR, SW_REPORT_ERROR_EXISTS);
  g_clear_error (&error);
  g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
  g_assert_cmpstr (contents, ==, "keep me");
  g_clear_pointer (&contents, g_free);
  g_assert_true (write_book (fixture, path, TRUE, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
  g_assert_cmpmem (contents, 2, "PK", 2);
  g_assert_cmpuint (count_books (fixture->folder), ==, 1);
}

/* The plant's file is never replaced, not by force and not by another name of it. */
static void
test_own_file (Fixture *fixture, gconstpointer data)
{
  g_autofree char *other = g_build_filename (fixture->folder, "link.xlsx", NULL);
  GError *error = NULL;

  g_assert_false (write_book (fixture, fixture->path, TRUE, &error));
  g_assert_error (error, SW_REPORT_ERROR, SW_REPORT_ERROR_SAME_FILE);
  g_clear_error (&error);
  g_assert_cmpint (symlink (fixture->path, other), ==, 0);
  g_assert_false (write_book (fixture, other, TRUE, &error));
  g_assert_error (error, SW_REPORT_ERROR, SW_REPORT_ERROR_SAME_FILE);
  g_clear_error (&error);
}

static void
test_no_folder (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "no", "such", "book.xlsx", NULL);
  GError *error = NULL;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autofree char *text = NULL;

  g_assert_false (write_book (fixture, path, FALSE, &error));
  g_assert_error (error, SW_REPORT_ERROR, SW_REPORT_ERROR_IO);
  text = sw_report_error_say (wording, error);
  g_assert_cmpstr (text, ==, "The file could not be written: No such file or directory.");
  g_clear_error (&error);
}

/* Nothing is left behind, and the store can write again at once. */
static void
test_store_goes_on (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "book.xlsx", NULL);
  GError *error = NULL;

  g_assert_true (write_book (fixture, path, FALSE, &error));
  g_assert_no_error (error);
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  sw_setting_put (fixture->store, "theme", "light", &error);
  g_assert_no_error (error);
  fixture_commit (fixture);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, function)                                                                        \
  g_test_add (path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)
  ADD ("/reports/refusals/existing", test_existing);
  ADD ("/reports/refusals/own-file", test_own_file);
  ADD ("/reports/refusals/no-folder", test_no_folder);
  ADD ("/reports/refusals/store-goes-on", test_store_goes_on);
  return g_test_run ();
}
