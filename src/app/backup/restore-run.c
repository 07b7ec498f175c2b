/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Carrying out a restore.
 *
 *   signed --> start window says that it is being restored --> the file's window is destroyed,
 * which closes the file --> worker --> the file opens anew, restored or as it was
 */
#include "app/backup/restore-run.h"

#include "app/plant-words.h"
#include "app/start/start-window.h"
#include "app/window.h"
#include "wording/sentence-backup.h"

#define TRIES 12
#define PAUSE_US 250000

typedef struct
{
  SwApplication *application; /* Owned */
  GtkWindow *from;            /* Owned */
  SwStartWindow *start;       /* Owned */
  char *path;                 /* Owned, as all texts */
  char *backup;
  char *folder;
  char *reason;
  char *who;
  gint64 person;
  SwIdentified identified;
} Run;

static void
free_run (Run *run)
{
  g_application_release (G_APPLICATION (run->application));
  g_clear_object (&run->from);
  g_clear_object (&run->start);
  g_clear_object (&run->application);
  g_free (run->path);
  g_free (run->backup);
  g_free (run->folder);
  g_free (run->reason);
  g_free (run->who);
  g_free (run);
}

/* A worker of the window that has just closed may still read the file for a moment. */
static void
thread_cb (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Run *run = data;
  const SwRestoreOrder order = {
    .path = run->path,
    .backup = run->backup,
    .folder = run->folder,
    .actor = { .person = run->person, .identified = run->identified, .reason = run->reason },
    .who = run->who,
  };
  GError *error = NULL;
  gboolean done = sw_restore_run (&order, NULL, &error);

  for (int i = 1; i < TRIES && g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_BUSY);
       i++)
    {
      g_clear_error (&error);
      g_usleep (PAUSE_US);
      done = sw_restore_run (&order, NULL, &error);
    }
  if (done)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

/* Which window shows the file now. */
static SwWindow *
find_window (const Run *run)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (run->application));

  return SW_IS_WINDOW (active) ? SW_WINDOW (active) : NULL;
}

static void
tell (const Run *run, const GError *failure)
{
  SwWindow *window = find_window (run);
  gint64 made_ms = 0;
  SwBackupWhy why;

  if (window == NULL)
    return;
  if (failure != NULL)
    {
      sw_window_toast_error (window, failure);
      return;
    }
  g_autofree char *name = g_path_get_basename (run->backup);
  sw_backup_name_parse (NULL, name, &made_ms, &why);
  g_autofree char *words
      = sw_say_restore_done (sw_context_get_wording (sw_window_get_context (window)), made_ms);
  sw_window_toast (window, words);
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Run *run = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) failure = NULL;
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &failure);
  if (sw_application_open_path (run->application, run->path, SW_OPEN_WRITE, &error))
    tell (run, failure);
  else
    sw_start_window_explain (run->start, run->path, failure != NULL ? failure : error);
}

/* After the button that led here has let go of the window. */
static gboolean
begin_cb (gpointer data)
{
  Run *run = data;
  g_autoptr (GTask) task = g_task_new (NULL, NULL, done_cb, NULL);

  if (GTK_WINDOW (run->start) != run->from)
    gtk_window_destroy (run->from);
  g_clear_object (&run->from);
  g_task_set_task_data (task, run, (GDestroyNotify)free_run);
  g_task_run_in_thread (task, thread_cb);
  return G_SOURCE_REMOVE;
}

void
sw_restore_in_place (SwApplication *application, GtkWindow *from, const SwRestoreOrder *order)
{
  Run *run;

  g_return_if_fail (SW_IS_APPLICATION (application) && GTK_IS_WINDOW (from) && order != NULL);
  run = g_new0 (Run, 1);
  run->application = g_object_ref (application);
  run->from = g_object_ref (from);
  run->start = g_object_ref (SW_IS_START_WINDOW (from) ? SW_START_WINDOW (from)
                                                       : sw_start_window_new (application));
  run->path = g_strdup (order->path);
  run->backup = g_strdup (order->backup);
  run->folder = g_strdup (order->folder);
  run->reason = g_strdup (order->actor.reason);
  run->who = g_strdup (order->who);
  run->person = order->actor.person;
  run->identified = order->actor.identified;
  g_application_hold (G_APPLICATION (application));
  sw_start_window_wait (run->start);
  gtk_window_present (GTK_WINDOW (run->start));
  g_idle_add (begin_cb, run);
}
