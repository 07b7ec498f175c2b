/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Signing in at the window: who is asked for what, who is let in, and who is sent out again. */
#include "app/sign/secret-row.h"
#include "app/theme.h"
#include "tests/app/box.h"
#include "tests/app/busy-plant.h"
#include "workflow/sign-in.h"

#include <string.h>

#define OTHER_SECRET "four green ponds"

static BusyPlant *
open_plant (const char *language, gboolean dark)
{
  BusyPlant *plant = busy_plant_new_quiet ();

  busy_plant_open_window (plant, language, 1024, 600, dark);
  sw_context_set_person (plant->context, 0);
  return plant;
}

static GtkWidget *
box_of (BusyPlant *plant)
{
  return sw_box_over (GTK_WIDGET (plant->window));
}

static GtkWidget *
popover_of (BusyPlant *plant)
{
  return sw_find_widget (GTK_WIDGET (plant->window), GTK_TYPE_POPOVER, "popover");
}

/* Opens the list of people and picks one, as Enter on the row does. */
static void
pick (BusyPlant *plant, const char *name)
{
  gtk_widget_activate_action (GTK_WIDGET (plant->window), "win.who", NULL);
  sw_snapshot_settle (GTK_WIDGET (plant->window));
  GtkWidget *label = sw_find_text (popover_of (plant), name);
  g_assert_nonnull (label);
  GtkWidget *row = gtk_widget_get_ancestor (label, GTK_TYPE_LIST_BOX_ROW);
  g_signal_emit_by_name (gtk_widget_get_parent (row), "row-activated", row);
  sw_snapshot_settle (GTK_WIDGET (plant->window));
}

static gboolean
says (GtkWidget *widget, const char *words)
{
  g_autofree char *text = sw_visible_text (widget);

  return strstr (text, words) != NULL;
}

static const char *
tooltip (BusyPlant *plant)
{
  GtkWidget *person
      = sw_find_widget (GTK_WIDGET (plant->window), g_type_from_name ("SwPersonButton"), NULL);

  return gtk_widget_get_tooltip_text (sw_find_widget (person, GTK_TYPE_MENU_BUTTON, "button"));
}

static void
assert_works (BusyPlant *plant, gint64 person, SwIdentified identified)
{
  const SwActor *actor = sw_context_get_actor (plant->context);

  g_assert_cmpint (sw_context_get_person (plant->context), ==, person);
  g_assert_cmpint (actor->person, ==, person);
  if (person != 0)
    g_assert_cmpint (actor->identified, ==, identified);
}

static SwStore *
store_of (BusyPlant *plant)
{
  return sw_context_get_store (plant->context);
}

static void
begin_act (BusyPlant *plant)
{
  SwActor actor = sw_test_plant_actor (plant->scene->plant, plant->scene->plant->administrator);

  actor.reason = "for a test";
  g_assert_true (sw_act_begin (store_of (plant), SW_ACT_AMEND, &actor, NULL));
}

/* Another secret, or none; given by @giver. */
static void
put_secret (BusyPlant *plant, gint64 id, gboolean has, gint64 giver)
{
  g_autoptr (SwPerson) person = sw_person_load (store_of (plant), id, NULL);

  if (!has)
    g_clear_pointer (&person->secret, g_free);
  person->secret_given_by = giver;
  begin_act (plant);
  g_assert_true (sw_person_update (store_of (plant), person, NULL));
  g_assert_true (sw_act_commit (store_of (plant), NULL));
}

static void
put_setting (BusyPlant *plant, const char *name, const char *value)
{
  begin_act (plant);
  g_assert_true (sw_setting_put (store_of (plant), name, value, NULL));
  g_assert_true (sw_act_commit (store_of (plant), NULL));
}

/* ---- the person button ---- */

