/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records of tests: samples, titrations, readings, doses, incidents, reviews, schedule decisions.
 */
#pragma once

#include "calc/schedule.h"
#include "records/method.h"

G_BEGIN_DECLS

typedef enum
{
  SW_PURPOSE_ROUTINE,
  SW_PURPOSE_RETEST,
  SW_PURPOSE_CONTROL,
  SW_PURPOSE_DUPLICATE,
  SW_N_PURPOSES
} SwPurpose;

typedef enum
{
  SW_ANSWER_NONE,
  SW_ANSWER_YES,
  SW_ANSWER_NO,
  SW_ANSWER_UNKNOWN,
  SW_N_ANSWERS
} SwAnswer;

typedef struct
{
  SwRecord record; /* happened_ms: when it was drawn */
  char *code;      /* unique, printed on the label: "M-07-261124-1" */
  gint64 machine;
  gint64 point; /* sampling point; 0 until drawn */
  gint64 plan;
  gint64 fill;
  gint64 drawn_by; /* person */
  SwPurpose purpose;
  gint64 answers_dose; /* the dose that a re-test answers; 0 = none */
  SwAnswer running;    /* was the machine running */
  SwAnswer level_ok;
  SwAnswer added_since; /* anything added since the last record */
  SwAmount volume;      /* mL drawn */
  SwAmount temperature; /* degC in the struct (and file: K) */
  char *appearance;
  gboolean retained; /* a part is kept for a repeat */
  char *remarks;
} SwSample;
SW_DECLARE_RECORD (SwSample, sw_sample)

/* Step of the guided test that the titration stands at; the moves are workflow's. */
typedef enum
{
  SW_STEP_DRAW,
  SW_STEP_PREPARE,
  SW_STEP_READ,
  SW_STEP_RESULT,
  SW_STEP_CHECK,
  SW_STEP_DOSE,
  SW_STEP_ADDED,
  SW_STEP_DONE,
  SW_STEP_ABANDONED,
  SW_N_STEPS
} SwStep;

/* One portion of a sample in the flask. A fresh portion is a further row of the same sample. What
 * the result depends on is copied here when the step is left, so that the record stands by itself.
 */
typedef struct
{
  SwRecord record; /* happened_ms: when it was begun */
  gint64 sample;
  gint64 method_version;
  gint64 calibration;
  gint64 analyst;
  gint64 second_reader; /* person; 0 = none */
  int portion;          /* 1, 2, ... */
  SwStep step;
  gint64 titrant_lot;
  gint64 caustic_lot;
  gint64 strip_lot;
  char *lot_reason;        /* why an expired lot was used; NULL = none was */
  SwAmount portion_volume; /* mL of undiluted solvent in the flask */
  double portion_u_ml;
  double step_ml; /* drop volume in force */
  double step_u_ml;
  double step_freedom;
  double titrant_mmol_ml; /* NAN = unknown */
  double titrant_u_mmol_ml;
  double caustic_mmol; /* NAN or 0 = none */
  gboolean caustic_counts;
  double blank;
  double maximum;
  gint64 shake_started_ms; /* 0 = not running */
  double pending_total;    /* titrant in the flask that no strip has been read for yet, steps; NAN =
                              none */
  SwOutcomeKind outcome;
  double net_low; /* steps; -INFINITY/INFINITY kept as such; NAN while open */
  double net_high;
  double acid_at;
  double pass_at;
  gint64 closed_ms; /* outcome accepted on the Result page (or straight from Read) */
  gint64 signed_ms; /* signed on Check and sign; the signature itself is a review row */
  gint64 ended_ms;  /* step done or abandoned */
  char *end_reason; /* abandoned, paused, superseded by a fresh portion */
  int calc_version;
} SwTitration;
SW_DECLARE_RECORD (SwTitration, sw_titration)

typedef struct
{
  SwRecord record; /* happened_ms: when the strip was read */
  gint64 titration;
  int ordinal;         /* 1, 2, ... in the order made */
  double total;        /* steps so far */
  gint64 colour_field; /* 0 for "between two" */
  SwField meaning;
  gboolean struck;
  gboolean not_added;
  char *struck_reason;
  gint64 reader; /* person */
} SwReadingRow;
SW_DECLARE_RECORD (SwReadingRow, sw_reading_row)

typedef enum
{
  SW_DOSE_OPEN, /* worked out, not recorded as added */
  SW_DOSE_ADDED,
  SW_DOSE_NOT_ADDED, /* somebody said no */
  SW_DOSE_NOT_KNOWN, /* nobody knows: re-test */
  SW_DOSE_LAPSED,    /* not used within 8 h */
  SW_N_DOSE_STATES
} SwDoseState;

