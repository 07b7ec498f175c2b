/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The start window: three pages in one stack.
 *
 *   first --New Plant--> new --file chosen, made--> the plant's own window
 *     ^  \--Open-------> the file's own window
 *     |                    | cannot be opened
 *     +--Back-- problem <--+     Try Again, Open Read-Only, Open Another File
 */
#include "app/start/start-window.h"

#include "app/backup/backup-keeper.h"
#include "app/backup/restore-view.h"
#include "app/file-dialog.h"
#include "app/plant-words.h"
#include "app/start/demo-plant.h"
#include "app/start/new-page.h"
#include "app/theme.h"
#include "app/widgets/verdict.h"
#include "app/window.h"
#include "wording/sentence.h"

struct _SwStartWindow
{
  GtkApplicationWindow parent_instance;

  /* Owned */
  char *path;           /* of the file that the problem page speaks of */
  SwBackupInfo *newest; /* the newest good backup of it, NULL = none */

  /* Template children */
  GtkStack *stack;
  GtkWidget *again;
  GtkLabel *again_path;
  GtkButton *demo;
  GtkWidget *demo_busy;
  GtkLabel *defer;
  SwNewPage *new_page;
  GtkLabel *problem_path;
  GtkLabel *problem_text;
  GtkLabel *problem_owner;
  GtkWidget *another;
  GtkWidget *read_only;
  GtkWidget *backup;
  GtkWidget *try_again;
  GtkSpinner *waiting;
};

G_DEFINE_FINAL_TYPE (SwStartWindow, sw_start_window, GTK_TYPE_APPLICATION_WINDOW)

static SwApplication *
get_application (SwStartWindow *self)
{
  return SW_APPLICATION (gtk_window_get_application (GTK_WINDOW (self)));
}

static const SwWording *
get_wording (SwStartWindow *self)
{
  return sw_application_get_wording (get_application (self));
}

static void
open_path (SwStartWindow *self, const char *path, SwOpenMode mode)
{
  g_autoptr (GError) error = NULL;

  /* On success the window goes; it is held until this function is done with it. */
  g_object_ref (self);
  if (!sw_application_open_path (get_application (self), path, mode, &error))
    sw_start_window_explain (self, path, error);
  g_object_unref (self);
}

/* ---- first page ---- */

static char *
dup_last_file (void)
{
  GSettings *settings = sw_settings_get ();
  g_autofree char *path = settings != NULL ? g_settings_get_string (settings, "last-file") : NULL;

  return path != NULL && g_file_test (path, G_FILE_TEST_IS_REGULAR) ? g_steal_pointer (&path)
                                                                    : NULL;
}

static void
show_first (SwStartWindow *self)
{
  g_autofree char *last = dup_last_file ();

  gtk_widget_set_visible (self->again, last != NULL);
  gtk_label_set_text (self->again_path, last != NULL ? last : "");
  gtk_stack_set_visible_child_name (self->stack, "first");
}

static void
again_cb (GtkButton *button, SwStartWindow *self)
{
  g_autofree char *last = dup_last_file ();

  if (last != NULL)
    open_path (self, last, SW_OPEN_WRITE);
}

static void
file_chosen_cb (const char *path, gpointer data)
{
  g_autoptr (SwStartWindow) self = data;

  if (path != NULL)
    open_path (self, path, SW_OPEN_WRITE);
}

static void
open_cb (GtkButton *button, SwStartWindow *self)
{
  sw_file_dialog_open (GTK_WINDOW (self), get_wording (self), file_chosen_cb, g_object_ref (self));
}

static void
demo_ready_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (SwStartWindow) self = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = sw_demo_plant_ensure_finish (result, &error);
  g_autofree char *wanted = sw_demo_plant_path ();

  /* Closed in the meantime. */
  if (get_application (self) == NULL)
    return;
  gtk_widget_set_sensitive (GTK_WIDGET (self->demo), TRUE);
  gtk_widget_set_visible (self->demo_busy, FALSE);
  if (path != NULL)
    open_path (self, path, SW_OPEN_WRITE);
  else
    sw_start_window_explain (self, wanted, error);
}

