/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every page needs: the open file, the person at the bench, and how to say things. One per
 * window. */
#pragma once

#include <glib-object.h>

#include "records/test.h"
#include "wording/sentence.h"
#include "workflow/rights.h"

G_BEGIN_DECLS

#define SW_TYPE_CONTEXT (sw_context_get_type ())
G_DECLARE_FINAL_TYPE (SwContext, sw_context, SW, CONTEXT, GObject)

/* Takes @store (transfer full) and a reference on @wording. */
SwContext *sw_context_new (SwStore *store, SwWording *wording);

SwStore *sw_context_get_store (SwContext *self);     /* (transfer none) */
SwWording *sw_context_get_wording (SwContext *self); /* (transfer none) */
gint64 sw_context_now (SwContext *self);             /* sw_store_now: once per user action */
gboolean sw_context_is_demo (SwContext *self);       /* an invented plant */

/* The person at the bench, 0 = nobody picked yet. Setting it emits "person-changed". */
gint64 sw_context_get_person (SwContext *self);
/* By name alone, 0 = signed out. FALSE, and nothing changes, for somebody who has a secret: they
 * come with sw_context_set_signer. In the demo plant everybody is picked. */
gboolean sw_context_set_person (SwContext *self, gint64 person);
/* Who signed in, as sw_sign_in knew them. */
void sw_context_set_signer (SwContext *self, const SwSigner *signer);
/* The actor for an act of this person. Valid until the person changes. (transfer none) */
const SwActor *sw_context_get_actor (SwContext *self);
/* The same with a reason (copied, valid until the next call). (transfer none) */
const SwActor *sw_context_get_actor_because (SwContext *self, const char *reason);

/* Where checkpoints stand outside of the file (records/checkpoint.h); NULL, as at first: nowhere,
 * nothing is signed. A demo plant's head is never signed: nobody relies on it. */
void sw_context_set_trust_folder (SwContext *self, const char *folder);
const char *sw_context_get_trust_folder (SwContext *self); /* (transfer none) */
/* Signs the journal's head: before a backup, a snapshot or an export. By itself the context does it
 * after a signature and when the file is closed. Never blocks work: the first failure emits
 * "trust-failed" with the error, later ones nothing. No act may run. */
void sw_context_sign_head (SwContext *self);
/* Finds out at once whether checkpoints can be kept. */
void sw_context_check_trust (SwContext *self);

/* Call after each successful write: emits "changed", and every page on screen shows the file anew.
 */
void sw_context_changed (SwContext *self);

G_END_DECLS
