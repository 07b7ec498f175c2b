/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Review of signed tests by a second person.
 *
 * Second is who did none of it: drew no sample, read no strip, titrated, read along, added or
 * amended nothing. A release of the dose is a second person's look, too, and hinders nobody.
 */
#include "workflow/review.h"

#include "records/browse.h"
#include "records/review-state.h"
#include "workflow/correction-private.h"
#include "workflow/guided-private.h"
#include "workflow/signature-private.h"

/* Waiting tests that are looked up in the journal one by one; 1,000 take some 20 ms. */
#define MOST_LOOKED_UP 1000

/* ---- one test ---- */

static gboolean
check_signed (SwStore *store, const SwTitration *titration, GError **error)
{
  if (titration->record.voided)
    return sw_correction_refuse (SW_FACT_VOIDED, NULL, error);
  if (!sw_correction_check_in_use (store, SW_TABLE_SAMPLE, titration->sample, error))
    return FALSE;
  return titration->signed_ms != 0 || sw_correction_refuse (SW_FACT_SIGNATURE_MISSING, NULL, error);
}

static gboolean
check_waits (SwStore *store, gint64 titration, GError **error)
{
  SwReviewState state;

  if (!sw_review_state (store, SW_TABLE_TITRATION, titration, &state, error))
    return FALSE;
  return state != SW_REVIEW_REVIEWED
         || sw_correction_refuse (SW_FACT_REVIEWED_ALREADY, NULL, error);
}

static gboolean
check_second (SwStore *store, gint64 person, gint64 titration, GError **error)
{
  gboolean took_part;

  if (!sw_titration_took_part (store, titration, person, &took_part, error))
    return FALSE;
  return !took_part || sw_correction_refuse (SW_FACT_OWN_WORK, NULL, error);
}

static gboolean
check_test (SwStore *store, gint64 person, const SwTitration *titration, GError **error)
{
  gint64 id = titration->record.id;

  return check_signed (store, titration, error) && check_waits (store, id, error)
         && check_second (store, person, id, error);
}

static gboolean
check_review (SwStore *store, const SwActor *actor, gint64 id, GError **error)
{
  g_autoptr (SwTitration) titration = NULL;

  if (!sw_right_check (store, actor, SW_RIGHT_REVIEW, error))
    return FALSE;
  titration = sw_titration_load (store, id, error);
  return titration != NULL && check_test (store, actor->person, titration, error);
}

gboolean
sw_review_may (
    SwStore *store, const SwActor *actor, gint64 titration, SwFact *refusal, GError **error)
{
  GError *failure = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  check_review (store, actor, titration, &failure);
  return sw_correction_answer (failure, refusal, error);
}

/* ---- signing ---- */

static gboolean
sign_one (SwStore *store, const SwSigner *signer, gint64 id, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_load (store, id, error);

  return titration != NULL && check_test (store, signer->person, titration, error)
         && sw_signature_insert (store, SW_TABLE_TITRATION, &titration->record, signer,
                                 SW_MEANING_REVIEWED, error);
}

static gboolean
sign_all (SwStore *store,
          const SwActor *actor,
          const SwSigner *signer,
          const gint64 *titrations,
          gsize n,
          GError **error)
{
  if (!sw_right_check (store, actor, SW_RIGHT_REVIEW, error)
      || !sw_right_check_signer (store, signer, SW_RIGHT_REVIEW, error))
    return FALSE;
  for (gsize i = 0; i < n; i++)
    if (!sign_one (store, signer, titrations[i], error))
      return FALSE;
  return TRUE;
}

gboolean
sw_review_sign (SwStore *store,
                const SwActor *actor,
                const SwSigner *signer,
                const gint64 *titrations,
                gsize n,
                GError **error)
{
  SwFact refusal;

  g_return_val_if_fail (store != NULL && actor != NULL && signer != NULL, FALSE);
  g_return_val_if_fail (titrations != NULL || n == 0, FALSE);
  if (n == 0)
    return TRUE;
  if (signer->person == 0 || signer->person != actor->person)
    return sw_correction_refuse (SW_FACT_NOT_THE_SIGNER, NULL, error);
  if (!sw_guided_check_writable (store, &refusal))
    return sw_workflow_refuse (error, &refusal);
  if (!sw_act_begin (store, SW_ACT_SIGN, actor, error))
    return FALSE;
  if (sign_all (store, actor, signer, titrations, n, error) && sw_act_commit (store, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

/* ---- what waits ---- */

static int
compare_id_cb (gconstpointer a, gconstpointer b)
{
  gint64 one = *(const gint64 *)a;
  gint64 other = *(const gint64 *)b;

  return (one > other) - (one < other);
}

/* Both arrays sorted: what is in @ids and not in @others. */
static void
remove_all (GArray *ids, const GArray *others)
{
  guint kept = 0;
  guint j = 0;

  for (guint i = 0; i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);

      while (j < others->len && g_array_index (others, gint64, j) < id)
        j++;
      if (j == others->len || g_array_index (others, gint64, j) != id)
        g_array_index (ids, gint64, kept++) = id;
    }
  g_array_set_size (ids, kept);
}

static gboolean
add_state (SwStore *store, SwBrowseState state, GArray *ids, GError **error)
{
  const SwBrowseFilter filter = { .table = SW_TABLE_TITRATION, .state = state, .outcome = -1 };
  g_autoptr (GArray) found = sw_browse_ids (store, &filter, error);

  if (found == NULL)
    return FALSE;
  g_array_append_vals (ids, found->data, found->len);
  return TRUE;
}

/* Amendments stand in the journal alone, where one test is looked up quickly and a long arrear is
 * not: there the signature says what the list left out. */
static gboolean
remove_amended (SwStore *store, gint64 person, GArray *ids, GError **error)
{
  guint kept = 0;

  if (ids->len > MOST_LOOKED_UP)
    return TRUE;
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      gboolean took_part;

      if (!sw_titration_took_part (store, id, person, &took_part, error))
        return FALSE;
      if (!took_part)
        g_array_index (ids, gint64, kept++) = id;
    }
  g_array_set_size (ids, kept);
  return TRUE;
}

/* A test gets its number when it is begun, so numbers are the order in which they were done. */
GArray *
sw_review_waiting (SwStore *store, gint64 person, GError **error)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GArray) own = NULL;

  g_return_val_if_fail (store != NULL, NULL);
  if (!add_state (store, SW_BROWSE_TO_REVIEW, ids, error)
      || !add_state (store, SW_BROWSE_REVIEW_LOST, ids, error))
    return NULL;
  g_array_sort (ids, compare_id_cb);
  if (person == 0 || ids->len == 0)
    return g_steal_pointer (&ids);
  own = sw_titration_ids_of_person (store, person, error);
  if (own == NULL)
    return NULL;
  remove_all (ids, own);
  return remove_amended (store, person, ids, error) ? g_steal_pointer (&ids) : NULL;
}
