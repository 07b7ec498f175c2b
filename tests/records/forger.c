/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See forger.h. */
#include "forger.h"

#include <sodium.h>
#include <sqlite3.h>
#include <string.h>

#define HASH_LENGTH 64

static sqlite3 *
open_raw (const char *path)
{
  sqlite3 *db = NULL;

  g_assert_cmpint (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE, NULL), ==, SQLITE_OK);
  return db;
}

static void
run (sqlite3 *db, const char *sql)
{
  char *message = NULL;

  if (sqlite3_exec (db, sql, NULL, NULL, &message) != SQLITE_OK)
    g_error ("%s: %s", sql, message);
}

/* One text, "" for none. (transfer full) */
static char *
ask (sqlite3 *db, const char *sql, gint64 key)
{
  sqlite3_stmt *statement = NULL;
  char *text;

  g_assert_cmpint (sqlite3_prepare_v2 (db, sql, -1, &statement, NULL), ==, SQLITE_OK);
  sqlite3_bind_int64 (statement, 1, key);
  sqlite3_step (statement);
  text = g_strdup ((const char *)sqlite3_column_text (statement, 0));
  sqlite3_finalize (statement);
  return text != NULL ? text : g_strdup ("");
}

/* ---- triggers ---- */

/* (transfer full) the triggers' texts; they are gone then */
static char *
drop_triggers (sqlite3 *db)
{
  char *texts
      = ask (db, "SELECT group_concat(sql, ';') FROM sqlite_schema WHERE type = 'trigger'", 0);
  g_autofree char *drops = ask (
      db,
      "SELECT group_concat('DROP TRIGGER ' || name, ';') FROM sqlite_schema WHERE type = 'trigger'",
      0);

  run (db, drops);
  return texts;
}

void
forger_edit (const char *path, const char *sql)
{
  sqlite3 *db = open_raw (path);
  g_autofree char *triggers = NULL;

  run (db, "BEGIN");
  triggers = drop_triggers (db);
  run (db, sql);
  run (db, triggers);
  run (db, "COMMIT");
  sqlite3_close (db);
}

/* ---- the chain ---- */

static char *
compute_hash (const char *entry)
{
  g_autofree char *with_end = g_strconcat (entry, "\n", NULL);

  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, with_end, -1);
}

/* Puts @value into the line "new.COLUMN=...". */
static void
set_line (char **entry, const char *column, const char *value)
{
  g_auto (GStrv) lines = g_strsplit (*entry, "\n", -1);
  g_autofree char *start = g_strdup_printf ("new.%s=", column);

  for (guint i = 0; lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], start))
      {
        g_free (lines[i]);
        lines[i] = g_strconcat (start, value, NULL);
      }
  g_free (*entry);
  *entry = g_strjoinv ("\n", lines);
}

/* A checkpoint of the head as it is now, by his own key; in the row and in its entry. */
static void
resign (sqlite3 *db, gint64 seq, char **entry)
{
  const unsigned char seed[crypto_sign_SEEDBYTES] = { 66 };
  unsigned char public_key[crypto_sign_PUBLICKEYBYTES];
  unsigned char secret_key[crypto_sign_SECRETKEYBYTES];
  unsigned char signature[crypto_sign_BYTES];
  char key_digits[2 * sizeof public_key + 1];
  char signature_digits[2 * sizeof signature + 1];
  g_autofree char *uuid = ask (db, "SELECT uuid FROM site", 0);
  g_autofree char *row = ask (db, "SELECT row_id FROM journal WHERE seq = ?", seq);
  g_autofree char *signed_seq = ask (
      db, "SELECT seq FROM checkpoint WHERE id = (SELECT row_id FROM journal WHERE seq = ?)", seq);
  g_autofree char *time = ask (db, "SELECT utc_ms FROM journal WHERE seq = ?", seq);
  g_autofree char *head
      = ask (db, "SELECT hash FROM journal WHERE seq = ?", g_ascii_strtoll (signed_seq, NULL, 10));
  g_autofree char *message
      = g_strdup_printf ("stillwarden checkpoint 1\nsite=%s\nseq=%s\nhead=%s\nutc_ms=%s\n", uuid,
                         signed_seq, head, time);
  g_autofree char *sql = NULL;

  g_assert_cmpint (sodium_init (), >=, 0);
  crypto_sign_seed_keypair (public_key, secret_key, seed);
  crypto_sign_detached (signature, NULL, (const unsigned char *)message, strlen (message),
                        secret_key);
  sodium_bin2hex (key_digits, sizeof key_digits, public_key, sizeof public_key);
  sodium_bin2hex (signature_digits, sizeof signature_digits, signature, sizeof signature);
  set_line (entry, "head", head);
  set_line (entry, "key", key_digits);
  set_line (entry, "signature", signature_digits);
  sql = g_strdup_printf ("UPDATE checkpoint SET head = '%s', key = '%s', signature = '%s'"
                         " WHERE id = %s",
                         head, key_digits, signature_digits, row);
  run (db, sql);
}

static void
write_row (sqlite3 *db, gint64 seq, const char *entry, const char *hash)
{
  sqlite3_stmt *statement = NULL;

  sqlite3_prepare_v2 (db, "UPDATE journal SET entry = ?, hash = ? WHERE seq = ?", -1, &statement,
                      NULL);
  sqlite3_bind_text (statement, 1, entry, -1, SQLITE_STATIC);
  sqlite3_bind_text (statement, 2, hash, -1, SQLITE_STATIC);
  sqlite3_bind_int64 (statement, 3, seq);
  g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_DONE);
  sqlite3_finalize (statement);
}

void
forger_rechain (const char *path, ForgerCheckpoints checkpoints)
{
  sqlite3 *db = open_raw (path);
  g_autofree char *triggers = NULL;
  g_autofree char *last = ask (db, "SELECT max(seq) FROM journal", 0);
  char previous[HASH_LENGTH + 1];

  memset (previous, '0', HASH_LENGTH);
  previous[HASH_LENGTH] = '\0';
  run (db, "BEGIN");
  triggers = drop_triggers (db);
  for (gint64 seq = 1; seq <= g_ascii_strtoll (last, NULL, 10); seq++)
    {
      char *entry = ask (db, "SELECT entry FROM journal WHERE seq = ?", seq);
      g_autofree char *table = ask (db, "SELECT table_name FROM journal WHERE seq = ?", seq);
      g_autofree char *hash = NULL;

      memcpy (entry, previous, HASH_LENGTH);
      if (checkpoints == FORGER_RESIGN && strcmp (table, "checkpoint") == 0)
        resign (db, seq, &entry);
      hash = compute_hash (entry);
      write_row (db, seq, entry, hash);
      memcpy (previous, hash, HASH_LENGTH);
      g_free (entry);
    }
  run (db, triggers);
  run (db, "COMMIT");
  sqlite3_close (db);
}
