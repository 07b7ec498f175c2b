/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stories of records in words; and that no table, column or word of the file lacks its words. */
#include "reports/story-words.h"

#include <string.h>

#include "records/table-private.h"
#include "support/plant.h"

#define U202F "\342\200\257"

static SwWording *english;
static SwWording *pseudo;

/* ---- nothing lacks its words ---- */

/* Plain, or wrapped as the pseudo-locale wraps what went through the catalogue. */
static void
assert_said (const char *said, const char *translated, const char *what)
{
  if (said == NULL || translated == NULL || strcmp (said, translated) == 0)
    g_error ("%s has no words, or none that can be translated", what);
}

/* Unknown to wording, a word would come out as the file has it. */
static void
assert_words (const SwTableInfo *info, const SwColumn *column)
{
  const SwRecordContext context = { 0 };

  for (int i = 0; column->words[i] != NULL; i++)
    {
      g_autofree char *what
          = g_strconcat (info->name, ".", column->name, "=", column->words[i], NULL);
      g_autofree char *said
          = sw_say_value (english, &context, info->name, column->name, column->words[i]);
      g_autofree char *translated
          = sw_say_value (pseudo, &context, info->name, column->name, column->words[i]);

      assert_said (said, translated, what);
    }
}

static void
test_columns (gconstpointer data)
{
  const SwTableInfo *info = sw_table_info ((SwTable)GPOINTER_TO_INT (data));

  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      const SwColumn *column = sw_table_column (info, i);
      g_autofree char *what = g_strconcat (info->name, ".", column->name, NULL);

      assert_said (sw_say_column (english, info->name, column->name),
                   sw_say_column (pseudo, info->name, column->name), what);
      g_assert_cmpuint (sw_column_order (info->name, column->name), <, sw_table_n_columns (info));
      if (column->type == SW_COLUMN_WORD)
        assert_words (info, column);
    }
}

/* A secret must never be told, an id must be told by a name. */
static void
test_kinds (gconstpointer data)
{
  const SwTableInfo *info = sw_table_info ((SwTable)GPOINTER_TO_INT (data));
  const SwRecordContext context = { 0 };

  for (guint i = 0; i < info->n_columns; i++)
    {
      const SwColumn *column = &info->columns[i];
      g_autofree char *said = sw_say_value (english, &context, info->name, column->name, "17");

      if (column->type == SW_COLUMN_SECRET)
        g_assert_cmpstr (said, ==, "not shown");
      else if (column->type == SW_COLUMN_BOOLEAN)
        g_assert_cmpstr (said, ==, "yes");
      else if (column->type == SW_COLUMN_TIME)
        g_assert_nonnull (strstr (said, "1 January 1970"));
      else if (column->type == SW_COLUMN_ID && !g_str_has_suffix (column->name, "seq"))
        g_assert_cmpstr (said, ==, "number 17");
    }
}

/* A REAL column with a unit is told in that unit, whatever the file holds it in. */
static void
test_units (gconstpointer data)
{
  const SwTableInfo *info = sw_table_info ((SwTable)GPOINTER_TO_INT (data));
  const SwRecordContext context = { 0 };

  for (guint i = 0; i < info->n_columns; i++)
    {
      const SwColumn *column = &info->columns[i];
      char digits[G_ASCII_DTOSTR_BUF_SIZE];
      g_autofree char *said = NULL;
      g_autofree char *expected = NULL;

      if (column->type != SW_COLUMN_REAL || column->unit == SW_UNIT_NONE)
        continue;
      g_ascii_dtostr (digits, sizeof digits, sw_unit_to_si (7.25, column->unit));
      said = sw_say_value (english, &context, info->name, column->name, digits);
      expected = sw_amount_format (english, 7.25, column->unit, 6);
      g_assert_cmpstr (said, ==, expected);
    }
}

static void
test_table (gconstpointer data)
{
  const char *name = sw_table_name ((SwTable)GPOINTER_TO_INT (data));
  g_autofree char *one = sw_say_table_count (english, name, 1);
  g_autofree char *many = sw_say_table_count (english, name, 2);
  g_autofree char *translated = sw_say_table_count (pseudo, name, 2);
  g_autofree char *record = sw_say_record (english, name, "TITLE", "OF");
  g_autofree char *record_translated = sw_say_record (pseudo, name, "TITLE", "OF");

  assert_said (sw_say_table (english, name), sw_say_table (pseudo, name), name);
  assert_said (sw_say_tables (english, name), sw_say_tables (pseudo, name), name);
  g_assert_true (g_str_has_prefix (one, "1 "));
  g_assert_true (g_str_has_prefix (many, "2 "));
  assert_said (many, translated, name);
  assert_said (record, record_translated, name);
  g_assert_true (strstr (record, "TITLE") != NULL || strstr (record, "OF") != NULL);
}

