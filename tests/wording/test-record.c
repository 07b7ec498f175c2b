/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records and their stories in words: values as the file has them beside what a person reads,
 * written out here by hand. */
#include "wording/sentence-record.h"

#include <string.h>

#include "support/support.h"

#define U202F "\342\200\257"
#define MINUS "\342\210\222"
#define DASH "\342\200\224"
/* 2026-05-24 06:20 in Berlin, a Sunday */
#define AT_MS G_GINT64_CONSTANT (1779596400000)
#define MIN_MS G_GINT64_CONSTANT (60000)

static SwWording *english;
static SwWording *german;
static SwWording *pseudo;

static char *
name_cb (gpointer data, const char *table, gint64 id)
{
  if (id == 99)
    return NULL;
  return g_strdup_printf ("<%s %d>", table, (int)id);
}

static const SwRecordContext drops = { .name = name_cb, .subject_table = "dose" };
static const SwRecordContext burette = { .name = name_cb, .burette = TRUE };

/* ---- values ---- */

typedef struct
{
  const char *name;
  const char *table;
  const char *column;
  const char *stored;
  const char *said;
  const SwRecordContext *context; /* NULL = drops */
} ValueRow;

static const ValueRow values[] = {
  { "text", "sample", "appearance", "clear", "clear" },
  { "text of two lines", "sample", "remarks", "one\\ntwo \\\\ three", "one\ntwo \\ three" },
  { "nothing", "sample", "appearance", NULL, DASH },
  { "millilitres", "dose", "added_si", "0.00078000000000000009", "780" U202F "mL" },
  { "a drop", "calibration", "drop_si", "3.1e-08", "0.031" U202F "mL" },
  { "an uncertainty", "dose", "best_u_m3", "0.000125563", "126" U202F "mL" },
  { "litres", "compartment", "volume_si", "0.41999999999999998", "420" U202F "L" },
  { "degrees", "sample", "temperature_si", "295.64999999999998", "22.5" U202F "\302\260C" },
  { "density", "solvent", "density_kg_m3", "760", "0.76" U202F "g/mL" },
  { "strength", "product", "strength_mol_m3", "8200", "8.2" U202F "mmol/mL" },
  { "limit", "product", "limit_each_m3_m3", "0.0030000000000000001", "3" U202F "mL/L" },
  { "minutes", "machine", "circulation_min", "45", "45" U202F "min" },
  { "seconds", "method_version", "shake_s", "60", "60" U202F "s" },
  { "one day", "plan", "shortest_days", "1", "1 day" },
  { "days", "plan", "longest_days", "1.25", "1.25 days" },
  { "risk", "plan", "alpha", "0.050000000000000003", "5" U202F "%" },
  { "one drop", "titration", "acid_at", "1", "1 drop" },
  { "drops", "titration", "pass_at", "3", "3 drops" },
  { "burette", "titration", "pass_at", "2.5", "2.5" U202F "mL", &burette },
  { "no bound", "titration", "net_high", "inf", "no bound" },
  { "no bound below", "titration", "net_low", "-inf", "no bound" },
  { "yes", "sample", "retained", "1", "yes" },
  { "no", "sample", "retained", "0", "no" },
  { "count", "calibration", "weighings", "10", "10" },
  { "time", "titration", "signed_ms", "1779596400000", "24 May 2026 06:20" },
  { "day", "lot", "expires_ms", "1779596400000", "24 May 2026" },
  { "person", "titration", "analyst", "3", "<person 3>" },
  { "no such row", "titration", "analyst", "99", "number 99" },
  { "other name", "incident", "opened_by_titration", "7", "<titration 7>" },
  { "subject", "review", "subject", "4", "<dose 4>" },
  { "subject of nothing", "review", "subject", "4", "number 4", &burette },
  { "kind of subject", "review", "subject_table", "titration", "Test" },
  { "secret", "person", "secret", "changed sha256:00ff", "not shown" },
  { "word", "incident", "state", "retest_passed", "re-test passed, waits for review" },
  { "outcome", "titration", "outcome", "acid_found", "acid found" },
  { "answer", "sample", "level_ok", "unknown", "not known" },
  { "role", "person", "role", "auditor", "Auditor (reads only)" },
  { "language", "person", "language", "de", "Deutsch" },
  { "a language without a name", "person", "language", "xx", "xx" },
  { "unknown word", "titration", "outcome", "blue", "blue" },
  { "unknown column", "titration", "nothing", "a\\nb", "a\nb" },
};

