/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An acid incident that waits for its reviewer: the cause is named here, and the incident closed.
 * Hidden while none waits. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_INCIDENT_CARD (sw_incident_card_get_type ())
G_DECLARE_FINAL_TYPE (SwIncidentCard, sw_incident_card, SW, INCIDENT_CARD, GtkWidget)

void sw_incident_card_set_context (SwIncidentCard *self, SwContext *context);
/* Shows the oldest waiting incident of @machine. What was typed stays while it is the same
 * incident. */
void sw_incident_card_show (SwIncidentCard *self, gint64 machine);

G_END_DECLS
