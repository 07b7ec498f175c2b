/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facts that a layer below hands up to be worded: why a move is refused, what comes next, what a
 * machine's state is. A fact is a code and a few numbers; only wording makes a sentence of it. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  SW_FACT_NONE,
  /* why a step of the guided test is refused */
  SW_FACT_NOT_FROM_HERE, /* the table has no such move from this step */
  SW_FACT_NEEDS_READING, /* read the strip first */
  SW_FACT_OUTCOME_OPEN,  /* the end point is not settled; next action is in number[0] (SwNext) */
  SW_FACT_NO_MORE_STEPS, /* the method's maximum is reached */
  SW_FACT_ADD_ONLY_WHILE_ACID,
  SW_FACT_PAUSED_TOO_LONG,       /* number[0] minutes: a fresh portion is needed */
  SW_FACT_LOT_MISSING,           /* text: which */
  SW_FACT_LOT_EXPIRED,           /* text: code; needs a reason */
  SW_FACT_FAMILY_REFUSED,        /* the method is not for this solvent; text: the solvent */
  SW_FACT_SECOND_READER_MISSING, /* the person's profile asks for one */
  SW_FACT_CALIBRATION_MISSING,   /* no drop volume on file for this liquid */
  SW_FACT_SIGNATURE_MISSING,
  SW_FACT_ALREADY_SIGNED,
  SW_FACT_NOTHING_TO_TAKE_BACK,
  SW_FACT_MACHINE_HAS_OPEN_TEST, /* text: sample code */
  SW_FACT_MACHINE_LOCKED,        /* an earlier dose is not recorded yet */
  SW_FACT_RETEST_FIRST,          /* a dose was added; its re-test comes before another dose */
  SW_FACT_RETEST_TOO_EARLY,      /* the dose has not circulated yet; number[0] minutes to go */
  SW_FACT_READ_ONLY,             /* the file is open read-only; text: who has it */
  SW_FACT_MACHINE_RETIRED,
  SW_FACT_NEEDS_REVIEWER, /* a reviewer or administrator who did not do the re-test */
  SW_FACT_NO_PLAN,        /* no method is planned for the machine */
  SW_FACT_NO_LOT,         /* no lot on file that is neither expired nor used up; text: product */
  /* why a person may not do it */
  SW_FACT_NOBODY,          /* nobody has said who works */
  SW_FACT_PERSON_INACTIVE, /* text: who; works here no longer, or taken out of use */
  SW_FACT_AUDITOR_READS,   /* auditors read and write nothing */
  SW_FACT_NEEDS_ADMINISTRATOR,
  SW_FACT_NEEDS_ROLE_REVIEW, /* a reviewer or administrator */
  SW_FACT_NEEDS_SECRET,      /* this person must sign in with the secret */
  SW_FACT_NO_SECRET_YET,     /* text: who; no secret was ever set, and a name alone is not enough */
  SW_FACT_UNGUARDED,         /* no administrator has a secret yet: nothing can be written before */
  SW_FACT_LAST_ADMINISTRATOR, /* the only one left with a secret must stay one */
  SW_FACT_WRONG_SECRET,
  SW_FACT_WAIT,             /* number[0] minutes until the next attempt */
  SW_FACT_NOT_THE_SIGNER,   /* only who did it signs as having done it */
  SW_FACT_OWN_WORK,         /* a second person reviews */
  SW_FACT_REVIEWED_ALREADY, /* amend: reviewed, so a reviewer must; review: nothing changed since */
  SW_FACT_VOIDED,           /* the record is out of use */
  SW_FACT_STILL_USED,       /* text: by what; it cannot be taken out of use before that */
  SW_FACT_NOT_AMENDABLE,    /* this part of a record cannot be amended */
  SW_FACT_NEVER_VOIDED,     /* a record of this kind cannot be taken out of use by itself */
  SW_FACT_TEST_STILL_OPEN,  /* a test that is not signed is changed in the test itself */
  /* why no dose is shown */
  SW_FACT_NO_DOSE_OUTCOME, /* only acid found is dosed */
  SW_FACT_NO_DOSE_OVER_RANGE,
  SW_FACT_NO_DOSE_POINT, /* the sampling point is not one to work a dose out from; text: point */
  SW_FACT_NO_DOSE_STEP_WIDE,       /* the last step was too wide */
  SW_FACT_NO_DOSE_PLACE,           /* no dosing place on file */
  SW_FACT_NO_DOSE_LIMITS,          /* no limits on file, nor "the sheet gives none" */
  SW_FACT_NO_DOSE_CIRCULATION,     /* no circulation time on file */
  SW_FACT_NO_DOSE_VOLUME,          /* no compartment volume on file */
  SW_FACT_NO_DOSE_JUG,             /* no measuring jug on file */
  SW_FACT_NO_DOSE_PRODUCT,         /* no neutraliser for this machine */
  SW_FACT_NO_DOSE_STRENGTH,        /* neither strengths nor the product itself as titrant */
  SW_FACT_NO_DOSE_CAUSTIC_PRODUCT, /* a caustic is never dosed */
  SW_FACT_NO_DOSE_TOTAL,           /* total limit of this fill reached; number[0] mL left */
  SW_FACT_NO_DOSE_COARSE,          /* jug too coarse */
  SW_FACT_NO_DOSE_LAPSED,          /* the figure is older than 8 h */
  SW_FACT_NEEDS_RELEASE_SECOND,    /* second dose in one incident */
  SW_FACT_NEEDS_RELEASE_DROPS,     /* five counted drops or more */
  SW_FACT_NEEDS_RELEASE_LIMIT,     /* half of the product's limit or more */
  /* state of a machine, for To Do, sidebar and machine page */
  SW_FACT_STATE_NEVER_TESTED,
  SW_FACT_STATE_PASSED,
  SW_FACT_STATE_ACID,         /* acid found, no dose worked out or added yet */
  SW_FACT_STATE_DOSE_DUE,     /* dose worked out, not recorded */
  SW_FACT_STATE_DOSE_UNKNOWN, /* nobody knows whether it was added: re-test */
  SW_FACT_STATE_RETEST_DUE,
  SW_FACT_STATE_OVER_RANGE,
  SW_FACT_STATE_TEST_OPEN,
  SW_FACT_STATE_RESERVE, /* number[0] steps of reserve */
  SW_FACT_STATE_RETIRED,
  SW_N_FACTS
} SwFactCode;

typedef struct
{
  SwFactCode code;
  double number[3];
  char text[96]; /* UTF-8, cut at a character where too long; "" = none */
} SwFact;

static inline SwFact
sw_fact (SwFactCode code)
{
  return (SwFact){ .code = code };
}

/* A fact with a text, copied. */
SwFact sw_fact_with_text (SwFactCode code, const char *text);

G_END_DECLS
