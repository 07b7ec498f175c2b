/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Acts: one action of a person, written whole or not at all.
 *
 *              begin                    commit, journal agrees
 *   [ none ] ---------> [ running ] ------------------------------> [ none ]
 *                           |   commit refused, cancel, close
 *                           +--------------------------------------> [ none ], nothing written
 *
 * Invariant: when the engine commits, every row it changed has its journal row, and every journal
 * row its change. The update hook counts the one, the journal writer the other; the commit hook
 * compares. It holds for statements that went round the row writer too: they are what it is for.
 */
#include "calc/fault.h"
#include "records/error-private.h"
#include "records/store-private.h"

#include <string.h>

/* A clock is put right by less than this without a word. No source: a minute is far more than a
 * time server corrects between two acts, and far less than what makes a test look timely. */
#define CLOCK_AHEAD_MS 60000

/* A key whose count is back at 0 goes, so that "all agree" is "the table is empty". Takes @key. */
static void
adjust_count (GHashTable *counts, char *key, int change)
{
  int count = GPOINTER_TO_INT (g_hash_table_lookup (counts, key)) + change;

  if (count == 0)
    {
      g_hash_table_remove (counts, key);
      g_free (key);
    }
  else
    g_hash_table_replace (counts, key, GINT_TO_POINTER (count));
}

void
sw_act_count (SwStore *store, const char *table, gint64 row, int change)
{
  adjust_count (store->unjournalled, g_strdup_printf ("%s %" G_GINT64_FORMAT, table, row), change);
}

/* SQLite calls this for every row of every table but its own, whoever wrote the statement. */
static void
update_cb (void *data, int operation, const char *database, const char *table, sqlite3_int64 row)
{
  sw_act_count (data, table, row, +1);
}

/* Anything but 0 turns the commit into a rollback. */
static int
commit_cb (void *data)
{
  SwStore *store = data;

  return g_hash_table_size (store->unjournalled) != 0;
}

static void
rollback_cb (void *data)
{
  SwStore *store = data;

  g_hash_table_remove_all (store->unjournalled);
}

void
sw_act_install_hooks (SwStore *store)
{
  sqlite3_update_hook (store->db, update_cb, store);
  sqlite3_commit_hook (store->db, commit_cb, store);
  sqlite3_rollback_hook (store->db, rollback_cb, store);
}

static void
end_act (SwStore *store)
{
  g_clear_pointer (&store->act.workstation, g_free);
  g_clear_pointer (&store->act.reason, g_free);
  store->act = (SwAct){ 0 };
  g_hash_table_remove_all (store->unjournalled);
}

/* What changes or hides something that others have relied on needs a why. */
static gboolean
check_reason (SwActKind kind, const SwActor *actor, GError **error)
{
  const SwFault fault = { .code = SW_FAULT_MISSING,
                          .quantity = SW_QUANTITY_REASON,
                          .value = NAN,
                          .low = -INFINITY,
                          .high = INFINITY };

  if (kind != SW_ACT_AMEND && kind != SW_ACT_VOID)
    return TRUE;
  if (actor->reason != NULL && *actor->reason != '\0')
    return TRUE;
  return sw_fault_set (error, &fault);
}

void
sw_act_start_clocks (SwStore *store)
{
  store->last_ms = sw_store_now (store);
  if (store->clock.steady_ms != NULL)
    store->last_steady_ms = store->clock.steady_ms (store->clock.data);
}

/* A clock put back shows in the journal's times; one put ahead only against a clock that nobody can
 * set. */
static gint64
measure_ahead (SwStore *store)
{
  gint64 ahead;

  if (store->clock.steady_ms == NULL)
    return 0;
  ahead = (store->act.now_ms - store->last_ms)
          - (store->clock.steady_ms (store->clock.data) - store->last_steady_ms);
  return ahead > CLOCK_AHEAD_MS ? ahead : 0;
}

