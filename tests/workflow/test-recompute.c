/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stored result that does not follow from its readings and inputs is found. */
#include "change.h"

#include "workflow/recompute.h"

/* The one finding of a file, or none. (transfer full) */
static SwVerifyReport *
recompute (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  SwVerifyReport *report = sw_verify_full (scene->plant->store, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (report->findings->len, ==, 0);
  sw_recompute_all (scene->plant->store, report, &error);
  g_assert_no_error (error);
  return report;
}

static void
check_finding (SwVerifyReport *report, const char *table, const char *column, gint64 row)
{
  const SwFinding *finding;

  g_assert_cmpuint (report->findings->len, ==, 1);
  finding = report->findings->pdata[0];
  g_assert_cmpint (finding->kind, ==, SW_FINDING_RESULT);
  g_assert_cmpstr (finding->table, ==, table);
  g_assert_cmpstr (finding->column, ==, column);
  g_assert_cmpint (finding->row, ==, row);
}

/* Changed through the row writer, journal and all: only recomputation can see it. */
static void
test_titration (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwVerifyReport) report = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  CHANGE (scene, SwTitration, sw_titration, scene_titration (scene), row->net_high = 3.001);
  report = recompute (scene);
  check_finding (report, "titration", "net_high", scene_titration (scene));
}

static void
test_outcome (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwVerifyReport) report = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  CHANGE (scene, SwTitration, sw_titration, scene_titration (scene),
          row->outcome = SW_OUTCOME_PASSED);
  report = recompute (scene);
  check_finding (report, "titration", "outcome", scene_titration (scene));
}

static void
test_dose (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwVerifyReport) report = NULL;
  const SwFinding *finding;
  gint64 dose = scene_dosed_test (scene, 3);

  CHANGE (scene, SwDoseRow, sw_dose_row, dose, row->measured_ml = 1280.0);
  report = recompute (scene);
  check_finding (report, "dose", "measured_m3", dose);
  /* m3, as the column's name says */
  finding = report->findings->pdata[0];
  sw_assert_close (g_ascii_strtod (finding->expected, NULL), 1260e-6, 1e-12);
  sw_assert_close (g_ascii_strtod (finding->found, NULL), 1280e-6, 1e-12);
}

/* 1e-9 relative: less is rounding, more is a finding. */
static void
test_tolerance (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwVerifyReport) same = NULL;
  g_autoptr (SwVerifyReport) other = NULL;
  gint64 dose = scene_dosed_test (scene, 3);

  CHANGE (scene, SwDoseRow, sw_dose_row, dose, row->computed_ml = 1260.0 * (1.0 + 5e-10));
  same = recompute (scene);
  g_assert_cmpuint (same->findings->len, ==, 0);
  CHANGE (scene, SwDoseRow, sw_dose_row, dose, row->computed_ml = 1260.0 * (1.0 + 2e-9));
  other = recompute (scene);
  check_finding (other, "dose", "computed_m3", dose);
}

/* A reading changed afterwards: the stored outcome no longer follows from it. */
static void
test_reading (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwVerifyReport) report = NULL;
  const SwReadingRow *last;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 0);
  last = g_ptr_array_index (sw_guided_test_get_readings (scene->test), 1);
  CHANGE (scene, SwReadingRow, sw_reading_row, last->record.id, row->meaning = SW_FIELD_ACID);
  report = recompute (scene);
  g_assert_cmpuint (report->findings->len, >, 0);
  g_assert_cmpint (((SwFinding *)report->findings->pdata[0])->row, ==, scene_titration (scene));
}

/* What another version of the calculation stored is recomputed, too, and reported apart. */
static void
test_other_version (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwVerifyReport) report = NULL;
  const SwFinding *note;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  CHANGE (scene, SwTitration, sw_titration, scene_titration (scene), row->net_high = 3.001;
          row->calc_version = SW_CALC_VERSION + 1);
  report = recompute (scene);
  g_assert_cmpuint (report->findings->len, ==, 0);
  g_assert_cmpuint (report->notes->len, ==, 1);
  note = report->notes->pdata[0];
  g_assert_cmpint (note->kind, ==, SW_FINDING_VERSION);
  g_assert_cmpstr (note->column, ==, "net_high");
  g_assert_cmpint (note->count, ==, SW_CALC_VERSION + 1);
}

/* The same result from another version is worth no word. */
static void
test_same_version (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (SwVerifyReport) report = NULL;

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  CHANGE (scene, SwTitration, sw_titration, scene_titration (scene),
          row->calc_version = SW_CALC_VERSION + 1);
  report = recompute (scene);
  g_assert_cmpuint (report->findings->len + report->notes->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/recompute/titration", test_titration);
  g_test_add_func ("/recompute/outcome", test_outcome);
  g_test_add_func ("/recompute/dose", test_dose);
  g_test_add_func ("/recompute/tolerance", test_tolerance);
  g_test_add_func ("/recompute/reading", test_reading);
  g_test_add_func ("/recompute/other-version", test_other_version);
  g_test_add_func ("/recompute/same-version", test_same_version);
  return g_test_run ();
}
