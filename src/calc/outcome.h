/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings of a titration to its outcome (2-calculations 2.1): one engine for drops and burette,
 * base and acid titrant.
 *
 * Source of the rules: house design 2.1; the end point as an interval follows EURACHEM/CITAC CG 4.
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

/* What a colour field means. BETWEEN is "between acid and neutral": it closes nothing. */
typedef enum
{
  SW_FIELD_ACID,
  SW_FIELD_BETWEEN,
  SW_FIELD_NEUTRAL,
  SW_FIELD_ALKALINE,
  SW_N_FIELDS
} SwField;

typedef enum
{
  SW_DIRECTION_BASE, /* the titrant is a base (neutraliser): finds acid */
  SW_DIRECTION_ACID, /* the titrant is an acid: measures the alkaline reserve */
  SW_N_DIRECTIONS
} SwDirection;

typedef struct
{
  double total; /* titrant so far: drops, or mL for a burette; >= 0 */
  SwField field;
  gboolean struck; /* the colour is void; what was added stays counted ... */
  gboolean
      not_added; /* ... unless the person says that it never went in: the whole reading is void */
} SwReading;

typedef struct
{
  SwDirection direction;
  double maximum;       /* the method's last step, > 0 */
  double blank;         /* B, 0 = none */
  double caustic_steps; /* c: a caustic addition that counts, in steps; else 0 */
} SwMethodFacts;

typedef enum
{
  SW_OUTCOME_OPEN,
  SW_OUTCOME_PASSED,
  SW_OUTCOME_ACID_FOUND,
  SW_OUTCOME_OVER_RANGE,    /* still acid at the maximum: no dose; stop and call */
  SW_OUTCOME_RESERVE_FOUND, /* acid titrant: alkaline at m, not at n */
  SW_OUTCOME_NO_RESERVE,    /* acid titrant: not alkaline at 0; do a base test */
  SW_OUTCOME_RESERVE_OVER_RANGE,
  SW_N_OUTCOMES
} SwOutcomeKind;

/* The next action, named for every state of the readings. */
typedef enum
{
  SW_NEXT_READ_FIRST,    /* shake, read the strip before any titrant */
  SW_NEXT_ADD,           /* add titrant, shake, fresh strip */
  SW_NEXT_READ_AGAIN,    /* titrant went in but the colour is void: fresh strip at the same total */
  SW_NEXT_SECOND_STRIP,  /* passes: shake again, a second strip must agree */
  SW_NEXT_FRESH_PORTION, /* the first counted reading passed above 0: nothing is known below it */
  SW_NEXT_CLOSE,         /* the outcome stands */
  SW_NEXT_ONE_BY_ONE,    /* acid found, but the last step was too wide for a dose: second portion,
                            single steps from acid_at */
  SW_NEXT_STOP_AND_CALL, /* over range */
  SW_N_NEXTS
} SwNext;

typedef struct
{
  SwOutcomeKind kind;
  SwInterval net; /* net acid in steps, per the table of 2.1; NAN both ends while open */
  double acid_at; /* m, last clear acid (base) or last alkaline (acid titrant) below the pass; NAN
                     if none */
  double pass_at; /* n, the pass that closed it; NAN if none */
  double total;   /* titrant in the flask now, steps */
  SwNext next;
} SwOutcome;

/* Works the outcome out of @n readings in the order they were made. Later readings at a higher
 * total supersede: acid after a pass reopens. Errors (SW_FAULT_ERROR): totals that fall, are
 * negative or not finite, a maximum <= 0, a blank together with a caustic addition, either of them
 * with an acid titrant. An open titration is a result, not an error. @readings may be NULL when @n
 * is 0. */
gboolean sw_outcome_compute (const SwMethodFacts *method,
                             const SwReading *readings,
                             gsize n,
                             SwOutcome *outcome,
                             GError **error);

/* Net acid, steps, of an acid finding: acid at m, pass at n: (m + c, n + c], with a blank (m - B, n
 * - B + 1]. The blank itself is known to one step only: clean solvent is acid at B - 1 and passes
 * at B. */
SwInterval sw_net_acid (double acid_at, double pass_at, double blank, double caustic_steps);

/* Whether n - m > max (1, n / 10): too wide to work a dose out; titrate a second portion one by
 * one. */
gboolean sw_step_is_wide (double acid_at, double pass_at);

/* Words for files and the command line, untranslated: "acid_found", "neutral", "add"; and back. */
const char *sw_outcome_name (SwOutcomeKind kind);
const char *sw_field_name (SwField field);
gboolean sw_field_from_name (const char *name, SwField *field);
const char *sw_next_name (SwNext next);

/* c = A / (v_d * b) steps: the caustic addition (mmol) in steps of @step_ml (mL) of titrant of
 * @titrant_mmol_ml. Both > 0, A >= 0. */
double sw_caustic_in_steps (double caustic_mmol, double step_ml, double titrant_mmol_ml);

G_END_DECLS
