/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Links between records, as two tables: which rows of another table name this one (its parts), and
 * which columns of this one name another (what it belongs to). */
#include "app/records/record-link-tables.h"

#include <glib/gi18n.h>

/* Rows of `table` whose `column` is this record. */
typedef struct
{
  SwTable of;
  SwTable table;
  const char *column;
  const char *relation;
} PartSpec;

/* Translators: what a record is to another one, in a list. */
/* clang-format off */
static const PartSpec part_specs[] = {
  { SW_TABLE_SAMPLE, SW_TABLE_TITRATION, "sample", NC_ ("part of a record", "Test") },
  { SW_TABLE_TITRATION, SW_TABLE_READING, "titration", NC_ ("part of a record", "Reading") },
  { SW_TABLE_TITRATION, SW_TABLE_DOSE, "titration", NC_ ("part of a record", "Dose") },
  { SW_TABLE_TITRATION, SW_TABLE_INCIDENT, "opened_by_titration",
    NC_ ("part of a record", "Opened incident") },
  { SW_TABLE_TITRATION, SW_TABLE_INCIDENT, "answered_by_titration",
    NC_ ("part of a record", "Answered incident") },
  { SW_TABLE_TITRATION, SW_TABLE_DECISION, "titration", NC_ ("part of a record", "Next test") },
  { SW_TABLE_DOSE, SW_TABLE_SAMPLE, "answers_dose", NC_ ("part of a record", "Re-test") },
  { SW_TABLE_INCIDENT, SW_TABLE_DOSE, "incident", NC_ ("part of a record", "Dose") },
  { SW_TABLE_MACHINE, SW_TABLE_COMPARTMENT, "machine", NC_ ("part of a record", "Compartment") },
  { SW_TABLE_MACHINE, SW_TABLE_SAMPLING_POINT, "machine", NC_ ("part of a record", "Sampling point") },
  { SW_TABLE_MACHINE, SW_TABLE_FILL, "machine", NC_ ("part of a record", "Solvent fill") },
  { SW_TABLE_MACHINE, SW_TABLE_PLAN, "machine", NC_ ("part of a record", "Plan") },
  { SW_TABLE_PRODUCT, SW_TABLE_LOT, "product", NC_ ("part of a record", "Lot") },
  { SW_TABLE_PRODUCT, SW_TABLE_CALIBRATION, "product", NC_ ("part of a record", "Dropper") },
  { SW_TABLE_METHOD, SW_TABLE_METHOD_VERSION, "method", NC_ ("part of a record", "Version") },
  { SW_TABLE_METHOD_VERSION, SW_TABLE_COLOUR_FIELD, "method_version",
    NC_ ("part of a record", "Colour field") },
  { SW_TABLE_METHOD_VERSION, SW_TABLE_METHOD_TEXT, "method_version", NC_ ("part of a record", "Text") },
};

