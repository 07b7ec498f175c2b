/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Backups at the desktop: by themselves and by hand, a failure that stays on screen, a restore from
 * preview to the reopened file, and the way forward from a damaged one. */
#include <glib/gstdio.h>

#include "app/backup/backup-keeper.h"
#include "app/start/start-window.h"
#include "app/theme.h"
#include "app/window.h"
#include "app/widgets/form-row.h"
#include "records/restore.h"
#include "support/plant.h"
#include "tests/app/box.h"
#include "tests/app/snapshot.h"
#include "wording/sentence.h"

#define PATIENCE_S 8

static SwApplication *application;

typedef struct
{
  SwTestPlant *plant; /* Owned; its own store is closed */
  SwWindow *window;   /* Borrowed: the application's */
} Desk;

/* ---- waiting ---- */

typedef gboolean (*Condition) (gpointer data);

/* What is on screen, for whoever reads why a test failed. */
static void
give_up_waiting (void)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));
  g_autofree char *text = active != NULL ? sw_visible_text (GTK_WIDGET (active)) : NULL;

  g_error ("waited too long; on screen:\n%s", text != NULL ? text : "nothing");
}

static void
wait_until (Condition condition, gpointer data)
{
  gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  while (!condition (data))
    {
      if (g_get_monotonic_time () > end)
        give_up_waiting ();
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_usleep (2000);
    }
}

static SwBackupKeeper *
keeper_of (Desk *desk)
{
  return sw_backup_keeper_of (sw_window_get_context (desk->window));
}

static gboolean
is_idle (gpointer data)
{
  return !sw_backup_keeper_is_busy (keeper_of (data));
}

static guint
count_backups (Desk *desk)
{
  return sw_backup_keeper_get_list (keeper_of (desk))->len;
}

static gboolean
has_list (gpointer data)
{
  return count_backups (data) > 0;
}

/* ---- a desk ---- */

static void
open_window (Desk *desk)
{
  GError *error = NULL;

  sw_application_open_path (application, desk->plant->path, SW_OPEN_WRITE, &error);
  g_assert_no_error (error);
  desk->window = SW_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (application)));
  const SwSigner signer = { desk->plant->administrator, SW_IDENTIFIED_SECRET };
  sw_context_set_signer (sw_window_get_context (desk->window), &signer);
  sw_snapshot_settle (GTK_WIDGET (desk->window));
}

static void
set_desk (Desk *desk)
{
  desk->plant = sw_test_plant_new ();
  desk->window = NULL;
}

static void
close_file (Desk *desk)
{
  g_clear_pointer (&desk->plant->store, sw_store_close);
}

static void
clear_desk (Desk *desk)
{
  GList *windows;
  GError *error = NULL;

  while ((windows = gtk_application_get_windows (GTK_APPLICATION (application))) != NULL)
    gtk_window_destroy (windows->data);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  /* whatever was on screen, the file is closed with its window */
  SwStore *store = sw_store_open (desk->plant->path, SW_OPEN_WRITE, NULL, &error);
  g_assert_no_error (error);
  sw_store_close (store);
  sw_test_plant_free (desk->plant);
  g_settings_reset (sw_settings_get (), "backup-folder");
}

static void
assert_says (GtkWidget *widget, const char *part)
{
  g_autofree char *text = sw_visible_text (widget);

  if (strstr (text, part) == NULL)
    g_error ("\"%s\" is not in:\n%s", part, text);
}

static void
press (GtkWidget *widget, const char *label)
{
  g_signal_emit_by_name (sw_find_button (widget, label), "clicked");
}

static GtkWidget *
show_page (Desk *desk)
{
  sw_window_show_setup (desk->window, "backups");
  wait_until (is_idle, desk);
  return sw_find_widget (GTK_WIDGET (desk->window), g_type_from_name ("SwBackupsPage"), NULL);
}

/* ---- by hand and by itself ---- */

