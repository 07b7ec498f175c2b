/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keeper of backups.
 *
 *   [ idle ] --check, back up, snapshot, refresh--> [ one worker ] --done--> [ idle ]
 *                                                     asked meanwhile: the last wish waits for it
 *
 * Invariants
 * 1. The worker has its own connection and its own copies of all it needs, never the context.
 * 2. A failure is kept until a copy into the folder went well: an unnoticed failure is the worst.
 * 3. The context owns the keeper, the keeper borrows the context; a worker that outlives both ends
 *    unheard.
 */
#include "app/backup/backup-keeper.h"

#include "app/backup/backup-job.h"
#include "app/theme.h"

#define CHECK_S 3600
#define FIRST_MS 1500 /* after the window is up */
#define TICK_MS 250
#define FOLDER_KEY "backup-folder"

struct _SwBackupKeeper
{
  GObject parent_instance;

  SwContext *context; /* Borrowed: it owns us */

  /* Owned */
  GPtrArray *list;
  GError *failure;
  SwBackupJob *job; /* NULL = idle */

  gboolean waits; /* something was asked for meanwhile */
  SwBackupJobKind next;
  char *next_out; /* Owned */
  guint first;
  guint timer;
  guint tick;
};

enum
{
  SIGNAL_CHANGED,
  SIGNAL_WRITTEN,
  SIGNAL_REFUSED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwBackupKeeper, sw_backup_keeper, G_TYPE_OBJECT)

/* ---- working ---- */

static void
thread_cb (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  sw_backup_job_run (data);
  g_task_return_boolean (task, TRUE);
}

