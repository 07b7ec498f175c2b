/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Machines at the set-up: their parts, the sum that follows the typing, and each thing that is
 * missing leading to the place where it is mended. */
#include "app/setup/form-list.h"
#include "app/setup/pick-row.h"
#include "app/widgets/form-row.h"
#include "tests/app/setup-bench.h"

static GtkWidget *
find (Bench *bench, const char *type, const char *name)
{
  return sw_find_widget (bench_section (bench), g_type_from_name (type), name);
}

static gboolean
shows_form (Bench *bench)
{
  return gtk_widget_get_mapped (find (bench, "SwFormPage", NULL));
}

/* ---- machines ---- */

static gint64
add_machine (Bench *bench)
{
  gint64 solvent;
  gint64 product;

  solvent = bench_add_solvent (bench);
  product = bench_add_neutraliser (bench);
  bench_add_lot (bench, product);
  bench_add_dropper (bench, product);
  bench_fill_machine (bench, solvent, product, bench_adopt_method (bench, product));
  g_assert_true (bench_save (bench));
  return bench_only (bench, SW_TABLE_MACHINE);
}

static void
press_in_list (Bench *bench, const char *list, guint nth, const char *button)
{
  SwFormList *forms = SW_FORM_LIST (find (bench, "SwFormList", list));
  GtkWidget *card = gtk_widget_get_ancestor (GTK_WIDGET (sw_form_list_get_form (forms, nth)),
                                             g_type_from_name ("SwFormCard"));

  g_signal_emit_by_name (sw_find_widget (card, GTK_TYPE_BUTTON, button), "clicked");
}

/* The sampling points in use, as "1 first, 2 second". */
static char *
say_points (Bench *bench)
{
  g_autoptr (GArray) ids
      = sw_record_ids (bench_store (bench), SW_TABLE_SAMPLING_POINT, NULL, 0, NULL);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwSamplingPoint) point
          = sw_sampling_point_load (bench_store (bench), g_array_index (ids, gint64, i), NULL);

      g_string_append_printf (text, "%s%d %s", i > 0 ? ", " : "", point->rank, point->name);
    }
  return g_string_free (text, FALSE);
}

static void
test_points (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  g_autofree char *moved = NULL;
  g_autofree char *removed = NULL;

  bench_open (bench, "machines", add_machine (bench));
  press_in_list (bench, "points", 1, "go-up");
  bench_reason (bench, "the valve leaks");
  g_assert_true (bench_save (bench));
  moved = say_points (bench);
  g_assert_cmpstr (moved, ==, "2 Condensate side, 1 Water separator");
  press_in_list (bench, "points", 0, "list-remove");
  bench_reason (bench, "it was closed");
  g_assert_true (bench_save (bench));
  removed = say_points (bench);
  g_assert_cmpstr (removed, ==, "1 Condensate side");
}

static void
assert_sum (Bench *bench, const char *words)
{
  GtkWidget *sum = find (bench, "GtkLabel", "sum");

  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (sum)), words));
}

/* The sum follows the typing, before anything is saved; figures by hand: 3-4-5 and 5-12-13. */
static void
test_sum (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);

  bench_open (bench, "machines", add_machine (bench));
  assert_sum (bench, "300\342\200\257L, standard uncertainty 5\342\200\257L");
  bench_add_to (bench, "compartments");
  bench_type_in (bench, "compartments", 2, "volume", "20,5");
  bench_type_in (bench, "compartments", 2, "volume-u", "12");
  assert_sum (bench, "320.5\342\200\257L, standard uncertainty 13\342\200\257L");
  bench_type_in (bench, "compartments", 2, "volume-u", "");
  assert_sum (bench, "counts as exact");
  press_in_list (bench, "compartments", 2, "list-remove");
  assert_sum (bench, "300\342\200\257L, standard uncertainty 5\342\200\257L");
}

/* A plan that is refused leaves the machine saved, and a second try writes only the plan. */
static void
test_second_try (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  gint64 product;
  gint64 method;
  gint64 solvent;

  solvent = bench_add_solvent (bench);
  product = bench_add_neutraliser (bench);
  method = bench_adopt_method (bench, product);
  bench_fill_machine (bench, solvent, product, method);
  bench_type_in (bench, "plans", 0, "shortest", "9");
  g_assert_false (bench_save (bench));
  g_assert_cmpint (bench_only (bench, SW_TABLE_MACHINE), >, 0);
  bench_type_in (bench, "plans", 0, "longest", "14");
  g_assert_true (bench_save (bench));
  g_assert_cmpint (bench_only (bench, SW_TABLE_PLAN), >, 0);
  g_assert_cmpint (bench_only (bench, SW_TABLE_MACHINE), >, 0);
}

