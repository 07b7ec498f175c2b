/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The box that asks for a signature: what is asked for follows from how a person is known, and only
 * the right answer is a signature. */
#include "app/sign/secret-row.h"
#include "app/sign/sign-box.h"
#include "app/theme.h"
#include "app/widgets/form-row.h"
#include "support/plant.h"
#include "tests/app/box.h"
#include "wording/sentence-sign.h"

#include <string.h>

typedef struct
{
  SwTestPlant *plant; /* Owned; its store has gone to the context */
  SwContext *context; /* Owned */
  GtkWindow *window;  /* Owned */
  GtkWidget *page;    /* Borrowed: what lies below the box */
  SwSigner signer;
  int answers;
  gboolean given_up;
} Asked;

static Asked *
asked_new (const char *language, gboolean dark)
{
  Asked *asked = g_new0 (Asked, 1);
  g_autoptr (SwWording) wording = sw_wording_new (language, "Europe/Berlin");

  asked->plant = sw_test_plant_new ();
  asked->context = sw_context_new (g_steal_pointer (&asked->plant->store), wording);
  asked->page = gtk_button_new_with_mnemonic ("_Below");
  asked->window = sw_snapshot_window (asked->page, 1024, 600, dark);
  gtk_widget_grab_focus (asked->page);
  return asked;
}

static void
asked_free (Asked *asked)
{
  gtk_window_destroy (asked->window);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_object_unref (asked->context);
  sw_test_plant_free (asked->plant);
  g_free (asked);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Asked, asked_free)

static void
signed_cb (const SwSigner *signer, gpointer data)
{
  Asked *asked = data;

  asked->answers++;
  asked->given_up = signer == NULL;
  if (signer != NULL)
    asked->signer = *signer;
}

static GtkWidget *
ask (Asked *asked, SwMeaning meaning, gint64 person, gint64 not_person)
{
  const SwSignRequest request = {
    .meaning = meaning, .subject = "Test M-07-261124-1", .person = person, .not_person = not_person
  };

  sw_sign_ask (asked->page, asked->context, &request, signed_cb, asked);
  sw_snapshot_settle (GTK_WIDGET (asked->window));
  return sw_box_over (GTK_WIDGET (asked->window));
}

static SwStore *
get_store (Asked *asked)
{
  return sw_context_get_store (asked->context);
}

static void
act (Asked *asked, SwActKind kind)
{
  SwActor actor = sw_test_plant_actor (asked->plant, asked->plant->administrator);
  GError *error = NULL;

  actor.reason = "for a test";
  sw_act_begin (get_store (asked), kind, &actor, &error);
  g_assert_no_error (error);
}

static void
commit (Asked *asked)
{
  GError *error = NULL;

  sw_act_commit (get_store (asked), &error);
  g_assert_no_error (error);
}

static void
take_secret (Asked *asked, gint64 id)
{
  g_autoptr (SwPerson) person = sw_person_load (get_store (asked), id, NULL);

  g_clear_pointer (&person->secret, g_free);
  act (asked, SW_ACT_AMEND);
  g_assert_true (sw_person_update (get_store (asked), person, NULL));
  commit (asked);
}

static void
allow_names (Asked *asked)
{
  act (asked, SW_ACT_SETUP);
  g_assert_true (sw_setting_put (get_store (asked), SW_SETTING_NAME_ONLY, "yes", NULL));
  commit (asked);
}

static void
assert_signed (Asked *asked, gint64 person, SwIdentified identified)
{
  g_assert_cmpint (asked->answers, ==, 1);
  g_assert_false (asked->given_up);
  g_assert_cmpint (asked->signer.person, ==, person);
  g_assert_cmpint (asked->signer.identified, ==, identified);
  g_assert_null (sw_box_over (GTK_WIDGET (asked->window)));
  /* What lay below is back, with the focus. */
  g_assert_true (gtk_widget_is_sensitive (asked->page));
  g_assert_true (gtk_widget_has_focus (asked->page));
}

static guint
count_attempts (Asked *asked)
{
  g_autoptr (GArray) ids = sw_record_ids (get_store (asked), SW_TABLE_SIGN_IN, NULL, 0, NULL);

  return ids->len;
}

static const char *
get_error (GtkWidget *box)
{
  return sw_secret_row_get_error (
      SW_SECRET_ROW (sw_find_widget (box, SW_TYPE_SECRET_ROW, "secret")));
}

