/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asking for a secret: what is right and wrong, and how long the next attempt has to wait. */
#include "scene.h"

#include "change.h"
#include "records/story.h"
#include "records/trust.h"
#include "workflow/sign-in.h"

#define WRONG "not the secret"
#define MS_PER_S 1000

/* ---- helpers ---- */

static gint64
get_wait_ms (Scene *scene)
{
  return sw_sign_in_wait_ms (scene->plant->store, scene->plant->reviewer, scene_now (scene));
}

static gboolean
try_secret (Scene *scene, const char *secret, GError **error)
{
  SwSigner signer = { 0 };
  gboolean right = sw_sign_in (scene->plant->store, scene->plant->reviewer, secret, &signer, error);

  g_assert_cmpint (signer.person, ==, right ? scene->plant->reviewer : 0);
  if (right)
    g_assert_cmpint (signer.identified, ==, SW_IDENTIFIED_SECRET);
  return right;
}

static void
try_wrong (Scene *scene)
{
  GError *error = NULL;

  g_assert_false (try_secret (scene, WRONG, &error));
  scene_assert_fact (&error, SW_FACT_WRONG_SECRET);
}

static void
try_right (Scene *scene)
{
  GError *error = NULL;

  g_assert_true (try_secret (scene, SW_TEST_PLANT_SECRET, &error));
  g_assert_no_error (error);
}

/* Wrong @n times, each as soon as it is looked at. */
static void
try_wrong_times (Scene *scene, int n)
{
  for (int i = 0; i < n; i++)
    {
      scene->plant->now_ms += get_wait_ms (scene);
      try_wrong (scene);
    }
}

static guint
count_rows (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_record_ids (scene->plant->store, SW_TABLE_SIGN_IN, "person",
                                          scene->plant->reviewer, &error);

  g_assert_no_error (error);
  return ids->len;
}

/* ---- waits ---- */

typedef struct
{
  const char *name;
  int wrong;
  gint64 wait_s;
} WaitRow;

/* workflow/sign-in.h: 0, 0, 2, 4, 8, ... s, at most 5 min */
static const WaitRow waits[] = {
  { "none", 0, 0 },     { "first", 1, 0 },   { "second", 2, 0 },  { "third", 3, 2 },
  { "fourth", 4, 4 },   { "fifth", 5, 8 },   { "sixth", 6, 16 },  { "ninth", 9, 128 },
  { "tenth", 10, 256 }, { "11th", 11, 300 }, { "40th", 40, 300 },
};

static void
test_wait (gconstpointer data)
{
  const WaitRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  try_wrong_times (scene, row->wrong);
  g_assert_cmpint (get_wait_ms (scene), ==, row->wait_s * MS_PER_S);
  if (row->wait_s > 0)
    {
      scene->plant->now_ms += row->wait_s * MS_PER_S - 1;
      g_assert_cmpint (get_wait_ms (scene), ==, 1);
      g_assert_false (try_secret (scene, SW_TEST_PLANT_SECRET, &error));
      sw_assert_close (sw_workflow_error_get_fact (error)->number[0], 1.0 / 60000.0, 1e-12);
      scene_assert_fact (&error, SW_FACT_WAIT);
      g_assert_cmpuint (count_rows (scene), ==, row->wrong);
      scene->plant->now_ms += 1;
    }
  try_right (scene);
  g_assert_cmpint (get_wait_ms (scene), ==, 0);
}

/* The program is started anew: the rows are still there. */
static void
test_restart (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  try_wrong_times (scene, 5);
  sw_test_plant_reopen (scene->plant, SW_OPEN_WRITE);
  g_assert_cmpint (get_wait_ms (scene), ==, 8 * MS_PER_S);
  g_assert_false (try_secret (scene, SW_TEST_PLANT_SECRET, &error));
  scene_assert_fact (&error, SW_FACT_WAIT);
}

/* One person's mistakes are not another's. */
static void
test_others (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwSigner signer;
  GError *error = NULL;

  try_wrong_times (scene, 5);
  sw_sign_in (scene->plant->store, scene->plant->administrator, SW_TEST_PLANT_SECRET, &signer,
              &error);
  g_assert_no_error (error);
  g_assert_cmpint (get_wait_ms (scene), ==, 8 * MS_PER_S);
}

/* A right one ends the run: the next slip is free again. */
static void
test_right_one_ends_the_run (void)
{
  g_autoptr (Scene) scene = scene_new ();

  try_wrong_times (scene, 5);
  scene->plant->now_ms += get_wait_ms (scene);
  try_right (scene);
  try_wrong_times (scene, 2);
  g_assert_cmpint (get_wait_ms (scene), ==, 0);
}

/* ---- the clock set back ---- */

/* A day back: the right secret is refused once, and right after the wait by the new clock. */
static void
test_clock_back (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  try_wrong_times (scene, 5);
  scene->plant->now_ms -= SW_TEST_DAY_MS;
  g_assert_false (try_secret (scene, SW_TEST_PLANT_SECRET, &error));
  scene_assert_fact (&error, SW_FACT_WAIT);
  g_assert_cmpint (get_wait_ms (scene), ==, 16 * MS_PER_S);
  scene->plant->now_ms += 16 * MS_PER_S;
  try_right (scene);
}

