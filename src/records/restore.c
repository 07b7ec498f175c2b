/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Restoring a backup.
 *
 *   lock FILE.lock
 *     | FILE can be read:  FILE --> before-restore backup, proved
 *     | backup --> FILE.restoring, migrated, restoration row, proved, synced
 *     | FILE could be read:  its -wal goes into it, WAL mode ends, so that nothing belongs to FILE
 *     | FILE damaged:        linked as NAME-TIME-damaged.stillwarden, its -wal and -journal moved
 * too rename FILE.restoring over FILE, folder synced
 *
 * Invariants
 * 1. FILE changes its contents only in the rename (taking its own -wal in changes no row).
 * 2. At the rename no -wal or -journal stands beside FILE that would be taken for the new one's.
 * 3. Nothing of the old file is gone: the before-restore backup holds all of it, or it stands
 * aside.
 * 4. What a dead restore left is FILE.restoring and what stands beside it; the next begins anew.
 */
#include "records/restore-private.h"

#include "records/backup-private.h"
#include "records/copy-private.h"
#include "records/error-private.h"
#include "records/lock-private.h"
#include "records/path-private.h"
#include "records/plant.h"
#include "records/trust.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct
{
  const SwRestoreOrder *order; /* Borrowed */
  const SwRestoreOptions *options;
  const SwClock *clock;
  gint64 now_ms;
  char *path;           /* Owned: the file, links resolved */
  char *fresh;          /* Owned: FILE.restoring */
  SwBackupInfo *backup; /* Owned: what is restored */
  SwBackupInfo *old;    /* Owned: the file as it stood; NULL = it could not be read */
  gboolean damaged;     /* the file is there and could not be backed up */
  int steps;
} Restore;

static void
mark_step (Restore *restore)
{
  restore->steps++;
  if (restore->options->step != NULL)
    restore->options->step (restore->steps, restore->options->data);
}

/* ---- the file as it stands ---- */

/* What moving the file aside helps against; a full disk or a missing right is to be mended first.
 */
static gboolean
is_damage (const GError *error)
{
  return g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DAMAGED)
         || g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FOREIGN)
         || g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_UNVERIFIED)
         || g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED);
}

static gboolean
back_up_old (Restore *restore, GError **error)
{
  g_autoptr (GError) failure = NULL;

  if (!g_file_test (restore->path, G_FILE_TEST_EXISTS))
    return TRUE;
  restore->old
      = sw_backup_write_with (restore->path, restore->order->folder, SW_BACKUP_BEFORE_RESTORE,
                              restore->now_ms, &restore->options->store, &failure);
  restore->damaged = restore->old == NULL && is_damage (failure);
  if (restore->old == NULL && !restore->damaged)
    {
      g_propagate_error (error, g_steal_pointer (&failure));
      return FALSE;
    }
  if (restore->old != NULL && g_strcmp0 (restore->old->uuid, restore->backup->uuid) != 0)
    return sw_path_error (error, SW_RECORDS_ERROR_FOREIGN, restore->order->backup,
                          "is a backup of another site");
  mark_step (restore);
  return TRUE;
}

static gboolean
look_at_backup (Restore *restore, GError **error)
{
  restore->backup = sw_backup_read (restore->order->backup, NULL, error);
  if (restore->backup == NULL)
    return FALSE;
  if (restore->backup->state == SW_BACKUP_NEWER)
    return sw_path_error (error, SW_RECORDS_ERROR_NEWER, restore->order->backup,
                          "was written by a newer version");
  if (restore->backup->state != SW_BACKUP_GOOD)
    return sw_path_error (error, SW_RECORDS_ERROR_DAMAGED, restore->order->backup,
                          "cannot be read");
  /* before anything is changed for it */
  return sw_backup_prove (restore->order->backup, restore->backup->head, &restore->options->store,
                          NULL, NULL, error);
}

/* ---- one file, without anything beside it that belongs to it ---- */

static gboolean
has_side_file (const char *path, const char *suffix)
{
  g_autofree char *name = g_strconcat (path, suffix, NULL);

  return g_file_test (name, G_FILE_TEST_EXISTS);
}

