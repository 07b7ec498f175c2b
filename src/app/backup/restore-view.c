/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One backup, looked at.
 *
 *   checking (worker: full verify of the backup, both journals) --> what it would mean
 *     --Restore…--> reason there? --> box: which administrator, their secret --> restore-run.c
 *
 * Invariant: the way to the restore is on screen only when the backup passed its check, is of this
 * site, and is not where the file stands anyway.
 */
#include "app/backup/restore-view.h"

#include "app/backup/backup-keeper.h"
#include "app/backup/restore-run.h"
#include "app/backup/stand-in.h"
#include "app/plant-words.h"
#include "app/sign/sign-box.h"
#include "app/test/error-line.h"
#include "app/widgets/form-row.h"
#include "app/window.h"
#include "wording/sentence-backup.h"
#include "wording/sentence-record.h"

struct _SwRestoreView
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context; /* NULL: the file cannot be opened */
  SwContext *signs;   /* against which is signed while the box is open */
  SwWording *wording;
  char *path;
  char *backup;
  gint64 made_ms;
  GCancellable *cancellable;

  /* Template children */
  GtkWidget *layout;
  GtkLabel *title;
  GtkLabel *line;
  GtkLabel *holds;
  GtkLabel *last_test;
  GtkWidget *checking;
  SwErrorLine *trouble;
  GtkWidget *card;
  GtkLabel *relation;
  GtkLabel *lost;
  GtkBox *acts;
  GtkWidget *deed;
  SwFormRow *reason;
};

static guint signal_back;

G_DEFINE_FINAL_TYPE (SwRestoreView, sw_restore_view, GTK_TYPE_WIDGET)

static SwApplication *
get_application (SwRestoreView *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkApplication *application
      = GTK_IS_WINDOW (root) ? gtk_window_get_application (GTK_WINDOW (root)) : NULL;

  return SW_IS_APPLICATION (application) ? SW_APPLICATION (application) : NULL;
}

/* ---- what it says ---- */

static void
set_text (GtkLabel *label, char *text)
{
  gtk_label_set_text (label, text);
  g_free (text);
}

static void
show_backup (SwRestoreView *self, const SwBackupInfo *info)
{
  const SwBackupFacts facts = { .tests = (gulong)info->tests,
                                .doses = (gulong)info->doses,
                                .machines = (gulong)info->machines,
                                .last_test = info->last_test,
                                .last_test_ms = info->last_test_ms,
                                .last_ms = info->last_ms };

  set_text (self->title, sw_say_restore_subject (self->wording, info->made_ms));
  set_text (self->line,
            sw_say_backup_line (self->wording, info->why, info->bytes, (gulong)info->tests));
  set_text (self->holds, sw_say_backup_holds (self->wording, &facts));
  set_text (self->last_test, sw_say_backup_last_test (self->wording, &facts));
}

static void
add_act (SwRestoreView *self, const SwLostAct *lost)
{
  const SwEntryFacts facts = { .action = lost->action,
                               .kind = lost->kind,
                               .table = lost->table,
                               .utc_ms = lost->utc_ms,
                               .person = lost->person,
                               .identified_by = lost->identified_by,
                               .workstation = lost->workstation,
                               .reason = lost->reason };
  g_autofree char *words = sw_say_entry (self->wording, &facts);
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "sw-dim");
  gtk_box_append (self->acts, label);
}

static void
show_preview (SwRestoreView *self, const SwRestorePreview *preview)
{
  gboolean compared
      = preview->relation == SW_RESTORE_ANCESTOR || preview->relation == SW_RESTORE_DIVERGED;
  gboolean may = preview->n_findings == 0 && (compared || preview->relation == SW_RESTORE_NO_FILE);

  gtk_label_set_text (self->relation, sw_say_restore_relation (self->wording, preview->relation));
  gtk_widget_set_visible (GTK_WIDGET (self->lost), compared);
  set_text (self->lost, sw_say_restore_lost (self->wording, (gulong)preview->n_lost));
  for (guint i = 0; i < preview->lost->len; i++)
    add_act (self, preview->lost->pdata[i]);
  gtk_widget_set_visible (self->deed, may);
  gtk_widget_set_visible (self->card, TRUE);
  if (preview->n_findings == 0)
    return;
  g_autofree char *words = sw_say_backup_findings (self->wording, preview->n_findings);
  sw_error_line_set (self->trouble, words);
}

/* ---- checking ---- */

typedef struct
{
  char *path;
  char *backup;
  GCancellable *cancellable;
} Look;

static void
free_look (Look *look)
{
  g_free (look->path);
  g_free (look->backup);
  g_object_unref (look->cancellable);
  g_free (look);
}

static gboolean
progress_cb (gint64 done, gint64 total, gpointer data)
{
  return !g_cancellable_is_cancelled (data);
}

static void
thread_cb (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Look *look = data;
  GError *error = NULL;
  SwRestorePreview *preview
      = sw_restore_preview (look->path, look->backup, progress_cb, look->cancellable, &error);

  if (preview != NULL)
    g_task_return_pointer (task, preview, (GDestroyNotify)sw_restore_preview_free);
  else
    g_task_return_error (task, error);
}

static void
checked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  SwRestoreView *self = SW_RESTORE_VIEW (source);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwRestorePreview) preview = g_task_propagate_pointer (G_TASK (result), &error);

  if (self->layout == NULL || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  gtk_widget_set_visible (self->checking, FALSE);
  if (preview != NULL)
    {
      show_preview (self, preview);
      return;
    }
  g_autofree char *words = sw_plant_say_error (self->wording, error);
  sw_error_line_set (self->trouble, words);
}

