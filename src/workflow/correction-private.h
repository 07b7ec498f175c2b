/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of amending and voiding share: the frame of a correction, who may, and what
 * follows from a changed result.
 *
 *   begin: one act, the reason checked; watch: how the machine stands before
 *   ... the correction writes its rows, and what follows from them ...
 *   finish: what was due is not put off, acid has its incident; commit
 *
 * Clearing a correction that was not finished cancels its act: nothing was written.
 *
 * Invariants at the end of each correction
 * 1. The stored results are those of the readings and inputs as they now stand.
 * 2. The day of the machine's next test, and that of the test's plan, is no later than before.
 * 3. No incident was closed, and none waits on the strength of a test that is no pass.
 * 4. A machine whose last test found acid has an open incident.
 */
#pragma once

#include "workflow/amend.h"
#include "workflow/check-private.h"

G_BEGIN_DECLS

typedef struct
{
  SwStore *store; /* Borrowed */
  gint64 now_ms;
  gint64 machine; /* watched; 0 = none */
  gint64 plan;
  gint64 machine_due_ms; /* before the correction; 0 = nothing was planned */
  gint64 plan_due_ms;
  gboolean running;
} SwCorrection;

gboolean sw_correction_begin (
    SwCorrection *correction, SwStore *store, const SwActor *actor, SwActKind kind, GError **error);
/* Before the first row is written. @plan 0 = none in particular. */
gboolean
sw_correction_watch (SwCorrection *correction, gint64 machine, gint64 plan, GError **error);
gboolean sw_correction_finish (SwCorrection *correction, GError **error);
void sw_correction_clear (SwCorrection *correction);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwCorrection, sw_correction_clear)

/* ---- who may (correction-right.c) ---- */

/* FALSE with a refusal. Whatever the table: voided, open test, dose out, right. */
gboolean sw_correction_check_amend (
    SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error);
/* The same for sample, titration and dose. */
gboolean sw_correction_check_void_test (
    SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error);
/* A right of set-up or bench, by the table. */
gboolean
sw_correction_check_set_up (SwStore *store, const SwActor *actor, SwTable table, GError **error);
/* SW_FACT_VOIDED when the row is out of use. */
gboolean sw_correction_check_in_use (SwStore *store, SwTable table, gint64 id, GError **error);
/* Turns a refusal in @failure (transfer full, may be NULL) into @refusal; another error goes to
 * @error. TRUE when there was none. */
gboolean sw_correction_answer (GError *failure, SwFact *refusal, GError **error);
/* Sets @error to a refusal without numbers. FALSE. */
gboolean sw_correction_refuse (SwFactCode code, const char *text, GError **error);

/* ---- what follows (correction-follow.c) ---- */

/* @titration (written here) after a change of its readings or inputs: outcome, figures of its
 * doses, incident, schedule. */
gboolean sw_correction_follow (SwCorrection *correction,
                               SwTitration *titration,
                               const SwSample *sample,
                               GError **error);
/* The sample proves nothing about the dose that it answered: the dose waits again, and so does what
 * the sample's tests had answered. */
gboolean sw_correction_unanswer (SwCorrection *correction, const SwSample *sample, GError **error);
/* The schedule decisions that a test led to count no more. */
gboolean sw_correction_void_decisions (SwCorrection *correction, gint64 titration, GError **error);

/* Titrations of a sample that are not voided. (transfer full) */
GPtrArray *sw_correction_load_portions (SwStore *store, gint64 sample, GError **error);

G_END_DECLS
