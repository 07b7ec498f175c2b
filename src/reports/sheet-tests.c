/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheet of tests: one row per portion titrated, with all that its result depends on. */
#include "reports/sheet-private.h"
#include "wording/sentence.h"

#include <glib/gi18n.h>

typedef SwTitration ROW_0;
typedef SwSample ROW_1;

static void
say (SwSheetValue *value, const char *word)
{
  value->kind = SW_VALUE_TEXT;
  value->text = word;
}

static void
get_purpose (const SwSheetRow *row, SwSheetValue *value)
{
  const SwSample *sample = row->record[1];

  say (value, sw_word_purpose (row->context->wording, sample->purpose));
}

static void
get_running (const SwSheetRow *row, SwSheetValue *value)
{
  const SwSample *sample = row->record[1];

  say (value, sw_word_answer (row->context->wording, sample->running));
}

static void
get_level_ok (const SwSheetRow *row, SwSheetValue *value)
{
  const SwSample *sample = row->record[1];

  say (value, sw_word_answer (row->context->wording, sample->level_ok));
}

static void
get_added_since (const SwSheetRow *row, SwSheetValue *value)
{
  const SwSample *sample = row->record[1];

  say (value, sw_word_answer (row->context->wording, sample->added_since));
}

static void
get_outcome (const SwSheetRow *row, SwSheetValue *value)
{
  const SwTitration *titration = row->record[0];

  say (value, sw_say_outcome (row->context->wording, titration->outcome));
}

static void
get_step (const SwSheetRow *row, SwSheetValue *value)
{
  const SwTitration *titration = row->record[0];

  say (value, sw_word_step (row->context->wording, titration->step));
}

/* A caustic addition that does not count is the test's threshold: so much acid passes unseen. */
static void
get_unseen (const SwSheetRow *row, SwSheetValue *value)
{
  const SwTitration *titration = row->record[0];

  if (titration->caustic_counts || !(titration->caustic_mmol > 0.0))
    return;
  value->kind = SW_VALUE_NUMBER;
  value->number = 1000.0 * titration->caustic_mmol / titration->portion_volume.value;
}

static void
get_voided (const SwSheetRow *row, SwSheetValue *value)
{
  const SwTitration *titration = row->record[0];
  const SwSample *sample = row->record[1];

  value->kind = SW_VALUE_BOOLEAN;
  value->integer = titration->record.voided || sample->record.voided;
}

