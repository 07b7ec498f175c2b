/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of solvents, products and their lots. */
#include "app/setup/section-liquids.h"

#include "app/setup/plant-choices.h"
#include "app/setup/section-spec.h"
#include "wording/sentence-setup.h"
#include "workflow/setup.h"

#define DOSED SW_FORM_BIT (SW_PRODUCT_NEUTRALISER)
#define STRONG (DOSED | SW_FORM_BIT (SW_PRODUCT_CAUSTIC))
#define BENCH SW_FORM_BIT (SW_PRODUCT_TITRANT)
#define LIQUID (STRONG | BENCH | SW_FORM_BIT (SW_PRODUCT_CONTROL))

/* clang-format off */
static const SwFormSpec solvent_fields[] = {
  { .id = "name", .label = N_ ("Name"), .kind = SW_FORM_TEXT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwSolvent, name), .quantity = SW_QUANTITY_NAME },
  { .id = "family", .label = N_ ("Family"),
    .hint = N_ ("Each method is for some families only. A wrong one can be dangerous: look into "
                "the safety data sheet."),
    .kind = SW_FORM_WORD, .needed = TRUE, .offset = G_STRUCT_OFFSET (SwSolvent, family),
    .word = sw_say_family, .n_words = SW_N_FAMILIES, .asks = TRUE },
  { .id = "density", .label = N_ ("Density"), .hint = N_ ("At about 20 °C. May be left empty."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwSolvent, density_g_ml),
    .quantity = SW_QUANTITY_DENSITY, .unit = SW_UNIT_G_PER_ML },
  { .id = "sheet", .label = N_ ("Safety data sheet"), .hint = N_ ("Its number or where it hangs."),
    .kind = SW_FORM_TEXT, .offset = G_STRUCT_OFFSET (SwSolvent, sds_reference) },
};

static const SwFormSpec product_fields[] = {
  { .id = "name", .label = N_ ("Name"), .kind = SW_FORM_TEXT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwProduct, name), .quantity = SW_QUANTITY_NAME },
  { .id = "use", .label = N_ ("What it is for"),
    .hint = N_ ("Only a neutraliser can be dosed into a machine."), .kind = SW_FORM_WORD,
    .needed = TRUE, .offset = G_STRUCT_OFFSET (SwProduct, use), .word = sw_say_product_use,
    .n_words = SW_N_PRODUCT_USES, .asks = TRUE },
  { .id = "kind", .label = N_ ("How it works"),
    .hint = N_ ("An epoxide acts slowly and has no pH: strips do not see it."),
    .kind = SW_FORM_WORD, .offset = G_STRUCT_OFFSET (SwProduct, kind),
    .word = sw_say_neutraliser_kind, .n_words = SW_N_NEUTRALISER_KINDS,
    .shown_with = "use", .shown_mask = DOSED },
  { .id = "sheet", .label = N_ ("Safety data sheet"), .hint = N_ ("Its number or where it hangs."),
    .kind = SW_FORM_TEXT, .offset = G_STRUCT_OFFSET (SwProduct, sds_reference) },
  { .id = "strength", .group = N_ ("Strength"), .label = N_ ("Strength"),
    .hint = N_ ("From the certificate or the supplier. A dose needs it unless the drops are of "
                "this product itself."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwProduct, strength_mmol_ml),
    .quantity = SW_QUANTITY_PRODUCT_STRENGTH, .unit = SW_UNIT_MMOL_PER_ML,
    .shown_with = "use", .shown_mask = STRONG },
  { .id = "titrant-strength", .group = N_ ("Strength"), .label = N_ ("Strength"),
    .hint = N_ ("From the label or the certificate."), .kind = SW_FORM_REAL,
    .offset = G_STRUCT_OFFSET (SwProduct, strength_mmol_ml),
    .quantity = SW_QUANTITY_TITRANT_STRENGTH, .unit = SW_UNIT_MMOL_PER_ML,
    .shown_with = "use", .shown_mask = BENCH },
  { .id = "strength-u", .label = N_ ("Standard uncertainty of the strength"),
    .hint = N_ ("A plain “±” limit of a certificate counts as its limit divided by 1.73."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwProduct, strength_u_mmol_ml),
    .quantity = SW_QUANTITY_UNCERTAINTY, .of = SW_QUANTITY_PRODUCT_STRENGTH,
    .unit = SW_UNIT_MMOL_PER_ML, .shown_with = "use", .shown_mask = STRONG },
  { .id = "titrant-strength-u", .label = N_ ("Standard uncertainty of the strength"),
    .hint = N_ ("A plain “±” limit of a certificate counts as its limit divided by 1.73."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwProduct, strength_u_mmol_ml),
    .quantity = SW_QUANTITY_UNCERTAINTY, .of = SW_QUANTITY_TITRANT_STRENGTH,
    .unit = SW_UNIT_MMOL_PER_ML, .shown_with = "use", .shown_mask = BENCH },
  { .id = "density", .label = N_ ("Density"), .hint = N_ ("For weighing drops."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwProduct, density_g_ml),
    .quantity = SW_QUANTITY_DENSITY, .unit = SW_UNIT_G_PER_ML,
    .shown_with = "use", .shown_mask = LIQUID },
  { .id = "limit-each", .group = N_ ("Limits of the sheet"), .label = N_ ("At most in one addition"),
    .hint = N_ ("Product per litre of solvent."), .kind = SW_FORM_REAL,
    .offset = G_STRUCT_OFFSET (SwProduct, limit_each_ml_l), .quantity = SW_QUANTITY_LIMIT_EACH,
    .unit = SW_UNIT_ML_PER_L, .shown_with = "use", .shown_mask = DOSED },
  { .id = "limit-total", .label = N_ ("At most in total"),
    .hint = N_ ("Product per litre of solvent, from one full change of solvent to the next."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwProduct, limit_total_ml_l),
    .quantity = SW_QUANTITY_LIMIT_TOTAL, .unit = SW_UNIT_ML_PER_L,
    .shown_with = "use", .shown_mask = DOSED },
  { .id = "no-limits", .label = N_ ("The sheet gives no limits, says"),
    .hint = N_ ("Only when it gives none: the name of whoever read the sheet. Leave both limits "
                "empty then. Without limits or a name no dose is shown."),
    .kind = SW_FORM_TEXT, .offset = G_STRUCT_OFFSET (SwProduct, no_limits_by), .wide = TRUE,
    .shown_with = "use", .shown_mask = DOSED },
  { .id = "reaction", .label = N_ ("Reaction time"),
    .hint = N_ ("How long it takes to act; a re-test waits for it. An epoxide needs one."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (SwProduct, reaction_min),
    .quantity = SW_QUANTITY_REACTION_TIME, .unit = SW_UNIT_MINUTE,
    .shown_with = "use", .shown_mask = DOSED },
};

