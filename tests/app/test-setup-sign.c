/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of how people sign in: their secrets, and the site's two settings. */
#include "tests/app/box.h"
#include "tests/app/setup-bench.h"
#include "workflow/sign-in.h"

#include <string.h>

#define GIVEN "four green ponds"

static gint64
add_technician (Bench *bench)
{
  bench_open (bench, "people", 0);
  bench_type (bench, "name", "T. Nobody");
  bench_type (bench, "initials", "TN");
  bench_pick (bench, "role", SW_ROLE_TECHNICIAN);
  g_assert_true (bench_save (bench));
  g_autoptr (GArray) ids = sw_record_ids (bench_store (bench), SW_TABLE_PERSON, NULL, 0, NULL);
  g_assert_cmpuint (ids->len, ==, 2);
  return g_array_index (ids, gint64, 1);
}

static GtkWidget *
set_button (Bench *bench)
{
  return sw_find_widget (bench_section (bench), GTK_TYPE_BUTTON, "set-secret");
}

static void
give_secret (Bench *bench)
{
  GtkWidget *window = GTK_WIDGET (bench->window);

  g_signal_emit_by_name (set_button (bench), "clicked");
  sw_snapshot_settle (window);
  sw_box_type (sw_box_over (window), "secret", GIVEN);
  sw_box_type (sw_box_over (window), "again", GIVEN);
  sw_snapshot (window, "give-secret");
  sw_box_press (sw_box_over (window), "set");
  g_assert_null (sw_box_over (window));
}

static void
test_give (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  gint64 id = add_technician (bench);
  SwSigner signer;

  bench_open (bench, "people", id);
  bench_assert_says (bench, "No secret is set for this person.");
  sw_snapshot (GTK_WIDGET (bench->window), "person-no-secret");
  give_secret (bench);
  bench_assert_says (bench, "I. Nobody set the secret");
  g_autoptr (SwPerson) person = sw_person_load (bench_store (bench), id, NULL);
  g_assert_cmpint (person->secret_given_by, ==, bench->administrator);
  g_assert_true (sw_sign_again (bench_store (bench), id, GIVEN, &signer, NULL));
}

/* The form was open meanwhile: saving it does not bring back what was there before. */
static void
test_form_keeps (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  gint64 id = add_technician (bench);
  SwSigner signer;

  bench_open (bench, "people", id);
  bench_type (bench, "name", "Th. Nobody");
  give_secret (bench);
  g_assert_cmpstr (bench_text (bench, "name"), ==, "Th. Nobody");
  bench_reason (bench, "married");
  g_assert_true (bench_save (bench));
  g_autoptr (SwPerson) person = sw_person_load (bench_store (bench), id, NULL);
  g_assert_cmpstr (person->name, ==, "Th. Nobody");
  g_assert_cmpint (person->secret_given_by, ==, bench->administrator);
  g_assert_true (sw_sign_again (bench_store (bench), id, GIVEN, &signer, NULL));
}

/* One's own is changed with the old one; a new person has none before they are saved. */
static void
test_no_button (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);

  bench_open (bench, "people", bench->administrator);
  g_assert_false (gtk_widget_get_visible (set_button (bench)));
  bench_open (bench, "people", 0);
  g_assert_false (gtk_widget_get_visible (set_button (bench)));
  bench_assert_says (bench, "Save this person first");
}

/* Who may not set up is told so before a secret is typed. */
static void
test_technician (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  gint64 id = add_technician (bench);
  const SwSigner technician = { id, SW_IDENTIFIED_SECRET };

  bench_open (bench, "people", id);
  give_secret (bench);
  sw_context_set_signer (bench->context, &technician);
  bench_open (bench, "people", bench->administrator);
  g_signal_emit_by_name (set_button (bench), "clicked");
  g_assert_null (sw_box_over (GTK_WIDGET (bench->window)));
}

