/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corrections: a record is amended or voided with a reason; the old value stays in the journal.
 *
 * What follows from a corrected value is written in the same act, always to the safe side:
 *   reading, portion     the outcome is worked out anew; the doses' figures too, never what was
 *                        added
 *   now acid             an incident is opened, and the plan's next test is due at once
 *   no longer acid       nothing is closed: the incident waits for its reviewer
 *   test voided          its schedule decision and its doses that nobody added go with it; a dose
 *                        that it answered waits for its re-test again; an incident stays open
 *   dose voided          only one that was recorded by mistake: nothing was poured
 * Every signature and review of what was changed is lost, visibly (records/review-state.h).
 *
 * Who may: one's own work until somebody has reviewed it (SW_RIGHT_TEST); else SW_RIGHT_REVIEW.
 * Set-up records: SW_RIGHT_SET_UP, lots and calibrations SW_RIGHT_BENCH.
 * Errors: SW_FAULT_ERROR (field, reason), SW_WORKFLOW_ERROR, SW_RECORDS_ERROR; nothing is written.
 */
#pragma once

#include "workflow/rights.h"

G_BEGIN_DECLS

/* actor->reason is the reason. Each takes the whole row as it should read; members that cannot be
 * amended must be as they are. */
gboolean
sw_amend_sample (SwStore *store, const SwActor *actor, const SwSample *row, GError **error);
/* Lots, second reader, portion volume. */
gboolean
sw_amend_titration (SwStore *store, const SwActor *actor, const SwTitration *row, GError **error);
/* Colour field, struck. */
gboolean
sw_amend_reading (SwStore *store, const SwActor *actor, const SwReadingRow *row, GError **error);
/* Added amount, lot, time, person. */
gboolean sw_amend_dose (SwStore *store, const SwActor *actor, const SwDoseRow *row, GError **error);
/* Cause. */
gboolean
sw_amend_incident (SwStore *store, const SwActor *actor, const SwIncident *row, GError **error);

/* Whether the person may do it to this row now; else @refusal (may be NULL) says why. FALSE with
 * @error unset is a refusal. */
gboolean sw_amend_may (SwStore *store,
                       const SwActor *actor,
                       SwTable table,
                       gint64 id,
                       SwFact *refusal,
                       GError **error);
gboolean sw_void_may (SwStore *store,
                      const SwActor *actor,
                      SwTable table,
                      gint64 id,
                      SwFact *refusal,
                      GError **error);
/* Takes a record, and what hangs on it, out of use. */
gboolean
sw_void_record (SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error);

G_END_DECLS
