/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checkpoints outside of the file: a text file per site, lines only ever appended (checkpoint.h).
 */
#include "records/trust-folder-private.h"

#include "records/path-private.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define LINE_PARTS 5

/* The UUID comes out of a file that anybody may have made: as part of a path it must be one. */
static char *
make_path (const char *folder, const char *uuid, GError **error)
{
  if (uuid != NULL && g_uuid_string_is_valid (uuid))
    return g_strdup_printf ("%s/%s.checkpoints", folder, uuid);
  sw_path_error (error, SW_RECORDS_ERROR_FAILED, folder, "the file's identity is no UUID");
  return NULL;
}

/* ---- reading ---- */

static gboolean
read_digits (const char *text, gsize length, char *digits)
{
  if (strlen (text) != length || strspn (text, "0123456789abcdef") != length)
    return FALSE;
  g_strlcpy (digits, text, length + 1);
  return TRUE;
}

gboolean
sw_trust_line_parse (const char *text, SwTrustLine *line)
{
  g_auto (GStrv) parts = g_strsplit (text, " ", LINE_PARTS + 1);

  return g_strv_length (parts) == LINE_PARTS
         && g_ascii_string_to_signed (parts[0], 10, 1, G_MAXINT64, &line->seq, NULL)
         && read_digits (parts[1], SW_HASH_LENGTH, line->head)
         && g_ascii_string_to_signed (parts[2], 10, 0, G_MAXINT64, &line->utc_ms, NULL)
         && read_digits (parts[3], SW_KEY_LENGTH, line->key)
         && read_digits (parts[4], SW_SIGNATURE_LENGTH, line->signature);
}

GArray *
sw_trust_lines_read (const char *folder, const char *uuid, guint *n_unreadable, GError **error)
{
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (SwTrustLine));
  g_autofree char *path = make_path (folder, uuid, error);
  g_autofree char *text = NULL;
  g_auto (GStrv) rows = NULL;
  g_autoptr (GError) failure = NULL;

  *n_unreadable = 0;
  if (path == NULL)
    return NULL;
  if (!g_file_get_contents (path, &text, NULL, &failure))
    {
      if (g_error_matches (failure, G_FILE_ERROR, G_FILE_ERROR_NOENT))
        return g_steal_pointer (&lines);
      sw_path_error (error, SW_RECORDS_ERROR_IO, path, failure->message);
      return NULL;
    }
  rows = g_strsplit (text, "\n", -1);
  for (guint i = 0; rows[i] != NULL; i++)
    {
      SwTrustLine line;

      if (sw_trust_line_parse (rows[i], &line))
        g_array_append_val (lines, line);
      else if (*rows[i] != '\0')
        (*n_unreadable)++;
    }
  return g_steal_pointer (&lines);
}

/* ---- appending ---- */

/* Whether a power cut left the last line without its end. */
static gboolean
ends_in_line (int fd)
{
  struct stat state;
  char last = '\n';

  if (fstat (fd, &state) != 0 || state.st_size == 0)
    return FALSE;
  return pread (fd, &last, 1, state.st_size - 1) == 1 && last != '\n';
}

/* A new name is only safe from a power cut once its folder is synced. */
static void
sync_folder (const char *folder)
{
  int fd = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

  if (fd < 0)
    return;
  fsync (fd);
  close (fd);
}

static gboolean
write_line (int fd, const SwTrustLine *line)
{
  g_autofree char *text = g_strdup_printf ("%s%" G_GINT64_FORMAT " %s %" G_GINT64_FORMAT " %s %s\n",
                                           ends_in_line (fd) ? "\n" : "", line->seq, line->head,
                                           line->utc_ms, line->key, line->signature);
  gssize length = (gssize)strlen (text);
  gssize written = write (fd, text, (gsize)length);

  if (written >= 0 && written < length)
    errno = ENOSPC;
  return written == length && fsync (fd) == 0;
}

gboolean
sw_trust_line_append (const char *folder, const char *uuid, const SwTrustLine *line, GError **error)
{
  g_autofree char *path = make_path (folder, uuid, error);
  gboolean written;
  int number;
  int fd;

  if (path == NULL)
    return FALSE;
  fd = open (path, O_RDWR | O_APPEND | O_CREAT | O_CLOEXEC, 0600);
  if (fd < 0)
    return sw_path_error (error,
                          errno == ENOSPC ? SW_RECORDS_ERROR_DISK_FULL : SW_RECORDS_ERROR_READ_ONLY,
                          path, g_strerror (errno));
  /* two programs with two files of one site */
  written = flock (fd, LOCK_EX) == 0 && write_line (fd, line);
  number = errno;
  close (fd);
  if (!written)
    return sw_path_error (error,
                          number == ENOSPC ? SW_RECORDS_ERROR_DISK_FULL : SW_RECORDS_ERROR_IO, path,
                          g_strerror (number));
  sync_folder (folder);
  return TRUE;
}
