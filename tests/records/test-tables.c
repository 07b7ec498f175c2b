/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every table: its columns in the file are those of its descriptor, and whatever a struct holds
 * comes back as it was, full, empty and after changing each column. */
#include "fixture.h"
#include "records/row-private.h"
#include "records/store-private.h"

#include <string.h>

#define ROUNDS 25

/* Written into every text column in turn; a number follows, because some columns are unique. */
static const char *const hard_texts[] = {
  "plain",
  "",
  "two\nlines",
  "back\\slash \\n no newline",
  "it's \"quoted\"; DROP TABLE person; --",
  "tab\tand\rreturn and \x01 and \x7f",
  "\xc3\xa9\xc3\xa8 \xe6\xb0\xb4 \xf0\x9f\x8d\xa3 e\xcc\x81",
  "=1+1",
  " leading and trailing ",
};

static GRand *dice;

static const SwTableInfo *
info_of (gconstpointer data)
{
  return sw_table_info ((SwTable)GPOINTER_TO_INT (data));
}

static char *
make_text (int round)
{
  return g_strdup_printf ("%s%d.%u", hard_texts[round % (int)G_N_ELEMENTS (hard_texts)], round,
                          g_rand_int (dice));
}

/* A decimal of at most nine digits, as people type, or now and then an open end. */
static double
make_number (const SwColumn *column, int round)
{
  g_autofree char *text = g_strdup_printf ("%d.%06d", g_rand_int_range (dice, -200, 900),
                                           g_rand_int_range (dice, 0, 1000000));

  if (column->unit == SW_UNIT_NONE && round % 5 == 4)
    return round % 2 == 0 ? INFINITY : -INFINITY;
  return g_ascii_strtod (text, NULL);
}

static int
count_words (const SwColumn *column)
{
  return (int)g_strv_length ((char **)column->words);
}

static void
fill_member (const SwColumn *column, gpointer record, int round)
{
  void *member = (char *)record + column->offset;

  switch (column->type)
    {
    case SW_COLUMN_TEXT:
    case SW_COLUMN_SECRET:
      g_free (*(char **)member);
      *(char **)member = make_text (round);
      break;
    case SW_COLUMN_WORD:
      *(int *)member = round % count_words (column);
      break;
    case SW_COLUMN_ID:
    case SW_COLUMN_TIME:
      *(gint64 *)member = 1 + ((gint64)g_rand_int (dice) << 8);
      break;
    case SW_COLUMN_INTEGER:
      *(int *)member = g_rand_int_range (dice, G_MININT, G_MAXINT);
      break;
    case SW_COLUMN_BOOLEAN:
      *(gboolean *)member = strcmp (column->name, "for_chlorinated") == 0 ? FALSE : round % 2 == 0;
      break;
    case SW_COLUMN_REAL:
      *(double *)member = make_number (column, round);
      break;
    default:
      g_assert_not_reached ();
    }
}

static void
fill_record (const SwTableInfo *info, gpointer record, int round)
{
  for (guint i = 0; i < info->n_columns; i++)
    fill_member (&info->columns[i], record, round);
  ((SwRecord *)record)->happened_ms = FIXTURE_START_MS - g_rand_int_range (dice, 1, 2000000);
}

/* Bit for bit, member by member: the descriptor says where to look, not how to convert. */
static void
assert_same_member (const SwColumn *column, gconstpointer a, gconstpointer b)
{
  const char *one = (const char *)a + column->offset;
  const char *two = (const char *)b + column->offset;

  if (column->type == SW_COLUMN_TEXT || column->type == SW_COLUMN_SECRET)
    g_assert_cmpstr (*(char *const *)(gconstpointer)one, ==, *(char *const *)(gconstpointer)two);
  else if (column->type == SW_COLUMN_REAL)
    g_assert_cmpmem (one, sizeof (double), two, sizeof (double));
  else if (column->type == SW_COLUMN_ID || column->type == SW_COLUMN_TIME)
    g_assert_cmpmem (one, sizeof (gint64), two, sizeof (gint64));
  else
    g_assert_cmpmem (one, sizeof (int), two, sizeof (int));
}

static void
assert_same (const SwTableInfo *info, gconstpointer a, gconstpointer b)
{
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    assert_same_member (sw_table_column (info, i), a, b);
  g_assert_cmpint (((const SwRecord *)a)->id, ==, ((const SwRecord *)b)->id);
  g_assert_cmpint (((const SwRecord *)a)->journal_seq, ==, ((const SwRecord *)b)->journal_seq);
}

