/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may do what: every role, right, way of being known, with and without a secret, in a plant
 * that allows names and in one that does not. What is expected is written out, not worked out. */
#include "scene.h"

#include "change.h"
#include "workflow/rights.h"

/* ---- what is expected ---- */

/* The table of workflow/rights.h: test, bench, review, set-up. */
static const SwFactCode by_role[SW_N_ROLES][SW_N_RIGHTS] = {
  [SW_ROLE_TECHNICIAN]
  = { SW_FACT_NONE, SW_FACT_NONE, SW_FACT_NEEDS_ROLE_REVIEW, SW_FACT_NEEDS_ADMINISTRATOR },
  [SW_ROLE_REVIEWER] = { SW_FACT_NONE, SW_FACT_NONE, SW_FACT_NONE, SW_FACT_NEEDS_ADMINISTRATOR },
  [SW_ROLE_ADMINISTRATOR] = { SW_FACT_NONE, SW_FACT_NONE, SW_FACT_NONE, SW_FACT_NONE },
  [SW_ROLE_AUDITOR]
  = { SW_FACT_AUDITOR_READS, SW_FACT_AUDITOR_READS, SW_FACT_AUDITOR_READS, SW_FACT_AUDITOR_READS },
};

typedef enum
{
  PLANT_STRICT, /* guarded, names are not enough */
  PLANT_NAMES,  /* guarded, technicians may work by name */
  PLANT_UNGUARDED,
  PLANT_DEMO,
  N_PLANTS
} Plant;

static const char *const plant_names[N_PLANTS] = { "strict", "names", "unguarded", "demo" };
static const char *const role_names[SW_N_ROLES]
    = { "technician", "reviewer", "administrator", "auditor" };
static const char *const right_names[SW_N_RIGHTS] = { "test", "bench", "review", "set-up" };

#define OK SW_FACT_NONE
#define SECRET SW_FACT_NEEDS_SECRET
#define NEVER SW_FACT_NO_SECRET_YET
#define UNGUARDED SW_FACT_UNGUARDED

/* For whom the role has the right: selected, secret, import, demo, system. */
typedef SwFactCode Known[SW_N_IDENTIFIED];

static const Known with_secret[N_PLANTS] = {
  [PLANT_STRICT] = { SECRET, OK, OK, SECRET, SECRET },
  [PLANT_NAMES] = { SECRET, OK, OK, SECRET, SECRET },
  [PLANT_UNGUARDED] = { UNGUARDED, UNGUARDED, OK, UNGUARDED, UNGUARDED },
  [PLANT_DEMO] = { OK, OK, OK, OK, OK },
};

static const Known without_secret[N_PLANTS] = {
  [PLANT_STRICT] = { NEVER, NEVER, OK, NEVER, NEVER },
  [PLANT_NAMES] = { NEVER, NEVER, OK, NEVER, NEVER },
  [PLANT_UNGUARDED] = { UNGUARDED, UNGUARDED, OK, UNGUARDED, UNGUARDED },
  [PLANT_DEMO] = { OK, OK, OK, OK, OK },
};

/* The one difference: a technician without a secret, where names are allowed. */
static const Known technician_by_name = { OK, NEVER, OK, NEVER, NEVER };

/* ---- the plant ---- */

static void
put_name_only (Scene *scene, const char *value)
{
  GError *error = NULL;

  sw_test_plant_begin (scene->plant, SW_ACT_SETUP);
  sw_setting_put (scene->plant->store, SW_SETTING_NAME_ONLY, value, &error);
  g_assert_no_error (error);
  sw_test_plant_commit (scene->plant);
}

static Scene *
make_plant (Plant plant)
{
  Scene *scene = scene_new ();

  if (plant == PLANT_NAMES)
    put_name_only (scene, "yes");
  if (plant == PLANT_UNGUARDED)
    CHANGE (scene, SwPerson, sw_person, scene->plant->administrator,
            g_clear_pointer (&row->secret, g_free));
  if (plant == PLANT_DEMO)
    CHANGE (scene, SwSite, sw_site, 1, row->demo = TRUE);
  return scene;
}

