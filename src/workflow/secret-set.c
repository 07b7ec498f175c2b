/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Giving a person a secret, and whether a file is guarded by one.
 *
 *   by oneself, one is set      the old one is asked for, and counts when wrong
 *   by oneself, none is set     the first administrator of an unguarded file; and a technician who
 *                               may work by name. To all others it is given: whoever sits at the
 *                               PC could take an absent reviewer's name and rights with it
 *   by an administrator, or     marked as given: two people know it, so it proves little until it
 *   the program                 is changed
 */
#include "workflow/guided-private.h"
#include "workflow/secret-private.h"

static gboolean
is_guard (const SwPerson *person)
{
  return person->role == SW_ROLE_ADMINISTRATOR && person->active && !person->record.voided
         && person->secret != NULL;
}

gboolean
sw_secret_guards_without (SwStore *store, gint64 person_id, gboolean *guarded, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids_by_text (store, SW_TABLE_PERSON, "role", "administrator", error);

  *guarded = FALSE;
  for (guint i = 0; ids != NULL && i < ids->len && !*guarded; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      g_autoptr (SwPerson) person = sw_person_load (store, id, error);

      if (person == NULL)
        return FALSE;
      *guarded = id != person_id && is_guard (person);
    }
  return ids != NULL;
}

gboolean
sw_secret_guarded (SwStore *store, gboolean *guarded, GError **error)
{
  g_return_val_if_fail (store != NULL && guarded != NULL, FALSE);
  return sw_secret_guards_without (store, 0, guarded, error);
}

/* ---- who may ---- */

static gboolean
check_first (SwStore *store, const SwPerson *person, GError **error)
{
  const SwFact refusal = sw_fact_with_text (SW_FACT_NO_SECRET_YET, person->name);
  gboolean guarded;

  if (!sw_secret_guarded (store, &guarded, error))
    return FALSE;
  if (guarded ? person->role == SW_ROLE_TECHNICIAN && sw_right_name_only (store)
              : person->role == SW_ROLE_ADMINISTRATOR)
    return TRUE;
  return sw_workflow_refuse (error, &refusal);
}

/* The fault holds nothing of the text. */
static gboolean
check_changed (const SwPerson *person, const char *secret, GError **error)
{
  const SwFault same = { .code = SW_FAULT_TEXT,
                         .quantity = SW_QUANTITY_SECRET,
                         .value = NAN,
                         .low = SW_SECRET_SHORTEST,
                         .high = SW_SECRET_LONGEST };

  return !sw_secret_matches (person->secret, secret) || sw_fault_set (error, &same);
}

static gboolean
check_own (
    SwStore *store, const SwPerson *person, const char *old, const char *secret, GError **error)
{
  SwSigner signer;

  if (person->secret == NULL)
    return check_first (store, person, error);
  return sw_sign_again (store, person->record.id, old, &signer, error)
         && check_changed (person, secret, error);
}

static gboolean
check_may_set (SwStore *store,
               const SwActor *actor,
               const SwPerson *person,
               const char *old,
               const char *secret,
               GError **error)
{
  const SwFact inactive = sw_fact_with_text (SW_FACT_PERSON_INACTIVE, person->name);
  SwFact refusal;

  if (!sw_guided_check_writable (store, &refusal))
    return sw_workflow_refuse (error, &refusal);
  if (!person->active || person->record.voided)
    return sw_workflow_refuse (error, &inactive);
  if (!sw_secret_check (secret, error))
    return FALSE;
  return actor->person == person->record.id ? check_own (store, person, old, secret, error)
                                            : sw_right_check (store, actor, SW_RIGHT_SET_UP, error);
}

/* ---- setting ---- */

static gboolean
write_secret (SwStore *store, const SwActor *actor, SwPerson *person, GError **error)
{
  if (!sw_act_begin (store, SW_ACT_SETUP, actor, error))
    return FALSE;
  /* Asked before, too, so that nobody waits for a hash in vain; inside the act it counts. */
  if ((actor->person == person->record.id || sw_right_check (store, actor, SW_RIGHT_SET_UP, error))
      && sw_person_update (store, person, error) && sw_act_commit (store, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

gboolean
sw_secret_set_at (SwStore *store,
                  const SwActor *actor,
                  gint64 person_id,
                  const char *old,
                  const char *secret,
                  const SwSecretCost *cost,
                  GError **error)
{
  g_autoptr (SwPerson) person = sw_person_load (store, person_id, error);
  SwActor known = *actor;
  char *hash;

  if (person == NULL || !check_may_set (store, actor, person, old, secret, error))
    return FALSE;
  hash = sw_secret_hash (secret, cost, error);
  if (hash == NULL)
    return FALSE;
  /* The old secret was right just now, whatever the session began with. */
  if (actor->person == person_id && person->secret != NULL)
    known.identified = SW_IDENTIFIED_SECRET;
  g_free (person->secret);
  person->secret = hash;
  person->secret_given_by = actor->person != person_id ? actor->person : 0;
  return write_secret (store, &known, person, error);
}

gboolean
sw_secret_set (SwStore *store,
               const SwActor *actor,
               gint64 person,
               const char *old,
               const char *secret,
               GError **error)
{
  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  return sw_secret_set_at (store, actor, person, old, secret, &sw_secret_cost, error);
}
