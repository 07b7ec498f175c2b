/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The owner lock: FILE.lock, held by flock, with a note about who holds it.
 *
 * The kernel drops the lock when the program ends in whatever way, so no stale note ever blocks
 * anybody; the note is only read while the lock is held. The database file itself is never opened
 * here: closing such a descriptor would drop SQLite's own locks on it.
 *
 * The file is removed on a clean close. A program that waits on the removed inode would hold a lock
 * that nobody else sees, so after locking the inode is compared with the one at the path.
 */
#include "records/lock-private.h"

#include "records/path-private.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define ATTEMPTS 5
#define ATTEMPT_US 20000 /* somebody who only asks who has it holds it for an instant */
#define NOTE_LENGTH 1024

static char *
make_lock_path (const char *path)
{
  g_autofree char *resolved = sw_path_resolve (path);

  return g_strconcat (resolved, ".lock", NULL);
}

static void
set_open_error (GError **error, const char *lock_path, int number)
{
  SwRecordsError code = SW_RECORDS_ERROR_IO;

  if (number == EACCES || number == EROFS || number == EPERM)
    code = SW_RECORDS_ERROR_READ_ONLY;
  else if (number == ENOSPC || number == EDQUOT)
    code = SW_RECORDS_ERROR_DISK_FULL;
  else if (number == ENOENT)
    code = SW_RECORDS_ERROR_NOT_FOUND;
  g_set_error (error, SW_RECORDS_ERROR, (int)code, "%s: %s", lock_path, g_strerror (number));
}

static gboolean
is_at_path (int fd, const char *lock_path)
{
  struct stat ours;
  struct stat there;

  return fstat (fd, &ours) == 0 && stat (lock_path, &there) == 0 && ours.st_ino == there.st_ino
         && ours.st_dev == there.st_dev;
}

static GKeyFile *
read_note (int fd)
{
  g_autoptr (GKeyFile) note = g_key_file_new ();
  char text[NOTE_LENGTH];
  ssize_t length = pread (fd, text, sizeof text, 0);

  if (length <= 0 || !g_key_file_load_from_data (note, text, (gsize)length, G_KEY_FILE_NONE, NULL))
    return NULL;
  return g_steal_pointer (&note);
}

static char *
note_get (GKeyFile *note, const char *key)
{
  char *value = note != NULL ? g_key_file_get_string (note, "owner", key, NULL) : NULL;

  return value != NULL ? value : g_strdup ("?");
}

/* "person on host since time" */
static char *
describe_note (GKeyFile *note)
{
  g_autofree char *person = note_get (note, "person");
  g_autofree char *host = note_get (note, "host");
  g_autofree char *since = note_get (note, "since");

  return g_strdup_printf ("%s on %s since %s", person, host, since);
}

/* A note of this very process: the file is open here, which is nobody else. */
static gboolean
is_ours (GKeyFile *note)
{
  g_autofree char *host = note_get (note, "host");

  return note != NULL && g_str_equal (host, g_get_host_name ())
         && g_key_file_get_int64 (note, "owner", "process", NULL) == getpid ();
}

static gboolean
write_note (int fd, const char *since)
{
  g_autoptr (GKeyFile) note = g_key_file_new ();
  g_autofree char *text = NULL;
  gsize length;

  g_key_file_set_string (note, "owner", "person", g_get_user_name ());
  g_key_file_set_string (note, "owner", "host", g_get_host_name ());
  g_key_file_set_string (note, "owner", "since", since);
  g_key_file_set_int64 (note, "owner", "process", getpid ());
  text = g_key_file_to_data (note, &length, NULL);
  return ftruncate (fd, 0) == 0 && pwrite (fd, text, length, 0) == (ssize_t)length;
}

/* Gives way to somebody who only asks. */
static gboolean
lock_with_patience (int fd)
{
  for (int i = 0; i < ATTEMPTS; i++)
    {
      if (flock (fd, LOCK_EX | LOCK_NB) == 0)
        return TRUE;
      g_usleep (ATTEMPT_US);
    }
  return FALSE;
}

int
sw_lock_take (const char *path, const char *since, GError **error)
{
  g_autofree char *lock_path = make_lock_path (path);

  for (int i = 0; i < ATTEMPTS; i++)
    {
      int fd = open (lock_path, O_RDWR | O_CREAT | O_CLOEXEC, 0666);

      if (fd < 0)
        {
          set_open_error (error, lock_path, errno);
          return -1;
        }
      /* One left behind by a crash under another login must not keep anybody out. Fails, and need
       * not succeed, on a file that is not ours. */
      if (fchmod (fd, 0666) != 0)
        g_debug ("%s: %s", lock_path, g_strerror (errno));
      if (!lock_with_patience (fd))
        {
          g_autoptr (GKeyFile) note = read_note (fd);
          g_autofree char *owner = describe_note (note);

          g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_BUSY, "%s: open by %s", path,
                       owner);
          close (fd);
          return -1;
        }
      if (is_at_path (fd, lock_path) && write_note (fd, since))
        return fd;
      close (fd);
    }
  g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_IO, "%s: cannot be written", lock_path);
  return -1;
}

void
sw_lock_drop (const char *path, int fd)
{
  g_autofree char *lock_path = make_lock_path (path);

  if (fd < 0)
    return;
  /* removed while still held: nobody can take it in between */
  unlink (lock_path);
  close (fd);
}

char *
sw_store_dup_owner (const char *path)
{
  g_autofree char *lock_path = make_lock_path (path);
  g_autoptr (GKeyFile) note = NULL;
  char *owner = NULL;
  int fd = open (lock_path, O_RDONLY | O_CLOEXEC);

  if (fd < 0)
    return NULL;
  if (flock (fd, LOCK_SH | LOCK_NB) != 0)
    {
      note = read_note (fd);
      if (!is_ours (note))
        owner = describe_note (note);
    }
  close (fd);
  return owner;
}