static const SwFormSpec lot_fields[] = {
  { .id = "product", .label = N_ ("Product"), .kind = SW_FORM_RECORD, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwLot, product), .quantity = SW_QUANTITY_NAME,
    .rows = sw_choose_products, .say_row = sw_choice_product },
  { .id = "code", .label = N_ ("Code of the lot"), .hint = N_ ("As printed on the bottle or pack."),
    .kind = SW_FORM_TEXT, .needed = TRUE, .offset = G_STRUCT_OFFSET (SwLot, code),
    .quantity = SW_QUANTITY_CODE },
  { .id = "received", .label = N_ ("Received"), .kind = SW_FORM_DATE,
    .offset = G_STRUCT_OFFSET (SwLot, received_ms) },
  { .id = "opened", .label = N_ ("Opened"), .kind = SW_FORM_DATE,
    .offset = G_STRUCT_OFFSET (SwLot, opened_ms), .quantity = SW_QUANTITY_DATE },
  { .id = "expires", .label = N_ ("Expires"), .kind = SW_FORM_DATE,
    .offset = G_STRUCT_OFFSET (SwLot, expires_ms) },
  { .id = "quantity", .label = N_ ("Quantity"),
    .hint = N_ ("A plain number: mL of a liquid, pieces of strips."), .kind = SW_FORM_AMOUNT,
    .offset = G_STRUCT_OFFSET (SwLot, quantity), .quantity = SW_QUANTITY_LOT_AMOUNT },
  { .id = "used-up", .label = N_ ("Used up"), .kind = SW_FORM_SWITCH,
    .offset = G_STRUCT_OFFSET (SwLot, used_up) },
};
/* clang-format on */

/* ---- solvents ---- */

SW_RECORD_OPS (solvent, SwSolvent, sw_solvent)

static gboolean
save_solvent (SwContext *context, const SwActor *actor, gpointer record, GError **error)
{
  return sw_setup_solvent (sw_context_get_store (context), actor, record, error);
}

const SwRecordSpec sw_solvent_record_spec = {
  .fields = solvent_fields,
  .n_fields = G_N_ELEMENTS (solvent_fields),
  .ops = &solvent_ops,
  .save = save_solvent,
  .defers = TRUE,
};

static GtkWidget *
build_solvent (SwContext *context)
{
  return sw_record_editor_new (context, &sw_solvent_record_spec);
}

static gboolean
describe_solvent (SwContext *context, gint64 id, SwSetupItem *item, GError **error)
{
  static const char *const columns[] = { "solvent", NULL };
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwSolvent) solvent = sw_solvent_load (sw_context_get_store (context), id, error);

  if (solvent == NULL)
    return FALSE;
  sw_setup_item_take_title (item, g_strdup (solvent->name));
  sw_setup_item_take_detail (item, g_strdup (sw_say_family (wording, solvent->family)));
  sw_setup_item_take_state (
      item, sw_say_uses (wording, sw_count_uses (context, SW_TABLE_MACHINE, columns, id)));
  return TRUE;
}

