/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heads that a restoration gave up are no finding, others stay one. */
#include "attack-bench.h"

#include "records/restore.h"

typedef struct
{
  const char *name;
  gboolean names_head; /* the head of the file that was replaced */
  gint64 lost_more;    /* added to its seq */
  gint64 time_ms;      /* added to the time of the newest checkpoint */
  gboolean found;
} RestorationCase;

static const RestorationCase restoration_cases[] = {
  { "says-so", TRUE, 0, 1000, FALSE },
  { "before-the-checkpoint", TRUE, 0, -DAY_MS, TRUE },
  { "of-less", TRUE, -8, 1000, TRUE },
  { "of-another", TRUE, -2, 1000, TRUE }, /* the seq signed, with another head */
  { "unreadable", FALSE, 0, 1000, FALSE },
};

/* Yesterday's copy put back by the program: the row names what was lost. */
static void
test_restoration (AttackBench *bench, gconstpointer data)
{
  const RestorationCase *row = data;
  g_autoptr (SwRestoration) restoration = sw_restoration_new ();
  g_autoptr (SwVerifyReport) report = NULL;
  const SwFinding *note;
  GError *error = NULL;

  if (row->names_head)
    {
      fixture_open (&bench->file, SW_OPEN_READ_ONLY);
      restoration->lost_head = sw_journal_head (bench->file.store, NULL);
      restoration->lost_seq = bench->last_seq + row->lost_more;
      fixture_close (&bench->file);
    }
  attack_put_back (bench);
  bench->file.now_ms += row->time_ms;
  fixture_open (&bench->file, SW_OPEN_WRITE);
  restoration->backup = g_strdup ("yesterday");
  restoration->kept_seq = fixture_ask (&bench->file, "SELECT max(seq) FROM journal");
  restoration->kept_head = sw_journal_head (bench->file.store, NULL);
  fixture_begin (&bench->file, SW_ACT_RESTORE, NULL);
  sw_restoration_insert (bench->file.store, restoration, &error);
  g_assert_no_error (error);
  fixture_commit (&bench->file);
  fixture_close (&bench->file);

  report = attack_verify (bench, &(SwVerifyOptions){ .trust_folder = bench->trust });
  g_assert_cmpint (attack_find (report->findings, SW_FINDING_HEAD) != NULL, ==, row->found);
  note = attack_get (report->notes, SW_FINDING_HEAD);
  g_assert_cmpstr (note->table, ==, "restoration");
  g_assert_cmpint (note->utc_ms, ==, bench->file.now_ms);
  g_assert_cmpint (note->kept_seq, ==, restoration->kept_seq);
  g_assert_cmpstr (note->expected, ==, restoration->lost_head);
}

/* A given head that a restoration names is information; another one stays a finding. */
static void
test_restoration_head (AttackBench *bench, gconstpointer data)
{
  g_autofree char *lost = NULL;
  const char *heads[2] = { NULL };
  RestorationCase row = restoration_cases[0];

  fixture_open (&bench->file, SW_OPEN_READ_ONLY);
  lost = sw_journal_head (bench->file.store, NULL);
  fixture_close (&bench->file);
  test_restoration (bench, &row);
  heads[0] = lost;
  attack_assert_finds (bench, &(SwVerifyOptions){ .heads = heads }, -1);
  lost[0] = lost[0] == '0' ? '1' : '0';
  attack_assert_finds (bench, &(SwVerifyOptions){ .heads = heads }, SW_FINDING_HEAD);
}

/* The row says that it went on from another journal than this one. */
static void
test_restoration_kept (AttackBench *bench, gconstpointer data)
{
  g_autoptr (SwRestoration) restoration = sw_restoration_new ();
  g_autoptr (SwVerifyReport) report = NULL;

  fixture_open (&bench->file, SW_OPEN_WRITE);
  restoration->backup = g_strdup ("x");
  restoration->kept_seq = 2;
  restoration->kept_head = g_strnfill (64, 'a');
  fixture_begin (&bench->file, SW_ACT_RESTORE, NULL);
  g_assert_true (sw_restoration_insert (bench->file.store, restoration, NULL));
  fixture_commit (&bench->file);
  fixture_close (&bench->file);
  report = attack_verify (bench, NULL);
  g_assert_cmpuint (report->findings->len, ==, 1);
  g_assert_cmpstr (attack_get (report->findings, SW_FINDING_HEAD)->column, ==, "kept_head");
}

/* The program's own restore names what it gave up; the same copy put back by hand names nothing. */
static void
test_by_program (AttackBench *bench, gconstpointer data)
{
  const SwRestoreOrder order = { .path = bench->file.path,
                                 .backup = bench->yesterday,
                                 .actor = { .identified = SW_IDENTIFIED_SYSTEM, .reason = "test" },
                                 .who = "N. Invented" };
  const SwVerifyOptions options = { .trust_folder = bench->trust };
  g_autoptr (SwVerifyReport) report = NULL;
  SwCheckpointLoss loss;
  GError *error = NULL;

  bench->file.now_ms += 60000;
  sw_backup_restore (&order, &bench->file.clock, &error);
  g_assert_no_error (error);
  report = attack_verify (bench, &options);
  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_cmpint (attack_get (report->notes, SW_FINDING_HEAD)->seq, ==, bench->last_seq);
  fixture_open (&bench->file, SW_OPEN_WRITE);
  g_assert_true (sw_checkpoint_compare (bench->file.store, bench->trust, &loss, NULL));
  g_assert_cmpuint (loss.n_lost, ==, 0);
  g_assert_cmpuint (loss.n_given_up, ==, 1);
}

/* ---- registration ---- */

static void
add (const char *group,
     const char *name,
     gconstpointer data,
     void (*func) (AttackBench *, gconstpointer))
{
  g_autofree char *path = g_strdup_printf ("/records/restoration/%s/%s", group, name);

  g_test_add (path, AttackBench, data, attack_set_up, func, attack_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (restoration_cases); i++)
    add ("restoration", restoration_cases[i].name, &restoration_cases[i], test_restoration);
  add ("restoration", "head", NULL, test_restoration_head);
  add ("restoration", "by-program", NULL, test_by_program);
  add ("restoration", "kept", NULL, test_restoration_kept);
  return g_test_run ();
}
