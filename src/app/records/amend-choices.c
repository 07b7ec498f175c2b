/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records to choose from when a test is amended. */
#include "app/records/amend-choices.h"

#include "app/plant-words.h"
#include "wording/sentence-list.h"
#include "wording/sentence-setup.h"
#include "wording/sentence-test.h"

static SwStore *
store_of (SwContext *context)
{
  return sw_context_get_store (context);
}

/* ---- ids ---- */

GArray *
sw_amend_people (SwContext *context, GError **error)
{
  return sw_record_ids (store_of (context), SW_TABLE_PERSON, NULL, 0, error);
}

GArray *
sw_amend_points (SwContext *context, gconstpointer sample, GError **error)
{
  return sw_record_ids (store_of (context), SW_TABLE_SAMPLING_POINT, "machine",
                        ((const SwSample *)sample)->machine, error);
}

/* @product 0: none has any. */
static GArray *
list_lots (SwContext *context, gint64 product, GError **error)
{
  if (product == 0)
    return g_array_new (FALSE, FALSE, sizeof (gint64));
  return sw_record_ids (store_of (context), SW_TABLE_LOT, "product", product, error);
}

/* All lots of all products that are strips. */
GArray *
sw_amend_strip_lots (SwContext *context, GError **error)
{
  g_autoptr (GArray) products
      = sw_record_ids_by_text (store_of (context), SW_TABLE_PRODUCT, "use", "strips", error);
  GArray *all = products != NULL ? g_array_new (FALSE, FALSE, sizeof (gint64)) : NULL;

  for (guint i = 0; products != NULL && i < products->len; i++)
    {
      g_autoptr (GArray) lots = list_lots (context, g_array_index (products, gint64, i), NULL);
      if (lots != NULL)
        g_array_append_vals (all, lots->data, lots->len);
    }
  return all;
}

GArray *
sw_amend_titrant_lots (SwContext *context, gconstpointer titration, GError **error)
{
  g_autoptr (SwMethodVersion) version = sw_method_version_load (
      store_of (context), ((const SwTitration *)titration)->method_version, error);

  return version != NULL ? list_lots (context, version->titrant, error) : NULL;
}

GArray *
sw_amend_caustic_lots (SwContext *context, gconstpointer titration, GError **error)
{
  g_autoptr (SwMethodVersion) version = sw_method_version_load (
      store_of (context), ((const SwTitration *)titration)->method_version, error);

  return version != NULL ? list_lots (context, version->caustic, error) : NULL;
}

GArray *
sw_amend_colour_fields (SwContext *context, gconstpointer reading, GError **error)
{
  g_autoptr (SwTitration) titration
      = sw_titration_load (store_of (context), ((const SwReadingRow *)reading)->titration, error);

  return titration == NULL ? NULL
                           : sw_record_ids (store_of (context), SW_TABLE_COLOUR_FIELD,
                                            "method_version", titration->method_version, error);
}

GArray *
sw_amend_dose_lots (SwContext *context, gconstpointer dose, GError **error)
{
  return list_lots (context, ((const SwDoseRow *)dose)->product, error);
}

/* ---- words ---- */

char *
sw_amend_say_person (SwContext *context, gint64 id)
{
  g_autoptr (SwPerson) person = sw_person_load (store_of (context), id, NULL);

  return person == NULL ? g_strdup ("?")
                        : sw_say_person_name (sw_context_get_wording (context), person->name,
                                              person->initials);
}

char *
sw_amend_say_point (SwContext *context, gint64 id)
{
  g_autoptr (SwSamplingPoint) point = sw_sampling_point_load (store_of (context), id, NULL);

  return g_strdup (point != NULL && point->name != NULL ? point->name : "?");
}

char *
sw_amend_say_lot (SwContext *context, gint64 id)
{
  g_autoptr (SwLot) lot = sw_lot_load (store_of (context), id, NULL);

  if (lot == NULL)
    return g_strdup ("?");
  g_autofree char *product = sw_plant_product_name (context, lot->product);
  return sw_say_lot_choice (sw_context_get_wording (context), product, lot->code);
}

char *
sw_amend_say_colour_field (SwContext *context, gint64 id)
{
  g_autoptr (SwColourField) field = sw_colour_field_load (store_of (context), id, NULL);

  return field == NULL ? g_strdup ("?")
                       : sw_say_reading (sw_context_get_wording (context), field->label,
                                         field->meaning, FALSE, FALSE);
}
