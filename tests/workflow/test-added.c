/* SPDX-License-Identifier: GPL-3.0-or-later */
/* After the dose is decided: what was added, by whom, or that nobody knows; the 8 hours; the lock.
 */
#include "change.h"

/* ---- what was added: the entry ---- */

typedef enum
{
  LOT_GOOD,
  LOT_NONE,
  LOT_CAUSTIC,
  LOT_STRIPS,
  LOT_EXPIRED,
  LOT_EXPIRED_REASON
} LotChoice;

typedef struct
{
  const char *name;
  double amount_ml;
  const char *typed;
  LotChoice lot;
  double minutes; /* after the decision; NAN: now */
  SwFactCode fact;
  int fault; /* SwFaultCode, -1 = none */
  SwQuantityName quantity;
} Entry;

#define FINE SW_FACT_NONE, -1, SW_QUANTITY_NONE
#define FACT(code) SW_FACT_##code, -1, SW_QUANTITY_NONE
#define FAULT(code, quantity) SW_FACT_NONE, SW_FAULT_##code, SW_QUANTITY_##quantity

/* 1,260 mL were measured; it is an hour after the decision. */
/* clang-format off */
static const Entry entries[] = {
  { "as measured", 1260.0, "1260 mL", LOT_GOOD, NAN, FINE },
  { "less", 300.0, NULL, LOT_GOOD, NAN, FINE },
  { "twice", 2520.0, NULL, LOT_GOOD, NAN, FINE },
  { "ten times", 12600.0, NULL, LOT_GOOD, NAN, FAULT (RANGE, ADDED_AMOUNT) },
  { "nothing", 0.0, NULL, LOT_GOOD, NAN, FAULT (RANGE, ADDED_AMOUNT) },
  { "negative", -20.0, NULL, LOT_GOOD, NAN, FAULT (RANGE, ADDED_AMOUNT) },
  { "empty", NAN, NULL, LOT_GOOD, NAN, FAULT (MISSING, ADDED_AMOUNT) },
  { "text", NAN, "some", LOT_GOOD, NAN, FAULT (NOT_A_NUMBER, ADDED_AMOUNT) },
  { "infinite", INFINITY, NULL, LOT_GOOD, NAN, FAULT (NOT_A_NUMBER, ADDED_AMOUNT) },
  { "no lot", 1260.0, NULL, LOT_NONE, NAN, FACT (LOT_MISSING) },
  { "caustic", 1260.0, NULL, LOT_CAUSTIC, NAN, FACT (NO_DOSE_CAUSTIC_PRODUCT) },
  { "strips", 1260.0, NULL, LOT_STRIPS, NAN, FACT (LOT_MISSING) },
  { "expired", 1260.0, NULL, LOT_EXPIRED, NAN, FACT (LOT_EXPIRED) },
  { "expired with reason", 1260.0, NULL, LOT_EXPIRED_REASON, NAN, FINE },
  { "half an hour ago", 1260.0, NULL, LOT_GOOD, 30.0, FINE },
  { "before the decision", 1260.0, NULL, LOT_GOOD, -1.0, FAULT (RANGE, DATE) },
  { "in the future", 1260.0, NULL, LOT_GOOD, 61.0, FAULT (RANGE, DATE) },
};
/* clang-format on */

static gint64
pick_lot (const SwTestPlant *plant, LotChoice choice)
{
  switch (choice)
    {
    case LOT_GOOD:
      return plant->neutraliser_lot;
    case LOT_CAUSTIC:
      return plant->caustic_lot;
    case LOT_STRIPS:
      return plant->strip_lot;
    case LOT_EXPIRED:
    case LOT_EXPIRED_REASON:
      return plant->expired_lot;
    case LOT_NONE:
    default:
      return 0;
    }
}

static Scene *
new_decided (void)
{
  Scene *scene = scene_new ();

  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  scene_decide (scene, 0.0);
  return scene;
}

static void
wait_since_decision (Scene *scene, double minutes)
{
  scene->plant->now_ms = sw_guided_test_get_dose (scene->test)->decided_ms;
  sw_test_plant_advance (scene->plant, minutes);
}

static void
check_added (Scene *scene, const Entry *entry, gint64 added_ms)
{
  const SwDoseRow *dose = sw_guided_test_get_dose (scene->test);

  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  g_assert_cmpint (dose->state, ==, SW_DOSE_ADDED);
  sw_assert_close (dose->added.value, entry->amount_ml, 1e-12);
  g_assert_cmpstr (dose->added.typed, ==, entry->typed);
  g_assert_cmpint (dose->added_by, ==, scene->plant->technician);
  g_assert_cmpint (dose->added_ms, ==, added_ms);
  g_assert_cmpint (dose->retest_due_ms, ==,
                   added_ms + (gint64)SW_TEST_PLANT_CIRCULATION_MIN * SW_TEST_MINUTE_MS);
}

