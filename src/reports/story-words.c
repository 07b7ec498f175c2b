/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal in words: what wording makes of chapters, with the names of the rows they speak of.
 */
#include "reports/story-words.h"

#include <string.h>

#define LATE_AFTER_MS (15 * 60 * 1000) /* as records/record.h has it */

/* Passed along while one story is told: a person who wrote forty entries is looked up once. */
typedef struct
{
  SwStore *store;
  const SwWording *wording;
  GHashTable *names; /* Owned: "table id" to name, NULL for a row that is not there */
} Teller;

static void
init_teller (Teller *teller, SwStore *store, const SwWording *wording)
{
  teller->store = store;
  teller->wording = wording;
  teller->names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
}

static void
clear_teller (Teller *teller)
{
  g_clear_pointer (&teller->names, g_hash_table_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Teller, clear_teller)

/* ---- names ---- */

/* NULL: it cannot be read, and is told by its number. */
static const char *
find_name (Teller *teller, const char *table, gint64 id)
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

static char *
name_cb (gpointer data, const char *table, gint64 id)
{
  return g_strdup (find_name (data, table, id));
}

/* ---- what a record is measured in ---- */

static gint64
find_titration (SwStore *store, SwTable table, gint64 id)
{
  g_autoptr (SwReadingRow) reading = NULL;
  g_autoptr (SwDoseRow) dose = NULL;

  if (table == SW_TABLE_READING)
    reading = sw_reading_row_load (store, id, NULL);
  if (table == SW_TABLE_DOSE)
    dose = sw_dose_row_load (store, id, NULL);
  return reading != NULL ? reading->titration : dose != NULL ? dose->titration : id;
}

static gint64
find_version (SwStore *store, SwTable table, gint64 id)
{
  g_autoptr (SwTitration) titration = NULL;

  if (table == SW_TABLE_METHOD_VERSION)
    return id;
  if (table != SW_TABLE_TITRATION && table != SW_TABLE_READING && table != SW_TABLE_DOSE)
    return 0;
  titration = sw_titration_load (store, find_titration (store, table, id), NULL);
  return titration != NULL ? titration->method_version : 0;
}

static gboolean
uses_burette (SwStore *store, SwTable table, gint64 id)
{
  gint64 version = find_version (store, table, id);
  g_autoptr (SwMethodVersion) row
      = version != 0 ? sw_method_version_load (store, version, NULL) : NULL;

  return row != NULL && row->burette;
}

/* ---- lines ---- */

static void
free_line (gpointer data)
{
  SwStoryLine *line = data;

  g_free (line->column);
  g_free (line->label);
  g_free (line->before);
  g_free (line->after);
  g_free (line);
}

char *
sw_story_line_say (const SwWording *wording, const SwStoryLine *line)
{
  return sw_say_change (wording, line->label, line->before, line->after);
}

static const SwChange *
find_change (const GPtrArray *changes, const char *column)
{
  for (guint i = 0; column != NULL && i < changes->len; i++)
    {
      const SwChange *change = changes->pdata[i];

      if (strcmp (change->column, column) == 0)
        return change;
    }
  return NULL;
}

static SwStoryLine *
tell_change (Teller *teller,
             const SwRecordContext *context,
             const char *table,
             const SwChange *change)
{
  const char *const stored[2] = { change->before, change->after };
  const char *label = sw_say_column (teller->wording, table, change->column);
  SwStoryLine *line = g_new0 (SwStoryLine, 1);
  char *values[2];

  sw_say_values (teller->wording, context, table, change->column, stored, values);
  line->column = g_strdup (change->column);
  line->label = g_strdup (label != NULL ? label : change->column);
  line->before = values[0];
  line->after = values[1];
  return line;
}

/* A row that is new, written when it happened. */
static gboolean
is_same_time (const GPtrArray *changes)
{
  const SwChange *happened = find_change (changes, "happened_ms");
  const SwChange *recorded = find_change (changes, "recorded_ms");

  return happened != NULL && happened->before == NULL && recorded != NULL
         && g_strcmp0 (happened->after, recorded->after) == 0;
}

/* Not what the sentence says already: that the row is written, when, that it is late or voided. */
static gboolean
is_news (const GPtrArray *changes, const char *table, const SwChange *change)
{
  if (strcmp (change->column, "happened_ms") == 0)
    return !is_same_time (changes);
  return sw_column_is_told (table, change->column);
}

/* A row as it stands has no sentence: what is out of the ordinary about it is told here. */
static gboolean
is_remarkable (const GPtrArray *changes, const char *table, const SwChange *change)
{
  if (strcmp (change->column, "recorded_ms") == 0)
    return !is_same_time (changes);
  if (strcmp (change->column, "late") == 0 || strcmp (change->column, "voided") == 0)
    return strcmp (change->after, "1") == 0;
  return sw_column_is_told (table, change->column);
}

typedef gboolean (*Choice) (const GPtrArray *changes, const char *table, const SwChange *change);

static int
compare_cb (gconstpointer a, gconstpointer b, gpointer table)
{
  const SwStoryLine *one = *(const SwStoryLine *const *)a;
  const SwStoryLine *two = *(const SwStoryLine *const *)b;
  const guint first = sw_column_order (table, one->column);
  const guint second = sw_column_order (table, two->column);

  return first != second ? (first < second ? -1 : 1) : strcmp (one->column, two->column);
}

/* What a signature's subject is: in the changes, or in the row. (transfer full) */
static char *
find_subject_table (SwStore *store, const GPtrArray *changes, SwTable table, gint64 row)
{
  const SwChange *change = find_change (changes, "subject_table");
  g_autoptr (SwReview) review = NULL;

  if (table != SW_TABLE_REVIEW)
    return NULL;
  if (change != NULL && change->after != NULL)
    return g_strdup (change->after);
  review = sw_review_load (store, row, NULL);
  return review != NULL ? g_strdup (review->subject_table) : NULL;
}

/* (transfer full) */
static GPtrArray *
tell_changes (Teller *teller, SwTable table, gint64 row, const GPtrArray *changes, Choice is_chosen)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (free_line);
  const char *name = sw_table_name (table);
  g_autofree char *subject_table = find_subject_table (teller->store, changes, table, row);
  const SwRecordContext context = { .name = name_cb,
                                    .data = teller,
                                    .burette = uses_burette (teller->store, table, row),
                                    .subject_table = subject_table };

  for (guint i = 0; i < changes->len; i++)
    {
      const SwChange *change = changes->pdata[i];

      if (is_chosen (changes, name, change)
          && find_change (changes, sw_column_amount (name, change->column)) == NULL)
        g_ptr_array_add (lines, tell_change (teller, &context, name, change));
    }
  g_ptr_array_sort_with_data (lines, compare_cb, (gpointer)name);
  return lines;
}

