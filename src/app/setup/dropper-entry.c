/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dropper's form as tables, and its way into a calibration and back. */
#include "app/setup/dropper-entry.h"

#include "app/setup/plant-choices.h"
#include "wording/sentence-setup.h"

typedef struct
{
  SwRecord record;
  double grams;
} Weighing;

#define TYPED SW_FORM_BIT (SW_DROPPER_TYPED)
#define WEIGHED SW_FORM_BIT (SW_DROPPER_WEIGHED)

/* clang-format off */
const SwFormSpec sw_dropper_fields[] = {
  { .id = "product", .label = N_ ("Liquid that it delivers"), .kind = SW_FORM_RECORD, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwDropperEntry, product), .quantity = SW_QUANTITY_NAME,
    .rows = sw_choose_titrants, .say_row = sw_choice_product },
  { .id = "dropper", .label = N_ ("Dropper"), .hint = N_ ("What is written on it."),
    .kind = SW_FORM_TEXT, .needed = TRUE, .offset = G_STRUCT_OFFSET (SwDropperEntry, dropper),
    .quantity = SW_QUANTITY_NAME },
  { .id = "measured", .label = N_ ("Measured on"), .hint = N_ ("Empty: today."),
    .kind = SW_FORM_DATE, .offset = G_STRUCT_OFFSET (SwDropperEntry, measured_ms),
    .quantity = SW_QUANTITY_DATE },
  { .id = "due", .label = N_ ("Measure again by"), .kind = SW_FORM_DATE,
    .offset = G_STRUCT_OFFSET (SwDropperEntry, due_ms) },
  { .id = "way", .group = N_ ("Volume of one drop"), .label = N_ ("Where it comes from"),
    .kind = SW_FORM_WORD, .offset = G_STRUCT_OFFSET (SwDropperEntry, way), .word = sw_say_dropper_way,
    .n_words = SW_N_DROPPER_WAYS, .wide = TRUE },
  { .id = "drop", .label = N_ ("Volume of one drop"),
    .hint = N_ ("About 0.05 mL for water; an organic liquid gives smaller drops."),
    .kind = SW_FORM_AMOUNT, .needed = TRUE, .offset = G_STRUCT_OFFSET (SwDropperEntry, drop),
    .quantity = SW_QUANTITY_DROP_VOLUME, .unit = SW_UNIT_ML,
    .shown_with = "way", .shown_mask = TYPED },
  { .id = "drop-u", .label = N_ ("Standard uncertainty"),
    .hint = N_ ("Empty counts as exact: the bounds of a dose then look too narrow."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwDropperEntry, drop_u_ml),
    .quantity = SW_QUANTITY_UNCERTAINTY, .of = SW_QUANTITY_DROP_VOLUME, .unit = SW_UNIT_ML,
    .shown_with = "way", .shown_mask = TYPED },
  { .id = "drops", .label = N_ ("Drops in each weighing"),
    .hint = N_ ("The same number each time: 20 is usual."), .kind = SW_FORM_REAL, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwDropperEntry, drops), .quantity = SW_QUANTITY_DROP_COUNT, .wide = TRUE,
    .shown_with = "way", .shown_mask = WEIGHED },
  { .id = "density", .label = N_ ("Density of the liquid"), .hint = N_ ("At the temperature of the "
    "bench."), .kind = SW_FORM_REAL, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwDropperEntry, density_g_ml), .quantity = SW_QUANTITY_DENSITY,
    .unit = SW_UNIT_G_PER_ML, .shown_with = "way", .shown_mask = WEIGHED },
  { .id = "density-u", .label = N_ ("Standard uncertainty of the density"), .kind = SW_FORM_REAL,
    .offset = G_STRUCT_OFFSET (SwDropperEntry, density_u_g_ml), .quantity = SW_QUANTITY_UNCERTAINTY,
    .of = SW_QUANTITY_DENSITY, .unit = SW_UNIT_G_PER_ML,
    .shown_with = "way", .shown_mask = WEIGHED },
};

