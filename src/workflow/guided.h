/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test: from "this machine is due" to the re-test, one act per step.
 *
 * The state is the file's: every move writes one act and is durable before it returns; a test
 * resumed after a kill stands where its last move left it. Which moves exist, from where, and why
 * one is refused is an immutable table (transition.c), drawn there as a diagram. The widgets only
 * show it.
 *
 * Errors: SW_FAULT_ERROR for a number or text that cannot be (it names the quantity),
 * SW_WORKFLOW_ERROR for a refused move (sw_workflow_error_get_fact gives the fact to word),
 * SW_RECORDS_ERROR for the file. After an error nothing was written and the test stands where it
 * stood.
 *
 * Every move asks for SW_RIGHT_TEST (rights.h); looking at a test needs no right.
 */
#pragma once

#include "calc/fact.h"
#include "workflow/dosing.h"
#include "workflow/rights.h"

G_BEGIN_DECLS

typedef enum
{
  SW_WORKFLOW_ERROR_REFUSED
} SwWorkflowError;
#define SW_WORKFLOW_ERROR (sw_workflow_error_quark ())
GQuark sw_workflow_error_quark (void);
/* The fact behind a refused move, or NULL for another error. (transfer none) */
const SwFact *sw_workflow_error_get_fact (const GError *error);
/* Sets @error to a refusal with @fact; returns FALSE. */
gboolean sw_workflow_refuse (GError **error, const SwFact *fact);

typedef enum
{
  SW_MOVE_DRAW,          /* draw -> prepare */
  SW_MOVE_PREPARE,       /* prepare -> read */
  SW_MOVE_SHAKE,         /* read: the shake timer starts */
  SW_MOVE_ADD,           /* read: titrant goes in */
  SW_MOVE_READ,          /* read: a strip is read */
  SW_MOVE_STRIKE,        /* read: take back the last reading */
  SW_MOVE_CLOSE,         /* read -> result; a pass at 0 steps: read -> check */
  SW_MOVE_ACCEPT,        /* result -> check */
  SW_MOVE_SIGN,          /* check -> dose where a dose is due, else -> done */
  SW_MOVE_DECIDE_DOSE,   /* dose -> added */
  SW_MOVE_NO_DOSE,       /* dose -> done: no dose can be shown now; the machine stays acid */
  SW_MOVE_RECORD_ADDED,  /* added -> done, with a re-test due */
  SW_MOVE_NOT_ADDED,     /* added -> done: nobody added; the figure is void */
  SW_MOVE_NOT_KNOWN,     /* added -> done: nobody knows; a re-test is due at once */
  SW_MOVE_BACK,          /* one page back, before the signature */
  SW_MOVE_ABANDON,       /* any page before the signature -> abandoned, with a reason */
  SW_MOVE_FRESH_PORTION, /* prepare, read, result or check -> a new portion of the same sample, at
                            prepare */
  SW_N_MOVES
} SwMove;

typedef struct _SwGuidedTest SwGuidedTest;

/* Begins a test of a plan. For a re-test, @answers_dose is the dose it answers (else 0). Refused
 * while the machine has an open test, or an unrecorded dose. Creates sample (code given at once)
 * and first portion. (transfer full) */
SwGuidedTest *sw_guided_test_begin (SwStore *store,
                                    const SwActor *actor,
                                    gint64 plan,
                                    SwPurpose purpose,
                                    gint64 answers_dose,
                                    GError **error);
/* Goes on with an open titration. Paused over 30 min with a strip or titrant in the flask (since
 * the last strip or the start of the last shake): can only take a fresh portion
 * (sw_guided_test_can (.., SW_MOVE_READ) says SW_FACT_PAUSED_TOO_LONG), unless the outcome stands
 * already. A decided dose older than 8 h is lapsed here.
 * (transfer full) */
SwGuidedTest *
sw_guided_test_resume (SwStore *store, const SwActor *actor, gint64 titration, GError **error);
void sw_guided_test_free (SwGuidedTest *test);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwGuidedTest, sw_guided_test_free)

/* ---- what it shows; all (transfer none), valid until the next move ---- */
SwStep sw_guided_test_get_step (const SwGuidedTest *test);
/* "Step 3 of 7": a test that passes (or can no longer lead to a dose) has 5 pages, else 7. */
void sw_guided_test_get_progress (const SwGuidedTest *test, int *step, int *of);
const SwSample *sw_guided_test_get_sample (const SwGuidedTest *test);
const SwTitration *sw_guided_test_get_titration (const SwGuidedTest *test);
const SwMachine *sw_guided_test_get_machine (const SwGuidedTest *test);
const SwMethodVersion *sw_guided_test_get_method (const SwGuidedTest *test);
GPtrArray *sw_guided_test_get_fields (const SwGuidedTest *test);   /* SwColourField, by rank */
GPtrArray *sw_guided_test_get_points (const SwGuidedTest *test);   /* SwSamplingPoint, by rank */
GPtrArray *sw_guided_test_get_readings (const SwGuidedTest *test); /* SwReadingRow, by ordinal */
const SwOutcome *sw_guided_test_get_outcome (const SwGuidedTest *test);
/* Titrant in the flask now, steps, whether read or not. */
double sw_guided_test_get_total (const SwGuidedTest *test);
/* NULL until the dose is decided. */
const SwDoseRow *sw_guided_test_get_dose (const SwGuidedTest *test);
/* NULL before the signature, and for control tests and duplicates. */
const SwDecision *sw_guided_test_get_decision (const SwGuidedTest *test);