static void
assert_loads_as (Fixture *fixture, SwTable table, gconstpointer record)
{
  GError *error = NULL;
  gpointer loaded = sw_row_load (fixture->store, table, ((const SwRecord *)record)->id, &error);

  g_assert_no_error (error);
  assert_same (sw_table_info (table), record, loaded);
  sw_row_free (table, loaded);
}

/* Ids are random here: the references between tables are for other tests. */
static void
set_up_loose (Fixture *fixture, gconstpointer data)
{
  fixture_set_up (fixture, data);
  sqlite3_db_config (fixture->store->db, SQLITE_DBCONFIG_ENABLE_FKEY, 0, NULL);
}

/* The site is there from the start. */
static gpointer
start_record (Fixture *fixture, SwTable table)
{
  return table == SW_TABLE_SITE ? (gpointer)sw_site_get (fixture->store, NULL) : sw_row_new (table);
}

static void
write_record (Fixture *fixture, SwTable table, gpointer record)
{
  GError *error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  if (table == SW_TABLE_SITE)
    sw_row_update (fixture->store, table, record, &error);
  else
    sw_row_insert (fixture->store, table, record, &error);
  g_assert_no_error (error);
  fixture_commit (fixture);
}

static void
test_full (Fixture *fixture, gconstpointer data)
{
  SwTable table = (SwTable)GPOINTER_TO_INT (data);
  const SwTableInfo *info = info_of (data);

  for (int round = 0; round < ROUNDS; round++)
    {
      gpointer record = start_record (fixture, table);
      gpointer copy;

      fill_record (info, record, round);
      write_record (fixture, table, record);
      g_assert_cmpint (((SwRecord *)record)->id, >, 0);
      assert_loads_as (fixture, table, record);
      copy = sw_row_copy (table, record);
      assert_same (info, record, copy);
      sw_row_free (table, record);
      assert_loads_as (fixture, table, copy);
      sw_row_free (table, copy);
    }
}

/* Columns that the file itself wants filled: their names, by PRAGMA table_info. */
static gboolean
is_required (Fixture *fixture, const char *table, const SwColumn *column)
{
  const SwCell keys[] = { sw_cell_text (table), sw_cell_text (column->name) };
  gint64 required = 0;

  g_assert_true (sw_sql_integer (fixture->store,
                                 "SELECT \"notnull\" FROM pragma_table_info(?) WHERE name = ?",
                                 keys, G_N_ELEMENTS (keys), &required, NULL));
  return required != 0;
}

static gboolean
can_be_empty (const SwColumn *column)
{
  return column->type != SW_COLUMN_WORD && column->type != SW_COLUMN_INTEGER
         && column->type != SW_COLUMN_BOOLEAN;
}

static void
test_empty (Fixture *fixture, gconstpointer data)
{
  SwTable table = (SwTable)GPOINTER_TO_INT (data);
  const SwTableInfo *info = info_of (data);
  gpointer record = start_record (fixture, table);

  for (guint i = 0; i < info->n_columns; i++)
    if (can_be_empty (&info->columns[i]) && is_required (fixture, info->name, &info->columns[i]))
      fill_member (&info->columns[i], record, 1);
  write_record (fixture, table, record);
  assert_loads_as (fixture, table, record);
  sw_row_free (table, record);
}

/* Each required column left empty is refused by name, and nothing is written. */
static void
test_required (Fixture *fixture, gconstpointer data)
{
  SwTable table = (SwTable)GPOINTER_TO_INT (data);
  const SwTableInfo *info = info_of (data);

  for (guint i = 0; i < info->n_columns; i++)
    {
      gpointer record = table == SW_TABLE_SITE ? NULL : sw_row_new (table);
      g_autoptr (GError) error = NULL;

      if (record == NULL || !can_be_empty (&info->columns[i])
          || !is_required (fixture, info->name, &info->columns[i]))
        {
          sw_row_free (table, record);
          continue;
        }
      fill_record (info, record, 0);
      if (info->columns[i].type == SW_COLUMN_TEXT)
        g_clear_pointer ((char **)(gpointer)((char *)record + info->columns[i].offset), g_free);
      else
        *(gint64 *)(gpointer)((char *)record + info->columns[i].offset) = 0;
      fixture_begin (fixture, SW_ACT_SETUP, NULL);
      g_assert_false (sw_row_insert (fixture->store, table, record, &error));
      g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_CONSTRAINT);
      g_assert_nonnull (strstr (error->message, info->columns[i].name));
      g_assert_cmpint (((SwRecord *)record)->id, ==, 0);
      sw_act_cancel (fixture->store);
      sw_row_free (table, record);
    }
}