static void
test_entry (gconstpointer data)
{
  const Entry *row_data = data;
  g_autoptr (Scene) scene = new_decided ();
  gint64 decided_ms = sw_guided_test_get_dose (scene->test)->decided_ms;
  SwAddedEntry entry = { .added = { row_data->amount_ml, (char *)row_data->typed },
                         .lot = pick_lot (scene->plant, row_data->lot) };
  GError *error = NULL;
  gboolean moved;

  wait_since_decision (scene, 60.0);
  if (row_data->lot == LOT_EXPIRED_REASON)
    entry.lot_reason = "only one at hand";
  if (!isnan (row_data->minutes))
    entry.added_ms = decided_ms + (gint64)(row_data->minutes * (double)SW_TEST_MINUTE_MS);
  moved = sw_guided_test_record_added (scene->test, &entry, &error);
  if (row_data->fault >= 0)
    sw_assert_fault (&error, (SwFaultCode)row_data->fault, row_data->quantity);
  else if (row_data->fact != SW_FACT_NONE)
    scene_assert_fact (&error, row_data->fact);
  else
    {
      g_assert_no_error (error);
      check_added (scene, row_data, entry.added_ms != 0 ? entry.added_ms : scene_now (scene));
      return;
    }
  g_assert_false (moved);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_ADDED);
}

/* ---- eight hours ---- */

static void
test_not_yet_lapsed (void)
{
  g_autoptr (Scene) scene = new_decided ();

  wait_since_decision (scene, 8.0 * 60.0);
  scene_resume (scene, scene_titration (scene));
  g_assert_cmpint (sw_guided_test_get_dose (scene->test)->state, ==, SW_DOSE_OPEN);
  scene_record (scene, 1260.0);
}

static void
test_lapsed_on_resume (void)
{
  g_autoptr (Scene) scene = new_decided ();

  wait_since_decision (scene, 8.0 * 60.0 + 1.0);
  scene_resume (scene, scene_titration (scene));
  g_assert_cmpint (sw_guided_test_get_dose (scene->test)->state, ==, SW_DOSE_LAPSED);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_ADDED);
}

/* The page was left open overnight: no resume, but as late. */
static void
test_lapsed_while_open (void)
{
  g_autoptr (Scene) scene = new_decided ();
  const SwAddedEntry entry = { .added = { .value = 1260.0 }, .lot = scene->plant->neutraliser_lot };
  GError *error = NULL;

  wait_since_decision (scene, 8.0 * 60.0 + 1.0);
  g_assert_false (sw_guided_test_record_added (scene->test, &entry, &error));
  scene_assert_fact (&error, SW_FACT_NO_DOSE_LAPSED);
}

static void
test_lapsed_late_entry (void)
{
  g_autoptr (Scene) scene = new_decided ();
  SwAddedEntry entry = { .added = { .value = 1260.0 }, .lot = scene->plant->neutraliser_lot };
  GError *error = NULL;
  gint64 decided_ms = sw_guided_test_get_dose (scene->test)->decided_ms;

  wait_since_decision (scene, 20.0 * 60.0);
  scene_resume (scene, scene_titration (scene));
  entry.added_ms = decided_ms + 8 * SW_TEST_HOUR_MS + 1;
  g_assert_false (sw_guided_test_record_added (scene->test, &entry, &error));
  scene_assert_fact (&error, SW_FACT_NO_DOSE_LAPSED);
  entry.added_ms = decided_ms + 7 * SW_TEST_HOUR_MS;
  sw_guided_test_record_added (scene->test, &entry, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_guided_test_get_dose (scene->test)->state, ==, SW_DOSE_ADDED);
  g_assert_cmpint (sw_guided_test_get_dose (scene->test)->added_ms, ==, entry.added_ms);
  scene_assert_sound (scene);
}

static void
test_lapsed_not_added (void)
{
  g_autoptr (Scene) scene = new_decided ();
  GError *error = NULL;

  wait_since_decision (scene, 20.0 * 60.0);
  scene_resume (scene, scene_titration (scene));
  sw_guided_test_not_added (scene->test, "shift ended", &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_guided_test_get_dose (scene->test)->state, ==, SW_DOSE_NOT_ADDED);
}