static void
test_by_hand (void)
{
  Desk desk;

  set_desk (&desk);
  close_file (&desk);
  open_window (&desk);
  GtkWidget *page = show_page (&desk);
  assert_says (page, "There is no good backup yet.");
  assert_says (page, "on the same disk as the file");
  sw_snapshot (GTK_WIDGET (desk.window), "backups-none");
  press (page, "Back Up Now");
  assert_says (page, "A copy is being written");
  wait_until (has_list, &desk);
  assert_says (page, "By hand, ");
  assert_says (page, "The last good backup is of ");
  assert_says (GTK_WIDGET (desk.window), "Written and checked: plant.swlog-");
  g_assert_cmpuint (count_backups (&desk), ==, 1);
  clear_desk (&desk);
}

/* A new file is backed up; a second look finds nothing to do. */
static void
test_by_itself (void)
{
  Desk desk;

  set_desk (&desk);
  close_file (&desk);
  open_window (&desk);
  wait_until (has_list, &desk);
  wait_until (is_idle, &desk);
  g_assert_cmpint ((int)sw_backup_list_newest (sw_backup_keeper_get_list (keeper_of (&desk)))->why,
                   ==, SW_BACKUP_DAILY);
  sw_backup_keeper_check (keeper_of (&desk));
  wait_until (is_idle, &desk);
  g_assert_cmpuint (count_backups (&desk), ==, 1);
  clear_desk (&desk);
}

/* Closed while a copy is being written: nothing is left half, nothing falls over. */
static void
test_closed_meanwhile (void)
{
  Desk desk;

  set_desk (&desk);
  close_file (&desk);
  open_window (&desk);
  sw_backup_keeper_back_up (keeper_of (&desk));
  gtk_window_destroy (GTK_WINDOW (desk.window));
  for (int i = 0; i < 200; i++)
    {
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_usleep (2000);
    }
  g_autoptr (GPtrArray) list = sw_backup_list (desk.plant->path, NULL, NULL, NULL);
  for (guint i = 0; i < list->len; i++)
    g_assert_cmpint ((int)((SwBackupInfo *)list->pdata[i])->state, ==, SW_BACKUP_GOOD);
  clear_desk (&desk);
}

/* ---- failure ---- */

static gboolean
has_failed (gpointer data)
{
  return sw_backup_keeper_get_failure (keeper_of (data)) != NULL;
}

/* It stays, whatever else happens, until one goes well. */
static void
test_failure (void)
{
  Desk desk;

  set_desk (&desk);
  g_autofree char *folder = g_path_get_dirname (desk.plant->path);
  g_autofree char *in_the_way = g_build_filename (folder, "in the way", NULL);
  g_autofree char *below = g_build_filename (in_the_way, "backups", NULL);
  g_assert_true (g_file_set_contents (in_the_way, "x", -1, NULL));
  g_settings_set_string (sw_settings_get (), "backup-folder", below);
  close_file (&desk);
  open_window (&desk);
  wait_until (has_failed, &desk);
  assert_says (GTK_WIDGET (desk.window), "No backup could be written, and there is none.");
  sw_context_changed (sw_window_get_context (desk.window));
  sw_window_refresh (desk.window);
  sw_snapshot (GTK_WIDGET (desk.window), "backups-failed");
  press (GTK_WIDGET (desk.window), "Backups…");
  GtkWidget *page
      = sw_find_widget (GTK_WIDGET (desk.window), g_type_from_name ("SwBackupsPage"), NULL);
  assert_says (page, "The folder for backups cannot be used");
  sw_snapshot (GTK_WIDGET (desk.window), "backups-failed-page");
  press (page, "Keep Beside the File");
  press (page, "Back Up Now");
  wait_until (has_list, &desk);
  wait_until (is_idle, &desk);
  g_autofree char *text = sw_visible_text (GTK_WIDGET (desk.window));
  g_assert_null (strstr (text, "No backup could be written"));
  clear_desk (&desk);
}

/* ---- restore ---- */

static SwBackupInfo *
back_up (Desk *desk)
{
  GError *error = NULL;
  SwBackupInfo *info = sw_backup_write (desk->plant->path, NULL, SW_BACKUP_BY_HAND,
                                        desk->plant->now_ms, NULL, NULL, &error);

  g_assert_no_error (error);
  return info;
}

/* A further machine: what will be lost. */
static void
set_desk_with_backup (Desk *desk)
{
  set_desk (desk);
  sw_backup_info_free (back_up (desk));
  sw_test_plant_add_machine (desk->plant, "M-08");
  close_file (desk);
}

