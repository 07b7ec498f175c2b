/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be amended of a sample, a titration, a reading, a dose and an incident: what workflow
 * lets change (workflow/amend.h), and nothing else. */
#include "app/records/amend-forms.h"

#include "app/records/amend-choices.h"
#include "wording/sentence-list.h"
#include "workflow/amend.h"

/* clang-format off */
static const SwFormSpec sample_fields[] = {
  { .id = "drawn", .label = N_ ("Drawn at"), .kind = SW_FORM_MOMENT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwSample, record.happened_ms), .quantity = SW_QUANTITY_DATE },
  { .id = "drawn-by", .label = N_ ("Drawn by"), .kind = SW_FORM_RECORD, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwSample, drawn_by), .rows = sw_amend_people,
    .say_row = sw_amend_say_person },
  { .id = "point", .label = N_ ("Sampling point"), .kind = SW_FORM_RECORD,
    .offset = G_STRUCT_OFFSET (SwSample, point), .rows_of = sw_amend_points,
    .say_row = sw_amend_say_point },
  { .id = "volume", .label = N_ ("Volume drawn"), .kind = SW_FORM_AMOUNT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwSample, volume), .quantity = SW_QUANTITY_DRAWN_VOLUME,
    .unit = SW_UNIT_ML },
  { .id = "temperature", .label = N_ ("Temperature"), .kind = SW_FORM_AMOUNT,
    .offset = G_STRUCT_OFFSET (SwSample, temperature),
    .quantity = SW_QUANTITY_SAMPLE_TEMPERATURE, .unit = SW_UNIT_CELSIUS },
  { .id = "appearance", .label = N_ ("Appearance"), .kind = SW_FORM_TEXT,
    .offset = G_STRUCT_OFFSET (SwSample, appearance), .quantity = SW_QUANTITY_NAME },
  { .id = "running", .label = N_ ("The machine was running"), .kind = SW_FORM_WORD,
    .offset = G_STRUCT_OFFSET (SwSample, running), .word = sw_say_answer,
    .n_words = SW_N_ANSWERS },
  { .id = "level", .label = N_ ("The level was right"), .kind = SW_FORM_WORD,
    .offset = G_STRUCT_OFFSET (SwSample, level_ok), .word = sw_say_answer,
    .n_words = SW_N_ANSWERS },
  { .id = "added-since", .label = N_ ("Something was added since the last record"),
    .kind = SW_FORM_WORD, .offset = G_STRUCT_OFFSET (SwSample, added_since),
    .word = sw_say_answer, .n_words = SW_N_ANSWERS },
  { .id = "retained", .label = N_ ("A part of the sample is kept"), .kind = SW_FORM_SWITCH,
    .offset = G_STRUCT_OFFSET (SwSample, retained) },
  { .id = "remarks", .label = N_ ("Remarks"), .kind = SW_FORM_PROSE, .wide = TRUE,
    .offset = G_STRUCT_OFFSET (SwSample, remarks), .quantity = SW_QUANTITY_NAME },
};

static const SwFormSpec titration_fields[] = {
  { .id = "portion", .label = N_ ("Solvent in the flask"), .kind = SW_FORM_AMOUNT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwTitration, portion_volume), .quantity = SW_QUANTITY_SAMPLE_VOLUME,
    .unit = SW_UNIT_ML },
  { .id = "second-reader", .label = N_ ("Second reader"), .kind = SW_FORM_RECORD,
    .offset = G_STRUCT_OFFSET (SwTitration, second_reader), .empty = N_ ("None"),
    .rows = sw_amend_people, .say_row = sw_amend_say_person },
  { .id = "titrant-lot", .label = N_ ("Lot of the titrant"), .kind = SW_FORM_RECORD,
    .offset = G_STRUCT_OFFSET (SwTitration, titrant_lot), .rows_of = sw_amend_titrant_lots,
    .say_row = sw_amend_say_lot },
  { .id = "caustic-lot", .label = N_ ("Lot of the caustic"), .kind = SW_FORM_RECORD,
    .offset = G_STRUCT_OFFSET (SwTitration, caustic_lot), .empty = N_ ("None"),
    .rows_of = sw_amend_caustic_lots, .say_row = sw_amend_say_lot },
  { .id = "strip-lot", .label = N_ ("Lot of the strips"), .kind = SW_FORM_RECORD,
    .offset = G_STRUCT_OFFSET (SwTitration, strip_lot), .empty = N_ ("None"),
    .rows = sw_amend_strip_lots, .say_row = sw_amend_say_lot },
  { .id = "lot-reason", .label = N_ ("Why an expired lot was used"), .kind = SW_FORM_TEXT,
    .offset = G_STRUCT_OFFSET (SwTitration, lot_reason), .quantity = SW_QUANTITY_REASON },
};

