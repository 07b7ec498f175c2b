/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Setting a secret: who may, how long it has to be, and where its text must never be found. */
#include "scene.h"

#include "change.h"
#include "records/story.h"
#include "workflow/secret-private.h"

#include <sodium.h>
#include <string.h>

#define OTHER "another secret"

static const SwSecretCost cheap
    = { .operations = crypto_pwhash_OPSLIMIT_MIN, .memory_bytes = crypto_pwhash_MEMLIMIT_MIN };

/* ---- helpers ---- */

static gboolean
set_as (Scene *scene,
        const SwActor *actor,
        gint64 person,
        const char *old,
        const char *secret,
        GError **error)
{
  return sw_secret_set_at (scene->plant->store, actor, person, old, secret, &cheap, error);
}

static void
check_matches (Scene *scene, gint64 person, const char *secret, gint64 given_by)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwPerson) row = sw_person_load (scene->plant->store, person, &error);

  g_assert_no_error (error);
  g_assert_true (g_str_has_prefix (row->secret, "$argon2id$"));
  g_assert_true (sw_secret_matches (row->secret, secret));
  g_assert_cmpint (row->secret_given_by, ==, given_by);
}

static void
take_secret (Scene *scene, gint64 person)
{
  CHANGE (scene, SwPerson, sw_person, person, g_clear_pointer (&row->secret, g_free));
}

static void
allow_name_only (Scene *scene)
{
  GError *error = NULL;

  sw_test_plant_begin (scene->plant, SW_ACT_SETUP);
  sw_setting_put (scene->plant->store, SW_SETTING_NAME_ONLY, "yes", &error);
  g_assert_no_error (error);
  sw_test_plant_commit (scene->plant);
}

/* ---- lengths ---- */

typedef struct
{
  const char *name;
  const char *unit; /* repeated */
  guint times;
  int code; /* SwFaultCode, -1 = fine */
} LengthRow;

/* 8 to 256 characters, whatever number of bytes they have. The bicycle is one of four bytes, e and
 * acute accent are one character of two code points, which NFC makes one. */
static const LengthRow lengths[] = {
  { "nothing", "", 1, SW_FAULT_MISSING },
  { "seven", "x", 7, SW_FAULT_RANGE },
  { "eight", "x", 8, -1 },
  { "longest", "x", 256, -1 },
  { "too-long", "x", 257, SW_FAULT_RANGE },
  { "seven-of-four-bytes", "\xF0\x9F\x9A\xB2", 7, SW_FAULT_RANGE },
  { "eight-of-four-bytes", "\xF0\x9F\x9A\xB2", 8, -1 },
  { "longest-of-four-bytes", "\xF0\x9F\x9A\xB2", 256, -1 },
  { "seven-of-two-points", "e\xCC\x81", 7, SW_FAULT_RANGE },
  { "eight-of-two-points", "e\xCC\x81", 8, -1 },
  { "spaces", " ", 8, -1 },
  { "not-utf-8", "\xFF", 9, SW_FAULT_TEXT },
};

static void
test_length (gconstpointer data)
{
  const LengthRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GString) secret = g_string_new (NULL);
  const gint64 person = scene->plant->technician;
  const SwActor actor = sw_test_plant_actor (scene->plant, person);
  GError *error = NULL;
  gboolean set;

  for (guint i = 0; i < row->times; i++)
    g_string_append (secret, row->unit);
  set = set_as (scene, &actor, person, SW_TEST_PLANT_SECRET, secret->str, &error);
  g_assert_cmpint (set, ==, row->code < 0);
  if (!set)
    {
      g_assert_null (secret->len > 0 ? strstr (error->message, secret->str) : NULL);
      sw_assert_fault (&error, (SwFaultCode)row->code, SW_QUANTITY_SECRET);
    }
  check_matches (scene, person, set ? secret->str : SW_TEST_PLANT_SECRET, 0);
}

/* Typed as one character or as letter and accent: the same secret. */
static void
test_keyboards (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 person = scene->plant->technician;
  const SwActor actor = sw_test_plant_actor (scene->plant, person);
  SwSigner signer;
  GError *error = NULL;

  set_as (scene, &actor, person, SW_TEST_PLANT_SECRET, "caf\xC3\xA9 au lait", &error);
  g_assert_no_error (error);
  g_assert_true (sw_sign_in (scene->plant->store, person, "cafe\xCC\x81 au lait", &signer, &error));
  g_assert_no_error (error);
  g_assert_false (sw_sign_in (scene->plant->store, person, "cafe au lait", &signer, &error));
  scene_assert_fact (&error, SW_FACT_WRONG_SECRET);
}

/* ---- who ---- */

