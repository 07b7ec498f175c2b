/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists by state: late, amended, to review, review lost.
 *
 * Amendments are few and lists are long. A list therefore reads all that was amended, by the
 * journal's index of it, and only then looks at rows; a single row looks for its own entries alone.
 */
#include "records/browse-private.h"

#include "records/review-private.h"

/* May have taken a signature away: which did, SW_REVIEW_TAKEN_AWAY says. Word for word the
 * condition of the index journal_amended: the engine takes that index for nothing else. */
#define TOUCHED "journal.kind IN ('amend', 'void')"
#define AMENDED TOUCHED " AND journal.kind = 'amend' AND journal.action = 'update'"

/* Ids of a table's rows that the journal speaks of so. The table is no condition: the engine would
 * take the larger index of tables for it. NULLs among the ids match nothing. */
#define ROWS(table, how)                                                                           \
  "(SELECT CASE journal.table_name WHEN '" table                                                   \
  "' THEN journal.row_id END FROM journal WHERE " how ")"
/* Ids of the titrations whose sample, readings, doses or own row the journal speaks of so. */
#define TESTS(how)                                                                                 \
  "(SELECT CASE journal.table_name WHEN 'titration' THEN journal.row_id"                           \
  " WHEN 'sample' THEN portion.id"                                                                 \
  " WHEN 'reading' THEN (SELECT reading.titration FROM reading WHERE reading.id = journal.row_id)" \
  " WHEN 'dose' THEN (SELECT dose.titration FROM dose WHERE dose.id = journal.row_id) END"         \
  " FROM journal LEFT JOIN titration AS portion"                                                   \
  " ON journal.table_name = 'sample' AND portion.sample = journal.row_id WHERE " how ")"

/* One row's own entries. */
#define HAS_ENTRY(table, row, how)                                                                 \
  "EXISTS (SELECT 1 FROM journal WHERE journal.table_name = '" table "' AND journal.row_id = " row \
  " AND " how ")"
#define PART_HAS_ENTRY(table, how)                                                                 \
  "EXISTS (SELECT 1 FROM " table                                                                   \
  " AS part WHERE part.titration = titration.id AND " HAS_ENTRY (table, "part.id", how) ")"

#define TEST_HAS_ENTRY(how)                                                                        \
  "(" HAS_ENTRY ("titration", "titration.id", how) " OR " HAS_ENTRY (                              \
      "sample", "titration.sample",                                                                \
      how) " OR " PART_HAS_ENTRY ("reading", how) " OR " PART_HAS_ENTRY ("dose", how) ")"

/* Signatures in use on the row of the list. */
#define SIGNATURE(table)                                                                           \
  "SELECT 1 FROM review WHERE review.subject_table = '" table "' AND review.subject = " table      \
  ".id AND review.voided = 0"
#define BY_ANOTHER " AND review.meaning <> 'performed'"
#define LOST(table, touched)                                                                       \
  table ".voided = 0 AND " touched " AND EXISTS (" SIGNATURE (table) BY_ANOTHER                    \
      ") AND NOT EXISTS (" SIGNATURE (table) BY_ANOTHER " AND NOT " SW_REVIEW_TAKEN_AWAY ")"
#define TO_REVIEW                                                                                  \
  "titration.voided = 0 AND titration.id IN (SELECT review.subject FROM review"                    \
  " WHERE review.subject_table = 'titration' AND review.voided = 0 GROUP BY review.subject"        \
  " HAVING max(CASE WHEN review.meaning <> 'performed' THEN 1 ELSE 0 END) = 0)"

char *
sw_browse_amended_sql (SwTable table)
{
  const char *name = sw_table_name (table);

  if (table == SW_TABLE_TITRATION)
    return g_strdup (TEST_HAS_ENTRY (AMENDED));
  return g_strdup_printf (HAS_ENTRY ("%s", "%s.id", AMENDED), name, name);
}

static void
add_amended (GString *sql, SwTable table)
{
  const char *name = sw_table_name (table);

  if (table == SW_TABLE_TITRATION)
    g_string_append (sql, "titration.id IN " TESTS (AMENDED));
  else
    g_string_append_printf (sql, "%s.id IN " ROWS ("%s", AMENDED), name, name);
}

/* Only what can be signed is looked up. */
static void
add_review_lost (GString *sql, SwTable table)
{
  if (table == SW_TABLE_TITRATION)
    g_string_append (sql, LOST ("titration", "titration.id IN " TESTS (TOUCHED)));
  else if (table == SW_TABLE_DOSE)
    g_string_append (sql, LOST ("dose", "dose.id IN " ROWS ("dose", TOUCHED)));
  else if (table == SW_TABLE_INCIDENT)
    g_string_append (sql, LOST ("incident", "incident.id IN " ROWS ("incident", TOUCHED)));
  else
    g_string_append (sql, "1 = 0");
}

void
sw_browse_query_state (SwBrowseQuery *query, SwTable table, SwBrowseState state)
{
  const char *name = sw_table_name (table);

  switch (state)
    {
    case SW_BROWSE_CURRENT:
      g_string_append_printf (query->sql, "%s.voided = 0", name);
      break;
    case SW_BROWSE_VOIDED:
      g_string_append_printf (query->sql, "%s.voided = 1", name);
      break;
    case SW_BROWSE_LATE:
      g_string_append_printf (query->sql, "%s.late = 1", name);
      break;
    case SW_BROWSE_AMENDED:
      add_amended (query->sql, table);
      break;
    case SW_BROWSE_TO_REVIEW:
      g_string_append (query->sql, table == SW_TABLE_TITRATION ? TO_REVIEW : "1 = 0");
      break;
    case SW_BROWSE_REVIEW_LOST:
      add_review_lost (query->sql, table);
      break;
    case SW_BROWSE_ALL:
    case SW_N_BROWSE_STATES:
    default:
      g_string_append (query->sql, "1 = 1");
    }
}
