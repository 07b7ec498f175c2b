/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method files: key files, read strictly. What is not understood is refused by its name, because a
 * word passed over in silence would be a different test at the bench.
 *
 *   [method]   direction (base, acid), burette, families, sample_ml, water_ml, water_kind, maximum,
 *              shake_s, strip_wait_s, caustic (true: asks for a caustic addition), caustic_counts
 *   [field 1]  label, meaning, swatch; numbered from 1, in the order on the strip
 *   [text]     draw, prepare, read, caution; other languages as draw[de]
 *
 * Invariants of what is read
 * 1. Every number is absent (NAN) or within the range of its quantity.
 * 2. At least one family; never a caustic addition with a chlorinated solvent.
 * 3. Fields have ranks 1, 2, 3 ...; a step has at most one text in a language.
 */
#include "calc/range.h"
#include "records/cell-private.h"
#include "records/template-private.h"

#include <math.h>
#include <string.h>

#define METHOD "method"
#define TEXT_GROUP "text"
#define FEWEST_FIELDS 2 /* a strip that shows one colour tells nothing */

static gboolean
refuse (const char *group, const char *key, const char *value, const char *what, GError **error)
{
  g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED, "[%s] %s=%s: %s", group, key,
               value != NULL ? value : "", what);
  return FALSE;
}

#define TEXT_ESCAPES "sntr\\"

/* A backslash and a letter of the Desktop Entry Specification, or in lists a semicolon. GLib is not
 * asked for anything else: after a wrong escape it goes on, and behind one at the end of the
 * line it reads beyond it (GLib 2.74). */
static gboolean
check_escapes (
    GKeyFile *file, const char *group, const char *key, const char *allowed, GError **error)
{
  g_autofree char *value = g_key_file_get_value (file, group, key, error);

  if (value == NULL)
    return FALSE;
  for (const char *at = strchr (value, '\\'); at != NULL; at = strchr (at + 2, '\\'))
    if (at[1] == '\0' || strchr (allowed, at[1]) == NULL)
      return refuse (group, key, value, "wrong escape", error);
  return TRUE;
}

/* Absent is NULL. A text that GLib does not like comes together with an error, so the error alone
 * counts. */
static gboolean
read_text (GKeyFile *file, const char *group, const char *key, char **text, GError **error)
{
  GError *failure = NULL;

  if (!g_key_file_has_key (file, group, key, NULL))
    return TRUE;
  if (!check_escapes (file, group, key, TEXT_ESCAPES, error))
    return FALSE;
  g_free (*text);
  *text = g_key_file_get_string (file, group, key, &failure);
  if (failure == NULL)
    return TRUE;
  g_propagate_error (error, failure);
  return FALSE;
}

/* A misspelt key would be an absent one. */
static gboolean
check_keys (GKeyFile *file, const char *group, const char *const *known, GError **error)
{
  g_auto (GStrv) keys = g_key_file_get_keys (file, group, NULL, error);

  for (guint i = 0; keys != NULL && keys[i] != NULL; i++)
    if (!g_strv_contains (known, keys[i]))
      return refuse (group, keys[i], NULL, "no key of this group", error);
  return keys != NULL;
}

/* Absent is FALSE. */
static gboolean
read_flag (GKeyFile *file, const char *key, gboolean *flag, GError **error)
{
  GError *failure = NULL;

  *flag = FALSE;
  if (!g_key_file_has_key (file, METHOD, key, NULL))
    return TRUE;
  *flag = g_key_file_get_boolean (file, METHOD, key, &failure);
  if (failure == NULL)
    return TRUE;
  g_propagate_prefixed_error (error, failure, "[" METHOD "] %s: ", key);
  return FALSE;
}

/* Absent is NAN. */
static gboolean
read_number (
    GKeyFile *file, const char *key, SwQuantityName quantity, double *number, GError **error)
{
  GError *failure = NULL;

  *number = NAN;
  if (!g_key_file_has_key (file, METHOD, key, NULL))
    return TRUE;
  *number = g_key_file_get_double (file, METHOD, key, &failure);
  if (failure == NULL)
    return sw_range_check (quantity, *number, error);
  g_propagate_prefixed_error (error, failure, "[" METHOD "] %s: ", key);
  return FALSE;
}

/* ---- [method] ---- */

static gboolean
read_direction (GKeyFile *file, SwDirection *direction, GError **error)
{
  g_autofree char *word = NULL;

  if (!read_text (file, METHOD, "direction", &word, error))
    return FALSE;
  *direction = g_strcmp0 (word, "acid") == 0 ? SW_DIRECTION_ACID : SW_DIRECTION_BASE;
  return *direction == SW_DIRECTION_ACID || g_strcmp0 (word, "base") == 0
         || refuse (METHOD, "direction", word, "neither base nor acid", error);
}