static void
test_secret (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  SwTestPlant *file = plant->scene->plant;

  pick (plant, "T. Invented");
  assert_works (plant, 0, 0);
  g_assert_true (says (box_of (plant), "Secret of T. Invented"));
  sw_snapshot (GTK_WIDGET (plant->window), "sign-in");
  sw_box_answer (box_of (plant), "wrong secret");
  assert_works (plant, 0, 0);
  g_assert_true (says (box_of (plant), "The secret is not right."));
  sw_box_answer (box_of (plant), SW_TEST_PLANT_SECRET);
  assert_works (plant, file->technician, SW_IDENTIFIED_SECRET);
  g_assert_null (box_of (plant));
  g_assert_true (says (GTK_WIDGET (plant->window), "signed in"));
  g_assert_cmpstr (tooltip (plant), ==, "T. Invented signed in with the secret.");
  /* Two attempts are on file, one of them right. */
  g_autoptr (GArray) rows = sw_record_ids (store_of (plant), SW_TABLE_SIGN_IN, NULL, 0, NULL);
  g_assert_cmpuint (rows->len, ==, 2);
  sw_snapshot (GTK_WIDGET (plant->window), "signed-in");
}

/* No way around the secret: not by name, not by giving up. */
static void
test_never_by_name (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  SwTestPlant *file = plant->scene->plant;

  put_setting (plant, SW_SETTING_NAME_ONLY, "yes");
  g_assert_false (sw_context_set_person (plant->context, file->technician));
  assert_works (plant, 0, 0);
  pick (plant, "T. Invented");
  sw_box_press (box_of (plant), "cancel");
  assert_works (plant, 0, 0);
}

static void
test_by_name (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  SwTestPlant *file = plant->scene->plant;

  put_setting (plant, SW_SETTING_NAME_ONLY, "yes");
  put_secret (plant, file->technician, FALSE, 0);
  pick (plant, "T. Invented");
  g_assert_null (box_of (plant));
  assert_works (plant, file->technician, SW_IDENTIFIED_SELECTED);
  g_assert_true (says (GTK_WIDGET (plant->window), "by name"));
  g_assert_cmpstr (tooltip (plant), ==,
                   "T. Invented works by name alone, which proves nothing about who it is.");
  g_assert_true (sw_window_may_write (plant->window));
  sw_snapshot (GTK_WIDGET (plant->window), "by-name");
  /* Given a secret in the meantime: the name alone is good no longer. */
  g_autoptr (SwPerson) colleague = sw_person_load (store_of (plant), file->colleague, NULL);
  g_autoptr (SwPerson) person = sw_person_load (store_of (plant), file->technician, NULL);
  person->secret = g_strdup (colleague->secret);
  begin_act (plant);
  g_assert_true (sw_person_update (store_of (plant), person, NULL));
  g_assert_true (sw_act_commit (store_of (plant), NULL));
  sw_context_changed (plant->context);
  assert_works (plant, 0, 0);
}

static void
test_no_secret_yet (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);

  put_secret (plant, plant->scene->plant->reviewer, FALSE, 0);
  pick (plant, "R. Invented");
  g_assert_null (box_of (plant));
  assert_works (plant, 0, 0);
  g_assert_true (says (popover_of (plant), "No secret was set for R. Invented yet."));
  g_assert_true (says (popover_of (plant), "no secret yet"));
  sw_snapshot (popover_of (plant), "people");
}

static void
test_sign_out (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);

  busy_plant_work_as (plant, plant->scene->plant->technician);
  gtk_widget_activate_action (GTK_WIDGET (plant->window), "win.who", NULL);
  sw_snapshot_settle (GTK_WIDGET (plant->window));
  sw_snapshot (popover_of (plant), "people-signed-in");
  g_signal_emit_by_name (sw_find_button (popover_of (plant), "Sign Out"), "clicked");
  assert_works (plant, 0, 0);
  g_assert_false (sw_window_may_write (plant->window));
}

