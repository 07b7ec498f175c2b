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

/* Never for a database that is open in this process: closing the descriptor drops SQLite's locks.
 */
gboolean
sw_path_sync (const char *path, GError **error)
{
  int fd = open (path, O_RDONLY | O_CLOEXEC);
  int number = errno;
  gboolean synced = fd >= 0 && fsync (fd) == 0;

  if (fd >= 0)
    {
      number = errno;
      close (fd);
    }
  return synced || sw_path_error (error, SW_RECORDS_ERROR_IO, path, g_strerror (number));
}

/* A rename is only safe from a power cut once its folder is synced. Some file systems cannot sync
 * one; the rename has happened then all the same. */
gboolean
sw_path_move (const char *from, const char *to, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (to);

  if (g_rename (from, to) != 0)
    return sw_path_error (error, SW_RECORDS_ERROR_IO, to, g_strerror (errno));
  sw_path_sync (folder, NULL);
  return TRUE;
}
