/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The open file and the person at the bench.
 *
 * Invariants:
 *   1. actor.person == person, always; a person picked from the list is SW_IDENTIFIED_SELECTED,
 *      in a demo plant SW_IDENTIFIED_DEMO, because there everybody is invented; one who signed in
 *      is SW_IDENTIFIED_SECRET.
 *   2. Who had a secret when they came is never SW_IDENTIFIED_SELECTED.
 *   3. Whoever closes a file that was written leaves its head signed, where that can be done.
 *   4. actor.reason is NULL except in the copy that sw_context_get_actor_because hands out.
 */
#include "app/context.h"

#include "records/checkpoint.h"

struct _SwContext
{
  GObject parent_instance;

  /* Owned */
  SwStore *store;
  SwWording *wording;
  char *reason;
  char *trust_folder;

  gboolean trust_told; /* that checkpoints cannot be kept: once */

  gint64 person;
  gboolean demo;
  SwActor actor;
  SwActor actor_because;
};

enum
{
  SIGNAL_CHANGED,
  SIGNAL_PERSON_CHANGED,
  SIGNAL_TRUST_FAILED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwContext, sw_context, G_TYPE_OBJECT)

/* ---- checkpoints ---- */

static gboolean
may_sign (SwContext *self)
{
  return self->trust_folder != NULL && !self->demo && !sw_store_is_read_only (self->store);
}

/* Takes @error. */
static void
tell_trust_failed (SwContext *self, GError *error)
{
  g_autoptr (GError) owned = error;

  if (self->trust_told)
    return;
  self->trust_told = TRUE;
  g_signal_emit (self, signals[SIGNAL_TRUST_FAILED], 0, owned);
}

void
sw_context_sign_head (SwContext *self)
{
  GError *error = NULL;

  g_return_if_fail (SW_IS_CONTEXT (self));
  if (may_sign (self) && !sw_checkpoint_sign (self->store, self->trust_folder, NULL, &error))
    tell_trust_failed (self, error);
}

void
sw_context_check_trust (SwContext *self)
{
  GError *error = NULL;

  g_return_if_fail (SW_IS_CONTEXT (self));
  if (may_sign (self) && !sw_trust_folder_check (self->trust_folder, &error))
    tell_trust_failed (self, error);
}

/* What a person has signed for is signed for by the PC, too, at once: it costs about as much as
 * three acts (tests/bench/bench-checkpoint.c). */
static void
sign_when_due (SwContext *self)
{
  gboolean due = FALSE;

  /* where it failed, the close tries again */
  if (may_sign (self) && !self->trust_told && sw_checkpoint_is_due (self->store, &due, NULL) && due)
    sw_context_sign_head (self);
}

void
sw_context_set_trust_folder (SwContext *self, const char *folder)
{
  g_return_if_fail (SW_IS_CONTEXT (self));
  g_free (self->trust_folder);
  self->trust_folder = g_strdup (folder);
}

const char *
sw_context_get_trust_folder (SwContext *self)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), NULL);
  return self->trust_folder;
}

static void
sw_context_finalize (GObject *object)
{
  SwContext *self = SW_CONTEXT (object);

  if (may_sign (self))
    sw_checkpoint_sign (self->store, self->trust_folder, NULL, NULL);
  g_clear_pointer (&self->trust_folder, g_free);
  g_clear_pointer (&self->store, sw_store_close);
  g_clear_pointer (&self->wording, sw_wording_unref);
  g_clear_pointer (&self->reason, g_free);
  G_OBJECT_CLASS (sw_context_parent_class)->finalize (object);
}

static void
sw_context_class_init (SwContextClass *klass)
{
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = sw_context_finalize;
  signals[SIGNAL_CHANGED]
      = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_PERSON_CHANGED] = g_signal_new ("person-changed", type, G_SIGNAL_RUN_LAST, 0, NULL,
                                                 NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_TRUST_FAILED] = g_signal_new ("trust-failed", type, G_SIGNAL_RUN_LAST, 0, NULL,
                                               NULL, NULL, G_TYPE_NONE, 1, G_TYPE_ERROR);
}

static void
sw_context_init (SwContext *self)
{
  self->actor.identified = SW_IDENTIFIED_SELECTED;
}

SwContext *
sw_context_new (SwStore *store, SwWording *wording)
{
  g_return_val_if_fail (store != NULL && wording != NULL, NULL);

  SwContext *self = g_object_new (SW_TYPE_CONTEXT, NULL);
  g_autoptr (SwSite) site = sw_site_get (store, NULL);
  self->store = store;
  self->wording = sw_wording_ref (wording);
  self->demo = site != NULL && site->demo;
  self->actor.identified = self->demo ? SW_IDENTIFIED_DEMO : SW_IDENTIFIED_SELECTED;
  return self;
}

SwStore *
sw_context_get_store (SwContext *self)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), NULL);
  return self->store;
}

SwWording *
sw_context_get_wording (SwContext *self)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), NULL);
  return self->wording;
}

gint64
sw_context_now (SwContext *self)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), 0);
  return sw_store_now (self->store);
}

gboolean
sw_context_is_demo (SwContext *self)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), FALSE);
  return self->demo;
}

gint64
sw_context_get_person (SwContext *self)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), 0);
  return self->person;
}

static void
set_actor (SwContext *self, gint64 person, SwIdentified identified)
{
  if (self->person == person && self->actor.identified == identified)
    return;
  self->person = person;
  self->actor.person = person;
  self->actor.identified = identified;
  g_signal_emit (self, signals[SIGNAL_PERSON_CHANGED], 0);
}

static gboolean
has_secret (SwContext *self, gint64 person)
{
  g_autoptr (SwPerson) row = sw_person_load (self->store, person, NULL);

  return row != NULL && row->secret != NULL;
}

gboolean
sw_context_set_person (SwContext *self, gint64 person)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), FALSE);

  if (person != 0 && !self->demo && has_secret (self, person))
    return FALSE;
  set_actor (self, person, self->demo ? SW_IDENTIFIED_DEMO : SW_IDENTIFIED_SELECTED);
  return TRUE;
}

void
sw_context_set_signer (SwContext *self, const SwSigner *signer)
{
  g_return_if_fail (SW_IS_CONTEXT (self) && signer != NULL);
  set_actor (self, signer->person, signer->identified);
}

const SwActor *
sw_context_get_actor (SwContext *self)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), NULL);
  return &self->actor;
}

const SwActor *
sw_context_get_actor_because (SwContext *self, const char *reason)
{
  g_return_val_if_fail (SW_IS_CONTEXT (self), NULL);
  /* The new text may be the old one. */
  char *copy = g_strdup (reason);
  g_free (self->reason);
  self->reason = copy;
  self->actor_because = self->actor;
  self->actor_because.reason = self->reason;
  return &self->actor_because;
}

void
sw_context_changed (SwContext *self)
{
  g_return_if_fail (SW_IS_CONTEXT (self));
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  sign_when_due (self);
}
