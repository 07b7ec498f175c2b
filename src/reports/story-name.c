/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What records are called, alone and beside their kind. */
#include "reports/story-words.h"

/* Rows whose title alone would not say what they are, even beside their kind. */
static gboolean
needs_whole_name (SwTable table)
{
  return table == SW_TABLE_METHOD_VERSION || table == SW_TABLE_READING;
}

static char *
say_row (const SwWording *wording, const SwBrowseRow *row)
{
  return sw_say_record (wording, sw_table_name (row->table), row->title, row->of);
}

char *
sw_story_record (SwStore *store, const SwWording *wording, SwTable table, gint64 id, GError **error)
{
  g_autoptr (SwBrowseRow) row = sw_browse_load (store, table, id, error);

  return row != NULL ? say_row (wording, row) : NULL;
}

char *
sw_story_name (SwStore *store, const SwWording *wording, SwTable table, gint64 id, GError **error)
{
  g_autoptr (SwBrowseRow) row = sw_browse_load (store, table, id, error);

  if (row == NULL)
    return NULL;
  if (row->title == NULL || needs_whole_name (table))
    return say_row (wording, row);
  return g_strdup (row->title);
}
