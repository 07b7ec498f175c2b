/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal in words: what wording makes of chapters, with the names of the rows they speak of.
 */
#include "reports/story-private.h"

#include <string.h>

#define LATE_AFTER_MS (15 * 60 * 1000) /* as records/record.h has it */

void
sw_story_entry_free (SwStoryEntry *entry)
{
  if (entry == NULL)
    return;
  g_free (entry->record);
  g_free (entry->sentence);
  g_free (entry->hash);
  g_ptr_array_unref (entry->lines);
  g_free (entry);
}

static gint64
read_time (const GPtrArray *changes, const char *column)
{
  const SwChange *change = sw_story_find (changes, column);

  return change != NULL && change->after != NULL ? g_ascii_strtoll (change->after, NULL, 10) : 0;
}

/* A row is marked late by the entry that brings both its times. */
static gint64
find_lateness (const SwChapter *chapter)
{
  const SwChange *late = sw_story_find (chapter->changes, "late");
  const gint64 recorded_ms = read_time (chapter->changes, "recorded_ms");
  const gint64 happened_ms = read_time (chapter->changes, "happened_ms");

  if (recorded_ms == 0 || happened_ms == 0 || recorded_ms - happened_ms < LATE_AFTER_MS)
    return 0;
  if (late != NULL && g_strcmp0 (late->after, "1") != 0)
    return 0;
  return recorded_ms - happened_ms;
}

static gboolean
refuses (const SwChapter *chapter)
{
  const SwChange *accepted = sw_story_find (chapter->changes, "accepted");

  return strcmp (chapter->table, "sign_in") == 0 && accepted != NULL
         && g_strcmp0 (accepted->after, "0") == 0;
}

static char *
say_sentence (SwTeller *teller, const SwChapter *chapter)
{
  const SwEntryFacts facts = {
    .action = chapter->action,
    .kind = chapter->kind,
    .table = chapter->table,
    .utc_ms = chapter->utc_ms,
    .person = chapter->person != 0 ? sw_teller_name (teller, "person", chapter->person) : NULL,
    .identified_by = chapter->identified_by,
    .workstation = chapter->workstation,
    .reason = chapter->reason,
    .makes_file = strcmp (chapter->action, "migrate") == 0 && chapter->seq == 1,
    .refuses = refuses (chapter),
    .late_ms = find_lateness (chapter),
    .clock_back_ms = chapter->clock_back_ms,
    .clock_ahead_ms = chapter->clock_ahead_ms,
  };

  return sw_say_entry (teller->wording, &facts);
}

static char *
say_subject (SwTeller *teller, const SwChapter *chapter, SwTable table)
{
  char *record = sw_story_record (teller->store, teller->wording, table, chapter->row, NULL);

  return record != NULL ? record : g_strdup (sw_say_table (teller->wording, sw_table_name (table)));
}

static SwStoryEntry *
tell_chapter (SwTeller *teller, const SwChapter *chapter)
{
  SwStoryEntry *entry = g_new0 (SwStoryEntry, 1);

  entry->seq = chapter->seq;
  entry->act = chapter->act;
  entry->utc_ms = chapter->utc_ms;
  entry->row = chapter->row;
  entry->sentence = say_sentence (teller, chapter);
  entry->hash = g_strdup (chapter->hash);
  entry->voids = strcmp (chapter->action, "void") == 0;
  entry->table = SW_N_TABLES;
  if (strcmp (chapter->action, "migrate") != 0
      && sw_table_from_name (chapter->table, &entry->table))
    {
      entry->record = say_subject (teller, chapter, entry->table);
      entry->lines = sw_teller_lines (teller, entry->table, chapter->row, chapter->changes);
    }
  else
    entry->lines = sw_story_no_lines ();
  return entry;
}

static GPtrArray *
tell_all (SwStore *store, const SwWording *wording, const GPtrArray *chapters)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_story_entry_free);
  g_auto (SwTeller) teller = { 0 };

  sw_teller_init (&teller, store, wording);
  for (guint i = 0; i < chapters->len; i++)
    g_ptr_array_add (entries, tell_chapter (&teller, chapters->pdata[i]));
  return entries;
}

GPtrArray *
sw_story_tell (SwStore *store, const SwWording *wording, SwTable table, gint64 row, GError **error)
{
  g_autoptr (GPtrArray) chapters = sw_story_read (store, table, row, error);

  return chapters != NULL ? tell_all (store, wording, chapters) : NULL;
}

GPtrArray *
sw_story_tell_act (SwStore *store, const SwWording *wording, gint64 act, GError **error)
{
  g_autoptr (GPtrArray) chapters = sw_browse_act (store, act, error);

  return chapters != NULL ? tell_all (store, wording, chapters) : NULL;
}

SwStoryEntry *
sw_story_tell_chapter (SwStore *store, const SwWording *wording, const SwChapter *chapter)
{
  g_auto (SwTeller) teller = { 0 };

  g_return_val_if_fail (store != NULL && wording != NULL && chapter != NULL, NULL);
  sw_teller_init (&teller, store, wording);
  return tell_chapter (&teller, chapter);
}