/* ---- with a secret ---- */

static void
test_secret (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  GtkWidget *box = ask (asked, SW_MEANING_PERFORMED, asked->plant->technician, 0);

  g_assert_true (sw_box_says (box, "I did this test as recorded."));
  g_assert_true (sw_box_says (box, "Test M-07-261124-1"));
  g_assert_true (sw_box_says (box, "Secret of T. Invented"));
  g_assert_false (gtk_widget_is_sensitive (asked->page));
  sw_snapshot (GTK_WIDGET (asked->window), "sign-secret");
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  assert_signed (asked, asked->plant->technician, SW_IDENTIFIED_SECRET);
  g_assert_cmpuint (count_attempts (asked), ==, 0);
}

/* Each mistake is said in the box, none is a signature, and the wrong one is counted in the file.
 */
static void
test_wrong (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  GtkWidget *box = ask (asked, SW_MEANING_PERFORMED, asked->plant->technician, 0);

  sw_box_press (box, "sign");
  g_assert_cmpstr (get_error (box), ==, "Type the secret.");
  g_assert_cmpuint (count_attempts (asked), ==, 0);
  sw_box_answer (box, "wrong secret");
  g_assert_cmpstr (get_error (box), ==, "The secret is not right.");
  g_assert_cmpuint (count_attempts (asked), ==, 1);
  g_assert_cmpint (asked->answers, ==, 0);
  g_assert_nonnull (sw_box_over (GTK_WIDGET (asked->window)));
  sw_snapshot (GTK_WIDGET (asked->window), "sign-wrong");
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  assert_signed (asked, asked->plant->technician, SW_IDENTIFIED_SECRET);
}

static void
run_main_loop (guint ms)
{
  gint64 until = g_get_monotonic_time () + ms * G_TIME_SPAN_MILLISECOND;

  while (g_get_monotonic_time () < until)
    g_main_context_iteration (NULL, FALSE);
}

/* After the third wrong one in a row the box waits 2 s, and says how long, as time goes by. */
static void
test_wait (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  GtkWidget *box = ask (asked, SW_MEANING_PERFORMED, asked->plant->technician, 0);
  GtkWidget *row = sw_find_widget (box, SW_TYPE_SECRET_ROW, "secret");

  for (int i = 0; i < 3; i++)
    sw_box_answer (box, "wrong secret");
  g_assert_true (sw_secret_row_is_waiting (SW_SECRET_ROW (row)));
  g_assert_nonnull (strstr (get_error (box), "The next is possible in 2 s."));
  sw_snapshot (GTK_WIDGET (asked->window), "sign-wait");
  /* Pressing does not look at the secret. */
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  g_assert_cmpint (asked->answers, ==, 0);
  g_assert_cmpuint (count_attempts (asked), ==, 3);
  asked->plant->now_ms += 1000;
  run_main_loop (600);
  g_assert_nonnull (strstr (get_error (box), "The next is possible in 1 s."));
  asked->plant->now_ms += 1500;
  run_main_loop (600);
  g_assert_false (sw_secret_row_is_waiting (SW_SECRET_ROW (row)));
  g_assert_null (get_error (box));
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  assert_signed (asked, asked->plant->technician, SW_IDENTIFIED_SECRET);
}

/* What was typed is overwritten where it stood, not only cut off. */
static void
test_wiped (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  GtkWidget *box = ask (asked, SW_MEANING_PERFORMED, asked->plant->technician, 0);
  SwSecretRow *row = SW_SECRET_ROW (sw_find_widget (box, SW_TYPE_SECRET_ROW, "secret"));

  sw_box_type (box, "secret", SW_TEST_PLANT_SECRET);
  const char *place = sw_secret_row_get_text (row);
  g_assert_cmpstr (place, ==, SW_TEST_PLANT_SECRET);
  sw_secret_row_wipe (row);
  g_assert_true (place == sw_secret_row_get_text (row));
  for (gsize i = 0; i < strlen (SW_TEST_PLANT_SECRET); i++)
    g_assert_cmpint (place[i], !=, SW_TEST_PLANT_SECRET[i]);
}

/* ---- by name, invented, without ---- */

