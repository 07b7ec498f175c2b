/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of a store: the connection, the running act, cached statements.
 *
 * Only src/records and its tests include this; the engine stays hidden from every layer above.
 */
#pragma once

#include "records/cell-private.h"
#include "records/store.h"

#include <sqlite3.h>

G_BEGIN_DECLS

#define SW_APPLICATION_ID 0x53776c67 /* "Swlg" */
#define SW_SCHEMA_VERSION 2          /* user_version that this program writes */
#define SW_HASH_LENGTH 64            /* hex digits of a SHA-256 */

typedef struct
{
  gboolean open;
  SwActKind kind;
  gint64 person; /* 0 = the system */
  SwIdentified identified;
  char *workstation; /* Owned */
  char *reason;      /* Owned, or NULL */
  gint64 now_ms;
  int offset_min;
  gint64
      clock_back_ms; /* how far the clock stands before the journal's last time; 0 = it does not */
  gint64 clock_ahead_ms; /* how much further the clock has moved than the steady one since this
                            store's act before; 0 = by no more than a minute */
  gint64 number;         /* seq of the act's first journal row */
  gint64 last_seq;       /* of the journal */
  char last_hash[SW_HASH_LENGTH + 1];
} SwAct;

struct _SwStore
{
  sqlite3 *db;
  char *path; /* Owned */
  SwClock clock;
  gboolean read_only;
  int lock_fd; /* -1 = not held */
  int schema_version;
  SwAct act;
  /* Both clocks at this store's last act that wrote, at first when it was opened. */
  gint64 last_ms;
  gint64 last_steady_ms;
  GHashTable *statements; /* Owned: SQL text to sqlite3_stmt */
  /* "table rowid" to (changes that SQLite made) - (journal rows written for it); empty when they
   * agree, which the commit hook asks for. */
  GHashTable *unjournalled;
};

/* What a test may ask for; the public sw_store_open asks for nothing. */
typedef struct
{
  const char *vfs;  /* name of a registered SQLite VFS; NULL = the default one */
  long fs_type;     /* pretend this statfs f_type; 0 = ask the system */
  gboolean is_copy; /* of a backup, which is what to go back to: migrated without another one */
} SwStoreOptions;

SwStore *sw_store_open_with (const char *path,
                             SwOpenMode mode,
                             const SwClock *clock,
                             const SwStoreOptions *options,
                             GError **error);

/* Only looks, at a file of any version up to ours: takes no owner lock, runs no quick_check.
 * @at_rest: nobody writes there and no -wal file belongs to it (a backup or snapshot of ours); then
 * nothing at all is written beside it, whatever its folder allows. */
SwStore *
sw_store_peek (const char *path, gboolean at_rest, const SwStoreOptions *options, GError **error);

/* ---- connection.c ---- */

/* Opens the engine's connection with every safety setting on. */
gboolean
sw_connection_open (const char *path, int flags, const char *vfs, sqlite3 **db, GError **error);

/* ---- sql.c: every statement runs through these ---- */

/* A cached statement, reset and without bindings. (transfer none) */
sqlite3_stmt *sw_sql_prepare (SwStore *store, const char *sql, GError **error);
void sw_sql_bind (sqlite3_stmt *statement, const SwCell *cells, guint n_cells);
/* SQLITE_ROW or SQLITE_DONE; else @error is set and the statement reset. */
int sw_sql_step (SwStore *store, sqlite3_stmt *statement, GError **error);
/* Runs a statement that returns nothing. */
gboolean
sw_sql_run (SwStore *store, const char *sql, const SwCell *cells, guint n_cells, GError **error);
/* Any number of statements without parameters. */
gboolean sw_sql_execute (SwStore *store, const char *sql, GError **error);
/* First column of the first row; 0, NAN or NULL when there is none or it is NULL. */
gboolean sw_sql_integer (SwStore *store,
                         const char *sql,
                         const SwCell *cells,
                         guint n_cells,
                         gint64 *value,
                         GError **error);
gboolean sw_sql_real (SwStore *store,
                      const char *sql,
                      const SwCell *cells,
                      guint n_cells,
                      double *value,
                      GError **error);
gboolean sw_sql_text (SwStore *store,
                      const char *sql,
                      const SwCell *cells,
                      guint n_cells,
                      char **value,
                      GError **error);
/* First column of every row as gint64. (transfer full) */
GArray *
sw_sql_ids (SwStore *store, const char *sql, const SwCell *cells, guint n_cells, GError **error);

/* ---- act.c ---- */

void sw_act_install_hooks (SwStore *store);
/* From now on both clocks are expected to move alike. */
void sw_act_start_clocks (SwStore *store);
/* sw_act_begin for a migration; the file has no journal yet when @first. */
gboolean
sw_act_begin_migration (SwStore *store, gboolean first, const SwActor *actor, GError **error);
/* FALSE with an error when no act is running. */
gboolean sw_act_check_open (SwStore *store, GError **error);
/* A change made (+1) or journalled (-1). */
void sw_act_count (SwStore *store, const char *table, gint64 row, int change);

/* ---- journal.c ---- */

/* Writes one journal row in the running act. @lines: "new.column=value" and "old.column=value",
 * sorted here. @prior_seq 0 = none. */
gboolean sw_journal_write (SwStore *store,
                           const char *action,
                           const char *table,
                           gint64 row,
                           gint64 prior_seq,
                           GPtrArray *lines,
                           GError **error);
/* Last seq and hash; 0 and 64 zeros for an empty journal. */
gboolean sw_journal_last (
    SwStore *store, gint64 *seq, char hash[SW_HASH_LENGTH + 1], gint64 *utc_ms, GError **error);

G_END_DECLS
