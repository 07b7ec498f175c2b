/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closing an acid incident: the second pair of eyes is never the analyst's own. */
#include "workflow/incident.h"

#include "workflow/guided-private.h"
#include "workflow/signature-private.h"

gboolean
sw_person_may_review (SwStore *store, gint64 person, gint64 other, gboolean *may, GError **error)
{
  g_autoptr (SwPerson) row = NULL;

  *may = FALSE;
  if (person == 0 || person == other)
    return TRUE;
  row = sw_person_load (store, person, error);
  if (row == NULL)
    return FALSE;
  *may = row->active && !row->record.voided
         && (row->role == SW_ROLE_REVIEWER || row->role == SW_ROLE_ADMINISTRATOR);
  return TRUE;
}

/* Who did the re-test that answered it; 0 = none has. */
static gboolean
find_analyst (SwStore *store, const SwIncident *incident, gint64 *analyst, GError **error)
{
  g_autoptr (SwTitration) retest = NULL;

  *analyst = 0;
  if (incident->answered_by_titration == 0)
    return TRUE;
  retest = sw_titration_load (store, incident->answered_by_titration, error);
  if (retest != NULL)
    *analyst = retest->analyst;
  return retest != NULL;
}

/* The facts of rights.h speak of roles and secrets; the role is this one's own to say. */
static gboolean
check_right (SwStore *store, const SwActor *actor, SwFact *refusal, GError **error)
{
  g_autoptr (GError) failure = NULL;
  const SwFact *fact;

  if (sw_right_check (store, actor, SW_RIGHT_REVIEW, &failure))
    return TRUE;
  fact = sw_workflow_error_get_fact (failure);
  if (fact != NULL)
    *refusal = *fact;
  else
    g_propagate_error (error, g_steal_pointer (&failure));
  return FALSE;
}

gboolean
sw_incident_may_close (SwStore *store,
                       const SwActor *actor,
                       const SwIncident *incident,
                       SwFact *refusal,
                       GError **error)
{
  gboolean may;
  gint64 analyst;
  SwFact fact = sw_fact (SW_FACT_NONE);

  g_return_val_if_fail (store != NULL && actor != NULL && incident != NULL, FALSE);

  if (!find_analyst (store, incident, &analyst, error)
      || !sw_person_may_review (store, actor->person, analyst, &may, error))
    return FALSE;
  if (incident->state != SW_INCIDENT_RETEST_PASSED || incident->record.voided)
    fact = sw_fact (SW_FACT_NOT_FROM_HERE);
  else if (!may)
    fact = sw_fact (SW_FACT_NEEDS_REVIEWER);
  else if (!check_right (store, actor, &fact, error) && fact.code == SW_FACT_NONE)
    return FALSE;
  if (refusal != NULL)
    *refusal = fact;
  return fact.code == SW_FACT_NONE;
}

static gboolean
check_close (SwStore *store,
             const SwActor *actor,
             const SwIncident *incident,
             const SwSigner *signer,
             GError **error)
{
  const SwFact other = sw_fact (SW_FACT_NOT_THE_SIGNER);
  SwFact refusal = sw_fact (SW_FACT_NONE);

  if (!sw_incident_may_close (store, actor, incident, &refusal, error))
    return refusal.code != SW_FACT_NONE ? sw_workflow_refuse (error, &refusal) : FALSE;
  if (signer->person != actor->person)
    return sw_workflow_refuse (error, &other);
  return sw_right_check_signer (store, signer, SW_RIGHT_REVIEW, error);
}

/* Inside the act. */
static gboolean
close_inside (SwStore *store,
              const SwActor *actor,
              gint64 id,
              const char *cause,
              const SwSigner *signer,
              GError **error)
{
  g_autoptr (SwIncident) incident = sw_incident_load (store, id, error);

  if (incident == NULL || !check_close (store, actor, incident, signer, error)
      || !sw_check_text (SW_QUANTITY_REASON, cause, SW_LONGEST_TEXT, error))
    return FALSE;
  g_free (incident->cause);
  incident->cause = g_strdup (cause);
  incident->state = SW_INCIDENT_CLOSED;
  incident->closed_by = signer->person;
  incident->closed_ms = sw_act_now (store);
  return sw_incident_update (store, incident, error)
         && sw_signature_insert (store, SW_TABLE_INCIDENT, &incident->record, signer,
                                 SW_MEANING_CLOSED, error)
         && sw_act_commit (store, error);
}

gboolean
sw_incident_close (SwStore *store,
                   const SwActor *actor,
                   gint64 incident,
                   const char *cause,
                   const SwSigner *signer,
                   GError **error)
{
  SwFact refusal;

  g_return_val_if_fail (store != NULL && actor != NULL && signer != NULL, FALSE);

  if (!sw_guided_check_writable (store, &refusal))
    return sw_workflow_refuse (error, &refusal);
  if (!sw_act_begin (store, SW_ACT_SIGN, actor, error))
    return FALSE;
  if (close_inside (store, actor, incident, cause, signer, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}
