/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of backups.
 *
 *   list --a row--> look (app/backup/restore-view.h) --Back--> list
 *
 * The keeper of backups does the work and knows what there is; this page shows it.
 */
#include "app/setup/backups-page.h"

#include "app/backup/backup-keeper.h"
#include "app/backup/restore-view.h"
#include "app/file-dialog.h"
#include "app/setup/section-spec.h"
#include "app/setup/setup-item-private.h"
#include "app/test/error-line.h"
#include "app/window.h"
#include "wording/sentence-backup.h"
#include "wording/time.h"

#include <glib/gi18n.h>

struct _SwBackupsPage
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;
  GListStore *items; /* SwSetupItem, ids are positions in shown */
  GPtrArray *shown;  /* the keeper's list as it is on screen */

  SwBackupKeeper *keeper; /* Borrowed: the context's */

  /* Template children */
  GtkStack *stack;
  GtkWidget *now;
  GtkLabel *last;
  GtkLabel *folder;
  GtkWidget *choose;
  GtkWidget *beside;
  GtkWidget *busy;
  GtkProgressBar *progress;
  SwErrorLine *failure;
  GtkWidget *scroller;
  GtkListView *list;
  GtkWidget *snapshot;
};

G_DEFINE_FINAL_TYPE (SwBackupsPage, sw_backups_page, GTK_TYPE_WIDGET)

static SwWording *
get_wording (SwBackupsPage *self)
{
  return sw_context_get_wording (self->context);
}

static GtkWindow *
get_window (SwBackupsPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  return GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL;
}

/* ---- what it shows ---- */

static void
set_text (GtkLabel *label, char *text)
{
  gtk_label_set_text (label, text);
  g_free (text);
}

static SwSetupItem *
make_item (SwBackupsPage *self, const SwBackupInfo *info, guint position)
{
  SwSetupItem *item = sw_setup_item_new (position);

  sw_setup_item_take_title (item, sw_date_time_format (get_wording (self), info->made_ms));
  sw_setup_item_take_detail (
      item, sw_say_backup_line (get_wording (self), info->why, info->bytes, (gulong)info->tests));
  sw_setup_item_take_state (item, g_strdup (sw_say_backup_state (get_wording (self), info->state)));
  return item;
}

/* Only when the keeper has read another one: what is selected stays. */
static void
show_list (SwBackupsPage *self)
{
  GPtrArray *list = sw_backup_keeper_get_list (self->keeper);

  if (list == self->shown)
    return;
  g_clear_pointer (&self->shown, g_ptr_array_unref);
  self->shown = g_ptr_array_ref (list);
  g_list_store_remove_all (self->items);
  for (guint i = 0; i < list->len; i++)
    {
      g_autoptr (SwSetupItem) item = make_item (self, list->pdata[i], i);
      g_list_store_append (self->items, item);
    }
  gtk_widget_set_visible (self->scroller, list->len > 0);
}

static void
show_failure (SwBackupsPage *self)
{
  const GError *failure = sw_backup_keeper_get_failure (self->keeper);
  g_autofree char *words
      = failure != NULL ? sw_say_backup_error (get_wording (self), failure) : NULL;

  sw_error_line_set (self->failure, words);
}

static void
show_all (SwBackupsPage *self)
{
  gboolean busy = sw_backup_keeper_is_busy (self->keeper);
  gboolean beside = FALSE;
  g_autofree char *folder = sw_backup_keeper_dup_folder (self->keeper, &beside);
  const SwBackupInfo *newest;

  show_list (self);
  newest = sw_backup_list_newest (self->shown);
  set_text (self->last,
            sw_say_backup_last (get_wording (self), newest != NULL ? newest->made_ms : 0,
                                sw_backup_keeper_looks_after (self->keeper)));
  set_text (self->folder, sw_say_backup_folder (get_wording (self), folder, beside));
  gtk_widget_set_visible (self->beside, !beside);
  gtk_widget_set_visible (self->busy, busy);
  gtk_progress_bar_set_fraction (self->progress, sw_backup_keeper_get_progress (self->keeper));
  gtk_widget_set_sensitive (self->now, !busy);
  gtk_widget_set_sensitive (self->snapshot, !busy);
  gtk_widget_set_sensitive (self->choose, !busy);
  show_failure (self);
}

/* ---- what it does ---- */

/* A copy for safekeeping needs no right beyond that of being at the file; where it is kept does. */
static gboolean
may_set_up (SwBackupsPage *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  return window == NULL || sw_window_may (window, SW_RIGHT_SET_UP);
}

static void
now_cb (SwBackupsPage *self)
{
  sw_backup_keeper_back_up (self->keeper);
}

static void
folder_chosen_cb (const char *path, gpointer data)
{
  g_autoptr (SwBackupsPage) self = data;

  if (path != NULL && self->keeper != NULL)
    sw_backup_keeper_set_folder (self->keeper, path);
}

static void
choose_cb (SwBackupsPage *self)
{
  if (may_set_up (self))
    sw_file_dialog_folder (get_window (self), get_wording (self),
                           sw_tr (get_wording (self), "Where Backups Are Kept"), folder_chosen_cb,
                           g_object_ref (self));
}

