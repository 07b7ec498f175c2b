/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An invented plant, filled in through the forms as a newcomer would. */
#include "tests/app/setup-bench.h"

/* Saves and says what stood in the way when that fails. */
static void
save_or_say (Bench *bench)
{
  if (bench_save (bench))
    return;
  g_autofree char *text = sw_visible_text (bench_section (bench));
  g_test_message ("not saved:\n%s", text);
  g_assert_not_reached ();
}

gint64
bench_add_solvent (Bench *bench)
{
  bench_open (bench, "solvents", 0);
  bench_type (bench, "name", "Demo hydrocarbon");
  bench_pick (bench, "family", SW_FAMILY_HYDROCARBON);
  bench_type (bench, "density", "0.78");
  save_or_say (bench);
  return bench_only (bench, SW_TABLE_SOLVENT);
}

gint64
bench_add_neutraliser (Bench *bench)
{
  bench_open (bench, "products", 0);
  bench_type (bench, "name", "Demo amine");
  bench_pick (bench, "use", SW_PRODUCT_NEUTRALISER);
  bench_pick (bench, "kind", SW_NEUTRALISER_AMINE);
  bench_type (bench, "strength", "1.2");
  bench_type (bench, "strength-u", "0.05");
  bench_type (bench, "density", "0.95");
  bench_type (bench, "limit-each", "10");
  bench_type (bench, "limit-total", "60");
  bench_type (bench, "reaction", "30");
  bench_type (bench, "sheet", "Demo sheet 7");
  save_or_say (bench);
  return bench_only (bench, SW_TABLE_PRODUCT);
}

gint64
bench_add_lot (Bench *bench, gint64 product)
{
  bench_open (bench, "lots", 0);
  bench_pick (bench, "product", product);
  bench_type (bench, "code", "DEMO-26-1");
  bench_type (bench, "received", "2026-11-02");
  bench_type (bench, "opened", "2026-11-20");
  bench_type (bench, "expires", "2027-05-24");
  bench_type (bench, "quantity", "1000");
  save_or_say (bench);
  return bench_only (bench, SW_TABLE_LOT);
}

gint64
bench_add_dropper (Bench *bench, gint64 product)
{
  bench_open (bench, "droppers", 0);
  bench_pick (bench, "product", product);
  bench_type (bench, "dropper", "Dropper A");
  bench_type (bench, "drop", "0.031");
  bench_type (bench, "drop-u", "0.001");
  save_or_say (bench);
  return bench_only (bench, SW_TABLE_CALIBRATION);
}

gint64
bench_adopt_method (Bench *bench, gint64 titrant)
{
  bench_open (bench, "methods", 0);
  bench_type (bench, "name", "Our drop test");
  bench_pick (bench, "titrant", titrant);
  save_or_say (bench);
  return bench_only (bench, SW_TABLE_METHOD);
}

static void
fill_compartments (Bench *bench)
{
  bench_add_to (bench, "compartments");
  bench_pick_in (bench, "compartments", 0, "kind", SW_COMPARTMENT_WASH_TANK);
  bench_type_in (bench, "compartments", 0, "name", "Tank 1");
  bench_type_in (bench, "compartments", 0, "volume", "180");
  bench_type_in (bench, "compartments", 0, "volume-u", "3");
  bench_add_to (bench, "compartments");
  bench_pick_in (bench, "compartments", 1, "kind", SW_COMPARTMENT_STILL);
  bench_type_in (bench, "compartments", 1, "name", "Still");
  bench_type_in (bench, "compartments", 1, "volume", "120");
  bench_type_in (bench, "compartments", 1, "volume-u", "4");
}

static void
fill_points (Bench *bench)
{
  bench_add_to (bench, "points");
  bench_type_in (bench, "points", 0, "name", "Condensate side");
  bench_type_in (bench, "points", 0, "directions", "Small valve below the condenser.");
  bench_tick_in (bench, "points", 0, "basis", TRUE);
  bench_add_to (bench, "points");
  bench_type_in (bench, "points", 1, "name", "Water separator");
}

void
bench_fill_machine (Bench *bench, gint64 solvent, gint64 neutraliser, gint64 method)
{
  bench_open (bench, "machines", 0);
  bench_type (bench, "tag", "M-07");
  bench_type (bench, "name", "Long bed");
  bench_type (bench, "area", "Hall 2");
  bench_pick (bench, "solvent", solvent);
  bench_pick (bench, "neutraliser", neutraliser);
  bench_type (bench, "place", "Still, sight glass");
  bench_type (bench, "circulation", "45");
  bench_type (bench, "graduation", "20");
  fill_compartments (bench);
  fill_points (bench);
  bench_add_to (bench, "plans");
  bench_pick_in (bench, "plans", 0, "method", method);
}