/* Below a box nothing is reached, by whatever key; afterwards everything is. */
static void
test_resting (void)
{
  static const char *const actions[] = { "win.records", "win.setup", "win.verify", "win.find" };
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  GtkWidget *window = GTK_WIDGET (plant->window);
  GtkWidget *pages = sw_find_widget (window, GTK_TYPE_STACK, "pages");
  GtkWidget *before = gtk_stack_get_visible_child (GTK_STACK (pages));
  GtkWidget *menu = sw_find_widget (window, GTK_TYPE_MENU_BUTTON, "menu");

  pick (plant, "T. Invented");
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_activate_action (window, actions[i], NULL);
  g_assert_true (gtk_stack_get_visible_child (GTK_STACK (pages)) == before);
  g_assert_false (gtk_widget_is_sensitive (menu));
  g_assert_false (gtk_widget_is_sensitive (pages));
  sw_box_press (box_of (plant), "cancel");
  g_assert_true (gtk_widget_is_sensitive (menu));
  gtk_widget_activate_action (window, "win.setup", NULL);
  g_assert_true (gtk_stack_get_visible_child (GTK_STACK (pages)) != before);
}

/* ---- a new secret ---- */

static void
type_new (GtkWidget *box, const char *old, const char *secret, const char *again)
{
  if (old != NULL)
    sw_box_type (box, "old", old);
  sw_box_type (box, "secret", secret);
  sw_box_type (box, "again", again);
  sw_box_press (box, "set");
}

static void
open_change (BusyPlant *plant)
{
  gtk_widget_activate_action (GTK_WIDGET (plant->window), "win.who", NULL);
  sw_snapshot_settle (GTK_WIDGET (plant->window));
  g_signal_emit_by_name (sw_find_button (popover_of (plant), "Change My Secret…"), "clicked");
  sw_snapshot_settle (GTK_WIDGET (plant->window));
}

static gboolean
opens (BusyPlant *plant, gint64 person, const char *secret)
{
  SwSigner signer;

  return sw_sign_again (store_of (plant), person, secret, &signer, NULL);
}

static const struct
{
  const char *name;
  const char *old, *secret, *again;
  const char *words; /* NULL: it is set */
} changes[] = {
  { "old missing", "", OTHER_SECRET, OTHER_SECRET, "Type the secret." },
  { "old wrong", "wrong secret", OTHER_SECRET, OTHER_SECRET, "The secret is not right." },
  { "new missing", SW_TEST_PLANT_SECRET, "", "", "Type the secret." },
  { "too short", SW_TEST_PLANT_SECRET, "four", "four", "Allowed: 8 to 256" },
  { "two differ", SW_TEST_PLANT_SECRET, OTHER_SECRET, OTHER_SECRET "s", "The two differ." },
  { "the same", SW_TEST_PLANT_SECRET, SW_TEST_PLANT_SECRET, SW_TEST_PLANT_SECRET,
    "This is the secret you have." },
  { "good", SW_TEST_PLANT_SECRET, OTHER_SECRET, OTHER_SECRET, NULL },
};

static void
test_change (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  gint64 person = plant->scene->plant->technician;
  gboolean good = changes[i].words == NULL;

  busy_plant_work_as (plant, person);
  open_change (plant);
  type_new (box_of (plant), changes[i].old, changes[i].secret, changes[i].again);
  if (!good)
    {
      g_autofree char *seen = sw_visible_text (box_of (plant));
      g_test_message ("%s", seen);
      g_assert_nonnull (strstr (seen, changes[i].words));
      sw_snapshot (GTK_WIDGET (plant->window), "change-refused");
    }
  g_assert_cmpint (box_of (plant) == NULL, ==, good);
  g_assert_cmpint (opens (plant, person, OTHER_SECRET), ==, good);
  assert_works (plant, person, SW_IDENTIFIED_SECRET);
}