/* ---- what is missing ---- */

typedef struct
{
  const char *name;
  const char *field; /* emptied in the machine's form before it is saved; NULL = none */
  gboolean no_lot;
  gboolean no_dropper;
  const char *says;
  const char *section; /* where Go There leads */
} MissingRow;

static const MissingRow missing[] = {
  { "place", "place", FALSE, FALSE, "no dosing place", "machines" },
  { "circulation", "circulation", FALSE, FALSE, "no circulation time", "machines" },
  { "jug", "graduation", FALSE, FALSE, "jug", "machines" },
  { "lot", NULL, TRUE, FALSE, "No lot of Demo amine", "lots" },
  { "dropper", NULL, FALSE, TRUE, "No drop volume", "droppers" },
};

static void
test_missing (gconstpointer data)
{
  const MissingRow *row = data;
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  gint64 solvent;
  gint64 product;

  solvent = bench_add_solvent (bench);
  product = bench_add_neutraliser (bench);
  if (!row->no_lot)
    bench_add_lot (bench, product);
  if (!row->no_dropper)
    bench_add_dropper (bench, product);
  bench_fill_machine (bench, solvent, product, bench_adopt_method (bench, product));
  if (row->field != NULL)
    bench_type (bench, row->field, "");
  g_assert_true (bench_save (bench));
  bench_assert_says (bench, "Still missing");
  bench_assert_says (bench, row->says);
  bench_press (bench, "Go There");
  g_assert_cmpstr (gtk_widget_get_name (bench_section (bench)), ==, row->section);
  g_assert_true (shows_form (bench));
}

/* What was missing is seen to be there as soon as it is on file. */
static void
test_mended (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  gint64 solvent;
  gint64 product;

  solvent = bench_add_solvent (bench);
  product = bench_add_neutraliser (bench);
  bench_add_dropper (bench, product);
  bench_fill_machine (bench, solvent, product, bench_adopt_method (bench, product));
  g_assert_true (bench_save (bench));
  bench_assert_says (bench, "No lot of Demo amine");
  bench_add_lot (bench, product);
  bench_show (bench, "machines");
  bench_assert_says (bench, "Nothing is missing");
}

/* ---- the inline solvent ---- */

static void
test_add_solvent (void)
{
  g_autoptr (Bench) bench = bench_new ("en", 1024, 600, FALSE);
  GtkWidget *button;
  GtkWidget *form;
  gint64 picked = 0;

  bench_open (bench, "machines", 0);
  bench_type (bench, "tag", "M-09");
  button = find (bench, "SwSolventButton", "add-solvent");
  form = sw_find_widget (button, SW_TYPE_FORM, NULL);
  sw_form_row_set_text (SW_FORM_ROW (sw_form_get_row (SW_FORM (form), "name")), "Demo alcohol");
  sw_pick_row_set_value (SW_PICK_ROW (sw_form_get_row (SW_FORM (form), "family")),
                         SW_FAMILY_MODIFIED_ALCOHOL);
  g_signal_emit_by_name (sw_find_widget (button, GTK_TYPE_BUTTON, "add-now"), "clicked");
  g_assert_true (
      sw_pick_row_get_value (SW_PICK_ROW (bench_row (bench, NULL, 0, "solvent")), &picked));
  g_assert_cmpint (picked, ==, bench_only (bench, SW_TABLE_SOLVENT));
  g_assert_cmpstr (bench_text (bench, "tag"), ==, "M-09");
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/setup/machine/points", test_points);
  g_test_add_func ("/setup/machine/sum", test_sum);
  g_test_add_func ("/setup/machine/second-try", test_second_try);
  g_test_add_func ("/setup/machine/add-solvent", test_add_solvent);
  for (guint i = 0; i < G_N_ELEMENTS (missing); i++)
    {
      g_autofree char *path = sw_test_path ("/setup/missing", missing[i].name);

      g_test_add_data_func (path, &missing[i], test_missing);
    }
  g_test_add_func ("/setup/missing/mended", test_mended);
  return g_test_run ();
}
