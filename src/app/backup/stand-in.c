/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The copy that is signed against. Wrong attempts are counted in it alone: whoever can reach a
 * backup can try on a copy of their own anyway. */
#include "app/backup/stand-in.h"

#include <glib/gstdio.h>

#define COPY_NAME "copy.stillwarden"

/* What a store may leave there, and the backup that comes before a migration. */
static void
remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        remove_folder (path);
      else
        g_unlink (path);
    }
  g_rmdir (folder);
}

static void
remove_folder_cb (gpointer folder)
{
  remove_folder (folder);
  g_free (folder);
}

static SwStore *
open_copy (const char *backup, const char *folder, GError **error)
{
  g_autofree char *path = g_build_filename (folder, COPY_NAME, NULL);
  g_autoptr (SwStore) source = sw_store_open (backup, SW_OPEN_READ_ONLY, NULL, error);

  if (source == NULL || !sw_store_copy (source, path, error))
    return NULL;
  return sw_store_open (path, SW_OPEN_WRITE, NULL, error);
}

SwContext *
sw_stand_in_new (const char *backup, SwWording *wording, GError **error)
{
  char *folder;
  SwStore *store;
  SwContext *context;

  g_return_val_if_fail (backup != NULL && wording != NULL, NULL);
  folder = g_dir_make_tmp ("stillwarden-XXXXXX", error);
  if (folder == NULL)
    return NULL;
  store = open_copy (backup, folder, error);
  if (store == NULL)
    {
      remove_folder_cb (folder);
      return NULL;
    }
  context = sw_context_new (store, wording);
  /* data goes after the context has closed its store */
  g_object_set_data_full (G_OBJECT (context), "sw-stand-in-folder", folder, remove_folder_cb);
  return context;
}
