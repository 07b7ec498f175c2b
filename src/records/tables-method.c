/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Descriptors of the method tables (method.h). The words are part of the file format. */
#include "records/method.h"
#include "records/table-private.h"

static const char *const direction_words[] = { "base", "acid", NULL };
static const char *const field_words[] = { "acid", "between", "neutral", "alkaline", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (direction_words) == SW_N_DIRECTIONS + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (field_words) == SW_N_FIELDS + 1);

#define ROW SwMethod
static const SwColumn method_columns[] = { TEXT (name), TEXT (origin), BOOLEAN (active) };
#undef ROW

#define ROW SwMethodVersion
static const SwColumn method_version_columns[] = {
  ID (method),
  INTEGER (version),
  WORD (direction, direction_words),
  BOOLEAN (burette),
  BOOLEAN (for_hydrocarbon),
  BOOLEAN (for_modified_alcohol),
  BOOLEAN (for_chlorinated),
  BOOLEAN (for_other),
  AMOUNT (sample, "sample_si", SW_UNIT_ML),
  REAL_IN (sample_u_ml, "sample_u_m3", SW_UNIT_ML),
  ID (titrant),
  ID (caustic),
  AMOUNT (caustic_volume, "caustic_volume_si", SW_UNIT_ML),
  REAL_IN (caustic_mmol, "caustic_mol", SW_UNIT_MMOL),
  REAL_IN (caustic_u_mmol, "caustic_u_mol", SW_UNIT_MMOL),
  BOOLEAN (caustic_counts),
  AMOUNT (water, "water_si", SW_UNIT_ML),
  TEXT (water_kind),
  REAL (blank),
  REAL (maximum),
  REAL (shake_s),
  REAL (strip_wait_s),
  REAL_IN (supplier_factor_ml_l, "supplier_factor_m3_m3", SW_UNIT_ML_PER_L),
  BOOLEAN (supplier_governs),
};
#undef ROW

#define ROW SwColourField
static const SwColumn colour_field_columns[] = {
  ID (method_version), INTEGER (rank), TEXT (label), WORD (meaning, field_words), TEXT (swatch),
};
#undef ROW

#define ROW SwMethodText
static const SwColumn method_text_columns[] = {
  ID (method_version),
  TEXT (step),
  TEXT (language),
  TEXT (text),
};
#undef ROW

#define ROW SwCalibration
static const SwColumn calibration_columns[] = {
  ID (product),
  TEXT (dropper),
  AMOUNT (drop, "drop_si", SW_UNIT_ML),
  REAL_IN (drop_u_ml, "drop_u_m3", SW_UNIT_ML),
  REAL (freedom),
  INTEGER (weighings),
  TIME (due_ms),
};
#undef ROW

#define ROW SwPlan
static const SwColumn plan_columns[] = {
  ID (machine),        ID (method),  REAL (shortest_days),
  REAL (longest_days), REAL (alpha), REAL (back_to_start_at),
  BOOLEAN (active),
};
#undef ROW

/* By SwTable, from SW_TABLE_METHOD. */
const SwTableInfo sw_method_tables[] = {
  TABLE ("method", SwMethod, method_columns),
  TABLE ("method_version", SwMethodVersion, method_version_columns),
  TABLE ("colour_field", SwColourField, colour_field_columns),
  TABLE ("method_text", SwMethodText, method_text_columns),
  TABLE ("calibration", SwCalibration, calibration_columns),
  TABLE ("plan", SwPlan, plan_columns),
};
G_STATIC_ASSERT (G_N_ELEMENTS (sw_method_tables) == SW_TABLE_PLAN - SW_TABLE_METHOD + 1);
