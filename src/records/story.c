/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal rows of one record, taken apart for showing. */
#include "records/story.h"

#include "records/story-private.h"

#include <string.h>

#define CHAPTERS                                                                                   \
  "SELECT seq, act, utc_ms, offset_min, person, kind, identified_by, workstation, version,"        \
  " reason, action, hash, entry, table_name, row_id, clock_back_ms, clock_ahead_ms FROM journal "

static void
free_change (gpointer data)
{
  SwChange *change = data;

  g_free (change->column);
  g_free (change->before);
  g_free (change->after);
  g_free (change);
}

void
sw_chapter_free (SwChapter *chapter)
{
  if (chapter == NULL)
    return;
  g_free (chapter->kind);
  g_free (chapter->identified_by);
  g_free (chapter->workstation);
  g_free (chapter->version);
  g_free (chapter->reason);
  g_free (chapter->action);
  g_free (chapter->hash);
  g_free (chapter->table);
  g_ptr_array_unref (chapter->changes);
  g_free (chapter);
}

static SwChange *
get_change (GPtrArray *changes, const char *column, gsize length)
{
  SwChange *change;

  for (guint i = 0; i < changes->len; i++)
    {
      change = changes->pdata[i];
      if (strlen (change->column) == length && strncmp (change->column, column, length) == 0)
        return change;
    }
  change = g_new0 (SwChange, 1);
  change->column = g_strndup (column, length);
  g_ptr_array_add (changes, change);
  return change;
}

/* "new.column=value" or "old.column=value"; header lines have no such start. */
static void
read_line (GPtrArray *changes, const char *line)
{
  const char *equals = strchr (line, '=');
  gboolean is_new = g_str_has_prefix (line, "new.");
  SwChange *change;
  char **value;

  if (equals == NULL || (!is_new && !g_str_has_prefix (line, "old.")))
    return;
  change = get_change (changes, line + 4, (gsize)(equals - line) - 4);
  value = is_new ? &change->after : &change->before;
  /* the journal writes each line once; of a forged second one verify, too, takes no notice */
  if (*value == NULL)
    *value = g_strdup (equals + 1);
}

static int
compare_changes (gconstpointer a, gconstpointer b)
{
  const SwChange *one = *(const SwChange *const *)a;
  const SwChange *two = *(const SwChange *const *)b;

  return strcmp (one->column, two->column);
}

GPtrArray *
sw_story_read_entry (const char *entry)
{
  GPtrArray *changes = g_ptr_array_new_with_free_func (free_change);
  g_auto (GStrv) lines = g_strsplit (entry, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    read_line (changes, lines[i]);
  g_ptr_array_sort (changes, compare_changes);
  return changes;
}

static char *
dup_text (sqlite3_stmt *statement, int index)
{
  return g_strdup ((const char *)sqlite3_column_text (statement, index));
}

static SwChapter *
read_chapter (sqlite3_stmt *statement)
{
  SwChapter *chapter = g_new0 (SwChapter, 1);

  chapter->seq = sqlite3_column_int64 (statement, 0);
  chapter->act = sqlite3_column_int64 (statement, 1);
  chapter->utc_ms = sqlite3_column_int64 (statement, 2);
  chapter->offset_min = sqlite3_column_int (statement, 3);
  chapter->person = sqlite3_column_int64 (statement, 4);
  chapter->kind = dup_text (statement, 5);
  chapter->identified_by = dup_text (statement, 6);
  chapter->workstation = dup_text (statement, 7);
  chapter->version = dup_text (statement, 8);
  chapter->reason = dup_text (statement, 9);
  chapter->action = dup_text (statement, 10);
  chapter->hash = dup_text (statement, 11);
  chapter->changes = sw_story_read_entry ((const char *)sqlite3_column_text (statement, 12));
  chapter->table = dup_text (statement, 13);
  chapter->row = sqlite3_column_int64 (statement, 14);
  chapter->clock_back_ms = sqlite3_column_int64 (statement, 15);
  chapter->clock_ahead_ms = sqlite3_column_int64 (statement, 16);
  return chapter;
}

GPtrArray *
sw_story_select (
    SwStore *store, const char *where, const SwCell *cells, guint n_cells, GError **error)
{
  g_autoptr (GPtrArray) chapters = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_chapter_free);
  g_autofree char *sql = g_strconcat (CHAPTERS, where, " ORDER BY seq", NULL);
  sqlite3_stmt *statement = sw_sql_prepare (store, sql, error);
  int code;

  if (statement == NULL)
    return NULL;
  sw_sql_bind (statement, cells, n_cells);
  while ((code = sw_sql_step (store, statement, error)) == SQLITE_ROW)
    g_ptr_array_add (chapters, read_chapter (statement));
  if (code != SQLITE_DONE)
    return NULL;
  sqlite3_reset (statement);
  return g_steal_pointer (&chapters);
}

GPtrArray *
sw_story_read (SwStore *store, SwTable table, gint64 row, GError **error)
{
  const SwCell keys[] = { sw_cell_text (sw_table_name (table)), sw_cell_integer (row) };

  g_return_val_if_fail (store != NULL, NULL);
  return sw_story_select (store, "WHERE table_name = ? AND row_id = ?", keys, G_N_ELEMENTS (keys),
                          error);
}
