/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of people: what would leave the file without a guard, and what is not the form's to say.
 */
#include "change.h"
#include "setup-fields.h"
#include "workflow/amend.h"
#include "workflow/guided.h"
#include "workflow/sign-in.h"

static SwPerson *
load (Scene *scene, gint64 id)
{
  g_autoptr (GError) error = NULL;
  SwPerson *person = sw_person_load (scene->plant->store, id, &error);

  g_assert_no_error (error);
  return person;
}

static gint64
add_administrator (Scene *scene, gboolean secret)
{
  g_autoptr (SwPerson) known = load (scene, scene->plant->administrator);
  gint64 id;

  INSERT_ROW (scene, SwPerson, sw_person, id, row->name = g_strdup ("B. Invented");
              row->initials = g_strdup ("BI"); row->role = SW_ROLE_ADMINISTRATOR;
              row->active = TRUE; row->secret = secret ? g_strdup (known->secret) : NULL);
  return id;
}

/* ---- the last administrator ---- */

typedef enum
{
  LOSE_ROLE,
  LOSE_ACTIVE,
  LOSE_ROW
} Lose;

static gboolean
lose (Scene *scene, Lose how, GError **error)
{
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwPerson) person = load (scene, scene->plant->administrator);

  if (how == LOSE_ROLE)
    person->role = SW_ROLE_REVIEWER;
  if (how == LOSE_ACTIVE)
    person->active = FALSE;
  if (how != LOSE_ROW)
    return sw_setup_person (scene->plant->store, &actor, person, error);
  return sw_void_record (scene->plant->store, &actor, SW_TABLE_PERSON, person->record.id, error);
}

typedef struct
{
  const char *name;
  Lose how;
} LoseRow;

static const LoseRow ways[]
    = { { "role", LOSE_ROLE }, { "inactive", LOSE_ACTIVE }, { "voided", LOSE_ROW } };

/* Another administrator only counts with a secret. */
static void
test_last (gconstpointer data)
{
  const LoseRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  gboolean guarded = FALSE;

  g_assert_false (lose (scene, row->how, &error));
  scene_assert_fact (&error, SW_FACT_LAST_ADMINISTRATOR);
  add_administrator (scene, FALSE);
  g_assert_false (lose (scene, row->how, &error));
  scene_assert_fact (&error, SW_FACT_LAST_ADMINISTRATOR);
  sw_secret_guarded (scene->plant->store, &guarded, &error);
  g_assert_true (guarded);
}

static void
test_not_the_last (gconstpointer data)
{
  const LoseRow *row = data;
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;

  add_administrator (scene, TRUE);
  g_assert_true (lose (scene, row->how, &error));
  g_assert_no_error (error);
}

/* ---- the secret is not the form's ---- */

static void
test_secret_stays (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwPerson) before = load (scene, scene->plant->technician);
  g_autoptr (SwPerson) form = load (scene, scene->plant->technician);
  g_autoptr (SwPerson) after = NULL;
  g_autoptr (SwPerson) fresh = sw_person_new ();
  GError *error = NULL;

  g_free (form->secret);
  form->secret = g_strdup ("$argon2id$ that somebody made up");
  form->secret_given_by = scene->plant->reviewer;
  form->second_reader = TRUE;
  g_assert_true (sw_setup_person (scene->plant->store, &actor, form, &error));
  g_assert_no_error (error);
  after = load (scene, scene->plant->technician);
  g_assert_cmpstr (after->secret, ==, before->secret);
  g_assert_cmpint (after->secret_given_by, ==, 0);
  g_assert_true (after->second_reader);
  fresh->name = g_strdup ("N. Invented");
  fresh->initials = g_strdup ("NI");
  fresh->secret = g_strdup (before->secret);
  g_assert_true (sw_setup_person (scene->plant->store, &actor, fresh, &error));
  g_clear_pointer (&after, sw_person_free);
  after = load (scene, fresh->record.id);
  g_assert_null (after->secret);
}

/* ---- a real plant never becomes a demo ---- */

static void
test_demo (void)
{
  g_autoptr (Scene) scene = scene_new ();
  const SwActor actor = setup_actor (scene);
  g_autoptr (SwSite) site = sw_site_get (scene->plant->store, NULL);
  GError *error = NULL;

  site->demo = TRUE;
  g_assert_false (sw_setup_site (scene->plant->store, &actor, site, &error));
  scene_assert_fact (&error, SW_FACT_NOT_FROM_HERE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/people/last-administrator", ways, test_last);
  SW_TEST_ROWS ("/people/not-the-last", ways, test_not_the_last);
  g_test_add_func ("/people/secret-stays", test_secret_stays);
  g_test_add_func ("/people/demo", test_demo);
  return g_test_run ();
}