static gboolean
has_looked (gpointer data)
{
  GtkWidget *view = sw_find_widget (data, g_type_from_name ("SwRestoreView"), NULL);
  g_autofree char *text = view != NULL ? sw_visible_text (view) : g_strdup ("");

  return strstr (text, "In the Place of the File") != NULL;
}

/* The same in any language. */
static gboolean
has_compared (gpointer data)
{
  GtkWidget *view = sw_find_widget (data, g_type_from_name ("SwRestoreView"), NULL);
  GtkWidget *reason = view != NULL ? sw_find_widget (view, SW_TYPE_FORM_ROW, "reason") : NULL;

  return reason != NULL && gtk_widget_get_mapped (reason);
}

static void
type_reason (GtkWidget *view, const char *text)
{
  GtkWidget *row = sw_find_widget (view, g_type_from_name ("SwFormRow"), "reason");

  gtk_editable_set_text (GTK_EDITABLE (sw_form_row_get_entry (SW_FORM_ROW (row))), text);
}

static gboolean
is_reopened (gpointer data)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));

  return SW_IS_WINDOW (active) && active != data;
}

static gint64
count_restorations (SwWindow *window)
{
  SwStore *store = sw_context_get_store (sw_window_get_context (window));
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_RESTORATION, NULL, 0, NULL);

  return ids->len;
}

/* The first of the list, looked at. */
static GtkWidget *
look_at_first (Desk *desk)
{
  GtkWidget *page = show_page (desk);

  wait_until (has_list, desk);
  g_signal_emit_by_name (sw_find_widget (page, GTK_TYPE_LIST_VIEW, NULL), "activate",
                         count_backups (desk) - 1);
  wait_until (has_looked, desk->window);
  return sw_find_widget (page, g_type_from_name ("SwRestoreView"), NULL);
}

static void
test_restore (void)
{
  Desk desk;

  set_desk_with_backup (&desk);
  open_window (&desk);
  GtkWidget *view = look_at_first (&desk);
  assert_says (view, "It holds 1 machine, 0 tests and 0 doses.");
  assert_says (view, "This backup is an earlier state of the file.");
  assert_says (view, "would be missing afterwards");
  sw_snapshot (GTK_WIDGET (desk.window), "restore-light");
  press (view, "Restore…");
  g_assert_null (sw_box_over (GTK_WIDGET (desk.window))); /* a reason first */
  type_reason (view, "wrong machine");
  press (view, "Restore…");
  GtkWidget *box = sw_box_over (GTK_WIDGET (desk.window));
  g_assert_nonnull (box);
  sw_snapshot (GTK_WIDGET (desk.window), "restore-sign");
  gpointer before = desk.window;
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  GtkWidget *wait = GTK_WIDGET (gtk_application_get_active_window (GTK_APPLICATION (application)));
  if (SW_IS_START_WINDOW (wait))
    sw_snapshot (wait, "restore-wait");
  wait_until (is_reopened, before);
  SwWindow *after = SW_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (application)));
  g_assert_cmpint (count_restorations (after), ==, 1);
  assert_says (GTK_WIDGET (after), "is in the place of the file now");
  /* nobody is told that something is missing: the restoration says what, and why */
  g_assert_false (gtk_widget_get_visible (
      sw_find_widget (GTK_WIDGET (after), GTK_TYPE_WIDGET, "trust_banner")));
  clear_desk (&desk);
}

/* A technician is not even asked. */
static void
test_restore_refused (void)
{
  Desk desk;

  set_desk_with_backup (&desk);
  open_window (&desk);
  const SwSigner signer = { desk.plant->technician, SW_IDENTIFIED_SECRET };
  sw_context_set_signer (sw_window_get_context (desk.window), &signer);
  GtkWidget *view = look_at_first (&desk);
  type_reason (view, "wrong machine");
  press (view, "Restore…");
  g_assert_null (sw_box_over (GTK_WIDGET (desk.window)));
  assert_says (GTK_WIDGET (desk.window), "administrator");
  g_assert_cmpint (count_restorations (desk.window), ==, 0);
  clear_desk (&desk);
}

/* ---- a damaged file ---- */

