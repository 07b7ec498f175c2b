/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What records are called, alone and beside their kind; once looked up, remembered. */
#include "reports/story-private.h"

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

void
sw_teller_init (SwTeller *teller, SwStore *store, const SwWording *wording)
{
  teller->store = store;
  teller->wording = wording;
  teller->names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
}

void
sw_teller_clear (SwTeller *teller)
{
  g_clear_pointer (&teller->names, g_hash_table_unref);
}

const char *
sw_teller_name (SwTeller *teller, const char *table, gint64 id)
{
  g_autofree char *key = g_strdup_printf ("%s %" G_GINT64_FORMAT, table, id);
  gpointer name;
  SwTable found;

  if (g_hash_table_lookup_extended (teller->names, key, NULL, &name))
    return name;
  name = sw_table_from_name (table, &found)
             ? sw_story_name (teller->store, teller->wording, found, id, NULL)
             : NULL;
  g_hash_table_insert (teller->names, g_steal_pointer (&key), name);
  return name;
}
