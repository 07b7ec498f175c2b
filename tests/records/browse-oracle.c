/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The slow oracle: rows and what filters may ask of them. */
#include "browse-oracle.h"

#include "browse-paths.h"

#include "records/row-private.h"
#include "records/story.h"

#include <string.h>

static int
to_outcome (const char *word)
{
  const SwColumn *column = sw_table_find_column (sw_table_info (SW_TABLE_TITRATION), "outcome");

  for (int i = 0; word != NULL && i < SW_N_OUTCOMES; i++)
    if (strcmp (column->words[i], word) == 0)
      return i;
  return -1;
}

/* ---- stories ---- */

typedef gboolean (*ChapterTest) (const SwChapter *chapter);

static gboolean
is_amended (const SwChapter *chapter)
{
  return strcmp (chapter->kind, "amend") == 0 && strcmp (chapter->action, "update") == 0;
}

static gboolean
takes_away (const SwChapter *chapter)
{
  return strcmp (chapter->kind, "amend") == 0 || strcmp (chapter->kind, "void") == 0;
}

static gboolean
has_chapter (BrowsePlant *plant, SwTable table, gint64 id, gint64 after, ChapterTest test)
{
  g_autoptr (GPtrArray) story = sw_story_read (plant->base.store, table, id, NULL);

  for (guint i = 0; i < story->len; i++)
    {
      const SwChapter *chapter = story->pdata[i];

      if (chapter->seq > after && test (chapter))
        return TRUE;
    }
  return FALSE;
}

static gboolean
part_has_chapter (
    BrowsePlant *plant, SwTable part, gint64 titration, gint64 after, ChapterTest test)
{
  g_autofree char *sql = g_strdup_printf ("SELECT max(id) FROM %s", sw_table_name (part));
  gint64 n = fixture_ask (&plant->base, sql);

  for (gint64 id = 1; id <= n; id++)
    if (oracle_to_id (oracle_follow (plant, part, id, "titration")) == titration
        && has_chapter (plant, part, id, after, test))
      return TRUE;
  return FALSE;
}

/* A record and, of a titration, its parts. */
static gboolean
all_have_chapter (BrowsePlant *plant, SwTable table, gint64 id, gint64 after, ChapterTest test)
{
  if (has_chapter (plant, table, id, after, test))
    return TRUE;
  return table == SW_TABLE_TITRATION
         && (has_chapter (plant, SW_TABLE_SAMPLE,
                          oracle_to_id (oracle_follow (plant, table, id, "sample")), after, test)
             || part_has_chapter (plant, SW_TABLE_READING, id, after, test)
             || part_has_chapter (plant, SW_TABLE_DOSE, id, after, test));
}

static gint64
get_first_seq (BrowsePlant *plant, SwTable table, gint64 id, gint64 *person)
{
  g_autoptr (GPtrArray) story = sw_story_read (plant->base.store, table, id, NULL);
  const SwChapter *first = story->pdata[0];

  *person = first->person;
  return first->seq;
}

static SwReviewState
judge_review (BrowsePlant *plant, SwTable table, gint64 id)
{
  gint64 n = fixture_ask (&plant->base, "SELECT max(id) FROM review");
  SwReviewState state = SW_REVIEW_NONE;

  for (gint64 i = 1; i <= n; i++)
    {
      g_autoptr (SwReview) review = sw_review_load (plant->base.store, i, NULL);
      gint64 ignored;
      gint64 first = get_first_seq (plant, SW_TABLE_REVIEW, i, &ignored);

      if (review->record.voided || review->subject != id
          || strcmp (review->subject_table, sw_table_name (table)) != 0)
        continue;
      if (review->meaning == SW_MEANING_PERFORMED)
        state = MAX (state, SW_REVIEW_SIGNED);
      else if (!all_have_chapter (plant, table, id, first, takes_away))
        state = SW_REVIEW_REVIEWED;
      else if (state != SW_REVIEW_REVIEWED)
        state = SW_REVIEW_LOST;
    }
  return state;
}

/* ---- rows ---- */