static void
start_check (SwRestoreView *self)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, checked_cb, NULL);
  Look *look = g_new0 (Look, 1);

  look->path = g_strdup (self->path);
  look->backup = g_strdup (self->backup);
  look->cancellable = g_object_ref (self->cancellable);
  g_task_set_task_data (task, look, (GDestroyNotify)free_look);
  g_task_run_in_thread (task, thread_cb);
}

/* ---- the way there ---- */

static void
order_restore (SwRestoreView *self, const SwSigner *signer)
{
  g_autoptr (SwPerson) person
      = sw_person_load (sw_context_get_store (self->signs), signer->person, NULL);
  g_autofree char *folder = sw_backup_folder_of (self->path, NULL);
  g_autofree char *reason = g_strstrip (g_strdup (sw_form_row_get_text (self->reason)));
  const SwRestoreOrder order = {
    .path = self->path,
    .backup = self->backup,
    .folder = folder,
    .actor = { .person = signer->person, .identified = signer->identified, .reason = reason },
    .who = person != NULL ? person->name : NULL,
  };

  sw_restore_in_place (get_application (self), GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                       &order);
}

static void
signed_cb (const SwSigner *signer, gpointer data)
{
  g_autoptr (SwRestoreView) self = data;

  if (signer != NULL && self->layout != NULL && get_application (self) != NULL)
    order_restore (self, signer);
  g_clear_object (&self->signs);
}

static gboolean
check_reason (SwRestoreView *self)
{
  const SwFault fault = { .code = SW_FAULT_MISSING,
                          .quantity = SW_QUANTITY_REASON,
                          .value = NAN,
                          .low = -INFINITY,
                          .high = INFINITY };
  g_autofree char *reason = g_strstrip (g_strdup (sw_form_row_get_text (self->reason)));
  g_autofree char *words = NULL;

  sw_form_row_set_error (self->reason, NULL);
  if (*reason != '\0')
    return TRUE;
  words = sw_say_fault (self->wording, &fault);
  sw_form_row_set_error (self->reason, words);
  gtk_widget_grab_focus (GTK_WIDGET (self->reason));
  return FALSE;
}

/* The file's own people, else those of the backup. */
static gboolean
find_signing_context (SwRestoreView *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  g_clear_object (&self->signs);
  self->signs = self->context != NULL ? g_object_ref (self->context)
                                      : sw_stand_in_new (self->backup, self->wording, &error);
  if (self->signs != NULL)
    return TRUE;
  words = sw_plant_say_error (self->wording, error);
  sw_error_line_set (self->trouble, words);
  return FALSE;
}

static void
restore_cb (SwRestoreView *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  g_autofree char *subject = sw_say_restore_subject (self->wording, self->made_ms);

  if (!check_reason (self) || (window != NULL && !sw_window_may (window, SW_RIGHT_SET_UP))
      || !find_signing_context (self))
    return;
  sw_sign_deed_ask (GTK_WIDGET (self), self->signs, SW_RIGHT_SET_UP,
                    sw_tr (self->wording, "I put this backup in the place of the file"), subject,
                    signed_cb, g_object_ref (self));
}

static void
look_cb (SwRestoreView *self)
{
  SwApplication *application = get_application (self);
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  if (application == NULL
      || sw_application_open_path (application, self->backup, SW_OPEN_READ_ONLY, &error))
    return;
  words = sw_plant_say_error (self->wording, error);
  sw_error_line_set (self->trouble, words);
}

static void
back_cb (SwRestoreView *self)
{
  g_signal_emit (self, signal_back, 0);
}

/* ---- class ---- */

static void
sw_restore_view_dispose (GObject *object)
{
  SwRestoreView *self = SW_RESTORE_VIEW (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_pointer (&self->layout, gtk_widget_unparent);
  g_clear_object (&self->signs);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_restore_view_parent_class)->dispose (object);
}

static void
sw_restore_view_finalize (GObject *object)
{
  SwRestoreView *self = SW_RESTORE_VIEW (object);

  g_object_unref (self->cancellable);
  g_clear_pointer (&self->wording, sw_wording_unref);
  g_free (self->path);
  g_free (self->backup);
  G_OBJECT_CLASS (sw_restore_view_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, layout);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, title);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, line);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, holds);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, last_test);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, checking);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, trouble);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, card);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, relation);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, lost);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, acts);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, deed);
  gtk_widget_class_bind_template_child (widget_class, SwRestoreView, reason);
}

static void
sw_restore_view_class_init (SwRestoreViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_restore_view_dispose;
  G_OBJECT_CLASS (klass)->finalize = sw_restore_view_finalize;
  g_type_ensure (SW_TYPE_ERROR_LINE);
  g_type_ensure (SW_TYPE_FORM_ROW);
  signal_back = g_signal_new ("back", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                              NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/setup/restore-view.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, back_cb);
  gtk_widget_class_bind_template_callback (widget_class, look_cb);
  gtk_widget_class_bind_template_callback (widget_class, restore_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_restore_view_init (SwRestoreView *self)
{
  self->cancellable = g_cancellable_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
sw_restore_view_new (SwContext *context,
                     SwWording *wording,
                     const char *path,
                     const SwBackupInfo *backup)
{
  SwRestoreView *self = g_object_new (SW_TYPE_RESTORE_VIEW, NULL);

  self->context = context != NULL ? g_object_ref (context) : NULL;
  self->wording = sw_wording_ref (wording);
  self->path = g_strdup (path);
  self->backup = g_strdup (backup->path);
  self->made_ms = backup->made_ms;
  show_backup (self, backup);
  start_check (self);
  return GTK_WIDGET (self);
}
