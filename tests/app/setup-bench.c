/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A person at the set-up. Every plant, name and product here is invented. */
#include "tests/app/setup-bench.h"

#include "app/setup/form-list.h"
#include "app/setup/form-page.h"
#include "app/setup/pick-row.h"
#include "app/setup/prose-row.h"
#include "app/theme.h"
#include "app/widgets/form-row.h"
#include "workflow/setup.h"
#include "workflow/sign-in.h"

static gint64
now_cb (gpointer data)
{
  return BENCH_NOW_MS;
}

static int
offset_cb (gpointer data, gint64 utc_ms)
{
  return 60;
}

static void
open_window (Bench *bench, const char *language, SwOpenMode mode)
{
  const SwClock clock = { .now_ms = now_cb, .offset_min = offset_cb };
  g_autofree char *path = g_build_filename (bench->folder, "new.swlog", NULL);
  g_autoptr (SwWording) wording = sw_wording_new (language, "Europe/Berlin");
  GError *error = NULL;
  SwStore *store = sw_store_open (path, mode, &clock, &error);

  g_assert_no_error (error);
  bench->context = sw_context_new (store, wording);
  bench->window = sw_window_new (NULL, bench->context);
}

/* As New Plant does it: the first administrator, who then signs in. */
static void
add_administrator (Bench *bench)
{
  const SwActor system = { .identified = SW_IDENTIFIED_SYSTEM };
  g_autoptr (SwPerson) person = sw_person_new ();
  SwActor first = { .identified = SW_IDENTIFIED_SELECTED };
  GError *error = NULL;

  person->name = g_strdup ("I. Nobody");
  person->initials = g_strdup ("IN");
  person->role = SW_ROLE_ADMINISTRATOR;
  person->active = TRUE;
  sw_setup_person (bench_store (bench), &system, person, &error);
  g_assert_no_error (error);
  bench->administrator = person->record.id;
  first.person = bench->administrator;
  sw_secret_set (bench_store (bench), &first, first.person, NULL, BENCH_SECRET, &error);
  g_assert_no_error (error);
  sw_context_changed (bench->context);
}

void
bench_sign_in (Bench *bench)
{
  SwSigner signer;
  GError *error = NULL;

  sw_sign_in (bench_store (bench), bench->administrator, BENCH_SECRET, &signer, &error);
  g_assert_no_error (error);
  sw_context_set_signer (bench->context, &signer);
}

static void
close_window (Bench *bench)
{
  gtk_window_destroy (GTK_WINDOW (bench->window));
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_clear_object (&bench->context);
}

static void
show_window (Bench *bench, int width, int height)
{
  gtk_window_set_default_size (GTK_WINDOW (bench->window), width, height);
  gtk_window_present (GTK_WINDOW (bench->window));
  sw_snapshot_settle (GTK_WIDGET (bench->window));
  sw_window_show_setup (bench->window, NULL);
}

Bench *
bench_new (const char *language, int width, int height, gboolean dark)
{
  Bench *bench = g_new0 (Bench, 1);

  bench->folder = sw_test_folder_new ();
  sw_theme_install (gdk_display_get_default ());
  sw_theme_force (dark ? SW_SCHEME_DARK : SW_SCHEME_LIGHT, FALSE);
  open_window (bench, language, SW_OPEN_CREATE);
  add_administrator (bench);
  bench_sign_in (bench);
  show_window (bench, width, height);
  return bench;
}

void
bench_reopen (Bench *bench, SwOpenMode mode)
{
  close_window (bench);
  open_window (bench, "en", mode);
  show_window (bench, 1024, 600);
}

void
bench_free (Bench *bench)
{
  if (bench == NULL)
    return;
  close_window (bench);
  sw_test_folder_free (bench->folder);
  g_free (bench);
}

SwStore *
bench_store (Bench *bench)
{
  return sw_context_get_store (bench->context);
}

/* ---- finding ---- */

static SwSetupPage *
page_of (Bench *bench)
{
  return SW_SETUP_PAGE (sw_find_widget (GTK_WIDGET (bench->window), SW_TYPE_SETUP_PAGE, NULL));
}

GtkWidget *
bench_section (Bench *bench)
{
  GtkWidget *stack = sw_find_widget (GTK_WIDGET (page_of (bench)), GTK_TYPE_STACK, "stack");

  return gtk_stack_get_visible_child (GTK_STACK (stack));
}

static SwFormPage *
form_page_of (Bench *bench)
{
  return SW_FORM_PAGE (sw_find_widget (bench_section (bench), SW_TYPE_FORM_PAGE, NULL));
}

void
bench_show (Bench *bench, const char *section)
{
  sw_setup_page_show (page_of (bench), section);
}