/* Refused by SQLite while anybody else has the file open: whoever reads the old file's -wal would
 * read the new file with it. */
static gboolean
settle (const char *path, const char *vfs, GError **error)
{
  sqlite3 *db = NULL;
  int code;

  if (!sw_connection_open (path, SQLITE_OPEN_READWRITE, vfs, &db, error))
    return FALSE;
  code = sqlite3_exec (db, "PRAGMA wal_checkpoint(TRUNCATE); PRAGMA journal_mode = DELETE", NULL,
                       NULL, NULL);
  if (code != SQLITE_OK)
    sw_records_error_set (error, db, code, path);
  sqlite3_close (db);
  if (code != SQLITE_OK)
    return FALSE;
  if (has_side_file (path, "-wal") || has_side_file (path, "-journal"))
    return sw_path_error (error, SW_RECORDS_ERROR_BUSY, path, "another program is reading it");
  return TRUE;
}

/* ---- the copy ---- */

static gboolean
copy_backup (Restore *restore, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (restore->path);
  g_autoptr (SwStore) source = NULL;

  sw_path_remove (restore->fresh);
  if (!sw_backup_check_room (restore->backup->path, folder, -1, error))
    return FALSE;
  source = sw_store_peek (restore->backup->path, TRUE, &restore->options->store, error);
  if (source == NULL || !sw_copy_write (source, restore->fresh, restore->options->store.vfs, error))
    return FALSE;
  mark_step (restore);
  return TRUE;
}

/* Ids are the backup's: the same number may be somebody else there, or nobody. */
static gboolean
knows_person (SwStore *store, const SwRestoreOrder *order)
{
  g_autoptr (SwPerson) person = NULL;

  if (order->actor.person == 0)
    return TRUE;
  person = sw_person_load (store, order->actor.person, NULL);
  return person != NULL && g_strcmp0 (person->name, order->who) == 0;
}

static gboolean
begin_act (SwStore *store, const SwRestoreOrder *order, GError **error)
{
  SwActor actor = order->actor;
  g_autofree char *reason = NULL;

  if (!knows_person (store, order))
    {
      reason = g_strdup_printf ("%s: %s", order->who != NULL ? order->who : "?",
                                actor.reason != NULL ? actor.reason : "");
      actor.person = 0;
      actor.identified = SW_IDENTIFIED_SYSTEM;
      actor.reason = reason;
    }
  return sw_act_begin (store, SW_ACT_RESTORE, &actor, error);
}

