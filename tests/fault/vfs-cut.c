/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The VFS that fails on purpose. Reads and writes go to the real file; beside it an image keeps
 * what would survive.
 *
 *   write, truncate      -> real file, and a change that waits
 *   sync                 -> the changes that wait become durable; so does the file's existence
 *   delete               -> gone at once in the real folder; without a sync of the folder it may
 * come back after a cut
 *
 * Shared memory and locks are the real ones: they do not outlive a machine anyway.
 */
#include "vfs-cut.h"

#include <sqlite3.h>

typedef struct
{
  sqlite3_file base;
  Image *image;       /* Borrowed; NULL for files that need no image */
  sqlite3_file *real; /* follows this struct in memory */
} CutFile;

static struct
{
  CutKind kind;
  int at;
  int operations;
  int syncs;
  gboolean struck;
} cut;

static sqlite3_vfs *real_vfs;

/* ---- the strike ---- */

/* Counts an operation; SQLITE_OK or how it fails. */
static int
count_operation (gboolean needs_space)
{
  cut.operations++;
  if (cut.kind != CUT_NEVER && cut.at > 0 && cut.operations >= cut.at)
    {
      if (cut.kind == CUT_POWER)
        cut.struck = TRUE;
      else if (needs_space)
        {
          cut.struck = TRUE;
          return SQLITE_FULL;
        }
    }
  return cut.kind == CUT_POWER && cut.struck ? SQLITE_IOERR : SQLITE_OK;
}

static gboolean
is_dead (void)
{
  return cut.kind == CUT_POWER && cut.struck;
}

/* ---- file methods ---- */

#define REAL(file) (((CutFile *)(file))->real)
#define IMAGE(file) (((CutFile *)(file))->image)

static int
close_cb (sqlite3_file *file)
{
  return REAL (file)->pMethods->xClose (REAL (file));
}

static int
read_cb (sqlite3_file *file, void *buffer, int amount, sqlite3_int64 offset)
{
  if (is_dead ())
    return SQLITE_IOERR_READ;
  return REAL (file)->pMethods->xRead (REAL (file), buffer, amount, offset);
}

static int
write_cb (sqlite3_file *file, const void *bytes, int amount, sqlite3_int64 offset)
{
  int code = count_operation (TRUE);

  if (code != SQLITE_OK)
    return code == SQLITE_IOERR ? SQLITE_IOERR_WRITE : code;
  if (IMAGE (file) != NULL)
    image_change (IMAGE (file), (gsize)offset, bytes, (gsize)amount);
  return REAL (file)->pMethods->xWrite (REAL (file), bytes, amount, offset);
}

static int
truncate_cb (sqlite3_file *file, sqlite3_int64 size)
{
  int code = count_operation (FALSE);

  if (code != SQLITE_OK)
    return SQLITE_IOERR_TRUNCATE;
  if (IMAGE (file) != NULL)
    image_change (IMAGE (file), (gsize)size, NULL, 0);
  return REAL (file)->pMethods->xTruncate (REAL (file), size);
}

static int
sync_cb (sqlite3_file *file, int flags)
{
  int code = count_operation (FALSE);

  cut.syncs++;
  if (code != SQLITE_OK)
    return SQLITE_IOERR_FSYNC;
  if (IMAGE (file) != NULL)
    image_sync (IMAGE (file));
  return SQLITE_OK; /* the images say what survives; the real disk need not turn */
}

static int
size_cb (sqlite3_file *file, sqlite3_int64 *size)
{
  return is_dead () ? SQLITE_IOERR_FSTAT : REAL (file)->pMethods->xFileSize (REAL (file), size);
}

static int
lock_cb (sqlite3_file *file, int level)
{
  return REAL (file)->pMethods->xLock (REAL (file), level);
}

static int
unlock_cb (sqlite3_file *file, int level)
{
  return REAL (file)->pMethods->xUnlock (REAL (file), level);
}

static int
check_lock_cb (sqlite3_file *file, int *result)
{
  return REAL (file)->pMethods->xCheckReservedLock (REAL (file), result);
}

static int
control_cb (sqlite3_file *file, int operation, void *argument)
{
  return REAL (file)->pMethods->xFileControl (REAL (file), operation, argument);
}

static int
sector_cb (sqlite3_file *file)
{
  return IMAGE_SECTOR;
}

static int
device_cb (sqlite3_file *file)
{
  return REAL (file)->pMethods->xDeviceCharacteristics (REAL (file));
}

