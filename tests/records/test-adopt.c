/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method templates: each is adopted whole, and refused for the wrong liquids. */
#include "fixture.h"
#include "records/store-private.h"

#include <string.h>

typedef struct
{
  const char *name;
  SwDirection direction;
  gboolean caustic;
  const char *fields; /* meanings in the order on the strip */
} TemplateCase;

/* House design: sample 50 mL, shake 60 s, strip within 30 s, at most 20 steps; hydrocarbon and
 * modified alcohol only. Bromothymol blue: yellow below pH 6.0, blue above 7.6 (handbook values).
 */
static const TemplateCase cases[] = {
  { "drop-test-neutraliser", SW_DIRECTION_BASE, FALSE, "acid neutral alkaline " },
  { "drop-test-caustic", SW_DIRECTION_BASE, TRUE, "acid neutral alkaline " },
  { "reserve-drop-test", SW_DIRECTION_ACID, FALSE, "alkaline neutral acid " },
};

typedef struct
{
  gint64 neutraliser, caustic, acid, strips;
} Liquids;

static gint64
add_product (Fixture *fixture, const char *name, SwProductUse use)
{
  g_autoptr (SwProduct) product = sw_product_new ();

  product->name = g_strdup (name);
  product->use = use;
  g_assert_true (sw_product_insert (fixture->store, product, NULL));
  return product->record.id;
}

static void
add_liquids (Fixture *fixture, Liquids *liquids)
{
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  liquids->neutraliser = add_product (fixture, "demo amine", SW_PRODUCT_NEUTRALISER);
  liquids->caustic = add_product (fixture, "demo caustic", SW_PRODUCT_CAUSTIC);
  liquids->acid = add_product (fixture, "demo acid", SW_PRODUCT_TITRANT);
  liquids->strips = add_product (fixture, "demo strips", SW_PRODUCT_STRIPS);
  fixture_commit (fixture);
}

static void
assert_version (const SwMethodVersion *version, const TemplateCase *row)
{
  g_assert_cmpint (version->version, ==, 1);
  g_assert_cmpint (version->direction, ==, row->direction);
  g_assert_cmpfloat (version->sample.value, ==, 50.0);
  g_assert_null (version->sample.typed);
  g_assert_cmpfloat (version->maximum, ==, 20.0);
  g_assert_cmpfloat (version->shake_s, ==, 60.0);
  g_assert_cmpfloat (version->strip_wait_s, ==, 30.0);
  g_assert_cmpfloat (version->blank, ==, 0.0);
  g_assert_false (version->caustic_counts);
  /* what a template cannot know */
  g_assert_true (isnan (version->caustic_mmol));
  g_assert_true (isnan (version->caustic_volume.value));
  g_assert_true (isnan (version->supplier_factor_ml_l));
  g_assert_true (sw_method_version_suits (version, SW_FAMILY_HYDROCARBON));
  g_assert_true (sw_method_version_suits (version, SW_FAMILY_MODIFIED_ALCOHOL));
  g_assert_false (sw_method_version_suits (version, SW_FAMILY_CHLORINATED));
  g_assert_false (sw_method_version_suits (version, SW_FAMILY_OTHER));
}

static void
assert_fields (Fixture *fixture, gint64 version, const char *expected)
{
  g_autoptr (GArray) ids
      = sw_record_ids (fixture->store, SW_TABLE_COLOUR_FIELD, "method_version", version, NULL);
  g_autoptr (GString) meanings = g_string_new (NULL);

  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwColourField) field
          = sw_colour_field_load (fixture->store, g_array_index (ids, gint64, i), NULL);
      static const char *const words[] = { "acid", "between", "neutral", "alkaline" };
      static const char *const labels[] = { "Yellow", NULL, "Green", "Blue" };

      g_assert_cmpint (field->rank, ==, (int)i + 1);
      g_assert_cmpstr (field->label, ==, labels[field->meaning]);
      g_assert_cmpuint (strlen (field->swatch), ==, 7);
      g_string_append_printf (meanings, "%s ", words[field->meaning]);
    }
  g_assert_cmpstr (meanings->str, ==, expected);
}

static void
assert_texts (Fixture *fixture, gint64 version)
{
  static const char *const steps[] = { "draw", "prepare", "read", "caution" };

  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      g_autofree char *text = sw_method_text_dup (fixture->store, version, steps[i], "en", NULL);

      g_assert_nonnull (text);
      g_assert_cmpuint (strlen (text), >, 100);
      if (strcmp (steps[i], "caution") == 0)
        g_assert_nonnull (
            strstr (text, "Safety data sheets, the machine's manual and local rules"));
    }
}

static void
test_adopt (Fixture *fixture, gconstpointer data)
{
  const TemplateCase *row = data;
  g_autoptr (SwMethod) method = NULL;
  g_autoptr (SwMethodVersion) version = NULL;
  GError *error = NULL;
  Liquids liquids;
  gint64 titrant;
  gint64 id;

  add_liquids (fixture, &liquids);
  titrant = row->direction == SW_DIRECTION_ACID ? liquids.acid : liquids.neutraliser;
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  sw_method_adopt (fixture->store, row->name, "Our test", titrant,
                   row->caustic ? liquids.caustic : 0, &id, &error);
  g_assert_no_error (error);
  fixture_commit (fixture);
  method = sw_method_load (fixture->store, id, NULL);
  g_assert_cmpstr (method->name, ==, "Our test");
  g_assert_cmpstr (method->origin, ==, row->name);
  g_assert_true (method->active);
  version = sw_method_version_load (fixture->store,
                                    sw_method_latest_version (fixture->store, id, NULL), NULL);
  assert_version (version, row);
  g_assert_cmpint (version->titrant, ==, titrant);
  g_assert_cmpint (version->caustic, ==, row->caustic ? liquids.caustic : 0);
  assert_fields (fixture, version->record.id, row->fields);
  assert_texts (fixture, version->record.id);
  fixture_assert_sound (fixture);
}

