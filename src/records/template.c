/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method templates: key files shipped with the program, copied into rows when adopted. From then on
 * only the rows count; a later change of the file changes no site.
 *
 *   [method]   direction (base, acid), burette, families, sample_ml, water_ml, water_kind, maximum,
 *              shake_s, strip_wait_s, caustic (true: asks for a caustic addition), caustic_counts
 *   [field 1]  label, meaning, swatch; numbered from 1, in the order on the strip
 *   [text]     draw, prepare, read, caution; other languages as draw[de]
 */
#include "calc/fault.h"
#include "records/method.h"
#include "records/store-private.h"

#include "data/records-data.h"

#include <string.h>

#define METHOD "method"
#define TEXT_GROUP "text"
#define METHOD_FOLDER "/org/stillwarden/records/methods/"

static const char *const template_names[]
    = { "drop-test-neutraliser", "drop-test-caustic", "reserve-drop-test", NULL };

const char *const *
sw_method_template_names (void)
{
  return template_names;
}

static GKeyFile *
load_template (const char *name, GError **error)
{
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_autofree char *path = g_strconcat (METHOD_FOLDER, name, ".ini", NULL);
  g_autoptr (GBytes) bytes = g_resource_lookup_data (records_data_get_resource (), path,
                                                     G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  if (bytes == NULL)
    {
      g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NOT_FOUND,
                   "there is no method template \"%s\"", name);
      return NULL;
    }
  if (!g_key_file_load_from_bytes (file, bytes, G_KEY_FILE_KEEP_TRANSLATIONS, error))
    return NULL;
  return g_steal_pointer (&file);
}

/* NAN where the key is absent. */
static double
get_number (GKeyFile *file, const char *key)
{
  if (!g_key_file_has_key (file, METHOD, key, NULL))
    return NAN;
  return g_key_file_get_double (file, METHOD, key, NULL);
}

static gboolean
get_flag (GKeyFile *file, const char *key)
{
  return g_key_file_get_boolean (file, METHOD, key, NULL);
}