/* This record's `column` is a row of `table`. */
static const PartSpec owner_specs[] = {
  { SW_TABLE_TITRATION, SW_TABLE_METHOD_VERSION, "method_version", NC_ ("part of a record", "Method") },
  { SW_TABLE_TITRATION, SW_TABLE_CALIBRATION, "calibration", NC_ ("part of a record", "Dropper") },
  { SW_TABLE_TITRATION, SW_TABLE_LOT, "titrant_lot", NC_ ("part of a record", "Titrant lot") },
  { SW_TABLE_TITRATION, SW_TABLE_LOT, "caustic_lot", NC_ ("part of a record", "Caustic lot") },
  { SW_TABLE_TITRATION, SW_TABLE_LOT, "strip_lot", NC_ ("part of a record", "Strip lot") },
  { SW_TABLE_SAMPLE, SW_TABLE_MACHINE, "machine", NC_ ("part of a record", "Machine") },
  { SW_TABLE_SAMPLE, SW_TABLE_SAMPLING_POINT, "point", NC_ ("part of a record", "Sampling point") },
  { SW_TABLE_SAMPLE, SW_TABLE_FILL, "fill", NC_ ("part of a record", "Solvent fill") },
  { SW_TABLE_SAMPLE, SW_TABLE_PLAN, "plan", NC_ ("part of a record", "Plan") },
  { SW_TABLE_SAMPLE, SW_TABLE_DOSE, "answers_dose", NC_ ("part of a record", "Re-test of dose") },
  { SW_TABLE_READING, SW_TABLE_TITRATION, "titration", NC_ ("part of a record", "Test") },
  { SW_TABLE_READING, SW_TABLE_COLOUR_FIELD, "colour_field", NC_ ("part of a record", "Colour field") },
  { SW_TABLE_DOSE, SW_TABLE_TITRATION, "titration", NC_ ("part of a record", "Test") },
  { SW_TABLE_DOSE, SW_TABLE_INCIDENT, "incident", NC_ ("part of a record", "Incident") },
  { SW_TABLE_DOSE, SW_TABLE_PRODUCT, "product", NC_ ("part of a record", "Product") },
  { SW_TABLE_DOSE, SW_TABLE_LOT, "lot", NC_ ("part of a record", "Lot") },
  { SW_TABLE_INCIDENT, SW_TABLE_MACHINE, "machine", NC_ ("part of a record", "Machine") },
  { SW_TABLE_INCIDENT, SW_TABLE_TITRATION, "opened_by_titration",
    NC_ ("part of a record", "Opened by test") },
  { SW_TABLE_INCIDENT, SW_TABLE_TITRATION, "answered_by_titration",
    NC_ ("part of a record", "Answered by test") },
  { SW_TABLE_DECISION, SW_TABLE_PLAN, "plan", NC_ ("part of a record", "Plan") },
  { SW_TABLE_DECISION, SW_TABLE_TITRATION, "titration", NC_ ("part of a record", "Test") },
  { SW_TABLE_LOT, SW_TABLE_PRODUCT, "product", NC_ ("part of a record", "Product") },
  { SW_TABLE_MACHINE, SW_TABLE_SOLVENT, "solvent", NC_ ("part of a record", "Solvent") },
  { SW_TABLE_MACHINE, SW_TABLE_PRODUCT, "neutraliser", NC_ ("part of a record", "Neutraliser") },
  { SW_TABLE_COMPARTMENT, SW_TABLE_MACHINE, "machine", NC_ ("part of a record", "Machine") },
  { SW_TABLE_SAMPLING_POINT, SW_TABLE_MACHINE, "machine", NC_ ("part of a record", "Machine") },
  { SW_TABLE_FILL, SW_TABLE_MACHINE, "machine", NC_ ("part of a record", "Machine") },
  { SW_TABLE_FILL, SW_TABLE_SOLVENT, "solvent", NC_ ("part of a record", "Solvent") },
  { SW_TABLE_PLAN, SW_TABLE_MACHINE, "machine", NC_ ("part of a record", "Machine") },
  { SW_TABLE_PLAN, SW_TABLE_METHOD, "method", NC_ ("part of a record", "Method") },
  { SW_TABLE_METHOD_VERSION, SW_TABLE_METHOD, "method", NC_ ("part of a record", "Method") },
  { SW_TABLE_METHOD_VERSION, SW_TABLE_PRODUCT, "titrant", NC_ ("part of a record", "Titrant") },
  { SW_TABLE_METHOD_VERSION, SW_TABLE_PRODUCT, "caustic", NC_ ("part of a record", "Caustic") },
  { SW_TABLE_COLOUR_FIELD, SW_TABLE_METHOD_VERSION, "method_version",
    NC_ ("part of a record", "Method") },
  { SW_TABLE_METHOD_TEXT, SW_TABLE_METHOD_VERSION, "method_version",
    NC_ ("part of a record", "Method") },
  { SW_TABLE_CALIBRATION, SW_TABLE_PRODUCT, "product", NC_ ("part of a record", "Product") },
  { SW_TABLE_SIGN_IN, SW_TABLE_PERSON, "person", NC_ ("part of a record", "Person") },
  { SW_TABLE_PERSON, SW_TABLE_PERSON, "secret_given_by", NC_ ("part of a record", "Secret given by") },
};
/* clang-format on */

static void
add_link (GArray *links, const char *relation, int kind, gint64 id)
{
  const SwLink link = { relation, kind, id };

  if (id != 0)
    g_array_append_val (links, link);
}

/* What a column holds now, as the journal has it: the last chapter that speaks of it knows. NULL =
 * nothing. (transfer none) */
static const char *
get_value (GPtrArray *chapters, const char *column)
{
  for (guint i = chapters->len; i > 0; i--)
    {
      const SwChapter *chapter = chapters->pdata[i - 1];

      for (guint j = 0; j < chapter->changes->len; j++)
        {
          const SwChange *change = chapter->changes->pdata[j];
          if (g_str_equal (change->column, column))
            return change->after;
        }
    }
  return NULL;
}

static gint64
get_id (GPtrArray *chapters, const char *column)
{
  const char *text = get_value (chapters, column);

  return text != NULL ? g_ascii_strtoll (text, NULL, 10) : 0;
}

GArray *
sw_record_links_parts (SwContext *context, SwTable table, gint64 id, GPtrArray *chapters)
{
  GArray *links = g_array_new (FALSE, FALSE, sizeof (SwLink));

  /* A person counts the sample to the test, whichever row names the other. */
  if (table == SW_TABLE_TITRATION)
    add_link (links, NC_ ("part of a record", "Sample"), SW_TABLE_SAMPLE,
              get_id (chapters, "sample"));

  for (guint i = 0; i < G_N_ELEMENTS (part_specs); i++)
    {
      const PartSpec *spec = &part_specs[i];
      if (spec->of != table)
        continue;
      g_autoptr (GArray) ids
          = sw_record_ids (sw_context_get_store (context), spec->table, spec->column, id, NULL);
      for (guint j = 0; ids != NULL && j < ids->len; j++)
        add_link (links, spec->relation, (int)spec->table, g_array_index (ids, gint64, j));
    }
  return links;
}

/* A signature names its subject's table in the row. */
static void
add_subject (GArray *links, GPtrArray *chapters)
{
  const char *name = get_value (chapters, "subject_table");

  SwTable table;

  if (name != NULL && sw_table_from_name (name, &table))
    add_link (links, NC_ ("part of a record", "Signed"), (int)table, get_id (chapters, "subject"));
}

GArray *
sw_record_links_owners (SwTable table, GPtrArray *chapters)
{
  GArray *links = g_array_new (FALSE, FALSE, sizeof (SwLink));

  for (guint i = 0; i < G_N_ELEMENTS (owner_specs); i++)
    if (owner_specs[i].of == table)
      add_link (links, owner_specs[i].relation, (int)owner_specs[i].table,
                get_id (chapters, owner_specs[i].column));
  if (table == SW_TABLE_REVIEW)
    add_subject (links, chapters);
  return links;
}
