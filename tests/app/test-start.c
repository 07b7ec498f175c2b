/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Before a file is open: the choices, a new plant, and each reason why a file cannot be opened. */
#include <glib/gstdio.h>

#include "app/start/demo-plant.h"
#include "app/start/new-page.h"
#include "app/start/new-plant.h"
#include "app/start/start-window.h"
#include "app/theme.h"
#include "app/widgets/form-row.h"
#include "app/window.h"
#include "support/plant.h"
#include "tests/app/box.h"
#include "tests/app/snapshot.h"
#include "workflow/setup.h"
#include "workflow/sign-in.h"

static SwApplication *application;

/* Byte offset of user_version in the header, big-endian (SQLite, "Database File Format", 1.3). */
#define USER_VERSION_AT 60

static GtkWidget *
start_new (void)
{
  SwStartWindow *start = sw_start_window_new (application);

  gtk_window_present (GTK_WINDOW (start));
  sw_snapshot_settle (GTK_WIDGET (start));
  return GTK_WIDGET (start);
}

static void
close_all (void)
{
  GList *windows;

  while ((windows = gtk_application_get_windows (GTK_APPLICATION (application))) != NULL)
    gtk_window_destroy (windows->data);
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

/* ---- a plant's file, closed, spoilt in a certain way ---- */

static void
spoil_missing (const char *path)
{
  g_assert_cmpint (g_unlink (path), ==, 0);
}

static void
spoil_foreign (const char *path)
{
  g_assert_true (g_file_set_contents (path, "Shopping list: bread, milk.\n", -1, NULL));
}

static void
spoil_newer (const char *path)
{
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  bytes[USER_VERSION_AT + 2] = 0x27; /* 9999 */
  bytes[USER_VERSION_AT + 3] = 0x0f;
  g_assert_true (g_file_set_contents (path, bytes, (gssize)length, NULL));
}

/* The second half of the file is other people's bytes. */
static void
spoil_damaged (const char *path)
{
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  memset (bytes + length / 2, 0x5a, length / 2);
  g_assert_true (g_file_set_contents (path, bytes, (gssize)length, NULL));
}

typedef struct
{
  const char *name;
  void (*spoil) (const char *path); /* NULL: the file stays open in another program's stead */
  const char *words;
  gboolean may_look;
} Problem;

static const Problem problems[] = {
  { "missing", spoil_missing, "There is no such file.", FALSE },
  { "foreign", spoil_foreign, "This is no file of this program.", FALSE },
  { "newer", spoil_newer, "written by a newer version", FALSE },
  { "damaged", spoil_damaged, "This file is damaged", FALSE },
  { "busy", NULL, "Another program has this file open.", TRUE },
};

static void
test_problem (gconstpointer data)
{
  const Problem *problem = data;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autoptr (GFile) file = g_file_new_for_path (plant->path);

  if (problem->spoil != NULL)
    {
      g_clear_pointer (&plant->store, sw_store_close);
      problem->spoil (plant->path);
    }
  g_application_open (G_APPLICATION (application), &file, 1, "");
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));
  sw_snapshot_settle (GTK_WIDGET (window));
  g_assert_true (SW_IS_START_WINDOW (window));
  g_autofree char *text = sw_visible_text (GTK_WIDGET (window));
  g_test_message ("%s", text);
  g_assert_nonnull (strstr (text, problem->words));
  g_assert_nonnull (strstr (text, plant->path));
  GtkWidget *look = sw_find_text (GTK_WIDGET (window), "Open Read-Only");
  g_assert_cmpint (look != NULL, ==, problem->may_look);
  g_autofree char *name = g_strconcat ("problem-", problem->name, NULL);
  sw_snapshot (GTK_WIDGET (window), name);
  if (problem->may_look)
    {
      g_signal_emit_by_name (sw_find_button (GTK_WIDGET (window), "Open Read-Only"), "clicked");
      window = gtk_application_get_active_window (GTK_APPLICATION (application));
      g_assert_true (SW_IS_WINDOW (window));
      g_assert_true (sw_store_is_read_only (
          sw_context_get_store (sw_window_get_context (SW_WINDOW (window)))));
    }
  close_all ();
}

/* ---- choices and a new plant ---- */

