/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Descriptors of the test tables (test.h). The words are part of the file format. */
#include "records/table-private.h"
#include "records/test.h"

static const char *const purpose_words[] = { "routine", "retest", "control", "duplicate", NULL };
static const char *const answer_words[] = { "none", "yes", "no", "unknown", NULL };
static const char *const step_words[]
    = { "draw", "prepare", "read", "result", "check", "dose", "added", "done", "abandoned", NULL };
static const char *const outcome_words[]
    = { "open",          "passed",     "acid_found",         "over_range",
        "reserve_found", "no_reserve", "reserve_over_range", NULL };
static const char *const field_words[] = { "acid", "between", "neutral", "alkaline", NULL };
static const char *const dose_words[]
    = { "open", "added", "not_added", "not_known", "lapsed", NULL };
static const char *const incident_words[] = { "open", "retest_passed", "closed", NULL };
static const char *const meaning_words[] = { "performed", "reviewed", "released", "closed", NULL };
static const char *const reason_words[]
    = { "start",  "longer",   "same",       "early",       "retest",
        "halved", "returned", "at_longest", "at_shortest", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (purpose_words) == SW_N_PURPOSES + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (answer_words) == SW_N_ANSWERS + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (step_words) == SW_N_STEPS + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (outcome_words) == SW_N_OUTCOMES + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (field_words) == SW_N_FIELDS + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (dose_words) == SW_N_DOSE_STATES + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (incident_words) == SW_N_INCIDENT_STATES + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (meaning_words) == SW_N_MEANINGS + 1);
G_STATIC_ASSERT (G_N_ELEMENTS (reason_words) == SW_N_SCHEDULE_REASONS + 1);

#define ROW SwSample
static const SwColumn sample_columns[] = {
  TEXT (code),
  ID (machine),
  ID (point),
  ID (plan),
  ID (fill),
  ID (drawn_by),
  WORD (purpose, purpose_words),
  ID (answers_dose),
  WORD (running, answer_words),
  WORD (level_ok, answer_words),
  WORD (added_since, answer_words),
  AMOUNT (volume, "volume_si", SW_UNIT_ML),
  AMOUNT (temperature, "temperature_si", SW_UNIT_CELSIUS),
  TEXT (appearance),
  BOOLEAN (retained),
  TEXT (remarks),
};
#undef ROW

#define ROW SwTitration
static const SwColumn titration_columns[] = {
  ID (sample),
  ID (method_version),
  ID (calibration),
  ID (analyst),
  ID (second_reader),
  INTEGER (portion),
  WORD (step, step_words),
  ID (titrant_lot),
  ID (caustic_lot),
  ID (strip_lot),
  TEXT (lot_reason),
  AMOUNT (portion_volume, "portion_volume_si", SW_UNIT_ML),
  REAL_IN (portion_u_ml, "portion_u_m3", SW_UNIT_ML),
  REAL_IN (step_ml, "step_m3", SW_UNIT_ML),
  REAL_IN (step_u_ml, "step_u_m3", SW_UNIT_ML),
  REAL (step_freedom),
  REAL_IN (titrant_mmol_ml, "titrant_mol_m3", SW_UNIT_MMOL_PER_ML),
  REAL_IN (titrant_u_mmol_ml, "titrant_u_mol_m3", SW_UNIT_MMOL_PER_ML),
  REAL_IN (caustic_mmol, "caustic_mol", SW_UNIT_MMOL),
  BOOLEAN (caustic_counts),
  REAL (blank),
  REAL (maximum),
  TIME (shake_started_ms),
  REAL (pending_total),
  WORD (outcome, outcome_words),
  REAL (net_low),
  REAL (net_high),
  REAL (acid_at),
  REAL (pass_at),
  TIME (closed_ms),
  TIME (signed_ms),
  TIME (ended_ms),
  TEXT (end_reason),
  INTEGER (calc_version),
};
#undef ROW

#define ROW SwReadingRow
static const SwColumn reading_columns[] = {
  ID (titration),      INTEGER (ordinal),           REAL (total),
  ID (colour_field),   WORD (meaning, field_words), BOOLEAN (struck),
  BOOLEAN (not_added), TEXT (struck_reason),        ID (reader),
};
#undef ROW

#define ROW SwDoseRow
static const SwColumn dose_columns[] = {
  ID (titration),
  ID (incident),
  ID (product),
  WORD (state, dose_words),
  REAL_IN (system_l, "system_m3", SW_UNIT_LITRE),
  REAL_IN (system_u_l, "system_u_m3", SW_UNIT_LITRE),
  REAL_IN (product_mmol_ml, "product_mol_m3", SW_UNIT_MMOL_PER_ML),
  REAL_IN (product_u_mmol_ml, "product_u_mol_m3", SW_UNIT_MMOL_PER_ML),
  REAL (strength_ratio),
  REAL_IN (per_step_ml, "per_step_m3", SW_UNIT_ML),
  REAL_IN (low_ml, "low_m3", SW_UNIT_ML),
  REAL_IN (high_ml, "high_m3", SW_UNIT_ML),
  REAL_IN (best_ml, "best_m3", SW_UNIT_ML),
  REAL_IN (best_u_ml, "best_u_m3", SW_UNIT_ML),
  REAL (extra_steps),
  TEXT (extra_reason),
  REAL_IN (computed_ml, "computed_m3", SW_UNIT_ML),
  REAL_IN (measured_ml, "measured_m3", SW_UNIT_ML),
  REAL_IN (graduation_ml, "graduation_m3", SW_UNIT_ML),
  REAL_IN (supplier_ml, "supplier_m3", SW_UNIT_ML),
  BOOLEAN (supplier_governs),
  TEXT (place),
  ID (released_by),
  TIME (released_ms),
  TIME (decided_ms),
  ID (lot),
  AMOUNT (added, "added_si", SW_UNIT_ML),
  TIME (added_ms),
  ID (added_by),
  TIME (retest_due_ms),
  ID (retest_sample),
  INTEGER (calc_version),
};
#undef ROW

#define ROW SwIncident
static const SwColumn incident_columns[] = {
  ID (machine),
  ID (opened_by_titration),
  ID (answered_by_titration),
  WORD (state, incident_words),
  BOOLEAN (over_range),
  TEXT (cause),
  ID (closed_by),
  TIME (closed_ms),
};
#undef ROW

#define ROW SwReview
static const SwColumn review_columns[] = {
  TEXT (subject_table),          ID (subject),     ID (person),
  WORD (meaning, meaning_words), ID (subject_seq), TEXT (identified_by),
};
#undef ROW

#define ROW SwDecision
static const SwColumn decision_columns[] = {
  ID (plan),
  ID (titration),
  REAL (interval_days),
  INTEGER (credit),
  TIME (due_ms),
  WORD (reason, reason_words),
  REAL (shortest_days),
  REAL (longest_days),
};
#undef ROW

/* By SwTable, from SW_TABLE_SAMPLE. */
const SwTableInfo sw_test_tables[] = {
  TABLE ("sample", SwSample, sample_columns),
  TABLE ("titration", SwTitration, titration_columns),
  TABLE ("reading", SwReadingRow, reading_columns),
  TABLE ("dose", SwDoseRow, dose_columns),
  TABLE ("incident", SwIncident, incident_columns),
  TABLE ("review", SwReview, review_columns),
  TABLE ("decision", SwDecision, decision_columns),
};
G_STATIC_ASSERT (G_N_ELEMENTS (sw_test_tables) == SW_TABLE_DECISION - SW_TABLE_SAMPLE + 1);