static void
test_own (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 person = scene->plant->technician;
  const SwActor actor = sw_test_plant_actor (scene->plant, person);
  GError *error = NULL;

  g_assert_false (set_as (scene, &actor, person, "wrong old one", OTHER, &error));
  scene_assert_fact (&error, SW_FACT_WRONG_SECRET);
  g_assert_false (set_as (scene, &actor, person, NULL, OTHER, &error));
  scene_assert_fact (&error, SW_FACT_WRONG_SECRET);
  check_matches (scene, person, SW_TEST_PLANT_SECRET, 0);
  g_assert_true (set_as (scene, &actor, person, SW_TEST_PLANT_SECRET, OTHER, &error));
  g_assert_no_error (error);
  check_matches (scene, person, OTHER, 0);
  scene_assert_sound (scene);
}

/* Guesses of the old one count like those of a sign-in. */
static void
test_own_guessed (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 person = scene->plant->technician;
  const SwActor actor = sw_test_plant_actor (scene->plant, person);
  GError *error = NULL;

  for (int i = 0; i < 3; i++)
    {
      g_assert_false (set_as (scene, &actor, person, "a guess", OTHER, &error));
      scene_assert_fact (&error, SW_FACT_WRONG_SECRET);
    }
  g_assert_false (set_as (scene, &actor, person, SW_TEST_PLANT_SECRET, OTHER, &error));
  scene_assert_fact (&error, SW_FACT_WAIT);
}

/* One that was given is two people's; the one who got it chooses another. */
static void
test_given (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 person = scene->plant->technician;
  const SwActor giver = sw_test_plant_actor (scene->plant, scene->plant->administrator);
  const SwActor own = sw_test_plant_actor (scene->plant, person);
  GError *error = NULL;

  g_assert_true (set_as (scene, &giver, person, NULL, OTHER, &error));
  g_assert_no_error (error);
  check_matches (scene, person, OTHER, scene->plant->administrator);
  g_assert_false (set_as (scene, &own, person, OTHER, OTHER, &error));
  sw_assert_fault (&error, SW_FAULT_TEXT, SW_QUANTITY_SECRET);
  g_assert_true (set_as (scene, &own, person, OTHER, "chosen myself", &error));
  g_assert_no_error (error);
  check_matches (scene, person, "chosen myself", 0);
}

static void
test_given_by_others (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwTestPlant *plant = scene->plant;
  const struct
  {
    gint64 giver;
    SwFactCode refusal;
  } givers[] = { { plant->technician, SW_FACT_NEEDS_ADMINISTRATOR },
                 { plant->reviewer, SW_FACT_NEEDS_ADMINISTRATOR },
                 { plant->auditor, SW_FACT_AUDITOR_READS },
                 { 0, SW_FACT_NOBODY } };
  GError *error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (givers); i++)
    {
      const SwActor giver = sw_test_plant_actor (plant, givers[i].giver);

      g_assert_false (
          set_as (scene, &giver, plant->colleague, SW_TEST_PLANT_SECRET, OTHER, &error));
      scene_assert_fact (&error, givers[i].refusal);
    }
  check_matches (scene, plant->colleague, SW_TEST_PLANT_SECRET, 0);
}

/* ---- the first one ---- */

static void
check_guarded (Scene *scene, gboolean expected)
{
  gboolean guarded = !expected;
  GError *error = NULL;

  sw_secret_guarded (scene->plant->store, &guarded, &error);
  g_assert_no_error (error);
  g_assert_cmpint (guarded, ==, expected);
}

/* Nobody has one: the administrator sets the first, and nobody else does. */
static void
test_first (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwTestPlant *plant = scene->plant;
  SwActor actor = sw_test_plant_actor (plant, plant->reviewer);
  GError *error = NULL;

  check_guarded (scene, TRUE);
  take_secret (scene, plant->administrator);
  take_secret (scene, plant->reviewer);
  check_guarded (scene, FALSE);
  actor.identified = SW_IDENTIFIED_SELECTED;
  g_assert_false (set_as (scene, &actor, plant->reviewer, NULL, OTHER, &error));
  scene_assert_fact (&error, SW_FACT_NO_SECRET_YET);
  actor.person = plant->technician;
  g_assert_false (set_as (scene, &actor, plant->administrator, NULL, OTHER, &error));
  scene_assert_fact (&error, SW_FACT_NEEDS_ADMINISTRATOR);
  actor.person = plant->administrator;
  g_assert_true (set_as (scene, &actor, plant->administrator, NULL, OTHER, &error));
  g_assert_no_error (error);
  check_matches (scene, plant->administrator, OTHER, 0);
  check_guarded (scene, TRUE);
}

typedef struct
{
  const char *name;
  gsize person; /* offset in SwTestPlant; has no secret */
  gboolean name_only;
  gboolean may;
} OwnFirstRow;

/* In a guarded plant: whoever sits there cannot take a reviewer's name by choosing its secret. */
static const OwnFirstRow own_first[] = {
  { "technician", G_STRUCT_OFFSET (SwTestPlant, technician), FALSE, FALSE },
  { "technician-by-name", G_STRUCT_OFFSET (SwTestPlant, technician), TRUE, TRUE },
  { "reviewer", G_STRUCT_OFFSET (SwTestPlant, reviewer), FALSE, FALSE },
  { "reviewer-by-name", G_STRUCT_OFFSET (SwTestPlant, reviewer), TRUE, FALSE },
  { "auditor-by-name", G_STRUCT_OFFSET (SwTestPlant, auditor), TRUE, FALSE },
};