/* ---- stories ---- */

typedef struct
{
  SwTestPlant *plant;
  gint64 sample;
  gint64 titration;
} Bench;

static void
begin (Bench *bench, SwActKind kind, gint64 person, SwIdentified identified, const char *reason)
{
  const SwActor actor
      = { .person = person, .identified = identified, .workstation = "bench-2", .reason = reason };
  GError *error = NULL;

  sw_act_begin (bench->plant->store, kind, &actor, &error);
  g_assert_no_error (error);
}

static void
commit (Bench *bench)
{
  GError *error = NULL;

  sw_act_commit (bench->plant->store, &error);
  g_assert_no_error (error);
}

static void
insert_test (Bench *bench)
{
  SwTestPlant *plant = bench->plant;
  g_autoptr (SwSample) sample = sw_sample_new ();
  g_autoptr (SwTitration) titration = sw_titration_new ();

  begin (bench, SW_ACT_TEST, plant->technician, SW_IDENTIFIED_SELECTED, NULL);
  sample->record.happened_ms = plant->now_ms - 2 * SW_TEST_HOUR_MS;
  sample->code = g_strdup ("M-07-261124-1");
  sample->machine = plant->first.machine;
  sample->drawn_by = plant->technician;
  sample->volume.value = 150.0;
  sample->volume.typed = g_strdup ("150 mL");
  sample->appearance = g_strdup ("clear");
  g_assert_true (sw_sample_insert (plant->store, sample, NULL));
  titration->sample = sample->record.id;
  titration->method_version = plant->version;
  titration->portion = 1;
  titration->analyst = plant->technician;
  g_assert_true (sw_titration_insert (plant->store, titration, NULL));
  commit (bench);
  bench->sample = sample->record.id;
  bench->titration = titration->record.id;
}

static void
amend_sample (Bench *bench)
{
  SwTestPlant *plant = bench->plant;
  g_autoptr (SwSample) sample = sw_sample_load (plant->store, bench->sample, NULL);

  sw_test_plant_advance (plant, 20.0);
  begin (bench, SW_ACT_AMEND, plant->reviewer, SW_IDENTIFIED_SECRET, "read the label again");
  g_free (sample->appearance);
  sample->appearance = g_strdup ("cloudy");
  sample->volume.value = 160.0;
  g_free (sample->volume.typed);
  sample->volume.typed = g_strdup ("160 mL");
  g_assert_true (sw_sample_update (plant->store, sample, NULL));
  commit (bench);
}

static void
void_sample (Bench *bench)
{
  sw_test_plant_advance (bench->plant, 10.0);
  begin (bench, SW_ACT_VOID, 0, SW_IDENTIFIED_SYSTEM, "made twice");
  g_assert_true (sw_record_void (bench->plant->store, SW_TABLE_SAMPLE, bench->sample, NULL));
  commit (bench);
}

static void
set_up (Bench *bench, gconstpointer data)
{
  bench->plant = sw_test_plant_new ();
  insert_test (bench);
  amend_sample (bench);
  void_sample (bench);
}

static void
tear_down (Bench *bench, gconstpointer data)
{
  sw_test_plant_free (bench->plant);
}

/* All lines of an entry, each with a line feed. (transfer full) */
static char *
join_lines (const GPtrArray *lines)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < lines->len; i++)
    {
      g_autofree char *line = sw_story_line_say (english, lines->pdata[i]);

      g_string_append_printf (text, "%s\n", line);
    }
  return g_string_free (text, FALSE);
}

static void
assert_entry (const SwStoryEntry *entry, const char *sentence, const char *lines)
{
  g_autofree char *found = join_lines (entry->lines);

  g_assert_cmpstr (entry->record, ==, "Sample M-07-261124-1");
  g_assert_cmpstr (entry->sentence, ==, sentence);
  g_assert_cmpstr (found, ==, lines);
  g_assert_cmpuint (strlen (entry->hash), ==, 64);
}

static char *
dup_person (Bench *bench, gint64 person)
{
  return sw_story_name (bench->plant->store, english, SW_TABLE_PERSON, person, NULL);
}

