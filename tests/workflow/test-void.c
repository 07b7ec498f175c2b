/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up records, incidents and what happened: what keeps a record in use, what goes with it, and
 * undo. */
#include "change.h"
#include "correct.h"

#include "records/story.h"
#include "workflow/setup.h"

#define ROW(member) G_STRUCT_OFFSET (SwTestPlant, member)

typedef struct
{
  const char *name;
  SwTable table;
  gsize row; /* offset in SwTestPlant; of what a dosed test rests on */
  SwFactCode refusal;
  const char *needs_it;
} UsedRow;

/* clang-format off */
static const UsedRow used_rows[] = {
  { "solvent of a machine", SW_TABLE_SOLVENT, ROW (solvent), SW_FACT_STILL_USED, "M-07" },
  { "product with lots", SW_TABLE_PRODUCT, ROW (neutraliser), SW_FACT_STILL_USED, "N-1" },
  { "strips with a lot", SW_TABLE_PRODUCT, ROW (strips), SW_FACT_STILL_USED, "S-1" },
  { "lot of a test", SW_TABLE_LOT, ROW (neutraliser_lot), SW_FACT_STILL_USED, "M-07-261124-1" },
  { "strip lot of a test", SW_TABLE_LOT, ROW (strip_lot), SW_FACT_STILL_USED, "M-07-261124-1" },
  { "lot never used", SW_TABLE_LOT, ROW (expired_lot), SW_FACT_NONE, NULL },
  { "machine with tests", SW_TABLE_MACHINE, ROW (first.machine), SW_FACT_STILL_USED, "M-07-261124-1" },
  { "fill with samples", SW_TABLE_FILL, ROW (first.fill), SW_FACT_STILL_USED, "M-07-261124-1" },
  { "point", SW_TABLE_SAMPLING_POINT, ROW (first.separator), SW_FACT_NONE, NULL },
  { "plan", SW_TABLE_PLAN, ROW (first.plan), SW_FACT_NONE, NULL },
  { "method with a plan", SW_TABLE_METHOD, ROW (method), SW_FACT_STILL_USED, "M-07" },
  { "version with tests", SW_TABLE_METHOD_VERSION, ROW (version), SW_FACT_STILL_USED, "M-07" },
  { "calibration with tests", SW_TABLE_CALIBRATION, ROW (calibration), SW_FACT_STILL_USED, "M-07-261124-1" },
  { "only administrator", SW_TABLE_PERSON, ROW (administrator), SW_FACT_LAST_ADMINISTRATOR, NULL },
  { "technician", SW_TABLE_PERSON, ROW (technician), SW_FACT_NONE, NULL },
};
/* clang-format on */

static void
test_used (gconstpointer data)
{
  const UsedRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->administrator, "no longer");
  gint64 id = G_STRUCT_MEMBER (gint64, scene->plant, row->row);
  GError *error = NULL;
  SwFact refusal;

  scene_dosed_test (scene, 3);
  g_assert_cmpint (sw_void_may (scene->plant->store, &actor, row->table, id, &refusal, &error), ==,
                   row->refusal == SW_FACT_NONE);
  g_assert_no_error (error);
  g_assert_cmpint (refusal.code, ==, row->refusal);
  if (row->needs_it != NULL)
    g_assert_cmpstr (refusal.text, ==, row->needs_it);
  g_assert_cmpint (sw_void_record (scene->plant->store, &actor, row->table, id, &error), ==,
                   row->refusal == SW_FACT_NONE);
  if (row->refusal != SW_FACT_NONE)
    scene_assert_fact (&error, row->refusal);
  scene_assert_sound (scene);
}

/* ---- rights ---- */

typedef struct
{
  const char *name;
  gsize person;
  SwTable table;
  gsize row;
  SwFactCode refusal;
} RightRow;

/* clang-format off */
static const RightRow right_rows[] = {
  { "lot by a technician", ROW (technician), SW_TABLE_LOT, ROW (expired_lot), SW_FACT_NONE },
  { "lot by an auditor", ROW (auditor), SW_TABLE_LOT, ROW (expired_lot), SW_FACT_AUDITOR_READS },
  { "calibration by a technician", ROW (technician), SW_TABLE_CALIBRATION, ROW (calibration), SW_FACT_NONE },
  { "person by a reviewer", ROW (reviewer), SW_TABLE_PERSON, ROW (colleague), SW_FACT_NEEDS_ADMINISTRATOR },
  { "person by an administrator", ROW (administrator), SW_TABLE_PERSON, ROW (colleague), SW_FACT_NONE },
  { "plan by a technician", ROW (technician), SW_TABLE_PLAN, ROW (first.plan), SW_FACT_NEEDS_ADMINISTRATOR },
};
/* clang-format on */

static void
test_right (gconstpointer data)
{
  const RightRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor
      = correct_actor (scene, G_STRUCT_MEMBER (gint64, scene->plant, row->person), "no longer");
  GError *error = NULL;

  g_assert_cmpint (sw_void_record (scene->plant->store, &actor, row->table,
                                   G_STRUCT_MEMBER (gint64, scene->plant, row->row), &error),
                   ==, row->refusal == SW_FACT_NONE);
  if (row->refusal != SW_FACT_NONE)
    scene_assert_fact (&error, row->refusal);
}

/* ---- what happened stays ---- */

static void
test_lasting (void)
{
  static const SwTable tables[] = { SW_TABLE_SITE,    SW_TABLE_READING,    SW_TABLE_DECISION,
                                    SW_TABLE_SIGN_IN, SW_TABLE_CHECKPOINT, SW_TABLE_RESTORATION };
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->administrator, "no longer");

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      GError *error = NULL;

      g_assert_false (sw_void_record (scene->plant->store, &actor, tables[i], 1, &error));
      scene_assert_fact (&error, SW_FACT_NEVER_VOIDED);
    }
}

