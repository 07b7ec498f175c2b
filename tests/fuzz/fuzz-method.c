/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method files.
 *
 * Invariants: a file is refused with an error, or read into a method that the rest of the program
 * can work with: numbers within their ranges, colour fields ranked 1, 2, 3 ... with names, no two
 * texts for one step and language, no caustic addition with a chlorinated solvent. */
#include "fuzz.h"

#include "calc/range.h"
#include "records/template-private.h"

#include <math.h>
#include <string.h>

static void
check_number (SwQuantityName quantity, double number)
{
  g_assert_true (isnan (number) || sw_range_check (quantity, number, NULL));
}

static void
check_version (const SwTemplate *template)
{
  const SwMethodVersion *version = template->version;

  g_assert_true (version->for_hydrocarbon || version->for_modified_alcohol
                 || version->for_chlorinated || version->for_other);
  g_assert_false (template->has_caustic && version->for_chlorinated);
  g_assert_true (template->has_caustic || !version->caustic_counts);
  check_number (SW_QUANTITY_SAMPLE_VOLUME, version->sample.value);
  check_number (SW_QUANTITY_WATER_VOLUME, version->water.value);
  check_number (SW_QUANTITY_MAXIMUM, version->maximum);
  check_number (SW_QUANTITY_SHAKE_TIME, version->shake_s);
  check_number (SW_QUANTITY_WAIT_TIME, version->strip_wait_s);
}

static void
check_fields (GPtrArray *fields)
{
  g_assert_cmpuint (fields->len, >=, 2);
  for (guint i = 0; i < fields->len; i++)
    {
      const SwColourField *field = fields->pdata[i];

      g_assert_cmpint (field->rank, ==, (int)i + 1);
      g_assert_true (field->label != NULL && *field->label != '\0');
      g_assert_true (g_utf8_validate (field->label, -1, NULL));
    }
}

static void
check_texts (GPtrArray *texts)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < texts->len; i++)
    {
      const SwMethodText *text = texts->pdata[i];
      char *key = g_strconcat (text->step, " ", text->language, NULL);

      g_assert_true (text->text != NULL && g_utf8_validate (text->text, -1, NULL));
      g_assert_true (g_hash_table_add (seen, key));
    }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwTemplate) template = sw_template_parse (bytes, &error);

  g_assert_true ((template == NULL) == (error != NULL));
  if (template == NULL)
    {
      g_assert_true (*error->message != '\0');
      return 0;
    }
  check_version (template);
  check_fields (template->fields);
  check_texts (template->texts);
  return 0;
}