static void
test_sample (Bench *bench, gconstpointer data)
{
  g_autoptr (GPtrArray) story
      = sw_story_tell (bench->plant->store, english, SW_TABLE_SAMPLE, bench->sample, NULL);
  g_autofree char *technician = dup_person (bench, bench->plant->technician);
  g_autofree char *reviewer = dup_person (bench, bench->plant->reviewer);
  g_autofree char *added = g_strdup_printf (
      "Added on 24 November 2026 06:00 by %s, by name only, at bench-2. Written 2 h after it "
      "happened.",
      technician);
  g_autofree char *amended
      = g_strdup_printf ("Amended on 24 November 2026 06:20 by %s, signed in with a secret, at "
                         "bench-2: read the label again.",
                         reviewer);
  g_autofree char *first = g_strdup_printf (
      "Code: M-07-261124-1\nMachine: M-07\nDrawn by: %s\nPurpose: routine\n"
      "Machine running: not asked\nLevel right: not asked\nAdded since the last record: not asked\n"
      "Volume drawn: 150" U202F "mL\nAppearance: clear\nPart kept: no\n"
      "When it happened: 24 November 2026 04:00\n",
      technician);

  g_assert_cmpuint (story->len, ==, 3);
  assert_entry (story->pdata[0], added, first);
  assert_entry (story->pdata[1], amended,
                "Volume drawn: 160" U202F "mL (before: 150" U202F "mL)\n"
                "Appearance: cloudy (before: clear)\n");
  assert_entry (story->pdata[2],
                "Voided on 24 November 2026 06:30 by the program, at bench-2: made twice.", "");
  g_assert_false (((SwStoryEntry *)story->pdata[1])->voids);
  g_assert_true (((SwStoryEntry *)story->pdata[2])->voids);
}

static void
test_as_it_stands (Bench *bench, gconstpointer data)
{
  g_autoptr (GPtrArray) lines
      = sw_story_columns (bench->plant->store, english, SW_TABLE_SAMPLE, bench->sample, NULL);
  g_autofree char *text = join_lines (lines);

  g_assert_nonnull (strstr (text, "Appearance: cloudy\n"));
  g_assert_nonnull (strstr (text, "Volume drawn: 160" U202F "mL\n"));
  g_assert_null (strstr (text, "150"));
  g_assert_null (strstr (text, "before"));
  g_assert_nonnull (strstr (text, "When it happened: 24 November 2026 04:00\n"
                                  "When it was written: 24 November 2026 06:00\n"
                                  "Written late: yes\nVoided: yes\n"));
}

/* Nothing remarkable about it: one time says it all. */
static void
test_as_it_stands_plain (Bench *bench, gconstpointer data)
{
  g_autoptr (GPtrArray) lines
      = sw_story_columns (bench->plant->store, english, SW_TABLE_TITRATION, bench->titration, NULL);
  g_autofree char *text = join_lines (lines);

  g_assert_nonnull (strstr (text, "When it happened: 24 November 2026 06:00\n"));
  g_assert_null (strstr (text, "When it was written"));
  g_assert_null (strstr (text, "Written late"));
  g_assert_null (strstr (text, "Voided"));
}

/* A sample that was begun and then drawn earlier is late by the entry that says so. */
static void
test_late_by_update (Bench *bench, gconstpointer data)
{
  SwTestPlant *plant = bench->plant;
  g_autoptr (SwTitration) titration = sw_titration_load (plant->store, bench->titration, NULL);
  g_autoptr (GPtrArray) story = NULL;
  const SwStoryEntry *last;

  begin (bench, SW_ACT_TEST, plant->technician, SW_IDENTIFIED_SECRET, NULL);
  titration->record.happened_ms = plant->now_ms - 3 * SW_TEST_HOUR_MS;
  g_assert_true (sw_titration_update (plant->store, titration, NULL));
  commit (bench);
  story = sw_story_tell (plant->store, english, SW_TABLE_TITRATION, bench->titration, NULL);
  last = story->pdata[story->len - 1];
  g_assert_nonnull (strstr (last->sentence, " Written 3 h after it happened."));
}

