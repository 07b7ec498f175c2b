/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demo plant. It takes a second or two to make: the same tests as real work would have left. */
#include "app/start/demo-plant.h"

#include <errno.h>
#include <glib/gstdio.h>

#include "app/file-dialog.h"
#include "cli/demo.h"
#include "records/store.h"

char *
sw_demo_plant_path (void)
{
  return g_build_filename (g_get_user_data_dir (), "stillwarden", "demo" SW_FILE_SUFFIX, NULL);
}

static gboolean
make (const char *path, GError **error)
{
  const SwClock *clock = sw_clock_system ();
  g_autofree char *folder = g_path_get_dirname (path);

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      int code = errno;
      g_set_error_literal (error, G_IO_ERROR, (int)g_io_error_from_errno (code), g_strerror (code));
      return FALSE;
    }
  return sw_demo_create (path, clock->now_ms (clock->data), NULL, error);
}

static void
thread_cb (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  g_autofree char *path = sw_demo_plant_path ();
  GError *error = NULL;

  if (g_file_test (path, G_FILE_TEST_EXISTS) || make (path, &error))
    g_task_return_pointer (task, g_steal_pointer (&path), g_free);
  else
    g_task_return_error (task, error);
}

void
sw_demo_plant_ensure (GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, done, data);

  g_task_run_in_thread (task, thread_cb);
}

char *
sw_demo_plant_ensure_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
