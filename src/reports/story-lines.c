/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Columns of a record as lines: those that an entry changed, and all of a row as it stands. */
#include "reports/story-private.h"

#include <string.h>

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

GPtrArray *
sw_story_no_lines (void)
{
  return g_ptr_array_new_with_free_func (free_line);
}

char *
sw_story_line_say (const SwWording *wording, const SwStoryLine *line)
{
  return sw_say_change (wording, line->label, line->before, line->after);
}

const SwChange *
sw_story_find (const GPtrArray *changes, const char *column)
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
tell_change (SwTeller *teller,
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
  const SwChange *happened = sw_story_find (changes, "happened_ms");
  const SwChange *recorded = sw_story_find (changes, "recorded_ms");

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

static char *
name_cb (gpointer data, const char *table, gint64 id)
{
  return g_strdup (sw_teller_name (data, table, id));
}

/* What a signature's subject is: in the changes, or in the row. (transfer full) */
static char *
find_subject_table (SwStore *store, const GPtrArray *changes, SwTable table, gint64 row)
{
  const SwChange *change = sw_story_find (changes, "subject_table");
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
tell_changes (
    SwTeller *teller, SwTable table, gint64 row, const GPtrArray *changes, Choice is_chosen)
{
  GPtrArray *lines = sw_story_no_lines ();
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
          && sw_story_find (changes, sw_column_amount (name, change->column)) == NULL)
        g_ptr_array_add (lines, tell_change (teller, &context, name, change));
    }
  g_ptr_array_sort_with_data (lines, compare_cb, (gpointer)name);
  return lines;
}

GPtrArray *
sw_teller_lines (SwTeller *teller, SwTable table, gint64 row, const GPtrArray *changes)
{
  return tell_changes (teller, table, row, changes, is_news);
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

          if (sw_story_find (last, change->column) == NULL)
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
  g_auto (SwTeller) teller = { 0 };

  if (chapters == NULL)
    return NULL;
  last = collect_last (chapters);
  sw_teller_init (&teller, store, wording);
  return tell_changes (&teller, table, row, last, is_remarkable);
}
