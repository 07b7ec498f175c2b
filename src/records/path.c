/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of files; see path-private.h. */
#include "records/path-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <unistd.h>

static const char *const side_files[] = { "", "-wal", "-shm", "-journal" };

gboolean
sw_path_error (GError **error, SwRecordsError code, const char *path, const char *what)
{
  g_set_error (error, SW_RECORDS_ERROR, (int)code, "%s: %s", path, what);
  return FALSE;
}

char *
sw_path_resolve (const char *path)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);
  g_autofree char *folder = g_path_get_dirname (whole);
  g_autofree char *name = g_path_get_basename (whole);
  char *real = realpath (whole, NULL); /* malloc, which GLib's own allocator is since 2.46 */
  char *resolved;

  if (real != NULL)
    return real;
  real = realpath (folder, NULL);
  resolved = g_build_filename (real != NULL ? real : folder, name, NULL);
  free (real);
  return resolved;
}

void
sw_path_remove (const char *path)
{
  for (gsize i = 0; i < G_N_ELEMENTS (side_files); i++)
    {
      g_autofree char *name = g_strconcat (path, side_files[i], NULL);

      g_unlink (name);
    }
}

/* A rename is only safe from a power cut once its folder is synced. */
gboolean
sw_path_move (const char *from, const char *to, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (to);
  int fd;

  if (g_rename (from, to) != 0)
    return sw_path_error (error, SW_RECORDS_ERROR_IO, to, g_strerror (errno));
  fd = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd >= 0)
    {
      fsync (fd);
      close (fd);
    }
  return TRUE;
}
