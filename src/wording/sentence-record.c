/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names and values of records: from the file's SI, words and ids to what a reader calls them. */
#include "wording/sentence-record-private.h"
#include "wording/sentence-private.h"

#include <glib/gi18n.h>

#include <math.h>
#include <string.h>

#define NOTHING "\342\200\224" /* U+2014, as number.c has it */
#define DIGITS 6               /* more than any figure here deserves, and no noise of conversion */
/* Of an uncertainty, where two mean anything (GUM 7.2.6, from memory). */
#define UNCERTAIN_DIGITS 3
#define ALL_DIGITS 17

/* Of every table. */
static const SwToldColumn common[] = {
  { NAMED ("happened_ms", NC_ ("column", "When it happened")), SW_TOLD_TIME },
  { NAMED ("recorded_ms", NC_ ("column", "When it was written")), SW_TOLD_TIME },
  { NAMED ("offset_min", NC_ ("column", "Offset of the time zone")), SW_TOLD_PLAIN, NULL,
    SW_UNIT_MINUTE },
  { NAMED ("late", NC_ ("column", "Written late")), SW_TOLD_YES_NO },
  { NAMED ("voided", NC_ ("column", "Voided")), SW_TOLD_YES_NO },
};
#define TOLD_IN_ENTRY 1 /* the first of them; an entry's sentence says the others */

/* ---- tables and columns ---- */

static const SwToldTable *
find_table (const SwToldTable *tables, guint n, const char *name)
{
  for (guint i = 0; i < n; i++)
    if (strcmp (tables[i].name, name) == 0)
      return &tables[i];
  return NULL;
}

const SwToldTable *
sw_told_table (const char *table)
{
  const SwToldTable *found = find_table (sw_told_plant_tables, sw_n_told_plant_tables, table);

  return found != NULL ? found : find_table (sw_told_test_tables, sw_n_told_test_tables, table);
}

static const SwToldColumn *
find_column (const SwToldColumn *columns, guint n, const char *name)
{
  for (guint i = 0; i < n; i++)
    if (strcmp (columns[i].name, name) == 0)
      return &columns[i];
  return NULL;
}

const SwToldColumn *
sw_told_column (const char *table, const char *column)
{
  const SwToldTable *told = sw_told_table (table);
  const SwToldColumn *found = NULL;

  if (told == NULL)
    return NULL;
  found = find_column (told->columns, told->n_columns, column);
  return found != NULL ? found : find_column (common, G_N_ELEMENTS (common), column);
}

const char *
sw_say_table (const SwWording *wording, const char *table)
{
  const SwToldTable *told = sw_told_table (table);

  return told != NULL ? sw_trc (wording, "table", told->label) : NULL;
}

const char *
sw_say_tables (const SwWording *wording, const char *table)
{
  const SwToldTable *told = sw_told_table (table);

  return told != NULL ? sw_trc (wording, "table", told->labels) : NULL;
}

char *
sw_say_table_count (const SwWording *wording, const char *table, gulong n)
{
  const SwToldTable *told = sw_told_table (table);
  g_autofree char *number = sw_number_format (wording, (double)n, ALL_DIGITS);

  g_return_val_if_fail (told != NULL, NULL);
  return sw_say_filled (sw_trn (wording, told->count[0], told->count[1], n), number);
}

const char *
sw_say_column (const SwWording *wording, const char *table, const char *column)
{
  const SwToldColumn *told = sw_told_column (table, column);

  return told != NULL ? sw_trc (wording, "column", told->label) : NULL;
}

gboolean
sw_column_is_told (const char *table, const char *column)
{
  const SwToldColumn *told
      = find_column (common + TOLD_IN_ENTRY, G_N_ELEMENTS (common) - TOLD_IN_ENTRY, column);

  return told == NULL || sw_told_table (table) == NULL;
}

const char *
sw_column_amount (const char *table, const char *column)
{
  const SwToldColumn *told = sw_told_column (table, column);

  return told != NULL && told->kind == SW_TOLD_TYPED ? told->of : NULL;
}

/* The table's own columns first, then those that every table has. */
guint
sw_column_order (const char *table, const char *column)
{
  const SwToldTable *told = sw_told_table (table);
  const SwToldColumn *found = sw_told_column (table, column);

  if (found == NULL)
    return G_MAXUINT;
  if (found >= told->columns && found < told->columns + told->n_columns)
    return (guint)(found - told->columns);
  return told->n_columns + (guint)(found - common);
}

const char *
sw_say_row_word (const SwWording *wording, const char *table, const char *word)
{
  const SwToldTable *told = sw_told_table (table);

  if (told == NULL || told->word == NULL || word == NULL)
    return NULL;
  return sw_say_word (wording, told->word, word);
}

char *
sw_say_record (const SwWording *wording, const char *table, const char *title, const char *of)
{
  const SwToldTable *told = sw_told_table (table);

  g_return_val_if_fail (told != NULL, NULL);
  return sw_say_filled (sw_trc (wording, "record", told->record), title != NULL ? title : NOTHING,
                        of != NULL ? of : NOTHING);
}

/* ---- values ---- */

/* The journal writes a line feed as \n and a backslash as \\. (transfer full) */
static char *
unescape (const char *stored)
{
  GString *text = g_string_new (NULL);

  for (const char *c = stored; *c != '\0'; c++)
    if (*c == '\\' && c[1] != '\0')
      g_string_append_c (text, *++c == 'n' ? '\n' : *c);
    else
      g_string_append_c (text, *c);
  return g_string_free (text, FALSE);
}

