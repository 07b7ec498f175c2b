/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the set-up behaves: what is typed is kept, a change asks why, what is out of use is not
 * deleted, and who may write. */
#include "app/setup/form-page.h"
#include "app/widgets/form-row.h"
#include "tests/app/setup-bench.h"
#include "workflow/setup.h"

static GtkWidget *
find (Bench *bench, const char *type, const char *name)
{
  return sw_find_widget (bench_section (bench), g_type_from_name (type), name);
}

static void
do_action (Bench *bench, const char *action)
{
  gtk_widget_activate_action (find (bench, "SwFormPage", NULL), action, NULL);
}

static gboolean
shows_form (Bench *bench)
{
  return gtk_widget_get_mapped (find (bench, "SwFormPage", NULL));
}

static SwProduct *
load_product (Bench *bench)
{
  return sw_product_load (bench_store (bench), bench_only (bench, SW_TABLE_PRODUCT), NULL);
}

/* ---- drafts ---- */

/* Escape leaves the form; what was typed waits until something else is opened. */
static void
test_draft (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);

  bench_open (bench, "people", 0);
  bench_type (bench, "name", "Half a na");
  do_action (bench, "form.cancel");
  g_assert_false (shows_form (bench));
  bench_assert_says (bench, "is not saved");
  bench_press (bench, "Go On With It");
  g_assert_true (shows_form (bench));
  g_assert_cmpstr (bench_text (bench, "name"), ==, "Half a na");
  do_action (bench, "form.cancel");
  bench_open (bench, "people", 0);
  g_assert_cmpstr (bench_text (bench, "name"), ==, "");
}

/* A form that was not touched leaves nothing behind. */
static void
test_no_draft (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autofree char *text = NULL;

  bench_open (bench, "solvents", 0);
  do_action (bench, "form.cancel");
  text = sw_visible_text (bench_section (bench));
  g_assert_null (strstr (text, "is not saved"));
  g_assert_nonnull (strstr (text, "No solvent yet"));
}

/* Another section looked at, another record written: the form that is open keeps its text. */
static void
test_kept (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);

  bench_open (bench, "lots", 0);
  bench_type (bench, "code", "HALF-1");
  bench_add_neutraliser (bench);
  bench_show (bench, "lots");
  g_assert_true (shows_form (bench));
  g_assert_cmpstr (bench_text (bench, "code"), ==, "HALF-1");
  /* The product that was added meanwhile can be picked. */
  bench_pick (bench, "product", bench_only (bench, SW_TABLE_PRODUCT));
}

/* ---- amending ---- */

static void
test_amend (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autoptr (SwProduct) before = NULL;
  g_autoptr (SwProduct) after = NULL;

  bench_open (bench, "products", bench_add_neutraliser (bench));
  bench_type (bench, "limit-each", "12,5");
  g_assert_false (bench_save (bench));
  bench_assert_says (bench, "Reason: nothing is entered");
  before = load_product (bench);
  g_assert_cmpfloat (before->limit_each_ml_l, ==, 10.0);
  bench_reason (bench, "new edition of the sheet");
  g_assert_true (bench_save (bench));
  after = load_product (bench);
  sw_assert_close (after->limit_each_ml_l, 12.5, 1e-12);
  /* What was not touched is what it was, to the last bit. */
  g_assert_cmpfloat (after->strength_mmol_ml, ==, before->strength_mmol_ml);
  g_assert_cmpfloat (after->strength_u_mmol_ml, ==, before->strength_u_mmol_ml);
}

/* A stored number with more digits than the field shows survives a change elsewhere. */
static void
test_untouched (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  const double third = 1.0 / 3.0;
  g_autoptr (SwProduct) product = NULL;
  g_autoptr (SwProduct) after = NULL;

  bench_add_neutraliser (bench);
  product = load_product (bench);
  product->strength_mmol_ml = third;
  g_assert_true (sw_setup_product (bench_store (bench),
                                   sw_context_get_actor_because (bench->context, "certificate"),
                                   product, NULL));
  bench_open (bench, "products", product->record.id);
  bench_type (bench, "sheet", "Demo sheet 8");
  bench_reason (bench, "new edition");
  g_assert_true (bench_save (bench));
  after = load_product (bench);
  g_assert_cmpfloat (after->strength_mmol_ml, ==, third);
  g_assert_cmpstr (after->sds_reference, ==, "Demo sheet 8");
}

