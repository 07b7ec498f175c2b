/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names of things: one thing, one word, everywhere. Lower case, to stand inside a sentence. */
#include "wording/sentence.h"

#include <glib/gi18n.h>

static const char *const fields[SW_N_FIELDS] = {
  [SW_FIELD_ACID] = NC_ ("meaning of a strip's colour", "acid"),
  [SW_FIELD_BETWEEN] = NC_ ("meaning of a strip's colour", "between acid and neutral"),
  [SW_FIELD_NEUTRAL] = NC_ ("meaning of a strip's colour", "neutral"),
  [SW_FIELD_ALKALINE] = NC_ ("meaning of a strip's colour", "alkaline"),
};

static const char *const outcomes[SW_N_OUTCOMES] = {
  [SW_OUTCOME_OPEN] = NC_ ("outcome of a test", "open"),
  [SW_OUTCOME_PASSED] = NC_ ("outcome of a test", "passed"),
  [SW_OUTCOME_ACID_FOUND] = NC_ ("outcome of a test", "acid found"),
  [SW_OUTCOME_OVER_RANGE] = NC_ ("outcome of a test", "over range"),
  [SW_OUTCOME_RESERVE_FOUND] = NC_ ("outcome of a test", "reserve found"),
  [SW_OUTCOME_NO_RESERVE] = NC_ ("outcome of a test", "no reserve"),
  [SW_OUTCOME_RESERVE_OVER_RANGE] = NC_ ("outcome of a test", "reserve over range"),
};

static const char *const quantities[SW_N_QUANTITIES] = {
  [SW_QUANTITY_NONE] = N_ ("value"),
  [SW_QUANTITY_READING_TOTAL] = N_ ("titrant so far"),
  [SW_QUANTITY_STEPS_ADDED] = N_ ("titrant added"),
  [SW_QUANTITY_ACID_AT] = N_ ("last acid reading"),
  [SW_QUANTITY_PASS_AT] = N_ ("first passing reading"),
  [SW_QUANTITY_BLANK] = N_ ("blank"),
  [SW_QUANTITY_MAXIMUM] = N_ ("last step of the method"),
  [SW_QUANTITY_EXTRA] = N_ ("extra neutraliser"),
  [SW_QUANTITY_DROP_VOLUME] = N_ ("drop volume"),
  [SW_QUANTITY_SAMPLE_VOLUME] = N_ ("sample volume"),
  [SW_QUANTITY_DRAWN_VOLUME] = N_ ("volume drawn"),
  [SW_QUANTITY_SAMPLE_TEMPERATURE] = N_ ("sample temperature"),
  [SW_QUANTITY_CAUSTIC] = N_ ("caustic addition"),
  [SW_QUANTITY_WATER_VOLUME] = N_ ("water volume"),
  [SW_QUANTITY_TITRANT_STRENGTH] = N_ ("strength of the titrant"),
  [SW_QUANTITY_PRODUCT_STRENGTH] = N_ ("strength of the product"),
  [SW_QUANTITY_STRENGTH_RATIO] = N_ ("ratio of titrant to product strength"),
  [SW_QUANTITY_DENSITY] = N_ ("density"),
  [SW_QUANTITY_MOLAR_MASS] = N_ ("molar mass"),
  [SW_QUANTITY_SYSTEM_VOLUME] = N_ ("system volume"),
  [SW_QUANTITY_COMPARTMENT_VOLUME] = N_ ("compartment volume"),
  [SW_QUANTITY_CHAMBER_VOLUME] = N_ ("chamber volume"),
  [SW_QUANTITY_GRADUATION] = N_ ("marks of the measuring jug"),
  [SW_QUANTITY_CIRCULATION_TIME] = N_ ("circulation time"),
  [SW_QUANTITY_REACTION_TIME] = N_ ("reaction time"),
  [SW_QUANTITY_LIMIT_EACH] = N_ ("limit per addition"),
  [SW_QUANTITY_LIMIT_TOTAL] = N_ ("limit in total"),
  [SW_QUANTITY_ADDED_AMOUNT] = N_ ("added amount"),
  [SW_QUANTITY_RESERVE_LOW] = N_ ("low mark of the reserve"),
  [SW_QUANTITY_RESERVE_HIGH] = N_ ("high mark of the reserve"),
  [SW_QUANTITY_WEIGHING] = N_ ("weighing"),
  [SW_QUANTITY_DROP_COUNT] = N_ ("number of drops"),
  [SW_QUANTITY_LOT_AMOUNT] = N_ ("amount of the lot"),
  [SW_QUANTITY_SHAKE_TIME] = N_ ("shake time"),
  [SW_QUANTITY_WAIT_TIME] = N_ ("wait time"),
  [SW_QUANTITY_SHORTEST] = N_ ("shortest interval"),
  [SW_QUANTITY_LONGEST] = N_ ("longest interval"),
  [SW_QUANTITY_INTERVAL] = N_ ("interval"),
  [SW_QUANTITY_ALPHA] = N_ ("accepted risk"),
  [SW_QUANTITY_SUPPLIER_FACTOR] = N_ ("factor of the supplier's chart"),
  [SW_QUANTITY_UNCERTAINTY] = N_ ("uncertainty"),
  [SW_QUANTITY_FREEDOM] = N_ ("degrees of freedom"),
  [SW_QUANTITY_DATE] = N_ ("date"),
  [SW_QUANTITY_NAME] = N_ ("name"),
  [SW_QUANTITY_CODE] = N_ ("code"),
  [SW_QUANTITY_REASON] = N_ ("reason"),
  [SW_QUANTITY_COUNT] = N_ ("count"),
  [SW_QUANTITY_SECRET] = N_ ("secret"),
  [SW_QUANTITY_IDLE_LOCK] = N_ ("time without input"),
};

