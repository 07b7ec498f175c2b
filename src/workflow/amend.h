/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corrections: a record is amended or voided with a reason; the old value stays in the journal.
 *
 * What follows from a corrected value is written in the same act, always to the safe side:
 *   reading, portion     the outcome is worked out anew; the doses' figures too, never what was
 *                        added
 *   now acid             an incident is opened, and the plan's next test is due at once; so too
 *                        where a strip showed acid and the end point is not settled any more
 *   no longer acid       nothing is closed: the incident stays as it is, for a passing test and its
 *                        reviewer; the machine's next test is due when it was, at once if it was
 *   no result any more   as a voided test, but that the test stays
 *   test voided          its schedule decision and its doses that nobody added go with it; a dose
 *                        that it answered waits for its re-test again; an incident stays open, and
 *                        one that the test had answered is open again, closed or not
 *   drawn, added when    a re-test drawn before its dose had circulated answers it no more
 *   dose voided          only one that was recorded by mistake: nothing was poured
 * The machine's next test is never put off by it; only the re-test of a dose follows the time at
 * which the dose went in. Every signature and review of what was changed is lost, visibly
 * (records/review-state.h). While a dose is out that nobody has recorded, its test can be neither
 * amended nor voided: SW_FACT_MACHINE_LOCKED.
 *
 * Who may: one's own work until somebody has reviewed it (SW_RIGHT_TEST); else SW_RIGHT_REVIEW.
 * Set-up records: SW_RIGHT_SET_UP, lots and calibrations SW_RIGHT_BENCH.
 * Errors: SW_FAULT_ERROR (field, reason), SW_WORKFLOW_ERROR, SW_RECORDS_ERROR; nothing is written.
 */
#pragma once

#include "workflow/rights.h"

G_BEGIN_DECLS

/* actor->reason is the reason. Each takes the whole row as it should read; members that cannot be
 * amended must be as they are (SW_FACT_NOT_AMENDABLE). A row that reads as before writes nothing
 * and is TRUE. Drawn when and by whom, where, answers, volume, temperature, appearance, retained,
 * remarks: */
gboolean
sw_amend_sample (SwStore *store, const SwActor *actor, const SwSample *row, GError **error);
/* Lots, second reader, portion volume. */
gboolean
sw_amend_titration (SwStore *store, const SwActor *actor, const SwTitration *row, GError **error);
/* Colour field (0: between two; its meaning follows), struck, not added, the reason for striking.
 */
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
/* Takes a record, and what hangs on it, out of use: a machine's compartments, points, fills and
 * plans, a method's versions, a sample's tests. Refused with SW_FACT_STILL_USED while something
 * rests on it (its name is the fact's text), with SW_FACT_NEVER_VOIDED for what only happened
 * (readings, decisions, own signatures, sign-ins, checkpoints, restorations, the site). */
gboolean
sw_void_record (SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error);

/* What an undo in the window stores as the act's reason. A word of the file format: English in
 * every language of the window, never changed. */
#define SW_UNDO_REASON "undone at once"
/* sw_void_record with that reason, for a set-up record that was added a moment ago. Its name is
 * free for the next one: the row keeps it with its own number behind it, "N-2 ~17". */
gboolean
sw_undo_record (SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error);

G_END_DECLS
