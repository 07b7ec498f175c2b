/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Verify page, the banner of a file that was put back, and when the window signs. */
#include "app/backup/backup-keeper.h"
#include "app/records/record-export.h"
#include "app/verify/verify-page.h"
#include "app/widgets/form-row.h"
#include "records/checkpoint.h"
#include "records/verify.h"
#include "tests/app/busy-plant.h"
#include "tests/app/snapshot.h"

#include <glib/gstdio.h>

#define PATIENCE_MS 30000

static void
assert_says (GtkWidget *widget, const char *part)
{
  g_autofree char *text = sw_visible_text (widget);

  if (strstr (text, part) == NULL)
    g_error ("\"%s\" is not in:\n%s", part, text);
}

static void
assert_silent (GtkWidget *widget, const char *part)
{
  g_autofree char *text = sw_visible_text (widget);

  if (strstr (text, part) != NULL)
    g_error ("\"%s\" is in:\n%s", part, text);
}

static void
assert_once (GtkWidget *widget, const char *part)
{
  g_autofree char *text = sw_visible_text (widget);
  g_auto (GStrv) parts = g_strsplit (text, part, -1);

  g_assert_cmpuint (g_strv_length (parts), ==, 2);
}

/* ---- a plant, if @data says so with a trust folder beside its file ---- */

typedef struct
{
  BusyPlant *plant; /* Owned */
  char *path;       /* Owned */
  char *trust;      /* Owned */
} Bench;

static void
set_up (Bench *bench, gconstpointer data)
{
  g_autofree char *folder = NULL;

  bench->plant = busy_plant_new_quiet ();
  bench->path = g_strdup (bench->plant->scene->plant->path);
  folder = g_path_get_dirname (bench->path);
  bench->trust = g_build_filename (folder, "trust", NULL);
  if (data != NULL)
    bench->plant->trust = bench->trust;
}

static void
tear_down (Bench *bench, gconstpointer data)
{
  busy_plant_free (bench->plant);
  g_free (bench->path);
  g_free (bench->trust);
}

static void
run_shell (const char *format, ...)
{
  va_list arguments;
  g_autofree char *line = NULL;
  GError *error = NULL;
  int status = 0;

  va_start (arguments, format);
  line = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  const char *const argv[] = { "sh", "-c", line, NULL };
  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
}

static GtkWidget *
open_page (Bench *bench, const char *language, int width, int height, gboolean dark)
{
  SwWindow *window = busy_plant_open_window (bench->plant, language, width, height, dark);

  gtk_widget_activate_action (GTK_WIDGET (window), "win.verify", NULL);
  sw_snapshot_settle (GTK_WIDGET (window));
  return sw_find_widget (GTK_WIDGET (window), SW_TYPE_VERIFY_PAGE, NULL);
}

static GtkWidget *
find_child (GtkWidget *page, GType type, const char *name)
{
  GtkWidget *child = sw_find_widget (page, type, name);

  g_assert_nonnull (child);
  return child;
}

static void
press_start (GtkWidget *page)
{
  g_signal_emit_by_name (find_child (page, GTK_TYPE_BUTTON, "start"), "clicked");
}

static void
verify (GtkWidget *page)
{
  gint64 end = g_get_monotonic_time () + PATIENCE_MS * 1000;

  press_start (page);
  while (sw_verify_page_is_running (SW_VERIFY_PAGE (page)) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, TRUE);
  g_assert_false (sw_verify_page_is_running (SW_VERIFY_PAGE (page)));
  sw_snapshot_settle (page);
}

static void
add_machine (Bench *bench, const char *tag)
{
  SwMachine *machine = sw_machine_new ();
  SwStore *store = sw_context_get_store (bench->plant->context);
  GError *error = NULL;

  machine->tag = g_strdup (tag);
  machine->solvent = bench->plant->scene->plant->solvent;
  sw_act_begin (store, SW_ACT_SETUP, sw_context_get_actor (bench->plant->context), &error);
  g_assert_no_error (error);
  sw_machine_insert (store, machine, &error);
  g_assert_no_error (error);
  sw_act_commit (store, &error);
  g_assert_no_error (error);
  sw_machine_free (machine);
}

static gint64
count_checkpoints (Bench *bench)
{
  g_autoptr (GArray) ids = sw_record_ids (sw_context_get_store (bench->plant->context),
                                          SW_TABLE_CHECKPOINT, NULL, 0, NULL);

  return ids->len;
}

/* ---- the page ---- */