static const SwFormSpec reading_fields[] = {
  { .id = "colour-field", .label = N_ ("The strip showed"), .kind = SW_FORM_RECORD,
    .offset = G_STRUCT_OFFSET (SwReadingRow, colour_field), .empty = N_ ("Between two"),
    .rows_of = sw_amend_colour_fields, .say_row = sw_amend_say_colour_field },
  { .id = "struck", .label = N_ ("Struck: this reading does not count"), .kind = SW_FORM_SWITCH,
    .offset = G_STRUCT_OFFSET (SwReadingRow, struck) },
  { .id = "not-added", .label = N_ ("The titrant was never added"),
    .hint = N_ ("Only of a struck reading: its drops do not count either."),
    .kind = SW_FORM_SWITCH, .offset = G_STRUCT_OFFSET (SwReadingRow, not_added) },
  { .id = "struck-reason", .label = N_ ("Why it is struck"), .kind = SW_FORM_TEXT,
    .hint = N_ ("Empty: the reason of this amendment."),
    .offset = G_STRUCT_OFFSET (SwReadingRow, struck_reason), .quantity = SW_QUANTITY_REASON },
};

static const SwFormSpec dose_fields[] = {
  { .id = "added", .label = N_ ("Really added"), .kind = SW_FORM_AMOUNT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwDoseRow, added), .quantity = SW_QUANTITY_ADDED_AMOUNT,
    .unit = SW_UNIT_ML },
  { .id = "lot", .label = N_ ("Lot added"), .kind = SW_FORM_RECORD,
    .offset = G_STRUCT_OFFSET (SwDoseRow, lot), .rows_of = sw_amend_dose_lots,
    .say_row = sw_amend_say_lot },
  { .id = "added-at", .label = N_ ("Added at"), .kind = SW_FORM_MOMENT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwDoseRow, added_ms), .quantity = SW_QUANTITY_DATE },
  { .id = "added-by", .label = N_ ("Added by"), .kind = SW_FORM_RECORD, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwDoseRow, added_by), .rows = sw_amend_people,
    .say_row = sw_amend_say_person },
};

static const SwFormSpec incident_fields[] = {
  { .id = "cause", .label = N_ ("Cause found"), .kind = SW_FORM_PROSE, .wide = TRUE,
    .offset = G_STRUCT_OFFSET (SwIncident, cause), .quantity = SW_QUANTITY_REASON },
};
/* clang-format on */

SW_RECORD_OPS (sample, SwSample, sw_sample)
SW_RECORD_OPS (titration, SwTitration, sw_titration)
SW_RECORD_OPS (reading, SwReadingRow, sw_reading_row)
SW_RECORD_OPS (dose, SwDoseRow, sw_dose_row)
SW_RECORD_OPS (incident, SwIncident, sw_incident)

/* Each takes the record as void, where workflow takes its own type. */
#define AMEND(name)                                                                                \
  static gboolean amend_##name (SwStore *store, const SwActor *actor, gpointer record,             \
                                GError **error)                                                    \
  {                                                                                                \
    return sw_amend_##name (store, actor, record, error);                                          \
  }
AMEND (sample)
AMEND (titration)
AMEND (reading)
AMEND (dose)
AMEND (incident)

#define SPEC(table, name)                                                                          \
  {                                                                                                \
    table, name##_fields, G_N_ELEMENTS (name##_fields), &name##_ops, amend_##name                  \
  }
static const SwAmendSpec specs[] = {
  SPEC (SW_TABLE_SAMPLE, sample),     SPEC (SW_TABLE_TITRATION, titration),
  SPEC (SW_TABLE_READING, reading),   SPEC (SW_TABLE_DOSE, dose),
  SPEC (SW_TABLE_INCIDENT, incident),
};

const SwAmendSpec *
sw_amend_spec_find (SwTable table)
{
  for (guint i = 0; i < G_N_ELEMENTS (specs); i++)
    if (specs[i].table == table)
      return &specs[i];
  return NULL;
}