static void
demo_cb (GtkButton *button, SwStartWindow *self)
{
  gtk_widget_set_sensitive (GTK_WIDGET (self->demo), FALSE);
  gtk_widget_set_visible (self->demo_busy, TRUE);
  sw_demo_plant_ensure (demo_ready_cb, g_object_ref (self));
}

static void
new_cb (GtkButton *button, SwStartWindow *self)
{
  sw_start_window_new_plant (self);
}

static void
back_cb (GtkWidget *from, SwStartWindow *self)
{
  show_first (self);
}

void
sw_start_window_new_plant (SwStartWindow *self)
{
  g_return_if_fail (SW_IS_START_WINDOW (self));

  gtk_stack_set_visible_child_name (self->stack, "new");
  sw_new_page_begin (self->new_page);
}

/* ---- problem ---- */

/* Whether looking without writing is a way forward. */
static gboolean
may_look (const GError *error)
{
  return g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_BUSY)
         || g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_READ_ONLY);
}

/* Whether the same file can open in a while without anybody changing it. */
static gboolean
may_pass (const GError *error)
{
  return !g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FOREIGN)
         && !g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NEWER)
         && !g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DAMAGED)
         && !g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NETWORK);
}

/* Whether a backup is a way forward: the file is damaged, or gone. */
static gboolean
may_restore (const GError *error)
{
  return g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FOREIGN)
         || g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_DAMAGED)
         || g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NOT_FOUND);
}

/* In the folder of this PC, else beside the file, where those before a migration are anyway. */
static void
find_newest (SwStartWindow *self, const GError *error)
{
  g_autofree char *folder = sw_backup_folder_of (self->path, NULL);
  const char *const folders[] = { folder, NULL };

  g_clear_pointer (&self->newest, sw_backup_info_free);
  for (gsize i = 0; i < G_N_ELEMENTS (folders) && may_restore (error); i++)
    {
      g_autoptr (GPtrArray) list = sw_backup_list (self->path, folders[i], NULL, NULL);
      const SwBackupInfo *newest = list != NULL ? sw_backup_list_newest (list) : NULL;

      if (newest == NULL || (self->newest != NULL && self->newest->made_ms >= newest->made_ms))
        continue;
      g_clear_pointer (&self->newest, sw_backup_info_free);
      self->newest = sw_backup_read (newest->path, NULL, NULL);
    }
}

/* The way forward that is likeliest to help has the accent and the focus. */
static void
show_ways (SwStartWindow *self, const GError *error)
{
  GtkWidget *const ways[] = { self->another, self->try_again, self->backup };
  gboolean again = may_pass (error);
  GtkWidget *best = again ? self->try_again : self->another;

  find_newest (self, error);
  if (self->newest != NULL)
    best = self->backup;
  gtk_widget_set_visible (self->backup, self->newest != NULL);
  gtk_widget_set_visible (self->read_only, may_look (error));
  gtk_widget_set_visible (self->try_again, again);
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    gtk_widget_remove_css_class (ways[i], "sw-accent");
  gtk_widget_add_css_class (best, "sw-accent");
  gtk_spinner_stop (self->waiting);
  gtk_stack_set_visible_child_name (self->stack, "problem");
  gtk_widget_grab_focus (best);
}

static void
show_owner (SwStartWindow *self, const GError *error)
{
  gboolean busy = g_error_matches (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_BUSY);
  g_autofree char *owner = busy ? sw_store_dup_owner (self->path) : NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->problem_owner), owner != NULL);
  if (owner == NULL)
    return;
  /* Translators: who has the file open, such as "N. A. on bench-2 since 06:20" */
  g_autofree char *words = g_strdup_printf (sw_tr (get_wording (self), "Open there: %s"), owner);
  gtk_label_set_text (self->problem_owner, words);
}