void
oracle_add_text (GPtrArray *texts, const char *text)
{
  g_autofree char *folded = text != NULL ? g_utf8_casefold (text, -1) : NULL;

  if (folded != NULL)
    g_ptr_array_add (texts, g_utf8_normalize (folded, -1, G_NORMALIZE_ALL_COMPOSE));
}

static void
read_texts (BrowsePlant *plant, OracleRow *row)
{
  g_auto (GStrv) each = g_strsplit (oracle_paths[row->row.table].texts, " ", -1);

  row->texts = g_ptr_array_new_with_free_func (g_free);
  for (int i = 0; each[i] != NULL; i++)
    {
      g_autofree char *text = oracle_follow (plant, row->row.table, row->row.id, each[i]);

      oracle_add_text (row->texts, text);
    }
  if (row->row.machine != 0)
    {
      g_autofree char *name = oracle_follow (plant, SW_TABLE_MACHINE, row->row.machine, "name");

      oracle_add_text (row->texts, row->row.machine_tag);
      oracle_add_text (row->texts, name);
    }
}

static void
read_people (BrowsePlant *plant, OracleRow *row)
{
  const OraclePaths *of = &oracle_paths[row->row.table];
  g_auto (GStrv) also = g_strsplit (of->also != NULL ? of->also : "", " ", -1);

  row->row.person = oracle_to_id (oracle_follow_any (plant, row->row.table, row->row.id, of->main));
  if (row->row.person == 0)
    get_first_seq (plant, row->row.table, row->row.id, &row->row.person);
  row->people = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_array_append_val (row->people, row->row.person);
  for (int i = 0; also[i] != NULL; i++)
    {
      gint64 person = oracle_to_id (oracle_follow (plant, row->row.table, row->row.id, also[i]));

      g_array_append_val (row->people, person);
    }
  if (row->row.person != 0)
    row->row.initials = oracle_follow (plant, SW_TABLE_PERSON, row->row.person, "initials");
}

/* A sample has the outcome of its last portion that has one. */
static int
judge_sample (BrowsePlant *plant, gint64 sample)
{
  gint64 n = fixture_ask (&plant->base, "SELECT max(id) FROM titration");
  int outcome = -1;
  int portion = 0;

  for (gint64 id = 1; id <= n; id++)
    {
      g_autoptr (SwTitration) titration = sw_titration_load (plant->base.store, id, NULL);

      if (titration->sample != sample || titration->record.voided)
        continue;
      if (outcome > (int)SW_OUTCOME_OPEN
          && (titration->outcome == SW_OUTCOME_OPEN || titration->portion < portion))
        continue;
      outcome = (int)titration->outcome;
      portion = titration->portion;
    }
  return outcome;
}

static void
read_result (BrowsePlant *plant, OracleRow *row, gconstpointer record)
{
  g_autofree char *outcome = oracle_follow_any (plant, row->row.table, row->row.id,
                                                oracle_paths[row->row.table].outcome);
  const SwDoseRow *dose = record;
  const SwTitration *titration = record;

  row->outcome = to_outcome (outcome);
  row->row.net_low = row->row.net_high = row->row.amount_ml = NAN;
  row->row.outcome = -1;
  if (row->row.table == SW_TABLE_SAMPLE)
    row->outcome = judge_sample (plant, row->row.id);
  if (row->row.table == SW_TABLE_DOSE)
    row->row.amount_ml = isnan (dose->added.value) ? dose->measured_ml : dose->added.value;
  if (row->row.table != SW_TABLE_TITRATION)
    return;
  row->row.outcome = row->outcome;
  row->row.net_low = titration->net_low;
  row->row.net_high = titration->net_high;
}