/* Fields that do not belong to a use are not kept in secret. */
static void
test_hidden (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autoptr (SwProduct) after = NULL;

  bench_open (bench, "products", bench_add_neutraliser (bench));
  bench_pick (bench, "use", SW_PRODUCT_CAUSTIC);
  g_assert_false (gtk_widget_get_visible (bench_row (bench, NULL, 0, "limit-each")));
  g_assert_true (gtk_widget_get_visible (bench_row (bench, NULL, 0, "strength")));
  bench_reason (bench, "it was the other bottle");
  g_assert_true (bench_save (bench));
  after = load_product (bench);
  g_assert_cmpint (after->use, ==, SW_PRODUCT_CAUSTIC);
  g_assert_true (isnan (after->limit_each_ml_l));
  sw_assert_close (after->strength_mmol_ml, 1.2, 1e-12);
}

/* ---- out of use ---- */

static void
press_leave (Bench *bench, const char *reason)
{
  GtkWidget *box = find (bench, "SwReasonBox", "leave");

  bench_press (bench, "Take Out of Use…");
  sw_form_row_set_text (SW_FORM_ROW (sw_find_widget (box, SW_TYPE_FORM_ROW, NULL)), reason);
  bench_press (bench, "Take Out of Use");
}

static void
test_void (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autoptr (GArray) left = NULL;
  gint64 product;

  product = bench_add_neutraliser (bench);
  bench_open (bench, "products", product);
  press_leave (bench, "");
  bench_assert_says (bench, "Reason: nothing is entered");
  bench_assert_says (bench, "Nothing is deleted");
  g_assert_cmpint (bench_only (bench, SW_TABLE_PRODUCT), ==, product);
  bench_press (bench, "Keep in Use");
  press_leave (bench, "not sold any more");
  left = sw_record_ids (bench_store (bench), SW_TABLE_PRODUCT, NULL, 0, NULL);
  g_assert_cmpuint (left->len, ==, 0);
  /* It can still be read, and not be changed. */
  gtk_check_button_set_active (GTK_CHECK_BUTTON (find (bench, "GtkCheckButton", "show_voided")),
                               TRUE);
  bench_open (bench, "products", product);
  bench_assert_says (bench, "This is out of use");
  g_assert_cmpstr (bench_text (bench, "name"), ==, "Demo amine");
  g_assert_false (bench_save (bench));
}

/* ---- undo ---- */

/* The message after a new row offers to take it back; the same name can be typed again. */
static void
test_undo (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autoptr (GArray) voided = NULL;
  gint64 solvent = bench_add_solvent (bench);

  sw_snapshot (GTK_WIDGET (bench->window), "undo");
  g_signal_emit_by_name (sw_find_button (GTK_WIDGET (bench->window), "Undo"), "clicked");
  voided = sw_record_voided_ids (bench_store (bench), SW_TABLE_SOLVENT, NULL);
  g_assert_cmpuint (voided->len, ==, 1);
  g_assert_cmpint (g_array_index (voided, gint64, 0), ==, solvent);
  g_assert_nonnull (sw_find_text (GTK_WIDGET (bench->window),
                                  "Undone. What was added stays on file, out of use."));
  g_assert_cmpint (bench_add_solvent (bench), !=, solvent);
}

/* A change of an old row has a reason and is not undone by a button. */
static void
test_no_undo (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  gint64 solvent = bench_add_solvent (bench);

  bench_open (bench, "solvents", solvent);
  bench_type (bench, "density", "0.79");
  bench_reason (bench, "by the sheet");
  g_assert_true (bench_save (bench));
  g_assert_null (sw_find_text (GTK_WIDGET (bench->window), "Undo"));
}

