/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bad number in words: which one, what is wrong with it, and what would be allowed.
 *
 * Two sentences: the head says what is wrong, the tail what is allowed, where that is known. */
#include "wording/sentence-private.h"

#define DIGITS 6

/* "Drop volume", or "Uncertainty of drop volume". */
static char *
name_fault (const SwWording *wording, const SwFault *fault)
{
  const char *name = sw_say_quantity (wording, fault->quantity);
  g_autofree char *of = NULL;

  if (fault->of == SW_QUANTITY_NONE)
    return sw_say_capital (wording, name);
  /* Translators: 1 "uncertainty" or "degrees of freedom", 2 the quantity it belongs to. */
  of = g_strdup_printf (sw_tr (wording, "%1$s of %2$s"), name,
                        sw_say_quantity (wording, fault->of));
  return sw_say_capital (wording, of);
}

/* The number with its unit, a date as such; what was typed where there is no number. */
static char *
show_given (const SwWording *wording, const SwFault *fault)
{
  if (!isnan (fault->value) && fault->quantity == SW_QUANTITY_DATE)
    return sw_date_format (wording, (gint64)fault->value);
  if (!isnan (fault->value))
    return sw_amount_format (wording, fault->value, fault->unit, DIGITS);
  return g_strdup (fault->typed != NULL ? fault->typed : "");
}

static char *
say_allowed (const SwWording *wording, const SwFault *fault)
{
  g_autofree char *low = sw_amount_format (wording, fault->low, fault->unit, DIGITS);
  g_autofree char *high = sw_amount_format (wording, fault->high, fault->unit, DIGITS);
  g_autofree char *plain = sw_number_format (wording, fault->low, DIGITS);

  if (!isfinite (fault->low) && !isfinite (fault->high))
    return g_strdup ("");
  if (!isfinite (fault->high))
    /* Translators: %s is the smallest value, with its unit. */
    return g_strdup_printf (sw_tr (wording, "Allowed: %s or more."), low);
  if (!isfinite (fault->low))
    /* Translators: %s is the largest value, with its unit. */
    return g_strdup_printf (sw_tr (wording, "Allowed: %s or less."), high);
  /* Translators: 1 the smallest value (a number), 2 the largest value, with its unit. */
  return g_strdup_printf (sw_tr (wording, "Allowed: %1$s to %2$s."), plain, high);
}

static char *
say_not_a_number (const SwWording *wording, const char *name, const char *given, gboolean date)
{
  if (date)
    /* Translators: 1 the field, 2 what was typed. The form of the date stays as it is. */
    return g_strdup_printf (
        sw_tr (wording, "%1$s: “%2$s” cannot be read. Type a date like 2026-05-24."), name, given);
  if (*given == '\0')
    /* Translators: %s is the field. */
    return g_strdup_printf (sw_tr (wording, "%s: this is not a number."), name);
  /* Translators: 1 the field, 2 what was typed. */
  return g_strdup_printf (sw_tr (wording, "%1$s: “%2$s” is not a number."), name, given);
}

static char *
say_range (const SwWording *wording, const SwFault *fault, const char *name, const char *given)
{
  if (fault->quantity == SW_QUANTITY_DATE && fault->value > fault->high)
    /* Translators: 1 the field, 2 the date that was given. */
    return g_strdup_printf (sw_tr (wording, "%1$s: %2$s is too late."), name, given);
  if (fault->quantity == SW_QUANTITY_DATE)
    /* Translators: 1 the field, 2 the date that was given. */
    return g_strdup_printf (sw_tr (wording, "%1$s: %2$s is too early."), name, given);
  if (fault->quantity == SW_QUANTITY_SECRET)
    /* Translators: 1 the field (a secret), 2 how many characters it has. */
    return g_strdup_printf (sw_tr (wording, "%1$s: a length of %2$s characters is not possible."),
                            name, given);
  if (fault->value > fault->high)
    /* Translators: 1 the field, 2 the value with its unit. */
    return g_strdup_printf (sw_tr (wording, "%1$s: %2$s is too much."), name, given);
  if (fault->value < fault->low)
    /* Translators: 1 the field, 2 the value with its unit. */
    return g_strdup_printf (sw_tr (wording, "%1$s: %2$s is too little."), name, given);
  /* Translators: 1 the field, 2 the value with its unit. */
  return g_strdup_printf (sw_tr (wording, "%1$s: %2$s is not possible."), name, given);
}

static char *
say_unit (const SwWording *wording, const SwFault *fault, const char *name, const char *given)
{
  const char *symbol = sw_unit_get_symbol (fault->unit);

  if (*symbol == '\0' || fault->unit == SW_UNIT_STEP)
    /* Translators: 1 the field, 2 what was typed. */
    return g_strdup_printf (sw_tr (wording, "%1$s: “%2$s” has a unit that does not belong here."),
                            name, given);
  /* Translators: 1 the field, 2 what was typed, 3 a unit such as "mL". */
  return g_strdup_printf (sw_tr (wording, "%1$s: “%2$s” needs a unit that fits, such as %3$s."),
                          name, given, symbol);
}