static OracleRow *
read_row (BrowsePlant *plant, SwTable table, gint64 id)
{
  const OraclePaths *of = &oracle_paths[table];
  OracleRow *row = g_new0 (OracleRow, 1);
  gpointer record = sw_row_load (plant->base.store, table, id, NULL);
  const SwRecord *common = record;

  row->row.id = id;
  row->row.table = table;
  row->row.happened_ms = common->happened_ms;
  row->row.offset_min = common->offset_min;
  row->row.late = common->late;
  row->row.voided = common->voided;
  row->row.amended = all_have_chapter (plant, table, id, 0, is_amended);
  row->row.machine = oracle_to_id (oracle_follow_any (plant, table, id, of->machine));
  if (row->row.machine != 0)
    row->row.machine_tag = oracle_follow (plant, SW_TABLE_MACHINE, row->row.machine, "tag");
  row->row.title = oracle_follow_any (plant, table, id, of->title);
  row->row.of = oracle_follow_any (plant, table, id, of->of);
  row->row.word = oracle_follow_any (plant, table, id, of->word);
  if (table == SW_TABLE_SIGN_IN)
    row->row.word = g_strdup (((SwSignIn *)record)->accepted ? "accepted" : "refused");
  read_people (plant, row);
  read_result (plant, row, record);
  read_texts (plant, row);
  row->review = judge_review (plant, table, id);
  sw_row_free (table, record);
  return row;
}

static void
free_row (gpointer data)
{
  OracleRow *row = data;

  g_free (row->row.machine_tag);
  g_free (row->row.initials);
  g_free (row->row.title);
  g_free (row->row.of);
  g_free (row->row.word);
  g_array_unref (row->people);
  g_ptr_array_unref (row->texts);
  g_free (row);
}

GPtrArray *
oracle_read (BrowsePlant *plant, SwTable table)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (free_row);
  g_autofree char *sql = g_strdup_printf ("SELECT max(id) FROM %s", sw_table_name (table));
  gint64 n = fixture_ask (&plant->base, sql);

  for (gint64 id = 1; id <= n; id++)
    g_ptr_array_add (rows, read_row (plant, table, id));
  return rows;
}

/* ---- filters ---- */

gboolean
oracle_finds (GPtrArray *texts, const char *search)
{
  g_autoptr (GPtrArray) folded = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) each = NULL;

  oracle_add_text (folded, search != NULL ? search : "");
  each = g_strsplit_set (folded->pdata[0], " \t\n", -1);
  for (int i = 0; each[i] != NULL; i++)
    {
      gboolean found = FALSE;

      for (guint j = 0; j < texts->len; j++)
        found = found || strstr (texts->pdata[j], each[i]) != NULL;
      if (!found && *each[i] != '\0')
        return FALSE;
    }
  return TRUE;
}

static gboolean
has_person (const OracleRow *row, gint64 person)
{
  for (guint i = 0; i < row->people->len; i++)
    if (g_array_index (row->people, gint64, i) == person)
      return TRUE;
  return FALSE;
}

static gboolean
has_state (const OracleRow *row, SwBrowseState state)
{
  const gboolean current = !row->row.voided;

  switch (state)
    {
    case SW_BROWSE_CURRENT:
      return current;
    case SW_BROWSE_VOIDED:
      return !current;
    case SW_BROWSE_LATE:
      return row->row.late;
    case SW_BROWSE_AMENDED:
      return row->row.amended;
    case SW_BROWSE_TO_REVIEW:
      return current && row->row.table == SW_TABLE_TITRATION && row->review == SW_REVIEW_SIGNED;
    case SW_BROWSE_REVIEW_LOST:
      return current && row->review == SW_REVIEW_LOST;
    case SW_BROWSE_ALL:
    case SW_N_BROWSE_STATES:
    default:
      return TRUE;
    }
}

gboolean
oracle_matches (const OracleRow *row, const SwBrowseFilter *filter)
{
  return has_state (row, filter->state)
         && (filter->machine == 0 || row->row.machine == filter->machine)
         && (filter->person == 0 || has_person (row, filter->person))
         && (filter->outcome < 0 || row->outcome == filter->outcome)
         && (filter->from_ms == 0 || row->row.happened_ms >= filter->from_ms)
         && (filter->to_ms == 0 || row->row.happened_ms < filter->to_ms)
         && oracle_finds (row->texts, filter->search);
}
