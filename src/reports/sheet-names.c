/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the rows that others refer to are called: loaded once per export. */
#include "reports/sheet-private.h"

static char *
name_version (SwSheetContext *context, gint64 id)
{
  g_autoptr (SwMethodVersion) version
      = sw_method_version_load (context->store, id, &context->error);
  const char *method;

  if (version == NULL)
    return NULL;
  method = sw_sheet_name (context, SW_TABLE_METHOD, version->method);
  /* Translators: 1 name of a test method, 2 number of its version. */
  return g_strdup_printf (sw_tr (context->wording, "%1$s, version %2$d"), method, version->version);
}

/* Loads a row, copies one text, frees it. */
#define NAME_BY(Type, prefix, member)                                                              \
  {                                                                                                \
    g_autoptr (Type) record = prefix##_load (context->store, id, &context->error);                 \
    return record != NULL ? g_strdup (record->member != NULL ? record->member : "") : NULL;        \
  }

static char *
load_name (SwSheetContext *context, SwTable table, gint64 id)
{
  switch (table)
    {
    case SW_TABLE_PERSON:
      NAME_BY (SwPerson, sw_person, name);
    case SW_TABLE_SOLVENT:
      NAME_BY (SwSolvent, sw_solvent, name);
    case SW_TABLE_PRODUCT:
      NAME_BY (SwProduct, sw_product, name);
    case SW_TABLE_LOT:
      NAME_BY (SwLot, sw_lot, code);
    case SW_TABLE_MACHINE:
      NAME_BY (SwMachine, sw_machine, tag);
    case SW_TABLE_SAMPLING_POINT:
      NAME_BY (SwSamplingPoint, sw_sampling_point, name);
    case SW_TABLE_METHOD:
      NAME_BY (SwMethod, sw_method, name);
    case SW_TABLE_METHOD_VERSION:
      return name_version (context, id);
    case SW_TABLE_COLOUR_FIELD:
      NAME_BY (SwColourField, sw_colour_field, label);
    case SW_TABLE_CALIBRATION:
      NAME_BY (SwCalibration, sw_calibration, dropper);
    case SW_TABLE_SAMPLE:
      NAME_BY (SwSample, sw_sample, code);
    default:
      g_return_val_if_reached (NULL);
    }
}

const char *
sw_sheet_name (SwSheetContext *context, SwTable table, gint64 id)
{
  /* ids are row numbers, far below 2^56 */
  const gint64 key = ((gint64)table << 56) | id;
  char *name;

  if (id == 0 || context->error != NULL)
    return "";
  name = g_hash_table_lookup (context->names, &key);
  if (name != NULL)
    return name;
  name = load_name (context, table, id);
  if (name == NULL)
    return "";
  g_hash_table_insert (context->names, g_memdup2 (&key, sizeof key), name);
  return name;
}
