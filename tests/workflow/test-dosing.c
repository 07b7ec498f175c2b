/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules of dosing: every refusal, and which of two is told. */
#include "change.h"

#include "workflow/setup.h"

/* ---- refusals ---- */

static void
end_acid (Scene *scene)
{
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 2);
}

static void
end_passed (Scene *scene)
{
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
}

static void
end_control (Scene *scene)
{
  scene_test (scene, SW_PURPOSE_CONTROL, 0, 2);
}

static void
end_over_range (Scene *scene)
{
  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 20.0);
  scene_read (scene, SW_FIELD_ACID);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
}

static void
end_wide (Scene *scene)
{
  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, 5.0);
  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_read (scene, SW_FIELD_NEUTRAL);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
}

static void
end_at_separator (Scene *scene)
{
  scene->machine.point = scene->machine.separator;
  end_acid (scene);
}

/* A dose is out, and a routine test finds acid before its re-test. */
static void
end_after_dose (Scene *scene)
{
  scene_dosed_test (scene, 2);
  end_acid (scene);
}

/* Another dose of the machine that nobody recorded, as only another tool could leave it behind. */
static void
end_with_open_dose (Scene *scene)
{
  gint64 other;
  gint64 dose G_GNUC_UNUSED;

  end_passed (scene);
  other = scene_titration (scene);
  end_acid (scene);
  INSERT_ROW (scene, SwDoseRow, sw_dose_row, dose, row->titration = other);
}

static void
no_change (Scene *scene)
{
}

static void
wait_8_h (Scene *scene)
{
  const SwTitration *titration = sw_guided_test_get_titration (scene->test);

  scene->plant->now_ms = titration->closed_ms + 8 * SW_TEST_HOUR_MS;
}

static void
wait_longer (Scene *scene)
{
  wait_8_h (scene);
  scene->plant->now_ms += 1;
}

static void
change_solvent (Scene *scene)
{
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->administrator);
  GError *error = NULL;

  sw_setup_new_fill (scene->plant->store, &actor, scene->machine.machine, 0, &error);
  g_assert_no_error (error);
}

#define MACHINE(change) CHANGE (scene, SwMachine, sw_machine, scene->machine.machine, change)
#define PRODUCT(change) CHANGE (scene, SwProduct, sw_product, scene->plant->neutraliser, change)

static void
drop_product (Scene *scene)
{
  MACHINE (row->neutraliser = 0);
}

static void
dose_caustic (Scene *scene)
{
  MACHINE (row->neutraliser = scene->plant->caustic);
}

static void
dose_strips (Scene *scene)
{
  MACHINE (row->neutraliser = scene->plant->strips);
}

static void
drop_limits (Scene *scene)
{
  PRODUCT (row->limit_each_ml_l = NAN);
}

static void
drop_total_limit (Scene *scene)
{
  PRODUCT (row->limit_total_ml_l = NAN);
}

static void
say_no_limits (Scene *scene)
{
  PRODUCT (row->limit_each_ml_l = row->limit_total_ml_l = NAN;
           row->no_limits_by = g_strdup ("A. Invented"));
}

static void
drop_place (Scene *scene)
{
  MACHINE (g_clear_pointer (&row->dosing_place, g_free));
}

static void
drop_circulation (Scene *scene)
{
  MACHINE (row->circulation_min = NAN);
}

static void
drop_jug (Scene *scene)
{
  MACHINE (row->graduation.value = NAN);
}

static void
drop_volume (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_record_ids (scene->plant->store, SW_TABLE_COMPARTMENT, "machine",
                                          scene->machine.machine, &error);

  sw_test_plant_begin (scene->plant, SW_ACT_VOID);
  for (guint i = 0; i < ids->len; i++)
    sw_record_void (scene->plant->store, SW_TABLE_COMPARTMENT, g_array_index (ids, gint64, i),
                    &error);
  g_assert_no_error (error);
  sw_test_plant_commit (scene->plant);
}

/* The titrant is another liquid, and its strength and the product's are not known. */
static void
dose_other_product (Scene *scene)
{
  gint64 other;

  INSERT_ROW (scene, SwProduct, sw_product, other, row->name = g_strdup ("other amine");
              row->limit_each_ml_l = 10.0; row->limit_total_ml_l = 60.0);
  MACHINE (row->neutraliser = other);
}

static void
make_epoxide (Scene *scene)
{
  PRODUCT (row->kind = SW_NEUTRALISER_EPOXIDE);
}

/* 840 mL in a jug with marks of 500 mL: 1,000 mL would be 19 % more. */
static void
take_coarse_jug (Scene *scene)
{
  MACHINE (row->graduation.value = 500.0);
}

/* 1 mL/L in 420 L: 420 mL in all, 840 mL needed. */
static void
lower_total (Scene *scene)
{
  PRODUCT (row->limit_each_ml_l = row->limit_total_ml_l = 1.0);
}

static void
drop_place_and_jug (Scene *scene)
{
  drop_jug (scene);
  drop_place (scene);
}

static void
drop_product_and_wait (Scene *scene)
{
  drop_product (scene);
  wait_longer (scene);
}

typedef struct
{
  const char *name;
  void (*end) (Scene *scene);
  void (*change) (Scene *scene);
  SwFactCode refusal;
} Refusal;