/* Back and forth in turns: never sooner, and never for ever. */
static void
test_clock_to_and_fro (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  try_wrong_times (scene, 4);
  for (int i = 0; i < 20; i++)
    {
      scene->plant->now_ms -= SW_TEST_HOUR_MS;
      g_assert_false (try_secret (scene, SW_TEST_PLANT_SECRET, &error));
      scene_assert_fact (&error, SW_FACT_WAIT);
    }
  g_assert_cmpint (get_wait_ms (scene), ==, 300 * MS_PER_S);
  scene->plant->now_ms += 300 * MS_PER_S;
  try_right (scene);
}

/* ---- who ---- */

static void
test_no_secret (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  CHANGE (scene, SwPerson, sw_person, scene->plant->reviewer,
          g_clear_pointer (&row->secret, g_free));
  g_assert_false (try_secret (scene, SW_TEST_PLANT_SECRET, &error));
  g_assert_cmpstr (sw_workflow_error_get_fact (error)->text, ==, "R. Invented");
  scene_assert_fact (&error, SW_FACT_NO_SECRET_YET);
  g_assert_cmpuint (count_rows (scene), ==, 0);
}

static void
test_inactive (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  CHANGE (scene, SwPerson, sw_person, scene->plant->reviewer, row->active = FALSE);
  g_assert_false (try_secret (scene, SW_TEST_PLANT_SECRET, &error));
  scene_assert_fact (&error, SW_FACT_PERSON_INACTIVE);
}

static void
test_read_only (void)
{
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  sw_test_plant_reopen (scene->plant, SW_OPEN_READ_ONLY);
  g_assert_false (try_secret (scene, SW_TEST_PLANT_SECRET, &error));
  scene_assert_fact (&error, SW_FACT_READ_ONLY);
}

static void
check_author (Scene *scene, gint64 id, gint64 person, const char *identified_by)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) story = sw_story_read (scene->plant->store, SW_TABLE_SIGN_IN, id, &error);
  const SwChapter *chapter;

  g_assert_no_error (error);
  g_assert_cmpuint (story->len, ==, 1);
  chapter = story->pdata[0];
  g_assert_cmpstr (chapter->kind, ==, "sign_in");
  g_assert_cmpint (chapter->person, ==, person);
  g_assert_cmpstr (chapter->identified_by, ==, identified_by);
}

/* A wrong one is the program's row: who typed it is not known. */
static void
test_rows (void)
{
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (SwSignIn) wrong = NULL;
  g_autoptr (SwSignIn) right = NULL;

  try_wrong (scene);
  try_right (scene);
  g_assert_cmpuint (count_rows (scene), ==, 2);
  wrong = sw_sign_in_load (scene->plant->store, 1, &error);
  right = sw_sign_in_load (scene->plant->store, 2, &error);
  g_assert_no_error (error);
  g_assert_false (wrong->accepted);
  g_assert_true (right->accepted);
  check_author (scene, 1, 0, "system");
  check_author (scene, 2, scene->plant->reviewer, "secret");
  scene_assert_sound (scene);
}

/* ---- for a signature ---- */

static gboolean
sign_again (Scene *scene, const char *secret)
{
  g_autoptr (GError) error = NULL;
  SwSigner signer = { 0 };
  gboolean right
      = sw_sign_again (scene->plant->store, scene->plant->reviewer, secret, &signer, &error);

  g_assert_cmpint (signer.person, ==, right ? scene->plant->reviewer : 0);
  return right;
}

/* Right: no row. Wrong: it counts. Right after wrong: a row, so that the run ends. */
static void
test_sign_again (void)
{
  g_autoptr (Scene) scene = scene_new ();

  g_assert_true (sign_again (scene, SW_TEST_PLANT_SECRET));
  g_assert_cmpuint (count_rows (scene), ==, 0);
  g_assert_false (sign_again (scene, WRONG));
  g_assert_false (sign_again (scene, NULL));
  g_assert_cmpuint (count_rows (scene), ==, 2);
  g_assert_true (sign_again (scene, SW_TEST_PLANT_SECRET));
  g_assert_cmpuint (count_rows (scene), ==, 3);
  g_assert_true (sign_again (scene, SW_TEST_PLANT_SECRET));
  g_assert_cmpuint (count_rows (scene), ==, 3);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/sign-in/wait/restart", test_restart },
  { "/sign-in/wait/others", test_others },
  { "/sign-in/wait/ended-by-a-right-one", test_right_one_ends_the_run },
  { "/sign-in/clock/a-day-back", test_clock_back },
  { "/sign-in/clock/to-and-fro", test_clock_to_and_fro },
  { "/sign-in/no-secret", test_no_secret },
  { "/sign-in/inactive", test_inactive },
  { "/sign-in/read-only", test_read_only },
  { "/sign-in/rows", test_rows },
  { "/sign-in/again", test_sign_again },
};
/* clang-format on */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].test);
  SW_TEST_ROWS ("/sign-in/wait", waits, test_wait);
  return g_test_run ();
}
