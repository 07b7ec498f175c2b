/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See verify-run.h. */
#include "app/verify/verify-run.h"

#include "records/export.h"
#include "workflow/recompute.h"

/* Of a thousand: what reading takes beside the recomputation; by trial on the demo plant. */
#define PERMILLE_READ 800
#define PERMILLE_ALL 1000

SwVerifyJob *
sw_verify_job_new (const char *path, const char *trust_folder)
{
  SwVerifyJob *job = g_atomic_rc_box_new0 (SwVerifyJob);

  job->path = g_strdup (path);
  job->trust_folder = g_strdup (trust_folder);
  job->cancellable = g_cancellable_new ();
  return job;
}

static void
clear_job (gpointer data)
{
  SwVerifyJob *job = data;

  g_free (job->path);
  g_free (job->trust_folder);
  g_strfreev (job->heads);
  g_object_unref (job->cancellable);
}

void
sw_verify_job_unref (SwVerifyJob *job)
{
  if (job != NULL)
    g_atomic_rc_box_release_full (job, clear_job);
}

int
sw_verify_job_get_permille (SwVerifyJob *job)
{
  return g_atomic_int_get (&job->permille);
}

/* ---- the worker ---- */

static gboolean
go_on (SwVerifyJob *job, double share)
{
  g_atomic_int_set (&job->permille, (int)share);
  return !g_cancellable_is_cancelled (job->cancellable);
}

static gboolean
read_progress (gint64 done, gint64 total, gpointer data)
{
  return go_on (data, PERMILLE_READ * (double)done / (double)MAX (total, 1));
}

static gboolean
recompute_progress (gint64 done, gint64 total, gpointer data)
{
  double share = (double)done / (double)MAX (total, 1);

  return go_on (data, PERMILLE_READ + (PERMILLE_ALL - PERMILLE_READ) * share);
}

/* A file that another tool changed may hold rows that cannot be computed at all: what was found
 * says so already. */
static gboolean
recompute (SwStore *store, SwVerifyReport *report, SwVerifyJob *job, GError **error)
{
  g_autoptr (GError) failure = NULL;

  if (sw_recompute_with (store, report, recompute_progress, job, &failure))
    return TRUE;
  if (!g_error_matches (failure, G_IO_ERROR, G_IO_ERROR_CANCELLED) && report->findings->len > 0)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&failure));
  return FALSE;
}

static SwVerifyReport *
verify_store (SwStore *store, SwVerifyJob *job, GError **error)
{
  const SwVerifyOptions options = { .trust_folder = job->trust_folder,
                                    .heads = (const char *const *)job->heads,
                                    .quick = job->quick };
  g_autoptr (SwVerifyReport) report = NULL;
  gboolean good;

  if (!sw_snapshot_begin (store, error))
    return NULL;
  report = sw_verify_with (store, &options, read_progress, job, error);
  good = report != NULL && recompute (store, report, job, error);
  sw_snapshot_end (store);
  return good ? g_steal_pointer (&report) : NULL;
}

static void
thread_cb (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  SwVerifyJob *job = data;
  GError *error = NULL;
  g_autoptr (SwStore) store = sw_store_open (job->path, SW_OPEN_READ_ONLY, NULL, &error);
  SwVerifyReport *report = store != NULL ? verify_store (store, job, &error) : NULL;

  if (report != NULL)
    g_task_return_pointer (task, report, (GDestroyNotify)sw_verify_report_free);
  else
    g_task_return_error (task, error);
}

void
sw_verify_run_async (SwVerifyJob *job, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, done, data);

  g_task_set_task_data (task, g_atomic_rc_box_acquire (job), (GDestroyNotify)sw_verify_job_unref);
  g_task_run_in_thread (task, thread_cb);
}

SwVerifyReport *
sw_verify_run_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