/* clang-format off */
static const Refusal refusals[] = {
  { "none", end_acid, no_change, SW_FACT_NONE },
  { "passed", end_passed, no_change, SW_FACT_NO_DOSE_OUTCOME },
  { "control", end_control, no_change, SW_FACT_NO_DOSE_OUTCOME },
  { "over range", end_over_range, no_change, SW_FACT_NO_DOSE_OVER_RANGE },
  { "open dose", end_with_open_dose, no_change, SW_FACT_MACHINE_LOCKED },
  { "re-test first", end_after_dose, no_change, SW_FACT_RETEST_FIRST },
  { "eight hours", end_acid, wait_8_h, SW_FACT_NONE },
  { "over eight hours", end_acid, wait_longer, SW_FACT_NO_DOSE_LAPSED },
  { "solvent changed", end_acid, change_solvent, SW_FACT_NO_DOSE_LAPSED },
  { "point", end_at_separator, no_change, SW_FACT_NO_DOSE_POINT },
  { "no product", end_acid, drop_product, SW_FACT_NO_DOSE_PRODUCT },
  { "strips as product", end_acid, dose_strips, SW_FACT_NO_DOSE_PRODUCT },
  { "caustic as product", end_acid, dose_caustic, SW_FACT_NO_DOSE_CAUSTIC_PRODUCT },
  { "no limit each", end_acid, drop_limits, SW_FACT_NO_DOSE_LIMITS },
  { "no limit total", end_acid, drop_total_limit, SW_FACT_NO_DOSE_LIMITS },
  { "sheet gives none", end_acid, say_no_limits, SW_FACT_NONE },
  { "place", end_acid, drop_place, SW_FACT_NO_DOSE_PLACE },
  { "circulation", end_acid, drop_circulation, SW_FACT_NO_DOSE_CIRCULATION },
  { "volume", end_acid, drop_volume, SW_FACT_NO_DOSE_VOLUME },
  { "jug", end_acid, drop_jug, SW_FACT_NO_DOSE_JUG },
  { "strength", end_acid, dose_other_product, SW_FACT_NO_DOSE_STRENGTH },
  { "epoxide as titrant", end_acid, make_epoxide, SW_FACT_NO_DOSE_STRENGTH },
  { "wide step", end_wide, no_change, SW_FACT_NO_DOSE_STEP_WIDE },
  { "total", end_acid, lower_total, SW_FACT_NO_DOSE_TOTAL },
  { "coarse jug", end_acid, take_coarse_jug, SW_FACT_NO_DOSE_COARSE },
  /* two at once: the more fundamental one is told */
  { "order/over range before point", end_over_range, drop_product, SW_FACT_NO_DOSE_OVER_RANGE },
  { "order/re-test before product", end_after_dose, drop_product, SW_FACT_RETEST_FIRST },
  { "order/lapsed before product", end_acid, drop_product_and_wait, SW_FACT_NO_DOSE_LAPSED },
  { "order/point before place", end_at_separator, drop_place, SW_FACT_NO_DOSE_POINT },
  { "order/place before jug", end_acid, drop_place_and_jug, SW_FACT_NO_DOSE_PLACE },
  { "order/place before wide step", end_wide, drop_place, SW_FACT_NO_DOSE_PLACE },
};
/* clang-format on */

/* On the Dose page a refused figure cannot be decided, and "no dose" ends the test. */
static void
check_dose_page (Scene *scene, SwFactCode refusal)
{
  const SwSigner release = sw_test_plant_signer (scene->plant->reviewer);
  GError *error = NULL;
  SwFact fact;

  g_assert_false (sw_guided_test_can (scene->test, SW_MOVE_DECIDE_DOSE, scene_now (scene), &fact));
  g_assert_cmpint (fact.code, ==, refusal);
  g_assert_false (sw_guided_test_decide_dose (scene->test, 0.0, NULL, &release, &error));
  scene_assert_fact (&error, refusal);
  sw_guided_test_no_dose (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  g_assert_null (sw_guided_test_get_dose (scene->test));
}

static void
test_refusal (gconstpointer data)
{
  const Refusal *row = data;
  g_autoptr (Scene) scene = scene_new ();
  g_auto (SwDoseProposal) proposal = { 0 };
  GError *error = NULL;

  row->end (scene);
  row->change (scene);
  scene_resume (scene, scene_titration (scene));
  sw_guided_test_propose (scene->test, 0.0, &proposal, &error);
  g_assert_no_error (error);
  g_assert_cmpint (proposal.refusal.code, ==, row->refusal);
  if (row->refusal != SW_FACT_NONE && scene_step (scene) == SW_STEP_DOSE)
    check_dose_page (scene, row->refusal);
}

/* What is left of the total limit is told: 60 mL/L of 420 L less what was added. */
static void
test_total_left (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_auto (SwDoseProposal) proposal = { 0 };
  GError *error = NULL;
  gint64 dose = scene_dosed_test (scene, 2);

  PRODUCT (row->limit_each_ml_l = row->limit_total_ml_l = 3.0);
  sw_test_plant_advance (scene->plant, 60.0);
  scene_test (scene, SW_PURPOSE_RETEST, dose, 2);
  /* 3 * 420 = 1260, of which 840 are in: 420 left, 840 wanted. */
  sw_guided_test_propose (scene->test, 0.0, &proposal, &error);
  g_assert_no_error (error);
  g_assert_cmpint (proposal.refusal.code, ==, SW_FACT_NO_DOSE_TOTAL);
  sw_assert_close (proposal.refusal.number[0], 420.0, 1e-12);
  g_assert_cmpint (proposal.last_dose, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autofree char *path = sw_test_path ("/dosing/refusal", refusals[i].name);
      g_test_add_data_func (path, &refusals[i], test_refusal);
    }
  g_test_add_func ("/dosing/total-left", test_total_left);
  return g_test_run ();
}