void
sw_start_window_explain (SwStartWindow *self, const char *path, const GError *error)
{
  g_return_if_fail (SW_IS_START_WINDOW (self) && path != NULL && error != NULL);

  g_autofree char *words = sw_plant_say_error (get_wording (self), error);
  char *copy = g_strdup (path); /* @path may be the old one */
  g_free (self->path);
  self->path = copy;
  gtk_label_set_text (self->problem_path, path);
  gtk_label_set_text (self->problem_text, words);
  show_owner (self, error);
  show_ways (self, error);
}

static void
try_again_cb (GtkButton *button, SwStartWindow *self)
{
  open_path (self, self->path, SW_OPEN_WRITE);
}

static void
read_only_cb (GtkButton *button, SwStartWindow *self)
{
  open_path (self, self->path, SW_OPEN_READ_ONLY);
}

/* ---- its newest backup ---- */

static void
close_backup_cb (SwStartWindow *self)
{
  GtkWidget *page = gtk_stack_get_child_by_name (self->stack, "backup");

  gtk_stack_set_visible_child_name (self->stack, "problem");
  if (page != NULL)
    gtk_stack_remove (self->stack, page);
}

static void
backup_cb (SwStartWindow *self)
{
  GtkWidget *page = gtk_overlay_new (); /* the box to sign in lies over it */
  GtkWidget *view = sw_restore_view_new (NULL, sw_application_get_wording (get_application (self)),
                                         self->path, self->newest);

  gtk_widget_add_css_class (view, "sw-page");
  g_signal_connect_object (view, "back", G_CALLBACK (close_backup_cb), self, G_CONNECT_SWAPPED);
  gtk_overlay_set_child (GTK_OVERLAY (page), view);
  gtk_stack_add_named (self->stack, page, "backup");
  gtk_stack_set_visible_child_name (self->stack, "backup");
}

void
sw_start_window_wait (SwStartWindow *self)
{
  g_return_if_fail (SW_IS_START_WINDOW (self));
  gtk_spinner_start (self->waiting);
  gtk_stack_set_visible_child_name (self->stack, "wait");
}

/* ---- class ---- */

static void
sw_start_window_finalize (GObject *object)
{
  g_free (SW_START_WINDOW (object)->path);
  sw_backup_info_free (SW_START_WINDOW (object)->newest);
  G_OBJECT_CLASS (sw_start_window_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, again);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, again_path);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, demo);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, demo_busy);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, defer);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, new_page);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, problem_path);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, problem_text);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, problem_owner);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, another);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, read_only);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, backup);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, try_again);
  gtk_widget_class_bind_template_child (widget_class, SwStartWindow, waiting);
}

static void
sw_start_window_class_init (SwStartWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = sw_start_window_finalize;
  g_type_ensure (SW_TYPE_NEW_PAGE);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/start/start-window.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, again_cb);
  gtk_widget_class_bind_template_callback (widget_class, open_cb);
  gtk_widget_class_bind_template_callback (widget_class, demo_cb);
  gtk_widget_class_bind_template_callback (widget_class, new_cb);
  gtk_widget_class_bind_template_callback (widget_class, back_cb);
  gtk_widget_class_bind_template_callback (widget_class, try_again_cb);
  gtk_widget_class_bind_template_callback (widget_class, read_only_cb);
  gtk_widget_class_bind_template_callback (widget_class, backup_cb);
}

static void
sw_start_window_init (SwStartWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  show_first (self);
}

SwStartWindow *
sw_start_window_new (SwApplication *application)
{
  sw_application_speak (application, NULL);
  SwStartWindow *self = g_object_new (SW_TYPE_START_WINDOW, "application", application, NULL);

  gtk_label_set_text (self->defer, sw_say_caution (get_wording (self), SW_CAUTION_DEFER));
  return self;
}
