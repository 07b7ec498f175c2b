/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Questions about the plant: site, system volume, present fill, settings. */
#include "records/plant.h"
#include "records/store-private.h"

#define SITE_ROW 1

SwSite *
sw_site_get (SwStore *store, GError **error)
{
  return sw_site_load (store, SITE_ROW, error);
}

/* Sum and root of the sum of squares; a compartment without an uncertainty counts as 0. */
gboolean
sw_machine_volume (
    SwStore *store, gint64 machine, SwQuantity *system_l, gboolean *complete, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_COMPARTMENT, "machine", machine, error);
  double sum = 0.0;
  double squares = 0.0;
  gboolean all = TRUE;

  g_return_val_if_fail (system_l != NULL, FALSE);
  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwCompartment) compartment
          = sw_compartment_load (store, g_array_index (ids, gint64, i), error);

      if (compartment == NULL)
        return FALSE;
      sum += compartment->volume.value;
      if (isnan (compartment->volume_u_l))
        all = FALSE;
      else
        squares += compartment->volume_u_l * compartment->volume_u_l;
    }
  *system_l = SW_UNKNOWN;
  /* A compartment without a volume makes the sum NAN, which is what it is: unknown. */
  if (ids->len > 0 && !isnan (sum))
    *system_l = (SwQuantity){ .value = sum, .u = sqrt (squares), .freedom = INFINITY };
  if (complete != NULL)
    *complete = all && ids->len > 0;
  return TRUE;
}

gint64
sw_machine_fill (SwStore *store, gint64 machine, GError **error)
{
  const SwCell key = sw_cell_integer (machine);
  gint64 id = 0;

  sw_sql_integer (store,
                  "SELECT id FROM fill WHERE machine = ? AND ended_ms IS NULL AND voided = 0"
                  " ORDER BY happened_ms DESC, id DESC LIMIT 1",
                  &key, 1, &id, error);
  return id;
}

/* Voided ones too: the name is unique in the file. */
static gboolean
find_setting (SwStore *store, const char *name, gint64 *id, GError **error)
{
  const SwCell key = sw_cell_text (name);

  return sw_sql_integer (store, "SELECT id FROM setting WHERE name = ?", &key, 1, id, error);
}

char *
sw_setting_dup (SwStore *store, const char *name, GError **error)
{
  const SwCell key = sw_cell_text (name);
  char *value = NULL;

  g_return_val_if_fail (store != NULL && name != NULL, NULL);
  sw_sql_text (store, "SELECT value FROM setting WHERE name = ? AND voided = 0", &key, 1, &value,
               error);
  return value;
}

gboolean
sw_setting_put (SwStore *store, const char *name, const char *value, GError **error)
{
  g_autoptr (SwSetting) setting = NULL;
  gint64 id;

  g_return_val_if_fail (store != NULL && name != NULL, FALSE);
  if (!find_setting (store, name, &id, error))
    return FALSE;
  setting = id != 0 ? sw_setting_load (store, id, error) : sw_setting_new ();
  if (setting == NULL)
    return FALSE;
  g_free (setting->value);
  setting->value = g_strdup (value);
  if (id != 0)
    return sw_setting_update (store, setting, error);
  setting->name = g_strdup (name);
  return sw_setting_insert (store, setting, error);
}