static void
test_value (gconstpointer data)
{
  const ValueRow *row = data;
  const SwRecordContext *context = row->context != NULL ? row->context : &drops;
  g_autofree char *said = sw_say_value (english, context, row->table, row->column, row->stored);

  g_assert_cmpstr (said, ==, row->said);
}

static void
test_german_value (void)
{
  g_autofree char *amount = sw_say_value (german, &drops, "calibration", "drop_si", "3.1e-08");

  g_assert_cmpstr (amount, ==, "0,031" U202F "mL");
}

/* ---- changes ---- */

typedef struct
{
  const char *name;
  const char *column;
  const char *before;
  const char *after;
  const char *said;
} ChangeRow;

static const ChangeRow changes[] = {
  { "new", "added_si", NULL, "0.00077999999999999999", "Added amount: 780" U202F "mL" },
  { "changed", "added_si", "0.00078", "0.00087",
    "Added amount: 870" U202F "mL (before: 780" U202F "mL)" },
  { "emptied", "place", "lid", NULL, "Dosing place: empty (before: lid)" },
  { "hidden by rounding", "added_si", "0.00078", "0.0007800000001",
    "Added amount: 780.00000009999997" U202F "mL (before: 780" U202F "mL)" },
  { "word", "state", "open", "added", "State: added (before: worked out, not recorded)" },
};

static void
test_change (gconstpointer data)
{
  const ChangeRow *row = data;
  const char *const stored[2] = { row->before, row->after };
  char *said[2];
  g_autofree char *line = NULL;

  sw_say_values (english, &drops, "dose", row->column, stored, said);
  line = sw_say_change (english, sw_say_column (english, "dose", row->column), said[0], said[1]);
  g_assert_cmpstr (line, ==, row->said);
  g_free (said[0]);
  g_free (said[1]);
}

/* A new secret looks like the old one. */
static void
test_secret (void)
{
  const char *const stored[2] = { "changed sha256:01", "changed sha256:02" };
  char *said[2];

  sw_say_values (english, &drops, "person", "secret", stored, said);
  g_assert_cmpstr (said[0], ==, "not shown");
  g_assert_cmpstr (said[1], ==, "not shown");
  g_free (said[0]);
  g_free (said[1]);
}

/* ---- names ---- */

typedef struct
{
  const char *name;
  const char *title;
  const char *of;
  const char *record;
  const char *one;
  const char *many;
} NameRow;

static const NameRow names[] = {
  { "dose", "M-07-260504-1", "demo amine", "Dose of test M-07-260504-1", "1 dose", "12 doses" },
  { "titration", "M-07-260504-1", "Drop test", "Test M-07-260504-1", "1 test", "12 tests" },
  { "reading", "3", "M-07-260504-1", "Reading 3 of M-07-260504-1", "1 reading", "12 readings" },
  { "method_version", "2", "Drop test", "Drop test, version 2", "1 method version",
    "12 method versions" },
  { "person", "N. Invented", NULL, "Person N. Invented", "1 person", "12 people" },
  { "lot", "L-1", "demo amine", "Lot L-1 of demo amine", "1 lot", "12 lots" },
  { "fill", NULL, "M-07", "Solvent fill " DASH " of M-07", "1 solvent fill", "12 solvent fills" },
  { "incident", "M-07-260504-1", "M-07", "Acid incident of M-07, found by test M-07-260504-1",
    "1 acid incident", "12 acid incidents" },
};

static void
test_name (gconstpointer data)
{
  const NameRow *row = data;
  g_autofree char *record = sw_say_record (english, row->name, row->title, row->of);
  g_autofree char *one = sw_say_table_count (english, row->name, 1);
  g_autofree char *many = sw_say_table_count (english, row->name, 12);

  g_assert_cmpstr (record, ==, row->record);
  g_assert_cmpstr (one, ==, row->one);
  g_assert_cmpstr (many, ==, row->many);
}

