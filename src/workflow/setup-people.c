/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up: people. Their secrets are not set here (sign-in.h).
 *
 * Invariant: a file that is guarded stays guarded: its last active administrator with a secret is
 * neither taken out of use nor given another role. Else whoever came next could make themselves the
 * first administrator.
 */
#include "workflow/secret-private.h"
#include "workflow/setup-private.h"

#include "workflow/guided.h"

static gboolean
check_guarded_without (SwStore *store, gint64 person, GError **error)
{
  const SwFact last = sw_fact (SW_FACT_LAST_ADMINISTRATOR);
  gboolean guarded;
  gboolean still;

  if (!sw_secret_guarded (store, &guarded, error)
      || !sw_secret_guards_without (store, person, &still, error))
    return FALSE;
  return !guarded || still || sw_workflow_refuse (error, &last);
}

/* The secret stays as it is, whatever the form has. */
static gboolean
keep_secret (SwStore *store, SwPerson *person, GError **error)
{
  g_autoptr (SwPerson) stored = NULL;

  g_clear_pointer (&person->secret, g_free);
  person->secret_given_by = 0;
  if (person->record.id == 0)
    return TRUE;
  stored = sw_person_load (store, person->record.id, error);
  if (stored == NULL)
    return FALSE;
  person->secret = g_steal_pointer (&stored->secret);
  person->secret_given_by = stored->secret_given_by;
  return TRUE;
}

static gboolean
check_guard (SwStore *store, const SwPerson *person, GError **error)
{
  if (person->record.id == 0 || (person->active && person->role == SW_ROLE_ADMINISTRATOR))
    return TRUE;
  return check_guarded_without (store, person->record.id, error);
}

SW_SETUP_DEFINE_WRITE (SwPerson, sw_person, SW_QUANTITY_CODE, SW_RIGHT_SET_UP)

gboolean
sw_setup_person (SwStore *store, const SwActor *actor, SwPerson *person, GError **error)
{
  g_return_val_if_fail (store != NULL && actor != NULL && person != NULL, FALSE);
  g_return_val_if_fail ((int)person->role >= 0 && person->role < SW_N_ROLES, FALSE);
  return sw_check_text (SW_QUANTITY_NAME, person->name, SW_LONGEST_NAME, error)
         && sw_setup_check_unique (store, SW_TABLE_PERSON, "initials", SW_QUANTITY_CODE,
                                   person->initials, person->record.id, error)
         && sw_check_optional_text (SW_QUANTITY_CODE, person->language, SW_LONGEST_CODE, error)
         && check_guard (store, person, error) && keep_secret (store, person, error)
         && write_sw_person (store, actor, person, error);
}
