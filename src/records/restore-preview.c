/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a restore would keep and lose, read from both files. */
#include "records/backup-private.h"
#include "records/restore.h"

#include <string.h>

#define LOST_SQL                                                                                   \
  "SELECT j.act, j.utc_ms, j.offset_min, j.kind, j.action, j.table_name, j.identified_by,"         \
  " j.workstation, p.name, j.reason FROM journal AS j"                                             \
  " LEFT JOIN person AS p ON p.id = j.person"                                                      \
  " WHERE j.seq = j.act AND j.seq > ? ORDER BY j.seq DESC LIMIT ?"

static void
free_lost (gpointer data)
{
  SwLostAct *lost = data;

  g_free (lost->kind);
  g_free (lost->action);
  g_free (lost->table);
  g_free (lost->identified_by);
  g_free (lost->workstation);
  g_free (lost->person);
  g_free (lost->reason);
  g_free (lost);
}

void
sw_restore_preview_free (SwRestorePreview *preview)
{
  if (preview == NULL)
    return;
  sw_backup_info_free (preview->backup);
  g_free (preview->file_head);
  g_ptr_array_unref (preview->lost);
  g_free (preview);
}

/* ---- where the journals part ---- */

/* NULL where there is no such row. (transfer full) */
static char *
read_hash (SwStore *store, gint64 seq)
{
  const SwCell key = sw_cell_integer (seq);
  char *hash = NULL;

  sw_sql_text (store, "SELECT hash FROM journal WHERE seq = ?", &key, 1, &hash, NULL);
  return hash;
}

static gboolean
same_row (SwStore *one, SwStore *other, gint64 seq)
{
  g_autofree char *hash = read_hash (one, seq);
  g_autofree char *other_hash = read_hash (other, seq);

  return hash != NULL && g_strcmp0 (hash, other_hash) == 0;
}

/* A hash stands for all rows before it, so the rows that both have are the first ones. */
static gint64
find_common_seq (SwStore *one, SwStore *other, gint64 most)
{
  gint64 low = 0;
  gint64 high = most;

  while (low < high)
    {
      gint64 middle = low + (high - low + 1) / 2;

      if (same_row (one, other, middle))
        low = middle;
      else
        high = middle - 1;
    }
  return low;
}

static SwRestoreRelation
relate (const SwRestorePreview *preview, const char *uuid)
{
  if (g_strcmp0 (uuid, preview->backup->uuid) != 0)
    return SW_RESTORE_OTHER_SITE;
  if (preview->common_seq < preview->backup->seq)
    return SW_RESTORE_DIVERGED;
  return preview->file_seq == preview->backup->seq ? SW_RESTORE_SAME : SW_RESTORE_ANCESTOR;
}

/* ---- what would be lost ---- */

static gboolean
read_lost (SwRestorePreview *preview, SwStore *file, GError **error)
{
  const SwCell cells[]
      = { sw_cell_integer (preview->common_seq), sw_cell_integer (SW_RESTORE_SHOWN) };
  sqlite3_stmt *statement;
  int code;

  if (!sw_sql_integer (file, "SELECT count(*) FROM journal WHERE seq = act AND seq > ?", cells, 1,
                       &preview->n_lost, error))
    return FALSE;
  statement = sw_sql_prepare (file, LOST_SQL, error);
  if (statement == NULL)
    return FALSE;
  sw_sql_bind (statement, cells, G_N_ELEMENTS (cells));
  while ((code = sw_sql_step (file, statement, error)) == SQLITE_ROW)
    {
      SwLostAct *lost = g_new0 (SwLostAct, 1);
      char **const texts[]
          = { &lost->kind,        &lost->action, &lost->table, &lost->identified_by,
              &lost->workstation, &lost->person, &lost->reason };

      lost->act = sqlite3_column_int64 (statement, 0);
      lost->utc_ms = sqlite3_column_int64 (statement, 1);
      lost->offset_min = sqlite3_column_int (statement, 2);
      for (int i = 0; i < (int)G_N_ELEMENTS (texts); i++)
        *texts[i] = g_strdup ((const char *)sqlite3_column_text (statement, 3 + i));
      g_ptr_array_add (preview->lost, lost);
    }
  sqlite3_reset (statement);
  return code == SQLITE_DONE;
}

/* The file's side; FALSE when it cannot be read, whatever the reason. */
static gboolean
compare_with_file (SwRestorePreview *preview, SwStore *backup, const char *path)
{
  g_autoptr (SwStore) file = sw_store_peek (path, FALSE, NULL, NULL);
  g_autoptr (SwBackupInfo) info = g_new0 (SwBackupInfo, 1);

  if (file == NULL || !sw_sql_execute (file, "BEGIN", NULL)
      || !sw_backup_info_fill (info, file, NULL))
    return FALSE;
  preview->file_seq = info->seq;
  preview->file_head = g_strdup (info->head);
  preview->common_seq = find_common_seq (file, backup, MIN (info->seq, preview->backup->seq));
  preview->relation = relate (preview, info->uuid);
  return preview->relation == SW_RESTORE_OTHER_SITE || read_lost (preview, file, NULL);
}

static gboolean
count_findings (
    SwRestorePreview *preview, SwStore *store, SwProgress progress, gpointer data, GError **error)
{
  g_autoptr (SwVerifyReport) report = sw_verify_full (store, progress, data, error);

  if (report == NULL)
    return FALSE;
  preview->n_findings = report->findings->len;
  return TRUE;
}

SwRestorePreview *
sw_restore_preview (
    const char *path, const char *backup, SwProgress progress, gpointer data, GError **error)
{
  g_autoptr (SwRestorePreview) preview = g_new0 (SwRestorePreview, 1);
  g_autoptr (SwStore) store = NULL;

  g_return_val_if_fail (path != NULL && backup != NULL, NULL);
  preview->lost = g_ptr_array_new_with_free_func (free_lost);
  preview->relation = SW_RESTORE_NO_FILE;
  preview->backup = sw_backup_read (backup, NULL, error);
  if (preview->backup == NULL)
    return NULL;
  store = sw_store_peek (backup, TRUE, NULL, error);
  if (store == NULL || !count_findings (preview, store, progress, data, error))
    return NULL;
  if (!compare_with_file (preview, store, path))
    preview->relation = SW_RESTORE_NO_FILE;
  return g_steal_pointer (&preview);
}