static void
test_unknown (void)
{
  g_assert_null (sw_say_table (english, "nothing"));
  g_assert_null (sw_say_tables (english, "nothing"));
  g_assert_null (sw_say_column (english, "nothing", "name"));
  g_assert_null (sw_say_column (english, "dose", "nothing"));
  g_assert_null (sw_say_row_word (english, "dose", "nothing"));
  g_assert_null (sw_say_row_word (english, "site", "open"));
  g_assert_cmpstr (sw_say_row_word (english, "dose", "lapsed"), ==, "lapsed");
  g_assert_cmpstr (sw_say_row_word (english, "sign_in", "refused"), ==, "refused");
}

static void
test_told (void)
{
  g_assert_true (sw_column_is_told ("dose", "added_si"));
  g_assert_true (sw_column_is_told ("dose", "happened_ms"));
  g_assert_true (sw_column_is_told ("dose", "of a later version"));
  g_assert_false (sw_column_is_told ("dose", "recorded_ms"));
  g_assert_false (sw_column_is_told ("dose", "voided"));
  g_assert_false (sw_column_is_told ("dose", "late"));
  g_assert_cmpstr (sw_column_amount ("dose", "added_typed"), ==, "added_si");
  g_assert_null (sw_column_amount ("dose", "added_si"));
  g_assert_cmpuint (sw_column_order ("dose", "titration"), ==, 0);
  g_assert_cmpuint (sw_column_order ("dose", "incident"), ==, 1);
  g_assert_cmpuint (sw_column_order ("dose", "happened_ms"), >,
                    sw_column_order ("dose", "calc_version"));
  g_assert_cmpuint (sw_column_order ("dose", "nothing"), ==, G_MAXUINT);
}

/* ---- entries ---- */

typedef struct
{
  const char *name;
  SwEntryFacts facts; /* the time and the computer are always the same */
  const char *said;
} EntryRow;

#define ON "on 24 May 2026 06:20 by "
#define SECRET .person = "N. Invented", .identified_by = "secret"
#define BY_SECRET ON "N. Invented, signed in with a secret, at bench-2"

