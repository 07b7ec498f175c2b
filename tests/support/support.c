/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Assertions and a temporary folder for all test programs. */
#include "support/support.h"

#include <glib/gstdio.h>
#include <string.h>

static gboolean
is_close (double actual, double expected, double relative)
{
  double scale = expected != 0.0 ? fabs (expected) : 1.0;

  if (isnan (expected))
    return isnan (actual);
  if (isinf (expected) || isinf (actual))
    return (isinf (expected) && isinf (actual)) && signbit (expected) == signbit (actual);
  return fabs (actual - expected) <= relative * scale;
}

void
sw_test_assert_close (const char *file,
                      int line,
                      const char *function,
                      const char *expression,
                      double actual,
                      double expected,
                      double relative)
{
  g_autofree char *message = NULL;

  if (is_close (actual, expected, relative))
    return;
  message = g_strdup_printf ("%s is %.17g, expected %.17g within %g", expression, actual, expected,
                             relative);
  g_assertion_message (G_LOG_DOMAIN, file, line, function, message);
}

void
sw_test_assert_fault (const char *file,
                      int line,
                      const char *function,
                      GError **error,
                      SwFaultCode code,
                      SwQuantityName quantity)
{
  const SwFault *fault = sw_fault_get (*error);
  g_autofree char *message = NULL;

  if (fault != NULL && fault->code == code && fault->quantity == quantity
      && strstr ((*error)->message, sw_quantity_name (quantity)) != NULL)
    {
      g_clear_error (error);
      return;
    }
  message = g_strdup_printf ("expected fault %d about %s, got: %s", (int)code,
                             sw_quantity_name (quantity),
                             *error != NULL ? (*error)->message : "no error");
  g_assertion_message (G_LOG_DOMAIN, file, line, function, message);
}

char *
sw_test_source_path (const char *relative)
{
  const char *root = g_getenv ("SW_TEST_SOURCE");

  g_assert_nonnull (root);
  return g_build_filename (root, relative, NULL);
}

/* Never follows a symbolic link: a test may have made one to outside. */
static void
remove_tree (const char *path)
{
  GDir *dir = g_file_test (path, G_FILE_TEST_IS_SYMLINK) ? NULL : g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);
      remove_tree (child);
    }
  g_clear_pointer (&dir, g_dir_close);
  g_assert_cmpint (g_remove (path), ==, 0);
}

SwTestFolder *
sw_test_folder_new (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("stillwarden-test-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

void
sw_test_folder_free (SwTestFolder *folder)
{
  if (folder == NULL)
    return;
  remove_tree (folder);
  g_free (folder);
}

char *
sw_test_path (const char *group, const char *name)
{
  g_autofree char *element = g_strdelimit (g_strdup (name), " /", '-');

  return g_strconcat (group, "/", element, NULL);
}
