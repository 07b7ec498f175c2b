/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists against a slow oracle: every table by every filter, over rows made by a seeded random hand.
 */
#include "browse-oracle.h"

#include "records/row-private.h"
#include "records/story-private.h"

#include <string.h>

#define RANDOM_FILTERS 60

/* Shared by all tests: they only read. */
static BrowsePlant bench;
static GPtrArray *rows_of[SW_N_TABLES]; /* element OracleRow */

static const char *const searches[] = {
  "label",   "LABEL",      "ölfilm", "ÖlFilm",      "strasse",      "STRAßE",  "100%",
  "100 per", "%",          "_",      "under_score", "\\",           "back\\s", "ωMEGA",
  "m-07",    "M-11 label", "  ",     "new a",       "label\tunder", "s-1",     "ünal",
  "nowhere", "'",          "\"; --", "demo",        "drop o",       "S-12",    "label xyz",
  "1label",  "2label",     "3label", "4label",      "5label",
};

/* ---- comparing ---- */

static char *
list_ids (GArray *ids)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < ids->len; i++)
    g_string_append_printf (text, "%" G_GINT64_FORMAT " ", g_array_index (ids, gint64, i));
  return g_string_free (text, FALSE);
}

/* Newest first, then by id, the greatest first. */
static int
compare_rows_cb (gconstpointer a, gconstpointer b)
{
  const OracleRow *one = *(const OracleRow *const *)a;
  const OracleRow *two = *(const OracleRow *const *)b;

  if (one->row.happened_ms != two->row.happened_ms)
    return one->row.happened_ms < two->row.happened_ms ? 1 : -1;
  return one->row.id < two->row.id ? 1 : -1;
}

static GArray *
oracle_ids (const SwBrowseFilter *filter)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new ();
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint i = 0; i < rows_of[filter->table]->len; i++)
    if (oracle_matches (rows_of[filter->table]->pdata[i], filter))
      g_ptr_array_add (found, rows_of[filter->table]->pdata[i]);
  g_ptr_array_sort (found, compare_rows_cb);
  for (guint i = 0; i < found->len; i++)
    g_array_append_val (ids, ((OracleRow *)found->pdata[i])->row.id);
  return ids;
}

/* Number of rows found. */
static guint
check_filter (const SwBrowseFilter *filter)
{
  GError *error = NULL;
  g_autoptr (GArray) ids = sw_browse_ids (bench.base.store, filter, &error);
  g_autoptr (GArray) expected = oracle_ids (filter);
  g_autofree char *found = NULL;
  g_autofree char *wanted = NULL;

  g_assert_no_error (error);
  found = list_ids (ids);
  wanted = list_ids (expected);
  if (strcmp (found, wanted) != 0)
    g_test_message ("%s: state %d, machine %d, person %d, outcome %d, search \"%s\"",
                    sw_table_name (filter->table), (int)filter->state, (int)filter->machine,
                    (int)filter->person, filter->outcome,
                    filter->search != NULL ? filter->search : "");
  g_assert_cmpstr (found, ==, wanted);
  return ids->len;
}

static SwBrowseFilter
make_filter (SwTable table)
{
  return (SwBrowseFilter){ .table = table, .state = SW_BROWSE_ALL, .outcome = -1 };
}

static SwTable
get_table (gconstpointer data)
{
  return (SwTable)GPOINTER_TO_INT (data);
}

/* ---- one filter at a time ---- */

static void
test_state (gconstpointer data)
{
  SwBrowseFilter filter = make_filter (get_table (data));

  for (int state = 0; state < SW_N_BROWSE_STATES; state++)
    {
      filter.state = (SwBrowseState)state;
      check_filter (&filter);
    }
  filter.state = SW_BROWSE_ALL;
  g_assert_cmpuint (check_filter (&filter), ==, rows_of[filter.table]->len);
}

static void
test_machine (gconstpointer data)
{
  SwBrowseFilter filter = make_filter (get_table (data));

  for (filter.machine = 1; filter.machine <= (gint64)G_N_ELEMENTS (bench.machines) + 1;
       filter.machine++)
    check_filter (&filter);
}

