/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What signatures are worth now. A signature covers its subject and the subject's parts (a test:
 * its sample, titration, readings and doses) as they were then; an amendment or a void of any of
 * them later takes it away. What the work itself adds later (a dose recorded, a re-test linked)
 * does not. What was amended before a signature, its signer saw.
 */
#pragma once

#include "records/test.h"

G_BEGIN_DECLS

typedef enum
{
  SW_REVIEW_NONE,     /* not signed */
  SW_REVIEW_SIGNED,   /* by who did it, reviewed never; sw_review_holds: amended since, or not */
  SW_REVIEW_REVIEWED, /* by a second person, too (or a dose released, an incident closed) */
  SW_REVIEW_LOST,     /* was reviewed, and amended since */
  SW_N_REVIEW_STATES
} SwReviewState;

gboolean
sw_review_state (SwStore *store, SwTable table, gint64 id, SwReviewState *state, GError **error);
/* Whether one signature still covers what it was given for. */
gboolean sw_review_holds (SwStore *store, gint64 review, gboolean *holds, GError **error);
/* Signatures on a record, oldest first, voided ones left out. (transfer full) */
GArray *sw_review_ids (SwStore *store, SwTable table, gint64 id, GError **error);

G_END_DECLS
