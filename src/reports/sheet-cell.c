/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One value into one cell, so that it is read back as what it was.
 *
 * Text is always a string cell, never a formula, whatever it starts with; where it starts with a
 * character that a spreadsheet takes for a formula once somebody edits the cell, the cell is marked
 * as literal as well. Characters that XML cannot hold, and text that looks like the format's own
 * escape "_x0041_", are escaped as ECMA-376 (part 1, 22.9.2.19, ST_Xstring) says.
 */
#include "reports/sheet-private.h"

#include <math.h>
#include <string.h>

#define MS_PER_DAY 86400000.0
#define UNIX_EPOCH_SERIAL 25569.0 /* days from 30 December 1899 to 1 January 1970 */
#define LONGEST_TEXT 32000        /* characters; a cell holds 32767 */

double
sw_sheet_cell_serial (gint64 utc_ms, GTimeZone *zone)
{
  const gint64 seconds = utc_ms / 1000 - (utc_ms % 1000 < 0);
  const int interval = g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, seconds);
  const gint64 local_ms = utc_ms + 1000 * (gint64)g_time_zone_get_offset (zone, interval);

  return (double)local_ms / MS_PER_DAY + UNIX_EPOCH_SERIAL;
}

static gboolean
looks_escaped (const char *at)
{
  if (at[0] != '_' || at[1] != 'x')
    return FALSE;
  for (int i = 2; i < 6; i++)
    if (!g_ascii_isxdigit (at[i]))
      return FALSE;
  return at[6] == '_';
}

/* TAB, LF and CR may stand in XML, but a parser turns a bare CR into LF. */
static gboolean
needs_escape (gunichar c)
{
  return (c < 0x20 && c != '\t' && c != '\n') || c == 0xfffe || c == 0xffff;
}

char *
sw_sheet_cell_escape (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *out = g_string_sized_new (strlen (valid));
  glong n = 0;

  for (const char *at = valid; *at != '\0' && n < LONGEST_TEXT; at = g_utf8_next_char (at), n++)
    {
      const gunichar c = g_utf8_get_char (at);

      if (looks_escaped (at))
        g_string_append (out, "_x005F_");
      else if (needs_escape (c))
        g_string_append_printf (out, "_x%04X_", c);
      else
        g_string_append_unichar (out, c);
    }
  if (n == LONGEST_TEXT)
    g_string_append (out, "\u2026");
  return g_string_free (out, FALSE);
}

static void
write_text (lxw_worksheet *worksheet,
            lxw_row_t row,
            lxw_col_t column,
            const SwSheetContext *context,
            const char *text)
{
  g_autofree char *escaped = sw_sheet_cell_escape (text);

  worksheet_write_string (worksheet, row, column, escaped,
                          strchr ("=+-@\t\r\n", text[0]) != NULL ? context->literal : NULL);
}

void
sw_sheet_cell_write (lxw_worksheet *worksheet,
                     lxw_row_t row,
                     lxw_col_t column,
                     const SwSheetContext *context,
                     const SwSheetValue *value)
{
  switch (value->kind)
    {
    case SW_VALUE_EMPTY:
      break;
    case SW_VALUE_TEXT:
      if (value->text != NULL && value->text[0] != '\0')
        write_text (worksheet, row, column, context, value->text);
      break;
    case SW_VALUE_NUMBER:
      if (isfinite (value->number))
        worksheet_write_number (worksheet, row, column, value->number, NULL);
      break;
    case SW_VALUE_TIME:
      worksheet_write_number (worksheet, row, column,
                              sw_sheet_cell_serial (value->integer, context->zone), context->time);
      break;
    case SW_VALUE_BOOLEAN:
      worksheet_write_boolean (worksheet, row, column, value->integer != 0, NULL);
      break;
    case SW_VALUE_FORMULA:
      worksheet_write_formula_num (worksheet, row, column, value->text, NULL, value->number);
      break;
    }
}
