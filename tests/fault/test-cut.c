/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Power cuts and full disks at every single write, sync, truncate and delete of a whole test.
 *
 * After each cut the file is opened as a machine would find it: every act that was acknowledged is
 * there, the one that was running is there whole or not at all, verify finds nothing, and the test
 * can be finished.
 */
#include "script.h"
#include "vfs-cut.h"

#include <stdlib.h>

#define SMALL_CHECKPOINT "PRAGMA wal_autocheckpoint = 10"
#define READING_ACT 2

/* Opens, runs, closes; gives the number of acts acknowledged. @started: those that were begun. */
static int
run_until_cut (Script *script, gboolean checkpoints, int *started)
{
  SwStore *store = script_open (script, CUT_VFS, NULL);
  int acknowledged = 0;

  *started = 0;
  if (store == NULL)
    return 0;
  if (checkpoints)
    sqlite3_exec (store->db, SMALL_CHECKPOINT, NULL, NULL, NULL);
  for (int i = 0; i < SCRIPT_ACTS; i++)
    {
      *started = i + 1;
      if (!script_run (script, store, i, NULL))
        break;
      acknowledged = i + 1;
    }
  sw_store_close (store);
  return acknowledged;
}

/* FALSE when the run ended before the cut came. */
static gboolean
cut_once (int at, CutLoss loss, gboolean checkpoints)
{
  gboolean struck;
  Script before;
  Script after;
  int started;
  int acknowledged;

  script_set_up (&before);
  cut_arm (CUT_POWER, at);
  acknowledged = run_until_cut (&before, checkpoints, &started);
  struck = cut_has_struck ();
  script_set_up_empty (&after);
  image_write_survivors (after.folder, loss, (guint32)at);
  cut_arm (CUT_NEVER, 0);
  script_assert_recovered (&after, acknowledged, started);
  script_tear_down (&after);
  script_tear_down (&before);
  return struck;
}

static void
test_power (gconstpointer data)
{
  int number = GPOINTER_TO_INT (data);
  CutLoss loss = (CutLoss)(number / 2);
  gboolean checkpoints = number % 2 != 0;
  int at = 1;

  while (cut_once (at, loss, checkpoints))
    at++;
  g_test_message ("%d cuts", at - 1);
  /* eleven acts of several pages each: fewer operations would mean that the shim sees nothing */
  g_assert_cmpint (at, >, 100);
}

/* The shim itself: a file that is not synced must be able to lose something, or the test above
 * proves nothing. With synchronous = OFF acknowledged acts do get lost. */
static void
test_power_without_sync (void)
{
  gboolean lost = FALSE;

  for (int at = 20; at < 120 && !lost; at += 3)
    {
      Script before;
      Script after;
      SwStore *store;
      int acknowledged = 0;

      script_set_up (&before);
      cut_arm (CUT_POWER, at);
      store = script_open (&before, CUT_VFS, NULL);
      g_assert_nonnull (store);
      sqlite3_exec (store->db, "PRAGMA synchronous = OFF", NULL, NULL, NULL);
      while (acknowledged < SCRIPT_ACTS && script_run (&before, store, acknowledged, NULL))
        acknowledged++;
      sw_store_close (store);
      script_set_up_empty (&after);
      image_write_survivors (after.folder, CUT_LOSE_ALL, 1);
      cut_arm (CUT_NEVER, 0);
      store = script_open (&after, NULL, NULL);
      lost = store == NULL || script_count_acts (store) < acknowledged;
      sw_store_close (store);
      script_tear_down (&after);
      script_tear_down (&before);
    }
  g_assert_true (lost);
}

/* ---- create ---- */

/* FALSE when the run ended before the cut came. */
static gboolean
cut_create (int at)
{
  const SwStoreOptions options = { .vfs = CUT_VFS };
  Script script;
  SwStore *store;
  gboolean struck;

  script_set_up_empty (&script);
  cut_arm (CUT_POWER, at);
  store = sw_store_open_with (script.path, SW_OPEN_CREATE, &script.clock, &options, NULL);
  sw_store_close (store);
  struck = cut_has_struck ();
  cut_arm (CUT_NEVER, 0);
  /* the file is whole or not there at all */
  store = sw_store_open (
      script.path, g_file_test (script.path, G_FILE_TEST_EXISTS) ? SW_OPEN_WRITE : SW_OPEN_CREATE,
      &script.clock, NULL);
  g_assert_nonnull (store);
  sw_store_close (store);
  script_tear_down (&script);
  return struck;
}

