/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What needs doing now, and how each machine stands. Reads the file, writes nothing. */
#pragma once

#include "calc/fact.h"
#include "calc/history.h"
#include "records/test.h"

G_BEGIN_DECLS

typedef enum /* most urgent first within the same lateness */
{
  SW_TODO_OVER_RANGE,  /* stop and call: the machine is over range */
  SW_TODO_RECORD_DOSE, /* a dose was worked out: has anyone added it? */
  SW_TODO_RESUME,      /* a test was left open */
  SW_TODO_DOSE,        /* acid found, not dosed */
  SW_TODO_RETEST,
  SW_TODO_TEST,
  SW_TODO_REVIEW,       /* an incident waits for its reviewer */
  SW_TODO_LOT,          /* a lot expires within 14 days, or has */
  SW_TODO_CALIBRATION,  /* a dropper's calibration is due */
  SW_TODO_REVIEW_TESTS, /* signed tests wait for a second person */
  SW_N_TODO_KINDS
} SwTodoKind;

typedef struct
{
  SwTodoKind kind;
  gint64 machine; /* 0 = none */
  gint64 plan;
  gint64 titration;
  gint64 dose;
  gint64 lot;
  gint64 incident;
  gint64 calibration;
  gint64 due_ms;           /* when it is (was) due; 0 = now */
  gboolean due;            /* FALSE: comes later ("Next after these") */
  double total;            /* RESUME: steps counted; RECORD_DOSE: mL; REVIEW_TESTS: how many */
  SwScheduleReason reason; /* TEST */
  double interval_days;
} SwTodo;

/* What is due now, most urgent first, then what comes next (due FALSE), by date. Element SwTodo.
 * (transfer full) */
GArray *sw_todo_list (SwStore *store, gint64 now_ms, GError **error);
/* Adds to such a list what @person alone has to do: where they may review, one line for all tests
 * that wait for their review; titration is the oldest of them. */
gboolean sw_todo_add_reviews (SwStore *store, gint64 person, GArray *todos, GError **error);

typedef struct
{
  gint64 machine;
  SwFact state;       /* SW_FACT_STATE_... */
  SwOutcomeKind last; /* of the last closed test; SW_OUTCOME_OPEN = none */
  gint64 last_titration;
  gint64 last_ms;
  gint64 due_ms; /* next test or re-test; 0 = none planned */
  gint64 plan;   /* the machine's first active plan; 0 = none */
  gint64 open_titration;
  gint64 open_dose;   /* worked out, not recorded */
  gint64 retest_dose; /* added, waits for its re-test */
  SwScheduleReason reason;
  double interval_days;
  gint64 locked_until_retest; /* = retest_dose */
} SwMachineState;

gboolean sw_machine_state (
    SwStore *store, gint64 machine, gint64 now_ms, SwMachineState *state, GError **error);

/* Tests (newest @limit, 0 = all), doses and events of a machine. (transfer full) */
SwHistory *
sw_machine_history (SwStore *store, gint64 machine, gint64 now_ms, guint limit, GError **error);

G_END_DECLS
