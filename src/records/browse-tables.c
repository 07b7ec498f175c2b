/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How each table is browsed: a row of SQL expressions per table, in the order of SwTable.
 *
 * Joins are LEFT JOINs by primary key: a row whose reference is empty is still listed, and the
 * engine leaves out the joins that a statement does not speak of.
 */
#include "records/browse-private.h"

#define TEST_OF(table)                                                                             \
  table " LEFT JOIN titration ON titration.id = " table ".titration"                               \
        " LEFT JOIN sample ON sample.id = titration.sample"
#define VERSION_OF(table)                                                                          \
  table " LEFT JOIN method_version ON method_version.id = " table ".method_version"                \
        " LEFT JOIN method ON method.id = method_version.method"
#define TITRATION                                                                                  \
  "titration LEFT JOIN sample ON sample.id = titration.sample LEFT JOIN method_version"            \
  " ON method_version.id = titration.method_version"                                               \
  " LEFT JOIN method ON method.id = method_version.method"
#define DOSE                                                                                       \
  TEST_OF ("dose")                                                                                 \
  " LEFT JOIN product ON product.id = dose.product LEFT JOIN lot ON lot.id = dose.lot"
#define INCIDENT                                                                                   \
  "incident LEFT JOIN titration ON titration.id = incident.opened_by_titration"                    \
  " LEFT JOIN sample ON sample.id = titration.sample"
/* What was signed is a titration, a dose or an incident: in the end it is about one test. */
#define REVIEW                                                                                     \
  "review LEFT JOIN dose ON review.subject_table = 'dose' AND dose.id = review.subject"            \
  " LEFT JOIN incident ON review.subject_table = 'incident' AND incident.id = review.subject"      \
  " LEFT JOIN titration ON titration.id = CASE review.subject_table"                               \
  " WHEN 'titration' THEN review.subject WHEN 'dose' THEN dose.titration"                          \
  " WHEN 'incident' THEN incident.opened_by_titration END"                                         \
  " LEFT JOIN sample ON sample.id = titration.sample"
#define DECISION                                                                                   \
  TEST_OF ("decision")                                                                             \
  " LEFT JOIN plan ON plan.id = decision.plan LEFT JOIN method ON method.id = plan.method"

/* The last portion that came to a result; else the one that is still open. */
#define SAMPLE_OUTCOME                                                                             \
  "(SELECT portion.outcome FROM titration AS portion WHERE portion.sample = sample.id"             \
  " AND portion.voided = 0 ORDER BY portion.outcome = 'open', portion.portion DESC LIMIT 1)"