static void
test_person (gconstpointer data)
{
  SwBrowseFilter filter = make_filter (get_table (data));

  for (filter.person = 1; filter.person <= (gint64)G_N_ELEMENTS (bench.people) + 1; filter.person++)
    check_filter (&filter);
}

static void
test_outcome (gconstpointer data)
{
  SwBrowseFilter filter = make_filter (get_table (data));

  for (filter.outcome = 0; filter.outcome < SW_N_OUTCOMES; filter.outcome++)
    check_filter (&filter);
}

/* The edges are times of rows: from is in, to is not. */
static void
test_time (gconstpointer data)
{
  SwBrowseFilter filter = make_filter (get_table (data));
  const GPtrArray *rows = rows_of[filter.table];

  for (guint i = 0; i < rows->len; i += 1 + rows->len / 8)
    {
      const gint64 at_ms = ((OracleRow *)rows->pdata[i])->row.happened_ms;

      filter.from_ms = at_ms;
      filter.to_ms = 0;
      g_assert_cmpuint (check_filter (&filter), >, 0);
      filter.to_ms = at_ms + BROWSE_DAY_MS;
      check_filter (&filter);
      filter.from_ms = 0;
      filter.to_ms = at_ms;
      check_filter (&filter);
    }
}

static void
test_search (gconstpointer data)
{
  SwBrowseFilter filter = make_filter (get_table (data));

  for (gsize i = 0; i < G_N_ELEMENTS (searches); i++)
    {
      filter.search = searches[i];
      check_filter (&filter);
    }
}

/* ---- many at a time ---- */

/* Often the lowest, which means any. */
static int
draw_or_any (int any, int below)
{
  return g_rand_boolean (bench.rand) ? any : g_rand_int_range (bench.rand, any, below);
}

static void
draw_filter (SwBrowseFilter *filter)
{
  GRand *rand = bench.rand;

  filter->state = (SwBrowseState)g_rand_int_range (rand, 0, SW_N_BROWSE_STATES);
  filter->machine = draw_or_any (0, 4);
  filter->person = draw_or_any (0, 5);
  filter->outcome = draw_or_any (-1, SW_N_OUTCOMES);
  if (g_rand_boolean (rand))
    filter->from_ms = FIXTURE_START_MS - BROWSE_DAY_MS * g_rand_int_range (rand, 0, BROWSE_DAYS);
  if (g_rand_boolean (rand))
    filter->to_ms = FIXTURE_START_MS - BROWSE_DAY_MS * g_rand_int_range (rand, -1, BROWSE_DAYS);
  if (g_rand_boolean (rand))
    filter->search = searches[g_rand_int_range (rand, 0, G_N_ELEMENTS (searches))];
}

static void
test_random (gconstpointer data)
{
  for (int i = 0; i < RANDOM_FILTERS; i++)
    {
      SwBrowseFilter filter = make_filter (get_table (data));

      draw_filter (&filter);
      check_filter (&filter);
    }
}

/* Filters that find nothing would agree with anything. */
static void
test_enough (void)
{
  static const SwTable signable[] = { SW_TABLE_TITRATION, SW_TABLE_DOSE, SW_TABLE_INCIDENT };
  SwBrowseFilter filter = make_filter (SW_TABLE_TITRATION);
  guint lost = 0;

  for (int state = 0; state < SW_N_BROWSE_STATES; state++)
    {
      filter.state = (SwBrowseState)state;
      g_assert_cmpuint (check_filter (&filter), >, 2);
      g_assert_true (state == SW_BROWSE_ALL || check_filter (&filter) < rows_of[filter.table]->len);
    }
  filter.state = SW_BROWSE_REVIEW_LOST;
  for (gsize i = 0; i < G_N_ELEMENTS (signable); i++)
    {
      filter.table = signable[i];
      lost += check_filter (&filter) > 0;
    }
  g_assert_cmpuint (lost, ==, G_N_ELEMENTS (signable));
  filter = make_filter (SW_TABLE_SAMPLE);
  filter.search = "ölfilm";
  g_assert_cmpuint (check_filter (&filter), >, 5);
}

/* ---- rows ---- */

