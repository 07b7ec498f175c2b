/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is wrong with a number: which one, its value, and what would be allowed.
 *
 * Every layer reports a bad number with this one domain, so that a window can put the words beside
 * the right field and a command line can name the right option. The sentence itself is made in
 * wording; the GError's own message is a plain English line for logs and for tests.
 */
#pragma once

#include "calc/quantity.h"
#include "calc/unit.h"

G_BEGIN_DECLS

/* The quantities a person can type or a calculation can refuse. Wording names each; a page maps
 * each to its field. Add at the end of a group; the numbers are never stored. */
typedef enum
{
  SW_QUANTITY_NONE,
  /* titration */
  SW_QUANTITY_READING_TOTAL, /* steps so far */
  SW_QUANTITY_STEPS_ADDED,   /* steps put in at once */
  SW_QUANTITY_ACID_AT,       /* last acid reading, steps */
  SW_QUANTITY_PASS_AT,       /* first passing reading, steps */
  SW_QUANTITY_BLANK,         /* steps */
  SW_QUANTITY_MAXIMUM,       /* method's last step */
  SW_QUANTITY_EXTRA,         /* extra neutraliser, steps */
  SW_QUANTITY_DROP_VOLUME,   /* mL */
  SW_QUANTITY_SAMPLE_VOLUME, /* mL, the portion titrated */
  SW_QUANTITY_DRAWN_VOLUME,  /* mL, the sample drawn */
  SW_QUANTITY_SAMPLE_TEMPERATURE,
  SW_QUANTITY_CAUSTIC,          /* mmol */
  SW_QUANTITY_WATER_VOLUME,     /* mL */
  SW_QUANTITY_TITRANT_STRENGTH, /* mmol/mL */
  SW_QUANTITY_PRODUCT_STRENGTH, /* mmol/mL */
  SW_QUANTITY_STRENGTH_RATIO,   /* titrant to product, 1 */
  SW_QUANTITY_DENSITY,          /* g/mL */
  SW_QUANTITY_MOLAR_MASS,       /* g/mol */
  /* machine */
  SW_QUANTITY_SYSTEM_VOLUME, /* L */
  SW_QUANTITY_COMPARTMENT_VOLUME,
  SW_QUANTITY_CHAMBER_VOLUME,
  SW_QUANTITY_GRADUATION,       /* mL, marks of the measuring jug */
  SW_QUANTITY_CIRCULATION_TIME, /* min */
  SW_QUANTITY_REACTION_TIME,    /* min */
  SW_QUANTITY_LIMIT_EACH,       /* mL of product per L of solvent, one addition */
  SW_QUANTITY_LIMIT_TOTAL,      /* mL of product per L of solvent, between two full changes */
  SW_QUANTITY_ADDED_AMOUNT,     /* mL */
  SW_QUANTITY_RESERVE_LOW,      /* steps */
  SW_QUANTITY_RESERVE_HIGH,
  /* bench */
  SW_QUANTITY_WEIGHING, /* g */
  SW_QUANTITY_DROP_COUNT,
  SW_QUANTITY_LOT_AMOUNT,
  SW_QUANTITY_SHAKE_TIME, /* s */
  SW_QUANTITY_WAIT_TIME,
  /* plan */
  SW_QUANTITY_SHORTEST, /* days */
  SW_QUANTITY_LONGEST,
  SW_QUANTITY_INTERVAL,
  SW_QUANTITY_ALPHA,           /* accepted risk, 0..1 */
  SW_QUANTITY_SUPPLIER_FACTOR, /* mL of product per L of solvent and step */
  /* general */
  SW_QUANTITY_UNCERTAINTY,
  SW_QUANTITY_FREEDOM,
  SW_QUANTITY_DATE,
  SW_QUANTITY_NAME,
  SW_QUANTITY_CODE,
  SW_QUANTITY_REASON,
  SW_QUANTITY_COUNT,
  SW_QUANTITY_SECRET,    /* characters */
  SW_QUANTITY_IDLE_LOCK, /* min without input until one is signed out; 0 = never */
  SW_N_QUANTITIES
} SwQuantityName;

typedef enum
{
  SW_FAULT_MISSING,       /* nothing typed, or an unknown that the calculation needs */
  SW_FAULT_NOT_A_NUMBER,  /* text that is no number, NaN, infinity */
  SW_FAULT_RANGE,         /* outside [low, high] */
  SW_FAULT_UNIT,          /* a unit that does not fit the quantity, or none where one is needed */
  SW_FAULT_AMBIGUOUS,     /* "1.234" or "1,234": may be a group mark; value and low hold the two
                             readings */
  SW_FAULT_DECIMAL_COMMA, /* a comma where only the C locale's point is accepted */
  SW_FAULT_ORDER,         /* readings that go backwards, a pass below the acid reading */
  SW_FAULT_COMBINATION,   /* two inputs that exclude each other, such as a blank with a caustic
                             addition */
  SW_FAULT_COARSE,        /* the jug's marks are too coarse for this dose */
  SW_FAULT_TEXT           /* a text that is empty, too long, or already taken */
} SwFaultCode;

/* The details; value is NAN and typed NULL where they do not apply. */
typedef struct
{
  SwFaultCode code;
  SwQuantityName quantity;
  double value;
  double low;        /* smallest allowed, -INFINITY where unbounded */
  double high;       /* largest allowed, +INFINITY where unbounded */
  SwUnit unit;       /* of value, low and high */
  const char *typed; /* borrowed from the error: what the person typed */
  SwQuantityName of; /* with _UNCERTAINTY and _FREEDOM: of which quantity; else SW_QUANTITY_NONE */
} SwFault;

#define SW_FAULT_ERROR (sw_fault_error_quark ())
GQuark sw_fault_error_quark (void);

/* Sets @error to a fault; @fault is copied, with its text. Returns FALSE, so that
 * `return sw_fault_set (error, &fault)` reads well. */
gboolean sw_fault_set (GError **error, const SwFault *fault);

/* Refuses a value outside [low, high], NaN and infinities. TRUE when it is fine. */
gboolean sw_fault_check_range (
    SwQuantityName quantity, double value, double low, double high, SwUnit unit, GError **error);

/* The fault inside @error, or NULL when it is an error of another domain. (transfer none) */
const SwFault *sw_fault_get (const GError *error);

/* The untranslated snake_case name of a quantity, as the command line prints it; never NULL. */
const char *sw_quantity_name (SwQuantityName quantity);

G_END_DECLS