/* Who was given a secret changes it before anything else, in the box that asks for it. */
static void
test_given (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  SwTestPlant *file = plant->scene->plant;

  put_secret (plant, file->technician, TRUE, file->administrator);
  pick (plant, "T. Invented");
  g_assert_true (says (box_of (plant), "A. Invented chose your present secret"));
  sw_snapshot (GTK_WIDGET (plant->window), "given");
  type_new (box_of (plant), "wrong secret", OTHER_SECRET, OTHER_SECRET);
  assert_works (plant, 0, 0);
  type_new (box_of (plant), SW_TEST_PLANT_SECRET, "four", "four");
  assert_works (plant, 0, 0);
  type_new (box_of (plant), SW_TEST_PLANT_SECRET, OTHER_SECRET, OTHER_SECRET);
  assert_works (plant, file->technician, SW_IDENTIFIED_SECRET);
  g_autoptr (SwPerson) person = sw_person_load (store_of (plant), file->technician, NULL);
  g_assert_cmpint (person->secret_given_by, ==, 0);
  g_assert_true (opens (plant, file->technician, OTHER_SECRET));
}

/* ---- a file without any secret ---- */

static void
test_first_secret (void)
{
  g_autoptr (BusyPlant) plant = open_plant ("en", FALSE);
  SwTestPlant *file = plant->scene->plant;
  const gint64 people[]
      = { file->technician, file->colleague, file->reviewer, file->auditor, file->administrator };
  GtkWidget *window = GTK_WIDGET (plant->window);

  for (gsize i = 0; i < G_N_ELEMENTS (people); i++)
    put_secret (plant, people[i], FALSE, 0);
  sw_context_changed (plant->context);
  g_assert_true (says (window, "No administrator of this plant has a secret yet."));
  sw_snapshot (window, "unguarded");
  g_assert_false (sw_window_may_write (plant->window));
  g_assert_nonnull (box_of (plant));
  sw_box_press (box_of (plant), "cancel");
  g_signal_emit_by_name (sw_find_button (window, "Set Secret…"), "clicked");
  sw_snapshot (window, "first-secret");
  type_new (box_of (plant), NULL, OTHER_SECRET, OTHER_SECRET);
  assert_works (plant, file->administrator, SW_IDENTIFIED_SECRET);
  g_assert_false (says (window, "No administrator of this plant has a secret yet."));
  g_assert_true (sw_window_may_write (plant->window));
}

/* The largest of the boxes in the smallest window, in the longest language: all of it is there. */
static void
test_first_looks (void)
{
  static const struct
  {
    const char *name;
    const char *language;
    gboolean dark;
  } looks[] = { { "dark", "en", TRUE }, { "long", "xx", FALSE } };

  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      g_autoptr (BusyPlant) plant = open_plant (looks[i].language, looks[i].dark);
      g_autofree char *first = g_strconcat ("first-secret-", looks[i].name, NULL);
      g_autofree char *people = g_strconcat ("people-", looks[i].name, NULL);
      graphene_rect_t place;

      sw_window_ask_first_secret (plant->window);
      sw_snapshot (GTK_WIDGET (plant->window), first);
      GtkWidget *set = sw_find_widget (box_of (plant), GTK_TYPE_BUTTON, "set");
      g_assert_true (gtk_widget_compute_bounds (set, GTK_WIDGET (plant->window), &place));
      g_assert_cmpfloat (place.origin.y + place.size.height, <=, 600);
      sw_box_press (box_of (plant), "cancel");
      busy_plant_work_as (plant, plant->scene->plant->technician);
      gtk_widget_activate_action (GTK_WIDGET (plant->window), "win.who", NULL);
      sw_snapshot_settle (GTK_WIDGET (plant->window));
      sw_snapshot (popover_of (plant), people);
    }
}

static void
add_rows (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autofree char *path = g_strconcat ("/sign-in/change/", changes[i].name, NULL);
      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_change);
    }
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/sign-in/with a secret", test_secret);
  g_test_add_func ("/sign-in/never by name", test_never_by_name);
  g_test_add_func ("/sign-in/by name", test_by_name);
  g_test_add_func ("/sign-in/no secret yet", test_no_secret_yet);
  g_test_add_func ("/sign-in/sign out", test_sign_out);
  g_test_add_func ("/sign-in/resting", test_resting);
  g_test_add_func ("/sign-in/given", test_given);
  g_test_add_func ("/sign-in/first secret", test_first_secret);
  g_test_add_func ("/sign-in/first secret/looks", test_first_looks);
  add_rows ();
  return g_test_run ();
}
