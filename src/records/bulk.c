/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new file with thousands of acts at once. */
#include "records/bulk.h"
#include "records/error-private.h"
#include "records/store-private.h"

SwStore *
sw_store_create_bulk (const char *path, const SwClock *clock, GError **error)
{
  g_autoptr (SwStore) store = sw_store_open (path, SW_OPEN_CREATE, clock, error);

  if (store == NULL || !sw_sql_execute (store, "PRAGMA synchronous = OFF", error))
    return NULL;
  return g_steal_pointer (&store);
}

/* A checkpoint with synchronous = FULL syncs the log before it copies and the file after. */
gboolean
sw_store_finish_bulk (SwStore *store, GError **error)
{
  gint64 busy = 0;

  g_return_val_if_fail (store != NULL && !store->act.open, FALSE);
  if (!sw_sql_execute (store, "PRAGMA synchronous = FULL", error)
      || !sw_sql_integer (store, "PRAGMA wal_checkpoint(TRUNCATE)", NULL, 0, &busy, error))
    return FALSE;
  if (busy == 0)
    return TRUE;
  return sw_records_error_set (error, store->db, SQLITE_BUSY, store->path);
}