static const char *const budget_lines[SW_N_LINES] = {
  [SW_LINE_END_POINT] = N_ ("end point"),
  [SW_LINE_DROP_VOLUME] = N_ ("drop volume"),
  [SW_LINE_SAMPLE_VOLUME] = N_ ("sample volume"),
  [SW_LINE_SYSTEM_VOLUME] = N_ ("system volume"),
  [SW_LINE_TITRANT] = N_ ("strength of the titrant"),
  [SW_LINE_PRODUCT] = N_ ("strength of the product"),
  [SW_LINE_STRENGTH_RATIO] = N_ ("ratio of titrant to product strength"),
  [SW_LINE_CAUSTIC] = N_ ("caustic addition"),
  [SW_LINE_OTHER] = NC_ ("line of an uncertainty budget", "other"),
};

const char *
sw_say_field (const SwWording *wording, SwField field)
{
  g_return_val_if_fail ((int)field >= 0 && field < SW_N_FIELDS, "");
  return sw_trc (wording, "meaning of a strip's colour", fields[field]);
}

const char *
sw_say_outcome (const SwWording *wording, SwOutcomeKind kind)
{
  g_return_val_if_fail ((int)kind >= 0 && kind < SW_N_OUTCOMES, "");
  return sw_trc (wording, "outcome of a test", outcomes[kind]);
}

const char *
sw_say_quantity (const SwWording *wording, SwQuantityName quantity)
{
  g_return_val_if_fail ((int)quantity >= 0 && quantity < SW_N_QUANTITIES, "");
  return sw_tr (wording, quantities[quantity]);
}

const char *
sw_say_budget_line (const SwWording *wording, SwBudgetLineName line)
{
  g_return_val_if_fail ((int)line >= 0 && line < SW_N_LINES, "");
  if (line == SW_LINE_OTHER)
    return sw_trc (wording, "line of an uncertainty budget", budget_lines[line]);
  return sw_tr (wording, budget_lines[line]);
}
