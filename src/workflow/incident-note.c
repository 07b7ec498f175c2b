/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Results and incidents.
 *
 *   acid, none open            passing test, no dose waits
 *  ----------------> [ open ] ----------------------------> [ waits ] --reviewer--> [ closed ]
 *                      ^                                        |                       |
 *                      +--- that test was voided, or passes no more (sw_incident_reopen) +
 *
 * Several of one machine may be open where one was opened again; a pass takes them all.
 */
#include "workflow/incident-private.h"

/* Ids of the machine's incidents in state open, oldest first. (transfer full) */
static GArray *
find_open (SwStore *store, gint64 machine, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_INCIDENT, "machine", machine, error);
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      g_autoptr (SwIncident) incident = sw_incident_load (store, id, error);

      if (incident == NULL)
        return NULL;
      if (incident->state == SW_INCIDENT_OPEN)
        g_array_append_val (open, id);
    }
  return ids != NULL ? g_steal_pointer (&open) : NULL;
}

static gboolean
open_incident (SwStore *store, gint64 machine, const SwTitration *titration, GError **error)
{
  g_autoptr (SwIncident) incident = sw_incident_new ();

  incident->machine = machine;
  incident->opened_by_titration = titration->record.id;
  incident->state = SW_INCIDENT_OPEN;
  incident->over_range = titration->outcome == SW_OUTCOME_OVER_RANGE;
  return sw_incident_insert (store, incident, error);
}

gboolean
sw_incident_note_acid (SwStore *store, gint64 machine, const SwTitration *titration, GError **error)
{
  g_autoptr (GArray) open = find_open (store, machine, error);
  g_autoptr (SwIncident) incident = NULL;

  if (open == NULL)
    return FALSE;
  if (open->len == 0)
    return open_incident (store, machine, titration, error);
  if (titration->outcome != SW_OUTCOME_OVER_RANGE)
    return TRUE;
  incident = sw_incident_load (store, g_array_index (open, gint64, open->len - 1), error);
  if (incident == NULL)
    return FALSE;
  incident->over_range = TRUE;
  return sw_incident_update (store, incident, error);
}

gboolean
sw_incident_note_pass (SwStore *store, gint64 machine, const SwTitration *titration, GError **error)
{
  g_autoptr (GArray) open = find_open (store, machine, error);
  g_autoptr (GArray) unanswered = NULL;

  if (open == NULL || open->len == 0)
    return open != NULL;
  unanswered = sw_dose_unanswered_ids (store, machine, error);
  if (unanswered == NULL || unanswered->len > 0)
    return unanswered != NULL;
  for (guint i = 0; i < open->len; i++)
    {
      g_autoptr (SwIncident) incident
          = sw_incident_load (store, g_array_index (open, gint64, i), error);

      if (incident == NULL)
        return FALSE;
      incident->state = SW_INCIDENT_RETEST_PASSED;
      incident->answered_by_titration = titration->record.id;
      if (!sw_incident_update (store, incident, error))
        return FALSE;
    }
  return TRUE;
}

/* Cause stays: it is what somebody found out. Who had closed it, and when, the journal keeps. */
gboolean
sw_incident_reopen (SwStore *store, gint64 titration, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (store, SW_TABLE_INCIDENT, "answered_by_titration", titration, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwIncident) incident
          = sw_incident_load (store, g_array_index (ids, gint64, i), error);

      if (incident == NULL)
        return FALSE;
      incident->state = SW_INCIDENT_OPEN;
      incident->answered_by_titration = 0;
      incident->closed_by = 0;
      incident->closed_ms = 0;
      if (!sw_incident_update (store, incident, error))
        return FALSE;
    }
  return ids != NULL;
}
