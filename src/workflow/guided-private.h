/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the guided test share: the state as it stands in the file, and the frame of a
 * move. */
#pragma once

#include "workflow/check-private.h"
#include "workflow/guided.h"
#include "workflow/result-private.h"
#include "workflow/transition.h"

G_BEGIN_DECLS

/* A titration and all around it, as loaded; never changed, replaced after each move. */
typedef struct
{
  SwTitration *titration; /* Owned, as all below */
  SwSample *sample;
  SwMachine *machine;
  SwMethodVersion *method;
  GPtrArray *fields;    /* SwColourField, by rank */
  GPtrArray *points;    /* SwSamplingPoint, by rank */
  GPtrArray *readings;  /* SwReadingRow, by ordinal */
  SwDoseRow *dose;      /* NULL until it is decided */
  SwDecision *decision; /* NULL until it is signed */
  SwOutcome outcome;
  double total; /* in the flask, read or not */
} SwGuidedState;

struct _SwGuidedTest
{
  SwStore *store;       /* Borrowed */
  SwActor actor;        /* its strings are Owned */
  SwGuidedState *state; /* Owned */
};

SwGuidedState *sw_guided_state_load (SwStore *store, gint64 titration, GError **error);
void sw_guided_state_free (SwGuidedState *state);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwGuidedState, sw_guided_state_free)

/* A test of @state. (transfer full); takes @state. */
SwGuidedTest *sw_guided_test_new (SwStore *store, const SwActor *actor, SwGuidedState *state);

/* The row of the table that applies now, or NULL with @refusal (may be NULL). */
const SwTransition *sw_guided_find_transition (SwStore *store,
                                               const SwActor *actor,
                                               const SwGuidedState *state,
                                               SwMove move,
                                               gint64 now_ms,
                                               SwFact *refusal);

/* Whether a guard holds; else @refusal may name something more exact than the table does. */
gboolean sw_guard_holds (SwStore *store,
                         const SwActor *actor,
                         const SwGuidedState *state,
                         SwGuard guard,
                         gint64 now_ms,
                         SwFact *refusal);

/* Whether a signed outcome is followed by the Dose page. */
gboolean sw_guided_leads_to_dose (SwOutcomeKind kind, SwPurpose purpose);
/* Whether a decided dose is older than SW_DOSE_LAPSES_H. */
gboolean sw_guided_dose_lapsed (const SwDoseRow *dose, gint64 now_ms);

/* ---- the frame of a move ----
 *
 *   begin: one act; the state is loaded afresh inside it, so that the guard speaks of the file
 *   ... the move changes move.titration and inserts its own rows ...
 *   finish: step, end; update; the new state is loaded; commit; only then the test changes
 *
 * Clearing a move that was not finished cancels its act: nothing was written. */
typedef struct
{
  SwGuidedTest *test;
  SwGuidedState *state;   /* Owned: before the move */
  SwTitration *titration; /* Owned: the row as the move will leave it */
  const SwTransition *transition;
  gint64 now_ms;
  gint64 next_titration; /* a fresh portion: the row that the test goes on with; else 0 */
  gboolean running;
} SwGuidedMove;

gboolean sw_guided_move_begin (SwGuidedMove *move,
                               SwGuidedTest *test,
                               SwMove which,
                               SwActKind kind,
                               const char *reason,
                               GError **error);
/* Writes the titration with its new step; further calls write what changed since. */
gboolean sw_guided_move_write (SwGuidedMove *move, GError **error);
gboolean sw_guided_move_finish (SwGuidedMove *move, GError **error);
void sw_guided_move_clear (SwGuidedMove *move);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwGuidedMove, sw_guided_move_clear)

/* SW_FACT_READ_ONLY when the file cannot be written. */
gboolean sw_guided_check_writable (SwStore *store, SwFact *refusal);

G_END_DECLS