static gboolean
write_row (SwStore *store, Restore *restore, GError **error)
{
  g_autoptr (SwRestoration) row = sw_restoration_new ();

  row->backup = g_strdup (restore->backup->name);
  row->kept_seq = restore->backup->seq;
  row->kept_head = g_strdup (restore->backup->head);
  row->lost_seq = restore->old != NULL ? restore->old->seq : 0;
  row->lost_head = restore->old != NULL ? g_strdup (restore->old->head) : NULL;
  if (!begin_act (store, restore->order, error))
    return FALSE;
  if (sw_restoration_insert (store, row, error) && sw_act_commit (store, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

/* Opening migrates an older one. Closed, it is one file at rest with this head. */
static gboolean
complete_copy (Restore *restore, GError **error)
{
  SwStoreOptions options = restore->options->store;
  SwStore *store;
  g_autofree char *head = NULL;
  gboolean written;

  options.is_copy = TRUE;
  store = sw_store_open_with (restore->fresh, SW_OPEN_WRITE, restore->clock, &options, error);
  if (store == NULL)
    return FALSE;
  written = write_row (store, restore, error);
  head = written ? sw_journal_head (store, error) : NULL;
  sw_store_close (store);
  if (head == NULL)
    return FALSE;
  mark_step (restore);
  /* a close that found the disk full says nothing, and leaves the -wal file */
  return settle (restore->fresh, restore->options->store.vfs, error)
         && sw_backup_prove (restore->fresh, head, &restore->options->store, NULL, NULL, error)
         && sw_path_sync (restore->fresh, error);
}

/* ---- the exchange ---- */

/* The name says what it is, and no rotation knows it. (transfer full) */
static char *
make_aside_path (Restore *restore)
{
  g_autofree char *name = sw_backup_name (restore->path, restore->now_ms, SW_BACKUP_DAILY);
  g_autofree char *folder = g_path_get_dirname (restore->path);
  g_autoptr (GString) aside = g_string_new (name);

  g_string_replace (aside, "Z.stillwarden", "Z-damaged.stillwarden", 0);
  return g_build_filename (folder, aside->str, NULL);
}

/* A second name, so that the file is never missing; where the file system has no links, a move. */
static gboolean
put_aside (Restore *restore, GError **error)
{
  static const char *const suffixes[] = { "-wal", "-journal", "-shm" };
  g_autofree char *aside = make_aside_path (restore);

  if (link (restore->path, aside) != 0 && g_rename (restore->path, aside) != 0)
    return sw_path_error (error, SW_RECORDS_ERROR_IO, aside, g_strerror (errno));
  for (gsize i = 0; i < G_N_ELEMENTS (suffixes); i++)
    {
      g_autofree char *from = g_strconcat (restore->path, suffixes[i], NULL);
      g_autofree char *to = g_strconcat (aside, suffixes[i], NULL);

      if (g_rename (from, to) != 0 && errno != ENOENT)
        return sw_path_error (error, SW_RECORDS_ERROR_IO, to, g_strerror (errno));
    }
  return TRUE;
}

/* Who may read and write the file stays as it was. */
static void
keep_mode (Restore *restore)
{
  GStatBuf status;

  if (g_stat (restore->path, &status) == 0 && (status.st_mode & S_IWUSR) != 0
      && g_chmod (restore->fresh, (int)(status.st_mode & 07777)) != 0)
    g_debug ("%s: %s", restore->fresh, g_strerror (errno));
}

static gboolean
exchange (Restore *restore, GError **error)
{
  keep_mode (restore);
  if (restore->old != NULL && !settle (restore->path, restore->options->store.vfs, error))
    return FALSE;
  if (restore->damaged && !put_aside (restore, error))
    return FALSE;
  mark_step (restore);
  if (!sw_path_move (restore->fresh, restore->path, error))
    return FALSE;
  mark_step (restore);
  return TRUE;
}

/* ---- all of it ---- */

static gboolean
restore_locked (Restore *restore, GError **error)
{
  return look_at_backup (restore, error) && back_up_old (restore, error)
         && copy_backup (restore, error) && complete_copy (restore, error)
         && exchange (restore, error);
}

/* (transfer full) */
static char *
say_since (gint64 now_ms)
{
  g_autoptr (GDateTime) now = g_date_time_new_from_unix_local (now_ms / 1000);

  return now != NULL ? g_date_time_format_iso8601 (now) : g_strdup ("?");
}

gboolean
sw_backup_restore_with (const SwRestoreOrder *order,
                        const SwClock *clock,
                        const SwRestoreOptions *options,
                        GError **error)
{
  Restore restore = { .order = order, .options = options };
  g_autofree char *since = NULL;
  gboolean done = FALSE;
  int lock;

  restore.clock = clock != NULL ? clock : sw_clock_system ();
  restore.now_ms = restore.clock->now_ms (restore.clock->data);
  restore.path = sw_path_resolve (order->path);
  restore.fresh = g_strconcat (restore.path, ".restoring", NULL);
  since = say_since (restore.now_ms);
  lock = sw_network_check (restore.path, options->store.fs_type, error)
             ? sw_lock_take (restore.path, since, error)
             : -1;
  if (lock >= 0)
    {
      done = restore_locked (&restore, error);
      if (!done)
        sw_path_remove (restore.fresh);
      sw_lock_drop (restore.path, lock);
    }
  g_clear_pointer (&restore.backup, sw_backup_info_free);
  g_clear_pointer (&restore.old, sw_backup_info_free);
  g_free (restore.fresh);
  g_free (restore.path);
  return done;
}

gboolean
sw_backup_restore (const SwRestoreOrder *order, const SwClock *clock, GError **error)
{
  const SwRestoreOptions options = { 0 };

  g_return_val_if_fail (order != NULL && order->path != NULL && order->backup != NULL, FALSE);
  return sw_backup_restore_with (order, clock, &options, error);
}