static void
beside_cb (SwBackupsPage *self)
{
  if (may_set_up (self))
    sw_backup_keeper_set_folder (self->keeper, NULL);
}

static void
snapshot_chosen_cb (const char *path, gpointer data)
{
  g_autoptr (SwBackupsPage) self = data;

  if (path == NULL || self->keeper == NULL)
    return;
  /* so that what the auditor gets says for itself up to where it was signed for */
  sw_context_sign_head (self->context);
  sw_backup_keeper_snapshot (self->keeper, path);
}

static void
snapshot_cb (SwBackupsPage *self)
{
  g_autoptr (SwSite) site = sw_site_get (sw_context_get_store (self->context), NULL);
  g_autofree char *day = sw_iso_format (sw_context_now (self->context), 0);
  g_autofree char *name = NULL;

  day[10] = '\0'; /* the day alone */
  name = g_strdup_printf ("%s %s", site != NULL && site->name != NULL ? site->name : "plant", day);
  sw_file_dialog_save_as (get_window (self), get_wording (self),
                          sw_tr (get_wording (self), "Snapshot for an Auditor"), name,
                          snapshot_chosen_cb, g_object_ref (self));
}

static void
written_cb (SwBackupsPage *self, const char *path, int why)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *words = why == SW_KEEPER_SNAPSHOT
                               ? sw_say_snapshot_done (get_wording (self), path)
                               : sw_say_backup_done (get_wording (self), name);

  if (window != NULL)
    sw_window_toast (window, words);
}

/* Of a backup the failure stays on screen; a snapshot has nobody else to tell. */
static void
refused_cb (SwBackupsPage *self, const GError *error)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  g_autofree char *words = sw_say_backup_error (get_wording (self), error);

  if (window != NULL && sw_backup_keeper_get_failure (self->keeper) == NULL)
    sw_window_toast (window, words);
}

/* ---- one of them ---- */

static void
close_look_cb (SwBackupsPage *self)
{
  GtkWidget *look = gtk_stack_get_child_by_name (self->stack, "look");

  gtk_stack_set_visible_child_name (self->stack, "list");
  if (look != NULL)
    gtk_stack_remove (self->stack, look);
  gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

static void
activated_cb (SwBackupsPage *self, guint position)
{
  const SwBackupInfo *info;
  GtkWidget *look;

  if (self->shown == NULL || position >= self->shown->len)
    return;
  info = self->shown->pdata[position];
  if (info->state != SW_BACKUP_GOOD)
    return; /* the line says why */
  look = sw_restore_view_new (self->context, get_wording (self),
                              sw_store_get_path (sw_context_get_store (self->context)), info);
  g_signal_connect_object (look, "back", G_CALLBACK (close_look_cb), self, G_CONNECT_SWAPPED);
  gtk_stack_add_named (self->stack, look, "look");
  gtk_stack_set_visible_child_name (self->stack, "look");
}

/* ---- class ---- */

static void
sw_backups_page_dispose (GObject *object)
{
  SwBackupsPage *self = SW_BACKUPS_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  if (self->keeper != NULL)
    g_signal_handlers_disconnect_by_data (self->keeper, self);
  self->keeper = NULL;
  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->items);
  g_clear_pointer (&self->shown, g_ptr_array_unref);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_backups_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, stack);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, now);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, last);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, folder);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, choose);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, beside);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, busy);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, progress);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, failure);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, list);
  gtk_widget_class_bind_template_child (widget_class, SwBackupsPage, snapshot);
}

static void
sw_backups_page_class_init (SwBackupsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_backups_page_dispose;
  g_type_ensure (SW_TYPE_ERROR_LINE);
  g_type_ensure (SW_TYPE_SETUP_ITEM);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/setup/backups-page.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, now_cb);
  gtk_widget_class_bind_template_callback (widget_class, choose_cb);
  gtk_widget_class_bind_template_callback (widget_class, beside_cb);
  gtk_widget_class_bind_template_callback (widget_class, snapshot_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_backups_page_init (SwBackupsPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->items = g_list_store_new (SW_TYPE_SETUP_ITEM);
}

GtkWidget *
sw_backups_page_new (SwContext *context)
{
  SwBackupsPage *self = g_object_new (SW_TYPE_BACKUPS_PAGE, NULL);
  g_autoptr (GtkNoSelection) model
      = gtk_no_selection_new (G_LIST_MODEL (g_object_ref (self->items)));

  self->context = g_object_ref (context);
  self->keeper = sw_backup_keeper_of (context);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (model));
  g_signal_connect_object (self->keeper, "changed", G_CALLBACK (show_all), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->keeper, "written", G_CALLBACK (written_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->keeper, "refused", G_CALLBACK (refused_cb), self,
                           G_CONNECT_SWAPPED);
  show_all (self);
  sw_backup_keeper_refresh (self->keeper);
  return GTK_WIDGET (self);
}

const SwSectionSpec sw_section_backups = {
  .name = "backups",
  .title = N_ ("Backups"),
  .page = sw_backups_page_new,
};
