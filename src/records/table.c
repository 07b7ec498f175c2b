/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds a table's descriptor, and gives every record type its functions. */
#include "records/method.h"
#include "records/plant.h"
#include "records/row-private.h"
#include "records/test.h"
#include "records/trust.h"

#include <string.h>

/* Enums and gboolean are read and written as int through the descriptors. */
G_STATIC_ASSERT (sizeof (SwRole) == sizeof (int));
G_STATIC_ASSERT (sizeof (gboolean) == sizeof (int));

const SwTableInfo *
sw_table_info (SwTable table)
{
  g_return_val_if_fail ((int)table >= 0 && table < SW_N_TABLES, NULL);
  if (table >= SW_TABLE_SIGN_IN)
    return &sw_trust_tables[table - SW_TABLE_SIGN_IN];
  if (table == SW_TABLE_SETTING)
    return &sw_plant_tables[SW_TABLE_FILL + 1];
  if (table >= SW_TABLE_SAMPLE)
    return &sw_test_tables[table - SW_TABLE_SAMPLE];
  if (table >= SW_TABLE_METHOD)
    return &sw_method_tables[table - SW_TABLE_METHOD];
  return &sw_plant_tables[table];
}

const char *
sw_table_name (SwTable table)
{
  const SwTableInfo *info = sw_table_info (table);

  return info != NULL ? info->name : NULL;
}

gboolean
sw_table_from_name (const char *name, SwTable *table)
{
  for (int i = 0; i < SW_N_TABLES; i++)
    if (strcmp (name, sw_table_info ((SwTable)i)->name) == 0)
      {
        *table = (SwTable)i;
        return TRUE;
      }
  return FALSE;
}

const SwColumn *
sw_table_find_column (const SwTableInfo *info, const char *name)
{
  for (guint i = 0; i < sw_table_n_columns (info); i++)
    if (strcmp (sw_table_column (info, i)->name, name) == 0)
      return sw_table_column (info, i);
  return NULL;
}

const char *
sw_column_word (const SwColumn *column, gint64 value)
{
  for (int i = 0; column->words[i] != NULL; i++)
    if (i == value)
      return column->words[i];
  return NULL;
}

#define DEFINE_RECORD(Type, prefix, TABLE)                                                         \
  G_STATIC_ASSERT (G_STRUCT_OFFSET (Type, record) == 0);                                           \
  Type *prefix##_new (void) { return sw_row_new (TABLE); }                                         \
  void prefix##_free (Type *record) { sw_row_free (TABLE, record); }                               \
  Type *prefix##_copy (const Type *record) { return sw_row_copy (TABLE, record); }                 \
  Type *prefix##_load (SwStore *store, gint64 id, GError **error)                                  \
  {                                                                                                \
    return sw_row_load (store, TABLE, id, error);                                                  \
  }                                                                                                \
  gboolean prefix##_insert (SwStore *store, Type *record, GError **error)                          \
  {                                                                                                \
    return sw_row_insert (store, TABLE, record, error);                                            \
  }                                                                                                \
  gboolean prefix##_update (SwStore *store, Type *record, GError **error)                          \
  {                                                                                                \
    return sw_row_update (store, TABLE, record, error);                                            \
  }

DEFINE_RECORD (SwSite, sw_site, SW_TABLE_SITE)
DEFINE_RECORD (SwPerson, sw_person, SW_TABLE_PERSON)
DEFINE_RECORD (SwSolvent, sw_solvent, SW_TABLE_SOLVENT)
DEFINE_RECORD (SwProduct, sw_product, SW_TABLE_PRODUCT)
DEFINE_RECORD (SwLot, sw_lot, SW_TABLE_LOT)
DEFINE_RECORD (SwMachine, sw_machine, SW_TABLE_MACHINE)
DEFINE_RECORD (SwCompartment, sw_compartment, SW_TABLE_COMPARTMENT)
DEFINE_RECORD (SwSamplingPoint, sw_sampling_point, SW_TABLE_SAMPLING_POINT)
DEFINE_RECORD (SwFill, sw_fill, SW_TABLE_FILL)
DEFINE_RECORD (SwMethod, sw_method, SW_TABLE_METHOD)
DEFINE_RECORD (SwMethodVersion, sw_method_version, SW_TABLE_METHOD_VERSION)
DEFINE_RECORD (SwColourField, sw_colour_field, SW_TABLE_COLOUR_FIELD)
DEFINE_RECORD (SwMethodText, sw_method_text, SW_TABLE_METHOD_TEXT)
DEFINE_RECORD (SwCalibration, sw_calibration, SW_TABLE_CALIBRATION)
DEFINE_RECORD (SwPlan, sw_plan, SW_TABLE_PLAN)
DEFINE_RECORD (SwSample, sw_sample, SW_TABLE_SAMPLE)
DEFINE_RECORD (SwTitration, sw_titration, SW_TABLE_TITRATION)
DEFINE_RECORD (SwReadingRow, sw_reading_row, SW_TABLE_READING)
DEFINE_RECORD (SwDoseRow, sw_dose_row, SW_TABLE_DOSE)
DEFINE_RECORD (SwIncident, sw_incident, SW_TABLE_INCIDENT)
DEFINE_RECORD (SwReview, sw_review, SW_TABLE_REVIEW)
DEFINE_RECORD (SwDecision, sw_decision, SW_TABLE_DECISION)
DEFINE_RECORD (SwSetting, sw_setting, SW_TABLE_SETTING)
DEFINE_RECORD (SwSignIn, sw_sign_in, SW_TABLE_SIGN_IN)
DEFINE_RECORD (SwCheckpoint, sw_checkpoint, SW_TABLE_CHECKPOINT)
DEFINE_RECORD (SwRestoration, sw_restoration, SW_TABLE_RESTORATION)
