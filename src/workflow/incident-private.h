/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What results do to a machine's incidents: for the signature of a test and for its amendment
 * alike. Inside an act. */
#pragma once

#include "records/test.h"

G_BEGIN_DECLS

static inline gboolean
sw_outcome_is_acid (SwOutcomeKind kind)
{
  return kind == SW_OUTCOME_ACID_FOUND || kind == SW_OUTCOME_OVER_RANGE;
}

/* A reserve is the opposite of acid. No reserve alone says nothing: do a base test. */
static inline gboolean
sw_outcome_shows_no_acid (SwOutcomeKind kind)
{
  return kind == SW_OUTCOME_PASSED || kind == SW_OUTCOME_RESERVE_FOUND
         || kind == SW_OUTCOME_RESERVE_OVER_RANGE;
}

/* Acid, or an end point that is not settled (any more) with a strip that showed acid: how much of
 * it nobody knows, that there is some is certain. */
static inline gboolean
sw_outcome_found_acid (const SwTitration *titration, const SwMethodVersion *version)
{
  return sw_outcome_is_acid (titration->outcome)
         || (titration->outcome == SW_OUTCOME_OPEN && version->direction == SW_DIRECTION_BASE
             && !isnan (titration->acid_at));
}

/* Acid while an incident is open belongs to it. One that waits for its reviewer is over: this is
 * another. */
gboolean sw_incident_note_acid (SwStore *store,
                                gint64 machine,
                                const SwTitration *titration,
                                GError **error);
/* A pass: the open ones wait for their reviewer, unless a dose still waits for its own re-test,
 * which is not answered by a test drawn for something else. */
gboolean sw_incident_note_pass (SwStore *store,
                                gint64 machine,
                                const SwTitration *titration,
                                GError **error);
/* The titration is no pass any more: what it answered is open again, closed or not. */
gboolean sw_incident_reopen (SwStore *store, gint64 titration, GError **error);

G_END_DECLS
