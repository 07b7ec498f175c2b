/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Descriptors of the plant's tables (plant.h), and the columns that every table has.
 *
 * The words are part of the file format: they never change once a file holds them.
 */
#include "records/plant.h"
#include "records/table-private.h"

static const char *const role_words[]
    = { "technician", "reviewer", "administrator", "auditor", NULL };
static const char *const family_words[]
    = { "hydrocarbon", "modified_alcohol", "chlorinated", "other", NULL };
static const char *const use_words[]
    = { "neutraliser", "caustic", "titrant", "strips", "control", NULL };
static const char *const kind_words[] = { "unknown", "amine", "epoxide", "both", NULL };
static const char *const service_words[] = { "running", "stopped", "retired", NULL };
static const char *const compartment_words[]
    = { "wash_tank", "chamber", "still", "condensate", "separator", "pipes", "other", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (role_words) == SW_N_ROLES + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (family_words) == SW_N_FAMILIES + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (use_words) == SW_N_PRODUCT_USES + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (kind_words) == SW_N_NEUTRALISER_KINDS + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (service_words) == SW_N_SERVICE_STATES + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (compartment_words) == SW_N_COMPARTMENT_KINDS + 1);

#define BY_STORE(member, kind)                                                                     \
  {                                                                                                \
    .name = #member, .type = (kind), .offset = G_STRUCT_OFFSET (SwRecord, member),                 \
    .by_store = TRUE                                                                               \
  }
#define ROW SwRecord
const SwColumn sw_common_columns[] = {
  TIME (happened_ms),
  BY_STORE (recorded_ms, SW_COLUMN_TIME),
  BY_STORE (offset_min, SW_COLUMN_INTEGER),
  BY_STORE (late, SW_COLUMN_BOOLEAN),
  BY_STORE (voided, SW_COLUMN_BOOLEAN),
};
#undef ROW
G_STATIC_ASSERT (G_N_ELEMENTS (sw_common_columns) == SW_N_COMMON_COLUMNS);

#define ROW SwSite
static const SwColumn site_columns[] = {
  TEXT (name),
  TEXT (uuid),
  TEXT (zone),
  TEXT (language),
  TEXT (paper),
  BOOLEAN (demo),
  INTEGER (retention_years),
};
#undef ROW

#define ROW SwPerson
static const SwColumn person_columns[] = {
  TEXT (name),
  TEXT (initials),
  WORD (role, role_words),
  TEXT (language),
  BOOLEAN (active),
  BOOLEAN (second_reader),
  COLUMN (secret, SW_COLUMN_SECRET),
  ID (secret_given_by),
};
#undef ROW

#define ROW SwSolvent
static const SwColumn solvent_columns[] = {
  TEXT (name),
  WORD (family, family_words),
  REAL_IN (density_g_ml, "density_kg_m3", SW_UNIT_G_PER_ML),
  TEXT (sds_reference),
};
#undef ROW

#define ROW SwProduct
static const SwColumn product_columns[] = {
  TEXT (name),
  WORD (use, use_words),
  WORD (kind, kind_words),
  REAL_IN (strength_mmol_ml, "strength_mol_m3", SW_UNIT_MMOL_PER_ML),
  REAL_IN (strength_u_mmol_ml, "strength_u_mol_m3", SW_UNIT_MMOL_PER_ML),
  REAL_IN (density_g_ml, "density_kg_m3", SW_UNIT_G_PER_ML),
  REAL_IN (limit_each_ml_l, "limit_each_m3_m3", SW_UNIT_ML_PER_L),
  REAL_IN (limit_total_ml_l, "limit_total_m3_m3", SW_UNIT_ML_PER_L),
  TEXT (no_limits_by),
  REAL (reaction_min),
  TEXT (sds_reference),
};
#undef ROW

/* The quantity of a lot is mL of a liquid or pieces of a strip, as its product says: no SI there.
 */
#define ROW SwLot
static const SwColumn lot_columns[] = {
  ID (product),      TEXT (code),       TIME (received_ms),
  TIME (opened_ms),  TIME (expires_ms), AMOUNT (quantity, "quantity", SW_UNIT_NONE),
  BOOLEAN (used_up),
};
#undef ROW

#define ROW SwMachine
static const SwColumn machine_columns[] = {
  TEXT (tag),
  TEXT (name),
  TEXT (area),
  ID (solvent),
  ID (neutraliser),
  WORD (service, service_words),
  REAL_IN (chamber_l, "chamber_m3", SW_UNIT_LITRE),
  TEXT (dosing_place),
  REAL (circulation_min),
  AMOUNT (graduation, "graduation_si", SW_UNIT_ML),
  REAL (reserve_low),
  REAL (reserve_high),
};
#undef ROW

#define ROW SwCompartment
static const SwColumn compartment_columns[] = {
  ID (machine),
  WORD (kind, compartment_words),
  TEXT (name),
  AMOUNT (volume, "volume_si", SW_UNIT_LITRE),
  REAL_IN (volume_u_l, "volume_u_m3", SW_UNIT_LITRE),
};
#undef ROW

#define ROW SwSamplingPoint
static const SwColumn sampling_point_columns[] = {
  ID (machine), INTEGER (rank), TEXT (name), TEXT (directions), BOOLEAN (dose_basis),
};
#undef ROW

#define ROW SwFill
static const SwColumn fill_columns[] = { ID (machine), ID (solvent), TIME (ended_ms) };
#undef ROW

#define ROW SwSetting
static const SwColumn setting_columns[] = { TEXT (name), TEXT (value) };
#undef ROW

/* By SwTable, from SW_TABLE_SITE; the setting, after the tests in SwTable, stands last here. */
const SwTableInfo sw_plant_tables[] = {
  TABLE ("site", SwSite, site_columns),
  TABLE ("person", SwPerson, person_columns),
  TABLE ("solvent", SwSolvent, solvent_columns),
  TABLE ("product", SwProduct, product_columns),
  TABLE ("lot", SwLot, lot_columns),
  TABLE ("machine", SwMachine, machine_columns),
  TABLE ("compartment", SwCompartment, compartment_columns),
  TABLE ("sampling_point", SwSamplingPoint, sampling_point_columns),
  TABLE ("fill", SwFill, fill_columns),
  TABLE ("setting", SwSetting, setting_columns),
};
G_STATIC_ASSERT (G_N_ELEMENTS (sw_plant_tables) == SW_TABLE_FILL + 2);