static void
test_name (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);

  allow_names (asked);
  take_secret (asked, asked->plant->technician);
  GtkWidget *box = ask (asked, SW_MEANING_PERFORMED, asked->plant->technician, 0);
  GtkWidget *row = sw_find_widget (box, SW_TYPE_FORM_ROW, "initials");
  GtkEditable *entry = GTK_EDITABLE (sw_form_row_get_entry (SW_FORM_ROW (row)));
  g_assert_true (sw_box_says (box, "A name alone proves nothing about who signed"));
  sw_snapshot (GTK_WIDGET (asked->window), "sign-name");
  sw_box_press (box, "sign");
  g_assert_nonnull (sw_form_row_get_error (SW_FORM_ROW (row)));
  gtk_editable_set_text (entry, "CI");
  sw_box_press (box, "sign");
  g_assert_cmpstr (sw_form_row_get_error (SW_FORM_ROW (row)), ==,
                   "“CI” are not the initials of T. Invented.");
  g_assert_cmpint (asked->answers, ==, 0);
  gtk_editable_set_text (entry, " ti ");
  g_signal_emit_by_name (entry, "activate");
  assert_signed (asked, asked->plant->technician, SW_IDENTIFIED_SELECTED);
}

/* The same person where the plant does not allow it. */
static void
test_no_secret (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);

  take_secret (asked, asked->plant->technician);
  GtkWidget *box = ask (asked, SW_MEANING_PERFORMED, asked->plant->technician, 0);
  g_assert_true (sw_box_says (box, "No secret was set for T. Invented yet."));
  g_assert_false (gtk_widget_is_sensitive (sw_find_widget (box, GTK_TYPE_BUTTON, "sign")));
  sw_snapshot (GTK_WIDGET (asked->window), "sign-no-secret");
  sw_box_press (box, "cancel");
  g_assert_true (asked->given_up);
}

static void
test_demo (void)
{
  g_autoptr (Asked) asked = g_new0 (Asked, 1);
  g_autoptr (SwWording) wording = sw_wording_new ("en", "Europe/Berlin");
  g_autoptr (GError) error = NULL;

  asked->plant = sw_test_plant_new ();
  g_autoptr (SwSite) site = sw_site_get (asked->plant->store, &error);
  site->demo = TRUE;
  sw_test_plant_begin (asked->plant, SW_ACT_AMEND);
  g_assert_true (sw_site_update (asked->plant->store, site, &error));
  sw_test_plant_commit (asked->plant);
  asked->context = sw_context_new (g_steal_pointer (&asked->plant->store), wording);
  asked->page = gtk_button_new_with_label ("Below");
  asked->window = sw_snapshot_window (asked->page, 1024, 600, FALSE);
  gtk_widget_grab_focus (asked->page);
  GtkWidget *box = ask (asked, SW_MEANING_PERFORMED, asked->plant->technician, 0);
  g_assert_true (
      sw_box_says (box, "Nobody in this invented plant has a secret: one press signs for "));
  sw_snapshot (GTK_WIDGET (asked->window), "sign-demo");
  sw_box_press (box, "sign");
  assert_signed (asked, asked->plant->technician, SW_IDENTIFIED_DEMO);
}

/* ---- picking ---- */

static void
test_pick (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  GtkWidget *box = ask (asked, SW_MEANING_RELEASED, 0, asked->plant->administrator);

  /* Only the reviewer is left, and comes picked. */
  g_assert_true (sw_box_says (box, "I release this dose."));
  g_assert_false (sw_box_says (box, "T. Invented"));
  g_assert_false (sw_box_says (box, "A. Invented"));
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  assert_signed (asked, asked->plant->reviewer, SW_IDENTIFIED_SECRET);
}

/* What was typed for one person is not tried on another. */
static void
test_pick_another (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  GtkWidget *box = ask (asked, SW_MEANING_REVIEWED, 0, 0);

  sw_box_type (box, "secret", SW_TEST_PLANT_SECRET);
  sw_snapshot (GTK_WIDGET (asked->window), "sign-pick");
  sw_box_pick (box, "A. Invented");
  g_assert_true (sw_box_says (box, "Secret of A. Invented"));
  sw_box_press (box, "sign");
  g_assert_cmpint (asked->answers, ==, 0);
  sw_snapshot (GTK_WIDGET (asked->window), "sign-picked");
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  assert_signed (asked, asked->plant->administrator, SW_IDENTIFIED_SECRET);
}

