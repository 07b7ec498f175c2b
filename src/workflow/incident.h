/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The end of an acid incident: a passing re-test, and a reviewer who names the cause and signs.
 *
 *   acid result            passing re-test                a reviewer signs
 *  ------------> [ open ] -----------------> [ waits ] ------------------> [ closed ]
 *                  (guided test)               (guided test)   (here)
 */
#pragma once

#include "workflow/rights.h"

G_BEGIN_DECLS

/* Whether the actor's person may close @incident now; else @refusal (may be NULL) says why: it
 * waits for no review, or the person is no active reviewer or administrator, or did the re-test.
 * FALSE with @error unset is a refusal. */
gboolean sw_incident_may_close (SwStore *store,
                                const SwActor *actor,
                                const SwIncident *incident,
                                SwFact *refusal,
                                GError **error);
/* Closes it, signed by @signer: the actor's person, asked again (else SW_FACT_NOT_THE_SIGNER).
 * @cause is needed: "not found" is an answer, nothing is none. One act. Errors: SW_WORKFLOW_ERROR,
 * SW_FAULT_ERROR (reason), SW_RECORDS_ERROR. */
gboolean sw_incident_close (SwStore *store,
                            const SwActor *actor,
                            gint64 incident,
                            const char *cause,
                            const SwSigner *signer,
                            GError **error);

/* A reviewer or administrator, active, and not @other (0 = nobody). Sets @may; FALSE on an error.
 */
gboolean
sw_person_may_review (SwStore *store, gint64 person, gint64 other, gboolean *may, GError **error);

G_END_DECLS
