/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closing an acid incident: the second pair of eyes is never the analyst's own. */
#include "workflow/incident.h"

#include "workflow/check-private.h"
#include "workflow/guided.h"
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
  if (refusal != NULL)
    *refusal = fact;
  return fact.code == SW_FACT_NONE;
}

static gboolean
write_closed (SwStore *store,
              const SwActor *actor,
              SwIncident *incident,
              const SwSigner *signer,
              GError **error)
{
  if (!sw_act_begin (store, SW_ACT_SIGN, actor, error))
    return FALSE;
  incident->closed_ms = sw_act_now (store);
  if (sw_incident_update (store, incident, error)
      && sw_signature_insert (store, SW_TABLE_INCIDENT, &incident->record, signer,
                              SW_MEANING_CLOSED, error)
      && sw_act_commit (store, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

gboolean
sw_incident_close (SwStore *store,
                   const SwActor *actor,
                   gint64 incident,
                   const char *cause,
                   const SwSigner *signer,
                   GError **error)
{
  g_autoptr (SwIncident) row = NULL;
  SwFact refusal = sw_fact (SW_FACT_NONE);

  g_return_val_if_fail (store != NULL && actor != NULL && signer != NULL, FALSE);

  row = sw_incident_load (store, incident, error);
  if (row == NULL)
    return FALSE;
  if (!sw_incident_may_close (store, actor, row, &refusal, error))
    return refusal.code != SW_FACT_NONE ? sw_workflow_refuse (error, &refusal) : FALSE;
  refusal = sw_fact (SW_FACT_NOT_THE_SIGNER);
  if (signer->person != actor->person)
    return sw_workflow_refuse (error, &refusal);
  if (!sw_check_text (SW_QUANTITY_REASON, cause, SW_LONGEST_TEXT, error))
    return FALSE;
  g_free (row->cause);
  row->cause = g_strdup (cause);
  row->state = SW_INCIDENT_CLOSED;
  row->closed_by = signer->person;
  return write_closed (store, actor, row, signer, error);
}