static const EntryRow entries[] = {
  { "amended",
    { .action = "update",
      .kind = "amend",
      .table = "sample",
      SECRET,
      .reason = "read the label again" },
    "Amended " BY_SECRET ": read the label again." },
  { "reason with a full stop",
    { .action = "update", .kind = "amend", .table = "sample", SECRET, .reason = "Wrong lot. " },
    "Amended " BY_SECRET ": Wrong lot." },
  { "reason that goes on",
    { .action = "update", .kind = "amend", .table = "sample", SECRET, .reason = "well ..." },
    "Amended " BY_SECRET ": well ...." },
  { "reason with a percent sign",
    { .action = "update", .kind = "amend", .table = "sample", SECRET, .reason = "100 %s %1$s" },
    "Amended " BY_SECRET ": 100 %s %1$s." },
  { "added by an amendment",
    { .action = "insert", .kind = "amend", .table = "incident", SECRET, .reason = "it was acid" },
    "Added by an amendment " BY_SECRET ": it was acid." },
  { "voided",
    { .action = "void", .kind = "void", .table = "sample", SECRET, .reason = "made twice" },
    "Voided " BY_SECRET ": made twice." },
  { "undone",
    { .action = "void", .kind = "void", .table = "lot", SECRET, .reason = SW_REASON_UNDONE },
    "Undone at once " BY_SECRET "." },
  { "follows from a void",
    { .action = "update", .kind = "void", .table = "dose", SECRET, .reason = "made twice" },
    "Changed " BY_SECRET ", with a record voided: made twice." },
  { "added",
    { .action = "insert",
      .kind = "test",
      .table = "reading",
      .person = "N. Invented",
      .identified_by = "selected" },
    "Added " ON "N. Invented, by name only, at bench-2." },
  { "changed",
    { .action = "update", .kind = "test", .table = "titration", SECRET },
    "Changed " BY_SECRET "." },
  { "signed",
    { .action = "insert", .kind = "sign", .table = "review", SECRET },
    "Signed " BY_SECRET "." },
  { "imported",
    { .action = "insert",
      .kind = "import",
      .table = "sample",
      .person = "N. Invented",
      .identified_by = "import" },
    "Imported " ON "N. Invented, through an import, at bench-2." },
  { "demo",
    { .action = "insert",
      .kind = "test",
      .table = "sample",
      .person = "N. Invented",
      .identified_by = "demo" },
    "Added " ON "N. Invented, an invented person, at bench-2." },
  { "migrated",
    { .action = "migrate", .kind = "migrate", .table = "schema", .identified_by = "system" },
    "The file was changed to a newer form " ON "the program, at bench-2." },
  { "made",
    { .action = "migrate",
      .kind = "migrate",
      .table = "schema",
      .identified_by = "system",
      .makes_file = TRUE },
    "The file was made " ON "the program, at bench-2." },
  { "signed in",
    { .action = "insert", .kind = "sign_in", .table = "sign_in", SECRET },
    "Sign-in of N. Invented on 24 May 2026 06:20, at bench-2." },
  { "wrong secret",
    { .action = "insert",
      .kind = "sign_in",
      .table = "sign_in",
      .identified_by = "system",
      .refuses = TRUE },
    "A wrong secret was refused " ON "the program, at bench-2." },
  { "checkpoint",
    { .action = "insert", .kind = "checkpoint", .table = "checkpoint", .identified_by = "system" },
    "The journal\342\200\231s head was signed " ON "the program, at bench-2." },
  { "restored",
    { .action = "insert", .kind = "restore", .table = "restoration", SECRET },
    "A backup was restored " BY_SECRET "." },
  { "late",
    { .action = "insert", .kind = "test", .table = "sample", SECRET, .late_ms = 120 * MIN_MS },
    "Added " BY_SECRET ". Written 2 h after it happened." },
  { "clock back",
    { .action = "update", .kind = "test", .table = "sample", SECRET, .clock_back_ms = 5 * MIN_MS },
    "Changed " BY_SECRET ". The clock stood 5 min before the journal\342\200\231s last entry." },
  { "late, by a clock that jumped",
    { .action = "insert",
      .kind = "test",
      .table = "sample",
      SECRET,
      .late_ms = 20 * MIN_MS,
      .clock_ahead_ms = 180 * MIN_MS },
    "Added " BY_SECRET
    ". Written 20 min after it happened. The clock had jumped ahead by 3 h since "
    "the act before." },
  { "nobody knows how",
    { .action = "update", .kind = "setup", .table = "lot", .person = "N. Invented" },
    "Changed " ON "N. Invented, at bench-2." },
};

static SwEntryFacts
complete (const EntryRow *row)
{
  SwEntryFacts facts = row->facts;

  facts.utc_ms = AT_MS;
  facts.workstation = "bench-2";
  return facts;
}

static void
test_entry (gconstpointer data)
{
  const SwEntryFacts facts = complete (data);
  g_autofree char *said = sw_say_entry (english, &facts);

  g_assert_cmpstr (said, ==, ((const EntryRow *)data)->said);
}

/* The catalogue has it, with every place filled. */
static void
test_pseudo_entry (gconstpointer data)
{
  const SwEntryFacts facts = complete (data);
  g_autofree char *said = sw_say_entry (pseudo, &facts);

  g_assert_cmpstr (said, !=, ((const EntryRow *)data)->said);
  g_assert_nonnull (strstr (said, "bench-2"));
  if (facts.person != NULL)
    g_assert_nonnull (strstr (said, facts.person));
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  english = sw_wording_new ("en", "Europe/Berlin");
  german = sw_wording_new ("de", "Europe/Berlin");
  pseudo = sw_wording_new ("xx", "Europe/Berlin");
  SW_TEST_ROWS ("/wording/record/value", values, test_value);
  SW_TEST_ROWS ("/wording/record/change", changes, test_change);
  SW_TEST_ROWS ("/wording/record/name", names, test_name);
  SW_TEST_ROWS ("/wording/record/entry", entries, test_entry);
  SW_TEST_ROWS ("/wording/record/pseudo-entry", entries, test_pseudo_entry);
  g_test_add_func ("/wording/record/german-value", test_german_value);
  g_test_add_func ("/wording/record/secret", test_secret);
  g_test_add_func ("/wording/record/unknown", test_unknown);
  g_test_add_func ("/wording/record/told", test_told);
  status = g_test_run ();
  sw_wording_unref (english);
  sw_wording_unref (german);
  sw_wording_unref (pseudo);
  return status;
}