static void
test_sound (Bench *bench, gconstpointer data)
{
  GtkWidget *page = open_page (bench, "en", 1280, 900, FALSE);
  g_autofree char *head = sw_journal_head (sw_context_get_store (bench->plant->context), NULL);

  assert_says (page, head);
  assert_silent (page, "Nothing was found");
  verify (page);
  assert_says (page, "Nothing was found");
  assert_says (page, "This PC has no checkpoint of this file");
  assert_says (page, "What no Verify can find");
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (bench->plant->window)), ==, "Verify Records");
  sw_snapshot (GTK_WIDGET (bench->plant->window), "verify-light");
}

/* Another tool renamed a machine and dropped a trigger. */
static void
test_found (Bench *bench, gconstpointer data)
{
  GtkWidget *page;

  g_clear_pointer (&bench->plant->scene->plant->store, sw_store_close);
  run_shell ("sqlite3 '%s' \"DROP TRIGGER machine_update; UPDATE machine SET name = 'Other',"
             " circulation_min = 10 WHERE id = 1\"",
             bench->path);
  page = open_page (bench, "en", 1280, 1400, TRUE);
  verify (page);
  assert_says (page, "3 findings");
  assert_says (page, "trigger machine_update is not as this program made it");
  assert_says (page, "Machine M-07: another tool changed the field “Name”. By the journal it is "
                     "Long bed, in the file stands Other.");
  assert_says (page, "45 min");
  assert_once (page, "Copy the file as it is, before anybody works in it.");
  sw_snapshot (GTK_WIDGET (bench->plant->window), "verify-found-dark");
}

static void
test_long (Bench *bench, gconstpointer data)
{
  GtkWidget *page;

  g_clear_pointer (&bench->plant->scene->plant->store, sw_store_close);
  run_shell ("sqlite3 '%s' \"DROP TRIGGER machine_update; UPDATE machine SET name = 'Other'"
             " WHERE id = 1\"",
             bench->path);
  page = open_page (bench, "xx", 1024, 1400, FALSE);
  verify (page);
  sw_snapshot (GTK_WIDGET (bench->plant->window), "verify-found-long");
  /* nothing is wider than the window */
  g_assert_cmpint (gtk_widget_get_width (page), <, 1024);
}

static void
test_head (Bench *bench, gconstpointer data)
{
  GtkWidget *page = open_page (bench, "en", 1280, 900, FALSE);
  SwFormRow *row = SW_FORM_ROW (find_child (page, SW_TYPE_FORM_ROW, "head"));
  g_autofree char *head = sw_journal_head (sw_context_get_store (bench->plant->context), NULL);
  g_autofree char *capitals = g_ascii_strup (head, -1);
  g_autofree char *typed = g_strdup_printf (" %.32s %s ", capitals, capitals + 32);

  sw_form_row_set_text (row, "12 ab");
  press_start (page);
  g_assert_false (sw_verify_page_is_running (SW_VERIFY_PAGE (page)));
  g_assert_cmpstr (sw_form_row_get_error (row), ==,
                   "A head has 64 digits, 0 to 9 and a to f; 4 characters stand here.");
  sw_form_row_set_text (row, typed);
  /* Enter is as good as the button */
  g_assert_true (gtk_window_get_default_widget (GTK_WINDOW (bench->plant->window))
                 == find_child (page, GTK_TYPE_BUTTON, "start"));
  verify (page);
  g_assert_null (sw_form_row_get_error (row));
  assert_says (page, "Nothing was found");
  head[0] = head[0] == '0' ? '1' : '0';
  sw_form_row_set_text (row, head);
  verify (page);
  assert_says (page, "1 finding");
  assert_says (page, "is not in this file.");
  assert_says (page, "Test before you dose.");
}

static void
test_stop (Bench *bench, gconstpointer data)
{
  GtkWidget *page = open_page (bench, "en", 1280, 900, FALSE);

  press_start (page);
  g_assert_true (sw_verify_page_is_running (SW_VERIFY_PAGE (page)));
  g_assert_false (gtk_widget_get_sensitive (find_child (page, GTK_TYPE_BUTTON, "start")));
  g_signal_emit_by_name (find_child (page, GTK_TYPE_BUTTON, "stop"), "clicked");
  g_assert_false (sw_verify_page_is_running (SW_VERIFY_PAGE (page)));
  g_usleep (300000);
  sw_snapshot_settle (page);
  assert_silent (page, "Nothing was found");
  assert_silent (page, "could not be finished");
  verify (page);
  assert_says (page, "Nothing was found");
}