static const SwFormSpec weighing_fields[] = {
  { .id = "grams", .label = N_ ("Weighing"), .kind = SW_FORM_REAL, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (Weighing, grams), .quantity = SW_QUANTITY_WEIGHING,
    .unit = SW_UNIT_GRAM },
};
/* clang-format on */

static gpointer
create_weighing (void)
{
  Weighing *weighing = g_new0 (Weighing, 1);

  weighing->grams = NAN;
  return weighing;
}

static gpointer
copy_weighing (gconstpointer record)
{
  return g_memdup2 (record, sizeof (Weighing));
}

const SwFormListSpec sw_dropper_weighings = {
  .id = "weighings",
  .title = N_ ("Weighings"),
  .hint = N_ ("Hold the dropper upright. Two weighings are the least; six are better."),
  .add_label = N_ ("Add Weighing"),
  .empty = N_ ("No weighing yet."),
  .compact = TRUE,
  .columns = 1,
  .fields = weighing_fields,
  .n_fields = G_N_ELEMENTS (weighing_fields),
  .create = create_weighing,
  .copy = copy_weighing,
  .free = g_free,
};

void
sw_dropper_entry_clear (SwDropperEntry *entry)
{
  g_clear_pointer (&entry->dropper, g_free);
  g_clear_pointer (&entry->drop.typed, g_free);
}

void
sw_dropper_entry_fill (SwDropperEntry *entry, const SwCalibration *row)
{
  *entry = (SwDropperEntry){ .record = row->record,
                             .product = row->product,
                             .dropper = g_strdup (row->dropper),
                             .measured_ms = row->record.happened_ms,
                             .due_ms = row->due_ms,
                             .way = SW_DROPPER_TYPED,
                             .drop = { row->drop.value, g_strdup (row->drop.typed) },
                             .drop_u_ml = row->drop_u_ml,
                             .drops = NAN,
                             .density_g_ml = NAN,
                             .density_u_g_ml = NAN };
}

gboolean
sw_dropper_entry_work_out (const SwDropperEntry *entry,
                           GPtrArray *weighings,
                           SwCalibrationResult *result,
                           GError **error)
{
  g_autofree double *grams = g_new (double, weighings->len + 1);
  const SwQuantity density = {
    .value = entry->density_g_ml,
    .u = isnan (entry->density_u_g_ml) ? 0.0 : entry->density_u_g_ml,
    .freedom = INFINITY,
  };

  for (guint i = 0; i < weighings->len; i++)
    grams[i] = ((const Weighing *)g_ptr_array_index (weighings, i))->grams;
  return sw_calibration_by_weight (grams, weighings->len, entry->drops, density, result, error);
}

static void
put_typed (SwDropperEntry *entry, SwCalibration *row)
{
  row->drop.value = entry->drop.value;
  row->drop.typed = g_steal_pointer (&entry->drop.typed);
  row->drop_u_ml = entry->drop_u_ml;
}

static void
put_weighed (const SwCalibrationResult *result, guint n_weighings, SwCalibration *row)
{
  row->drop.value = result->drop_ml.value;
  row->drop_u_ml = result->drop_ml.u;
  row->freedom = isinf (result->drop_ml.freedom) ? NAN : result->drop_ml.freedom;
  row->weighings = (int)n_weighings;
}

void
sw_dropper_entry_put (SwDropperEntry *entry,
                      const SwCalibrationResult *result,
                      guint n_weighings,
                      SwCalibration *row)
{
  g_free (row->dropper);
  row->dropper = g_steal_pointer (&entry->dropper);
  row->product = entry->product;
  row->record.happened_ms = entry->measured_ms;
  row->due_ms = entry->due_ms;
  g_clear_pointer (&row->drop.typed, g_free);
  if (result != NULL)
    put_weighed (result, n_weighings, row);
  else
    put_typed (entry, row);
}
