/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Questions about methods: newest version, texts, calibration in force, solvent families. */
#include "records/method.h"
#include "records/store-private.h"

#include <string.h>

gint64
sw_method_latest_version (SwStore *store, gint64 method, GError **error)
{
  const SwCell key = sw_cell_integer (method);
  gint64 id = 0;

  sw_sql_integer (store,
                  "SELECT id FROM method_version WHERE method = ? AND voided = 0"
                  " ORDER BY version DESC LIMIT 1",
                  &key, 1, &id, error);
  return id;
}

gint64
sw_calibration_in_force (SwStore *store, gint64 product, gint64 at_ms, GError **error)
{
  const SwCell keys[] = { sw_cell_integer (product), sw_cell_integer (at_ms) };
  gint64 id = 0;

  sw_sql_integer (store,
                  "SELECT id FROM calibration WHERE product = ? AND happened_ms <= ? AND voided = 0"
                  " ORDER BY happened_ms DESC, id DESC LIMIT 1",
                  keys, G_N_ELEMENTS (keys), &id, error);
  return id;
}

static gboolean
find_text (SwStore *store,
           gint64 version,
           const char *step,
           const char *language,
           char **text,
           GError **error)
{
  const SwCell keys[] = { sw_cell_integer (version), sw_cell_text (step), sw_cell_text (language) };

  return sw_sql_text (store,
                      "SELECT text FROM method_text WHERE method_version = ? AND step = ?"
                      " AND language = ? AND voided = 0",
                      keys, G_N_ELEMENTS (keys), text, error);
}

/* "de_AT", then "de", then "en". */
char *
sw_method_text_dup (
    SwStore *store, gint64 version, const char *step, const char *language, GError **error)
{
  g_autofree char *base = NULL;
  const char *tries[3] = { language, NULL, "en" };
  char *text = NULL;

  g_return_val_if_fail (store != NULL && step != NULL, NULL);
  if (language != NULL)
    {
      base = g_strndup (language, strcspn (language, "_-.@"));
      tries[1] = base;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (tries) && text == NULL; i++)
    if (tries[i] != NULL && !find_text (store, version, step, tries[i], &text, error))
      return NULL;
  return text;
}

gboolean
sw_method_version_suits (const SwMethodVersion *version, SwFamily family)
{
  g_return_val_if_fail (version != NULL, FALSE);

  switch (family)
    {
    case SW_FAMILY_HYDROCARBON:
      return version->for_hydrocarbon;
    case SW_FAMILY_MODIFIED_ALCOHOL:
      return version->for_modified_alcohol;
    case SW_FAMILY_CHLORINATED:
      /* Whatever the flag says: caustic with some chlorinated solvents is dangerous. */
      return version->for_chlorinated && version->caustic == 0;
    case SW_FAMILY_OTHER:
      return version->for_other;
    case SW_N_FAMILIES:
    default:
      return FALSE;
    }
}