typedef struct
{
  SwRecord record; /* happened_ms: when it was worked out */
  gint64 titration;
  gint64 incident;
  gint64 product;
  SwDoseState state;
  double system_l; /* inputs in force, besides those of the titration */
  double system_u_l;
  double product_mmol_ml; /* NAN = unknown */
  double product_u_mmol_ml;
  double strength_ratio; /* NAN when both strengths are known */
  double per_step_ml;
  double low_ml;
  double high_ml;
  double best_ml;
  double best_u_ml;
  double extra_steps; /* extra neutraliser the technician chose */
  char *extra_reason;
  double computed_ml;
  double measured_ml; /* after rounding up to the jug */
  double graduation_ml;
  double supplier_ml; /* by the supplier's chart; NAN = none */
  gboolean supplier_governs;
  char *place;        /* dosing place in force */
  gint64 released_by; /* reviewer, where the rules ask for one */
  gint64 released_ms;
  gint64 decided_ms; /* the amount was accepted: the Added page follows */
  gint64 lot;        /* of the product really added */
  SwAmount added;    /* mL really added */
  gint64 added_ms;
  gint64 added_by;
  gint64 retest_due_ms; /* added_ms + circulation (or reaction) time */
  gint64 retest_sample; /* the sample that answered it; 0 = not yet */
  int calc_version;
} SwDoseRow;
SW_DECLARE_RECORD (SwDoseRow, sw_dose_row)

typedef enum
{
  SW_INCIDENT_OPEN,
  SW_INCIDENT_RETEST_PASSED, /* waits for the reviewer */
  SW_INCIDENT_CLOSED,
  SW_N_INCIDENT_STATES
} SwIncidentState;

typedef struct
{
  SwRecord record; /* happened_ms: opened */
  gint64 machine;
  gint64 opened_by_titration;
  gint64 answered_by_titration; /* the passing re-test */
  SwIncidentState state;
  gboolean over_range;
  char *cause;
  gint64 closed_by; /* reviewer */
  gint64 closed_ms;
} SwIncident;
SW_DECLARE_RECORD (SwIncident, sw_incident)

typedef enum
{
  SW_MEANING_PERFORMED, /* "I did this test as recorded" */
  SW_MEANING_REVIEWED,
  SW_MEANING_RELEASED, /* the dose */
  SW_MEANING_CLOSED,   /* the incident */
  SW_N_MEANINGS
} SwMeaning;

typedef struct
{
  SwRecord record;
  char *subject_table; /* "titration" */
  gint64 subject;      /* row id */
  gint64 person;
  SwMeaning meaning;
  gint64 subject_seq;  /* journal_seq of the subject when signed: a later change shows */
  char *identified_by; /* how the program knew the signer: "secret", "selected", ... (the journal's
                          words); NULL in rows of version 1 */
} SwReview;
SW_DECLARE_RECORD (SwReview, sw_review)

/* Stored in the act that closes a test. */
typedef struct
{
  SwRecord record;
  gint64 plan;
  gint64 titration;     /* 0 for the first decision of a plan */
  double interval_days; /* real */
  int credit;
  gint64 due_ms;
  SwScheduleReason reason;
  double shortest_days; /* limits in force */
  double longest_days;
} SwDecision;
SW_DECLARE_RECORD (SwDecision, sw_decision)

/* ---- helpers; ids are gint64 in a GArray, transfer full ---- */

/* "TAG-YYMMDD-n", the next free of that day (local day by offset). (transfer full) */
char *sw_sample_next_code (SwStore *store, const char *tag, gint64 at_ms, GError **error);
/* Titrations not done or abandoned, oldest first; machine 0 = of all machines. */
GArray *sw_titration_open_ids (SwStore *store, gint64 machine, GError **error);
/* The closed titrations of a machine (with an outcome, not voided, portion superseded ones left
 * out), newest first; [from_ms, to_ms), 0 = unbounded; limit 0 = all. machine 0 = of all machines.
 */
GArray *sw_titration_closed_ids (
    SwStore *store, gint64 machine, gint64 from_ms, gint64 to_ms, guint limit, GError **error);
/* Doses of a machine, newest first; machine 0 = of all. */
GArray *sw_dose_ids (SwStore *store, gint64 machine, guint limit, GError **error);
/* Doses in a state; machine 0 = of all. */
GArray *sw_dose_ids_in_state (SwStore *store, gint64 machine, SwDoseState state, GError **error);
/* Doses added (or not known) whose re-test has not come yet. */
GArray *sw_dose_unanswered_ids (SwStore *store, gint64 machine, GError **error);
/* The last decision of a plan; 0 = none. */
gint64 sw_decision_last (SwStore *store, gint64 plan, GError **error);
/* The open (or waiting) incident of a machine; 0 = none. */
gint64 sw_incident_open_id (SwStore *store, gint64 machine, GError **error);
/* Sum really added to a machine in a fill, mL of product. */
gboolean
sw_dose_total (SwStore *store, gint64 fill, gint64 product, double *total_ml, GError **error);
/* Whether the person drew its sample, titrated, read a strip or read along, added a dose of it, or
 * amended any of this. */
gboolean sw_titration_took_part (
    SwStore *store, gint64 titration, gint64 person, gboolean *took_part, GError **error);
/* The titrations in which the person took part, but for amendments, by id. */
GArray *sw_titration_ids_of_person (SwStore *store, gint64 person, GError **error);
/* The machine of a titration. */
gint64 sw_titration_machine (SwStore *store, gint64 titration, GError **error);

G_END_DECLS
