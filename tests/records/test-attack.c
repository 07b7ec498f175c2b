/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Attacks on a journal, each verified without anything from outside of the file, with a head that
 * an export printed, and with the checkpoints of the trust folder: what is found, and what is not.
 */
#include "attack-bench.h"

/* ---- attacks ---- */

static void
attack_nothing (AttackBench *bench)
{
}

static void
rename_person (AttackBench *bench)
{
  forger_edit (bench->file.path, "UPDATE person SET name = 'Somebody Else' WHERE initials = 'B3';"
                                 "UPDATE journal SET entry = replace(entry, 'new.name=N. Invented',"
                                 " 'new.name=Somebody Else') WHERE entry LIKE '%new.initials=B3%'");
}

/* Makes the rest of the journal fit, and leaves the checkpoints, which do not. */
static void
attack_rewrite (AttackBench *bench)
{
  rename_person (bench);
  forger_rechain (bench->file.path, FORGER_KEEP);
}

/* The same, the checkpoints signed anew with another key. */
static void
attack_rewrite_resigned (AttackBench *bench)
{
  rename_person (bench);
  forger_rechain (bench->file.path, FORGER_RESIGN);
}

static void
delete_after (AttackBench *bench, gint64 seq)
{
  g_autofree char *sql
      = g_strdup_printf ("DELETE FROM person WHERE journal_seq > %" G_GINT64_FORMAT ";"
                         "DELETE FROM checkpoint WHERE journal_seq > %" G_GINT64_FORMAT ";"
                         "DELETE FROM journal WHERE seq > %" G_GINT64_FORMAT,
                         seq, seq, seq);

  forger_edit (bench->file.path, sql);
}

static void
attack_last_ten (AttackBench *bench)
{
  delete_after (bench, bench->last_seq - 10);
}

/* What nobody has signed for is nobody's word. */
static void
attack_unsigned_end (AttackBench *bench)
{
  delete_after (bench, bench->second_seq);
}

/* Put back, and worked in and signed as if nothing had been. */
static void
attack_put_back_and_go_on (AttackBench *bench)
{
  attack_put_back (bench);
  fixture_open (&bench->file, SW_OPEN_WRITE);
  attack_add_people (bench, "D", 20);
  attack_sign (bench);
  fixture_close (&bench->file);
}

static void
attack_checkpoint_rows (AttackBench *bench)
{
  forger_edit (bench->file.path, "DELETE FROM checkpoint");
}

/* The last checkpoint and all after it taken out of table and journal, another row instead. */
static void
attack_checkpoint_replaced (AttackBench *bench)
{
  delete_after (bench, bench->second_seq - 1);
  fixture_open (&bench->file, SW_OPEN_WRITE);
  attack_add_people (bench, "E", 3);
  fixture_close (&bench->file);
}

/* Another identity: the trust folder knows no such site. */
static void
attack_identity (AttackBench *bench)
{
  g_autofree char *old = fixture_sql (&bench->file, "SELECT uuid FROM site");
  g_autofree char *sql = NULL;

  g_strchomp (old);
  sql = g_strdup_printf ("UPDATE site SET uuid = replace(uuid, substr(uuid, 1, 8), '00000000');"
                         "UPDATE journal SET entry = replace(entry, '%s',"
                         " (SELECT uuid FROM site))",
                         old);
  forger_edit (bench->file.path, sql);
  forger_rechain (bench->file.path, FORGER_RESIGN);
}

/* Whoever may write into the trust folder may shorten it, too. */
static void
attack_folder_too (AttackBench *bench)
{
  attack_put_back (bench);
  g_free (fixture_run ("cd '%s' && for f in *.checkpoints; do head -n 1 $f > t; mv t $f; done",
                       bench->trust));
}

typedef struct
{
  const char *name;
  void (*attack) (AttackBench *bench);
  int alone;   /* finding expected without anything from outside; -1 = none: it is not found */
  int by_head; /* with the exported head */
  int by_folder;
  gboolean lost; /* what the quick comparison says */
} AttackCase;