/* The plant's own administrator guards it; who is tried is somebody else. */
static gint64
add_person (Scene *scene, SwRole role, gboolean secret)
{
  g_autoptr (SwPerson) known = sw_person_load (scene->plant->store, scene->plant->colleague, NULL);
  gint64 id;

  INSERT_ROW (scene, SwPerson, sw_person, id, row->name = g_strdup ("X. Invented");
              row->initials = g_strdup ("XI"); row->role = role; row->active = TRUE;
              row->secret = secret ? g_strdup (known->secret) : NULL);
  return id;
}

/* ---- everybody, everything ---- */

typedef struct
{
  Plant plant;
  SwRole role;
  gboolean secret;
} Case;

static SwFactCode
expect (const Case *tried, SwRight right, SwIdentified identified)
{
  const SwFactCode role = by_role[tried->role][right];

  if (role != SW_FACT_NONE)
    return role;
  /* An administrator with a secret guards the file. */
  if (tried->plant == PLANT_UNGUARDED && tried->role == SW_ROLE_ADMINISTRATOR && tried->secret)
    return with_secret[PLANT_STRICT][identified];
  if (tried->plant == PLANT_NAMES && tried->role == SW_ROLE_TECHNICIAN && !tried->secret)
    return technician_by_name[identified];
  return (tried->secret ? with_secret : without_secret)[tried->plant][identified];
}

static void
check_case (Scene *scene, const Case *tried, gint64 person, SwRight right, SwIdentified identified)
{
  const SwActor actor = { .person = person, .identified = identified };
  const SwSigner signer = { .person = person, .identified = identified };
  const SwFactCode expected = expect (tried, right, identified);
  GError *error = NULL;
  gboolean may = sw_right_check (scene->plant->store, &actor, right, &error);

  g_test_message ("%s, known by %s", right_names[right], sw_identified_word (identified));
  g_assert_cmpint (may, ==, expected == SW_FACT_NONE);
  if (!may)
    scene_assert_fact (&error, expected);
  g_assert_no_error (error);
  may = sw_right_check_signer (scene->plant->store, &signer, right, &error);
  g_assert_cmpint (may, ==, expected == SW_FACT_NONE);
  if (!may)
    scene_assert_fact (&error, expected);
  g_assert_no_error (error);
}

static void
test_case (gconstpointer data)
{
  const Case *tried = data;
  g_autoptr (Scene) scene = make_plant (tried->plant);
  const gint64 person = add_person (scene, tried->role, tried->secret);

  for (int right = 0; right < SW_N_RIGHTS; right++)
    for (int identified = 0; identified < SW_N_IDENTIFIED; identified++)
      check_case (scene, tried, person, (SwRight)right, (SwIdentified)identified);
}

static void
add_cases (void)
{
  for (int i = 0; i < N_PLANTS * SW_N_ROLES * 2; i++)
    {
      Case *tried = g_new0 (Case, 1);
      g_autofree char *path = NULL;

      tried->plant = (Plant)(i / (SW_N_ROLES * 2));
      tried->role = (SwRole)(i / 2 % SW_N_ROLES);
      tried->secret = i % 2;
      path = g_strdup_printf ("/rights/%s/%s/%s", plant_names[tried->plant],
                              role_names[tried->role], tried->secret ? "secret" : "no-secret");
      g_test_add_data_func_full (path, tried, (GTestDataFunc)test_case, g_free);
    }
}

/* ---- nobody, nobody any more ---- */

static void
test_nobody (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  for (int i = 0; i < SW_N_IDENTIFIED; i++)
    {
      const SwActor actor = { .identified = (SwIdentified)i };
      const SwSigner signer = { .identified = (SwIdentified)i };
      const gboolean program = i == SW_IDENTIFIED_SYSTEM || i == SW_IDENTIFIED_IMPORT;

      g_assert_cmpint (sw_right_check (scene->plant->store, &actor, SW_RIGHT_SET_UP, &error), ==,
                       program);
      if (!program)
        scene_assert_fact (&error, SW_FACT_NOBODY);
      g_assert_false (sw_right_check_signer (scene->plant->store, &signer, SW_RIGHT_TEST, &error));
      scene_assert_fact (&error, SW_FACT_NOBODY);
    }
}

