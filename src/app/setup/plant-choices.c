/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records to choose from in forms. A row that cannot be read is shown as its number: the form says
 * what is wrong when it is saved. */
#include "app/setup/plant-choices.h"

static GArray *
ids_of (SwContext *context, SwTable table, GError **error)
{
  return sw_record_ids (sw_context_get_store (context), table, NULL, 0, error);
}

static GArray *
products_for (SwContext *context, SwProductUse use, GError **error)
{
  return sw_record_ids (sw_context_get_store (context), SW_TABLE_PRODUCT, "use", use, error);
}

GArray *
sw_choose_solvents (SwContext *context, GError **error)
{
  return ids_of (context, SW_TABLE_SOLVENT, error);
}

GArray *
sw_choose_products (SwContext *context, GError **error)
{
  return ids_of (context, SW_TABLE_PRODUCT, error);
}

GArray *
sw_choose_neutralisers (SwContext *context, GError **error)
{
  return products_for (context, SW_PRODUCT_NEUTRALISER, error);
}

GArray *
sw_choose_caustics (SwContext *context, GError **error)
{
  return products_for (context, SW_PRODUCT_CAUSTIC, error);
}

GArray *
sw_choose_bench_titrants (SwContext *context, GError **error)
{
  return products_for (context, SW_PRODUCT_TITRANT, error);
}

/* An epoxide turns no strip: it is no titrant (1-job). */
static gboolean
is_epoxide (SwContext *context, gint64 id)
{
  g_autoptr (SwProduct) row = sw_product_load (sw_context_get_store (context), id, NULL);

  return row != NULL && row->kind == SW_NEUTRALISER_EPOXIDE;
}

GArray *
sw_choose_titrants (SwContext *context, GError **error)
{
  g_autoptr (GArray) ids = products_for (context, SW_PRODUCT_NEUTRALISER, error);
  g_autoptr (GArray) more = NULL;

  if (ids == NULL)
    return NULL;
  for (guint i = ids->len; i-- > 0;)
    if (is_epoxide (context, g_array_index (ids, gint64, i)))
      g_array_remove_index (ids, i);
  more = products_for (context, SW_PRODUCT_TITRANT, error);
  if (more == NULL)
    return NULL;
  g_array_append_vals (ids, more->data, more->len);
  return g_steal_pointer (&ids);
}

GArray *
sw_choose_methods (SwContext *context, GError **error)
{
  return ids_of (context, SW_TABLE_METHOD, error);
}

/* @name NULL: the number, so that the choice can still be told from others. */
static char *
name_or_number (const char *name, gint64 id)
{
  return name != NULL ? g_strdup (name) : g_strdup_printf ("#%" G_GINT64_FORMAT, id);
}

char *
sw_choice_solvent (SwContext *context, gint64 id)
{
  g_autoptr (SwSolvent) row = sw_solvent_load (sw_context_get_store (context), id, NULL);

  return name_or_number (row != NULL ? row->name : NULL, id);
}

char *
sw_choice_product (SwContext *context, gint64 id)
{
  g_autoptr (SwProduct) row = sw_product_load (sw_context_get_store (context), id, NULL);

  return name_or_number (row != NULL ? row->name : NULL, id);
}

char *
sw_choice_method (SwContext *context, gint64 id)
{
  g_autoptr (SwMethod) row = sw_method_load (sw_context_get_store (context), id, NULL);

  return name_or_number (row != NULL ? row->name : NULL, id);
}

gulong
sw_count_uses (SwContext *context, SwTable table, const char *const *columns, gint64 id)
{
  gulong n = 0;

  for (; *columns != NULL; columns++)
    {
      g_autoptr (GArray) ids
          = sw_record_ids (sw_context_get_store (context), table, *columns, id, NULL);

      n += ids != NULL ? ids->len : 0;
    }
  return n;
}

gboolean
sw_is_out_of_use (SwContext *context, SwTable table, gint64 id)
{
  g_autoptr (GArray) ids = sw_record_voided_ids (sw_context_get_store (context), table, NULL);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (g_array_index (ids, gint64, i) == id)
      return TRUE;
  return FALSE;
}
