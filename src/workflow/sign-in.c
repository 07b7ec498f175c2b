/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asking for a secret. Every attempt that is wrong leaves a row, and so does every sign-in.
 *
 *   ask --too soon-----------------> refused, the secret not looked at, no row
 *       --the clock went back------> refused, not looked at; a row, so that the wait begins anew
 *       --wrong--------------------> refused, a row by the program (who typed it is not known)
 *       --right--------------------> a row by the person; for a signature only when it ends a run
 *                                    of wrong ones
 *
 * Invariants
 * 1. How long to wait follows from the rows since the last accepted one, and from nothing else.
 * 2. A clock set back does not end a wait: an attempt before the last row's time is refused. It
 *    does not lengthen it beyond one more step either: the row of that attempt has the new time.
 */
#include "workflow/sign-in.h"

#include "records/trust.h"
#include "workflow/guided-private.h"
#include "workflow/secret-private.h"

#define MS_PER_S 1000
#define MS_PER_MIN 60000.0

/* The first two mistakes cost nothing: they are slips of the hand. From then on the wait doubles.
 * NIST SP 800-63B 5.2.2 asks for a limit of attempts and names growing waits, up to an hour, as a
 * way; 5 min lets a bench go on: common practice, no source. */
#define FREE_MISTAKES 2
#define LONGEST_WAIT_S 300

/* ---- rows ---- */

typedef struct
{
  guint wrong;    /* in a row, since the last that was right */
  gint64 last_ms; /* when the last of them was */
} Run;

/* What more of them would change nothing any more is not counted. */
static gboolean
load_run (SwStore *store, gint64 person, Run *run, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_SIGN_IN, "person", person, error);

  *run = (Run){ 0 };
  if (ids == NULL)
    return FALSE;
  for (guint i = ids->len; i > 0 && run->wrong < 32; i--)
    {
      g_autoptr (SwSignIn) row = sw_sign_in_load (store, g_array_index (ids, gint64, i - 1), error);

      if (row == NULL)
        return FALSE;
      if (row->accepted)
        return TRUE;
      if (run->wrong == 0)
        run->last_ms = row->record.recorded_ms;
      run->wrong++;
    }
  return TRUE;
}

static gint64
get_wait_ms (const Run *run)
{
  gint64 wait_s = 0;

  if (run->wrong > FREE_MISTAKES)
    wait_s = G_GINT64_CONSTANT (1) << (run->wrong - FREE_MISTAKES);
  return MIN (wait_s, LONGEST_WAIT_S) * MS_PER_S;
}

static gboolean
clock_went_back (const Run *run, gint64 now_ms)
{
  return get_wait_ms (run) > 0 && now_ms < run->last_ms;
}

static gint64
get_left_ms (const Run *run, gint64 now_ms)
{
  return clock_went_back (run, now_ms)
             ? 0
             : MAX (G_GINT64_CONSTANT (0), run->last_ms + get_wait_ms (run) - now_ms);
}

static gboolean
insert_row (SwStore *store, gint64 person, gboolean accepted, GError **error)
{
  const SwActor actor = { .person = accepted ? person : 0,
                          .identified = accepted ? SW_IDENTIFIED_SECRET : SW_IDENTIFIED_SYSTEM };
  g_autoptr (SwSignIn) row = sw_sign_in_new ();

  row->person = person;
  row->accepted = accepted;
  if (!sw_act_begin (store, SW_ACT_SIGN_IN, &actor, error))
    return FALSE;
  if (sw_sign_in_insert (store, row, error) && sw_act_commit (store, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

/* ---- asking ---- */

static gboolean
refuse_to_wait (gint64 wait_ms, GError **error)
{
  SwFact wait = sw_fact (SW_FACT_WAIT);

  wait.number[0] = (double)wait_ms / MS_PER_MIN;
  return sw_workflow_refuse (error, &wait);
}

/* Whether an attempt is looked at now. */
static gboolean
check_wait (SwStore *store, gint64 person, Run *run, GError **error)
{
  const gint64 now_ms = sw_store_now (store);
  gint64 left_ms;

  if (!load_run (store, person, run, error))
    return FALSE;
  if (clock_went_back (run, now_ms))
    {
      if (!insert_row (store, person, FALSE, error))
        return FALSE;
      run->wrong++;
      return refuse_to_wait (get_wait_ms (run), error);
    }
  left_ms = get_left_ms (run, now_ms);
  return left_ms == 0 || refuse_to_wait (left_ms, error);
}

static gboolean
check_person (SwStore *store, const SwPerson *person, GError **error)
{
  SwFact refusal = sw_fact (SW_FACT_NONE);

  if (!sw_guided_check_writable (store, &refusal))
    return sw_workflow_refuse (error, &refusal);
  if (!person->active || person->record.voided)
    refusal = sw_fact_with_text (SW_FACT_PERSON_INACTIVE, person->name);
  else if (person->secret == NULL)
    refusal = sw_fact_with_text (SW_FACT_NO_SECRET_YET, person->name);
  return refusal.code == SW_FACT_NONE || sw_workflow_refuse (error, &refusal);
}

/* @signs: for a signature, by somebody who is signed in already or stands beside. */
static gboolean
ask (SwStore *store,
     gint64 person_id,
     const char *secret,
     gboolean signs,
     SwSigner *signer,
     GError **error)
{
  const SwFact wrong = sw_fact (SW_FACT_WRONG_SECRET);
  g_autoptr (SwPerson) person = sw_person_load (store, person_id, error);
  gboolean right;
  Run run;

  if (person == NULL || !check_person (store, person, error)
      || !check_wait (store, person_id, &run, error))
    return FALSE;
  right = sw_secret_matches (person->secret, secret);
  if ((!right || !signs || run.wrong > 0) && !insert_row (store, person_id, right, error))
    return FALSE;
  if (!right)
    return sw_workflow_refuse (error, &wrong);
  *signer = (SwSigner){ .person = person_id, .identified = SW_IDENTIFIED_SECRET };
  return TRUE;
}

gboolean
sw_sign_in (SwStore *store, gint64 person, const char *secret, SwSigner *signer, GError **error)
{
  g_return_val_if_fail (store != NULL && signer != NULL, FALSE);
  return ask (store, person, secret, FALSE, signer, error);
}

gboolean
sw_sign_again (SwStore *store, gint64 person, const char *secret, SwSigner *signer, GError **error)
{
  g_return_val_if_fail (store != NULL && signer != NULL, FALSE);
  return ask (store, person, secret, TRUE, signer, error);
}

gint64
sw_sign_in_wait_ms (SwStore *store, gint64 person, gint64 now_ms)
{
  Run run;

  g_return_val_if_fail (store != NULL, 0);
  return load_run (store, person, &run, NULL) ? get_left_ms (&run, now_ms) : 0;
}
