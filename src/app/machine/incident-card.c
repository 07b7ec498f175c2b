/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The card of a waiting acid incident on the machine page. */
#include "app/machine/incident-card.h"

#include "app/plant-words.h"
#include "app/sign/sign-box.h"
#include "app/widgets/form-row.h"
#include "app/widgets/verdict.h"
#include "app/window.h"
#include "wording/sentence-incident.h"
#include "wording/sentence-sign.h"
#include "workflow/guided.h"
#include "workflow/incident.h"

struct _SwIncidentCard
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;

  /* Template children */
  GtkLabel *title;
  SwFormRow *cause;

  gint64 machine;
  gint64 incident; /* 0 = none waits */
  gint64 asked;    /* whose signature was asked for last */
};

G_DEFINE_FINAL_TYPE (SwIncidentCard, sw_incident_card, GTK_TYPE_WIDGET)

/* The oldest incident of the machine that waits. (transfer full) */
static SwIncident *
find_waiting (SwIncidentCard *self)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_INCIDENT, "machine", self->machine, NULL);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwIncident) incident
          = sw_incident_load (store, g_array_index (ids, gint64, i), NULL);

      if (incident != NULL && incident->state == SW_INCIDENT_RETEST_PASSED)
        return g_steal_pointer (&incident);
    }
  return NULL;
}

void
sw_incident_card_show (SwIncidentCard *self, gint64 machine)
{
  g_autoptr (SwIncident) incident = NULL;
  g_autofree char *title = NULL;
  gint64 id;

  g_return_if_fail (SW_IS_INCIDENT_CARD (self));
  self->machine = machine;
  incident = find_waiting (self);
  id = incident != NULL ? incident->record.id : 0;
  gtk_widget_set_visible (GTK_WIDGET (self), id != 0);
  if (id == self->incident)
    return;
  self->incident = id;
  sw_form_row_set_text (self->cause, "");
  sw_form_row_set_error (self->cause, NULL);
  if (incident == NULL)
    return;
  title = sw_say_incident_waits (sw_context_get_wording (self->context),
                                 incident->record.happened_ms);
  gtk_label_set_text (self->title, title);
}

/* Fault and refusal alike stand at the field; the file's errors are the window's. */
static void
show_error (SwIncidentCard *self, const GError *error)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  const SwFact *fact = sw_workflow_error_get_fact (error);
  g_autofree char *words
      = fact != NULL ? sw_say_fact (wording, fact) : sw_say_error (wording, error);

  sw_form_row_set_error (self->cause, words);
  gtk_widget_grab_focus (sw_form_row_get_entry (self->cause));
}

/* The card may show another incident by now, or none: then nothing is closed. */
static void
signed_cb (const SwSigner *signer, gpointer data)
{
  g_autoptr (SwIncidentCard) self = data;
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  g_autoptr (GError) error = NULL;

  if (signer == NULL || self->context == NULL || self->incident != self->asked)
    return;
  if (!sw_incident_close (sw_context_get_store (self->context),
                          sw_context_get_actor (self->context), self->incident,
                          sw_form_row_get_text (self->cause), signer, &error))
    {
      show_error (self, error);
      return;
    }
  if (window != NULL)
    sw_window_toast (
        window, sw_tr (sw_context_get_wording (self->context), "The acid incident is closed."));
  sw_context_changed (self->context);
}

/* Before anybody types a secret: whether this person may close it, and whether a cause is named. */
static gboolean
may_close (SwIncidentCard *self, const SwIncident *incident)
{
  const SwFault missing = {
    .code = SW_FAULT_MISSING, .quantity = SW_QUANTITY_REASON, .value = NAN, .low = NAN, .high = NAN
  };
  g_autofree char *cause = g_strstrip (g_strdup (sw_form_row_get_text (self->cause)));
  g_autoptr (GError) error = NULL;
  SwFact refusal;

  if (!sw_incident_may_close (sw_context_get_store (self->context),
                              sw_context_get_actor (self->context), incident, &refusal, &error))
    {
      if (error == NULL)
        sw_workflow_refuse (&error, &refusal);
    }
  else if (*cause == '\0')
    sw_fault_set (&error, &missing);
  if (error != NULL)
    show_error (self, error);
  return error == NULL;
}

static void
close_cb (GtkButton *button, SwIncidentCard *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  g_autoptr (SwIncident) incident
      = sw_incident_load (sw_context_get_store (self->context), self->incident, NULL);

  if (incident == NULL || (window != NULL && !sw_window_may (window, SW_RIGHT_REVIEW))
      || !may_close (self, incident))
    return;
  g_autofree char *name = sw_plant_machine_name (self->context, incident->machine);
  g_autofree char *subject = sw_say_incident_subject (wording, incident->record.happened_ms, name);
  const SwSignRequest request = { .meaning = SW_MEANING_CLOSED,
                                  .subject = subject,
                                  .person = sw_context_get_person (self->context) };

  self->asked = self->incident;
  sw_sign_ask (GTK_WIDGET (self), self->context, &request, signed_cb, g_object_ref (self));
}

static void
sw_incident_card_dispose (GObject *object)
{
  SwIncidentCard *self = SW_INCIDENT_CARD (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_incident_card_parent_class)->dispose (object);
}

static void
sw_incident_card_class_init (SwIncidentCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_incident_card_dispose;
  g_type_ensure (SW_TYPE_FORM_ROW);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/machine/incident-card.ui");
  gtk_widget_class_bind_template_child (widget_class, SwIncidentCard, title);
  gtk_widget_class_bind_template_child (widget_class, SwIncidentCard, cause);
  gtk_widget_class_bind_template_callback (widget_class, close_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_incident_card_init (SwIncidentCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_incident_card_set_context (SwIncidentCard *self, SwContext *context)
{
  g_return_if_fail (SW_IS_INCIDENT_CARD (self) && self->context == NULL);
  self->context = g_object_ref (context);
}
