/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The card of a waiting acid incident on the machine page. */
#include "app/machine/incident-card.h"

#include "app/widgets/form-row.h"
#include "app/widgets/verdict.h"
#include "app/window.h"
#include "wording/sentence-incident.h"
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

static void
close_cb (GtkButton *button, SwIncidentCard *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  const SwActor *actor = sw_context_get_actor (self->context);
  const SwSigner signer = { .person = actor->person, .identified = actor->identified };
  g_autoptr (GError) error = NULL;

  if (window != NULL && !sw_window_may_write (window))
    return;
  if (!sw_incident_close (sw_context_get_store (self->context), actor, self->incident,
                          sw_form_row_get_text (self->cause), &signer, &error))
    {
      show_error (self, error);
      return;
    }
  if (window != NULL)
    sw_window_toast (
        window, sw_tr (sw_context_get_wording (self->context), "The acid incident is closed."));
  sw_context_changed (self->context);
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
