/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paths of the slow oracle, and walking along them row by row. */
#include "browse-paths.h"

#include "records/cell-private.h"
#include "records/row-private.h"

#include <string.h>

const OraclePaths oracle_paths[SW_N_TABLES] = {
  [SW_TABLE_SITE] = { .title = "name", .texts = "name" },
  [SW_TABLE_PERSON] = { .main = "id", .title = "name", .word = "role", .texts = "name initials" },
  [SW_TABLE_SOLVENT] = { .title = "name", .word = "family", .texts = "name sds_reference" },
  [SW_TABLE_PRODUCT]
  = { .title = "name", .word = "use", .texts = "name no_limits_by sds_reference" },
  [SW_TABLE_LOT] = { .title = "code", .of = "product.name", .texts = "code product.name" },
  [SW_TABLE_MACHINE] = { .machine = "id",
                         .title = "tag",
                         .of = "name",
                         .word = "service",
                         .texts = "area dosing_place" },
  [SW_TABLE_COMPARTMENT]
  = { .machine = "machine", .title = "name", .of = "machine.tag", .word = "kind", .texts = "name" },
  [SW_TABLE_SAMPLING_POINT]
  = { .machine = "machine", .title = "name", .of = "machine.tag", .texts = "name directions" },
  [SW_TABLE_FILL]
  = { .machine = "machine", .title = "solvent.name", .of = "machine.tag", .texts = "solvent.name" },
  [SW_TABLE_METHOD] = { .title = "name", .texts = "name origin" },
  [SW_TABLE_METHOD_VERSION] = { .title = "version",
                                .of = "method.name",
                                .word = "direction",
                                .texts = "method.name water_kind" },
  [SW_TABLE_COLOUR_FIELD] = { .title = "label",
                              .of = "method_version.method.name",
                              .word = "meaning",
                              .texts = "label method_version.method.name" },
  [SW_TABLE_METHOD_TEXT] = { .title = "step",
                             .of = "method_version.method.name",
                             .texts = "step text method_version.method.name" },
  [SW_TABLE_CALIBRATION]
  = { .title = "dropper", .of = "product.name", .texts = "dropper product.name" },
  [SW_TABLE_PLAN]
  = { .machine = "machine", .title = "method.name", .of = "machine.tag", .texts = "method.name" },
  [SW_TABLE_SAMPLE] = { .machine = "machine",
                        .main = "drawn_by",
                        .title = "code",
                        .of = "machine.tag",
                        .word = "purpose",
                        .texts = "code remarks appearance" },
  [SW_TABLE_TITRATION] = { .machine = "sample.machine",
                           .main = "analyst",
                           .also = "second_reader",
                           .outcome = "outcome",
                           .title = "sample.code",
                           .of = "method_version.method.name",
                           .word = "step",
                           .texts = "sample.code sample.remarks sample.appearance lot_reason"
                                    " end_reason method_version.method.name" },
  [SW_TABLE_READING] = { .machine = "titration.sample.machine",
                         .main = "reader",
                         .outcome = "titration.outcome",
                         .title = "ordinal",
                         .of = "titration.sample.code",
                         .word = "meaning",
                         .texts = "titration.sample.code struck_reason colour_field.label" },
  [SW_TABLE_DOSE] = { .machine = "titration.sample.machine",
                      .main = "added_by released_by titration.analyst",
                      .also = "released_by titration.analyst",
                      .outcome = "titration.outcome",
                      .title = "titration.sample.code",
                      .of = "product.name",
                      .word = "state",
                      .texts = "titration.sample.code product.name lot.code place extra_reason" },
  [SW_TABLE_INCIDENT] = { .machine = "machine",
                          .main = "closed_by opened_by_titration.analyst",
                          .also = "opened_by_titration.analyst",
                          .outcome = "opened_by_titration.outcome",
                          .title = "opened_by_titration.sample.code",
                          .of = "machine.tag",
                          .word = "state",
                          .texts = "opened_by_titration.sample.code cause" },
  [SW_TABLE_REVIEW] = { .machine = "subject.machine subject.sample.machine"
                                   " subject.titration.sample.machine",
                        .main = "person",
                        .outcome = "subject.outcome subject.titration.outcome"
                                   " subject.opened_by_titration.outcome",
                        .title = "subject.sample.code subject.titration.sample.code"
                                 " subject.opened_by_titration.sample.code",
                        .word = "meaning",
                        .texts = "subject.sample.code subject.titration.sample.code"
                                 " subject.opened_by_titration.sample.code subject.cause"
                                 " person.name person.initials" },
  [SW_TABLE_DECISION] = { .machine = "plan.machine",
                          .main = "titration.analyst",
                          .outcome = "titration.outcome",
                          .title = "plan.method.name",
                          .of = "plan.machine.tag",
                          .word = "reason",
                          .texts = "plan.method.name titration.sample.code" },
  [SW_TABLE_SETTING] = { .title = "name", .of = "value", .texts = "name value" },
  [SW_TABLE_SIGN_IN]
  = { .main = "person", .title = "person.name", .texts = "person.name person.initials" },
  [SW_TABLE_CHECKPOINT] = { .title = "seq", .texts = "head key" },
  [SW_TABLE_RESTORATION] = { .title = "backup", .texts = "backup kept_head lost_head" },
};

/* ---- following references ---- */

/* Where an id column leads, in a row of any table. */
static gboolean
get_target (gconstpointer row, SwTable table, const char *column, SwTable *target)
{
  static const struct
  {
    const char *column;
    SwTable target;
  } others[] = { { "opened_by_titration", SW_TABLE_TITRATION } };

  if (table == SW_TABLE_REVIEW && strcmp (column, "subject") == 0)
    return sw_table_from_name (((const SwReview *)row)->subject_table, target);
  for (gsize i = 0; i < G_N_ELEMENTS (others); i++)
    if (strcmp (others[i].column, column) == 0)
      {
        *target = others[i].target;
        return TRUE;
      }
  return sw_table_from_name (column, target);
}

char *
oracle_follow (BrowsePlant *plant, SwTable table, gint64 id, const char *path)
{
  gpointer row = sw_row_load (plant->base.store, table, id, NULL);
  const char *dot = strchr (path, '.');
  g_autofree char *name = dot != NULL ? g_strndup (path, (gsize)(dot - path)) : g_strdup (path);
  const SwColumn *column = sw_table_find_column (sw_table_info (table), name);
  char *found = NULL;
  SwTable target;

  if (strcmp (path, "id") == 0)
    found = g_strdup_printf ("%" G_GINT64_FORMAT, id);
  else if (column != NULL)
    {
      SwCell cell = sw_cell_get (column, row);

      if (dot == NULL)
        found = cell.kind == SW_CELL_TEXT ? g_strndup (cell.text, cell.length)
                                          : sw_cell_to_text (&cell, column->type);
      else if (cell.kind == SW_CELL_INTEGER && get_target (row, table, name, &target))
        found = oracle_follow (plant, target, cell.integer, dot + 1);
    }
  sw_row_free (table, row);
  return found;
}

char *
oracle_follow_any (BrowsePlant *plant, SwTable table, gint64 id, const char *list)
{
  g_auto (GStrv) each = g_strsplit (list != NULL ? list : "", " ", -1);
  char *found = NULL;

  for (int i = 0; each[i] != NULL && found == NULL; i++)
    found = oracle_follow (plant, table, id, each[i]);
  return found;
}

gint64
oracle_to_id (char *text)
{
  gint64 id = text != NULL ? g_ascii_strtoll (text, NULL, 10) : 0;

  g_free (text);
  return id;
}