/* The window may close while a worker still reads. */
static void
test_closed (Bench *bench, gconstpointer data)
{
  GtkWidget *page = open_page (bench, "en", 1280, 900, FALSE);

  press_start (page);
  g_assert_true (sw_verify_page_is_running (SW_VERIFY_PAGE (page)));
  busy_plant_close_window (bench->plant);
  page = open_page (bench, "en", 1280, 900, FALSE);
  verify (page);
  assert_says (page, "Nothing was found");
}

/* ---- when the window signs ----
 *
 * It also does so now and then by itself, before the daily backup; what is counted here is what
 * happens between two turns of the main loop. */

static void
test_close_signs (Bench *bench, gconstpointer data)
{
  gint64 before;

  busy_plant_open_window (bench->plant, "en", 1024, 600, FALSE);
  add_machine (bench, "M-99");
  before = count_checkpoints (bench);
  busy_plant_close_window (bench->plant);
  busy_plant_open_window (bench->plant, "en", 1024, 600, FALSE);
  g_assert_cmpint (count_checkpoints (bench), ==, before + 1);
  /* nothing was written: nothing to sign */
  busy_plant_close_window (bench->plant);
  busy_plant_open_window (bench->plant, "en", 1024, 600, FALSE);
  g_assert_cmpint (count_checkpoints (bench), ==, before + 1);
}

/* An act of work waits for the close, a signature does not. */
static void
test_signature_signs (Bench *bench, gconstpointer data)
{
  SwStore *store;
  SwReview *review = sw_review_new ();
  gint64 before;

  busy_plant_open_window (bench->plant, "en", 1024, 600, FALSE);
  store = sw_context_get_store (bench->plant->context);
  before = count_checkpoints (bench);
  add_machine (bench, "M-99");
  sw_context_changed (bench->plant->context);
  g_assert_cmpint (count_checkpoints (bench), ==, before);
  review->subject_table = g_strdup (sw_table_name (SW_TABLE_MACHINE));
  review->subject = 1;
  review->person = bench->plant->scene->plant->technician;
  g_assert_true (
      sw_act_begin (store, SW_ACT_SIGN, sw_context_get_actor (bench->plant->context), NULL));
  g_assert_true (sw_review_insert (store, review, NULL));
  g_assert_true (sw_act_commit (store, NULL));
  sw_review_free (review);
  sw_context_changed (bench->plant->context);
  g_assert_cmpint (count_checkpoints (bench), ==, before + 1);
}

