/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The characters of a typed number, written as the C locale writes it (2.12).
 *
 *   text    = blank [sign] body [exponent] blank [unit] blank
 *   body    = digits, points, commas, and single blanks between digits
 *
 * The body is first written in plain ASCII (other scripts' digits and marks included), then split
 * into whole and fraction by these rules; the first that fits wins:
 * 1. no mark: blanks must stand between groups of three;
 * 2. both marks: the one that comes last is decimal and stands once, the other one groups;
 * 3. one kind, several times: it groups;
 * 4. one mark once, with blanks before it: decimal;
 * 5. one mark once, one to three digits before it (no leading zero), exactly three behind it and no
 *    exponent: ambiguous; else decimal.
 *
 * Invariant: nothing is clamped, dropped or guessed; what fits no rule is no number.
 */
#include "wording/number-scan.h"

#include <string.h>

/* The Arabic decimal separator in the plain body: never a group mark. */
#define SURE_MARK ':'

typedef struct
{
  GString *body;    /* Owned: plain ASCII, without sign */
  char *exponent;   /* Owned: "e-3", or NULL */
  const char *unit; /* Borrowed from the text: where the unit starts */
  gboolean negative;
} Scan;

static void
clear_scan (Scan *scan)
{
  if (scan->body != NULL)
    g_string_free (scan->body, TRUE);
  g_free (scan->exponent);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Scan, clear_scan)

static gboolean
is_blank (gunichar c)
{
  return c == 0x00A0 || c == 0x202F || c == 0x2007 || c == 0x2009 || c == ' ' || c == '\t';
}

/* The plain ASCII form of a character of a number's body, or 0. */
static char
to_plain (gunichar c)
{
  if ((c >= 0x0660 && c <= 0x0669) || (c >= 0x06F0 && c <= 0x06F9))
    return (char)('0' + (c & 0xF));
  if (c >= 0xFF10 && c <= 0xFF19)
    return (char)('0' + (c - 0xFF10));
  if (c >= '0' && c <= '9')
    return (char)c;
  if (c == '.' || c == 0xFF0E)
    return '.';
  if (c == ',' || c == 0xFF0C || c == 0x060C)
    return ',';
  if (c == 0x066B)
    return SURE_MARK;
  if (c == 0x066C || is_blank (c))
    return ' ';
  return '\0';
}

static const char *
skip_blanks (const char *at)
{
  while (is_blank (g_utf8_get_char (at)) || *at == '\n' || *at == '\r')
    at = g_utf8_next_char (at);
  return at;
}

static gboolean
starts_digit (const char *at)
{
  return g_ascii_isdigit (to_plain (g_utf8_get_char (at)));
}

static const char *
scan_sign (Scan *scan, const char *at)
{
  gunichar c = g_utf8_get_char (at);

  if (c != '-' && c != '+' && c != 0x2212)
    return at;
  scan->negative = c != '+';
  return skip_blanks (g_utf8_next_char (at));
}

/* A blank belongs to the body only where a digit follows: "50 mL". */
static const char *
scan_body (Scan *scan, const char *at)
{
  char c;

  while ((c = to_plain (g_utf8_get_char (at))) != '\0')
    {
      const char *next = g_utf8_next_char (at);

      if (c == ' ' && !starts_digit (next))
        break;
      g_string_append_c (scan->body, c);
      at = next;
    }
  return at;
}

static const char *
scan_exponent (Scan *scan, const char *at)
{
  const char *end = at + 1;

  if (*at != 'e' && *at != 'E')
    return at;
  if (*end == '+' || *end == '-')
    end++;
  if (!g_ascii_isdigit (*end))
    return at;
  while (g_ascii_isdigit (*end))
    end++;
  scan->exponent = g_strndup (at, (gsize)(end - at));
  return end;
}

/* FALSE when the text has no body at all. */
static gboolean
scan_text (const char *text, Scan *scan)
{
  const char *at = skip_blanks (text);

  scan->body = g_string_new (NULL);
  at = scan_sign (scan, at);
  at = scan_body (scan, at);
  at = scan_exponent (scan, at);
  scan->unit = skip_blanks (at);
  return scan->body->len > 0;
}

/* ---- splitting the body ---- */

/* Copies @n characters of @text to @digits when they are one to three digits and then groups of
 * three behind @mark ('\0': no mark allowed, any number of digits). */
static gboolean
take_whole (const char *text, gsize n, char mark, GString *digits)
{
  gsize first = mark != '\0' ? n % 4 : n;

  if (n == 0 || mark == SURE_MARK || (mark != '\0' && (first == 0 || n < 5)))
    return FALSE;
  for (gsize i = 0; i < n; i++)
    {
      gboolean mark_here = i >= first && (i - first) % 4 == 0;

      if (mark_here ? text[i] != mark : !g_ascii_isdigit (text[i]))
        return FALSE;
      if (!mark_here)
        g_string_append_c (digits, text[i]);
    }
  return TRUE;
}

static gsize
count_of (const char *text, char c)
{
  gsize n = 0;

  for (; *text != '\0'; text++)
    n += *text == c ? 1 : 0;
  return n;
}

/* The group mark before a decimal mark at @end: a blank, the other mark, or '\0' for none. */
static char
find_group_mark (const char *text, gsize end)
{
  for (gsize i = 0; i < end; i++)
    if (!g_ascii_isdigit (text[i]))
      return text[i];
  return '\0';
}

/* "1 234,5" with its decimal mark at @at: digits of the whole part, a point, the fraction. */
static gboolean
join_decimal (const char *text, gsize at, GString *number)
{
  const char *fraction = text + at + 1;

  if (*fraction == '\0' || strspn (fraction, "0123456789") != strlen (fraction))
    return FALSE;
  if (at == 0)
    g_string_append_c (number, '0');
  else if (!take_whole (text, at, find_group_mark (text, at), number))
    return FALSE;
  g_string_append_c (number, '.');
  g_string_append (number, fraction);
  return TRUE;
}

/* Rule 5: one mark, no blank, and three digits behind it that could be a group. */
static gboolean
may_be_group (const Scan *scan, gsize at)
{
  const char *text = scan->body->str;

  return scan->exponent == NULL && text[at] != SURE_MARK && at >= 1 && at <= 3 && text[0] != '0'
         && find_group_mark (text, at) == '\0' && scan->body->len - at - 1 == 3;
}

/* The position of the decimal mark; the length of the body when there is none. */
static gsize
find_decimal (const char *text)
{
  const char *last = NULL;

  for (const char *c = text; *c != '\0'; c++)
    if (*c == '.' || *c == ',' || *c == SURE_MARK)
      last = c;
  if (last == NULL || count_of (text, *last) > 1)
    return strlen (text);
  return (gsize)(last - text);
}

/* @decimal and @group get the number as the C locale writes it; @group "" unless ambiguous. */
static gboolean
split_body (const Scan *scan, GString *decimal, GString *group)
{
  const char *text = scan->body->str;
  gsize at = find_decimal (text);

  if (at == scan->body->len)
    return take_whole (text, at, find_group_mark (text, at), decimal);
  if (!join_decimal (text, at, decimal))
    return FALSE;
  if (may_be_group (scan, at))
    return take_whole (text, scan->body->len, text[at], group);
  return TRUE;
}

/* ---- public ---- */

static char *
write_number (const Scan *scan, const char *digits)
{
  const char *exponent = scan->exponent != NULL ? scan->exponent : "";

  return *digits != '\0' ? g_strconcat (scan->negative ? "-" : "", digits, exponent, NULL) : NULL;
}

gboolean
sw_number_scan (const char *text, SwNumberText *number)
{
  g_autoptr (GString) decimal = g_string_new (NULL);
  g_autoptr (GString) group = g_string_new (NULL);
  g_auto (Scan) scan = { 0 };

  if (!scan_text (text, &scan) || !split_body (&scan, decimal, group))
    return FALSE;
  number->decimal = write_number (&scan, decimal->str);
  number->grouped = write_number (&scan, group->str);
  number->unit = g_strstrip (g_strdup (scan.unit));
  return TRUE;
}

void
sw_number_text_clear (SwNumberText *number)
{
  g_clear_pointer (&number->decimal, g_free);
  g_clear_pointer (&number->grouped, g_free);
  g_clear_pointer (&number->unit, g_free);
}

/* digits [. digits] [e [sign] digits]; returns what follows, or NULL. */
const char *
sw_number_skip_strict (const char *at)
{
  gsize n;

  at += *at == '-' || *at == '+' ? 1 : 0;
  n = strspn (at, "0123456789");
  if (n == 0)
    return NULL;
  at += n;
  if (*at == '.')
    {
      n = strspn (at + 1, "0123456789");
      if (n == 0)
        return NULL;
      at += n + 1;
    }
  n = strcspn (at, "0123456789");
  if ((*at == 'e' || *at == 'E') && (n == 1 || (n == 2 && strchr ("+-", at[1]) != NULL))
      && g_ascii_isdigit (at[n]))
    at += n + strspn (at + n, "0123456789");
  return at;
}