/* What the layer below refuses as a fact stands above the form in words. */
static void
test_last_administrator (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);

  bench_open (bench, "people", bench->administrator);
  bench_pick (bench, "role", SW_ROLE_TECHNICIAN);
  bench_reason (bench, "another job");
  g_assert_false (bench_save (bench));
  bench_assert_says (bench, "This is the only active administrator with a secret.");
  g_autoptr (SwPerson) person = sw_person_load (bench_store (bench), bench->administrator, NULL);
  g_assert_cmpint (person->role, ==, SW_ROLE_ADMINISTRATOR);
}

/* ---- the site's settings ---- */

static void
test_settings (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1280, 900, FALSE);

  g_assert_false (sw_right_name_only (bench_store (bench)));
  bench_open (bench, "site", 1);
  bench_type (bench, "name", "Demo site");
  g_assert_cmpstr (bench_text (bench, "idle-lock"), ==, "10");
  bench_tick (bench, "name-only", TRUE);
  bench_type (bench, "idle-lock", "25");
  g_assert_true (bench_save (bench));
  sw_snapshot (GTK_WIDGET (bench->window), "site-settings");
  g_assert_true (sw_right_name_only (bench_store (bench)));
  g_assert_cmpfloat (sw_right_idle_lock_min (bench_store (bench)), ==, 25.0);
  bench_tick (bench, "name-only", FALSE);
  bench_type (bench, "idle-lock", "0");
  bench_reason (bench, "an auditor asked");
  g_assert_true (bench_save (bench));
  g_assert_false (sw_right_name_only (bench_store (bench)));
  g_assert_cmpfloat (sw_right_idle_lock_min (bench_store (bench)), ==, 0.0);
}

static const char *const wrong_minutes[] = { "", "soon", "-1", "0.5", "481" };

static void
test_wrong_minutes (gconstpointer data)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);

  bench_open (bench, "site", 1);
  bench_type (bench, "name", "Demo site");
  bench_type (bench, "idle-lock", data);
  g_assert_false (bench_save (bench));
  g_assert_nonnull (bench_error (bench, "idle-lock"));
  g_assert_cmpstr (bench_text (bench, "idle-lock"), ==, data);
  g_assert_cmpfloat (sw_right_idle_lock_min (bench_store (bench)), ==, SW_IDLE_LOCK_MIN);
  /* And nothing else of the form was written. */
  g_autoptr (SwSite) site = sw_site_get (bench_store (bench), NULL);
  g_assert_null (site->name);
}

static void
test_looks (void)
{
  g_autoptr (Bench) dark = bench_new ("en", 1024, 600, TRUE);

  bench_open (dark, "site", 1);
  sw_snapshot (GTK_WIDGET (dark->window), "site-dark");
  bench_open (dark, "people", add_technician (dark));
  sw_snapshot (GTK_WIDGET (dark->window), "person-dark");
  g_autoptr (Bench) wordy = bench_new ("xx", 1024, 600, FALSE);
  bench_open (wordy, "site", 1);
  sw_snapshot (GTK_WIDGET (wordy->window), "site-long");
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (wordy->window)), <=, 1024);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/setup/sign/give", test_give);
  g_test_add_func ("/setup/sign/form keeps", test_form_keeps);
  g_test_add_func ("/setup/sign/no button", test_no_button);
  g_test_add_func ("/setup/sign/technician", test_technician);
  g_test_add_func ("/setup/sign/last administrator", test_last_administrator);
  g_test_add_func ("/setup/sign/settings", test_settings);
  for (gsize i = 0; i < G_N_ELEMENTS (wrong_minutes); i++)
    {
      g_autofree char *path = g_strdup_printf ("/setup/sign/minutes/“%s”", wrong_minutes[i]);
      g_test_add_data_func (path, wrong_minutes[i], test_wrong_minutes);
    }
  g_test_add_func ("/setup/sign/looks", test_looks);
  return g_test_run ();
}
