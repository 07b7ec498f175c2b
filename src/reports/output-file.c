/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file that is there whole or not at all: written under another name in the same folder, synced,
 * then renamed. Nobody ever opens half an export. */
#include "reports/sheet-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

static gboolean
fail (GError **error, int number)
{
  g_set_error_literal (error, SW_REPORT_ERROR,
                       number == EEXIST ? SW_REPORT_ERROR_EXISTS : SW_REPORT_ERROR_IO,
                       g_strerror (number));
  return FALSE;
}

static gboolean
is_same_file (const char *a, const char *b)
{
  struct stat first, second;

  return stat (a, &first) == 0 && stat (b, &second) == 0 && first.st_dev == second.st_dev
         && first.st_ino == second.st_ino;
}

gboolean
sw_output_file_begin (
    SwOutputFile *file, const char *path, const char *not_this, gboolean force, GError **error)
{
  int fd;

  *file = (SwOutputFile){ .force = force };
  if (is_same_file (path, not_this))
    {
      g_set_error_literal (error, SW_REPORT_ERROR, SW_REPORT_ERROR_SAME_FILE, path);
      return FALSE;
    }
  if (!force && g_file_test (path, G_FILE_TEST_EXISTS))
    return fail (error, EEXIST);
  file->path = g_strdup (path);
  file->temporary = g_strconcat (path, ".XXXXXX", NULL);
  fd = g_mkstemp_full (file->temporary, O_RDWR | O_CLOEXEC, 0666);
  if (fd < 0)
    {
      const int number = errno;

      g_clear_pointer (&file->temporary, g_free);
      return fail (error, number);
    }
  close (fd);
  return TRUE;
}

static gboolean
sync_path (const char *path, int flags, GError **error)
{
  const int fd = open (path, flags | O_CLOEXEC);
  int number = 0;

  if (fd < 0)
    return fail (error, errno);
  if (fsync (fd) != 0)
    number = errno;
  close (fd);
  return number == 0 || fail (error, number);
}

/* Without force a file that came into being meanwhile is not replaced; where the file system has no
 * links, renaming must do. */
static gboolean
give_name (SwOutputFile *file, GError **error)
{
  if (!file->force)
    {
      if (link (file->temporary, file->path) == 0)
        {
          g_unlink (file->temporary);
          return TRUE;
        }
      if (errno == EEXIST)
        return fail (error, errno);
    }
  return g_rename (file->temporary, file->path) == 0 || fail (error, errno);
}

gboolean
sw_output_file_finish (SwOutputFile *file, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (file->path);

  if (!sync_path (file->temporary, O_RDONLY, error) || !give_name (file, error))
    return FALSE;
  g_clear_pointer (&file->temporary, g_free);
  return sync_path (folder, O_RDONLY | O_DIRECTORY, error);
}

void
sw_output_file_clear (SwOutputFile *file)
{
  if (file->temporary != NULL)
    g_unlink (file->temporary);
  g_clear_pointer (&file->temporary, g_free);
  g_clear_pointer (&file->path, g_free);
}
