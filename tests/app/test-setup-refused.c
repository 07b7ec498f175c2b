/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What only the layer below can refuse: each fault comes back to its own field, and nothing is
 * written. The bench holds one person, solvent, product, lot, method and machine beforehand. */
#include "app/setup/pick-row.h"
#include "app/widgets/form-row.h"
#include "tests/app/setup-bench.h"

typedef struct
{
  const char *name;
  void (*fill) (Bench *bench); /* opens a form and fills it in, with one thing wrong */
  SwTable table;               /* that must not grow */
  const char *list;            /* where the fault stands; NULL = the form */
  const char *field;           /* NULL: above the form */
  const char *part;            /* of its words */
} RefusedRow;

/* ---- people, site ---- */

static void
take_initials (Bench *bench)
{
  bench_open (bench, "people", 0);
  bench_type (bench, "name", "Another Nobody");
  bench_type (bench, "initials", "IN");
}

static void
long_name (Bench *bench)
{
  g_autofree char *name = g_strnfill (201, 'x');

  bench_open (bench, "people", 0);
  bench_type (bench, "name", name);
  bench_type (bench, "initials", "XX");
}

static void
wrong_zone (Bench *bench)
{
  bench_open (bench, "site", 1);
  bench_type (bench, "name", "Demo site");
  bench_type (bench, "zone", "Mars/Olympus");
}

/* ---- liquids ---- */

static void
take_solvent (Bench *bench)
{
  bench_open (bench, "solvents", 0);
  bench_type (bench, "name", "Demo hydrocarbon");
  bench_pick (bench, "family", SW_FAMILY_OTHER);
}

static void
open_product (Bench *bench)
{
  bench_open (bench, "products", 0);
  bench_type (bench, "name", "Demo second");
  bench_pick (bench, "use", SW_PRODUCT_NEUTRALISER);
}

static void
total_below_each (Bench *bench)
{
  open_product (bench);
  bench_type (bench, "limit-each", "10");
  bench_type (bench, "limit-total", "5");
}

static void
limits_and_none (Bench *bench)
{
  open_product (bench);
  bench_type (bench, "limit-each", "10");
  bench_type (bench, "limit-total", "60");
  bench_type (bench, "no-limits", "I. Nobody");
}

static void
epoxide_without_time (Bench *bench)
{
  open_product (bench);
  bench_pick (bench, "kind", SW_NEUTRALISER_EPOXIDE);
}

static void
uncertain_strength (Bench *bench)
{
  open_product (bench);
  bench_type (bench, "strength", "1.2");
  bench_type (bench, "strength-u", "1.1");
}

static void
uncertain_titrant (Bench *bench)
{
  bench_open (bench, "products", 0);
  bench_type (bench, "name", "Demo acid");
  bench_pick (bench, "use", SW_PRODUCT_TITRANT);
  bench_type (bench, "titrant-strength", "0.1");
  bench_type (bench, "titrant-strength-u", "0.09");
}

static void
take_lot (Bench *bench)
{
  bench_open (bench, "lots", 0);
  bench_pick (bench, "product", bench_only (bench, SW_TABLE_PRODUCT));
  bench_type (bench, "code", "DEMO-26-1");
}

static void
opened_before_received (Bench *bench)
{
  bench_open (bench, "lots", 0);
  bench_pick (bench, "product", bench_only (bench, SW_TABLE_PRODUCT));
  bench_type (bench, "code", "DEMO-26-2");
  bench_type (bench, "received", "2026-11-20");
  bench_type (bench, "opened", "2026-11-02");
}

/* ---- droppers ---- */

static void
open_dropper (Bench *bench)
{
  bench_open (bench, "droppers", 0);
  bench_pick (bench, "product", bench_only (bench, SW_TABLE_PRODUCT));
  bench_type (bench, "dropper", "Dropper B");
}

static void
uncertain_drop (Bench *bench)
{
  open_dropper (bench);
  bench_type (bench, "drop", "0.03");
  bench_type (bench, "drop-u", "0.02");
}

static void
measured_tomorrow (Bench *bench)
{
  open_dropper (bench);
  bench_type (bench, "drop", "0.03");
  bench_type (bench, "measured", "2026-11-26");
}

static void
single_weighing (Bench *bench)
{
  open_dropper (bench);
  bench_pick (bench, "way", 1);
  bench_type (bench, "drops", "20");
  bench_type (bench, "density", "0.95");
  bench_add_to (bench, "weighings");
  bench_type_in (bench, "weighings", 0, "grams", "0.6");
}

/* ---- methods ---- */

static void
take_method (Bench *bench)
{
  bench_open (bench, "methods", 0);
  bench_type (bench, "name", "Our drop test");
  bench_pick (bench, "titrant", bench_only (bench, SW_TABLE_PRODUCT));
}

/* ---- machines ---- */

static void
open_machine (Bench *bench)
{
  bench_open (bench, "machines", 0);
  bench_type (bench, "tag", "M-08");
  bench_pick (bench, "solvent", bench_only (bench, SW_TABLE_SOLVENT));
}

