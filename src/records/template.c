/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method templates: method files shipped with the program, copied into rows when adopted. From then
 * on only the rows count; a later change of the file changes no site.
 */
#include "calc/fault.h"
#include "records/store-private.h"
#include "records/template-private.h"

#include "data/records-data.h"

#define METHOD_FOLDER "/org/stillwarden/records/methods/"

static const char *const template_names[]
    = { "drop-test-neutraliser", "drop-test-caustic", "reserve-drop-test", NULL };

const char *const *
sw_method_template_names (void)
{
  return template_names;
}

/* (transfer full) */
static SwTemplate *
load_template (const char *name, GError **error)
{
  g_autofree char *path = g_strconcat (METHOD_FOLDER, name, ".ini", NULL);
  g_autoptr (GBytes) bytes = g_resource_lookup_data (records_data_get_resource (), path,
                                                     G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  if (bytes != NULL)
    return sw_template_parse (bytes, error);
  g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NOT_FOUND,
               "there is no method template \"%s\"", name);
  return NULL;
}

/* The quantity maps to the field of the page where the product is picked. */
static gboolean
refuse_product (SwFaultCode code, SwQuantityName quantity, GError **error)
{
  const SwFault fault
      = { .code = code, .quantity = quantity, .value = NAN, .low = -INFINITY, .high = INFINITY };

  return sw_fault_set (error, &fault);
}

/* A product whose use is one of two; @which names it in the fault. */
static gboolean
check_use (SwStore *store,
           gint64 id,
           SwProductUse one,
           SwProductUse other,
           SwQuantityName which,
           GError **error)
{
  g_autoptr (SwProduct) product = NULL;

  if (id == 0)
    return refuse_product (SW_FAULT_MISSING, which, error);
  product = sw_product_load (store, id, error);
  if (product == NULL)
    return FALSE;
  if (product->use != one && product->use != other)
    return refuse_product (SW_FAULT_COMBINATION, which, error);
  return TRUE;
}

static gboolean
check_products (
    SwStore *store, const SwTemplate *template, gint64 titrant, gint64 caustic, GError **error)
{
  gboolean acid = template->version->direction == SW_DIRECTION_ACID;

  /* A neutraliser is a base: it cannot measure a reserve. */
  if (!check_use (store, titrant, SW_PRODUCT_TITRANT,
                  acid ? SW_PRODUCT_TITRANT : SW_PRODUCT_NEUTRALISER, SW_QUANTITY_TITRANT_STRENGTH,
                  error))
    return FALSE;
  if (template->has_caustic)
    return check_use (store, caustic, SW_PRODUCT_CAUSTIC, SW_PRODUCT_CAUSTIC, SW_QUANTITY_CAUSTIC,
                      error);
  return caustic == 0 || refuse_product (SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC, error);
}

/* ---- rows ---- */

static gboolean
insert_method (SwStore *store, const char *origin, const char *name, gint64 *id, GError **error)
{
  g_autoptr (SwMethod) method = sw_method_new ();

  method->name = g_strdup (name);
  method->origin = g_strdup (origin);
  method->active = TRUE;
  if (!sw_method_insert (store, method, error))
    return FALSE;
  *id = method->record.id;
  return TRUE;
}

static gboolean
insert_fields (SwStore *store, GPtrArray *fields, gint64 version, GError **error)
{
  for (guint i = 0; i < fields->len; i++)
    {
      SwColourField *field = fields->pdata[i];

      field->method_version = version;
      if (!sw_colour_field_insert (store, field, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
insert_texts (SwStore *store, GPtrArray *texts, gint64 version, GError **error)
{
  for (guint i = 0; i < texts->len; i++)
    {
      SwMethodText *text = texts->pdata[i];

      text->method_version = version;
      if (!sw_method_text_insert (store, text, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
sw_method_adopt (SwStore *store,
                 const char *template_name,
                 const char *name,
                 gint64 titrant,
                 gint64 caustic,
                 gint64 *method,
                 GError **error)
{
  g_autoptr (SwTemplate) template = NULL;
  SwMethodVersion *version;
  gint64 id;

  g_return_val_if_fail (store != NULL && template_name != NULL && name != NULL, FALSE);
  template = load_template (template_name, error);
  if (template == NULL || !check_products (store, template, titrant, caustic, error)
      || !insert_method (store, template_name, name, &id, error))
    return FALSE;
  version = template->version;
  version->method = id;
  version->titrant = titrant;
  version->caustic = caustic;
  if (!sw_method_version_insert (store, version, error)
      || !insert_fields (store, template->fields, version->record.id, error)
      || !insert_texts (store, template->texts, version->record.id, error))
    return FALSE;
  if (method != NULL)
    *method = id;
  return TRUE;
}

gboolean
sw_method_template_load (const char *template_name,
                         SwMethodVersion **version,
                         GPtrArray **fields,
                         gboolean *has_caustic,
                         GError **error)
{
  g_autoptr (SwTemplate) template = NULL;

  g_return_val_if_fail (template_name != NULL && version != NULL && fields != NULL, FALSE);
  g_return_val_if_fail (has_caustic != NULL, FALSE);
  template = load_template (template_name, error);
  if (template == NULL)
    return FALSE;
  *version = g_steal_pointer (&template->version);
  *fields = g_ptr_array_ref (template->fields);
  *has_caustic = template->has_caustic;
  return TRUE;
}
