/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may do what: the table of rights.h, and how sure of the person one has to be.
 *
 *   may the role do it? --no--> auditor reads, needs administrator, needs reviewer
 *      | yes
 *   demo plant, import --------> yes
 *      | no
 *   has an administrator a secret? --no--> unguarded
 *      | yes
 *   has the person a secret? --yes--> identified by it, or: needs secret
 *      | no
 *   a technician, picked by name, where the plant allows it, or: no secret yet
 *
 * Invariant: nothing here is remembered. Who was a reviewer this morning and is none now is asked
 * for in the act that is to be written.
 */
#include "workflow/rights.h"

#include "workflow/guided.h"
#include "workflow/sign-in.h"

/* ---- what a role may ---- */

static const gboolean role_rights[SW_N_ROLES][SW_N_RIGHTS] = {
  [SW_ROLE_TECHNICIAN] = { [SW_RIGHT_TEST] = TRUE, [SW_RIGHT_BENCH] = TRUE },
  [SW_ROLE_REVIEWER]
  = { [SW_RIGHT_TEST] = TRUE, [SW_RIGHT_BENCH] = TRUE, [SW_RIGHT_REVIEW] = TRUE },
  [SW_ROLE_ADMINISTRATOR] = { [SW_RIGHT_TEST] = TRUE,
                              [SW_RIGHT_BENCH] = TRUE,
                              [SW_RIGHT_REVIEW] = TRUE,
                              [SW_RIGHT_SET_UP] = TRUE },
  [SW_ROLE_AUDITOR] = { FALSE },
};

static gboolean
check_role (const SwPerson *person, SwRight right, GError **error)
{
  SwFact refusal = sw_fact (SW_FACT_NEEDS_ROLE_REVIEW);

  if (role_rights[person->role][right])
    return TRUE;
  if (person->role == SW_ROLE_AUDITOR)
    refusal = sw_fact (SW_FACT_AUDITOR_READS);
  else if (right == SW_RIGHT_SET_UP)
    refusal = sw_fact (SW_FACT_NEEDS_ADMINISTRATOR);
  return sw_workflow_refuse (error, &refusal);
}

/* ---- who it is ---- */

/* A session signed in with a secret that is not on file any more is no session. */
static gboolean
check_without_secret (SwStore *store,
                      const SwPerson *person,
                      SwIdentified identified,
                      GError **error)
{
  const SwFact refusal = sw_fact_with_text (SW_FACT_NO_SECRET_YET, person->name);

  if (person->role == SW_ROLE_TECHNICIAN && identified == SW_IDENTIFIED_SELECTED
      && sw_right_name_only (store))
    return TRUE;
  return sw_workflow_refuse (error, &refusal);
}

static gboolean
check_identified (SwStore *store, const SwPerson *person, SwIdentified identified, GError **error)
{
  const SwFact unguarded = sw_fact (SW_FACT_UNGUARDED);
  const SwFact needs_secret = sw_fact (SW_FACT_NEEDS_SECRET);
  gboolean guarded;

  if (!sw_secret_guarded (store, &guarded, error))
    return FALSE;
  if (!guarded)
    return sw_workflow_refuse (error, &unguarded);
  if (person->secret == NULL)
    return check_without_secret (store, person, identified, error);
  return identified == SW_IDENTIFIED_SECRET || sw_workflow_refuse (error, &needs_secret);
}

static gboolean
check_person (SwStore *store, gint64 id, SwIdentified identified, SwRight right, GError **error)
{
  g_autoptr (SwPerson) person = sw_person_load (store, id, error);
  g_autoptr (SwSite) site = NULL;
  SwFact inactive;

  if (person == NULL)
    return FALSE;
  inactive = sw_fact_with_text (SW_FACT_PERSON_INACTIVE, person->name);
  if (!person->active || person->record.voided)
    return sw_workflow_refuse (error, &inactive);
  if (!check_role (person, right, error))
    return FALSE;
  site = sw_site_get (store, error);
  if (site == NULL)
    return FALSE;
  return site->demo || identified == SW_IDENTIFIED_IMPORT
         || check_identified (store, person, identified, error);
}

gboolean
sw_right_check (SwStore *store, const SwActor *actor, SwRight right, GError **error)
{
  const SwFact nobody = sw_fact (SW_FACT_NOBODY);

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  g_return_val_if_fail ((int)right >= 0 && right < SW_N_RIGHTS, FALSE);
  if (actor->person != 0)
    return check_person (store, actor->person, actor->identified, right, error);
  return actor->identified == SW_IDENTIFIED_SYSTEM || actor->identified == SW_IDENTIFIED_IMPORT
         || sw_workflow_refuse (error, &nobody);
}

/* The program signs nothing. */
gboolean
sw_right_check_signer (SwStore *store, const SwSigner *signer, SwRight right, GError **error)
{
  const SwFact nobody = sw_fact (SW_FACT_NOBODY);

  g_return_val_if_fail (store != NULL && signer != NULL, FALSE);
  g_return_val_if_fail ((int)right >= 0 && right < SW_N_RIGHTS, FALSE);
  if (signer->person == 0)
    return sw_workflow_refuse (error, &nobody);
  return check_person (store, signer->person, signer->identified, right, error);
}

/* ---- settings ---- */

gboolean
sw_right_name_only (SwStore *store)
{
  g_autofree char *value = NULL;

  g_return_val_if_fail (store != NULL, FALSE);
  value = sw_setting_dup (store, SW_SETTING_NAME_ONLY, NULL);
  return g_strcmp0 (value, "yes") == 0;
}

/* What is not a number in the range counts as not set: a lock that fails leaves the door open. */
double
sw_right_idle_lock_min (SwStore *store)
{
  g_autofree char *value = NULL;
  char *end = NULL;
  double minutes;

  g_return_val_if_fail (store != NULL, SW_IDLE_LOCK_MIN);
  value = sw_setting_dup (store, SW_SETTING_IDLE_LOCK, NULL);
  if (value == NULL)
    return SW_IDLE_LOCK_MIN;
  minutes = g_ascii_strtod (value, &end);
  if (end == value || *end != '\0')
    return SW_IDLE_LOCK_MIN;
  return minutes == 0.0 || (minutes >= SW_IDLE_LOCK_LEAST_MIN && minutes <= SW_IDLE_LOCK_MOST_MIN)
             ? minutes
             : SW_IDLE_LOCK_MIN;
}