/* The look beforehand shows what adopting brings. */
static void
test_preview (Fixture *fixture, gconstpointer data)
{
  const TemplateCase *row = data;
  g_autoptr (SwMethodVersion) version = NULL;
  g_autoptr (GPtrArray) fields = NULL;
  g_autoptr (GString) meanings = g_string_new (NULL);
  static const char *const words[SW_N_FIELDS] = { "acid ", "between ", "neutral ", "alkaline " };
  gboolean has_caustic = !row->caustic;

  g_assert_true (sw_method_template_load (row->name, &version, &fields, &has_caustic, NULL));
  assert_version (version, row);
  g_assert_cmpint (has_caustic, ==, row->caustic);
  for (guint i = 0; i < fields->len; i++)
    {
      const SwColourField *field = g_ptr_array_index (fields, i);

      g_assert_cmpint (field->rank, ==, (int)i + 1);
      g_assert_nonnull (field->label);
      g_string_append (meanings, words[field->meaning]);
    }
  g_assert_cmpstr (meanings->str, ==, row->fields);
}

/* ---- refused ---- */

typedef struct
{
  const char *name;
  const char *template_name;
  gsize titrant; /* offset into Liquids, or NONE */
  gsize caustic;
  SwFaultCode code;
  SwQuantityName quantity;
} RefusedCase;

#define NONE G_MAXSIZE
#define AT(member) G_STRUCT_OFFSET (Liquids, member)

static const RefusedCase refused_cases[] = {
  { "no-titrant", "drop-test-neutraliser", NONE, NONE, SW_FAULT_MISSING,
    SW_QUANTITY_TITRANT_STRENGTH },
  { "caustic-as-titrant", "drop-test-neutraliser", AT (caustic), NONE, SW_FAULT_COMBINATION,
    SW_QUANTITY_TITRANT_STRENGTH },
  { "strips-as-titrant", "drop-test-neutraliser", AT (strips), NONE, SW_FAULT_COMBINATION,
    SW_QUANTITY_TITRANT_STRENGTH },
  { "caustic-not-asked", "drop-test-neutraliser", AT (neutraliser), AT (caustic),
    SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC },
  { "caustic-missing", "drop-test-caustic", AT (neutraliser), NONE, SW_FAULT_MISSING,
    SW_QUANTITY_CAUSTIC },
  { "neutraliser-as-caustic", "drop-test-caustic", AT (neutraliser), AT (neutraliser),
    SW_FAULT_COMBINATION, SW_QUANTITY_CAUSTIC },
  { "neutraliser-as-acid", "reserve-drop-test", AT (neutraliser), NONE, SW_FAULT_COMBINATION,
    SW_QUANTITY_TITRANT_STRENGTH },
};

static gint64
pick (const Liquids *liquids, gsize offset)
{
  return offset == NONE ? 0 : G_STRUCT_MEMBER (gint64, liquids, offset);
}

static void
test_refused (Fixture *fixture, gconstpointer data)
{
  const RefusedCase *row = data;
  GError *error = NULL;
  Liquids liquids;

  add_liquids (fixture, &liquids);
  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_method_adopt (fixture->store, row->template_name, "Our test",
                                   pick (&liquids, row->titrant), pick (&liquids, row->caustic),
                                   NULL, &error));
  sw_assert_fault (&error, row->code, row->quantity);
}

static void
test_unknown (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  fixture_begin (fixture, SW_ACT_SETUP, NULL);
  g_assert_false (sw_method_adopt (fixture->store, "../secret", "x", 1, 0, NULL, &error));
  g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NOT_FOUND);
}

/* Every .ini of data/methods is offered, and nothing else. */
static void
test_names (Fixture *fixture, gconstpointer data)
{
  g_autofree char *folder = sw_test_source_path ("data/methods");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *const *names = sw_method_template_names ();
  const char *file;
  guint files = 0;

  while ((file = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *name = g_strndup (file, strlen (file) - strlen (".ini"));

      g_assert_true (g_str_has_suffix (file, ".ini"));
      g_assert_true (g_strv_contains (names, name));
      files++;
    }
  g_assert_cmpuint (g_strv_length ((char **)names), ==, files);
  g_assert_cmpuint (files, >=, G_N_ELEMENTS (cases));
}

static void
add (const char *group,
     const char *name,
     gconstpointer data,
     void (*func) (Fixture *, gconstpointer))
{
  g_autofree char *path = g_strdup_printf ("/records/adopt/%s/%s", group, name);

  g_test_add (path, Fixture, data, fixture_set_up, func, fixture_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    add ("template", cases[i].name, &cases[i], test_adopt);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    add ("preview", cases[i].name, &cases[i], test_preview);
  for (gsize i = 0; i < G_N_ELEMENTS (refused_cases); i++)
    add ("refused", refused_cases[i].name, &refused_cases[i], test_refused);
  add ("refused", "unknown", NULL, test_unknown);
  add ("names", "all", NULL, test_names);
  return g_test_run ();
}