static void
test_act (Bench *bench, gconstpointer data)
{
  g_autoptr (GPtrArray) chapters
      = sw_story_read (bench->plant->store, SW_TABLE_SAMPLE, bench->sample, NULL);
  const SwChapter *chapter = chapters->pdata[0];
  g_autoptr (GPtrArray) act = sw_story_tell_act (bench->plant->store, english, chapter->act, NULL);
  g_autoptr (SwStoryEntry) alone = sw_story_tell_chapter (bench->plant->store, english, chapter);
  const SwStoryEntry *sample = act->pdata[0];
  const SwStoryEntry *titration = act->pdata[1];

  g_assert_cmpuint (act->len, ==, 2);
  g_assert_cmpint (sample->seq, ==, chapter->seq);
  g_assert_cmpint (titration->table, ==, SW_TABLE_TITRATION);
  g_assert_cmpint (titration->row, ==, bench->titration);
  g_assert_cmpstr (titration->record, ==, "Test M-07-261124-1");
  g_assert_cmpstr (alone->sentence, ==, sample->sentence);
  g_assert_cmpuint (alone->lines->len, ==, sample->lines->len);
}

/* (transfer full) */
static char *
tell_sign_in (Bench *bench, gboolean accepted)
{
  SwTestPlant *plant = bench->plant;
  g_autoptr (SwSignIn) sign_in = sw_sign_in_new ();
  g_autoptr (GPtrArray) story = NULL;

  begin (bench, SW_ACT_SIGN_IN, accepted ? plant->reviewer : 0,
         accepted ? SW_IDENTIFIED_SECRET : SW_IDENTIFIED_SYSTEM, NULL);
  sign_in->person = plant->reviewer;
  sign_in->accepted = accepted;
  g_assert_true (sw_sign_in_insert (plant->store, sign_in, NULL));
  commit (bench);
  story = sw_story_tell (plant->store, english, SW_TABLE_SIGN_IN, sign_in->record.id, NULL);
  return g_strdup (((SwStoryEntry *)story->pdata[0])->sentence);
}

static void
test_sign_in (Bench *bench, gconstpointer data)
{
  g_autofree char *reviewer = dup_person (bench, bench->plant->reviewer);
  g_autofree char *right = tell_sign_in (bench, TRUE);
  g_autofree char *wrong = tell_sign_in (bench, FALSE);
  g_autofree char *expected
      = g_strdup_printf ("Sign-in of %s on 24 November 2026 06:30, at bench-2.", reviewer);

  g_assert_cmpstr (right, ==, expected);
  g_assert_cmpstr (wrong, ==,
                   "A wrong secret was refused on 24 November 2026 06:30 by the program, at "
                   "bench-2.");
}

/* The file's first entry is about no record. */
static void
test_migration (Bench *bench, gconstpointer data)
{
  g_autoptr (GPtrArray) act = sw_story_tell_act (bench->plant->store, english, 1, NULL);
  const SwStoryEntry *first = act->pdata[0];

  g_assert_cmpint (first->table, ==, SW_N_TABLES);
  g_assert_null (first->record);
  g_assert_true (g_str_has_prefix (first->sentence, "The file was made on "));
}

static void
test_nothing (Bench *bench, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) story
      = sw_story_tell (bench->plant->store, english, SW_TABLE_DOSE, 99, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (story->len, ==, 0);
  g_assert_null (sw_story_name (bench->plant->store, english, SW_TABLE_DOSE, 99, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NO_SUCH_ROW);
}

/* ---- main ---- */

static void
add_lint (const char *name, GTestDataFunc func)
{
  for (int table = 0; table < SW_N_TABLES; table++)
    {
      g_autofree char *path
          = g_strdup_printf ("/reports/story/%s/%s", name, sw_table_name ((SwTable)table));

      g_test_add_data_func (path, GINT_TO_POINTER (table), func);
    }
}

static void
add (const char *name, void (*func) (Bench *, gconstpointer))
{
  g_autofree char *path = g_strconcat ("/reports/story/", name, NULL);

  g_test_add (path, Bench, NULL, set_up, func, tear_down);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  english = sw_wording_new ("en", "Europe/Berlin");
  pseudo = sw_wording_new ("xx", "Europe/Berlin");
  add_lint ("columns", test_columns);
  add_lint ("kinds", test_kinds);
  add_lint ("units", test_units);
  add_lint ("table", test_table);
  add ("sample", test_sample);
  add ("as-it-stands", test_as_it_stands);
  add ("as-it-stands-plain", test_as_it_stands_plain);
  add ("late-by-update", test_late_by_update);
  add ("act", test_act);
  add ("sign-in", test_sign_in);
  add ("migration", test_migration);
  add ("nothing", test_nothing);
  status = g_test_run ();
  sw_wording_unref (english);
  sw_wording_unref (pseudo);
  return status;
}
