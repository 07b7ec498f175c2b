/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The moves of the guided test as an immutable table. Private to the layer and its tests. */
#pragma once

#include "workflow/guided.h"

G_BEGIN_DECLS

/* What must hold for a move, beyond the step it starts from; guard.c decides. */
typedef enum
{
  SW_GUARD_NONE,
  SW_GUARD_NEVER,          /* a declared refusal: the fact is worth its own sentence */
  SW_GUARD_UNTOUCHED,      /* nothing was added or read */
  SW_GUARD_PORTION_GOOD,   /* not paused over 30 min */
  SW_GUARD_MAY_ADD,        /* good, read, still before the end point, below the maximum */
  SW_GUARD_TAKE_BACK,      /* a reading counts, or titrant was not read yet */
  SW_GUARD_PASSED_AT_ZERO, /* nothing went in and it passes */
  SW_GUARD_OUTCOME_STANDS, /* the outcome is no longer open */
  SW_GUARD_LEADS_TO_DOSE,  /* somebody signs, and acid was found */
  SW_GUARD_SIGNER,         /* somebody signs */
  SW_GUARD_DOSE_SHOWN,     /* the rules of dosing allow a figure */
  SW_N_GUARDS
} SwGuard;

typedef struct
{
  SwStep from;
  SwMove move;
  SwStep to;
  SwGuard guard;
  SwFactCode refusal; /* told when the guard does not hold and names nothing more exact */
} SwTransition;

/* The table; rows of one (from, move) stand together, the first whose guard holds is taken.
 * (transfer none) */
const SwTransition *sw_transition_table (gsize *n);

/* Untranslated words, for messages and tests. */
const char *sw_step_name (SwStep step);
const char *sw_move_name (SwMove move);

G_END_DECLS