static const AttackCase attack_cases[] = {
  { "nothing", attack_nothing, -1, -1, -1, FALSE },
  { "rewrite", attack_rewrite, SW_FINDING_CHECKPOINT, SW_FINDING_HEAD, SW_FINDING_HEAD, TRUE },
  { "rewrite-resigned", attack_rewrite_resigned, -1, SW_FINDING_HEAD, SW_FINDING_HEAD, TRUE },
  { "last-ten", attack_last_ten, -1, SW_FINDING_HEAD, SW_FINDING_HEAD, TRUE },
  { "unsigned-end", attack_unsigned_end, -1, -1, -1, FALSE },
  { "put-back", attack_put_back, -1, SW_FINDING_HEAD, SW_FINDING_HEAD, TRUE },
  { "put-back-and-go-on", attack_put_back_and_go_on, -1, SW_FINDING_HEAD, SW_FINDING_HEAD, TRUE },
  { "checkpoint-rows", attack_checkpoint_rows, SW_FINDING_ROW_MISSING, SW_FINDING_ROW_MISSING,
    SW_FINDING_ROW_MISSING, FALSE },
  { "checkpoint-replaced", attack_checkpoint_replaced, -1, SW_FINDING_HEAD, SW_FINDING_HEAD, TRUE },
  { "identity", attack_identity, -1, SW_FINDING_HEAD, -1, FALSE },
  { "folder-too", attack_folder_too, -1, SW_FINDING_HEAD, -1, FALSE },
};

static void
test_attack (AttackBench *bench, gconstpointer data)
{
  const AttackCase *row = data;
  const char *const heads[] = { bench->exported, NULL };
  SwCheckpointLoss loss;
  GError *error = NULL;

  row->attack (bench);
  attack_assert_finds (bench, NULL, row->alone);
  attack_assert_finds (bench, &(SwVerifyOptions){ .heads = heads }, row->by_head);
  attack_assert_finds (bench, &(SwVerifyOptions){ .trust_folder = bench->trust }, row->by_folder);
  fixture_open (&bench->file, SW_OPEN_READ_ONLY);
  sw_checkpoint_compare (bench->file.store, bench->trust, &loss, &error);
  g_assert_no_error (error);
  g_assert_cmpint (loss.n_lost > 0, ==, row->lost);
}

/* ---- what exactly is said ---- */

static void
test_words (AttackBench *bench, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = NULL;
  const SwFinding *finding;
  SwCheckpointLoss loss;

  attack_last_ten (bench);
  report = attack_verify (bench, &(SwVerifyOptions){ .trust_folder = bench->trust });
  finding = attack_get (report->findings, SW_FINDING_HEAD);
  g_assert_cmpuint (report->findings->len, ==, 1);
  g_assert_cmpint (finding->seq, ==, bench->second_seq);
  g_assert_cmpint (finding->kept_seq, ==, bench->first_seq);
  g_assert_cmpint (finding->count, ==, 1);
  g_assert_cmpint (finding->utc_ms, ==, bench->file.now_ms - 1000);
  g_assert_null (finding->found);
  g_assert_cmpint (report->outside, ==, 2);
  fixture_open (&bench->file, SW_OPEN_READ_ONLY);
  g_assert_true (sw_checkpoint_compare (bench->file.store, bench->trust, &loss, NULL));
  g_assert_cmpint (loss.seq, ==, bench->second_seq);
  g_assert_cmpint (loss.kept_seq, ==, bench->first_seq);
  g_assert_cmpint (loss.last_seq, ==, bench->last_seq - 10);
}

/* A key that this PC does not know speaks neither for nor against the file. */
static void
test_unknown_key (AttackBench *bench, gconstpointer data)
{
  g_autofree char *elsewhere = g_build_filename (bench->file.folder, "elsewhere", NULL);
  g_autoptr (SwVerifyReport) report
      = attack_verify (bench, &(SwVerifyOptions){ .trust_folder = elsewhere });
  const SwFinding *note = attack_get (report->notes, SW_FINDING_CHECKPOINT);

  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_cmpuint (report->notes->len, ==, 1);
  g_assert_cmpstr (note->column, ==, "key");
  g_assert_cmpint (report->outside, ==, 0);
  g_assert_cmpint (report->checkpoints, ==, 2);
  /* looking makes no folder */
  g_assert_false (g_file_test (elsewhere, G_FILE_TEST_EXISTS));
}

