/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The amount of a dose: extra, who must release it, parts, waiting time, supplier's chart,
 * strengths. */
#include "change.h"

#include "workflow/setup.h"

#define MACHINE(change) CHANGE (scene, SwMachine, sw_machine, scene->machine.machine, change)
#define PRODUCT(change) CHANGE (scene, SwProduct, sw_product, scene->plant->neutraliser, change)

/* ---- extra ---- */

static void
test_extra (void)
{
  g_autoptr (Scene) scene = scene_new ();
  static const double wrong[] = { -1.0, 1001.0, INFINITY };
  GError *error = NULL;
  const SwDoseRow *dose;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 2);
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_assert_false (sw_guided_test_decide_dose (scene->test, wrong[i], NULL, NULL, &error));
      sw_assert_fault (&error, isfinite (wrong[i]) ? SW_FAULT_RANGE : SW_FAULT_NOT_A_NUMBER,
                       SW_QUANTITY_EXTRA);
    }
  g_assert_false (sw_guided_test_decide_dose (scene->test, NAN, NULL, NULL, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_EXTRA);
  sw_guided_test_decide_dose (scene->test, 2.0, "two more days", NULL, &error);
  g_assert_no_error (error);
  dose = sw_guided_test_get_dose (scene->test);
  sw_assert_close (dose->measured_ml, 4.0 * 420.0, 1e-12);
  sw_assert_close (dose->extra_steps, 2.0, 1e-12);
  g_assert_cmpstr (dose->extra_reason, ==, "two more days");
}

/* ---- release ---- */

typedef struct
{
  const char *name;
  int drops;
  double limit_each; /* mL/L */
  SwFactCode release;
} Release;

/* A drop is worth 420 mL. Half of 4 mL/L in 420 L is 840 mL: two drops. */
static const Release releases[] = {
  { "one drop", 1, 10.0, SW_FACT_NONE },
  { "four drops", 4, 10.0, SW_FACT_NONE },
  { "five drops", 5, 20.0, SW_FACT_NEEDS_RELEASE_DROPS },
  { "under half the limit", 1, 4.0, SW_FACT_NONE },
  { "half the limit", 2, 4.0, SW_FACT_NEEDS_RELEASE_LIMIT },
};

static void
test_release (gconstpointer data)
{
  const Release *row_data = data;
  g_autoptr (Scene) scene = scene_new ();
  g_auto (SwDoseProposal) proposal = { 0 };
  GError *error = NULL;

  PRODUCT (row->limit_each_ml_l = row_data->limit_each);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, row_data->drops);
  sw_guided_test_propose (scene->test, 0.0, &proposal, &error);
  g_assert_no_error (error);
  g_assert_cmpint (proposal.refusal.code, ==, SW_FACT_NONE);
  g_assert_cmpint (proposal.release.code, ==, row_data->release);
}

static void
test_second_dose (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_auto (SwDoseProposal) proposal = { 0 };
  GError *error = NULL;
  gint64 dose = scene_dosed_test (scene, 2);

  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 1);
  sw_guided_test_propose (scene->test, 0.0, &proposal, &error);
  g_assert_no_error (error);
  g_assert_cmpint (proposal.release.code, ==, SW_FACT_NEEDS_RELEASE_SECOND);
  g_assert_cmpint (proposal.last_dose, ==, dose);
  g_assert_cmpint (proposal.last_retest, ==, SW_OUTCOME_ACID_FOUND);
}

typedef enum
{
  RELEASER_NOBODY,
  RELEASER_COLLEAGUE,
  RELEASER_AUDITOR,
  RELEASER_REVIEWER,
  RELEASER_ADMINISTRATOR,
  RELEASER_INACTIVE,
  RELEASER_ANALYST
} Releaser;

static const struct
{
  const char *name;
  Releaser who;
  gboolean may;
} releasers[] = {
  { "nobody", RELEASER_NOBODY, FALSE },
  { "technician", RELEASER_COLLEAGUE, FALSE },
  { "auditor", RELEASER_AUDITOR, FALSE },
  { "reviewer", RELEASER_REVIEWER, TRUE },
  { "administrator", RELEASER_ADMINISTRATOR, TRUE },
  { "inactive reviewer", RELEASER_INACTIVE, FALSE },
  { "reviewer who titrated", RELEASER_ANALYST, FALSE },
};

static gint64
pick_releaser (Scene *scene, Releaser who)
{
  const SwTestPlant *plant = scene->plant;

  switch (who)
    {
    case RELEASER_COLLEAGUE:
      return plant->colleague;
    case RELEASER_AUDITOR:
      return plant->auditor;
    case RELEASER_ADMINISTRATOR:
      return plant->administrator;
    case RELEASER_REVIEWER:
    case RELEASER_INACTIVE:
    case RELEASER_ANALYST:
      return plant->reviewer;
    case RELEASER_NOBODY:
    default:
      return 0;
    }
}

