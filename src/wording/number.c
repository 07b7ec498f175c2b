/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers and amounts as text for a reader.
 *
 * Digits come from one correctly rounded "%.*e" in the C locale; the decimal point is then placed
 * in the string, so that nothing is rounded twice. Numbers that a person could not read as plain
 * digits keep the exponent: 1.5e-12.
 */
#include "wording/number.h"

#include <stdlib.h>
#include <string.h>

#define NARROW_SPACE "\342\200\257" /* U+202F: between number and unit, and between groups */
#define MINUS "\342\210\222"        /* U+2212 */
#define INFINITE "\342\210\236"     /* U+221E */
#define NOTHING "\342\200\224"      /* U+2014: no number */
#define MOST_DIGITS 17              /* more than that is noise in a double */
#define FIRST_GROUPED 5             /* four digits stay together: 1260, 12 600 */
#define LARGEST_EXPONENT 14
#define SMALLEST_EXPONENT -9

/* How symbols are printed where paper and screen have a better sign than a keyboard. */
static const struct
{
  SwUnit unit;
  const char *symbol;
} printed_symbols[] = {
  { SW_UNIT_MICROLITRE, "\302\265L" },
  { SW_UNIT_M3, "m\302\263" },
  { SW_UNIT_KG_PER_M3, "kg/m\302\263" },
  { SW_UNIT_CELSIUS, "\302\260C" },
  { SW_UNIT_FAHRENHEIT, "\302\260F" },
  { SW_UNIT_US_GALLON, "US\302\240gal" },
  { SW_UNIT_US_FLUID_OUNCE, "US\302\240fl\302\240oz" },
  { SW_UNIT_IMPERIAL_GALLON, "imp\302\240gal" },
};

static const char *
get_printed_symbol (SwUnit unit)
{
  for (gsize i = 0; i < G_N_ELEMENTS (printed_symbols); i++)
    if (printed_symbols[i].unit == unit)
      return printed_symbols[i].symbol;
  return sw_unit_get_symbol (unit);
}

/* The significant digits of |value| without trailing zeros, and the power of ten of the first. */
static void
take_digits (double value, int digits, char *text, gsize size, int *exponent)
{
  char format[16];
  char *e;
  gsize n = 0;

  g_snprintf (format, sizeof format, "%%.%de", digits - 1);
  g_ascii_formatd (text, (int)size, format, fabs (value));
  e = strchr (text, 'e');
  *exponent = atoi (e + 1);
  for (char *c = text; c < e; c++)
    if (*c != '.')
      text[n++] = *c;
  while (n > 1 && text[n - 1] == '0')
    n--;
  text[n] = '\0';
}

/* The whole part with group marks, zeros where the digits end before the point does. */
static void
append_whole (GString *out, const char *digits, int exponent)
{
  int n = exponent + 1;
  int have = (int)strlen (digits);

  if (n <= 0)
    g_string_append_c (out, '0');
  for (int i = 0; i < n; i++)
    {
      if (i > 0 && n >= FIRST_GROUPED && (n - i) % 3 == 0)
        g_string_append (out, NARROW_SPACE);
      g_string_append_c (out, i < have ? digits[i] : '0');
    }
}

static void
append_fraction (GString *out, const char *digits, int exponent, const char *mark)
{
  int have = (int)strlen (digits);
  int first = MAX (exponent + 1, 0);

  if (have <= exponent + 1)
    return;
  g_string_append (out, mark);
  for (int i = exponent + 1; i < 0; i++)
    g_string_append_c (out, '0');
  g_string_append (out, digits + first);
}

static void
append_exponential (GString *out, const char *digits, int exponent, const char *mark)
{
  append_whole (out, digits, 0);
  append_fraction (out, digits, 0, mark);
  g_string_append_printf (out, "e%d", exponent);
}

char *
sw_number_format (const SwWording *wording, double value, int digits)
{
  char text[64];
  int exponent = 0;
  GString *out;
  const char *mark = sw_wording_get_decimal_mark (wording);

  if (isnan (value))
    return g_strdup (NOTHING);
  if (isinf (value))
    return g_strdup (value > 0 ? INFINITE : MINUS INFINITE);

  take_digits (value, CLAMP (digits, 1, MOST_DIGITS), text, sizeof text, &exponent);
  out = g_string_new (value < 0.0 ? MINUS : "");
  if (exponent > LARGEST_EXPONENT || exponent < SMALLEST_EXPONENT)
    append_exponential (out, text, exponent, mark);
  else
    {
      append_whole (out, text, exponent);
      append_fraction (out, text, exponent, mark);
    }
  return g_string_free (out, FALSE);
}

