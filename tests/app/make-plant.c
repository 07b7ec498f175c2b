/* SPDX-License-Identifier: GPL-3.0-or-later */
/* make-plant FILE: writes the invented plant to a file, for tests that drive the real program. */
#include "support/plant.h"

int
main (int argc, char **argv)
{
  g_autoptr (SwTestPlant) plant = NULL;
  g_autofree char *bytes = NULL;
  gsize length;

  if (argc != 2)
    {
      g_printerr ("usage: make-plant FILE\n");
      return 2;
    }
  plant = sw_test_plant_new ();
  g_clear_pointer (&plant->store, sw_store_close);
  g_assert_true (g_file_get_contents (plant->path, &bytes, &length, NULL));
  g_assert_true (g_file_set_contents (argv[1], bytes, (gssize)length, NULL));
  return 0;
}