static void
check_row (const SwBrowseRow *expected)
{
  GError *error = NULL;
  g_autoptr (SwBrowseRow) row
      = sw_browse_load (bench.base.store, expected->table, expected->id, &error);

  g_assert_no_error (error);
  g_assert_cmpint (row->id, ==, expected->id);
  g_assert_cmpint (row->table, ==, expected->table);
  g_assert_cmpint (row->happened_ms, ==, expected->happened_ms);
  g_assert_cmpint (row->offset_min, ==, expected->offset_min);
  g_assert_cmpint (row->late, ==, expected->late);
  g_assert_cmpint (row->voided, ==, expected->voided);
  g_assert_cmpint (row->amended, ==, expected->amended);
  g_assert_cmpint (row->machine, ==, expected->machine);
  g_assert_cmpstr (row->machine_tag, ==, expected->machine_tag);
  g_assert_cmpint (row->person, ==, expected->person);
  g_assert_cmpstr (row->initials, ==, expected->initials);
  g_assert_cmpstr (row->title, ==, expected->title);
  g_assert_cmpstr (row->of, ==, expected->of);
  g_assert_cmpint (row->outcome, ==, expected->outcome);
  sw_assert_close (row->net_low, expected->net_low, 0.0);
  sw_assert_close (row->net_high, expected->net_high, 0.0);
  sw_assert_close (row->amount_ml, expected->amount_ml, 1e-12);
  g_assert_cmpstr (row->word, ==, expected->word);
}

static void
test_rows (gconstpointer data)
{
  const GPtrArray *rows = rows_of[get_table (data)];

  g_assert_cmpuint (rows->len, >, 0);
  for (guint i = 0; i < rows->len; i++)
    check_row (&((OracleRow *)rows->pdata[i])->row);
}

static void
test_no_row (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (sw_browse_load (bench.base.store, SW_TABLE_DOSE, 9999, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NO_SUCH_ROW);
}

/* ---- acts ---- */

static const OracleRow *
find_row (const SwChapter *chapter)
{
  SwTable table;

  if (!sw_table_from_name (chapter->table, &table))
    return NULL;
  return rows_of[table]->pdata[chapter->row - 1];
}

/* One chapter of an act that the filter wants makes the act wanted. */
static gboolean
chapter_matches (const SwChapter *chapter, const SwBrowseFilter *filter, gboolean of_table)
{
  SwBrowseFilter place = { .state = of_table ? filter->state : SW_BROWSE_ALL,
                           .machine = filter->machine,
                           .outcome = filter->outcome };
  const OracleRow *row = find_row (chapter);

  if (filter->person != 0 && chapter->person != filter->person)
    return FALSE;
  if ((filter->from_ms != 0 && chapter->utc_ms < filter->from_ms)
      || (filter->to_ms != 0 && chapter->utc_ms >= filter->to_ms))
    return FALSE;
  if (of_table && (row == NULL || row->row.table != filter->table))
    return FALSE;
  return row == NULL ? filter->machine == 0 && filter->outcome < 0 : oracle_matches (row, &place);
}

/* Reason and values; the search below is for words that stand in nothing else of an entry. */
static gboolean
chapter_says (const SwChapter *chapter, const char *search)
{
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);

  oracle_add_text (texts, chapter->reason);
  for (guint i = 0; i < chapter->changes->len; i++)
    {
      const SwChange *change = chapter->changes->pdata[i];

      oracle_add_text (texts, change->before);
      oracle_add_text (texts, change->after);
    }
  return oracle_finds (texts, search);
}

static guint
check_acts (const SwBrowseFilter *filter, gboolean of_table)
{
  GError *error = NULL;
  g_autoptr (GArray) acts = sw_browse_acts (bench.base.store, filter, of_table, &error);
  g_autoptr (GPtrArray) all = sw_story_select (bench.base.store, "", NULL, 0, NULL);
  g_autoptr (GArray) expected = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autofree char *found = NULL;
  g_autofree char *wanted = NULL;
  gint64 last = 0;

  g_assert_no_error (error);
  for (guint i = all->len; i-- > 0;)
    {
      const SwChapter *chapter = all->pdata[i];

      if (chapter->act == last || !chapter_matches (chapter, filter, of_table)
          || !chapter_says (chapter, filter->search))
        continue;
      last = chapter->act;
      g_array_append_val (expected, last);
    }
  found = list_ids (acts);
  wanted = list_ids (expected);
  g_assert_cmpstr (found, ==, wanted);
  return acts->len;
}