static void
test_create (void)
{
  int at = 1;

  while (cut_create (at))
    at++;
  g_test_message ("%d cuts", at - 1);
  g_assert_cmpint (at, >, 20);
}

/* ---- disk full ---- */

static void
assert_full (const GError *error)
{
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DISK_FULL);
}

/* Opens while the disk may be full; after the error there is space again and it opens. */
static SwStore *
open_in_spite (Script *script)
{
  g_autoptr (GError) error = NULL;
  SwStore *store = script_open (script, CUT_VFS, &error);

  if (store != NULL)
    return store;
  assert_full (error);
  cut_space_returns ();
  g_clear_error (&error);
  store = script_open (script, CUT_VFS, &error);
  g_assert_no_error (error);
  return store;
}

/* One act; when the disk is full the file must be as before, and the act must go through later. */
static void
run_in_spite (Script *script, SwStore *store, int i)
{
  g_autoptr (GError) error = NULL;

  if (script_run (script, store, i, &error))
    return;
  assert_full (error);
  g_assert_cmpint (script_count_acts (store), ==, i);
  g_clear_error (&error);
  g_assert_false (script_run (script, store, i, &error)); /* still full */
  assert_full (error);
  cut_space_returns ();
  g_clear_error (&error);
  script_run (script, store, i, &error);
  g_assert_no_error (error);
}

/* FALSE when the run ended before the disk was full. */
static gboolean
fill_once (int at, gboolean checkpoints)
{
  Script script;
  SwStore *store;
  gboolean struck;

  script_set_up (&script);
  cut_arm (CUT_FULL, at);
  store = open_in_spite (&script);
  if (checkpoints)
    sqlite3_exec (store->db, SMALL_CHECKPOINT, NULL, NULL, NULL);
  for (int i = 0; i < SCRIPT_ACTS; i++)
    run_in_spite (&script, store, i);
  g_assert_cmpint (script_count_acts (store), ==, SCRIPT_ACTS);
  sw_store_close (store); /* the disk may fill only here */
  struck = cut_has_struck ();
  cut_arm (CUT_NEVER, 0);
  script_assert_recovered (&script, SCRIPT_ACTS, SCRIPT_ACTS);
  script_tear_down (&script);
  return struck;
}

static void
test_full (gconstpointer data)
{
  int at = 1;

  while (fill_once (at, GPOINTER_TO_INT (data)))
    at++;
  g_test_message ("%d times full", at - 1);
  g_assert_cmpint (at, >, 100);
}

/* ---- the price of a reading ---- */

/* One act, one sync of the WAL file. */
static void
test_one_sync (void)
{
  GError *error = NULL;
  Script script;
  SwStore *store;

  script_set_up (&script);
  cut_arm (CUT_NEVER, 0);
  store = script_open (&script, CUT_VFS, &error);
  g_assert_no_error (error);
  for (int i = 0; i <= READING_ACT; i++)
    {
      int before = cut_count_syncs ();

      script_run (&script, store, i, &error);
      g_assert_no_error (error);
      /* the first act of a WAL file syncs its header, too */
      if (i > 0)
        g_assert_cmpint (cut_count_syncs () - before, ==, 1);
    }
  sw_store_close (store);
  script_tear_down (&script);
}

int
main (int argc, char **argv)
{
  static const char *const names[]
      = { "lose-all",  "lose-all-checkpoints", "keep-all", "keep-all-checkpoints",
          "lose-some", "lose-some-checkpoints" };
  int status;

  g_test_init (&argc, &argv, NULL);
  G_STATIC_ASSERT (G_N_ELEMENTS (names) == 2 * CUT_N_LOSSES);
  cut_register ();
  script_make_master ();
  for (int i = 0; i < (int)G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_strconcat ("/fault/power/", names[i], NULL);

      g_test_add_data_func (path, GINT_TO_POINTER (i), test_power);
    }
  g_test_add_func ("/fault/power/without-sync-it-would-be-lost", test_power_without_sync);
  g_test_add_func ("/fault/create", test_create);
  g_test_add_data_func ("/fault/full/plain", GINT_TO_POINTER (FALSE), test_full);
  g_test_add_data_func ("/fault/full/checkpoints", GINT_TO_POINTER (TRUE), test_full);
  g_test_add_func ("/fault/one-sync-an-act", test_one_sync);
  status = g_test_run ();
  script_free_master ();
  return status;
}
