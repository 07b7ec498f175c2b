/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The engine's connection, with every safety setting on before the first statement runs.
 *
 * Source of the settings: SQLite, "Defense Against The Dark Arts" (sqlite.org/security.html). Its
 * limits are taken over, save those that our own schema needs larger.
 */
#include "records/error-private.h"
#include "records/function-private.h"
#include "records/store-private.h"

#define BUSY_TIMEOUT_MS 2000

typedef struct
{
  int id;
  int value;
} Setting;

static const Setting limits[] = {
  { SQLITE_LIMIT_LENGTH, 4000000 },
  { SQLITE_LIMIT_SQL_LENGTH, 100000 },
  { SQLITE_LIMIT_COLUMN, 100 },
  { SQLITE_LIMIT_EXPR_DEPTH, 100 },
  { SQLITE_LIMIT_COMPOUND_SELECT, 3 },
  { SQLITE_LIMIT_VDBE_OP, 25000 },
  { SQLITE_LIMIT_FUNCTION_ARG, 8 },
  { SQLITE_LIMIT_ATTACHED, 0 },
  { SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 50 },
  { SQLITE_LIMIT_VARIABLE_NUMBER, 100 },
  { SQLITE_LIMIT_TRIGGER_DEPTH, 10 },
};

static const Setting switches[] = {
  { SQLITE_DBCONFIG_DEFENSIVE, 1 },
  { SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0 },
  { SQLITE_DBCONFIG_ENABLE_FKEY, 1 },
  { SQLITE_DBCONFIG_ENABLE_TRIGGER, 1 },
  { SQLITE_DBCONFIG_DQS_DML, 0 },
  { SQLITE_DBCONFIG_DQS_DDL, 0 },
  { SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0 },
  /* A -wal file of another file, found beside this one, must not be written into it when all that
   * was done was to look and refuse. Who has worked checkpoints by a statement (store.c). */
  { SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1 },
};

/* recursive_triggers: otherwise INSERT OR REPLACE would delete without the trigger that refuses it.
 */
static const char pragmas[] = "PRAGMA cell_size_check = ON; PRAGMA recursive_triggers = ON;"
                              "PRAGMA synchronous = FULL; PRAGMA temp_store = MEMORY";

static gboolean
apply_settings (sqlite3 *db)
{
  for (gsize i = 0; i < G_N_ELEMENTS (limits); i++)
    sqlite3_limit (db, limits[i].id, limits[i].value);
  for (gsize i = 0; i < G_N_ELEMENTS (switches); i++)
    if (sqlite3_db_config (db, switches[i].id, switches[i].value, NULL) != SQLITE_OK)
      return FALSE;
  return TRUE;
}

gboolean
sw_connection_open (const char *path, int flags, const char *vfs, sqlite3 **db, GError **error)
{
  int code = sqlite3_open_v2 (path, db, flags | SQLITE_OPEN_EXRESCODE, vfs);

  if (code == SQLITE_OK && !apply_settings (*db))
    code = SQLITE_MISUSE;
  if (code == SQLITE_OK)
    code = sw_functions_install (*db);
  if (code == SQLITE_OK)
    {
      sqlite3_busy_timeout (*db, BUSY_TIMEOUT_MS);
      code = sqlite3_exec (*db, pragmas, NULL, NULL, NULL);
    }
  if (code == SQLITE_OK)
    return TRUE;
  sw_records_error_set (error, *db, code, path);
  sqlite3_close (g_steal_pointer (db));
  return FALSE;
}
