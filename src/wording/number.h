/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers and amounts: as text for a reader, and back from what a person typed (2.12).
 *
 * Reading accepts point and comma, a sign, an exponent, white space (also U+00A0, U+202F) as group
 * mark, and a unit behind the number. "1.234" and "1,234" may hide a group mark:
 * SW_FAULT_AMBIGUOUS, with the two readings in value and low, unless only one of them is in the
 * quantity's range. Nothing is guessed.
 */
#pragma once

#include "calc/fault.h"
#include "wording/wording.h"

G_BEGIN_DECLS

typedef struct
{
  double value; /* in the unit asked for */
  SwUnit typed_unit;
  double typed_value;
} SwParsedAmount;

/* Reads @text as a number with an optional unit; without one @unit is taken. The result is in @unit
 * and inside the range of @quantity (calc/range.h). Errors: SW_FAULT_ERROR with quantity, value,
 * range, typed. */
gboolean sw_number_parse (
    const char *text, SwQuantityName quantity, SwUnit unit, SwParsedAmount *parsed, GError **error);
/* The command line's strict form: C locale, a comma refused by name, and a unit needed when the
 * quantity has one. */
gboolean sw_number_parse_strict (
    const char *text, SwQuantityName quantity, SwUnit unit, SwParsedAmount *parsed, GError **error);

/* "1260", "12 600", "0.05": @digits significant digits at most, trailing zeros dropped, the
 * reader's decimal mark, group marks U+202F from five digits on (never a point or comma: "1,260"
 * would be 1.26 to half of the world). NaN is a dash. (transfer full) */
char *sw_number_format (const SwWording *wording, double value, int digits);
/* "1260 mL": number, U+202F, unit symbol. (transfer full) */
char *sw_amount_format (const SwWording *wording, double value, SwUnit unit, int digits);
/* An amount of liquid for a measuring jug: mL below 10 L, else L, never more digits than the jug
 * can measure. (transfer full) */
char *sw_volume_format (const SwWording *wording, double ml);
/* "2 to 3 drops", "up to 1 drop", "more than 20 drops", "reserve 4 to 5 drops". (transfer full) */
char *sw_steps_format (const SwWording *wording, double low, double high, gboolean burette);
/* "3 drops", "2.5 mL". (transfer full) */
char *sw_step_count_format (const SwWording *wording, double steps, gboolean burette);

G_END_DECLS
