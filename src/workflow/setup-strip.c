/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colour fields of a method as the site's own strips show them. */
#include "workflow/setup-private.h"

#include "workflow/guided.h"

static gboolean
is_swatch (const char *text)
{
  if (text == NULL || text[0] != '#')
    return FALSE;
  for (int i = 1; i <= 6; i++)
    if (!g_ascii_isxdigit (text[i]))
      return FALSE;
  return text[7] == '\0';
}

static gboolean
check_field (const SwColourField *field, GError **error)
{
  SwFault fault = {
    .code = SW_FAULT_TEXT, .quantity = SW_QUANTITY_CODE, .value = NAN, .typed = field->swatch
  };

  return sw_check_text (SW_QUANTITY_NAME, field->label, SW_LONGEST_NAME, error)
         && (is_swatch (field->swatch) || sw_fault_set (error, &fault));
}

/* A version never changes once a titration uses it (records/method.h). */
static gboolean
check_unused (SwStore *store, gint64 version, GError **error)
{
  const SwFact refusal = sw_fact (SW_FACT_NOT_FROM_HERE);
  g_autoptr (GArray) ids
      = sw_record_ids (store, SW_TABLE_TITRATION, "method_version", version, error);

  if (ids == NULL)
    return FALSE;
  return ids->len == 0 || sw_workflow_refuse (error, &refusal);
}

/* Only label and swatch are taken: what a field means is the method's. */
static gboolean
write_field (SwStore *store, const SwColourField *field, GError **error)
{
  g_autoptr (SwColourField) stored = sw_colour_field_load (store, field->record.id, error);

  if (stored == NULL)
    return FALSE;
  g_free (stored->label);
  stored->label = g_strstrip (g_strdup (field->label));
  g_free (stored->swatch);
  stored->swatch = g_ascii_strup (field->swatch, -1);
  return sw_colour_field_update (store, stored, error);
}

gboolean
sw_setup_colour_fields (SwStore *store, const SwActor *actor, GPtrArray *fields, GError **error)
{
  GError *failure = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL && fields != NULL, FALSE);
  for (guint i = 0; i < fields->len; i++)
    {
      const SwColourField *field = g_ptr_array_index (fields, i);

      if (!check_field (field, error) || !check_unused (store, field->method_version, error))
        return FALSE;
    }
  if (!sw_setup_begin (store, actor, 0, SW_RIGHT_SET_UP, error))
    return FALSE;
  for (guint i = 0; i < fields->len && failure == NULL; i++)
    write_field (store, g_ptr_array_index (fields, i), &failure);
  return sw_setup_end (store, failure, SW_QUANTITY_NONE, error);
}
