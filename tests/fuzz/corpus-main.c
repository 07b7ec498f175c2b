/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs a fuzz target as a plain test: on each file of its corpus, and on inputs made from it by
 * changing bytes, with the seed that g_test prints. */
#include "fuzz.h"

#include <string.h>

#define MUTATIONS 500
#define MOST_CHANGES 4

static void
mutate (char *data, gsize length)
{
  int changes = g_test_rand_int_range (1, MOST_CHANGES + 1);

  for (int i = 0; i < changes && length > 0; i++)
    {
      gsize at = (gsize)g_test_rand_int_range (0, (gint32)length);
      gsize from = (gsize)g_test_rand_int_range (0, (gint32)length);

      /* A byte of the same input keeps it more like one than a random byte does. */
      data[at] = g_test_rand_bit () ? data[from] : (char)g_test_rand_int_range (0, 256);
    }
}

static void
test_file (gconstpointer path)
{
  g_autofree char *contents = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  g_file_get_contents (path, &contents, &length, &error);
  g_assert_no_error (error);
  g_assert_cmpint (LLVMFuzzerTestOneInput ((const uint8_t *)contents, length), ==, 0);
  for (int i = 0; i < MUTATIONS; i++)
    {
      g_autofree char *copy = g_memdup2 (contents, length + 1);
      gsize size = length > 0 ? (gsize)g_test_rand_int_range (0, (gint32)length + 1) : 0;

      mutate (copy, length);
      LLVMFuzzerTestOneInput ((const uint8_t *)copy, g_test_rand_bit () ? length : size);
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (GDir) dir = NULL;
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);
  dir = g_dir_open (argv[1], 0, NULL);
  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *test = g_strconcat ("/corpus/", name, NULL);

      g_ptr_array_add (paths, g_build_filename (argv[1], name, NULL));
      g_test_add_data_func (test, g_ptr_array_index (paths, paths->len - 1), test_file);
    }
  g_assert_cmpint ((int)paths->len, >, 0);
  return g_test_run ();
}
