/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SQLite's result codes to ours: the only place that knows both. */
#include "records/error-private.h"

#include <errno.h>

G_DEFINE_QUARK (sw - records - error - quark, sw_records_error)

typedef struct
{
  int code; /* extended codes first, then primary ones */
  SwRecordsError ours;
} Mapping;

static const Mapping mappings[] = {
  { SQLITE_CONSTRAINT_COMMITHOOK, SW_RECORDS_ERROR_JOURNAL },
  { SQLITE_IOERR_CORRUPTFS, SW_RECORDS_ERROR_DAMAGED },
  { SQLITE_CONSTRAINT, SW_RECORDS_ERROR_CONSTRAINT },
  { SQLITE_MISMATCH, SW_RECORDS_ERROR_CONSTRAINT },
  { SQLITE_TOOBIG, SW_RECORDS_ERROR_CONSTRAINT },
  { SQLITE_FULL, SW_RECORDS_ERROR_DISK_FULL },
  { SQLITE_READONLY, SW_RECORDS_ERROR_READ_ONLY },
  { SQLITE_PERM, SW_RECORDS_ERROR_READ_ONLY },
  { SQLITE_BUSY, SW_RECORDS_ERROR_BUSY },
  { SQLITE_LOCKED, SW_RECORDS_ERROR_BUSY },
  { SQLITE_NOTADB, SW_RECORDS_ERROR_FOREIGN },
  { SQLITE_CORRUPT, SW_RECORDS_ERROR_DAMAGED },
  { SQLITE_IOERR, SW_RECORDS_ERROR_IO },
  { SQLITE_PROTOCOL, SW_RECORDS_ERROR_IO },
  { SQLITE_NOLFS, SW_RECORDS_ERROR_IO },
};

/* The extended code is asked first, then the primary one. */
static SwRecordsError
map_code (int code)
{
  for (gsize i = 0; i < G_N_ELEMENTS (mappings); i++)
    if (mappings[i].code == code)
      return mappings[i].ours;
  for (gsize i = 0; i < G_N_ELEMENTS (mappings); i++)
    if (mappings[i].code == (code & 0xff))
      return mappings[i].ours;
  return SW_RECORDS_ERROR_FAILED;
}

/* Some failures are only told apart by errno: a quota is as full as a disk. */
static SwRecordsError
map_errno (SwRecordsError ours, int code, int number)
{
  if ((code & 0xff) == SQLITE_IOERR && (number == ENOSPC || number == EDQUOT))
    return SW_RECORDS_ERROR_DISK_FULL;
  if ((code & 0xff) != SQLITE_CANTOPEN)
    return ours;
  if (number == EACCES || number == EROFS || number == EPERM)
    return SW_RECORDS_ERROR_READ_ONLY;
  if (number == ENOENT)
    return SW_RECORDS_ERROR_NOT_FOUND;
  return number == ENOSPC || number == EDQUOT ? SW_RECORDS_ERROR_DISK_FULL : SW_RECORDS_ERROR_IO;
}

gboolean
sw_records_error_set (GError **error, sqlite3 *db, int code, const char *what)
{
  int extended = db != NULL ? sqlite3_extended_errcode (db) : code;
  SwRecordsError ours;

  /* The connection's code is the finer one only when it speaks of the same failure. */
  if ((extended & 0xff) != (code & 0xff))
    extended = code;
  ours = map_errno (map_code (extended), extended, db != NULL ? sqlite3_system_errno (db) : 0);
  g_set_error (error, SW_RECORDS_ERROR, (int)ours, "%s: %s", what,
               db != NULL ? sqlite3_errmsg (db) : sqlite3_errstr (code));
  return FALSE;
}
