/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fault is a GError that carries the quantity, the value and the allowed range.
 *
 * The message is a plain English line in the C locale, for logs and tests:
 * "drop_volume 0 mL is outside 0.001 to 5 mL". People read the sentence that wording makes instead.
 */
#include "calc/fault.h"

typedef struct
{
  /* Owned */
  char *typed; /* fault.typed points here */

  SwFault fault;
} SwFaultErrorPrivate;

/* Snake case, as the command line prints them; the index is the enumeration. */
static const char *const quantity_names[SW_N_QUANTITIES] = {
  [SW_QUANTITY_NONE] = "none",
  [SW_QUANTITY_READING_TOTAL] = "reading_total",
  [SW_QUANTITY_STEPS_ADDED] = "steps_added",
  [SW_QUANTITY_ACID_AT] = "acid_at",
  [SW_QUANTITY_PASS_AT] = "pass_at",
  [SW_QUANTITY_BLANK] = "blank",
  [SW_QUANTITY_MAXIMUM] = "maximum",
  [SW_QUANTITY_EXTRA] = "extra",
  [SW_QUANTITY_DROP_VOLUME] = "drop_volume",
  [SW_QUANTITY_SAMPLE_VOLUME] = "sample_volume",
  [SW_QUANTITY_DRAWN_VOLUME] = "drawn_volume",
  [SW_QUANTITY_SAMPLE_TEMPERATURE] = "sample_temperature",
  [SW_QUANTITY_CAUSTIC] = "caustic",
  [SW_QUANTITY_WATER_VOLUME] = "water_volume",
  [SW_QUANTITY_TITRANT_STRENGTH] = "titrant_strength",
  [SW_QUANTITY_PRODUCT_STRENGTH] = "product_strength",
  [SW_QUANTITY_STRENGTH_RATIO] = "strength_ratio",
  [SW_QUANTITY_DENSITY] = "density",
  [SW_QUANTITY_MOLAR_MASS] = "molar_mass",
  [SW_QUANTITY_SYSTEM_VOLUME] = "system_volume",
  [SW_QUANTITY_COMPARTMENT_VOLUME] = "compartment_volume",
  [SW_QUANTITY_CHAMBER_VOLUME] = "chamber_volume",
  [SW_QUANTITY_GRADUATION] = "graduation",
  [SW_QUANTITY_CIRCULATION_TIME] = "circulation_time",
  [SW_QUANTITY_REACTION_TIME] = "reaction_time",
  [SW_QUANTITY_LIMIT_EACH] = "limit_each",
  [SW_QUANTITY_LIMIT_TOTAL] = "limit_total",
  [SW_QUANTITY_ADDED_AMOUNT] = "added_amount",
  [SW_QUANTITY_RESERVE_LOW] = "reserve_low",
  [SW_QUANTITY_RESERVE_HIGH] = "reserve_high",
  [SW_QUANTITY_WEIGHING] = "weighing",
  [SW_QUANTITY_DROP_COUNT] = "drop_count",
  [SW_QUANTITY_LOT_AMOUNT] = "lot_amount",
  [SW_QUANTITY_SHAKE_TIME] = "shake_time",
  [SW_QUANTITY_WAIT_TIME] = "wait_time",
  [SW_QUANTITY_SHORTEST] = "shortest",
  [SW_QUANTITY_LONGEST] = "longest",
  [SW_QUANTITY_INTERVAL] = "interval",
  [SW_QUANTITY_ALPHA] = "alpha",
  [SW_QUANTITY_SUPPLIER_FACTOR] = "supplier_factor",
  [SW_QUANTITY_UNCERTAINTY] = "uncertainty",
  [SW_QUANTITY_FREEDOM] = "freedom",
  [SW_QUANTITY_DATE] = "date",
  [SW_QUANTITY_NAME] = "name",
  [SW_QUANTITY_CODE] = "code",
  [SW_QUANTITY_REASON] = "reason",
  [SW_QUANTITY_COUNT] = "count",
  [SW_QUANTITY_SECRET] = "secret",
  [SW_QUANTITY_IDLE_LOCK] = "idle_lock",
};

static void
sw_fault_error_private_init (SwFaultErrorPrivate *priv)
{
  priv->fault = (SwFault){ .value = NAN, .low = -INFINITY, .high = INFINITY };
  priv->typed = NULL;
}

static void
sw_fault_error_private_copy (const SwFaultErrorPrivate *source, SwFaultErrorPrivate *target)
{
  target->fault = source->fault;
  target->typed = g_strdup (source->typed);
  target->fault.typed = target->typed;
}

static void
sw_fault_error_private_clear (SwFaultErrorPrivate *priv)
{
  g_free (priv->typed);
}

