/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Acts as a list: whole actions of people, from the journal.
 *
 * Invariant: the rows of an act follow each other in the journal, and the act's number is the seq
 * of its first row. Person, time and reason are the same in all of them.
 */
#include "records/browse-private.h"
#include "records/story-private.h"

/* An entry holds its reason, too. Its first line is a hash: a search for "bad" is not about digits.
 */
#define ENTRY_WITHOUT_HASH "substr(journal.entry, 65)"
#define PERSON " AND journal.person = "
/* What is the same in all rows of an act is asked of its first one alone. */
#define FIRST_ROWS "SELECT journal.act FROM journal WHERE journal.seq = journal.act"
#define ALL_ROWS "SELECT DISTINCT journal.act FROM journal WHERE 1 = 1"

/* " OR (rows of this table that the filter asks for)" */
static void
add_table (SwBrowseQuery *query, SwTable table, const SwBrowseFilter *filter, SwBrowseState state)
{
  const char *name = sw_table_name (table);

  g_string_append_printf (
      query->sql, " OR (journal.table_name = '%1$s' AND journal.row_id IN (SELECT %1$s.id", name);
  sw_browse_query_from (query, table);
  g_string_append (query->sql, " WHERE ");
  sw_browse_query_state (query, table, state);
  sw_browse_query_place (query, table, filter);
  g_string_append (query->sql, "))");
}

static gboolean
has_place (SwTable table, const SwBrowseFilter *filter)
{
  const SwBrowseTable *browse = sw_browse_table (table);

  return (filter->machine == 0 || browse->machine != NULL)
         && (filter->outcome < 0 || browse->outcome != NULL);
}

static void
add_tables (SwBrowseQuery *query, const SwBrowseFilter *filter, gboolean of_table)
{
  g_string_append (query->sql, " AND (1 = 0");
  for (int i = 0; i < SW_N_TABLES; i++)
    {
      const SwTable table = (SwTable)i;

      if (of_table && table == filter->table)
        add_table (query, table, filter, filter->state);
      else if (!of_table && has_place (table, filter))
        add_table (query, table, filter, SW_BROWSE_ALL);
    }
  g_string_append (query->sql, ")");
}

static void
add_person (SwBrowseQuery *query, const SwBrowseFilter *filter)
{
  if (filter->person == 0)
    return;
  g_string_append (query->sql, PERSON);
  sw_browse_query_bind (query, sw_cell_integer (filter->person));
}

static gboolean
has_words (const char *search)
{
  return search != NULL && *search != '\0';
}

GArray *
sw_browse_acts (SwStore *store, const SwBrowseFilter *filter, gboolean of_table, GError **error)
{
  static const char *const texts[] = { ENTRY_WITHOUT_HASH };
  g_auto (SwBrowseQuery) query = { 0 };
  gboolean places;

  g_return_val_if_fail (store != NULL && filter != NULL, NULL);
  places = of_table || filter->machine != 0 || filter->outcome >= 0;
  sw_browse_query_init (&query);
  g_string_append (query.sql, !places && !has_words (filter->search) ? FIRST_ROWS : ALL_ROWS);
  add_person (&query, filter);
  sw_browse_query_time (&query, "journal.utc_ms", filter);
  if (places)
    add_tables (&query, filter, of_table);
  sw_browse_query_search (&query, filter->search, texts, G_N_ELEMENTS (texts));
  g_string_append (query.sql, " ORDER BY journal.act DESC");
  return sw_sql_ids (store, query.sql->str, query.cells, query.n_cells, error);
}

/* The act ends where the next one begins; only its own rows are read. */
GPtrArray *
sw_browse_act (SwStore *store, gint64 act, GError **error)
{
  const SwCell key = sw_cell_integer (act);

  g_return_val_if_fail (store != NULL, NULL);
  return sw_story_select (store,
                          "WHERE act = ?1 AND seq >= ?1 AND seq < coalesce((SELECT next.seq"
                          " FROM journal AS next WHERE next.seq > ?1 AND next.act <> ?1"
                          " ORDER BY next.seq LIMIT 1), (SELECT max(seq) + 1 FROM journal))",
                          &key, 1, error);
}