/* ---- entries ---- */

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
  const SwChange *change = find_change (changes, column);

  return change != NULL && change->after != NULL ? g_ascii_strtoll (change->after, NULL, 10) : 0;
}

/* A row is marked late by the entry that brings both its times. */
static gint64
find_lateness (const SwChapter *chapter)
{
  const SwChange *late = find_change (chapter->changes, "late");
  const gint64 recorded_ms = read_time (chapter->changes, "recorded_ms");
  const gint64 happened_ms = read_time (chapter->changes, "happened_ms");

  if (recorded_ms == 0 || happened_ms == 0 || recorded_ms - happened_ms < LATE_AFTER_MS)
    return 0;
  if (late != NULL && g_strcmp0 (late->after, "1") != 0)
    return 0;
  return recorded_ms - happened_ms;
}

static char *
say_sentence (Teller *teller, const SwChapter *chapter)
{
  const SwEntryFacts facts = {
    .action = chapter->action,
    .kind = chapter->kind,
    .table = chapter->table,
    .utc_ms = chapter->utc_ms,
    .person = chapter->person != 0 ? find_name (teller, "person", chapter->person) : NULL,
    .identified_by = chapter->identified_by,
    .workstation = chapter->workstation,
    .reason = chapter->reason,
    .makes_file = strcmp (chapter->action, "migrate") == 0 && chapter->seq == 1,
    .late_ms = find_lateness (chapter),
    .clock_back_ms = chapter->clock_back_ms,
    .clock_ahead_ms = chapter->clock_ahead_ms,
  };

  return sw_say_entry (teller->wording, &facts);
}

static char *
say_subject (Teller *teller, const SwChapter *chapter, SwTable table)
{
  char *record = sw_story_record (teller->store, teller->wording, table, chapter->row, NULL);

  return record != NULL ? record : g_strdup (sw_say_table (teller->wording, sw_table_name (table)));
}

static SwStoryEntry *
tell_chapter (Teller *teller, const SwChapter *chapter)
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
      entry->lines = tell_changes (teller, entry->table, chapter->row, chapter->changes, is_news);
    }
  else
    entry->lines = g_ptr_array_new_with_free_func (free_line);
  return entry;
}

static GPtrArray *
tell_all (SwStore *store, const SwWording *wording, const GPtrArray *chapters)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_story_entry_free);
  g_auto (Teller) teller = { 0 };

  init_teller (&teller, store, wording);
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
  g_auto (Teller) teller = { 0 };

  g_return_val_if_fail (store != NULL && wording != NULL && chapter != NULL, NULL);
  init_teller (&teller, store, wording);
  return tell_chapter (&teller, chapter);
}

/* ---- a row as it stands ---- */

/* The last word about each column; borrowed from the chapters. (transfer full) */
static GPtrArray *
collect_last (const GPtrArray *chapters)
{
  GPtrArray *last = g_ptr_array_new_with_free_func (g_free);

  for (guint i = chapters->len; i-- > 0;)
    {
      const SwChapter *chapter = chapters->pdata[i];

      for (guint k = 0; k < chapter->changes->len; k++)
        {
          const SwChange *change = chapter->changes->pdata[k];

          if (find_change (last, change->column) == NULL)
            g_ptr_array_add (last, g_memdup2 (&(SwChange){ change->column, NULL, change->after },
                                              sizeof (SwChange)));
        }
    }
  for (guint i = last->len; i-- > 0;)
    if (((const SwChange *)last->pdata[i])->after == NULL)
      g_ptr_array_remove_index (last, i);
  return last;
}

GPtrArray *
sw_story_columns (
    SwStore *store, const SwWording *wording, SwTable table, gint64 row, GError **error)
{
  g_autoptr (GPtrArray) chapters = sw_story_read (store, table, row, error);
  g_autoptr (GPtrArray) last = NULL;
  g_auto (Teller) teller = { 0 };

  if (chapters == NULL)
    return NULL;
  last = collect_last (chapters);
  init_teller (&teller, store, wording);
  return tell_changes (&teller, table, row, last, is_remarkable);
}