static void
say_changed (SwBackupKeeper *self)
{
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static void
take_answer (SwBackupKeeper *self, SwBackupJob *job)
{
  if (job->list != NULL)
    {
      g_ptr_array_unref (self->list);
      self->list = g_ptr_array_ref (job->list);
    }
  if (!job->tried || g_error_matches (job->failure, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  g_clear_error (&self->failure);
  self->failure = job->failure != NULL ? g_error_copy (job->failure) : NULL;
}

/* Whoever asked is told; the daily one is silent unless it fails, and then the failure stays. */
static void
tell_asker (SwBackupKeeper *self, SwBackupJob *job)
{
  if (job->kind == SW_BACKUP_JOB_DAILY)
    return;
  if (job->failure != NULL)
    g_signal_emit (self, signals[SIGNAL_REFUSED], 0, job->failure);
  else if (job->written != NULL)
    g_signal_emit (self, signals[SIGNAL_WRITTEN], 0, job->written,
                   job->kind == SW_BACKUP_JOB_SNAPSHOT ? SW_KEEPER_SNAPSHOT
                                                       : (int)SW_BACKUP_BY_HAND);
}

static void start_job (SwBackupKeeper *self, SwBackupJobKind kind, const char *out);

/* What waited. Whoever heard the news may have closed the window, or begun something else. */
static void
go_on (SwBackupKeeper *self)
{
  g_autofree char *out = g_steal_pointer (&self->next_out);

  if (!self->waits || self->context == NULL || self->job != NULL)
    return;
  self->waits = FALSE;
  start_job (self, self->next, out);
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  SwBackupKeeper *self = SW_BACKUP_KEEPER (source);
  SwBackupJob *job = g_steal_pointer (&self->job);

  if (job == NULL)
    return;
  g_clear_handle_id (&self->tick, g_source_remove);
  take_answer (self, job);
  say_changed (self);
  tell_asker (self, job);
  sw_backup_job_unref (job);
  go_on (self);
}

static gboolean
tick_cb (gpointer data)
{
  say_changed (data);
  return G_SOURCE_CONTINUE;
}

/* NULL when the file cannot even be asked: the failure says so. */
static SwBackupJob *
make_job (SwBackupKeeper *self, SwBackupJobKind kind)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (SwSite) site = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *head = sw_journal_head (store, &error);
  SwBackupJob *job;

  site = head != NULL ? sw_site_get (store, &error) : NULL;
  if (site == NULL)
    {
      g_clear_error (&self->failure);
      self->failure = g_steal_pointer (&error);
      say_changed (self);
      return NULL;
    }
  job = g_new0 (SwBackupJob, 1);
  job->kind = kind;
  job->path = g_strdup (sw_store_get_path (store));
  job->folder = sw_backup_keeper_dup_folder (self, NULL);
  job->uuid = g_strdup (site->uuid);
  job->head = g_steal_pointer (&head);
  job->now_ms = sw_context_now (self->context);
  job->offset_min = sw_store_offset_at (store, job->now_ms);
  job->cancellable = g_cancellable_new ();
  job->users = 2;
  return job;
}

/* Every job reads the list in the end, so a wish to read it gives way to any other. */
static void
wait_for_job (SwBackupKeeper *self, SwBackupJobKind kind, const char *out)
{
  if (self->waits && kind == SW_BACKUP_JOB_LIST)
    return;
  self->waits = TRUE;
  self->next = kind;
  g_free (self->next_out);
  self->next_out = g_strdup (out);
  say_changed (self);
}

/* The task holds the keeper, so that it is there when the worker is done. */
static void
start_job (SwBackupKeeper *self, SwBackupJobKind kind, const char *out)
{
  g_autoptr (GTask) task = NULL;

  if (self->job != NULL)
    {
      wait_for_job (self, kind, out);
      return;
    }
  /* a copy holds the checkpoint that speaks for it */
  if (kind != SW_BACKUP_JOB_LIST)
    sw_context_sign_head (self->context);
  self->job = make_job (self, kind);
  if (self->job == NULL)
    return;
  self->job->out = g_strdup (out);
  task = g_task_new (self, NULL, done_cb, NULL);
  g_task_set_task_data (task, self->job, (GDestroyNotify)sw_backup_job_unref);
  g_task_run_in_thread (task, thread_cb);
  if (kind != SW_BACKUP_JOB_LIST)
    self->tick = g_timeout_add (TICK_MS, tick_cb, self);
  say_changed (self);
}

/* ---- class ---- */

/* The context goes: whatever still runs is told to stop. */
static void
let_go_cb (gpointer data)
{
  SwBackupKeeper *self = data;

  self->context = NULL;
  g_clear_handle_id (&self->first, g_source_remove);
  g_clear_handle_id (&self->timer, g_source_remove);
  g_clear_handle_id (&self->tick, g_source_remove);
  if (self->job != NULL)
    g_cancellable_cancel (self->job->cancellable);
  g_clear_pointer (&self->job, sw_backup_job_unref);
  g_object_unref (self);
}

static void
sw_backup_keeper_finalize (GObject *object)
{
  SwBackupKeeper *self = SW_BACKUP_KEEPER (object);

  g_ptr_array_unref (self->list);
  g_clear_error (&self->failure);
  g_free (self->next_out);
  G_OBJECT_CLASS (sw_backup_keeper_parent_class)->finalize (object);
}

static void
sw_backup_keeper_class_init (SwBackupKeeperClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = sw_backup_keeper_finalize;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST,
                                          0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_WRITTEN]
      = g_signal_new ("written", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                      G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_INT);
  signals[SIGNAL_REFUSED] = g_signal_new ("refused", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST,
                                          0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_ERROR);
}

static void
sw_backup_keeper_init (SwBackupKeeper *self)
{
  self->list = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_backup_info_free);
}

/* ---- public ---- */

SwBackupKeeper *
sw_backup_keeper_of (SwContext *context)
{
  const GQuark quark = g_quark_from_static_string ("sw-backup-keeper");
  SwBackupKeeper *self;

  g_return_val_if_fail (SW_IS_CONTEXT (context), NULL);
  self = g_object_get_qdata (G_OBJECT (context), quark);
  if (self != NULL)
    return self;
  self = g_object_new (SW_TYPE_BACKUP_KEEPER, NULL);
  self->context = context;
  g_object_set_qdata_full (G_OBJECT (context), quark, self, let_go_cb);
  return self;
}

gboolean
sw_backup_keeper_looks_after (SwBackupKeeper *self)
{
  g_return_val_if_fail (SW_IS_BACKUP_KEEPER (self), FALSE);
  return self->context != NULL && !sw_context_is_demo (self->context)
         && !sw_store_is_read_only (sw_context_get_store (self->context));
}

static gboolean
check_cb (gpointer data)
{
  sw_backup_keeper_check (data);
  return G_SOURCE_CONTINUE;
}

