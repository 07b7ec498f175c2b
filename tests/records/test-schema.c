/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schema files and the descriptors say the same: columns, types and words of every table. And
 * the words of the file are those that calc gives the same values. */
#include "fixture.h"
#include "records/store-private.h"

#include <string.h>

static const SwTableInfo *
info_of (gconstpointer data)
{
  return sw_table_info ((SwTable)GPOINTER_TO_INT (data));
}

static const char *
type_of (const SwColumn *column)
{
  switch (column->type)
    {
    case SW_COLUMN_TEXT:
    case SW_COLUMN_SECRET:
    case SW_COLUMN_WORD:
      return "TEXT";
    case SW_COLUMN_REAL:
      return "REAL";
    case SW_COLUMN_ID:
    case SW_COLUMN_TIME:
    case SW_COLUMN_INTEGER:
    case SW_COLUMN_BOOLEAN:
    default:
      return "INTEGER";
    }
}

/* The CHECK of a word column lists exactly the descriptor's words, in their order. */
static void
assert_words_in_schema (const SwColumn *column, const char *sql)
{
  g_autoptr (GString) check = g_string_new (NULL);
  g_autoptr (GRegex) spaces = g_regex_new ("\\s+", 0, 0, NULL);
  g_autofree char *plain = g_regex_replace_literal (spaces, sql, -1, 0, " ", 0, NULL);

  g_string_append_printf (check, "CHECK (%s IN (", column->name);
  for (int i = 0; column->words[i] != NULL; i++)
    g_string_append_printf (check, "%s'%s'", i > 0 ? ", " : "", column->words[i]);
  g_string_append (check, "))");
  if (strstr (plain, check->str) == NULL)
    g_error ("%s is not in %s", check->str, plain);
}

static void
test_schema (Fixture *fixture, gconstpointer data)
{
  const SwTableInfo *info = info_of (data);
  const SwCell name = sw_cell_text (info->name);
  g_autofree char *sql = NULL;
  gint64 count = 0;

  sw_sql_integer (fixture->store, "SELECT count(*) FROM pragma_table_info(?)", &name, 1, &count,
                  NULL);
  g_assert_cmpint (count, ==, sw_table_n_columns (info) + 2);
  sw_sql_text (fixture->store, "SELECT sql FROM sqlite_schema WHERE name = ?", &name, 1, &sql,
               NULL);
  g_assert_nonnull (sql);
  g_assert_true (g_str_has_suffix (sql, "STRICT"));
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    {
      const SwColumn *column = sw_table_column (info, i);
      const SwCell keys[] = { name, sw_cell_text (column->name) };
      g_autofree char *type = NULL;

      sw_sql_text (fixture->store, "SELECT type FROM pragma_table_info(?) WHERE name = ?", keys,
                   G_N_ELEMENTS (keys), &type, NULL);
      g_assert_cmpstr (type, ==, type_of (column));
      if (column->type == SW_COLUMN_WORD)
        assert_words_in_schema (column, sql);
    }
}

/* ---- calc's words ---- */

typedef const char *(*Namer) (int value);

static const char *
name_outcome (int value)
{
  return sw_outcome_name ((SwOutcomeKind)value);
}

static const char *
name_field (int value)
{
  return sw_field_name ((SwField)value);
}

static const char *
name_reason (int value)
{
  return sw_schedule_reason_name ((SwScheduleReason)value);
}

static const struct
{
  SwTable table;
  const char *column;
  Namer namer;
} word_cases[] = {
  { SW_TABLE_TITRATION, "outcome", name_outcome },
  { SW_TABLE_READING, "meaning", name_field },
  { SW_TABLE_COLOUR_FIELD, "meaning", name_field },
  { SW_TABLE_DECISION, "reason", name_reason },
};

static void
test_words (gconstpointer data)
{
  gsize i = GPOINTER_TO_SIZE (data);
  const SwColumn *column
      = sw_table_find_column (sw_table_info (word_cases[i].table), word_cases[i].column);

  for (int value = 0; column->words[value] != NULL; value++)
    g_assert_cmpstr (column->words[value], ==, word_cases[i].namer (value));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (int i = 0; i < SW_N_TABLES; i++)
    {
      g_autofree char *path = g_strconcat ("/records/schema/", sw_table_name ((SwTable)i), NULL);

      g_test_add (path, Fixture, GINT_TO_POINTER (i), fixture_set_up, test_schema,
                  fixture_tear_down);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (word_cases); i++)
    {
      g_autofree char *path = g_strdup_printf (
          "/records/schema/words/%s/%s", sw_table_name (word_cases[i].table), word_cases[i].column);

      g_test_add_data_func (path, GSIZE_TO_POINTER (i), test_words);
    }
  return g_test_run ();
}