static void
check_gone (Scene *scene)
{
  const SwActor actor = sw_test_plant_actor (scene->plant, scene->plant->technician);
  GError *error = NULL;

  g_assert_false (sw_right_check (scene->plant->store, &actor, SW_RIGHT_TEST, &error));
  g_assert_cmpstr (sw_workflow_error_get_fact (error)->text, ==, "T. Invented");
  scene_assert_fact (&error, SW_FACT_PERSON_INACTIVE);
}

static void
test_inactive (void)
{
  g_autoptr (Scene) scene = scene_new ();

  CHANGE (scene, SwPerson, sw_person, scene->plant->technician, row->active = FALSE);
  check_gone (scene);
}

static void
test_voided (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  sw_test_plant_begin (scene->plant, SW_ACT_VOID);
  sw_record_void (scene->plant->store, SW_TABLE_PERSON, scene->plant->technician, &error);
  g_assert_no_error (error);
  sw_test_plant_commit (scene->plant);
  check_gone (scene);
}

/* ---- settings ---- */

typedef struct
{
  const char *name;
  const char *value;
  double minutes;
} LockRow;

/* Whatever stands there: a lock that cannot be read is the usual one, not none. */
static const LockRow locks[] = {
  { "not-set", NULL, 10.0 },       { "five", "5", 5.0 },
  { "half", "2.5", 2.5 },          { "never", "0", 0.0 },
  { "least", "1", 1.0 },           { "most", "480", 480.0 },
  { "too-short", "0.5", 10.0 },    { "too-long", "481", 10.0 },
  { "negative", "-5", 10.0 },      { "words", "never", 10.0 },
  { "half-words", "5 min", 10.0 }, { "empty", "", 10.0 },
  { "nan", "nan", 10.0 },
};

static void
test_lock (gconstpointer data)
{
  const LockRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  if (row->value != NULL)
    {
      sw_test_plant_begin (scene->plant, SW_ACT_SETUP);
      sw_setting_put (scene->plant->store, SW_SETTING_IDLE_LOCK, row->value, &error);
      g_assert_no_error (error);
      sw_test_plant_commit (scene->plant);
    }
  sw_assert_close (sw_right_idle_lock_min (scene->plant->store), row->minutes, 0.0);
}

static void
test_set (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwStore *store = scene->plant->store;
  const SwActor administrator = sw_test_plant_actor (scene->plant, scene->plant->administrator);
  const SwActor reviewer = sw_test_plant_actor (scene->plant, scene->plant->reviewer);
  GError *error = NULL;

  g_assert_false (sw_right_set_name_only (store, &reviewer, TRUE, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_ADMINISTRATOR);
  g_assert_false (sw_right_name_only (store));
  g_assert_true (sw_right_set_name_only (store, &administrator, TRUE, &error));
  g_assert_true (sw_right_name_only (store));
  g_assert_true (sw_right_set_name_only (store, &administrator, FALSE, &error));
  g_assert_false (sw_right_name_only (store));
  g_assert_no_error (error);
  g_assert_true (sw_right_set_idle_lock_min (store, &administrator, 7.5, &error));
  sw_assert_close (sw_right_idle_lock_min (store), 7.5, 0.0);
  g_assert_true (sw_right_set_idle_lock_min (store, &administrator, 0.0, &error));
  sw_assert_close (sw_right_idle_lock_min (store), 0.0, 0.0);
  g_assert_false (sw_right_set_idle_lock_min (store, &administrator, 481.0, &error));
  sw_assert_fault (&error, SW_FAULT_RANGE, SW_QUANTITY_IDLE_LOCK);
  g_assert_false (sw_right_set_idle_lock_min (store, &administrator, NAN, &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_IDLE_LOCK);
  scene_assert_sound (scene);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add_cases ();
  g_test_add_func ("/rights/nobody", test_nobody);
  g_test_add_func ("/rights/inactive", test_inactive);
  g_test_add_func ("/rights/voided", test_voided);
  g_test_add_func ("/rights/set", test_set);
  SW_TEST_ROWS ("/rights/lock", locks, test_lock);
  return g_test_run ();
}
