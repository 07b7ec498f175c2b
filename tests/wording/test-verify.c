/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What verify found, in sentences. */
#include "support/support.h"
#include "wording/sentence-verify.h"

#include <string.h>

/* 2026-11-24 05:00 UTC, 06:00 in Berlin */
#define AT_MS G_GINT64_CONSTANT (1795496400000)

static SwWording *wording;

typedef struct
{
  const char *name;
  gboolean note;
  SwVerifyFact fact;
  const char *sentence;
} Row;

static const Row rows[] = {
  { "integrity",
    FALSE,
    { .kind = SW_TOLD_INTEGRITY, .text = "row 7 missing from index x" },
    "The database itself is damaged: row 7 missing from index x" },
  { "reference",
    FALSE,
    { .kind = SW_TOLD_INTEGRITY, .record = "Lot L-1", .text = "x" },
    "Lot L-1 belongs to a record that is not there." },
  { "schema",
    FALSE,
    { .kind = SW_TOLD_SCHEMA, .text = "trigger dose_update" },
    "Another tool changed the structure of the file: trigger dose_update is not as this program "
    "made it." },
  { "chain",
    FALSE,
    { .kind = SW_TOLD_CHAIN, .column = "hash", .seq = 12345 },
    "Journal entry 12\u202f345 was changed by another tool, or one before it is gone: its hash "
    "does not fit." },
  { "row changed",
    FALSE,
    { .kind = SW_TOLD_ROW_CHANGED,
      .record = "Dose 3",
      .column = "Amount added",
      .expected = "1.26 L" },
    "Dose 3: another tool changed the field “Amount added”. By the journal it is 1.26 L, in the "
    "file stands nothing." },
  { "row unknown",
    FALSE,
    { .kind = SW_TOLD_ROW_UNKNOWN, .record = "Dose 3" },
    "Dose 3 was put into the file by another tool: the journal does not know it." },
  { "row missing",
    FALSE,
    { .kind = SW_TOLD_ROW_MISSING, .record = "dose 3" },
    "dose 3 was taken out of the file by another tool: the journal has it." },
  { "result",
    FALSE,
    { .kind = SW_TOLD_RESULT, .record = "Dose 3", .column = "best", .expected = "1", .found = "2" },
    "Dose 3: the field “best” does not follow from what was read. It should be 1, and is 2." },
  { "result unknown",
    FALSE,
    { .kind = SW_TOLD_RESULT, .record = "Test M-07", .text = "x" },
    "Test M-07: the result cannot be worked out from what was read." },
  { "signature",
    FALSE,
    { .kind = SW_TOLD_CHECKPOINT, .column = "signature", .utc_ms = AT_MS },
    "The checkpoint of 24 November 2026 06:00 is not genuine: its signature does not fit." },
  { "another journal",
    FALSE,
    { .kind = SW_TOLD_CHECKPOINT, .column = "head", .seq = 40, .utc_ms = AT_MS },
    "The checkpoint of 24 November 2026 06:00 signed another journal: entry 40 is not the one that "
    "stood there then." },
  { "given head",
    FALSE,
    { .kind = SW_TOLD_HEAD, .expected = "abc" },
    "The head abc is not in this file. It was put back to an earlier state, shortened, or "
    "rewritten since that head was "
    "printed, or the head is of another file." },
  { "lost checkpoint",
    FALSE,
    { .kind = SW_TOLD_HEAD, .seq = 123, .utc_ms = AT_MS, .kept_seq = 101 },
    "The file was put back to an earlier state, shortened, or rewritten: entry 123, which was "
    "signed on 24 November 2026 "
    "06:00, is not in it. What was signed up to entry 101 is there." },
  { "all lost",
    FALSE,
    { .kind = SW_TOLD_HEAD, .seq = 123, .utc_ms = AT_MS },
    "The file was put back to an earlier state, shortened, or rewritten: entry 123, which was "
    "signed on 24 November 2026 "
    "06:00, is not in it. None of what was signed before is there either." },
  { "restored otherwise",
    FALSE,
    { .kind = SW_TOLD_HEAD, .table = "restoration", .seq = 3, .utc_ms = AT_MS },
    "The restoration of 24 November 2026 06:00 says that it went on from another journal than this "
    "one." },
  { "key",
    TRUE,
    { .kind = SW_TOLD_CHECKPOINT, .column = "key", .utc_ms = AT_MS, .found = "abc" },
    "The checkpoint of 24 November 2026 06:00 was signed with a key that this PC does not know, as "
    "when the file was used "
    "on another PC. Compare it there: abc" },
  { "line",
    TRUE,
    { .kind = SW_TOLD_CHECKPOINT, .column = "line", .count = 1 },
    "1 line of this PC's folder of checkpoints cannot be read or is not genuine." },
  { "lines",
    TRUE,
    { .kind = SW_TOLD_CHECKPOINT, .column = "line", .count = 2 },
    "2 lines of this PC's folder of checkpoints cannot be read or are not genuine." },
  { "restoration",
    TRUE,
    { .kind = SW_TOLD_HEAD,
      .table = "restoration",
      .text = "x.stillwarden",
      .seq = 123,
      .kept_seq = 101,
      .utc_ms = AT_MS,
      .person = "N. Invented" },
    "On 24 November 2026 06:00 N. Invented put the backup x.stillwarden in the place of the file. "
    "What came after entry "
    "101, up to entry 123, was given up." },
  { "restoration of a wreck",
    TRUE,
    { .kind = SW_TOLD_HEAD,
      .table = "restoration",
      .text = "x.stillwarden",
      .kept_seq = 101,
      .utc_ms = AT_MS },
    "On 24 November 2026 06:00 the program put the backup x.stillwarden in the place of a file "
    "that could not be read. "
    "Whatever came after entry 101 was given up." },
  { "version",
    TRUE,
    { .kind = SW_TOLD_VERSION,
      .record = "Dose 3",
      .column = "best",
      .expected = "1",
      .found = "2",
      .count = 2 },
    "Dose 3 was worked out by version 2 of the calculation. Today's gives for the field “best” 1 "
    "instead of 2. A changed "
    "calculation is no tampering." },
};