static void
test_pick_nobody (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  g_autoptr (SwPerson) reviewer = sw_person_load (get_store (asked), asked->plant->reviewer, NULL);

  reviewer->active = FALSE;
  act (asked, SW_ACT_AMEND);
  g_assert_true (sw_person_update (get_store (asked), reviewer, NULL));
  commit (asked);
  GtkWidget *box = ask (asked, SW_MEANING_RELEASED, 0, asked->plant->administrator);
  g_assert_true (sw_box_says (box, "Nobody on file may sign this"));
  g_assert_false (gtk_widget_is_sensitive (sw_find_widget (box, GTK_TYPE_BUTTON, "sign")));
}

/* A technician's own secret is right and still no release. */
static void
test_no_right (void)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  GtkWidget *box = ask (asked, SW_MEANING_RELEASED, asked->plant->technician, 0);

  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  g_assert_cmpint (asked->answers, ==, 0);
  g_assert_true (sw_box_says (box, "reviewer"));
}

/* ---- giving up ---- */

static void
give_up_cancel (Asked *asked)
{
  sw_box_press (sw_box_over (GTK_WIDGET (asked->window)), "cancel");
}

static void
give_up_hidden (Asked *asked)
{
  gtk_widget_set_visible (asked->page, FALSE);
}

static void
give_up_person (Asked *asked)
{
  const SwSigner signer = sw_test_plant_signer (asked->plant->colleague);

  sw_context_set_signer (asked->context, &signer);
}

static void
give_up_other (Asked *asked)
{
  const SwSignRequest request = { .subject = "", .person = asked->plant->reviewer };

  sw_sign_ask (asked->page, asked->context, &request, signed_cb, asked);
}

static const struct
{
  const char *name;
  void (*way) (Asked *asked);
} ways[] = {
  { "cancel", give_up_cancel },
  { "page hidden", give_up_hidden },
  { "another person", give_up_person },
  { "another box", give_up_other },
};

static void
test_give_up (gconstpointer data)
{
  g_autoptr (Asked) asked = asked_new ("en", FALSE);
  guint i = GPOINTER_TO_UINT (data);

  ask (asked, SW_MEANING_PERFORMED, asked->plant->technician, 0);
  ways[i].way (asked);
  g_assert_cmpint (asked->answers, ==, 1);
  g_assert_true (asked->given_up);
}

static void
test_looks (void)
{
  static const struct
  {
    const char *name;
    const char *language;
    gboolean dark, contrast;
  } looks[] = {
    { "light", "en", FALSE, FALSE },   { "dark", "en", TRUE, FALSE },
    { "long", "xx", FALSE, FALSE },    { "right-to-left", "xr", FALSE, FALSE },
    { "contrast", "en", FALSE, TRUE }, { "contrast-dark", "en", TRUE, TRUE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      gboolean right_to_left = g_str_equal (looks[i].language, "xr");
      gtk_widget_set_default_direction (right_to_left ? GTK_TEXT_DIR_RTL : GTK_TEXT_DIR_LTR);
      g_autoptr (Asked) asked = asked_new (looks[i].language, looks[i].dark);
      g_autofree char *name = g_strconcat ("sign-", looks[i].name, NULL);

      sw_theme_force (looks[i].dark ? SW_SCHEME_DARK : SW_SCHEME_LIGHT, looks[i].contrast);
      GtkWidget *box = ask (asked, SW_MEANING_REVIEWED, 0, 0);
      sw_box_pick (box, "R. Invented");
      sw_box_answer (box, "wrong secret");
      sw_snapshot (GTK_WIDGET (asked->window), name);
      g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (asked->window)), <=, 600);
      g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (asked->window)), <=, 1024);
    }
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/sign/secret", test_secret);
  g_test_add_func ("/sign/wrong", test_wrong);
  g_test_add_func ("/sign/wait", test_wait);
  g_test_add_func ("/sign/wiped", test_wiped);
  g_test_add_func ("/sign/by name", test_name);
  g_test_add_func ("/sign/no secret yet", test_no_secret);
  g_test_add_func ("/sign/demo", test_demo);
  g_test_add_func ("/sign/pick/only one", test_pick);
  g_test_add_func ("/sign/pick/another", test_pick_another);
  g_test_add_func ("/sign/pick/nobody", test_pick_nobody);
  g_test_add_func ("/sign/no right", test_no_right);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      g_autofree char *path = g_strconcat ("/sign/given up/", ways[i].name, NULL);
      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_give_up);
    }
  g_test_add_func ("/sign/looks", test_looks);
  return g_test_run ();
}