/* The macro's getter returns NULL for a foreign domain and its copy and clear use the result
 * unchecked; GLib calls those only for our own domain, which gcc cannot see. It also casts from
 * bytes that GLib has aligned, which clang cannot see. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wnull-dereference"
#pragma GCC diagnostic ignored "-Wcast-align"
G_DEFINE_EXTENDED_ERROR (SwFaultError, sw_fault_error)
#pragma GCC diagnostic pop

/* "0.001 mL", with the C locale's point whatever the process uses. */
static char *
format_number (double value, SwUnit unit)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];
  const char *symbol = sw_unit_get_symbol (unit);

  g_ascii_formatd (digits, sizeof digits, "%.10g", value);
  return g_strconcat (digits, *symbol != '\0' ? " " : "", symbol, NULL);
}

/* "0.001 to 5 mL", or "at least 0" where there is no upper end. */
static char *
format_allowed (const SwFault *fault)
{
  g_autofree char *low
      = format_number (fault->low, isinf (fault->high) ? fault->unit : SW_UNIT_NONE);
  g_autofree char *high = format_number (fault->high, fault->unit);

  if (isinf (fault->low) && isinf (fault->high))
    return g_strdup ("any number");
  if (isinf (fault->high))
    return g_strconcat ("at least ", low, NULL);
  if (isinf (fault->low))
    return g_strconcat ("at most ", high, NULL);
  return g_strconcat (low, " to ", high, NULL);
}

/* What was wrong: the text typed where there is one, else the number. */
static char *
format_given (const SwFault *fault)
{
  if (fault->typed != NULL)
    return g_strdup_printf ("\"%s\"", fault->typed);
  return format_number (fault->value, fault->unit);
}

static char *
format_name (const SwFault *fault)
{
  if (fault->of == SW_QUANTITY_NONE)
    return g_strdup (sw_quantity_name (fault->quantity));
  return g_strdup_printf ("%s of %s", sw_quantity_name (fault->quantity),
                          sw_quantity_name (fault->of));
}

static char *
format_message (const SwFault *fault)
{
  g_autofree char *name = format_name (fault);
  g_autofree char *given = format_given (fault);
  g_autofree char *allowed = format_allowed (fault);

  switch (fault->code)
    {
    case SW_FAULT_MISSING:
      return g_strdup_printf ("%s is missing", name);
    case SW_FAULT_NOT_A_NUMBER:
      return g_strdup_printf ("%s %s is no number (allowed: %s)", name, given, allowed);
    case SW_FAULT_RANGE:
      return g_strdup_printf ("%s %s is outside %s", name, given, allowed);
    case SW_FAULT_UNIT:
      return g_strdup_printf ("%s %s has no unit that fits", name, given);
    case SW_FAULT_AMBIGUOUS:
      return g_strdup_printf ("%s %s can be read in two ways", name, given);
    case SW_FAULT_DECIMAL_COMMA:
      return g_strdup_printf ("%s %s has a decimal comma; use a point", name, given);
    case SW_FAULT_ORDER:
      return g_strdup_printf ("%s %s is out of order (allowed: %s)", name, given, allowed);
    case SW_FAULT_COMBINATION:
      return g_strdup_printf ("%s %s excludes another input", name, given);
    case SW_FAULT_COARSE:
      return g_strdup_printf ("%s %s is too coarse (allowed: %s)", name, given, allowed);
    case SW_FAULT_TEXT:
      return g_strdup_printf ("%s %s is empty, too long or taken", name, given);
    default:
      g_return_val_if_reached (g_strdup (name));
    }
}

gboolean
sw_fault_set (GError **error, const SwFault *fault)
{
  g_autofree char *message = NULL;
  SwFaultErrorPrivate *priv;

  g_return_val_if_fail (fault != NULL, FALSE);
  if (error == NULL)
    return FALSE;

  message = format_message (fault);
  g_set_error_literal (error, SW_FAULT_ERROR, (int)fault->code, message);
  priv = sw_fault_error_get_private (*error);
  g_return_val_if_fail (priv != NULL, FALSE);
  priv->fault = *fault;
  priv->typed = g_strdup (fault->typed);
  priv->fault.typed = priv->typed;
  return FALSE;
}

gboolean
sw_fault_check_range (
    SwQuantityName quantity, double value, double low, double high, SwUnit unit, GError **error)
{
  SwFault fault = { .quantity = quantity, .value = value, .low = low, .high = high, .unit = unit };

  if (isfinite (value) && value >= low && value <= high)
    return TRUE;

  fault.code = isfinite (value) ? SW_FAULT_RANGE : SW_FAULT_NOT_A_NUMBER;
  return sw_fault_set (error, &fault);
}

const SwFault *
sw_fault_get (const GError *error)
{
  const SwFaultErrorPrivate *priv;

  if (error == NULL || error->domain != SW_FAULT_ERROR)
    return NULL;
  priv = sw_fault_error_get_private (error);
  return priv != NULL ? &priv->fault : NULL;
}

const char *
sw_quantity_name (SwQuantityName quantity)
{
  g_return_val_if_fail ((int)quantity >= 0 && quantity < SW_N_QUANTITIES, "none");
  return quantity_names[quantity];
}