void
bench_open (Bench *bench, const char *section, gint64 id)
{
  sw_setup_page_open (page_of (bench), section, id, NULL);
}

GtkWidget *
bench_row (Bench *bench, const char *list, guint nth, const char *field)
{
  GtkWidget *form_page = GTK_WIDGET (form_page_of (bench));
  GtkWidget *form = NULL;
  GtkWidget *row;

  if (list != NULL)
    {
      GtkWidget *forms = sw_find_widget (form_page, SW_TYPE_FORM_LIST, list);

      g_assert_nonnull (forms);
      form = GTK_WIDGET (sw_form_list_get_form (SW_FORM_LIST (forms), nth));
    }
  else
    form = sw_find_widget (form_page, SW_TYPE_FORM, NULL);
  g_assert_nonnull (form);
  row = sw_form_get_row (SW_FORM (form), field);
  if (row == NULL)
    g_test_message ("no field \"%s\"", field);
  g_assert_nonnull (row);
  return row;
}

/* ---- doing ---- */

void
bench_type_in (Bench *bench, const char *list, guint nth, const char *field, const char *text)
{
  GtkWidget *row = bench_row (bench, list, nth, field);

  if (SW_IS_PROSE_ROW (row))
    sw_prose_row_set_text (SW_PROSE_ROW (row), text);
  else
    gtk_editable_set_text (GTK_EDITABLE (sw_form_row_get_entry (SW_FORM_ROW (row))), text);
}

void
bench_pick_in (Bench *bench, const char *list, guint nth, const char *field, gint64 value)
{
  SwPickRow *row = SW_PICK_ROW (bench_row (bench, list, nth, field));
  gint64 now = -99;

  sw_pick_row_set_value (row, value);
  g_assert_true (sw_pick_row_get_value (row, &now));
  g_assert_cmpint (now, ==, value);
}

void
bench_tick_in (Bench *bench, const char *list, guint nth, const char *field, gboolean on)
{
  GtkWidget *row = bench_row (bench, list, nth, field);

  gtk_check_button_set_active (GTK_CHECK_BUTTON (gtk_widget_get_first_child (row)), on);
}

void
bench_type (Bench *bench, const char *field, const char *text)
{
  bench_type_in (bench, NULL, 0, field, text);
}

void
bench_pick (Bench *bench, const char *field, gint64 value)
{
  bench_pick_in (bench, NULL, 0, field, value);
}

void
bench_tick (Bench *bench, const char *field, gboolean on)
{
  bench_tick_in (bench, NULL, 0, field, on);
}

void
bench_add_to (Bench *bench, const char *list)
{
  GtkWidget *forms = sw_find_widget (GTK_WIDGET (form_page_of (bench)), SW_TYPE_FORM_LIST, list);
  GtkWidget *add = sw_find_widget (forms, GTK_TYPE_BUTTON, "add");

  g_signal_emit_by_name (add, "clicked");
}

void
bench_reason (Bench *bench, const char *text)
{
  GtkWidget *box = sw_find_widget (GTK_WIDGET (form_page_of (bench)), GTK_TYPE_WIDGET, "reason");
  GtkWidget *row = sw_find_widget (box, SW_TYPE_FORM_ROW, NULL);

  g_assert_true (gtk_widget_get_visible (box));
  sw_form_row_set_text (SW_FORM_ROW (row), text);
}

void
bench_press (Bench *bench, const char *label)
{
  g_signal_emit_by_name (sw_find_button (bench_section (bench), label), "clicked");
}

gboolean
bench_save (Bench *bench)
{
  return sw_form_page_save (form_page_of (bench));
}

/* ---- asking ---- */

const char *
bench_error (Bench *bench, const char *field)
{
  GtkWidget *row = bench_row (bench, NULL, 0, field);

  return SW_IS_PICK_ROW (row) ? sw_pick_row_get_error (SW_PICK_ROW (row))
                              : sw_form_row_get_error (SW_FORM_ROW (row));
}

const char *
bench_text (Bench *bench, const char *field)
{
  return sw_form_row_get_text (SW_FORM_ROW (bench_row (bench, NULL, 0, field)));
}

void
bench_assert_says (Bench *bench, const char *part)
{
  g_autofree char *text = sw_visible_text (bench_section (bench));

  if (strstr (text, part) == NULL)
    g_test_message ("\"%s\" is not in:\n%s", part, text);
  g_assert_nonnull (strstr (text, part));
}

gint64
bench_only (Bench *bench, SwTable table)
{
  g_autoptr (GArray) ids = sw_record_ids (bench_store (bench), table, NULL, 0, NULL);

  g_assert_cmpuint (ids->len, ==, 1);
  return g_array_index (ids, gint64, 0);
}