static char *
say_ambiguous (const SwWording *wording, const SwFault *fault, const char *name)
{
  g_autofree char *low = sw_amount_format (wording, fault->low, fault->unit, DIGITS);
  g_autofree char *high = sw_amount_format (wording, fault->value, fault->unit, DIGITS);

  /* Translators: 1 the field, 2 what was typed ("1.234"), 3 the smaller reading, 4 the larger. */
  return g_strdup_printf (sw_tr (wording, "%1$s: “%2$s” may mean %3$s or %4$s. For the first, type "
                                          "one more zero at the end; for the second, leave out "
                                          "the mark."),
                          name, fault->typed != NULL ? fault->typed : "", low, high);
}

static char *
say_combination (const SwWording *wording, const SwFault *fault, const char *name)
{
  if (fault->quantity == SW_QUANTITY_BLANK)
    return g_strdup (
        sw_tr (wording, "A blank cannot be used together with a caustic addition, nor with an acid "
                        "titrant."));
  if (fault->quantity == SW_QUANTITY_CAUSTIC)
    return g_strdup (
        sw_tr (wording, "A caustic addition cannot be used together with an acid titrant."));
  /* Translators: %s is the field. */
  return g_strdup_printf (sw_tr (wording, "%s: this excludes another value that is set."), name);
}

/* Empty or too long by its range; any other text is one that the file has already, or that names
 * nothing it knows. */
static char *
say_text (const SwWording *wording, const SwFault *fault, const char *name)
{
  glong length = fault->typed != NULL ? g_utf8_strlen (fault->typed, -1) : 0;

  if (length == 0)
    /* Translators: %s is the field. */
    return g_strdup_printf (sw_tr (wording, "%s: the text is empty, too long, or already in use."),
                            name);
  if ((double)length > fault->high && isfinite (fault->high) && fault->high > 0.0)
    /* Translators: 1 the field, 2 the largest number of letters. */
    return g_strdup_printf (sw_tr (wording, "%1$s: the text is too long. Allowed: %2$.0f letters."),
                            name, fault->high);
  /* Translators: 1 the field, 2 what was typed. */
  return g_strdup_printf (sw_tr (wording, "%1$s: “%2$s” is in use already, or is not known."), name,
                          fault->typed);
}

static char *
say_head (const SwWording *wording, const SwFault *fault, const char *name, const char *given)
{
  switch (fault->code)
    {
    case SW_FAULT_MISSING:
      /* Translators: %s is the field. */
      return g_strdup_printf (sw_tr (wording, "%s: nothing is entered."), name);
    case SW_FAULT_NOT_A_NUMBER:
      return say_not_a_number (wording, name, given, fault->quantity == SW_QUANTITY_DATE);
    case SW_FAULT_RANGE:
      return say_range (wording, fault, name, given);
    case SW_FAULT_UNIT:
      return say_unit (wording, fault, name, given);
    case SW_FAULT_AMBIGUOUS:
      return say_ambiguous (wording, fault, name);
    case SW_FAULT_DECIMAL_COMMA:
      /* Translators: 1 the field, 2 what was typed. */
      return g_strdup_printf (sw_tr (wording, "%1$s: “%2$s” has a comma. Use a point."), name,
                              given);
    case SW_FAULT_ORDER:
      if (*given == '\0')
        /* Translators: %s is the field. */
        return g_strdup_printf (sw_tr (wording, "%s: this does not fit the order of the values."),
                                name);
      /* Translators: 1 the field, 2 the value with its unit. */
      return g_strdup_printf (sw_tr (wording, "%1$s: %2$s does not fit the order of the values."),
                              name, given);
    case SW_FAULT_COMBINATION:
      return say_combination (wording, fault, name);
    case SW_FAULT_COARSE:
      /* Translators: 1 the field (the marks of the jug), 2 their distance. */
      return g_strdup_printf (
          sw_tr (wording, "%1$s: %2$s is too coarse for this dose. Use a smaller measure."), name,
          given);
    case SW_FAULT_TEXT:
      return say_text (wording, fault, name);
    default:
      g_return_val_if_reached (g_strdup (name));
    }
}

/* Whether low and high are the allowed range: an ambiguous number keeps its readings there, and a
 * value that is equal to an end but must lie beyond it would be allowed by its own sentence. */
static gboolean
has_allowed (const SwFault *fault)
{
  if (fault->code == SW_FAULT_ORDER && fault->value >= fault->low && fault->value <= fault->high)
    return FALSE;
  return fault->code != SW_FAULT_AMBIGUOUS && fault->code != SW_FAULT_COMBINATION
         && fault->code != SW_FAULT_TEXT && fault->code != SW_FAULT_UNIT
         && fault->code != SW_FAULT_DECIMAL_COMMA && fault->quantity != SW_QUANTITY_DATE;
}

char *
sw_say_fault (const SwWording *wording, const SwFault *fault)
{
  g_autofree char *name = NULL;
  g_autofree char *given = NULL;
  g_autofree char *head = NULL;
  g_autofree char *tail = NULL;

  g_return_val_if_fail (wording != NULL && fault != NULL, g_strdup (""));
  name = name_fault (wording, fault);
  given = show_given (wording, fault);
  head = say_head (wording, fault, name, given);
  tail = has_allowed (fault) ? say_allowed (wording, fault) : g_strdup ("");
  return sw_say_both (wording, head, tail);
}
