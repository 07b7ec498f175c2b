/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of the list of records. */
#include "app/records/record-words.h"

#include "app/plant-words.h"
#include "app/records/amend-choices.h"
#include "records/review-state.h"
#include "reports/story-words.h"
#include "wording/sentence-test.h"
#include "wording/sentence-todo.h"

/* ---- what it is ---- */

static char *
say_test (SwContext *context, const SwBrowseRow *row)
{
  SwStore *store = sw_context_get_store (context);
  g_autoptr (SwTitration) titration = sw_titration_load (store, row->id, NULL);
  g_autoptr (SwMethodVersion) method
      = titration != NULL ? sw_method_version_load (store, titration->method_version, NULL) : NULL;

  return sw_say_test_short (sw_context_get_wording (context), (SwOutcomeKind)row->outcome,
                            row->net_low, row->net_high, method != NULL && method->burette);
}

static char *
say_reading (SwContext *context, const SwBrowseRow *row)
{
  SwStore *store = sw_context_get_store (context);
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwReadingRow) reading = sw_reading_row_load (store, row->id, NULL);
  g_autoptr (SwColourField) field = reading != NULL && reading->colour_field != 0
                                        ? sw_colour_field_load (store, reading->colour_field, NULL)
                                        : NULL;
  g_autoptr (SwTitration) titration
      = reading != NULL ? sw_titration_load (store, reading->titration, NULL) : NULL;
  g_autoptr (SwMethodVersion) method
      = titration != NULL ? sw_method_version_load (store, titration->method_version, NULL) : NULL;

  if (reading == NULL)
    return g_strdup (row->title);
  g_autofree char *total
      = sw_step_count_format (wording, reading->total, method != NULL && method->burette);
  g_autofree char *words = sw_say_reading (wording, field != NULL ? field->label : NULL,
                                           reading->meaning, reading->struck, reading->not_added);
  return sw_say_total (wording, total, words);
}

static char *
say_dose (SwContext *context, const SwBrowseRow *row)
{
  g_autoptr (SwDoseRow) dose = sw_dose_row_load (sw_context_get_store (context), row->id, NULL);

  return dose == NULL
             ? NULL
             : sw_say_dose_short (sw_context_get_wording (context), dose->state, row->amount_ml);
}

/* What the row's own word says, where that tells more than a name. */
static char *
say_word (SwContext *context, const SwBrowseRow *row)
{
  const char *word
      = sw_say_row_word (sw_context_get_wording (context), sw_table_name (row->table), row->word);

  return g_strdup (word != NULL ? word : row->title);
}

char *
sw_record_words_what (SwContext *context, const SwBrowseRow *row)
{
  switch ((int)row->table)
    {
    case SW_TABLE_TITRATION:
      return say_test (context, row);
    case SW_TABLE_READING:
      return say_reading (context, row);
    case SW_TABLE_DOSE:
      return say_dose (context, row);
    case SW_TABLE_INCIDENT:
    case SW_TABLE_REVIEW:
    case SW_TABLE_DECISION:
    case SW_TABLE_SIGN_IN:
      return say_word (context, row);
    default:
      return g_strdup (row->title);
    }
}

/* Of a test and its parts the sample's code, which stands on the label; else what it belongs to. */
char *
sw_record_words_detail (SwContext *context, const SwBrowseRow *row)
{
  switch ((int)row->table)
    {
    case SW_TABLE_TITRATION:
    case SW_TABLE_DOSE:
    case SW_TABLE_INCIDENT:
    case SW_TABLE_REVIEW:
    case SW_TABLE_DECISION:
    case SW_TABLE_SIGN_IN:
      return g_strdup (row->title);
    default:
      return g_strdup (row->of);
    }
}

char *
sw_record_words_title (SwContext *context, const SwBrowseRow *row)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autofree char *name = sw_say_record (wording, sw_table_name (row->table), row->title, row->of);
  g_autofree char *what = sw_record_words_what (context, row);

  if (what == NULL || g_strcmp0 (what, row->title) == 0)
    return g_steal_pointer (&name);
  return sw_say_total (wording, name, what);
}

char *
sw_record_words_subtitle (SwContext *context, const SwBrowseRow *row)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autofree char *when = sw_date_time_format (wording, row->happened_ms);
  g_autofree char *machine
      = row->machine != 0 ? sw_plant_machine_name (context, row->machine) : NULL;
  g_autofree char *person = row->person != 0 ? sw_amend_say_person (context, row->person) : NULL;
  const char *const words[] = { when, machine, person };

  return sw_say_listed (wording, words, G_N_ELEMENTS (words));
}

/* ---- acts ---- */

char *
sw_record_words_act (SwContext *context, const SwChapter *first)
{
  return sw_say_act_because (sw_context_get_wording (context), first->kind, first->reason);
}

/* What it is about: its first record, and how many there are. */
char *
sw_record_words_act_detail (SwContext *context, GPtrArray *chapters)
{
  const SwWording *wording = sw_context_get_wording (context);
  const SwChapter *first = chapters->pdata[0];
  SwTable table;
  g_autofree char *name
      = sw_table_from_name (first->table, &table)
            ? sw_story_record (sw_context_get_store (context), wording, table, first->row, NULL)
            : NULL;
  g_autofree char *count = chapters->len > 1 ? sw_say_entry_count (wording, chapters->len) : NULL;
  const char *const words[] = { name, count };

  return sw_say_listed (wording, words, G_N_ELEMENTS (words));
}

char *
sw_record_words_initials (SwContext *context, gint64 person)
{
  return person != 0 ? sw_plant_person_initials (context, person) : NULL;
}

/* ---- what it bears ---- */

static guint
get_review_mark (SwContext *context, const SwBrowseRow *row)
{
  static const guint marks[SW_N_REVIEW_STATES] = {
    [SW_REVIEW_NONE] = SW_MARK_UNSIGNED,
    [SW_REVIEW_SIGNED] = SW_MARK_TO_REVIEW,
    [SW_REVIEW_REVIEWED] = SW_MARK_REVIEWED,
    [SW_REVIEW_LOST] = SW_MARK_REVIEW_LOST,
  };
  SwReviewState state;

  if (row->table != SW_TABLE_TITRATION || row->voided
      || !sw_review_state (sw_context_get_store (context), row->table, row->id, &state, NULL))
    return 0;
  return marks[state];
}

guint
sw_record_words_marks (SwContext *context, const SwBrowseRow *row)
{
  guint marks = get_review_mark (context, row);

  marks |= row->voided ? SW_MARK_VOIDED : 0;
  marks |= row->amended ? SW_MARK_AMENDED : 0;
  marks |= row->late ? SW_MARK_LATE : 0;
  return marks;
}

SwVerdictKind
sw_record_words_verdict (const SwBrowseRow *row)
{
  return row->table == SW_TABLE_TITRATION && row->outcome >= 0
             ? sw_verdict_of_outcome ((SwOutcomeKind)row->outcome)
             : SW_N_VERDICT_KINDS;
}
