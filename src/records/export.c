/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an export reads. */
#include "records/export.h"
#include "records/store-private.h"

#define FILTER                                                                                     \
  " WHERE (?1 = 0 OR sample.machine = ?1) AND (?2 = 0 OR sample.happened_ms >= ?2)"                \
  " AND (?3 = 0 OR sample.happened_ms < ?3)"
#define AS_DRAWN " ORDER BY sample.happened_ms, sample.id"

static const char *
get_sql (SwTable table)
{
  switch (table)
    {
    case SW_TABLE_MACHINE:
      return "SELECT id FROM machine WHERE (?1 = 0 OR id = ?1) AND ?2 IS NOT NULL AND ?3 IS NOT "
             "NULL"
             " ORDER BY tag, id";
    case SW_TABLE_SAMPLE:
      return "SELECT sample.id FROM sample" FILTER AS_DRAWN;
    case SW_TABLE_TITRATION:
      return "SELECT titration.id FROM titration JOIN sample ON sample.id = titration.sample" FILTER
          AS_DRAWN ", titration.portion, titration.id";
    case SW_TABLE_READING:
      return "SELECT reading.id FROM reading JOIN titration ON titration.id = reading.titration"
             " JOIN sample ON sample.id = titration.sample" FILTER AS_DRAWN
             ", titration.portion, reading.ordinal, reading.id";
    case SW_TABLE_DOSE:
      return "SELECT dose.id FROM dose JOIN titration ON titration.id = dose.titration"
             " JOIN sample ON sample.id = titration.sample" FILTER AS_DRAWN
             ", titration.portion, dose.id";
    default:
      return NULL;
    }
}

GArray *
sw_export_ids (SwStore *store, SwTable table, const SwExportFilter *filter, GError **error)
{
  const char *sql = get_sql (table);

  g_return_val_if_fail (store != NULL && filter != NULL && sql != NULL, NULL);
  {
    const SwCell keys[] = { sw_cell_integer (filter->machine), sw_cell_integer (filter->from_ms),
                            sw_cell_integer (filter->to_ms) };

    return sw_sql_ids (store, sql, keys, G_N_ELEMENTS (keys), error);
  }
}

gboolean
sw_snapshot_begin (SwStore *store, GError **error)
{
  gint64 ignored;

  g_return_val_if_fail (store != NULL && !store->act.open, FALSE);
  if (!sw_sql_execute (store, "BEGIN", error))
    return FALSE;
  /* a transaction stands where its first question found the file */
  if (sw_sql_integer (store, "SELECT count(*) FROM site", NULL, 0, &ignored, error))
    return TRUE;
  sw_sql_execute (store, "ROLLBACK", NULL);
  return FALSE;
}

void
sw_snapshot_end (SwStore *store)
{
  if (sqlite3_get_autocommit (store->db) == 0)
    sw_sql_execute (store, "ROLLBACK", NULL);
}