static void
test_first (void)
{
  GtkWidget *start = start_new ();

  g_assert_nonnull (sw_find_button (start, "Open…"));
  g_assert_nonnull (sw_find_button (start, "New Plant…"));
  sw_snapshot (start, "start");
  sw_theme_force (SW_SCHEME_DARK, FALSE);
  sw_snapshot (start, "start-dark");
  sw_theme_force (SW_SCHEME_LIGHT, FALSE);
  close_all ();
}

/* Empty fields are said at the fields, all at once, and no dialog comes up. */
static void
test_new_needs_names (void)
{
  GtkWidget *start = start_new ();

  g_signal_emit_by_name (sw_find_button (start, "New Plant…"), "clicked");
  sw_snapshot (start, "new-plant");
  g_signal_emit_by_name (sw_find_button (start, "Choose a Place…"), "clicked");
  sw_snapshot (start, "new-plant-empty");
  g_autofree char *text = sw_visible_text (start);
  int said = 0;
  for (const char *at = text; (at = strstr (at, "nothing is entered")) != NULL; at++)
    said++;
  g_assert_cmpint (said, ==, 4);
  close_all ();
}

static const struct
{
  const char *name;
  const char *secret, *again;
  const char *words;
} secrets[] = {
  { "too short", "seven", "seven", "Allowed: 8 to 256" },
  { "two differ", "seven grey geese", "seven grey goose", "The two differ." },
};

/* A name and a secret, no dialog before the secret is one. */
static void
test_new_secret (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  GtkWidget *start = start_new ();

  g_signal_emit_by_name (sw_find_button (start, "New Plant…"), "clicked");
  for (int field = 0; field < 3; field++)
    {
      static const char *const fields[] = { "site", "name", "initials" };
      GtkWidget *row = sw_find_widget (start, SW_TYPE_FORM_ROW, fields[field]);

      sw_form_row_set_text (SW_FORM_ROW (row), "NI");
    }
  GtkWidget *page = sw_find_widget (start, SW_TYPE_NEW_PAGE, NULL);
  sw_box_type (page, "secret", secrets[i].secret);
  sw_box_type (page, "again", secrets[i].again);
  g_signal_emit_by_name (sw_find_button (start, "Choose a Place…"), "clicked");
  sw_snapshot (start, "new-plant-secret");
  g_autofree char *text = sw_visible_text (start);
  g_assert_nonnull (strstr (text, secrets[i].words));
  close_all ();
}

static void
test_new_is_made (void)
{
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "north.stillwarden", NULL);
  const SwNewPlant plant = {
    .site = "North hall", .name = "N. Invented", .initials = "NI", .secret = "seven grey geese"
  };
  g_autoptr (GError) error = NULL;
  SwSigner signer = { 0 };
  SwStore *store = sw_new_plant_create (path, &plant, &signer, &error);

  g_assert_no_error (error);
  sw_store_close (store);
  g_assert_true (sw_application_open_path (application, path, SW_OPEN_WRITE, &error));
  g_assert_no_error (error);
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));
  sw_snapshot (GTK_WIDGET (window), "new-plant-made");
  g_assert_nonnull (sw_find_text (GTK_WIDGET (window), "Nothing to do now"));
  store = sw_context_get_store (sw_window_get_context (SW_WINDOW (window)));
  g_autoptr (SwSite) site = sw_site_get (store, &error);
  g_autoptr (SwPerson) person = sw_person_load (store, signer.person, &error);
  g_assert_cmpstr (site->name, ==, "North hall");
  g_assert_cmpstr (person->initials, ==, "NI");
  g_assert_cmpint (person->role, ==, SW_ROLE_ADMINISTRATOR);
  /* Guarded from the first moment, by the secret that was typed and no other. */
  g_assert_cmpint (signer.identified, ==, SW_IDENTIFIED_SECRET);
  g_assert_true (sw_window_is_guarded (SW_WINDOW (window)));
  g_assert_true (sw_sign_again (store, signer.person, "seven grey geese", &signer, NULL));
  g_assert_false (sw_sign_again (store, signer.person, "seven grey goose", &signer, NULL));
  /* A second time is the same window. */
  g_assert_true (sw_application_open_path (application, path, SW_OPEN_WRITE, &error));
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (application))), ==,
                    1);
  close_all ();
}