static void
test_damaged (void)
{
  Desk desk;
  g_autoptr (GError) error = NULL;

  set_desk_with_backup (&desk);
  g_assert_true (g_file_set_contents (desk.plant->path, "Shopping list", -1, NULL));
  SwStartWindow *start = sw_start_window_new (application);
  gtk_window_present (GTK_WINDOW (start));
  g_assert_false (sw_application_open_path (application, desk.plant->path, SW_OPEN_WRITE, &error));
  sw_start_window_explain (start, desk.plant->path, error);
  sw_snapshot (GTK_WIDGET (start), "start-damaged-backup");
  press (GTK_WIDGET (start), "Look at the Newest Backup…");
  wait_until (has_looked, start);
  GtkWidget *view = sw_find_widget (GTK_WIDGET (start), g_type_from_name ("SwRestoreView"), NULL);
  assert_says (view, "The file itself cannot be read");
  sw_snapshot (GTK_WIDGET (start), "start-damaged-look");
  type_reason (view, "the disk failed");
  press (view, "Restore…");
  GtkWidget *box = GTK_WIDGET (sw_modal_over (view));
  g_assert_nonnull (box);
  sw_snapshot (GTK_WIDGET (start), "start-damaged-sign");
  sw_box_answer (box, "this is not it");
  g_assert_nonnull (sw_modal_over (view));
  g_usleep (100);
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  wait_until (is_reopened, start);
  SwWindow *after = SW_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (application)));
  g_assert_cmpint (count_restorations (after), ==, 1);
  clear_desk (&desk);
}

/* ---- looks ---- */

typedef struct
{
  const char *name;
  const char *language;
  int width;
  int height;
  gboolean dark;
} LookRow;

static const LookRow looks[] = {
  { "light", "en", 1180, 760, FALSE },
  { "dark", "en", 1180, 760, TRUE },
  { "long", "xx", 1024, 600, FALSE },
};

static void
test_look (gconstpointer data)
{
  const LookRow *row = data;
  Desk desk;

  sw_theme_force (row->dark ? SW_SCHEME_DARK : SW_SCHEME_LIGHT, FALSE);
  set_desk_with_backup (&desk);
  open_window (&desk);
  g_autoptr (SwWording) wording = sw_wording_new (row->language, "Europe/Berlin");
  SwStore *store = sw_store_open (desk.plant->path, SW_OPEN_READ_ONLY, NULL, NULL);
  sw_application_speak (application, wording);
  g_autoptr (SwContext) context = sw_context_new (store, wording);
  gtk_window_destroy (GTK_WINDOW (desk.window));
  desk.window = sw_window_new (GTK_APPLICATION (application), context);
  gtk_window_set_default_size (GTK_WINDOW (desk.window), row->width, row->height);
  gtk_window_present (GTK_WINDOW (desk.window));
  GtkWidget *page = show_page (&desk);
  wait_until (has_list, &desk);
  g_autofree char *list = g_strconcat ("backups-", row->name, NULL);
  sw_snapshot (GTK_WIDGET (desk.window), list);
  g_signal_emit_by_name (sw_find_widget (page, GTK_TYPE_LIST_VIEW, NULL), "activate", 0);
  wait_until (has_compared, desk.window);
  g_autofree char *look = g_strconcat ("restore-", row->name, NULL);
  sw_snapshot (GTK_WIDGET (desk.window), look);
  clear_desk (&desk);
  sw_application_speak (application, NULL);
  sw_theme_force (SW_SCHEME_LIGHT, FALSE);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int status;

  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_setenv ("SW_NON_UNIQUE", "1", TRUE);
  application = sw_application_new ();
  g_application_register (G_APPLICATION (application), NULL, &error);
  g_assert_no_error (error);
  sw_theme_force (SW_SCHEME_LIGHT, FALSE);
  g_test_add_func ("/backups/by-hand", test_by_hand);
  g_test_add_func ("/backups/by-itself", test_by_itself);
  g_test_add_func ("/backups/closed-meanwhile", test_closed_meanwhile);
  g_test_add_func ("/backups/failure", test_failure);
  g_test_add_func ("/backups/restore", test_restore);
  g_test_add_func ("/backups/restore-refused", test_restore_refused);
  g_test_add_func ("/backups/damaged", test_damaged);
  SW_TEST_ROWS ("/backups/look", looks, test_look);
  status = g_test_run ();
  g_object_unref (application);
  return status;
}