/* What leaves the file as a workbook is signed for before. */
static void
test_export_signs (Bench *bench, gconstpointer data)
{
  const SwExportFilter filter = { 0 };
  g_autofree char *path = g_strconcat (bench->path, ".xlsx", NULL);
  gint64 end = g_get_monotonic_time () + PATIENCE_MS * 1000;
  GtkWidget *window = GTK_WIDGET (busy_plant_open_window (bench->plant, "en", 1024, 600, FALSE));
  gint64 before;

  add_machine (bench, "M-99");
  before = count_checkpoints (bench);
  sw_record_export_write (window, bench->plant->context, &filter, path);
  g_assert_cmpint (count_checkpoints (bench), ==, before + 1);
  while (!g_file_test (path, G_FILE_TEST_EXISTS) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  sw_snapshot_settle (window);
}

static gboolean
has_backup (SwBackupKeeper *keeper, const char *head)
{
  const SwBackupInfo *newest = sw_backup_list_newest (sw_backup_keeper_get_list (keeper));

  return newest != NULL && g_strcmp0 (newest->head, head) == 0;
}

/* What leaves the file as a backup, too; a list of backups is none. */
static void
test_backup_signs (Bench *bench, gconstpointer data)
{
  SwBackupKeeper *keeper;
  gint64 end = g_get_monotonic_time () + PATIENCE_MS * 1000;
  gint64 before;

  busy_plant_open_window (bench->plant, "en", 1024, 600, FALSE);
  keeper = sw_backup_keeper_of (bench->plant->context);
  while (sw_backup_keeper_is_busy (keeper) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  before = count_checkpoints (bench);
  add_machine (bench, "M-99");
  sw_backup_keeper_refresh (keeper);
  g_assert_cmpint (count_checkpoints (bench), ==, before);
  sw_backup_keeper_back_up (keeper);
  while (count_checkpoints (bench) == before && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_autofree char *head = sw_journal_head (sw_context_get_store (bench->plant->context), NULL);
  while (!has_backup (keeper, head) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpint (count_checkpoints (bench), ==, before + 1);
  g_assert_true (has_backup (keeper, head));
}

/* No folder can be made there: said once, and work goes on. */
static void
test_no_folder (Bench *bench, gconstpointer data)
{
  GtkWidget *window;

  g_assert_true (g_file_set_contents (bench->trust, "", 0, NULL));
  window = GTK_WIDGET (busy_plant_open_window (bench->plant, "en", 1024, 600, FALSE));
  assert_says (window, "no checkpoints can be kept in the folder");
  add_machine (bench, "M-99");
  sw_context_sign_head (bench->plant->context);
  g_assert_cmpint (count_checkpoints (bench), ==, 0);
  sw_snapshot (window, "verify-no-folder");
}

/* ---- a file that was put back ---- */

/* No window is open meanwhile, so that nothing but the file itself is copied and put back. */
static void
put_back (Bench *bench)
{
  SwTestPlant *plant = bench->plant->scene->plant;
  g_autofree char *saved = g_strconcat (bench->path, ".saved", NULL);

  g_assert_true (sw_checkpoint_sign (plant->store, bench->trust, NULL, NULL));
  g_clear_pointer (&plant->store, sw_store_close);
  run_shell ("cp '%s' '%s'", bench->path, saved);
  sw_test_plant_reopen (plant, SW_OPEN_WRITE);
  sw_test_plant_add_machine (plant, "M-99");
  g_assert_true (sw_checkpoint_sign (plant->store, bench->trust, NULL, NULL));
  g_clear_pointer (&plant->store, sw_store_close);
  g_assert_cmpint (g_rename (saved, bench->path), ==, 0);
}

static void
test_put_back (Bench *bench, gconstpointer data)
{
  GtkWidget *page;
  GtkWidget *window;

  put_back (bench);
  page = open_page (bench, "en", 1280, 900, FALSE);
  window = GTK_WIDGET (bench->plant->window);
  assert_says (window, "This file was put back to an earlier state, or shortened: up to ");
  assert_says (window, "Test before you dose");
  verify (page);
  assert_says (page, "1 finding");
  assert_says (page, "The file was put back to an earlier state, shortened, or rewritten: entry ");
  sw_snapshot (window, "verify-put-back-light");
  /* it stays, whatever is written and signed meanwhile */
  add_machine (bench, "M-98");
  busy_plant_close_window (bench->plant);
  window = GTK_WIDGET (busy_plant_open_window (bench->plant, "en", 1280, 900, TRUE));
  assert_says (window, "This file was put back to an earlier state, or shortened");
  sw_snapshot (window, "verify-banner-dark");
}

static void
test_put_back_long (Bench *bench, gconstpointer data)
{
  GtkWidget *window;

  put_back (bench);
  window = GTK_WIDGET (busy_plant_open_window (bench->plant, "xx", 1024, 600, FALSE));
  sw_snapshot (window, "verify-banner-long");
}

/* Somebody who only looks may look at a backup. */
static void
test_put_back_reading (Bench *bench, gconstpointer data)
{
  GtkWidget *window;

  put_back (bench);
  sw_test_plant_reopen (bench->plant->scene->plant, SW_OPEN_READ_ONLY);
  window = GTK_WIDGET (busy_plant_open_window (bench->plant, "en", 1280, 900, FALSE));
  assert_says (window, "A backup or a snapshot does not");
}

/* ---- registration ---- */

static void
add (const char *name, gboolean trust, void (*func) (Bench *, gconstpointer))
{
  g_autofree char *path = g_strdup_printf ("/app/verify/%s", name);

  g_test_add (path, Bench, GINT_TO_POINTER (trust), set_up, func, tear_down);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  add ("sound", FALSE, test_sound);
  add ("found", FALSE, test_found);
  add ("long", FALSE, test_long);
  add ("head", FALSE, test_head);
  add ("stop", FALSE, test_stop);
  add ("closed", FALSE, test_closed);
  add ("close-signs", TRUE, test_close_signs);
  add ("signature-signs", TRUE, test_signature_signs);
  add ("export-signs", TRUE, test_export_signs);
  add ("backup-signs", TRUE, test_backup_signs);
  add ("no-folder", TRUE, test_no_folder);
  add ("put-back", TRUE, test_put_back);
  add ("put-back-long", TRUE, test_put_back_long);
  add ("put-back-reading", TRUE, test_put_back_reading);
  return g_test_run ();
}