static gboolean
first_cb (gpointer data)
{
  SwBackupKeeper *self = data;

  self->first = 0;
  sw_backup_keeper_check (self);
  return G_SOURCE_REMOVE;
}

void
sw_backup_keeper_start (SwBackupKeeper *self)
{
  g_return_if_fail (SW_IS_BACKUP_KEEPER (self));
  if (!sw_backup_keeper_looks_after (self) || self->timer != 0)
    return;
  self->first = g_timeout_add (FIRST_MS, first_cb, self);
  self->timer = g_timeout_add_seconds (CHECK_S, check_cb, self);
}

void
sw_backup_keeper_check (SwBackupKeeper *self)
{
  g_return_if_fail (SW_IS_BACKUP_KEEPER (self));
  if (sw_backup_keeper_looks_after (self))
    start_job (self, SW_BACKUP_JOB_DAILY, NULL);
}

void
sw_backup_keeper_back_up (SwBackupKeeper *self)
{
  g_return_if_fail (SW_IS_BACKUP_KEEPER (self) && self->context != NULL);
  start_job (self, SW_BACKUP_JOB_WRITE, NULL);
}

void
sw_backup_keeper_snapshot (SwBackupKeeper *self, const char *path)
{
  g_return_if_fail (SW_IS_BACKUP_KEEPER (self) && self->context != NULL && path != NULL);
  start_job (self, SW_BACKUP_JOB_SNAPSHOT, path);
}

void
sw_backup_keeper_refresh (SwBackupKeeper *self)
{
  g_return_if_fail (SW_IS_BACKUP_KEEPER (self));
  if (self->context != NULL)
    start_job (self, SW_BACKUP_JOB_LIST, NULL);
}

GPtrArray *
sw_backup_keeper_get_list (SwBackupKeeper *self)
{
  g_return_val_if_fail (SW_IS_BACKUP_KEEPER (self), NULL);
  return self->list;
}

/* Reading the list is nothing to wait for. */
gboolean
sw_backup_keeper_is_busy (SwBackupKeeper *self)
{
  g_return_val_if_fail (SW_IS_BACKUP_KEEPER (self), FALSE);
  return (self->job != NULL && self->job->kind != SW_BACKUP_JOB_LIST)
         || (self->waits && self->next != SW_BACKUP_JOB_LIST);
}

double
sw_backup_keeper_get_progress (SwBackupKeeper *self)
{
  g_return_val_if_fail (SW_IS_BACKUP_KEEPER (self), 0.0);
  return self->job != NULL ? g_atomic_int_get (&self->job->done) / 1000.0 : 0.0;
}

const GError *
sw_backup_keeper_get_failure (SwBackupKeeper *self)
{
  g_return_val_if_fail (SW_IS_BACKUP_KEEPER (self), NULL);
  return self->failure;
}

/* ---- folder ---- */

/* A matter of this PC, so it is in its settings and not in the file. */
char *
sw_backup_folder_of (const char *path, gboolean *beside)
{
  GSettings *settings = sw_settings_get ();
  g_autofree char *chosen = NULL;

  g_return_val_if_fail (path != NULL, NULL);
  chosen = settings != NULL ? g_settings_get_string (settings, FOLDER_KEY) : g_strdup ("");
  if (beside != NULL)
    *beside = *chosen == '\0';
  return *chosen != '\0' ? g_steal_pointer (&chosen) : sw_backup_default_folder (path);
}

char *
sw_backup_keeper_dup_folder (SwBackupKeeper *self, gboolean *beside)
{
  g_return_val_if_fail (SW_IS_BACKUP_KEEPER (self) && self->context != NULL, NULL);
  return sw_backup_folder_of (sw_store_get_path (sw_context_get_store (self->context)), beside);
}

void
sw_backup_keeper_set_folder (SwBackupKeeper *self, const char *folder)
{
  GSettings *settings = sw_settings_get ();

  g_return_if_fail (SW_IS_BACKUP_KEEPER (self));
  if (settings == NULL)
    return;
  g_settings_set_string (settings, FOLDER_KEY, folder != NULL ? folder : "");
  sw_backup_keeper_refresh (self);
  say_changed (self);
}