static void
test_sentence (gconstpointer data)
{
  const Row *row = data;
  g_autofree char *sentence
      = row->note ? sw_say_note (wording, &row->fact) : sw_say_finding (wording, &row->fact);

  g_assert_cmpstr (sentence, ==, row->sentence);
}

/* Whoever is told of a finding is told what to do. */
static void
test_advice (void)
{
  for (int kind = 0; kind < SW_TOLD_VERSION; kind++)
    g_assert_nonnull (sw_say_finding_advice (wording, (SwTold)kind));
  g_assert_nonnull (
      strstr (sw_say_finding_advice (wording, SW_TOLD_HEAD), "Test before you dose."));
  g_assert_nonnull (strstr (sw_say_finding_advice (wording, SW_TOLD_RESULT), "Do not dose by it."));
}

typedef struct
{
  const char *name;
  SwLossFacts facts;
  const char *part;
} LossRow;

static const LossRow loss_rows[] = {
  { "some",
    { .seq = 30, .utc_ms = AT_MS, .kept_seq = 10, .kept_utc_ms = AT_MS - 86400000 },
    "up to 20 entries written between 23 November 2026 06:00 and 24 November 2026 06:00 are "
    "missing" },
  { "all",
    { .seq = 30, .utc_ms = AT_MS },
    "nothing is in it of the 30 entries that were signed up to 24 November 2026" },
  { "reading",
    { .seq = 30, .utc_ms = AT_MS, .read_only = TRUE },
    "A backup or a snapshot does not" },
};

static void
test_loss (gconstpointer data)
{
  const LossRow *row = data;
  g_autofree char *sentence = sw_say_loss (wording, &row->facts);

  if (strstr (sentence, row->part) == NULL)
    g_error ("no \"%s\" in: %s", row->part, sentence);
}

static void
test_scope (void)
{
  g_autofree char *none = sw_say_verify_scope (wording, 40, 30, 1, -1);
  g_autofree char *quick = sw_say_verify_scope (wording, 140, 31, 41, 2);

  g_assert_cmpstr (none, ==,
                   "40 journal entries and 30 records were looked at. This PC has no checkpoint of "
                   "this file to compare it with.");
  g_assert_cmpstr (
      quick, ==,
      "140 journal entries and 31 records were looked at. The chain was computed from "
      "entry 41 on; up to there a checkpoint was believed. Checkpoints of this PC that "
      "it was compared with: 2.");
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  wording = sw_wording_new ("en", "Europe/Berlin");
  SW_TEST_ROWS ("/verify/sentence", rows, test_sentence);
  SW_TEST_ROWS ("/verify/loss", loss_rows, test_loss);
  g_test_add_func ("/verify/advice", test_advice);
  g_test_add_func ("/verify/scope", test_scope);
  status = g_test_run ();
  sw_wording_unref (wording);
  return status;
}