static char *
last_entry (Fixture *fixture)
{
  char *entry = NULL;

  g_assert_true (sw_sql_text (fixture->store, "SELECT entry FROM journal ORDER BY seq DESC LIMIT 1",
                              NULL, 0, &entry, NULL));
  return entry;
}

/* One column changed: one line (or an old and a new one) of that column, and no other. */
static void
assert_entry_speaks_of (const char *entry, const char *column)
{
  g_auto (GStrv) lines = g_strsplit (entry, "\n", -1);
  g_autofree char *old = g_strconcat ("old.", column, "=", NULL);
  g_autofree char *new = g_strconcat ("new.", column, "=", NULL);
  int found = 0;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      if (g_str_has_prefix (lines[i], old) || g_str_has_prefix (lines[i], new))
        found++;
      else
        g_assert_false (g_str_has_prefix (lines[i], "old.") || g_str_has_prefix (lines[i], "new."));
    }
  g_assert_cmpint (found, ==, 2);
}

static void
test_update (Fixture *fixture, gconstpointer data)
{
  SwTable table = (SwTable)GPOINTER_TO_INT (data);
  const SwTableInfo *info = info_of (data);
  gpointer record = start_record (fixture, table);

  fill_record (info, record, 0);
  write_record (fixture, table, record);
  for (guint i = 0; i < info->n_columns; i++)
    {
      g_autofree char *entry = NULL;
      GError *error = NULL;

      if (strcmp (info->columns[i].name, "for_chlorinated") == 0)
        continue;
      fixture->now_ms += 1000;
      fill_member (&info->columns[i], record, 1);
      fixture_begin (fixture, SW_ACT_AMEND, "typed wrongly");
      sw_row_update (fixture->store, table, record, &error);
      g_assert_no_error (error);
      fixture_commit (fixture);
      assert_loads_as (fixture, table, record);
      entry = last_entry (fixture);
      assert_entry_speaks_of (entry, info->columns[i].name);
    }
  sw_row_free (table, record);
}

/* Loading and writing back what was loaded writes nothing, whatever the numbers: the conversion to
 * SI must not creep. */
static void
test_write_back (Fixture *fixture, gconstpointer data)
{
  SwTable table = (SwTable)GPOINTER_TO_INT (data);
  const SwTableInfo *info = info_of (data);
  gpointer record = start_record (fixture, table);
  gint64 seq;

  fill_record (info, record, 0);
  for (guint i = 0; i < info->n_columns; i++)
    if (info->columns[i].type == SW_COLUMN_REAL)
      *(double *)(gpointer)((char *)record + info->columns[i].offset)
          = g_rand_double_range (dice, -1e3, 1e3);
  write_record (fixture, table, record);
  seq = ((SwRecord *)record)->journal_seq;
  for (int round = 0; round < 3; round++)
    {
      gpointer loaded = sw_row_load (fixture->store, table, ((SwRecord *)record)->id, NULL);

      fixture_begin (fixture, SW_ACT_SETUP, NULL);
      g_assert_true (sw_row_update (fixture->store, table, round == 0 ? record : loaded, NULL));
      fixture_commit (fixture);
      g_assert_cmpint (((SwRecord *)loaded)->journal_seq, ==, seq);
      sw_row_free (table, loaded);
    }
  sw_row_free (table, record);
}

typedef void (*TestFunc) (Fixture *, gconstpointer);

static void
add_table (SwTable table, const char *what, TestFunc func)
{
  g_autofree char *path = g_strdup_printf ("/records/tables/%s/%s", sw_table_name (table), what);

  g_test_add (path, Fixture, GINT_TO_POINTER (table), set_up_loose, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  dice = g_rand_new_with_seed (20260504);
  for (int i = 0; i < SW_N_TABLES; i++)
    {
      add_table ((SwTable)i, "full", test_full);
      add_table ((SwTable)i, "empty", test_empty);
      add_table ((SwTable)i, "required", test_required);
      add_table ((SwTable)i, "update", test_update);
      add_table ((SwTable)i, "write-back", test_write_back);
    }
  status = g_test_run ();
  g_rand_free (dice);
  return status;
}
