/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheet of machines: what the plant is now. What was in force at a test or a dose stands with it.
 */
#include "reports/sheet-private.h"

#include <glib/gi18n.h>

typedef SwMachine ROW_0;

/* Empty where a machine has no compartment on file. */
static SwQuantity
get_volume (const SwSheetRow *row)
{
  const SwMachine *machine = row->record[0];
  SwSheetContext *context = row->context;
  SwQuantity volume = SW_UNKNOWN;
  gboolean complete;

  if (context->error == NULL)
    sw_machine_volume (context->store, machine->record.id, &volume, &complete, &context->error);
  return volume;
}

static void
get_system (const SwSheetRow *row, SwSheetValue *value)
{
  value->kind = SW_VALUE_NUMBER;
  value->number = get_volume (row).value;
}

static void
get_system_u (const SwSheetRow *row, SwSheetValue *value)
{
  const SwQuantity volume = get_volume (row);

  value->kind = sw_quantity_is_known (volume) ? SW_VALUE_NUMBER : SW_VALUE_EMPTY;
  value->number = volume.u;
}

static void
get_service (const SwSheetRow *row, SwSheetValue *value)
{
  const SwMachine *machine = row->record[0];

  value->kind = SW_VALUE_TEXT;
  value->text = sw_word_service (row->context->wording, machine->service);
}

static const SwSheetColumn columns[] = {
  SW_TEXT (NC_ ("column", "Machine"), 12, 0, tag),
  SW_TEXT (NC_ ("column", "Name"), 22, 0, name),
  SW_TEXT (NC_ ("column", "Area"), 18, 0, area),
  SW_GET (NC_ ("column", "Service"), SW_UNIT_NONE, 12, get_service),
  SW_NAME (NC_ ("column", "Solvent"), 24, 0, solvent, SW_TABLE_SOLVENT),
  SW_NAME (NC_ ("column", "Neutraliser"), 24, 0, neutraliser, SW_TABLE_PRODUCT),
  SW_GET (NC_ ("column", "System volume"), SW_UNIT_LITRE, 11, get_system),
  SW_GET (NC_ ("column", "Its standard uncertainty"), SW_UNIT_LITRE, 12, get_system_u),
  SW_NUMBER (NC_ ("column", "Chamber"), SW_UNIT_LITRE, 0, chamber_l),
  SW_TEXT (NC_ ("column", "Dosing place"), 26, 0, dosing_place),
  SW_NUMBER (NC_ ("column", "Circulation time"), SW_UNIT_MINUTE, 0, circulation_min),
  SW_NUMBER (NC_ ("column", "Marks of the jug"), SW_UNIT_ML, 0, graduation.value),
  SW_NUMBER (NC_ ("column", "Reserve, low mark, steps"), SW_UNIT_NONE, 0, reserve_low),
  SW_NUMBER (NC_ ("column", "Reserve, high mark, steps"), SW_UNIT_NONE, 0, reserve_high),
  SW_TIME (NC_ ("column", "On file since"), 0, record.happened_ms),
  SW_BOOLEAN (NC_ ("column", "Voided"), 0, record.voided),
  SW_ID (NC_ ("column", "Row"), 0, record.id),
  SW_ID (NC_ ("column", "Journal row"), 0, record.journal_seq),
};

const SwSheet sw_sheet_machines = {
  .name = NC_ ("sheet", "Machines"),
  .columns = columns,
  .n_columns = G_N_ELEMENTS (columns),
  .sources = { { .table = SW_TABLE_MACHINE,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_machine_load,
                 .free = (GDestroyNotify)sw_machine_free } },
  .frozen = 1,
};