static void
check_release_row (Scene *scene, gint64 person)
{
  g_autoptr (GError) error = NULL;
  const SwDoseRow *dose = sw_guided_test_get_dose (scene->test);
  g_autoptr (GArray) ids = sw_record_ids_by_text (scene->plant->store, SW_TABLE_REVIEW,
                                                  "subject_table", "dose", &error);
  g_autoptr (SwReview) review = NULL;

  g_assert_no_error (error);
  g_assert_cmpint (dose->released_by, ==, person);
  g_assert_cmpint (dose->released_ms, >, 0);
  g_assert_cmpuint (ids->len, ==, 1);
  review = sw_review_load (scene->plant->store, g_array_index (ids, gint64, 0), &error);
  g_assert_cmpint (review->meaning, ==, SW_MEANING_RELEASED);
  g_assert_cmpint (review->person, ==, person);
  g_assert_cmpint (review->subject, ==, dose->record.id);
}

static void
test_releaser (gconstpointer data)
{
  gsize index = GPOINTER_TO_SIZE (data);
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gint64 person = pick_releaser (scene, releasers[index].who);
  const SwSigner release = sw_test_plant_signer (person);
  gboolean decided;

  if (releasers[index].who == RELEASER_ANALYST)
    scene->person = person;
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 5);
  if (releasers[index].who == RELEASER_INACTIVE)
    CHANGE (scene, SwPerson, sw_person, person, row->active = FALSE);
  decided = sw_guided_test_decide_dose (scene->test, 0.0, NULL, &release, &error);
  g_assert_cmpint (decided, ==, releasers[index].may);
  if (decided)
    check_release_row (scene, person);
  else
    scene_assert_fact (&error, SW_FACT_NEEDS_RELEASE_DROPS);
}

/* ---- split and wait ---- */

static void
test_split (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_auto (SwDoseProposal) proposal = { 0 };
  GError *error = NULL;

  PRODUCT (row->limit_each_ml_l = 2.0);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  sw_guided_test_propose (scene->test, 0.0, &proposal, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (proposal.parts->len, ==, 2);
  sw_assert_close (g_array_index (proposal.parts, double, 0), 840.0, 1e-12);
  sw_assert_close (g_array_index (proposal.parts, double, 1), 420.0, 1e-12);
}

static void
test_slow_product (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwDoseRow *dose;

  PRODUCT (row->kind = SW_NEUTRALISER_BOTH; row->reaction_min = 120.0);
  scene_dosed_test (scene, 2);
  dose = sw_guided_test_get_dose (scene->test);
  g_assert_cmpint (dose->retest_due_ms - dose->added_ms, ==, 120 * SW_TEST_MINUTE_MS);
}

static void
test_fast_product (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwDoseRow *dose;

  PRODUCT (row->reaction_min = 5.0);
  scene_dosed_test (scene, 2);
  dose = sw_guided_test_get_dose (scene->test);
  g_assert_cmpint (dose->retest_due_ms - dose->added_ms, ==,
                   (gint64)SW_TEST_PLANT_CIRCULATION_MIN * SW_TEST_MINUTE_MS);
}

/* ---- supplier's chart ---- */

typedef struct
{
  const char *name;
  double factor; /* mL/L and drop; ours is 420 mL / 420 L = 1 */
  gboolean governs;
  double ratio;
  gboolean flagged;
  double measured; /* of 3 drops, jug of 20 mL */
} Supplier;

static const Supplier suppliers[] = {
  { "same", 1.0, FALSE, 1.0, FALSE, 1260.0 },
  { "ten percent less", 0.9, FALSE, 0.9, FALSE, 1260.0 },
  { "less", 0.85, FALSE, 0.85, TRUE, 1260.0 },
  { "more", 1.2, FALSE, 1.2, TRUE, 1260.0 },
  /* 3 * 1.2 * 420 = 1512, up to the next 20 */
  { "governs", 1.2, TRUE, 1.2, TRUE, 1520.0 },
};

static void
test_supplier (gconstpointer data)
{
  const Supplier *chart = data;
  g_autoptr (Scene) scene = scene_new ();
  g_auto (SwDoseProposal) proposal = { 0 };
  const SwDoseRow *dose;
  GError *error = NULL;

  CHANGE (scene, SwMethodVersion, sw_method_version, scene->plant->version,
          row->supplier_factor_ml_l = chart->factor;
          row->supplier_governs = chart->governs);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  sw_guided_test_propose (scene->test, 0.0, &proposal, &error);
  g_assert_no_error (error);
  sw_assert_close (proposal.supplier_ml, 1260.0 * chart->factor, 1e-12);
  sw_assert_close (proposal.supplier_ratio, chart->ratio, 1e-12);
  g_assert_cmpint (proposal.supplier_flagged, ==, chart->flagged);
  sw_assert_close (proposal.dose.measure_ml, chart->measured, 1e-12);
  scene_decide (scene, 0.0);
  dose = sw_guided_test_get_dose (scene->test);
  g_assert_cmpint (dose->supplier_governs, ==, chart->governs);
  sw_assert_close (dose->supplier_ml, 1260.0 * chart->factor, 1e-12);
  sw_assert_close (dose->measured_ml, chart->measured, 1e-12);
  scene_assert_sound (scene);
}

/* ---- strengths and a counting addition ----
 *
 * The figures stand in the design's references ("Worked dose figures"): 420 L, 50 mL, 3 drops of
 * 0.05 mL, product 7.5 mmol/mL. */
typedef struct
{
  const char *name;
  double titrant; /* mmol/mL; NAN: the product itself is the titrant */
  double caustic; /* mmol that count; NAN = no addition */
  double dose_ml;
} Strength;

static const Strength strengths[] = {
  { "dilute titrant", 0.1, NAN, 16.8 },
  { "dilute titrant and caustic", 0.1, 0.1, 128.8 },
  { "product itself", NAN, NAN, 1260.0 },
  { "product itself and caustic", NAN, 0.1, 1372.0 },
};

static gint64
add_titrant (Scene *scene, double strength)
{
  gint64 titrant;
  gint64 calibration G_GNUC_UNUSED;

  INSERT_ROW (scene, SwProduct, sw_product, titrant, row->name = g_strdup ("dilute titrant");
              row->use = SW_PRODUCT_TITRANT; row->strength_mmol_ml = strength);
  INSERT_ROW (scene, SwCalibration, sw_calibration, calibration, row->product = titrant;
              row->dropper = g_strdup ("dropper B"); row->drop.value = SW_TEST_PLANT_DROP_ML);
  INSERT_ROW (scene, SwLot, sw_lot, scene->plant->neutraliser_lot, row->product = titrant;
              row->code = g_strdup ("T-1"));
  return titrant;
}

static void
adopt_for (Scene *scene, const Strength *strength)
{
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->administrator);
  gint64 titrant = isnan (strength->titrant) ? scene->plant->neutraliser
                                             : add_titrant (scene, strength->titrant);
  gboolean counts = !isnan (strength->caustic);
  SwPlan *plan = sw_plan_new ();
  GError *error = NULL;

  sw_setup_adopt_method (scene->plant->store, &actor,
                         counts ? "drop-test-caustic" : "drop-test-neutraliser", "Other test",
                         titrant, counts ? scene->plant->caustic : 0, strength->caustic, counts,
                         &plan->method, &error);
  g_assert_no_error (error);
  plan->machine = scene->machine.machine;
  plan->shortest_days = 1.0;
  plan->longest_days = 7.0;
  plan->alpha = 0.1;
  plan->active = TRUE;
  sw_setup_plan (scene->plant->store, &actor, plan, &error);
  g_assert_no_error (error);
  scene->machine.plan = plan->record.id;
  sw_plan_free (plan);
}

