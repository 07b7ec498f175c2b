/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden journal FILE: the journal, or the story of single records, in words. */
#include "cli/command.h"

#include "records/export.h"
#include "records/verify.h"
#include "reports/story-words.h"

#include <glib/gi18n.h>
#include <string.h>

const SwOption sw_cli_journal_options[] = {
  { .name = "record",
    .kind = SW_OPTION_LIST,
    .help = N_ ("only this record, as lot:3 or sample/CODE; may be given several times") },
  { .name = "from", .kind = SW_OPTION_TEXT, .help = N_ ("first day or time of writing") },
  { .name = "to",
    .kind = SW_OPTION_TEXT,
    .help = N_ ("last day of writing; with a time of day, written before that") },
  { .name = "language",
    .kind = SW_OPTION_TEXT,
    .help = N_ ("language of the sentences, such as de") },
  { NULL },
};

typedef struct
{
  SwCliRun *run;
  SwStore *store;     /* Borrowed */
  SwWording *wording; /* Owned: of the plant's zone */
  gint64 from_ms;
  gint64 to_ms; /* 0 = open */
} Telling;

/* ---- printing ---- */

static gboolean
is_in_time (const Telling *telling, gint64 utc_ms)
{
  return utc_ms >= telling->from_ms && (telling->to_ms == 0 || utc_ms < telling->to_ms);
}

static void
append_entry (const Telling *telling, const SwStoryEntry *entry)
{
  GString *out = telling->run->out;
  g_autofree char *seq = g_strdup_printf ("%" G_GINT64_FORMAT, entry->seq);
  g_autofree char *line = entry->record != NULL
                              ? g_strdup_printf ("%s %s: %s", seq, entry->record, entry->sentence)
                              : g_strdup_printf ("%s %s", seq, entry->sentence);

  if (!is_in_time (telling, entry->utc_ms))
    return;
  sw_output_text (out, SW_OUTPUT_ENTRY, line, NULL);
  for (guint i = 0; i < entry->lines->len; i++)
    {
      g_autofree char *change
          = sw_story_line_say (telling->wording, g_ptr_array_index (entry->lines, i));

      sw_output_text (out, SW_OUTPUT_CHANGE, change, NULL);
    }
  sw_output_text (out, SW_OUTPUT_ENTRY_HASH, entry->hash, NULL);
}

/* Takes @entries. */
static gboolean
append_entries (const Telling *telling, GPtrArray *entries)
{
  g_autoptr (GPtrArray) owned = entries;

  for (guint i = 0; owned != NULL && i < owned->len; i++)
    append_entry (telling, g_ptr_array_index (owned, i));
  return owned != NULL;
}

/* ---- which records ---- */

/* "lot:3" */
static gboolean
tell_by_id (
    const Telling *telling, SwTable table, const char *digits, gboolean *found, GError **error)
{
  gint64 id = 0;
  GPtrArray *entries;

  *found = FALSE;
  if (!g_ascii_string_to_signed (digits, 10, 1, G_MAXINT64, &id, NULL))
    return TRUE;
  entries = sw_story_tell (telling->store, telling->wording, table, id, error);
  *found = entries != NULL && entries->len > 0;
  return append_entries (telling, entries);
}

/* "sample/M-07-260504-1": all of that very name, voided ones too. */
static gboolean
tell_by_name (
    const Telling *telling, SwTable table, const char *name, gboolean *found, GError **error)
{
  const SwBrowseFilter filter
      = { .table = table, .state = SW_BROWSE_ALL, .outcome = -1, .search = name };
  g_autoptr (GArray) ids = sw_browse_ids (telling->store, &filter, error);

  *found = FALSE;
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      g_autoptr (SwBrowseRow) row = sw_browse_load (telling->store, table, id, error);

      if (row == NULL)
        return FALSE;
      if (g_strcmp0 (row->title, name) != 0)
        continue;
      *found = TRUE;
      if (!append_entries (telling,
                           sw_story_tell (telling->store, telling->wording, table, id, error)))
        return FALSE;
    }
  return ids != NULL;
}

static gboolean
refuse_record (const Telling *telling, const char *sentence, GError **error)
{
  return sw_options_refuse (telling->run->options, "record", sentence, error);
}

static gboolean
tell_record (const Telling *telling, const char *word, GError **error)
{
  const SwWording *wording = telling->run->wording;
  gsize length = strcspn (word, ":/");
  g_autofree char *name = g_strndup (word, length);
  gboolean found = FALSE;
  SwTable table;

  if (word[length] == '\0' || word[length + 1] == '\0' || !sw_table_from_name (name, &table))
    return refuse_record (telling,
                          sw_tr (wording, "This names no record. Write its table and number, as "
                                          "lot:3, or its table and name, as sample/M-07-260504-1."),
                          error);
  if (!(word[length] == ':' ? tell_by_id : tell_by_name) (telling, table, word + length + 1, &found,
                                                          error))
    return FALSE;
  return found
         || refuse_record (telling, sw_tr (wording, "There is no such record in the file."), error);
}

/* ---- everything ---- */

/* Acts come newest first. */
static gboolean
tell_all (const Telling *telling, GError **error)
{
  const SwBrowseFilter filter
      = { .from_ms = telling->from_ms, .to_ms = telling->to_ms, .outcome = -1 };
  g_autoptr (GArray) acts = sw_browse_acts (telling->store, &filter, FALSE, error);

  for (guint i = acts != NULL ? acts->len : 0; i > 0; i--)
    if (!append_entries (telling, sw_story_tell_act (telling->store, telling->wording,
                                                     g_array_index (acts, gint64, i - 1), error)))
      return FALSE;
  return acts != NULL;
}

static gboolean
tell (const Telling *telling, GError **error)
{
  const char *const *records = sw_options_get_list (telling->run->options, "record");
  g_autofree char *head = NULL;

  if (records[0] == NULL && !tell_all (telling, error))
    return FALSE;
  for (gsize i = 0; records[i] != NULL; i++)
    if (!tell_record (telling, records[i], error))
      return FALSE;
  head = sw_journal_head (telling->store, error);
  if (head == NULL)
    return FALSE;
  sw_output_text (telling->run->out, SW_OUTPUT_HEAD, head, NULL);
  return TRUE;
}

SwExit
sw_cli_journal (SwCliRun *run, GError **error)
{
  const char *path = sw_cli_read_file (run, error);
  g_autoptr (SwStore) store = NULL;
  g_autoptr (SwWording) wording = NULL;
  Telling telling = { .run = run };
  gboolean told;

  if (path == NULL)
    return SW_EXIT_BAD_ARGUMENTS;
  store = sw_store_open (path, SW_OPEN_READ_ONLY, NULL, error);
  wording = store != NULL ? sw_cli_make_wording (run, store, error) : NULL;
  if (wording == NULL)
    return SW_EXIT_BAD_DATA;
  telling.store = store;
  telling.wording = wording;
  if (!sw_cli_read_time (run, "from", sw_wording_get_zone (wording), FALSE, &telling.from_ms, error)
      || !sw_cli_read_time (run, "to", sw_wording_get_zone (wording), TRUE, &telling.to_ms, error)
      || !sw_snapshot_begin (store, error))
    return SW_EXIT_BAD_DATA;
  told = tell (&telling, error);
  sw_snapshot_end (store);
  return told ? SW_EXIT_DONE : SW_EXIT_BAD_DATA;
}