/* The number that chooses a plural form: a fraction takes the form of "two". */
static gulong
count_for_plural (double value)
{
  double size = fabs (value);

  return size == floor (size) && size < 1e9 ? (gulong)size : 2;
}

char *
sw_amount_format (const SwWording *wording, double value, SwUnit unit, int digits)
{
  g_autofree char *number = sw_number_format (wording, value, digits);
  const char *symbol = get_printed_symbol (unit);

  if (unit == SW_UNIT_STEP)
    /* Translators: steps of a titration, drops or increments of a burette; %s is the number. */
    return g_strdup_printf (sw_trn (wording, "%s step", "%s steps", count_for_plural (value)),
                            number);
  if (*symbol == '\0')
    return g_steal_pointer (&number);
  return g_strconcat (number, NARROW_SPACE, symbol, NULL);
}

/* Jugs are marked to 0.01 mL at best: no digit beyond, and four in all. */
char *
sw_volume_format (const SwWording *wording, double ml)
{
  double shown = isfinite (ml) && fabs (ml) < 1e12 ? round (ml * 100.0) / 100.0 : ml;

  /* 9,999.6 mL would round to 10,000 mL. */
  if (fabs (shown) < 9999.5 || !isfinite (shown))
    return sw_amount_format (wording, shown, SW_UNIT_ML, 4);
  return sw_amount_format (wording, sw_unit_convert (shown, SW_UNIT_ML, SW_UNIT_LITRE),
                           SW_UNIT_LITRE, 4);
}

char *
sw_step_count_format (const SwWording *wording, double steps, gboolean burette)
{
  g_autofree char *number = sw_number_format (wording, steps, 4);

  if (burette)
    return g_strconcat (number, NARROW_SPACE, get_printed_symbol (SW_UNIT_ML), NULL);
  /* Translators: a count of drops; %s is the number. */
  return g_strdup_printf (sw_trn (wording, "%s drop", "%s drops", count_for_plural (steps)),
                          number);
}

/* An interval with one end open. */
static char *
format_open (const SwWording *wording, double low, double high, gboolean burette)
{
  double end = isfinite (high) ? high : low;
  g_autofree char *count = sw_step_count_format (wording, fabs (end), burette);

  if (isfinite (high) && high > 0.0)
    /* Translators: an amount of acid; %s is "1 drop" or "0.5 mL". */
    return g_strdup_printf (sw_tr (wording, "up to %s"), count);
  if (isfinite (high) && high < 0.0)
    /* Translators: an alkaline reserve; %s is "4 drops". */
    return g_strdup_printf (sw_tr (wording, "reserve of %s or more"), count);
  if (isfinite (high))
    return g_strdup (sw_tr (wording, "no acid"));
  if (low > 0.0)
    /* Translators: an amount of acid; %s is "20 drops". */
    return g_strdup_printf (sw_tr (wording, "more than %s"), count);
  /* Nothing is known but that there is no reserve (low = 0), or not more than so much. */
  if (low < 0.0)
    /* Translators: an alkaline reserve; %s is "4 drops". */
    return g_strdup_printf (sw_tr (wording, "reserve of %s or less"), count);
  return g_strdup (sw_tr (wording, "no reserve"));
}

char *
sw_steps_format (const SwWording *wording, double low, double high, gboolean burette)
{
  gboolean reserve = high <= 0.0;
  g_autofree char *from = NULL;
  g_autofree char *to = NULL;

  if (isnan (low) || isnan (high) || (isinf (low) && isinf (high)))
    return g_strdup (sw_tr (wording, "not known"));
  if (isinf (low) || isinf (high))
    return format_open (wording, low, high, burette);

  from = sw_number_format (wording, reserve ? fabs (high) : low, 4);
  to = sw_step_count_format (wording, reserve ? fabs (low) : high, burette);
  if (reserve)
    /* Translators: an alkaline reserve: 1 a number, 2 a count such as "5 drops". */
    return g_strdup_printf (sw_tr (wording, "reserve %1$s to %2$s"), from, to);
  /* Translators: an amount of acid: 1 a number, 2 a count such as "3 drops". */
  return g_strdup_printf (sw_tr (wording, "%1$s to %2$s"), from, to);
}