const SwSectionSpec sw_section_solvents = {
  .name = "solvents",
  .title = N_ ("Solvents"),
  .add_label = N_ ("_Add Solvent"),
  .new_title = N_ ("New Solvent"),
  .empty = N_ ("No solvent yet. Add the one that your machines wash with; its safety data sheet "
               "names the family."),
  .void_hint = N_ ("Nothing is deleted: machines and records keep it. It is only not offered any "
                   "more."),
  .table = SW_TABLE_SOLVENT,
  .editor = build_solvent,
  .describe = describe_solvent,
};

/* ---- products ---- */

SW_RECORD_OPS (product, SwProduct, sw_product)

static gboolean
save_product (SwContext *context, const SwActor *actor, gpointer record, GError **error)
{
  return sw_setup_product (sw_context_get_store (context), actor, record, error);
}

static const SwRecordSpec product_spec = {
  .fields = product_fields,
  .n_fields = G_N_ELEMENTS (product_fields),
  .ops = &product_ops,
  .save = save_product,
  .note = N_ ("Copy what the safety data sheet and the supplier's sheet say. They govern; this "
              "form only repeats them."),
  .defers = TRUE,
};

static GtkWidget *
build_product (SwContext *context)
{
  return sw_record_editor_new (context, &product_spec);
}

static gboolean
describe_product (SwContext *context, gint64 id, SwSetupItem *item, GError **error)
{
  static const char *const in_methods[] = { "titrant", "caustic", NULL };
  static const char *const in_machines[] = { "neutraliser", NULL };
  static const char *const in_lots[] = { "product", NULL };
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwProduct) product = sw_product_load (sw_context_get_store (context), id, error);
  gulong uses;

  if (product == NULL)
    return FALSE;
  uses = sw_count_uses (context, SW_TABLE_METHOD_VERSION, in_methods, id)
         + sw_count_uses (context, SW_TABLE_MACHINE, in_machines, id)
         + sw_count_uses (context, SW_TABLE_LOT, in_lots, id);
  sw_setup_item_take_title (item, g_strdup (product->name));
  sw_setup_item_take_detail (item, g_strdup (sw_say_product_use (wording, product->use)));
  sw_setup_item_take_state (item, sw_say_uses (wording, uses));
  return TRUE;
}

const SwSectionSpec sw_section_products = {
  .name = "products",
  .title = N_ ("Products"),
  .add_label = N_ ("_Add Product"),
  .new_title = N_ ("New Product"),
  .empty = N_ ("No product yet. Add the neutraliser first, then whatever else stands on the bench: "
               "caustic, titrant, strips."),
  .void_hint = N_ ("Nothing is deleted: methods, lots and records keep it. It is only not offered "
                   "any more, and no dose of it is shown."),
  .table = SW_TABLE_PRODUCT,
  .editor = build_product,
  .describe = describe_product,
};

/* ---- lots ---- */

SW_RECORD_OPS (lot, SwLot, sw_lot)

static gboolean
save_lot (SwContext *context, const SwActor *actor, gpointer record, GError **error)
{
  return sw_setup_lot (sw_context_get_store (context), actor, record, error);
}

static const SwRecordSpec lot_spec = {
  .fields = lot_fields,
  .n_fields = G_N_ELEMENTS (lot_fields),
  .ops = &lot_ops,
  .save = save_lot,
};

static GtkWidget *
build_lot (SwContext *context)
{
  return sw_record_editor_new (context, &lot_spec);
}

static gboolean
describe_lot (SwContext *context, gint64 id, SwSetupItem *item, GError **error)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwLot) lot = sw_lot_load (sw_context_get_store (context), id, error);

  if (lot == NULL)
    return FALSE;
  sw_setup_item_take_title (item, g_strdup (lot->code));
  sw_setup_item_take_detail (item, sw_choice_product (context, lot->product));
  sw_setup_item_take_state (
      item, sw_say_lot_state (wording, lot->used_up, lot->expires_ms, sw_context_now (context)));
  return TRUE;
}

const SwSectionSpec sw_section_lots = {
  .name = "lots",
  .title = N_ ("Lots"),
  .add_label = N_ ("_Add Lot"),
  .new_title = N_ ("New Lot"),
  .empty = N_ ("No lot yet. Add the bottle and the pack of strips that are open on the bench, so "
               "that each test says what it was made with."),
  .void_hint
  = N_ ("Nothing is deleted: tests keep the lot they were made with. For an empty bottle "
        "say “Used up” instead."),
  .table = SW_TABLE_LOT,
  .editor = build_lot,
  .describe = describe_lot,
};