static void
take_tag (Bench *bench)
{
  open_machine (bench);
  bench_type (bench, "tag", "M-07");
}

static void
reserve_upside_down (Bench *bench)
{
  open_machine (bench);
  bench_type (bench, "reserve-low", "6");
  bench_type (bench, "reserve-high", "3");
}

static void
uncertain_compartment (Bench *bench)
{
  open_machine (bench);
  bench_add_to (bench, "compartments");
  bench_type_in (bench, "compartments", 0, "volume", "100");
  bench_type_in (bench, "compartments", 0, "volume-u", "-1");
}

static void
no_solvent_in_it (Bench *bench)
{
  open_machine (bench);
  bench_add_to (bench, "compartments");
  bench_type_in (bench, "compartments", 0, "volume", "0");
}

static void
points_alike (Bench *bench)
{
  open_machine (bench);
  bench_add_to (bench, "points");
  bench_type_in (bench, "points", 0, "name", "Valve");
  bench_add_to (bench, "points");
  bench_type_in (bench, "points", 1, "name", "Valve");
}

static const RefusedRow rows[] = {
  { "initials taken", take_initials, SW_TABLE_PERSON, NULL, "initials", "IN" },
  { "name too long", long_name, SW_TABLE_PERSON, NULL, "name", "too long" },
  { "zone unknown", wrong_zone, SW_TABLE_SITE, NULL, "zone", "Mars/Olympus" },
  { "solvent taken", take_solvent, SW_TABLE_SOLVENT, NULL, "name", "Demo hydrocarbon" },
  { "total below each", total_below_each, SW_TABLE_PRODUCT, NULL, "limit-total", "" },
  { "limits and none", limits_and_none, SW_TABLE_PRODUCT, NULL, "limit-each", "" },
  { "epoxide", epoxide_without_time, SW_TABLE_PRODUCT, NULL, "reaction", "nothing is entered" },
  { "strength", uncertain_strength, SW_TABLE_PRODUCT, NULL, "strength-u", "too much" },
  { "titrant", uncertain_titrant, SW_TABLE_PRODUCT, NULL, "titrant-strength-u", "too much" },
  { "lot taken", take_lot, SW_TABLE_LOT, NULL, "code", "DEMO-26-1" },
  { "opened too early", opened_before_received, SW_TABLE_LOT, NULL, "opened", "" },
  { "drop", uncertain_drop, SW_TABLE_CALIBRATION, NULL, "drop-u", "too much" },
  { "measured tomorrow", measured_tomorrow, SW_TABLE_CALIBRATION, NULL, "measured", "" },
  { "one weighing", single_weighing, SW_TABLE_CALIBRATION, NULL, NULL, "too little" },
  { "method taken", take_method, SW_TABLE_METHOD, NULL, "name", "Our drop test" },
  { "tag taken", take_tag, SW_TABLE_MACHINE, NULL, "tag", "M-07" },
  { "reserve", reserve_upside_down, SW_TABLE_MACHINE, NULL, "reserve-high", "" },
  { "compartment", uncertain_compartment, SW_TABLE_MACHINE, "compartments", "volume-u",
    "too little" },
  { "no solvent", no_solvent_in_it, SW_TABLE_MACHINE, NULL, NULL, "too little" },
  { "points alike", points_alike, SW_TABLE_MACHINE, "points", "name", "Valve" },
};

static Bench *
make_bench (void)
{
  Bench *bench = bench_new ("en", 1024, 600, FALSE);
  gint64 solvent;
  gint64 product;

  solvent = bench_add_solvent (bench);
  product = bench_add_neutraliser (bench);
  bench_add_lot (bench, product);
  bench_fill_machine (bench, solvent, product, bench_adopt_method (bench, product));
  g_assert_true (bench_save (bench));
  return bench;
}

/* The file as the journal counts it: nothing is written when this stays. */
static guint
count_rows (Bench *bench, SwTable table)
{
  g_autoptr (GArray) ids = sw_record_ids (bench_store (bench), table, NULL, 0, NULL);

  return ids->len;
}

static const char *
get_error (Bench *bench, const RefusedRow *row)
{
  GtkWidget *at = bench_row (bench, row->list, 0, row->field);

  return SW_IS_PICK_ROW (at) ? sw_pick_row_get_error (SW_PICK_ROW (at))
                             : sw_form_row_get_error (SW_FORM_ROW (at));
}

static void
test_refused (gconstpointer data)
{
  const RefusedRow *row = data;
  g_autoptr (Bench) bench = make_bench ();
  guint before = count_rows (bench, row->table);
  const char *error;

  row->fill (bench);
  g_assert_false (bench_save (bench));
  g_assert_cmpuint (count_rows (bench, row->table), ==, before);
  if (row->field == NULL)
    {
      bench_assert_says (bench, row->part);
      return;
    }
  error = get_error (bench, row);
  g_test_message ("%s", error);
  g_assert_nonnull (error);
  g_assert_nonnull (strstr (error, row->part));
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = sw_test_path ("/setup/refused", rows[i].name);

      g_test_add_data_func (path, &rows[i], test_refused);
    }
  return g_test_run ();
}