static gboolean *
find_family (SwMethodVersion *version, const char *word)
{
  if (strcmp (word, "hydrocarbon") == 0)
    return &version->for_hydrocarbon;
  if (strcmp (word, "modified_alcohol") == 0)
    return &version->for_modified_alcohol;
  if (strcmp (word, "chlorinated") == 0)
    return &version->for_chlorinated;
  return strcmp (word, "other") == 0 ? &version->for_other : NULL;
}

static gboolean
read_families (GKeyFile *file, SwMethodVersion *version, GError **error)
{
  GError *failure = NULL;
  g_auto (GStrv) words = NULL;

  if (!check_escapes (file, METHOD, "families", TEXT_ESCAPES ";", error))
    return FALSE;
  words = g_key_file_get_string_list (file, METHOD, "families", NULL, &failure);
  if (failure != NULL)
    {
      g_propagate_error (error, failure);
      return FALSE;
    }
  for (guint i = 0; words[i] != NULL; i++)
    {
      gboolean *family = find_family (version, words[i]);

      if (family == NULL)
        return refuse (METHOD, "families", words[i], "no family of solvents", error);
      *family = TRUE;
    }
  return words[0] != NULL || refuse (METHOD, "families", NULL, "suits no solvent", error);
}

/* What a template cannot know (caustic amount, supplier's factor) stays empty. */
static gboolean
read_version (GKeyFile *file, SwTemplate *template, GError **error)
{
  static const char *const keys[]
      = { "direction",    "burette",    "families", "sample_ml", "water_ml",       "maximum",
          "strip_wait_s", "water_kind", "shake_s",  "caustic",   "caustic_counts", NULL };
  SwMethodVersion *version = template->version;

  version->version = 1;
  version->blank = 0.0;
  return check_keys (file, METHOD, keys, error) && read_direction (file, &version->direction, error)
         && read_flag (file, "burette", &version->burette, error)
         && read_flag (file, "caustic", &template->has_caustic, error)
         && read_flag (file, "caustic_counts", &version->caustic_counts, error)
         && read_families (file, version, error)
         && read_number (file, "sample_ml", SW_QUANTITY_SAMPLE_VOLUME, &version->sample.value,
                         error)
         && read_number (file, "water_ml", SW_QUANTITY_WATER_VOLUME, &version->water.value, error)
         && read_number (file, "maximum", SW_QUANTITY_MAXIMUM, &version->maximum, error)
         && read_number (file, "shake_s", SW_QUANTITY_SHAKE_TIME, &version->shake_s, error)
         && read_number (file, "strip_wait_s", SW_QUANTITY_WAIT_TIME, &version->strip_wait_s, error)
         && read_text (file, METHOD, "water_kind", &version->water_kind, error);
}

static gboolean
check_caustic (const SwTemplate *template, GError **error)
{
  if (template->has_caustic && template->version->for_chlorinated)
    return refuse (METHOD, "caustic", "true", "dangerous with a chlorinated solvent", error);
  return template->has_caustic || !template->version->caustic_counts
         || refuse (METHOD, "caustic_counts", "true", "there is no caustic addition", error);
}

/* ---- [field N] ---- */

/* By the descriptor's words, which are those of the file. */
static gboolean
set_meaning (SwColourField *field, const char *meaning, const char *group, GError **error)
{
  const SwColumn *column = sw_table_find_column (sw_table_info (SW_TABLE_COLOUR_FIELD), "meaning");
  SwCell cell = sw_cell_text (meaning);

  return sw_cell_set (column, &cell, field)
         || refuse (group, "meaning", meaning, "is no meaning of a colour field", error);
}

/* The field of a group, of no version yet. (transfer full) */
static SwColourField *
read_field (GKeyFile *file, const char *group, int rank, GError **error)
{
  static const char *const keys[] = { "label", "meaning", "swatch", NULL };
  g_autoptr (SwColourField) field = sw_colour_field_new ();
  g_autofree char *meaning = NULL;

  if (!check_keys (file, group, keys, error) || !read_text (file, group, "meaning", &meaning, error)
      || !set_meaning (field, meaning, group, error)
      || !read_text (file, group, "label", &field->label, error)
      || !read_text (file, group, "swatch", &field->swatch, error))
    return NULL;
  if (field->label == NULL || *field->label == '\0')
    {
      refuse (group, "label", NULL, "a colour field needs a name", error);
      return NULL;
    }
  field->rank = rank;
  return g_steal_pointer (&field);
}

