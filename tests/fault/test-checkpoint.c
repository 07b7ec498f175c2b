/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A power cut at every single operation of acts with a checkpoint after each. The trust folder
 * keeps all that was ever appended to it, which is the worst case: not one of its lines may name a
 * head that the file lost with the power, or an honest file would be called shortened. */
#include "records/checkpoint.h"
#include "records/verify.h"
#include "script.h"
#include "vfs-cut.h"

#define ACTS 4

/* Gives the number of checkpoints that were acknowledged. */
static int
run_until_cut (Script *script, const char *trust, gboolean synced)
{
  SwStore *store = script_open (script, CUT_VFS, NULL);
  int acknowledged = 0;

  if (store == NULL)
    return 0;
  if (!synced)
    sqlite3_exec (store->db, "PRAGMA synchronous = OFF", NULL, NULL, NULL);
  while (acknowledged < ACTS && script_run (script, store, acknowledged, NULL)
         && sw_checkpoint_sign (store, trust, NULL, NULL))
    acknowledged++;
  sw_store_close (store);
  return acknowledged;
}

static void
assert_recovered (Script *script, const char *trust, int acknowledged)
{
  const SwVerifyOptions options = { .trust_folder = trust };
  g_autoptr (SwVerifyReport) report = NULL;
  SwCheckpointLoss loss;
  GError *error = NULL;
  SwStore *store = script_open (script, NULL, &error);

  g_assert_no_error (error);
  report = sw_verify_with (store, &options, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_cmpint (report->checkpoints, >=, acknowledged);
  g_assert_cmpint (report->outside, >=, report->checkpoints);
  g_assert_cmpint (report->outside, <=, acknowledged + 1);
  /* and it goes on */
  sw_checkpoint_sign (store, trust, NULL, &error);
  g_assert_no_error (error);
  sw_checkpoint_compare (store, trust, &loss, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (loss.n_lost + loss.n_unreadable, ==, 0);
  sw_store_close (store);
}

/* FALSE when the run ended before the cut came. */
static gboolean
cut_once (int at, CutLoss loss)
{
  g_autofree char *trust = NULL;
  Script before;
  Script after;
  gboolean struck;
  int acknowledged;

  script_set_up (&before);
  trust = g_build_filename (before.folder, "trust", NULL);
  cut_arm (CUT_POWER, at);
  acknowledged = run_until_cut (&before, trust, TRUE);
  struck = cut_has_struck ();
  script_set_up_empty (&after);
  image_write_survivors (after.folder, loss, (guint32)at);
  cut_arm (CUT_NEVER, 0);
  after.now_ms = before.now_ms;
  assert_recovered (&after, trust, acknowledged);
  script_tear_down (&after);
  script_tear_down (&before);
  return struck;
}

static void
test_power (gconstpointer data)
{
  CutLoss loss = (CutLoss)GPOINTER_TO_INT (data);
  int at = 1;

  while (cut_once (at, loss))
    at++;
  g_test_message ("%d cuts", at - 1);
  /* four acts and four checkpoints: fewer operations would mean that the shim sees nothing */
  g_assert_cmpint (at, >, 50);
}

/* The check itself: without the sync that comes with every act, lines do name heads that are lost.
 */
static void
test_power_without_sync (void)
{
  gboolean lost = FALSE;

  for (int at = 20; at < 120 && !lost; at += 3)
    {
      g_autofree char *trust = NULL;
      Script before;
      Script after;
      SwStore *store;
      SwCheckpointLoss loss = { 0 };

      script_set_up (&before);
      trust = g_build_filename (before.folder, "trust", NULL);
      cut_arm (CUT_POWER, at);
      run_until_cut (&before, trust, FALSE);
      script_set_up_empty (&after);
      image_write_survivors (after.folder, CUT_LOSE_ALL, 1);
      cut_arm (CUT_NEVER, 0);
      store = script_open (&after, NULL, NULL);
      lost = store != NULL && sw_checkpoint_compare (store, trust, &loss, NULL) && loss.n_lost > 0;
      sw_store_close (store);
      script_tear_down (&after);
      script_tear_down (&before);
    }
  g_assert_true (lost);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  cut_register ();
  script_make_master ();
  g_test_add_data_func ("/fault/checkpoint/lose-all", GINT_TO_POINTER (CUT_LOSE_ALL), test_power);
  g_test_add_data_func ("/fault/checkpoint/keep-all", GINT_TO_POINTER (CUT_KEEP_ALL), test_power);
  g_test_add_data_func ("/fault/checkpoint/lose-some", GINT_TO_POINTER (CUT_LOSE_SOME), test_power);
  g_test_add_func ("/fault/checkpoint/without-sync-it-would-accuse", test_power_without_sync);
  status = g_test_run ();
  script_free_master ();
  return status;
}