/* The window speaks the site's language whatever the PC speaks: sentences and templates alike. */
static void
test_language (void)
{
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "nord.stillwarden", NULL);
  const SwNewPlant plant
      = { .site = "Nord", .name = "N. Invented", .initials = "NI", .secret = "seven grey geese" };
  const SwActor system = { .identified = SW_IDENTIFIED_SYSTEM, .reason = "for a test" };
  SwSigner signer = { 0 };
  SwStore *store = sw_new_plant_create (path, &plant, &signer, NULL);
  g_autoptr (SwSite) site = sw_site_get (store, NULL);

  site->language = g_strdup ("de");
  g_assert_true (sw_setup_site (store, &system, site, NULL));
  sw_application_open_store (application, store);
  GtkWidget *window
      = GTK_WIDGET (gtk_application_get_active_window (GTK_APPLICATION (application)));
  sw_snapshot (window, "german");
  /* The first from wording, the second from a template; both as po/de.po has them. */
  g_autoptr (SwWording) german = sw_wording_new ("de", NULL);
  g_assert_nonnull (sw_find_text (window, sw_tr (german, "Nothing to do now")));
  GtkWidget *search = sw_find_widget (window, GTK_TYPE_SEARCH_ENTRY, NULL);
  g_autofree char *placeholder = NULL;
  g_object_get (search, "placeholder-text", &placeholder, NULL);
  g_assert_cmpstr (placeholder, ==, sw_tr (german, "Find a machine, sample, lot"));
  g_assert_cmpstr (placeholder, !=, "Find a machine, sample, lot");
  close_all ();
}

/* What cannot be filled in leaves no file behind; a file that is there stays as it is. */
static void
test_new_is_refused (void)
{
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "north.stillwarden", NULL);
  const SwNewPlant nameless
      = { .site = "North hall", .name = "", .initials = "NI", .secret = "seven grey geese" };
  const SwNewPlant plant = {
    .site = "North hall", .name = "N. Invented", .initials = "NI", .secret = "seven grey geese"
  };
  g_autoptr (GError) error = NULL;
  g_autofree char *bytes = NULL;
  SwSigner signer;

  g_assert_null (sw_new_plant_create (path, &nameless, &signer, &error));
  g_assert_nonnull (sw_fault_get (error));
  g_clear_error (&error);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_set_contents (path, "mine", -1, NULL));
  g_assert_null (sw_new_plant_create (path, &plant, &signer, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_EXISTS);
  g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  g_assert_cmpstr (bytes, ==, "mine");
}

/* Made in the person's own data folder, opened with its banner; the second time it is there. */
static void
test_demo (void)
{
  g_autofree char *path = sw_demo_plant_path ();

  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  for (int time = 0; time < 2; time++)
    {
      GtkWidget *start = start_new ();
      gint64 until = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

      g_signal_emit_by_name (sw_find_button (start, "Open the Demo"), "clicked");
      while (!SW_IS_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (application)))
             && g_get_monotonic_time () < until)
        g_main_context_iteration (NULL, TRUE);
      GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));
      g_assert_true (SW_IS_WINDOW (window));
      g_assert_nonnull (
          sw_find_text (GTK_WIDGET (window),
                        "Invented plant: every machine, person and product here is made up."));
      SwContext *context = sw_window_get_context (SW_WINDOW (window));
      g_assert_cmpint (sw_context_get_actor (context)->identified, ==, SW_IDENTIFIED_DEMO);
      g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
      sw_snapshot (GTK_WIDGET (window), "demo");
      close_all ();
    }
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_setenv ("SW_NON_UNIQUE", "1", TRUE);
  application = sw_application_new ();
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, NULL));
  sw_theme_force (SW_SCHEME_LIGHT, FALSE);

  g_test_add_func ("/app/start/first page", test_first);
  g_test_add_func ("/app/start/new plant needs names", test_new_needs_names);
  for (guint i = 0; i < G_N_ELEMENTS (secrets); i++)
    {
      g_autofree char *path = g_strconcat ("/app/start/new plant secret/", secrets[i].name, NULL);
      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_new_secret);
    }
  g_test_add_func ("/app/start/new plant is made", test_new_is_made);
  g_test_add_func ("/app/start/language of the site", test_language);
  g_test_add_func ("/app/start/new plant is refused", test_new_is_refused);
  g_test_add_func ("/app/start/demo plant", test_demo);
  SW_TEST_ROWS ("/app/start/problem", problems, test_problem);
  int result = g_test_run ();
  g_object_unref (application);
  return result;
}