static char *
say_row (const SwWording *wording, const SwRecordContext *context, const char *table, gint64 id)
{
  g_autofree char *number = NULL;
  char *name
      = table != NULL && context->name != NULL ? context->name (context->data, table, id) : NULL;

  if (name != NULL)
    return name;
  number = g_strdup_printf ("%" G_GINT64_FORMAT, id);
  /* Translators: a record that has no name; its number in the file. */
  return g_strdup_printf (sw_tr (wording, "number %s"), number);
}

/* A side that has no bound is stored as an infinity. */
static char *
say_steps (const SwWording *wording, const SwRecordContext *context, double steps)
{
  if (isinf (steps))
    return g_strdup (sw_tr (wording, "no bound"));
  return sw_step_count_format (wording, steps, context->burette);
}

static char *
say_days (const SwWording *wording, double days, int digits)
{
  g_autofree char *number = sw_number_format (wording, days, digits);
  const gulong n = days == floor (days) && days >= 0.0 && days < 1e6 ? (gulong)days : 2;

  return g_strdup_printf (sw_trn (wording, "%s day", "%s days", n), number);
}

static int
choose_digits (const SwToldColumn *told, int digits)
{
  const gboolean uncertain = strstr (told->name, "_u_") != NULL;

  return digits == DIGITS && uncertain ? UNCERTAIN_DIGITS : digits;
}

static char *
say_real (const SwWording *wording,
          const SwRecordContext *context,
          const SwToldColumn *told,
          double value,
          int digits)
{
  switch (told->kind)
    {
    case SW_TOLD_STEPS:
      return digits == DIGITS ? say_steps (wording, context, value)
                              : sw_number_format (wording, value, digits);
    case SW_TOLD_SI:
      return sw_amount_format (wording, sw_unit_from_si (value, told->unit), told->unit,
                               choose_digits (told, digits));
    case SW_TOLD_PLAIN:
      return told->unit == SW_UNIT_DAY ? say_days (wording, value, digits)
                                       : sw_amount_format (wording, value, told->unit, digits);
    default:
      return sw_number_format (wording, value, digits);
    }
}

static char *
say_word (const SwWording *wording, const SwToldColumn *told, const char *stored)
{
  const char *said = sw_say_word (wording, told->of, stored);

  return said != NULL ? g_strdup (said) : unescape (stored);
}

static char *
say_stored (const SwWording *wording,
            const SwRecordContext *context,
            const SwToldColumn *told,
            const char *stored,
            int digits)
{
  const gint64 integer = g_ascii_strtoll (stored, NULL, 10);

  switch (told->kind)
    {
    case SW_TOLD_WORD:
      return say_word (wording, told, stored);
    case SW_TOLD_REFERENCE:
      return say_row (wording, context, told->of, integer);
    case SW_TOLD_SUBJECT:
      return say_row (wording, context, context->subject_table, integer);
    case SW_TOLD_SECRET:
      return g_strdup (sw_tr (wording, "not shown"));
    case SW_TOLD_YES_NO:
      return g_strdup (sw_trc (wording, "answer", integer != 0 ? "yes" : "no"));
    case SW_TOLD_TIME:
      return sw_date_time_format (wording, integer);
    case SW_TOLD_DAY:
      return sw_date_format (wording, integer);
    case SW_TOLD_NUMBER:
    case SW_TOLD_SI:
    case SW_TOLD_PLAIN:
    case SW_TOLD_STEPS:
      return say_real (wording, context, told, g_ascii_strtod (stored, NULL), digits);
    case SW_TOLD_TEXT:
    case SW_TOLD_TYPED:
    default:
      return unescape (stored);
    }
}

static char *
say_value (const SwWording *wording,
           const SwRecordContext *context,
           const char *table,
           const char *column,
           const char *stored,
           int digits)
{
  const SwToldColumn *told = sw_told_column (table, column);

  return told != NULL ? say_stored (wording, context, told, stored, digits) : unescape (stored);
}

char *
sw_say_value (const SwWording *wording,
              const SwRecordContext *context,
              const char *table,
              const char *column,
              const char *stored)
{
  g_return_val_if_fail (wording != NULL && context != NULL, NULL);
  if (stored == NULL)
    return g_strdup (NOTHING);
  return say_value (wording, context, table, column, stored, DIGITS);
}

/* A change that a rounded figure hides would look like no change at all. */
void
sw_say_values (const SwWording *wording,
               const SwRecordContext *context,
               const char *table,
               const char *column,
               const char *const stored[2],
               char *values[2])
{
  const SwToldColumn *told = sw_told_column (table, column);

  for (int i = 0; i < 2; i++)
    values[i]
        = stored[i] != NULL ? sw_say_value (wording, context, table, column, stored[i]) : NULL;
  if (told == NULL || told->kind == SW_TOLD_SECRET || values[0] == NULL || values[1] == NULL
      || strcmp (values[0], values[1]) != 0)
    return;
  for (int i = 0; i < 2; i++)
    {
      g_free (values[i]);
      values[i] = say_value (wording, context, table, column, stored[i], ALL_DIGITS);
    }
}

char *
sw_say_change (const SwWording *wording, const char *column, const char *before, const char *after)
{
  if (before == NULL)
    /* Translators: 1 name of an entry of a record, 2 its value. */
    return g_strdup_printf (sw_tr (wording, "%1$s: %2$s"), column, after != NULL ? after : NOTHING);
  if (after == NULL)
    /* Translators: 1 name of an entry of a record that was emptied, 2 the value it had. */
    return g_strdup_printf (sw_tr (wording, "%1$s: empty (before: %2$s)"), column, before);
  /* Translators: 1 name of an entry of a record, 2 its value, 3 the value it had before. */
  return g_strdup_printf (sw_tr (wording, "%1$s: %2$s (before: %3$s)"), column, after, before);
}