/* Where the journal stands, and how the act's time stands to its last one. */
static gboolean
continue_journal (SwStore *store, GError **error)
{
  SwAct *act = &store->act;
  gint64 last_ms;

  if (!sw_journal_last (store, &act->last_seq, act->last_hash, &last_ms, error))
    return FALSE;
  act->clock_back_ms = last_ms > act->now_ms ? last_ms - act->now_ms : 0;
  act->clock_ahead_ms = measure_ahead (store);
  return TRUE;
}

static gboolean
refuse_begin (SwStore *store, GError **error)
{
  if (store->read_only)
    g_set_error_literal (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_READ_ONLY,
                         "the file is open for reading only");
  else if (store->act.open)
    g_set_error_literal (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED,
                         "an act is running already");
  else
    return FALSE;
  return TRUE;
}

/* IMMEDIATE: a writer that would have to wait is told now, and not in the middle of the act. The
 * clock is asked inside the transaction, so that the journal's times are in the order of its rows.
 */
static gboolean
start_act (SwStore *store, SwActKind kind, const SwActor *actor, GError **error)
{
  SwAct *act = &store->act;

  if (!sw_sql_execute (store, "BEGIN IMMEDIATE", error))
    return FALSE;
  act->open = TRUE;
  act->kind = kind;
  act->person = actor->person;
  act->identified = actor->identified;
  /* Host names and command lines may be any bytes; the file holds UTF-8. */
  act->workstation = g_utf8_make_valid (
      actor->workstation != NULL ? actor->workstation : g_get_host_name (), -1);
  act->reason = actor->reason != NULL ? g_utf8_make_valid (actor->reason, -1) : NULL;
  act->now_ms = sw_store_now (store);
  act->offset_min = sw_store_offset_at (store, act->now_ms);
  return TRUE;
}

gboolean
sw_act_begin (SwStore *store, SwActKind kind, const SwActor *actor, GError **error)
{
  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  g_return_val_if_fail ((int)kind >= 0 && kind < SW_N_ACTS, FALSE);
  g_return_val_if_fail ((int)actor->identified >= 0 && actor->identified < SW_N_IDENTIFIED, FALSE);

  if (refuse_begin (store, error) || !check_reason (kind, actor, error)
      || !start_act (store, kind, actor, error))
    return FALSE;
  if (continue_journal (store, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

gboolean
sw_act_begin_migration (SwStore *store, gboolean first, const SwActor *actor, GError **error)
{
  if (!first)
    return sw_act_begin (store, SW_ACT_MIGRATE, actor, error);
  /* Version 1 makes the journal itself: there is nothing to continue. */
  memset (store->act.last_hash, '0', SW_HASH_LENGTH);
  return start_act (store, SW_ACT_MIGRATE, actor, error);
}

gboolean
sw_act_check_open (SwStore *store, GError **error)
{
  if (store->act.open && sqlite3_get_autocommit (store->db) == 0)
    return TRUE;
  g_set_error_literal (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED,
                       store->act.open ? "the act was rolled back by an earlier error"
                                       : "no act is running");
  return FALSE;
}

gboolean
sw_act_commit (SwStore *store, GError **error)
{
  g_return_val_if_fail (store != NULL, FALSE);

  if (!sw_act_check_open (store, error) || !sw_sql_execute (store, "COMMIT", error))
    {
      /* a refused commit leaves the transaction open: the hook wants it rolled back */
      sw_act_cancel (store);
      return FALSE;
    }
  /* an act that wrote nothing has said nothing about the clock either */
  if (store->act.number != 0)
    sw_act_start_clocks (store);
  end_act (store);
  return TRUE;
}

void
sw_act_cancel (SwStore *store)
{
  g_return_if_fail (store != NULL);

  if (!store->act.open)
    return;
  /* SQLite has rolled back by itself after some errors (disk full, I/O). */
  if (sqlite3_get_autocommit (store->db) == 0)
    sqlite3_exec (store->db, "ROLLBACK", NULL, NULL, NULL);
  end_act (store);
}

gint64
sw_act_now (SwStore *store)
{
  g_return_val_if_fail (store != NULL, 0);
  return store->act.open ? store->act.now_ms : sw_store_now (store);
}