static void
test_lapsed_not_known (void)
{
  g_autoptr (Scene) scene = new_decided ();
  GError *error = NULL;

  wait_since_decision (scene, 20.0 * 60.0);
  scene_resume (scene, scene_titration (scene));
  sw_guided_test_not_known (scene->test, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_guided_test_get_dose (scene->test)->state, ==, SW_DOSE_NOT_KNOWN);
}

/* ---- nobody, or nobody knows ---- */

static void
test_not_added (void)
{
  g_autoptr (Scene) scene = new_decided ();
  g_autoptr (GArray) unanswered = NULL;
  GError *error = NULL;

  sw_guided_test_not_added (scene->test, "pump out of order", &error);
  g_assert_no_error (error);
  g_assert_cmpint (scene_step (scene), ==, SW_STEP_DONE);
  g_assert_cmpstr (sw_guided_test_get_titration (scene->test)->end_reason, ==, "pump out of order");
  unanswered = sw_dose_unanswered_ids (scene->plant->store, scene->machine.machine, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (unanswered->len, ==, 0);
  /* The machine is still acid; the way on is a new test, whose dose is not a second one. */
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  sw_guided_test_decide_dose (scene->test, 0.0, NULL, NULL, &error);
  g_assert_no_error (error);
}

static void
test_not_known (void)
{
  g_autoptr (Scene) scene = new_decided ();
  const SwDoseRow *dose;
  GError *error = NULL;
  gint64 id;

  sw_guided_test_not_known (scene->test, &error);
  g_assert_no_error (error);
  dose = sw_guided_test_get_dose (scene->test);
  g_assert_true (isnan (dose->added.value));
  g_assert_cmpint (dose->retest_due_ms, ==, scene_now (scene));
  id = dose->record.id;
  /* It may have been added, so the re-test comes first, and a dose after it is a second one. */
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 3);
  g_assert_false (sw_guided_test_decide_dose (scene->test, 0.0, NULL, NULL, &error));
  scene_assert_fact (&error, SW_FACT_RETEST_FIRST);
  sw_guided_test_no_dose (scene->test, &error);
  g_assert_no_error (error);
  scene_test (scene, SW_PURPOSE_RETEST, id, 3);
  g_assert_false (sw_guided_test_decide_dose (scene->test, 0.0, NULL, NULL, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_RELEASE_SECOND);
}

/* ---- lock ---- */

/* "Not now": the next person finds the machine locked, and the question waiting. */
static void
test_lock (void)
{
  g_autoptr (Scene) scene = new_decided ();
  gint64 titration = scene_titration (scene);
  SwActor actor;
  GError *error = NULL;

  scene_leave (scene);
  sw_test_plant_reopen (scene->plant, SW_OPEN_WRITE);
  scene->person = scene->plant->colleague;
  actor = scene_actor (scene);
  g_assert_null (sw_guided_test_begin (scene->plant->store, &actor, scene->machine.plan,
                                       SW_PURPOSE_ROUTINE, 0, &error));
  scene_assert_fact (&error, SW_FACT_MACHINE_LOCKED);
  scene_resume (scene, titration);
  scene_record (scene, 1260.0);
  g_assert_cmpint (sw_guided_test_get_dose (scene->test)->added_by, ==, scene->plant->colleague);
}

static void
test_no_second_dose_before_retest (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwSigner release = sw_test_plant_signer (scene->plant->reviewer);
  GError *error = NULL;

  scene_dosed_test (scene, 2);
  scene_test (scene, SW_PURPOSE_ROUTINE, 0, 2);
  g_assert_false (sw_guided_test_decide_dose (scene->test, 0.0, NULL, &release, &error));
  scene_assert_fact (&error, SW_FACT_RETEST_FIRST);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      g_autofree char *path = sw_test_path ("/added/entry", entries[i].name);
      g_test_add_data_func (path, &entries[i], test_entry);
    }
  g_test_add_func ("/added/lapse/eight-hours", test_not_yet_lapsed);
  g_test_add_func ("/added/lapse/on-resume", test_lapsed_on_resume);
  g_test_add_func ("/added/lapse/while-open", test_lapsed_while_open);
  g_test_add_func ("/added/lapse/late-entry", test_lapsed_late_entry);
  g_test_add_func ("/added/lapse/not-added", test_lapsed_not_added);
  g_test_add_func ("/added/lapse/not-known", test_lapsed_not_known);
  g_test_add_func ("/added/not-added", test_not_added);
  g_test_add_func ("/added/not-known", test_not_known);
  g_test_add_func ("/added/lock/next-person", test_lock);
  g_test_add_func ("/added/lock/re-test-first", test_no_second_dose_before_retest);
  return g_test_run ();
}