static gboolean
void_incident (Scene *scene, gint64 id, GError **error)
{
  const SwActor actor = correct_actor (scene, scene->plant->reviewer, "it was the strip");

  return sw_void_record (scene->plant->store, &actor, SW_TABLE_INCIDENT, id, error);
}

/* An incident lasts as long as the acid that opened it. */
static void
test_incident (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwIncident) incident = NULL;
  g_autoptr (SwIncident) left = NULL;
  GError *error = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  incident = scene_incident (scene);
  g_assert_false (void_incident (scene, incident->record.id, &error));
  g_assert_cmpstr (sw_workflow_error_get_fact (error)->text, ==, "M-07-261124-1");
  scene_assert_fact (&error, SW_FACT_STILL_USED);
  correct_void (scene, SW_TABLE_TITRATION, scene_titration (scene));
  g_assert_true (void_incident (scene, incident->record.id, &error));
  left = scene_incident (scene);
  g_assert_null (left);
  scene_assert_sound (scene);
}

/* ---- what goes with it ---- */

static guint
count_rows (Scene *scene, SwTable table, const char *column, gint64 value)
{
  GError *error = NULL;
  g_autoptr (GArray) ids = sw_record_ids (scene->plant->store, table, column, value, &error);

  g_assert_no_error (error);
  return ids->len;
}

static void
test_machine_with_parts (void)
{
  static const SwTable tables[]
      = { SW_TABLE_COMPARTMENT, SW_TABLE_SAMPLING_POINT, SW_TABLE_FILL, SW_TABLE_PLAN };
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->administrator, "sold");
  const SwTestMachine other = sw_test_plant_add_machine (scene->plant, "M-08");
  GError *error = NULL;

  sw_void_record (scene->plant->store, &actor, SW_TABLE_MACHINE, other.machine, &error);
  g_assert_no_error (error);
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_assert_cmpuint (count_rows (scene, tables[i], "machine", other.machine), ==, 0);
      g_assert_cmpuint (count_rows (scene, tables[i], "machine", scene->machine.machine), >, 0);
    }
  scene_assert_sound (scene);
}

/* A change of solvent that never was: what was dosed before it counts for the total again. */
static void
test_fill (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->administrator, "the wrong machine");
  gint64 machine = scene->machine.machine;
  GError *error = NULL;
  gint64 fill;

  sw_setup_new_fill (scene->plant->store, &actor, machine, 0, &error);
  g_assert_no_error (error);
  fill = sw_machine_fill (scene->plant->store, machine, &error);
  g_assert_cmpint (fill, !=, scene->machine.fill);
  sw_void_record (scene->plant->store, &actor, SW_TABLE_FILL, fill, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_machine_fill (scene->plant->store, machine, &error), ==, scene->machine.fill);
}

/* ---- undo ---- */

static SwLot *
make_lot (Scene *scene)
{
  SwLot *lot = sw_lot_new ();

  lot->product = scene->plant->neutraliser;
  lot->code = g_strdup ("N-2");
  return lot;
}

/* Gone with its reason, which is a word of the file; and typed again under the same code. */
static void
test_undo (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->technician, NULL);
  g_autoptr (SwLot) lot = make_lot (scene);
  g_autoptr (SwLot) undone = NULL;
  g_autoptr (SwLot) again = make_lot (scene);
  g_autoptr (GPtrArray) story = NULL;
  const SwChapter *last;
  GError *error = NULL;

  sw_setup_lot (scene->plant->store, &actor, lot, &error);
  g_assert_no_error (error);
  sw_undo_record (scene->plant->store, &actor, SW_TABLE_LOT, lot->record.id, &error);
  g_assert_no_error (error);
  story = sw_story_read (scene->plant->store, SW_TABLE_LOT, lot->record.id, &error);
  g_assert_no_error (error);
  last = g_ptr_array_index (story, story->len - 1);
  g_assert_cmpstr (last->reason, ==, "undone at once");
  g_assert_cmpstr (last->action, ==, "void");
  undone = sw_lot_load (scene->plant->store, lot->record.id, &error);
  g_assert_true (undone->record.voided);
  g_assert_true (g_str_has_prefix (undone->code, "N-2 ~"));
  sw_setup_lot (scene->plant->store, &actor, again, &error);
  g_assert_no_error (error);
  scene_assert_sound (scene);
}

/* What is in use already is not undone. */
static void
test_undo_used (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = correct_actor (scene, scene->plant->administrator, NULL);
  g_autoptr (SwProduct) product = NULL;
  GError *error = NULL;

  g_assert_false (sw_undo_record (scene->plant->store, &actor, SW_TABLE_PRODUCT,
                                  scene->plant->neutraliser, &error));
  scene_assert_fact (&error, SW_FACT_STILL_USED);
  product = sw_product_load (scene->plant->store, scene->plant->neutraliser, &error);
  g_assert_cmpstr (product->name, ==, "invented amine");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/void/used", used_rows, test_used);
  SW_TEST_ROWS ("/void/right", right_rows, test_right);
  g_test_add_func ("/void/lasting", test_lasting);
  g_test_add_func ("/void/incident", test_incident);
  g_test_add_func ("/void/machine", test_machine_with_parts);
  g_test_add_func ("/void/fill", test_fill);
  g_test_add_func ("/void/undo", test_undo);
  g_test_add_func ("/void/undo-used", test_undo_used);
  return g_test_run ();
}