/* TRUE when @move is possible now; else @refusal (may be NULL) says why. @now_ms from sw_store_now.
 */
gboolean sw_guided_test_can (const SwGuidedTest *test, SwMove move, gint64 now_ms, SwFact *refusal);

/* ---- moves; each one act ---- */

typedef struct
{
  gint64 point;
  SwAnswer running;
  SwAnswer level_ok;
  SwAnswer added_since;
  SwAmount volume;      /* mL drawn; borrowed text */
  SwAmount temperature; /* degC; NAN = not measured */
  const char *appearance;
  gboolean retained;
  const char *remarks;
  gint64 drawn_ms; /* 0 = now */
} SwDrawEntry;
/* A re-test is drawn once the dose has circulated, or reacted: SW_FACT_RETEST_TOO_EARLY. */
gboolean sw_guided_test_draw (SwGuidedTest *test, const SwDrawEntry *entry, GError **error);

typedef struct
{
  SwAmount portion; /* mL of solvent in the flask */
  gint64 titrant_lot;
  gint64 caustic_lot; /* 0 where the method has none */
  gint64 strip_lot;
  const char *lot_reason; /* needed when a lot is expired */
  gint64 second_reader;   /* 0 = none */
} SwPrepareEntry;
/* Refuses: a method that does not suit the solvent's family, a missing calibration, an expired lot
 * without a reason, no second reader where the person's profile asks for one. Copies what the
 * result depends on into the titration. */
gboolean sw_guided_test_prepare (SwGuidedTest *test, const SwPrepareEntry *entry, GError **error);

gboolean sw_guided_test_shake (SwGuidedTest *test, GError **error);
/* @steps > 0 more into the flask. */
gboolean sw_guided_test_add (SwGuidedTest *test, double steps, GError **error);
/* The strip at the present total. @colour_field 0 with SW_FIELD_BETWEEN for "between two". */
gboolean sw_guided_test_read (SwGuidedTest *test, gint64 colour_field, GError **error);
/* Strikes the last reading that still counts: its colour is void, its drops stay counted unless
 * @not_added. With @not_added, titrant that was not read yet is taken back instead, and no reading
 * is struck. */
gboolean
sw_guided_test_strike (SwGuidedTest *test, gboolean not_added, const char *reason, GError **error);
gboolean sw_guided_test_close (SwGuidedTest *test, GError **error);
gboolean sw_guided_test_accept (SwGuidedTest *test, GError **error);
/* Signs as performed: @signer is the actor's person, asked again (else SW_FACT_NOT_THE_SIGNER).
 * Stores the schedule decision; opens or answers the incident; links a re-test to its dose. */
gboolean sw_guided_test_sign (SwGuidedTest *test, const SwSigner *signer, GError **error);

/* The dose as it stands with @extra steps on top (NAN: the number in the row, or none yet). Writes
 * nothing. A refusal is in proposal->refusal, not an error. */
gboolean
sw_guided_test_propose (SwGuidedTest *test, double extra, SwDoseProposal *proposal, GError **error);
/* Stores the amount. @release: a reviewer, who did none of the test, where proposal->release asks
 * for one; else it may be NULL, and is not looked at. */
gboolean sw_guided_test_decide_dose (SwGuidedTest *test,
                                     double extra,
                                     const char *extra_reason,
                                     const SwSigner *release,
                                     GError **error);
gboolean sw_guided_test_no_dose (SwGuidedTest *test, GError **error);

typedef struct
{
  SwAmount added;         /* mL really added, > 0 */
  gint64 lot;             /* a lot of the dosed product */
  const char *lot_reason; /* needed when it is expired */
  gint64 added_ms;        /* 0 = now */
} SwAddedEntry;
gboolean
sw_guided_test_record_added (SwGuidedTest *test, const SwAddedEntry *entry, GError **error);
gboolean sw_guided_test_not_added (SwGuidedTest *test, const char *reason, GError **error);
gboolean sw_guided_test_not_known (SwGuidedTest *test, GError **error);

gboolean sw_guided_test_back (SwGuidedTest *test, GError **error);
gboolean sw_guided_test_abandon (SwGuidedTest *test, const char *reason, GError **error);
gboolean sw_guided_test_fresh_portion (SwGuidedTest *test, const char *reason, GError **error);

/* How long a paused portion stays good. */
#define SW_PORTION_GOOD_MIN 30.0

G_END_DECLS