static void
test_strength (gconstpointer data)
{
  const Strength *strength = data;
  g_autoptr (Scene) scene = scene_new ();
  g_auto (SwDoseProposal) proposal = { 0 };
  SwPrepareEntry prepare;
  GError *error = NULL;

  PRODUCT (row->strength_mmol_ml = 7.5);
  MACHINE (row->graduation.value = 0.1);
  adopt_for (scene, strength);
  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  scene_draw (scene);
  prepare = scene_prepare_entry (scene);
  prepare.caustic_lot = scene->plant->caustic_lot;
  sw_guided_test_prepare (scene->test, &prepare, &error);
  g_assert_no_error (error);
  scene_titrate (scene, 3);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
  sw_guided_test_propose (scene->test, 0.0, &proposal, &error);
  g_assert_no_error (error);
  g_assert_cmpint (proposal.refusal.code, ==, SW_FACT_NONE);
  sw_assert_close (proposal.dose.dose_ml.value, strength->dose_ml, 1e-9);
  scene_decide (scene, 0.0);
  scene_assert_sound (scene);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD_ROWS(rows, group, test)                                                                \
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)                                                  \
    {                                                                                              \
      g_autofree char *path = sw_test_path ("/amount/" group, rows[i].name);                       \
      g_test_add_data_func (path, &rows[i], test);                                                 \
    }
  ADD_ROWS (releases, "release", test_release)
  ADD_ROWS (suppliers, "supplier", test_supplier)
  ADD_ROWS (strengths, "strength", test_strength)
  for (gsize i = 0; i < G_N_ELEMENTS (releasers); i++)
    {
      g_autofree char *path = sw_test_path ("/amount/releaser", releasers[i].name);
      g_test_add_data_func (path, GSIZE_TO_POINTER (i), test_releaser);
    }
  g_test_add_func ("/amount/release/second-dose", test_second_dose);
  g_test_add_func ("/amount/extra", test_extra);
  g_test_add_func ("/amount/split", test_split);
  g_test_add_func ("/amount/wait/slow-product", test_slow_product);
  g_test_add_func ("/amount/wait/fast-product", test_fast_product);
  return g_test_run ();
}
