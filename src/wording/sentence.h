/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole sentences from facts, for window, paper and command line alike. All (transfer full) unless
 * said. The names of things (fields, outcomes, quantities) stand here too, so that one thing has
 * one word. */
#pragma once

#include "calc/dose.h"
#include "calc/fact.h"
#include "calc/fault.h"
#include "calc/outcome.h"
#include "calc/schedule.h"
#include "wording/number.h"
#include "wording/time.h"

G_BEGIN_DECLS

/* One word each. (transfer none) */
const char *sw_say_field (const SwWording *wording, SwField field);              /* "acid" */
const char *sw_say_outcome (const SwWording *wording, SwOutcomeKind kind);       /* "acid found" */
const char *sw_say_quantity (const SwWording *wording, SwQuantityName quantity); /* "drop volume" */
const char *sw_say_budget_line (const SwWording *wording, SwBudgetLineName line);

/* "Sample volume: 5000 mL is too much. Allowed: 1 to 2000 mL." */
char *sw_say_fault (const SwWording *wording, const SwFault *fault);
/* Any error: a fault as above, else a sentence for the domain and code, never a raw message alone.
 * Errors of records come as code numbers through the GError; see sentence-error.c. */
char *sw_say_error (const SwWording *wording, const GError *error);
/* A fact: a refusal, or a state. */
char *sw_say_fact (const SwWording *wording, const SwFact *fact);
/* The next action: "Add one drop, shake, read a fresh strip." */
char *sw_say_next (const SwWording *wording, const SwOutcome *outcome, gboolean burette);
/* What an outcome means in one sentence, with its bounds. */
char *sw_say_result (const SwWording *wording, const SwOutcome *outcome, gboolean burette);
/* "Test again in 1.25 days, because ...": the reason of a schedule decision. */
char *sw_say_schedule (const SwWording *wording,
                       SwScheduleReason reason,
                       double interval_days,
                       gint64 due_ms,
                       gint64 now_ms);
/* The arithmetic of a dose on one line: "3 drops x 420 mL per drop = 1260 mL". */
char *sw_say_dose_arithmetic (
    const SwWording *wording, const SwDose *dose, double pass_at, double extra, gboolean burette);
/* "Most of the uncertainty is the drop size. Calibrate the dropper." */
char *sw_say_dominant (const SwWording *wording, const SwBudget *budget);

/* The cautions that screens and papers show, by place; each defers to safety data sheets and
 * manuals. (transfer none) */
typedef enum
{
  SW_CAUTION_DRAW,
  SW_CAUTION_PREPARE,
  SW_CAUTION_READ,
  SW_CAUTION_DOSE,
  SW_CAUTION_OVER_RANGE,
  SW_CAUTION_DEFER, /* "The safety data sheets, the machine maker's manual, local codes and licensed
                       practice come before this program." */
  SW_N_CAUTIONS
} SwCaution;
const char *sw_say_caution (const SwWording *wording, SwCaution caution);

G_END_DECLS
