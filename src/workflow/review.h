/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Review by a second person: who did none of it looks at a signed test and signs that it is right.
 */
#pragma once

#include "workflow/rights.h"

G_BEGIN_DECLS

/* Whether @actor's person may review this titration now: signed, not voided, not reviewed already
 * (unless the review was lost), nothing in it done by them. FALSE with @error unset is a refusal.
 */
gboolean sw_review_may (
    SwStore *store, const SwActor *actor, gint64 titration, SwFact *refusal, GError **error);
/* Reviews them all in one act, or none. @signer is the actor's person, asked again. */
gboolean sw_review_sign (SwStore *store,
                         const SwActor *actor,
                         const SwSigner *signer,
                         const gint64 *titrations,
                         gsize n,
                         GError **error);
/* Ids of the signed titrations that wait for a review by @person (0 = anybody), oldest first: never
 * reviewed, or reviewed and changed since. (transfer full) */
GArray *sw_review_waiting (SwStore *store, gint64 person, GError **error);

G_END_DECLS