/* A signature edited through the row writer, journal and all. */
static void
test_signature (AttackBench *bench, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = NULL;
  g_autoptr (SwCheckpoint) row = NULL;

  fixture_open (&bench->file, SW_OPEN_WRITE);
  row = sw_checkpoint_last (bench->file.store, NULL);
  row->signature[7] = row->signature[7] == '0' ? '1' : '0';
  fixture_begin (&bench->file, SW_ACT_SETUP, NULL);
  g_assert_true (sw_checkpoint_update (bench->file.store, row, NULL));
  fixture_commit (&bench->file);
  fixture_close (&bench->file);
  report = attack_verify (bench, NULL);
  g_assert_cmpuint (report->findings->len, ==, 1);
  g_assert_cmpstr (attack_get (report->findings, SW_FINDING_CHECKPOINT)->column, ==, "signature");
}

/* A line that anybody could have written accuses nobody. */
static void
test_forged_line (AttackBench *bench, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = NULL;

  g_free (fixture_run ("cd '%s' && for f in *.checkpoints; do sed '$s/^[0-9]*/999/' $f > t;"
                       " cat t >> $f; rm t; done",
                       bench->trust));
  report = attack_verify (bench, &(SwVerifyOptions){ .trust_folder = bench->trust });
  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_cmpint (attack_get (report->notes, SW_FINDING_CHECKPOINT)->count, ==, 1);
}

/* ---- quick ---- */

static void
test_quick (AttackBench *bench, gconstpointer data)
{
  const SwVerifyOptions quick = { .trust_folder = bench->trust, .quick = TRUE };
  g_autoptr (SwVerifyReport) sound = attack_verify (bench, &quick);
  g_autoptr (SwVerifyReport) old = NULL;
  g_autoptr (SwVerifyReport) fresh = NULL;

  g_assert_cmpuint (sound->findings->len, ==, 0);
  g_assert_cmpint (sound->chain_from, ==, bench->second_seq + 1);
  g_assert_cmpint (sound->journal_rows, ==, bench->last_seq);
  /* an entry before the checkpoint whose hash was left alone is what quick does not look at */
  forger_edit (bench->file.path, "UPDATE journal SET workstation = 'x' WHERE seq = 3");
  old = attack_verify (bench, &quick);
  g_assert_cmpuint (old->findings->len, ==, 0);
  attack_assert_finds (bench, &(SwVerifyOptions){ .trust_folder = bench->trust }, SW_FINDING_CHAIN);
  /* rows are all compared, and the chain after the checkpoint */
  forger_edit (bench->file.path,
               "UPDATE person SET name = 'x' WHERE initials = 'A1';"
               "UPDATE journal SET workstation = 'x' WHERE seq = (SELECT max(seq) FROM journal)");
  fresh = attack_verify (bench, &quick);
  g_assert_nonnull (attack_find (fresh->findings, SW_FINDING_ROW_CHANGED));
  g_assert_nonnull (attack_find (fresh->findings, SW_FINDING_CHAIN));
}

/* Nothing outside to start from: the whole chain. */
static void
test_quick_alone (AttackBench *bench, gconstpointer data)
{
  g_autoptr (SwVerifyReport) report = attack_verify (bench, &(SwVerifyOptions){ .quick = TRUE });

  g_assert_cmpint (report->chain_from, ==, 1);
}

/* ---- registration ---- */

static void
add (const char *group,
     const char *name,
     gconstpointer data,
     void (*func) (AttackBench *, gconstpointer))
{
  g_autofree char *path = g_strdup_printf ("/records/attack/%s/%s", group, name);

  g_test_add (path, AttackBench, data, attack_set_up, func, attack_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (attack_cases); i++)
    add ("case", attack_cases[i].name, &attack_cases[i], test_attack);
  add ("say", "words", NULL, test_words);
  add ("say", "unknown-key", NULL, test_unknown_key);
  add ("say", "signature", NULL, test_signature);
  add ("say", "forged-line", NULL, test_forged_line);
  add ("quick", "chain", NULL, test_quick);
  add ("quick", "alone", NULL, test_quick_alone);
  return g_test_run ();
}
