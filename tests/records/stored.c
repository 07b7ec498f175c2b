/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Copies of the files that earlier versions wrote. A new version adds a row, and a file. */
#include "stored.h"

const Stored stored_files[] = {
  { "version-1", 1, 112, G_GINT64_CONSTANT (1795674840000) },
};
const gsize stored_n_files = G_N_ELEMENTS (stored_files);

void
stored_set_up (Fixture *fixture, gconstpointer data)
{
  const Stored *stored = data;
  g_autofree char *relative
      = g_strdup_printf ("tests/records/data/version-%d.stillwarden", stored->version);
  g_autofree char *source = sw_test_source_path (relative);
  g_autofree char *contents = NULL;
  GError *error = NULL;
  gsize length;

  fixture_set_up_folder (fixture, data);
  g_file_get_contents (source, &contents, &length, &error);
  g_assert_no_error (error);
  g_file_set_contents (fixture->path, contents, (gssize)length, &error);
  g_assert_no_error (error);
  fixture->now_ms = stored->last_ms + 60000;
}