static void
test_own_first (gconstpointer data)
{
  const OwnFirstRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  const gint64 person = G_STRUCT_MEMBER (gint64, scene->plant, row->person);
  SwActor actor = sw_test_plant_actor (scene->plant, person);
  GError *error = NULL;

  take_secret (scene, person);
  if (row->name_only)
    allow_name_only (scene);
  actor.identified = SW_IDENTIFIED_SELECTED;
  g_assert_cmpint (set_as (scene, &actor, person, NULL, OTHER, &error), ==, row->may);
  if (!row->may)
    scene_assert_fact (&error, SW_FACT_NO_SECRET_YET);
  g_assert_no_error (error);
}

/* ---- an administrator without a secret does not guard ---- */

static void
test_second_administrator (void)
{
  g_autoptr (Scene) scene = scene_new ();
  SwActor second = sw_test_plant_actor (scene->plant, 0);
  GError *error = NULL;

  INSERT_ROW (scene, SwPerson, sw_person, second.person, row->name = g_strdup ("B. Invented");
              row->initials = g_strdup ("BI"); row->role = SW_ROLE_ADMINISTRATOR;
              row->active = TRUE);
  second.identified = SW_IDENTIFIED_SELECTED;
  g_assert_false (set_as (scene, &second, second.person, NULL, OTHER, &error));
  scene_assert_fact (&error, SW_FACT_NO_SECRET_YET);
  CHANGE (scene, SwPerson, sw_person, scene->plant->administrator, row->active = FALSE);
  check_guarded (scene, FALSE);
}

/* ---- where it is not ---- */

static gboolean
file_contains (const char *path, const char *text)
{
  g_autofree char *bytes = NULL;
  const gsize n = strlen (text);
  gsize length = 0;

  g_file_get_contents (path, &bytes, &length, NULL);
  for (gsize i = 0; i + n <= length; i++)
    if (memcmp (bytes + i, text, n) == 0)
      return TRUE;
  return FALSE;
}

/* Each change of the secret is there, as a digest. */
static void
check_journal (Scene *scene, gint64 person)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) story
      = sw_story_read (scene->plant->store, SW_TABLE_PERSON, person, &error);
  guint changes = 0;

  g_assert_no_error (error);
  for (guint i = 0; i < story->len; i++)
    {
      const SwChapter *chapter = story->pdata[i];

      for (guint j = 0; j < chapter->changes->len; j++)
        {
          const SwChange *change = chapter->changes->pdata[j];

          g_assert_null (change->after != NULL ? strstr (change->after, "argon2") : NULL);
          changes += g_str_equal (change->column, "secret")
                     && g_str_has_prefix (change->after, "changed sha256:");
        }
    }
  g_assert_cmpuint (changes, ==, 2);
}

/* Typed wrong, right and new: none of the texts is in the file, and the journal, that is copied
 * into exports, has not even the Argon2 text. */
static void
test_not_in_file (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const gint64 person = scene->plant->technician;
  const SwActor actor = sw_test_plant_actor (scene->plant, person);
  const char *never[] = { "typed but wrong", "typed and right" };
  g_autoptr (SwPerson) row = NULL;
  g_autofree char *wal = g_strconcat (scene->plant->path, "-wal", NULL);
  SwSigner signer;
  GError *error = NULL;

  set_as (scene, &actor, person, SW_TEST_PLANT_SECRET, never[1], &error);
  g_assert_no_error (error);
  g_assert_false (sw_sign_in (scene->plant->store, person, never[0], &signer, NULL));
  g_assert_true (sw_sign_in (scene->plant->store, person, never[1], &signer, NULL));
  row = sw_person_load (scene->plant->store, person, &error);
  for (gsize i = 0; i < G_N_ELEMENTS (never); i++)
    {
      g_assert_false (file_contains (scene->plant->path, never[i]));
      g_assert_false (file_contains (wal, never[i]));
    }
  /* The person's row has it: the search finds what is there. */
  g_assert_true (file_contains (wal, row->secret)
                 || file_contains (scene->plant->path, row->secret));
  check_journal (scene, person);
}

/* clang-format off */
static const struct { const char *path; GTestFunc test; } tests[] = {
  { "/secret/keyboards", test_keyboards },
  { "/secret/own", test_own },
  { "/secret/own/guessed", test_own_guessed },
  { "/secret/given", test_given },
  { "/secret/given/by-others", test_given_by_others },
  { "/secret/first", test_first },
  { "/secret/second-administrator", test_second_administrator },
  { "/secret/not-in-file", test_not_in_file },
};
/* clang-format on */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_func (tests[i].path, tests[i].test);
  SW_TEST_ROWS ("/secret/length", lengths, test_length);
  SW_TEST_ROWS ("/secret/own-first", own_first, test_own_first);
  return g_test_run ();
}