static const SwSheetColumn columns[] = {
  SW_TEXT (NC_ ("column", "Sample"), 18, 1, code),
  SW_NAME (NC_ ("column", "Machine"), 10, 1, machine, SW_TABLE_MACHINE),
  SW_TIME (NC_ ("column", "Drawn"), 1, record.happened_ms),
  SW_GET (NC_ ("column", "Outcome"), SW_UNIT_NONE, 14, get_outcome),
  SW_NUMBER (NC_ ("column", "Net acid above, steps"), SW_UNIT_NONE, 0, net_low),
  SW_NUMBER (NC_ ("column", "Net acid up to, steps"), SW_UNIT_NONE, 0, net_high),
  SW_NUMBER (NC_ ("column", "Last acid reading, steps"), SW_UNIT_NONE, 0, acid_at),
  SW_NUMBER (NC_ ("column", "First pass, steps"), SW_UNIT_NONE, 0, pass_at),
  SW_GET (NC_ ("column", "Acid that passes unseen"), SW_UNIT_MMOL_PER_L, 12, get_unseen),
  SW_GET (NC_ ("column", "Purpose"), SW_UNIT_NONE, 11, get_purpose),
  SW_NAME (NC_ ("column", "Sampling point"), 24, 1, point, SW_TABLE_SAMPLING_POINT),
  SW_NAME (NC_ ("column", "Drawn by"), 16, 1, drawn_by, SW_TABLE_PERSON),
  SW_NUMBER (NC_ ("column", "Drawn volume"), SW_UNIT_ML, 1, volume.value),
  SW_NUMBER (NC_ ("column", "Temperature"), SW_UNIT_CELSIUS, 1, temperature.value),
  SW_TEXT (NC_ ("column", "Appearance"), 18, 1, appearance),
  SW_GET (NC_ ("column", "Machine was running"), SW_UNIT_NONE, 11, get_running),
  SW_GET (NC_ ("column", "Level was right"), SW_UNIT_NONE, 11, get_level_ok),
  SW_GET (NC_ ("column", "Added since the last record"), SW_UNIT_NONE, 12, get_added_since),
  SW_BOOLEAN (NC_ ("column", "Part retained"), 1, retained),
  SW_TEXT (NC_ ("column", "Remarks"), 28, 1, remarks),
  SW_INTEGER (NC_ ("column", "Portion"), 0, portion),
  SW_NAME (NC_ ("column", "Method"), 30, 0, method_version, SW_TABLE_METHOD_VERSION),
  SW_NAME (NC_ ("column", "Analyst"), 16, 0, analyst, SW_TABLE_PERSON),
  SW_NAME (NC_ ("column", "Second reader"), 16, 0, second_reader, SW_TABLE_PERSON),
  SW_NAME (NC_ ("column", "Titrant lot"), 14, 0, titrant_lot, SW_TABLE_LOT),
  SW_NAME (NC_ ("column", "Caustic lot"), 14, 0, caustic_lot, SW_TABLE_LOT),
  SW_NAME (NC_ ("column", "Strip lot"), 14, 0, strip_lot, SW_TABLE_LOT),
  SW_TEXT (NC_ ("column", "Reason for an expired lot"), 20, 0, lot_reason),
  SW_NUMBER (NC_ ("column", "Sample volume"), SW_UNIT_ML, 0, portion_volume.value),
  SW_NUMBER (NC_ ("column", "Its standard uncertainty"), SW_UNIT_ML, 0, portion_u_ml),
  SW_NAME (NC_ ("column", "Dropper"), 14, 0, calibration, SW_TABLE_CALIBRATION),
  SW_NUMBER (NC_ ("column", "Drop volume"), SW_UNIT_ML, 0, step_ml),
  SW_NUMBER (NC_ ("column", "Its standard uncertainty"), SW_UNIT_ML, 0, step_u_ml),
  SW_NUMBER (NC_ ("column", "Titrant strength"), SW_UNIT_MMOL_PER_ML, 0, titrant_mmol_ml),
  SW_NUMBER (NC_ ("column", "Its standard uncertainty"), SW_UNIT_MMOL_PER_ML, 0, titrant_u_mmol_ml),
  SW_NUMBER (NC_ ("column", "Caustic addition"), SW_UNIT_MMOL, 0, caustic_mmol),
  SW_BOOLEAN (NC_ ("column", "Caustic addition counts"), 0, caustic_counts),
  SW_NUMBER (NC_ ("column", "Blank, steps"), SW_UNIT_NONE, 0, blank),
  SW_NUMBER (NC_ ("column", "Last step allowed"), SW_UNIT_NONE, 0, maximum),
  SW_GET (NC_ ("column", "Stands at"), SW_UNIT_NONE, 14, get_step),
  SW_TIME (NC_ ("column", "Begun"), 0, record.happened_ms),
  SW_TIME (NC_ ("column", "Outcome accepted"), 0, closed_ms),
  SW_TIME (NC_ ("column", "Signed"), 0, signed_ms),
  SW_TIME (NC_ ("column", "Ended"), 0, ended_ms),
  SW_TEXT (NC_ ("column", "Reason of the end"), 24, 0, end_reason),
  SW_INTEGER (NC_ ("column", "Version of the calculation"), 0, calc_version),
  SW_BOOLEAN (NC_ ("column", "Recorded late"), 1, record.late),
  SW_GET (NC_ ("column", "Voided"), SW_UNIT_NONE, 11, get_voided),
  SW_ID (NC_ ("column", "Row"), 0, record.id),
  SW_ID (NC_ ("column", "Journal row"), 0, record.journal_seq),
};

const SwSheet sw_sheet_tests = {
  .name = NC_ ("sheet", "Tests"),
  .columns = columns,
  .n_columns = G_N_ELEMENTS (columns),
  .sources = { { .table = SW_TABLE_TITRATION,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_titration_load,
                 .free = (GDestroyNotify)sw_titration_free },
               { .table = SW_TABLE_SAMPLE,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_sample_load,
                 .free = (GDestroyNotify)sw_sample_free,
                 .link = G_STRUCT_OFFSET (SwTitration, sample) } },
  .frozen = 1,
};
