/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes a workbook in a thread of its own, with a connection of its own that only reads: years of
 * records take a while, and the window goes on meanwhile. */
#include "app/records/record-export.h"

#include "app/file-dialog.h"
#include "app/window.h"
#include "reports/workbook.h"
#include "wording/sentence-list.h"

typedef struct
{
  GtkWidget *near;    /* Owned */
  SwContext *context; /* Owned; of the window's thread */
  SwWording *wording; /* Owned; never changes */
  char *file;         /* Owned: the plant's */
  char *path;         /* Owned: to write */
  char *by;           /* Owned */
  gint64 at_ms;
  SwExportFilter filter;
} Export;

static void
free_export (Export *export)
{
  g_object_unref (export->near);
  g_object_unref (export->context);
  sw_wording_unref (export->wording);
  g_free (export->file);
  g_free (export->path);
  g_free (export->by);
  g_free (export);
}

/* ---- what goes into it ---- */

gboolean
sw_record_export_applies (int kind)
{
  return kind == SW_TABLE_TITRATION || kind == SW_TABLE_SAMPLE || kind == SW_TABLE_READING
         || kind == SW_TABLE_DOSE;
}

/* The sample of a titration, of a reading, of a dose; 0 = none. */
static gint64
find_sample (SwStore *store, SwTable table, gint64 id)
{
  g_autoptr (SwTitration) titration = NULL;
  g_autoptr (SwReadingRow) reading = NULL;
  g_autoptr (SwDoseRow) dose = NULL;

  switch ((int)table)
    {
    case SW_TABLE_SAMPLE:
      return id;
    case SW_TABLE_TITRATION:
      titration = sw_titration_load (store, id, NULL);
      return titration != NULL ? titration->sample : 0;
    case SW_TABLE_READING:
      reading = sw_reading_row_load (store, id, NULL);
      return reading != NULL ? find_sample (store, SW_TABLE_TITRATION, reading->titration) : 0;
    case SW_TABLE_DOSE:
      dose = sw_dose_row_load (store, id, NULL);
      return dose != NULL ? find_sample (store, SW_TABLE_TITRATION, dose->titration) : 0;
    default:
      return 0;
    }
}

gboolean
sw_record_export_filter (SwContext *context, SwTable table, gint64 id, SwExportFilter *filter)
{
  SwStore *store = sw_context_get_store (context);
  gint64 sample_id = find_sample (store, table, id);
  g_autoptr (SwSample) sample = sample_id != 0 ? sw_sample_load (store, sample_id, NULL) : NULL;

  if (sample == NULL)
    return FALSE;
  /* One machine draws one sample at a time: a millisecond is enough. */
  *filter = (SwExportFilter){ .machine = sample->machine,
                              .from_ms = sample->record.happened_ms,
                              .to_ms = sample->record.happened_ms + 1 };
  return TRUE;
}

/* ---- writing ---- */

static void
write_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Export *export = data;
  const SwWorkbookRequest request = { .path = export->path,
                                      .force = TRUE, /* the dialog has asked */
                                      .filter = export->filter,
                                      .at_ms = export->at_ms,
                                      .by = export->by };
  GError *error = NULL;
  g_autoptr (SwStore) store = sw_store_open (export->file, SW_OPEN_READ_ONLY, NULL, &error);

  if (store == NULL || !sw_workbook_write (store, export->wording, &request, &error))
    g_task_return_error (task, error);
  else
    g_task_return_boolean (task, TRUE);
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  const Export *export = g_task_get_task_data (G_TASK (result));
  SwWindow *window = sw_window_of (export->near);
  g_autoptr (GError) error = NULL;
  gboolean written = g_task_propagate_boolean (G_TASK (result), &error);

  if (window == NULL)
    return;
  g_autofree char *name = g_path_get_basename (export->path);
  g_autofree char *words = written ? sw_say_exported (export->wording, name)
                                   : sw_report_error_say (export->wording, error);
  sw_window_toast (window, words);
}

static void
start (Export *export)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, written_cb, NULL);

  /* so that the workbook's last sheet names a checkpoint of what it holds */
  sw_context_sign_head (export->context);
  g_task_set_task_data (task, export, (GDestroyNotify)free_export);
  g_task_run_in_thread (task, write_in_thread);
}

static Export *
new_export (GtkWidget *near, SwContext *context, const SwExportFilter *filter, const char *path)
{
  Export *export = g_new0 (Export, 1);
  SwStore *store = sw_context_get_store (context);
  g_autoptr (SwPerson) person = sw_person_load (store, sw_context_get_person (context), NULL);

  export->near = g_object_ref (near);
  export->context = g_object_ref (context);
  export->wording = sw_wording_ref (sw_context_get_wording (context));
  export->file = g_strdup (sw_store_get_path (store));
  export->path = g_strdup (path);
  export->by = g_strdup (person != NULL ? person->name : g_get_user_name ());
  export->at_ms = sw_context_now (context);
  export->filter = *filter;
  return export;
}

void
sw_record_export_write (GtkWidget *near,
                        SwContext *context,
                        const SwExportFilter *filter,
                        const char *path)
{
  g_return_if_fail (GTK_IS_WIDGET (near) && filter != NULL && path != NULL);
  start (new_export (near, context, filter, path));
}

static void
chosen_cb (const char *path, gpointer data)
{
  Export *export = data;

  if (path == NULL)
    {
      free_export (export);
      return;
    }
  export->path = g_strdup (path);
  start (export);
}

void
sw_record_export_ask (GtkWidget *near,
                      SwContext *context,
                      const SwExportFilter *filter,
                      const char *name)
{
  g_return_if_fail (GTK_IS_WIDGET (near) && filter != NULL && name != NULL);

  GtkRoot *root = gtk_widget_get_root (near);
  sw_file_dialog_export (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL,
                         sw_context_get_wording (context), name, ".xlsx", chosen_cb,
                         new_export (near, context, filter, NULL));
}