/* ---- who writes ---- */

/* Somebody must have signed in; what was typed waits for it. */
static void
test_nobody (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);

  sw_context_set_person (bench->context, 0);
  bench_open (bench, "solvents", 0);
  bench_type (bench, "name", "Demo hydrocarbon");
  bench_pick (bench, "family", SW_FAMILY_HYDROCARBON);
  g_assert_false (bench_save (bench));
  g_assert_cmpstr (bench_text (bench, "name"), ==, "Demo hydrocarbon");
  bench_sign_in (bench);
  g_assert_true (bench_save (bench));
}

static void
test_auditor (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autoptr (GArray) people = NULL;
  g_autoptr (GArray) ids = NULL;

  bench_open (bench, "people", 0);
  bench_type (bench, "name", "U. Nobody");
  bench_type (bench, "initials", "UN");
  bench_pick (bench, "role", SW_ROLE_AUDITOR);
  g_assert_true (bench_save (bench));
  people = sw_record_ids (bench_store (bench), SW_TABLE_PERSON, NULL, 0, NULL);
  g_assert_cmpuint (people->len, ==, 2);
  g_assert_true (sw_context_set_person (bench->context, g_array_index (people, gint64, 1)));
  bench_open (bench, "solvents", 0);
  bench_type (bench, "name", "Demo hydrocarbon");
  bench_pick (bench, "family", SW_FAMILY_HYDROCARBON);
  g_assert_false (bench_save (bench));
  ids = sw_record_ids (bench_store (bench), SW_TABLE_SOLVENT, NULL, 0, NULL);
  g_assert_cmpuint (ids->len, ==, 0);
}

/* A file that is only read is shown whole and changed nowhere. */
static void
test_read_only (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  gint64 solvent = bench_add_solvent (bench);

  bench_reopen (bench, SW_OPEN_READ_ONLY);
  bench_open (bench, "solvents", solvent);
  bench_assert_says (bench, "open read-only");
  g_assert_cmpstr (bench_text (bench, "name"), ==, "Demo hydrocarbon");
  bench_type (bench, "name", "Another");
  g_assert_false (bench_save (bench));
  do_action (bench, "form.cancel");
  g_assert_false (gtk_widget_get_visible (find (bench, "GtkButton", "add")));
}

/* Naming the site the first time is no correction; the second time is. */
static void
test_site (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autoptr (SwSite) site = NULL;

  bench_open (bench, "site", 1);
  bench_type (bench, "name", "Demo site");
  bench_type (bench, "zone", "Europe/Berlin");
  bench_pick (bench, "language", 1);
  g_assert_true (bench_save (bench));
  bench_type (bench, "name", "Demo site, hall 2");
  g_assert_false (bench_save (bench));
  bench_reason (bench, "moved");
  g_assert_true (bench_save (bench));
  site = sw_site_get (bench_store (bench), NULL);
  g_assert_cmpstr (site->name, ==, "Demo site, hall 2");
  g_assert_cmpstr (site->language, ==, "de");
  g_assert_null (site->paper);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/setup/draft/kept", test_draft);
  g_test_add_func ("/setup/draft/none", test_no_draft);
  g_test_add_func ("/setup/draft/other-section", test_kept);
  g_test_add_func ("/setup/amend/reason", test_amend);
  g_test_add_func ("/setup/amend/untouched", test_untouched);
  g_test_add_func ("/setup/amend/hidden", test_hidden);
  g_test_add_func ("/setup/void", test_void);
  g_test_add_func ("/setup/undo", test_undo);
  g_test_add_func ("/setup/undo/not-of-a-change", test_no_undo);
  g_test_add_func ("/setup/who/nobody", test_nobody);
  g_test_add_func ("/setup/who/auditor", test_auditor);
  g_test_add_func ("/setup/who/read-only", test_read_only);
  g_test_add_func ("/setup/site", test_site);
  return g_test_run ();
}
