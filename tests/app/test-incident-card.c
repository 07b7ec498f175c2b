/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An acid incident is closed on the machine page by a reviewer who names the cause and signs. */
#include "app/machine/incident-card.h"
#include "app/widgets/form-row.h"
#include "tests/app/box.h"
#include "tests/app/busy-plant.h"

#include <string.h>

typedef struct
{
  BusyPlant *plant; /* Owned */
  GtkWidget *card;  /* Borrowed */
  SwFormRow *cause; /* Borrowed */
  gint64 incident;
} Closing;

/* The oldest incident of M-07: acid, dosed, its re-test passed. */
static gint64
find_waiting (BusyPlant *plant)
{
  SwStore *store = sw_context_get_store (plant->context);
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_INCIDENT, NULL, 0, NULL);

  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwIncident) row = sw_incident_load (store, g_array_index (ids, gint64, i), NULL);

      if (row->state == SW_INCIDENT_RETEST_PASSED)
        return row->record.id;
    }
  g_assert_not_reached ();
}

static Closing *
closing_new (void)
{
  Closing *closing = g_new0 (Closing, 1);
  SwWindow *window;

  closing->plant = busy_plant_new ();
  window = busy_plant_open_window (closing->plant, "en", 1280, 900, FALSE);
  sw_window_show_machine (window, closing->plant->retest.machine);
  closing->card = sw_find_widget (GTK_WIDGET (window), SW_TYPE_INCIDENT_CARD, NULL);
  closing->cause = SW_FORM_ROW (sw_find_widget (closing->card, SW_TYPE_FORM_ROW, "cause"));
  closing->incident = find_waiting (closing->plant);
  return closing;
}

static void
closing_free (Closing *closing)
{
  busy_plant_free (closing->plant);
  g_free (closing);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Closing, closing_free)

static void
press (Closing *closing)
{
  g_signal_emit_by_name (sw_find_button (closing->card, "Sign and Close Incident"), "clicked");
  sw_snapshot_settle (GTK_WIDGET (closing->plant->window));
}

static GtkWidget *
box_of (Closing *closing)
{
  return sw_box_over (GTK_WIDGET (closing->plant->window));
}

static SwIncident *
load (Closing *closing)
{
  return sw_incident_load (sw_context_get_store (closing->plant->context), closing->incident, NULL);
}

static void
test_closed (void)
{
  g_autoptr (Closing) closing = closing_new ();
  gint64 reviewer = closing->plant->scene->plant->reviewer;

  busy_plant_work_as (closing->plant, reviewer);
  sw_form_row_set_text (closing->cause, "water was not leaving");
  press (closing);
  g_assert_true (sw_box_says (box_of (closing), "I close this incident."));
  g_assert_true (sw_box_says (box_of (closing), "on M-07 Long bed"));
  sw_snapshot (GTK_WIDGET (closing->plant->window), "sign-incident");
  sw_box_answer (box_of (closing), SW_TEST_PLANT_SECRET);
  g_autoptr (SwIncident) row = load (closing);
  g_assert_cmpint (row->state, ==, SW_INCIDENT_CLOSED);
  g_assert_cmpint (row->closed_by, ==, reviewer);
  g_assert_cmpstr (row->cause, ==, "water was not leaving");
}

/* Asked before the secret is: no cause, and who may not. */
static void
test_refused (void)
{
  g_autoptr (Closing) closing = closing_new ();

  busy_plant_work_as (closing->plant, closing->plant->scene->plant->reviewer);
  press (closing);
  g_assert_null (box_of (closing));
  g_assert_nonnull (sw_form_row_get_error (closing->cause));
  busy_plant_work_as (closing->plant, closing->plant->scene->plant->technician);
  sw_form_row_set_text (closing->cause, "water was not leaving");
  press (closing);
  g_assert_null (box_of (closing));
  g_autoptr (SwIncident) row = load (closing);
  g_assert_cmpint (row->state, ==, SW_INCIDENT_RETEST_PASSED);
}

/* Given up: nothing is closed, the cause stays typed. */
static void
test_given_up (void)
{
  g_autoptr (Closing) closing = closing_new ();

  busy_plant_work_as (closing->plant, closing->plant->scene->plant->reviewer);
  sw_form_row_set_text (closing->cause, "water was not leaving");
  press (closing);
  sw_box_press (box_of (closing), "cancel");
  g_autoptr (SwIncident) row = load (closing);
  g_assert_cmpint (row->state, ==, SW_INCIDENT_RETEST_PASSED);
  g_assert_cmpstr (sw_form_row_get_text (closing->cause), ==, "water was not leaving");
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/incident-card/closed", test_closed);
  g_test_add_func ("/incident-card/refused", test_refused);
  g_test_add_func ("/incident-card/given up", test_given_up);
  return g_test_run ();
}