static void
test_acts (void)
{
  static const char *const words[] = { NULL, "ölfilm", "STRASSE", "nowhere", "ölfilm label" };
  SwBrowseFilter filter = make_filter (SW_TABLE_SAMPLE);

  g_assert_cmpuint (check_acts (&filter, FALSE), >, 300);
  for (int i = 0; i < RANDOM_FILTERS; i++)
    {
      filter = make_filter ((SwTable)g_rand_int_range (bench.rand, 0, SW_N_TABLES));
      draw_filter (&filter);
      filter.search = words[i % G_N_ELEMENTS (words)];
      check_acts (&filter, FALSE);
      check_acts (&filter, TRUE);
    }
  filter = make_filter (SW_TABLE_SAMPLE);
  filter.state = SW_BROWSE_AMENDED;
  g_assert_cmpuint (check_acts (&filter, TRUE), >, 5);
}

/* A hash stands in every entry, and is not what anybody searches for. */
static void
test_acts_hash (void)
{
  SwBrowseFilter filter = make_filter (SW_TABLE_SAMPLE);
  g_autoptr (GPtrArray) all = sw_story_select (bench.base.store, "", NULL, 0, NULL);
  const SwChapter *chapter = all->pdata[all->len / 2];
  g_autoptr (GArray) acts = NULL;

  filter.search = chapter->hash;
  acts = sw_browse_acts (bench.base.store, &filter, FALSE, NULL);
  g_assert_cmpuint (acts->len, ==, 0);
}

/* The rows of an act, no more, in order; of the last act, too. */
static void
test_act (void)
{
  SwBrowseFilter filter = make_filter (SW_TABLE_SAMPLE);
  g_autoptr (GArray) acts = sw_browse_acts (bench.base.store, &filter, FALSE, NULL);
  gint64 next = fixture_ask (&bench.base, "SELECT max(seq) + 1 FROM journal");

  for (guint i = 0; i < acts->len; i++)
    {
      const gint64 act = g_array_index (acts, gint64, i);
      g_autoptr (GPtrArray) chapters = sw_browse_act (bench.base.store, act, NULL);

      g_assert_cmpint (chapters->len, ==, next - act);
      for (guint k = 0; k < chapters->len; k++)
        {
          const SwChapter *chapter = chapters->pdata[k];

          g_assert_cmpint (chapter->seq, ==, act + k);
          g_assert_cmpint (chapter->act, ==, act);
        }
      next = act;
    }
  g_assert_cmpint (next, ==, 1);
}

/* ---- main ---- */

static void
add_table (SwTable table)
{
  static const struct
  {
    const char *name;
    GTestDataFunc func;
  } tests[] = {
    { "rows", test_rows },     { "state", test_state },     { "machine", test_machine },
    { "person", test_person }, { "outcome", test_outcome }, { "time", test_time },
    { "search", test_search }, { "random", test_random },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path
          = g_strdup_printf ("/records/browse/%s/%s", sw_table_name (table), tests[i].name);

      g_test_add_data_func (path, GINT_TO_POINTER (table), tests[i].func);
    }
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  browse_plant_make (&bench);
  for (int table = 0; table < SW_N_TABLES; table++)
    {
      rows_of[table] = oracle_read (&bench, (SwTable)table);
      add_table ((SwTable)table);
    }
  g_test_add_func ("/records/browse/enough", test_enough);
  g_test_add_func ("/records/browse/no-row", test_no_row);
  g_test_add_func ("/records/browse/acts", test_acts);
  g_test_add_func ("/records/browse/acts-hash", test_acts_hash);
  g_test_add_func ("/records/browse/act", test_act);
  status = g_test_run ();
  for (int table = 0; table < SW_N_TABLES; table++)
    g_ptr_array_unref (rows_of[table]);
  browse_plant_clear (&bench);
  return status;
}