static const SwBrowseTable tables[] = {
  [SW_TABLE_SITE] = { .from = "site", .title = "site.name", .texts = { "site.name" } },
  [SW_TABLE_PERSON] = { .from = "person",
                        .person = "person.id",
                        .title = "person.name",
                        .word = "person.role",
                        .texts = { "person.name", "person.initials" } },
  [SW_TABLE_SOLVENT] = { .from = "solvent",
                         .title = "solvent.name",
                         .word = "solvent.family",
                         .texts = { "solvent.name", "solvent.sds_reference" } },
  [SW_TABLE_PRODUCT]
  = { .from = "product",
      .title = "product.name",
      .word = "product.use",
      .texts = { "product.name", "product.no_limits_by", "product.sds_reference" } },
  [SW_TABLE_LOT] = { .from = "lot LEFT JOIN product ON product.id = lot.product",
                     .title = "lot.code",
                     .of = "product.name",
                     .texts = { "lot.code", "product.name" } },
  [SW_TABLE_MACHINE] = { .from = "machine",
                         .machine = "machine.id",
                         .title = "machine.tag",
                         .of = "machine.name",
                         .word = "machine.service",
                         .texts = { "machine.area", "machine.dosing_place" } },
  [SW_TABLE_COMPARTMENT] = { .from = "compartment",
                             .machine = "compartment.machine",
                             .title = "compartment.name",
                             .of = "place.tag",
                             .word = "compartment.kind",
                             .texts = { "compartment.name" } },
  [SW_TABLE_SAMPLING_POINT] = { .from = "sampling_point",
                                .machine = "sampling_point.machine",
                                .title = "sampling_point.name",
                                .of = "place.tag",
                                .texts = { "sampling_point.name", "sampling_point.directions" } },
  [SW_TABLE_FILL] = { .from = "fill LEFT JOIN solvent ON solvent.id = fill.solvent",
                      .machine = "fill.machine",
                      .title = "solvent.name",
                      .of = "place.tag",
                      .texts = { "solvent.name" } },
  [SW_TABLE_METHOD]
  = { .from = "method", .title = "method.name", .texts = { "method.name", "method.origin" } },
  [SW_TABLE_METHOD_VERSION]
  = { .from = "method_version LEFT JOIN method ON method.id = method_version.method",
      .title = "CAST(method_version.version AS TEXT)",
      .of = "method.name",
      .word = "method_version.direction",
      .texts = { "method.name", "method_version.water_kind" } },
  [SW_TABLE_COLOUR_FIELD] = { .from = VERSION_OF ("colour_field"),
                              .title = "colour_field.label",
                              .of = "method.name",
                              .word = "colour_field.meaning",
                              .texts = { "colour_field.label", "method.name" } },
  [SW_TABLE_METHOD_TEXT] = { .from = VERSION_OF ("method_text"),
                             .title = "method_text.step",
                             .of = "method.name",
                             .texts = { "method_text.step", "method_text.text", "method.name" } },
  [SW_TABLE_CALIBRATION]
  = { .from = "calibration LEFT JOIN product ON product.id = calibration.product",
      .title = "calibration.dropper",
      .of = "product.name",
      .texts = { "calibration.dropper", "product.name" } },
  [SW_TABLE_PLAN] = { .from = "plan LEFT JOIN method ON method.id = plan.method",
                      .machine = "plan.machine",
                      .title = "method.name",
                      .of = "place.tag",
                      .texts = { "method.name" } },
  [SW_TABLE_SAMPLE] = { .from = "sample",
                        .machine = "sample.machine",
                        .person = "sample.drawn_by",
                        .outcome = SAMPLE_OUTCOME,
                        .title = "sample.code",
                        .of = "place.tag",
                        .word = "sample.purpose",
                        .texts = { "sample.code", "sample.remarks", "sample.appearance" } },
  [SW_TABLE_TITRATION]
  = { .from = TITRATION,
      .machine = "sample.machine",
      .person = "titration.analyst",
      .people = "titration.second_reader",
      .outcome = "titration.outcome",
      .title = "sample.code",
      .of = "method.name",
      .word = "titration.step",
      .texts = { "sample.code", "sample.remarks", "sample.appearance", "titration.lot_reason",
                 "titration.end_reason", "method.name" } },
  [SW_TABLE_READING]
  = { .from
      = TEST_OF ("reading") " LEFT JOIN colour_field ON colour_field.id = reading.colour_field",
      .machine = "sample.machine",
      .person = "reading.reader",
      .outcome = "titration.outcome",
      .title = "CAST(reading.ordinal AS TEXT)",
      .of = "sample.code",
      .word = "reading.meaning",
      .texts = { "sample.code", "reading.struck_reason", "colour_field.label" } },
  [SW_TABLE_DOSE]
  = { .from = DOSE,
      .machine = "sample.machine",
      .person = "coalesce(dose.added_by, dose.released_by, titration.analyst)",
      .people = "dose.released_by, titration.analyst",
      .outcome = "titration.outcome",
      .title = "sample.code",
      .of = "product.name",
      .word = "dose.state",
      .amount = "coalesce(dose.added_si, dose.measured_m3)",
      .texts = { "sample.code", "product.name", "lot.code", "dose.place", "dose.extra_reason" } },
  [SW_TABLE_INCIDENT] = { .from = INCIDENT,
                          .machine = "incident.machine",
                          .person = "coalesce(incident.closed_by, titration.analyst)",
                          .people = "titration.analyst",
                          .outcome = "titration.outcome",
                          .title = "sample.code",
                          .of = "place.tag",
                          .word = "incident.state",
                          .texts = { "sample.code", "incident.cause" } },
  [SW_TABLE_REVIEW] = { .from = REVIEW,
                        .machine = "coalesce(incident.machine, sample.machine)",
                        .person = "review.person",
                        .outcome = "titration.outcome",
                        .title = "sample.code",
                        .word = "review.meaning",
                        .texts = { "sample.code", "incident.cause", "who.name", "who.initials" } },
  [SW_TABLE_DECISION] = { .from = DECISION,
                          .machine = "plan.machine",
                          .person = "titration.analyst",
                          .outcome = "titration.outcome",
                          .title = "method.name",
                          .of = "place.tag",
                          .word = "decision.reason",
                          .texts = { "method.name", "sample.code" } },
  [SW_TABLE_SETTING] = { .from = "setting",
                         .title = "setting.name",
                         .of = "setting.value",
                         .texts = { "setting.name", "setting.value" } },
  [SW_TABLE_SIGN_IN]
  = { .from = "sign_in",
      .person = "sign_in.person",
      .title = "who.name",
      .word = "CASE WHEN sign_in.accepted = 1 THEN 'accepted' ELSE 'refused' END",
      .texts = { "who.name", "who.initials" } },
  [SW_TABLE_CHECKPOINT] = { .from = "checkpoint",
                            .title = "CAST(checkpoint.seq AS TEXT)",
                            .texts = { "checkpoint.head", "checkpoint.key" } },
  [SW_TABLE_RESTORATION]
  = { .from = "restoration",
      .title = "restoration.backup",
      .texts = { "restoration.backup", "restoration.kept_head", "restoration.lost_head" } },
};
G_STATIC_ASSERT (G_N_ELEMENTS (tables) == SW_N_TABLES);

const SwBrowseTable *
sw_browse_table (SwTable table)
{
  g_return_val_if_fail ((int)table >= 0 && table < SW_N_TABLES, NULL);
  return &tables[table];
}
