/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See verify-words.h. A record that is gone, or that cannot be read, goes by table and number. */
#include "app/verify/verify-words.h"

#include "reports/story-words.h"
#include "wording/sentence-verify.h"

/* wording knows no records: both count the same way */
G_STATIC_ASSERT ((int)SW_TOLD_INTEGRITY == (int)SW_FINDING_INTEGRITY);
G_STATIC_ASSERT ((int)SW_TOLD_ROW_MISSING == (int)SW_FINDING_ROW_MISSING);
G_STATIC_ASSERT ((int)SW_TOLD_CHECKPOINT == (int)SW_FINDING_CHECKPOINT);
G_STATIC_ASSERT ((int)SW_TOLD_VERSION == (int)SW_FINDING_VERSION);
G_STATIC_ASSERT ((int)SW_N_TOLD == (int)SW_N_FINDINGS);

typedef struct
{
  SwVerifyFact fact;
  /* Owned */
  char *record;
  char *person;
  char *expected;
  char *found;
} Words;

static void
clear_words (Words *words)
{
  g_free (words->record);
  g_free (words->person);
  g_free (words->expected);
  g_free (words->found);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Words, clear_words)

static char *
name_record (SwContext *context, const SwFinding *finding)
{
  SwTable table;
  char *name = NULL;

  if (finding->table == NULL || finding->row == 0)
    return NULL;
  if (sw_table_from_name (finding->table, &table))
    name = sw_story_record (sw_context_get_store (context), sw_context_get_wording (context), table,
                            finding->row, NULL);
  return name != NULL ? name
                      : g_strdup_printf ("%s %" G_GINT64_FORMAT, finding->table, finding->row);
}

static char *
name_person (SwContext *context, gint64 person)
{
  g_autoptr (SwPerson) row
      = person != 0 ? sw_person_load (sw_context_get_store (context), person, NULL) : NULL;

  return row != NULL ? g_strdup (row->name) : NULL;
}

/* What a record holds is told as its story tells it; all else as it is. */
static void
tell_values (SwContext *context, const SwFinding *finding, Words *words)
{
  const SwWording *wording = sw_context_get_wording (context);
  const char *label = finding->table != NULL && finding->column != NULL
                          ? sw_say_column (wording, finding->table, finding->column)
                          : NULL;
  const SwRecordContext none = { 0 };
  const char *const stored[2] = { finding->expected, finding->found };
  char *values[2] = { NULL, NULL };
  gboolean of_record = finding->kind == SW_FINDING_ROW_CHANGED || finding->kind == SW_FINDING_RESULT
                       || finding->kind == SW_FINDING_VERSION;

  if (label == NULL || !of_record)
    return;
  sw_say_values (wording, &none, finding->table, finding->column, stored, values);
  words->expected = values[0];
  words->found = values[1];
  words->fact.column = label;
  words->fact.expected = words->expected;
  words->fact.found = words->found;
}

static void
find_words (SwContext *context, const SwFinding *finding, Words *words)
{
  words->record = name_record (context, finding);
  words->person = name_person (context, finding->person);
  words->fact = (SwVerifyFact){ .kind = (SwTold)finding->kind,
                                .record = words->record,
                                .table = finding->table,
                                .column = finding->column,
                                .expected = finding->expected,
                                .found = finding->found,
                                .text = finding->text,
                                .seq = finding->seq,
                                .utc_ms = finding->utc_ms,
                                .person = words->person,
                                .kept_seq = finding->kept_seq,
                                .count = finding->count };
  tell_values (context, finding, words);
}

char *
sw_verify_say_finding (SwContext *context, const SwFinding *finding)
{
  g_auto (Words) words = { 0 };

  find_words (context, finding, &words);
  return sw_say_finding (sw_context_get_wording (context), &words.fact);
}

char *
sw_verify_say_note (SwContext *context, const SwFinding *note)
{
  g_auto (Words) words = { 0 };

  find_words (context, note, &words);
  return sw_say_note (sw_context_get_wording (context), &words.fact);
}

const char *
sw_verify_say_advice (SwContext *context, const SwFinding *finding)
{
  return sw_say_finding_advice (sw_context_get_wording (context), (SwTold)finding->kind);
}
