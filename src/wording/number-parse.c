/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers from what a person typed (2.12), and the command line's strict form: units, ranges and
 * faults. How the characters are read is in number-scan.c.
 *
 * Invariant: nothing is clamped or guessed. A number that can be read in two ways is settled by the
 * range of its quantity, or asked back.
 */
#include "wording/number.h"

#include "calc/range.h"
#include "wording/number-scan.h"

#include <errno.h>
#include <string.h>

/* Nobody types more; keeps the cost of a pasted book small. */
#define LONGEST_TEXT 120

typedef struct
{
  const char *text;
  SwQuantityName quantity;
  SwUnit unit;
} Request;

/* ---- faults ---- */

/* The allowed range in the unit asked for; unbounded when the table's unit is of another kind (an
 * uncertainty has the unit of its quantity). */
static void
get_range (const Request *request, double *low, double *high)
{
  SwUnit unit = SW_UNIT_NONE;

  *low = -INFINITY;
  *high = INFINITY;
  if (!sw_range_get (request->quantity, low, high, &unit))
    return;
  if (sw_unit_get_kind (unit) != sw_unit_get_kind (request->unit))
    return;
  *low = sw_unit_convert (*low, unit, request->unit);
  *high = sw_unit_convert (*high, unit, request->unit);
}

static SwFault
make_fault (const Request *request, SwFaultCode code)
{
  SwFault fault = { .code = code,
                    .quantity = request->quantity,
                    .value = NAN,
                    .unit = request->unit,
                    .typed = request->text };

  get_range (request, &fault.low, &fault.high);
  return fault;
}

static gboolean
refuse (const Request *request, SwFaultCode code, GError **error)
{
  SwFault fault = make_fault (request, code);

  return sw_fault_set (error, &fault);
}

/* ---- values ---- */

/* FALSE for what a double cannot hold; a denormal is noise too. */
static gboolean
to_double (const char *digits, double *value)
{
  errno = 0;
  *value = g_ascii_strtod (digits, NULL);
  return errno == 0 && isfinite (*value);
}

/* A unit of the same kind; of the pure numbers only "%" turns into another. */
static gboolean
units_fit (SwUnit typed, SwUnit asked)
{
  if (sw_unit_get_kind (typed) != sw_unit_get_kind (asked))
    return FALSE;
  if (sw_unit_get_kind (asked) != SW_UNIT_KIND_NONE || typed == asked)
    return TRUE;
  return typed == SW_UNIT_PERCENT && asked == SW_UNIT_NONE;
}

static gboolean
read_unit (const Request *request, const char *symbol, SwUnit *typed, GError **error)
{
  *typed = request->unit;
  if (*symbol == '\0')
    return TRUE;
  if (sw_unit_parse (symbol, typed) && units_fit (*typed, request->unit))
    return TRUE;
  return refuse (request, SW_FAULT_UNIT, error);
}

static gboolean
in_range (const Request *request, double value)
{
  double low;
  double high;

  get_range (request, &low, &high);
  return value >= low && value <= high;
}

static gboolean
accept_value (const Request *request, SwParsedAmount *parsed, GError **error)
{
  SwFault fault;

  parsed->value = sw_unit_convert (parsed->typed_value, parsed->typed_unit, request->unit);
  if (in_range (request, parsed->value))
    return TRUE;
  fault = make_fault (request, SW_FAULT_RANGE);
  fault.value = parsed->value;
  return sw_fault_set (error, &fault);
}

/* Two readings: the only one in range is meant, else the person is asked. */
static gboolean
choose_reading (const Request *request, double grouped, SwParsedAmount *parsed, GError **error)
{
  double as_decimal = sw_unit_convert (parsed->typed_value, parsed->typed_unit, request->unit);
  double as_group = sw_unit_convert (grouped, parsed->typed_unit, request->unit);
  SwFault fault;

  if (in_range (request, as_decimal) && in_range (request, as_group))
    {
      fault = make_fault (request, SW_FAULT_AMBIGUOUS);
      fault.value = as_group;
      fault.low = as_decimal;
      return sw_fault_set (error, &fault);
    }
  if (in_range (request, as_group))
    parsed->typed_value = grouped;
  return accept_value (request, parsed, error);
}

static gboolean
is_empty (const char *text)
{
  while (*text != '\0' && g_unichar_isspace (g_utf8_get_char (text)))
    text = g_utf8_next_char (text);
  return *text == '\0';
}

/* What both forms refuse before they look at a digit. */
static gboolean
check_text (Request *request, GError **error)
{
  if (request->text == NULL || *request->text == '\0')
    return refuse (request, SW_FAULT_MISSING, error);
  if (strlen (request->text) > LONGEST_TEXT || !g_utf8_validate (request->text, -1, NULL))
    {
      /* Too long or broken to be shown back. */
      request->text = NULL;
      return refuse (request, SW_FAULT_NOT_A_NUMBER, error);
    }
  return !is_empty (request->text) || refuse (request, SW_FAULT_MISSING, error);
}

gboolean
sw_number_parse (
    const char *text, SwQuantityName quantity, SwUnit unit, SwParsedAmount *parsed, GError **error)
{
  Request request = { text, quantity, unit };
  g_auto (SwNumberText) number = { 0 };
  double grouped;

  g_return_val_if_fail (parsed != NULL, FALSE);
  if (!check_text (&request, error))
    return FALSE;
  if (!sw_number_scan (text, &number) || !to_double (number.decimal, &parsed->typed_value))
    return refuse (&request, SW_FAULT_NOT_A_NUMBER, error);
  if (!read_unit (&request, number.unit, &parsed->typed_unit, error))
    return FALSE;
  if (number.grouped == NULL || !to_double (number.grouped, &grouped))
    return accept_value (&request, parsed, error);
  return choose_reading (&request, grouped, parsed, error);
}

gboolean
sw_number_parse_strict (
    const char *text, SwQuantityName quantity, SwUnit unit, SwParsedAmount *parsed, GError **error)
{
  Request request = { text, quantity, unit };
  g_autofree char *symbol = NULL;
  const char *end;

  g_return_val_if_fail (parsed != NULL, FALSE);
  if (!check_text (&request, error))
    return FALSE;
  if (strchr (text, ',') != NULL)
    return refuse (&request, SW_FAULT_DECIMAL_COMMA, error);
  end = sw_number_skip_strict (text);
  if (end == NULL || !to_double (text, &parsed->typed_value))
    return refuse (&request, SW_FAULT_NOT_A_NUMBER, error);

  symbol = g_strstrip (g_strdup (end));
  if (*symbol == '\0' && sw_unit_get_kind (unit) != SW_UNIT_KIND_NONE)
    return refuse (&request, SW_FAULT_UNIT, error);
  return read_unit (&request, symbol, &parsed->typed_unit, error)
         && accept_value (&request, parsed, error);
}