static gboolean
has_family (GKeyFile *file, const char *family)
{
  g_auto (GStrv) families = g_key_file_get_string_list (file, METHOD, "families", NULL, NULL);

  return families != NULL && g_strv_contains ((const char *const *)families, family);
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
check_products (SwStore *store, GKeyFile *file, gint64 titrant, gint64 caustic, GError **error)
{
  g_autofree char *direction = g_key_file_get_string (file, METHOD, "direction", NULL);
  gboolean acid = g_strcmp0 (direction, "acid") == 0;

  /* A neutraliser is a base: it cannot measure a reserve. */
  if (!check_use (store, titrant, SW_PRODUCT_TITRANT,
                  acid ? SW_PRODUCT_TITRANT : SW_PRODUCT_NEUTRALISER, SW_QUANTITY_TITRANT_STRENGTH,
                  error))
    return FALSE;
  if (get_flag (file, "caustic"))
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

/* What a template cannot know (caustic amount, supplier's factor) stays empty. */
static void
fill_version (SwMethodVersion *version, GKeyFile *file)
{
  g_autofree char *direction = g_key_file_get_string (file, METHOD, "direction", NULL);

  version->version = 1;
  version->direction = g_strcmp0 (direction, "acid") == 0 ? SW_DIRECTION_ACID : SW_DIRECTION_BASE;
  version->burette = get_flag (file, "burette");
  version->for_hydrocarbon = has_family (file, "hydrocarbon");
  version->for_modified_alcohol = has_family (file, "modified_alcohol");
  version->for_chlorinated = has_family (file, "chlorinated");
  version->for_other = has_family (file, "other");
  version->sample.value = get_number (file, "sample_ml");
  version->caustic_counts = get_flag (file, "caustic_counts");
  version->water.value = get_number (file, "water_ml");
  version->water_kind = g_key_file_get_string (file, METHOD, "water_kind", NULL);
  version->blank = 0.0;
  version->maximum = get_number (file, "maximum");
  version->shake_s = get_number (file, "shake_s");
  version->strip_wait_s = get_number (file, "strip_wait_s");
}

/* By the descriptor's words, which are those of the file. */
static gboolean
set_meaning (SwColourField *field, const char *meaning, const char *group, GError **error)
{
  const SwColumn *column = sw_table_find_column (sw_table_info (SW_TABLE_COLOUR_FIELD), "meaning");
  SwCell cell = sw_cell_text (meaning);

  if (sw_cell_set (column, &cell, field))
    return TRUE;
  g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED,
               "[%s] meaning=%s is no meaning of a colour field", group,
               meaning != NULL ? meaning : "");
  return FALSE;
}

/* The field of a group, of no version yet. (transfer full) */
static SwColourField *
read_field (GKeyFile *file, const char *group, int rank, GError **error)
{
  g_autoptr (SwColourField) field = sw_colour_field_new ();
  g_autofree char *meaning = g_key_file_get_string (file, group, "meaning", NULL);

  if (!set_meaning (field, meaning, group, error))
    return NULL;
  field->rank = rank;
  field->label = g_key_file_get_string (file, group, "label", NULL);
  field->swatch = g_key_file_get_string (file, group, "swatch", NULL);
  return g_steal_pointer (&field);
}

static void
free_field (gpointer field)
{
  sw_colour_field_free (field);
}

/* All fields, in their order on the strip. (transfer full) */
static GPtrArray *
read_fields (GKeyFile *file, GError **error)
{
  g_autoptr (GPtrArray) fields = g_ptr_array_new_with_free_func (free_field);

  for (int rank = 1;; rank++)
    {
      g_autofree char *group = g_strdup_printf ("field %d", rank);
      SwColourField *field;

      if (!g_key_file_has_group (file, group))
        return g_steal_pointer (&fields);
      field = read_field (file, group, rank, error);
      if (field == NULL)
        return NULL;
      g_ptr_array_add (fields, field);
    }
}

/* Numbered without gaps; the number is the rank and the key on the keyboard. */
static gboolean
insert_fields (SwStore *store, GKeyFile *file, gint64 version, GError **error)
{
  g_autoptr (GPtrArray) fields = read_fields (file, error);

  for (guint i = 0; fields != NULL && i < fields->len; i++)
    {
      SwColourField *field = g_ptr_array_index (fields, i);

      field->method_version = version;
      if (!sw_colour_field_insert (store, field, error))
        return FALSE;
    }
  return fields != NULL;
}

/* "draw" is English, "draw[de]" German. */
static gboolean
insert_text (SwStore *store, GKeyFile *file, const char *key, gint64 version, GError **error)
{
  g_autoptr (SwMethodText) text = sw_method_text_new ();
  const char *bracket = strchr (key, '[');

  text->method_version = version;
  text->step = bracket != NULL ? g_strndup (key, (gsize)(bracket - key)) : g_strdup (key);
  text->language
      = bracket != NULL ? g_strndup (bracket + 1, strcspn (bracket + 1, "]")) : g_strdup ("en");
  text->text = g_key_file_get_string (file, TEXT_GROUP, key, error);
  return text->text != NULL && sw_method_text_insert (store, text, error);
}

static gboolean
insert_texts (SwStore *store, GKeyFile *file, gint64 version, GError **error)
{
  g_auto (GStrv) keys = g_key_file_get_keys (file, TEXT_GROUP, NULL, error);

  if (keys == NULL)
    return FALSE;
  for (guint i = 0; keys[i] != NULL; i++)
    if (!insert_text (store, file, keys[i], version, error))
      return FALSE;
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
  g_autoptr (SwMethodVersion) version = sw_method_version_new ();
  g_autoptr (GKeyFile) file = NULL;
  gint64 id;

  g_return_val_if_fail (store != NULL && template_name != NULL && name != NULL, FALSE);
  file = load_template (template_name, error);
  if (file == NULL || !check_products (store, file, titrant, caustic, error)
      || !insert_method (store, template_name, name, &id, error))
    return FALSE;
  fill_version (version, file);
  version->method = id;
  version->titrant = titrant;
  version->caustic = caustic;
  if (!sw_method_version_insert (store, version, error)
      || !insert_fields (store, file, version->record.id, error)
      || !insert_texts (store, file, version->record.id, error))
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
  g_autoptr (GKeyFile) file = NULL;
  g_autoptr (GPtrArray) read = NULL;

  g_return_val_if_fail (template_name != NULL && version != NULL && fields != NULL, FALSE);
  g_return_val_if_fail (has_caustic != NULL, FALSE);
  file = load_template (template_name, error);
  if (file == NULL)
    return FALSE;
  read = read_fields (file, error);
  if (read == NULL)
    return FALSE;
  *version = sw_method_version_new ();
  fill_version (*version, file);
  *fields = g_steal_pointer (&read);
  *has_caustic = get_flag (file, "caustic");
  return TRUE;
}
