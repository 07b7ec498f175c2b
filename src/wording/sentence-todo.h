/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences of the To Do page, the sidebar and the machine page. All (transfer full) unless
 * said. */
#pragma once

#include "calc/fact.h"
#include "calc/schedule.h"
#include "calc/outcome.h"
#include "wording/time.h"

G_BEGIN_DECLS

/* What there may be to do. The order is the list's own; workflow counts them the same way. */
typedef enum
{
  SW_TASK_OVER_RANGE,
  SW_TASK_RECORD_DOSE,
  SW_TASK_RESUME,
  SW_TASK_DOSE,
  SW_TASK_RETEST,
  SW_TASK_TEST,
  SW_TASK_REVIEW,
  SW_TASK_LOT,
  SW_TASK_CALIBRATION,
  SW_TASK_REVIEW_TESTS,
  SW_N_TASKS
} SwTask;

typedef struct
{
  SwTask task;
  const char *subject; /* Borrowed: "M-07 Long bed", or the product of a lot or calibration */
  const char *code;    /* Borrowed: of a lot, or the dropper; NULL = none */
  double total;        /* RESUME: steps in the flask; RECORD_DOSE, RETEST: mL, NAN = not known;
                          REVIEW_TESTS: how many */
  gboolean burette;
  gint64 since_ms; /* RESUME: left at; RECORD_DOSE, DOSE: worked out at; RETEST: added at; 0 = not
                      known */
  gint64 due_ms;   /* 0 = now */
  gint64 now_ms;
  double good_min; /* RESUME: how long a portion stays good */
  SwScheduleReason reason;
  double interval_days;
} SwTaskFacts;

/* "M-07 Long bed: re-test after dose" */
char *sw_say_task_title (const SwWording *wording, const SwTaskFacts *facts);
/* "1.26 L added at 06:40, 40 min ago." */
char *sw_say_task_text (const SwWording *wording, const SwTaskFacts *facts);
/* The button's label: "Re-test". (transfer none) */
const char *sw_say_task_button (const SwWording *wording, SwTask task);

/* "Four things to do", "Nothing to do now" */
char *sw_say_todo_heading (const SwWording *wording, guint count);
/* "4 things", for the sidebar */
char *sw_say_todo_count (const SwWording *wording, guint count);
/* "Next after these: M-14 Small parts on Thursday." @alone: there is nothing before it. */
char *sw_say_todo_next (
    const SwWording *wording, const char *subject, gint64 due_ms, gint64 now_ms, gboolean alone);

/* "M-07 Long bed" */
char *sw_say_machine_name (const SwWording *wording, const char *tag, const char *name);
/* A machine's state in a word or two, for the sidebar: "acid, re-test due". */
char *sw_say_state_word (const SwWording *wording, const SwFact *state);
/* The same as the machine page's first sentence: "Acid found, dosed, re-test due now" */
char *sw_say_state_headline (
    const SwWording *wording, const SwFact *state, gint64 last_ms, gint64 due_ms, gint64 now_ms);

/* A closed test in a list: "acid, 2 to 3 drops", "passed", "reserve 4 to 5 drops". */
char *sw_say_test_short (
    const SwWording *wording, SwOutcomeKind kind, double low, double high, gboolean burette);
/* The same with its time, for a mark of the chart: "24 May 2026 06:20: acid, 2 to 3 drops". */
char *sw_say_test_at (const SwWording *wording,
                      gint64 at_ms,
                      SwOutcomeKind kind,
                      double low,
                      double high,
                      gboolean burette);
/* "24 May 2026 06:40: 1.26 L added" */
char *sw_say_dose_at (const SwWording *wording, gint64 at_ms, double ml);
/* What became of a dose: "1.26 L added 06:40, still". @place may be NULL. */
char *sw_say_added (const SwWording *wording, double ml, gint64 added_ms, const char *place);
/* A line of "Done today": "M-14 05:55 passed, 1.26 L added, signed N. A."; @added_ml NAN = no dose,
 * @initials NULL = not signed. */
char *sw_say_done (const SwWording *wording,
                   const char *tag,
                   gint64 closed_ms,
                   const char *result,
                   double added_ml,
                   const char *initials);

/* Midnight before @now_ms in the reader's zone. */
gint64 sw_day_start (const SwWording *wording, gint64 now_ms);

G_END_DECLS