/* Besides [method] and [text] there are these groups and no others: a gap in their numbers, too,
 * leaves one over. */
static gboolean
check_groups (GKeyFile *file, guint n_fields, GError **error)
{
  g_auto (GStrv) groups = g_key_file_get_groups (file, NULL);

  if (n_fields < FEWEST_FIELDS)
    return refuse ("field 2", "label", NULL, "a method has at least two colour fields", error);
  return g_strv_length (groups) == n_fields + 2
         || refuse ("field", "label", NULL, "a group that is none of a method file", error);
}

/* Numbered without gaps; the number is the rank and the key on the keyboard. */
static gboolean
read_fields (GKeyFile *file, GPtrArray *fields, GError **error)
{
  for (int rank = 1;; rank++)
    {
      g_autofree char *group = g_strdup_printf ("field %d", rank);
      SwColourField *field;

      if (!g_key_file_has_group (file, group))
        return check_groups (file, fields->len, error);
      field = read_field (file, group, rank, error);
      if (field == NULL)
        return FALSE;
      g_ptr_array_add (fields, field);
    }
}

/* ---- [text] ---- */

/* "draw" is English, "draw[de]" German. */
static void
split_key (const char *key, SwMethodText *text)
{
  const char *bracket = strchr (key, '[');

  text->step = bracket != NULL ? g_strndup (key, (gsize)(bracket - key)) : g_strdup (key);
  text->language
      = bracket != NULL ? g_strndup (bracket + 1, strcspn (bracket + 1, "]")) : g_strdup ("en");
}

static gboolean
is_known_step (const char *step)
{
  static const char *const steps[] = { "draw", "prepare", "read", "caution", NULL };

  return g_strv_contains (steps, step);
}

static gboolean
is_there (GPtrArray *texts, const SwMethodText *text)
{
  for (guint i = 0; i < texts->len; i++)
    {
      const SwMethodText *other = texts->pdata[i];

      if (strcmp (other->step, text->step) == 0 && strcmp (other->language, text->language) == 0)
        return TRUE;
    }
  return FALSE;
}

static gboolean
read_one_text (GKeyFile *file, const char *key, GPtrArray *texts, GError **error)
{
  g_autoptr (SwMethodText) text = sw_method_text_new ();

  split_key (key, text);
  if (!is_known_step (text->step))
    return refuse (TEXT_GROUP, key, NULL, "no step of a test", error);
  if (is_there (texts, text))
    return refuse (TEXT_GROUP, key, NULL, "this step has a text in this language", error);
  if (!read_text (file, TEXT_GROUP, key, &text->text, error))
    return FALSE;
  g_ptr_array_add (texts, g_steal_pointer (&text));
  return TRUE;
}

static gboolean
read_texts (GKeyFile *file, GPtrArray *texts, GError **error)
{
  g_auto (GStrv) keys = g_key_file_get_keys (file, TEXT_GROUP, NULL, error);

  for (guint i = 0; keys != NULL && keys[i] != NULL; i++)
    if (!read_one_text (file, keys[i], texts, error))
      return FALSE;
  return keys != NULL;
}

/* ---- public ---- */

static void
free_field (gpointer field)
{
  sw_colour_field_free (field);
}

static void
free_text (gpointer text)
{
  sw_method_text_free (text);
}

static SwTemplate *
new_template (void)
{
  SwTemplate *template = g_new0 (SwTemplate, 1);

  template->version = sw_method_version_new ();
  template->fields = g_ptr_array_new_with_free_func (free_field);
  template->texts = g_ptr_array_new_with_free_func (free_text);
  return template;
}

void
sw_template_free (SwTemplate *template)
{
  if (template == NULL)
    return;
  sw_method_version_free (template->version);
  g_ptr_array_unref (template->fields);
  g_ptr_array_unref (template->texts);
  g_free (template);
}

SwTemplate *
sw_template_parse (GBytes *bytes, GError **error)
{
  g_autoptr (SwTemplate) template = new_template ();
  g_autoptr (GKeyFile) file = g_key_file_new ();

  g_return_val_if_fail (bytes != NULL, NULL);
  if (!g_key_file_load_from_bytes (file, bytes, G_KEY_FILE_KEEP_TRANSLATIONS, error)
      || !read_version (file, template, error) || !check_caustic (template, error)
      || !read_fields (file, template->fields, error) || !read_texts (file, template->texts, error))
    return NULL;
  return g_steal_pointer (&template);
}
