/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheet of readings: each strip as it was read; struck ones stay. */
#include "reports/sheet-private.h"
#include "wording/sentence.h"

#include <glib/gi18n.h>

typedef SwReadingRow ROW_0;
typedef SwTitration ROW_1;
typedef SwSample ROW_2;

static void
get_meaning (const SwSheetRow *row, SwSheetValue *value)
{
  const SwReadingRow *reading = row->record[0];

  value->kind = SW_VALUE_TEXT;
  value->text = sw_say_field (row->context->wording, reading->meaning);
}

static void
get_voided (const SwSheetRow *row, SwSheetValue *value)
{
  const SwReadingRow *reading = row->record[0];
  const SwTitration *titration = row->record[1];
  const SwSample *sample = row->record[2];

  value->kind = SW_VALUE_BOOLEAN;
  value->integer = reading->record.voided || titration->record.voided || sample->record.voided;
}

static const SwSheetColumn columns[] = {
  SW_TEXT (NC_ ("column", "Sample"), 18, 2, code),
  SW_INTEGER (NC_ ("column", "Portion"), 1, portion),
  SW_INTEGER (NC_ ("column", "Reading"), 0, ordinal),
  SW_NAME (NC_ ("column", "Machine"), 10, 2, machine, SW_TABLE_MACHINE),
  SW_TIME (NC_ ("column", "Read"), 0, record.happened_ms),
  SW_NUMBER (NC_ ("column", "Added so far, steps"), SW_UNIT_NONE, 0, total),
  SW_NAME (NC_ ("column", "Colour seen"), 14, 0, colour_field, SW_TABLE_COLOUR_FIELD),
  SW_GET (NC_ ("column", "Meaning"), SW_UNIT_NONE, 12, get_meaning),
  SW_BOOLEAN (NC_ ("column", "Struck out"), 0, struck),
  SW_BOOLEAN (NC_ ("column", "Never went in"), 0, not_added),
  SW_TEXT (NC_ ("column", "Reason for striking"), 26, 0, struck_reason),
  SW_NAME (NC_ ("column", "Reader"), 16, 0, reader, SW_TABLE_PERSON),
  SW_BOOLEAN (NC_ ("column", "Recorded late"), 0, record.late),
  SW_GET (NC_ ("column", "Voided"), SW_UNIT_NONE, 11, get_voided),
  SW_ID (NC_ ("column", "Row"), 0, record.id),
  SW_ID (NC_ ("column", "Journal row"), 0, record.journal_seq),
};

const SwSheet sw_sheet_readings = {
  .name = NC_ ("sheet", "Readings"),
  .columns = columns,
  .n_columns = G_N_ELEMENTS (columns),
  .sources = { { .table = SW_TABLE_READING,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_reading_row_load,
                 .free = (GDestroyNotify)sw_reading_row_free },
               { .table = SW_TABLE_TITRATION,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_titration_load,
                 .free = (GDestroyNotify)sw_titration_free,
                 .link = G_STRUCT_OFFSET (SwReadingRow, titration) },
               { .table = SW_TABLE_SAMPLE,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_sample_load,
                 .free = (GDestroyNotify)sw_sample_free,
                 .link = G_STRUCT_OFFSET (SwTitration, sample) } },
  .frozen = 3,
};
