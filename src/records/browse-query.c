/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Builds the statements of lists from the tables' descriptions. Values are always parameters; what
 * is glued together here comes from browse-tables.c alone.
 */
#include "records/browse-private.h"

#include "records/function-private.h"
#include "records/test.h"

#include <string.h>

void
sw_browse_query_init (SwBrowseQuery *query)
{
  *query = (SwBrowseQuery){ .sql = g_string_new (NULL) };
}

void
sw_browse_query_clear (SwBrowseQuery *query)
{
  g_string_free (query->sql, TRUE);
  g_free (query->words);
}

/* Numbered, so that one value may stand in many places. */
static void
append_parameter (SwBrowseQuery *query, guint *number, SwCell cell)
{
  if (*number == 0)
    {
      g_assert (query->n_cells < G_N_ELEMENTS (query->cells));
      query->cells[query->n_cells++] = cell;
      *number = query->n_cells;
    }
  g_string_append_printf (query->sql, "?%u", *number);
}

void
sw_browse_query_bind (SwBrowseQuery *query, SwCell cell)
{
  guint number = 0;

  append_parameter (query, &number, cell);
}

/* A set-up record has nobody's name in it: it is the work of who wrote it. */
char *
sw_browse_person_sql (SwTable table)
{
  const char *name = sw_table_name (table);
  const char *person = sw_browse_table (table)->person;

  return g_strdup_printf (
      "coalesce(%s, (SELECT writer.person FROM journal AS writer WHERE writer.table_name = '%s'"
      " AND writer.row_id = %s.id ORDER BY writer.seq LIMIT 1))",
      person != NULL ? person : "NULL", name, name);
}

void
sw_browse_query_from (SwBrowseQuery *query, SwTable table)
{
  const SwBrowseTable *browse = sw_browse_table (table);
  g_autofree char *person = sw_browse_person_sql (table);

  g_string_append_printf (query->sql, " FROM %s", browse->from);
  if (browse->machine != NULL)
    g_string_append_printf (query->sql, " LEFT JOIN machine AS place ON place.id = %s",
                            browse->machine);
  g_string_append_printf (query->sql, " LEFT JOIN person AS who ON who.id = %s", person);
}

/* ---- what it belongs to ---- */

static void
add_machine (SwBrowseQuery *query, const char *machine, const SwBrowseFilter *filter)
{
  if (filter->machine == 0)
    return;
  g_string_append_printf (query->sql, " AND %s = ", machine != NULL ? machine : "0");
  append_parameter (query, &query->machine, sw_cell_integer (filter->machine));
}

static void
add_outcome (SwBrowseQuery *query, const char *outcome, const SwBrowseFilter *filter)
{
  const SwColumn *column = sw_table_find_column (sw_table_info (SW_TABLE_TITRATION), "outcome");

  if (filter->outcome < 0)
    return;
  g_string_append_printf (query->sql, " AND %s = ", outcome != NULL ? outcome : "''");
  append_parameter (query, &query->outcome,
                    sw_cell_text (sw_column_word (column, filter->outcome)));
}

void
sw_browse_query_place (SwBrowseQuery *query, SwTable table, const SwBrowseFilter *filter)
{
  const SwBrowseTable *browse = sw_browse_table (table);

  add_machine (query, browse->machine, filter);
  add_outcome (query, browse->outcome, filter);
}

void
sw_browse_query_person (SwBrowseQuery *query, SwTable table, const SwBrowseFilter *filter)
{
  const SwBrowseTable *browse = sw_browse_table (table);
  g_autofree char *person = sw_browse_person_sql (table);

  if (filter->person == 0)
    return;
  g_string_append (query->sql, " AND ");
  append_parameter (query, &query->person, sw_cell_integer (filter->person));
  g_string_append_printf (query->sql, " IN (%s%s%s)", person, browse->people != NULL ? ", " : "",
                          browse->people != NULL ? browse->people : "");
}

/* ---- time, words ---- */

void
sw_browse_query_time (SwBrowseQuery *query, const char *column, const SwBrowseFilter *filter)
{
  if (filter->from_ms != 0)
    {
      g_string_append_printf (query->sql, " AND %s >= ", column);
      sw_browse_query_bind (query, sw_cell_integer (filter->from_ms));
    }
  if (filter->to_ms != 0)
    {
      g_string_append_printf (query->sql, " AND %s < ", column);
      sw_browse_query_bind (query, sw_cell_integer (filter->to_ms));
    }
}

/* Any white space parts words; the text searched holds them one space apart. */
static char *
fold_words (const char *search)
{
  g_auto (GStrv) words = NULL;
  g_autoptr (GString) joined = g_string_new (NULL);
  g_autofree char *folded = search != NULL ? sw_text_fold (search) : g_strdup ("");

  words = g_regex_split_simple ("\\s+", folded, 0, 0);
  for (char **word = words; *word != NULL; word++)
    if (**word != '\0')
      g_string_append_printf (joined, "%s%s", joined->len > 0 ? " " : "", *word);
  return g_strdup (joined->str);
}

/* The texts stand on lines of their own: no word reaches from one into the next. */
void
sw_browse_query_search (SwBrowseQuery *query,
                        const char *search,
                        const char *const *texts,
                        guint n_texts)
{
  if (query->words == NULL)
    query->words = fold_words (search);
  if (*query->words == '\0')
    return;
  g_string_append (query->sql, " AND sw_has_words(''");
  for (guint i = 0; i < n_texts && texts[i] != NULL; i++)
    g_string_append_printf (query->sql, " || '\n' || coalesce(%s, '')", texts[i]);
  g_string_append (query->sql, ", ");
  append_parameter (query, &query->search, sw_cell_text (query->words));
  g_string_append (query->sql, ") = 1");
}