static int
shm_map_cb (sqlite3_file *file, int page, int size, int extend, void volatile **memory)
{
  return REAL (file)->pMethods->xShmMap (REAL (file), page, size, extend, memory);
}

static int
shm_lock_cb (sqlite3_file *file, int offset, int n, int flags)
{
  return REAL (file)->pMethods->xShmLock (REAL (file), offset, n, flags);
}

static void
shm_barrier_cb (sqlite3_file *file)
{
  REAL (file)->pMethods->xShmBarrier (REAL (file));
}

static int
shm_unmap_cb (sqlite3_file *file, int remove)
{
  return REAL (file)->pMethods->xShmUnmap (REAL (file), remove);
}

static const sqlite3_io_methods methods = {
  .iVersion = 2,
  .xClose = close_cb,
  .xRead = read_cb,
  .xWrite = write_cb,
  .xTruncate = truncate_cb,
  .xSync = sync_cb,
  .xFileSize = size_cb,
  .xLock = lock_cb,
  .xUnlock = unlock_cb,
  .xCheckReservedLock = check_lock_cb,
  .xFileControl = control_cb,
  .xSectorSize = sector_cb,
  .xDeviceCharacteristics = device_cb,
  .xShmMap = shm_map_cb,
  .xShmLock = shm_lock_cb,
  .xShmBarrier = shm_barrier_cb,
  .xShmUnmap = shm_unmap_cb,
};

/* ---- VFS methods ---- */

static int
open_cb (sqlite3_vfs *vfs, const char *path, sqlite3_file *file, int flags, int *out_flags)
{
  CutFile *wrapped = (CutFile *)file;
  int code;

  wrapped->base.pMethods = NULL;
  if (is_dead ())
    return SQLITE_CANTOPEN;
  wrapped->image = NULL;
  wrapped->real = (sqlite3_file *)(wrapped + 1);
  if (path != NULL
      && (flags & (SQLITE_OPEN_MAIN_DB | SQLITE_OPEN_MAIN_JOURNAL | SQLITE_OPEN_WAL)) != 0)
    wrapped->image = image_get (path);
  code = real_vfs->xOpen (real_vfs, path, wrapped->real, flags, out_flags);
  if (code != SQLITE_OK)
    return code;
  if (wrapped->image != NULL)
    image_open (wrapped->image);
  wrapped->base.pMethods = &methods;
  return SQLITE_OK;
}

static int
delete_cb (sqlite3_vfs *vfs, const char *path, int sync_folder)
{
  if (count_operation (FALSE) != SQLITE_OK)
    return SQLITE_IOERR_DELETE;
  image_delete (image_get (path), sync_folder != 0);
  return real_vfs->xDelete (real_vfs, path, 0);
}

static int
access_cb (sqlite3_vfs *vfs, const char *path, int flags, int *result)
{
  if (is_dead ())
    return SQLITE_IOERR_ACCESS;
  return real_vfs->xAccess (real_vfs, path, flags, result);
}

static int
full_path_cb (sqlite3_vfs *vfs, const char *path, int size, char *out)
{
  return real_vfs->xFullPathname (real_vfs, path, size, out);
}

static int
error_cb (sqlite3_vfs *vfs, int size, char *text)
{
  return 0;
}

void
cut_register (void)
{
  static sqlite3_vfs vfs;

  real_vfs = sqlite3_vfs_find (NULL);
  vfs = *real_vfs;
  vfs.szOsFile = (int)sizeof (CutFile) + real_vfs->szOsFile;
  vfs.pNext = NULL;
  vfs.zName = CUT_VFS;
  vfs.xOpen = open_cb;
  vfs.xDelete = delete_cb;
  vfs.xAccess = access_cb;
  vfs.xFullPathname = full_path_cb;
  vfs.xGetLastError = error_cb;
  sqlite3_vfs_register (&vfs, 0);
  image_forget_all ();
}

void
cut_arm (CutKind kind, int at)
{
  image_forget_all ();
  cut.kind = kind;
  cut.at = at;
  cut.operations = 0;
  cut.syncs = 0;
  cut.struck = FALSE;
}

void
cut_space_returns (void)
{
  cut.kind = CUT_NEVER;
}

gboolean
cut_has_struck (void)
{
  return cut.struck;
}

int
cut_count_operations (void)
{
  return cut.operations;
}

int
cut_count_syncs (void)
{
  return cut.syncs;
}
