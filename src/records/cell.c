/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cells: between a struct's member, a bound parameter, a result column and a journal line.
 *
 * Invariants
 * 1. sw_cell_set (sw_cell_get (x)) gives x back, exactly for every text, id, word and for every
 * real that has at most 15 significant digits in the struct's unit; others within a few units of
 * the last place, and always such that sw_cell_get gives the same cell again.
 * 2. Equal cells have equal journal texts, and the reverse.
 * 3. A real is never -0.0 (SQLite stores it as 0.0, so the journal must say 0).
 */
#include "records/cell-private.h"

#include <math.h>
#include <string.h>

SwCell
sw_cell_integer (gint64 value)
{
  return (SwCell){ .kind = SW_CELL_INTEGER, .integer = value };
}

SwCell
sw_cell_id (gint64 value)
{
  return value == 0 ? SW_CELL_EMPTY : sw_cell_integer (value);
}

SwCell
sw_cell_text (const char *value)
{
  if (value == NULL)
    return SW_CELL_EMPTY;
  return (SwCell){ .kind = SW_CELL_TEXT, .text = value, .length = strlen (value) };
}

/* + 0.0 turns -0.0 into 0.0 (invariant 3). */
static SwCell
make_real (double value, SwUnit unit)
{
  if (isnan (value))
    return SW_CELL_EMPTY;
  return (SwCell){ .kind = SW_CELL_REAL, .real = sw_unit_to_si (value, unit) + 0.0 };
}

SwCell
sw_cell_get (const SwColumn *column, gconstpointer record)
{
  const void *member = (const char *)record + column->offset;

  switch (column->type)
    {
    case SW_COLUMN_TEXT:
    case SW_COLUMN_SECRET:
      return sw_cell_text (*(const char *const *)member);
    case SW_COLUMN_WORD:
      return sw_cell_text (sw_column_word (column, *(const int *)member));
    case SW_COLUMN_ID:
    case SW_COLUMN_TIME:
      return sw_cell_id (*(const gint64 *)member);
    case SW_COLUMN_INTEGER:
      return sw_cell_integer (*(const int *)member);
    case SW_COLUMN_BOOLEAN:
      return sw_cell_integer (*(const gboolean *)member ? 1 : 0);
    case SW_COLUMN_REAL:
      return make_real (*(const double *)member, column->unit);
    default:
      g_return_val_if_reached (SW_CELL_EMPTY);
    }
}

/* The decimal of so many digits, when it would be stored as the same SI value. */
static gboolean
try_decimal (double raw, const char *format, double si, SwUnit unit, double *value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (text, sizeof text, format, raw);
  *value = g_ascii_strtod (text, NULL);
  return sw_unit_to_si (*value, unit) == si;
}

/* A double near @raw that is stored as the same SI value. */
static double
search_near (double raw, double si, SwUnit unit)
{
  double below = raw;
  double above = raw;

  for (int i = 0; i < 4; i++)
    {
      if (sw_unit_to_si (below, unit) == si)
        return below;
      if (sw_unit_to_si (above, unit) == si)
        return above;
      below = nextafter (below, -INFINITY);
      above = nextafter (above, INFINITY);
    }
  return raw;
}

/* The shortest decimal in the struct's unit that would be stored as the same SI value: what was
 * typed comes back as typed, although 1e-6 has no exact double. Else a neighbour that does, so that
 * writing back what was loaded changes nothing. */
static double
real_from_si (double si, SwUnit unit)
{
  static const char *const formats[] = { "%.6g", "%.9g", "%.12g", "%.15g" };
  double raw = sw_unit_from_si (si, unit);
  double value;

  if (unit == SW_UNIT_NONE || !isfinite (raw))
    return unit == SW_UNIT_NONE ? si : raw;
  for (gsize i = 0; i < G_N_ELEMENTS (formats); i++)
    if (try_decimal (raw, formats[i], si, unit, &value))
      return value;
  return search_near (raw, si, unit);
}

/* FALSE for a word that this program does not know: another tool, or a newer version, wrote it. */
static gboolean
set_word (const SwColumn *column, const SwCell *cell, int *member)
{
  if (cell->kind != SW_CELL_TEXT)
    return FALSE;
  for (int i = 0; column->words[i] != NULL; i++)
    if (strcmp (column->words[i], cell->text) == 0)
      {
        *member = i;
        return TRUE;
      }
  return FALSE;
}

static gboolean
set_text (const SwCell *cell, char **member)
{
  if (cell->kind != SW_CELL_TEXT && cell->kind != SW_CELL_NULL)
    return FALSE;
  g_free (*member);
  *member = cell->kind == SW_CELL_TEXT ? g_strndup (cell->text, cell->length) : NULL;
  return TRUE;
}

/* The file holds 64 bits, the struct an int: what does not fit is no value of ours. */
static gboolean
set_int (const SwCell *cell, int *member)
{
  if (cell->kind != SW_CELL_INTEGER || cell->integer < G_MININT || cell->integer > G_MAXINT)
    return FALSE;
  *member = (int)cell->integer;
  return TRUE;
}

static gboolean
set_int64 (const SwCell *cell, gint64 *member)
{
  if (cell->kind != SW_CELL_INTEGER && cell->kind != SW_CELL_NULL)
    return FALSE;
  *member = cell->kind == SW_CELL_INTEGER ? cell->integer : 0;
  return TRUE;
}

static gboolean
set_real (const SwColumn *column, const SwCell *cell, double *member)
{
  if (cell->kind != SW_CELL_REAL && cell->kind != SW_CELL_NULL)
    return FALSE;
  *member = cell->kind == SW_CELL_REAL ? real_from_si (cell->real, column->unit) : NAN;
  return TRUE;
}

gboolean
sw_cell_set (const SwColumn *column, const SwCell *cell, gpointer record)
{
  void *member = (char *)record + column->offset;

  switch (column->type)
    {
    case SW_COLUMN_TEXT:
    case SW_COLUMN_SECRET:
      return set_text (cell, member);
    case SW_COLUMN_WORD:
      return set_word (column, cell, member);
    case SW_COLUMN_ID:
    case SW_COLUMN_TIME:
      return set_int64 (cell, member);
    case SW_COLUMN_INTEGER:
    case SW_COLUMN_BOOLEAN:
      return set_int (cell, member);
    case SW_COLUMN_REAL:
      return set_real (column, cell, member);
    default:
      g_return_val_if_reached (FALSE);
    }
}

gboolean
sw_cell_equal (const SwCell *a, const SwCell *b)
{
  if (a->kind != b->kind)
    return FALSE;
  switch (a->kind)
    {
    case SW_CELL_INTEGER:
      return a->integer == b->integer;
    case SW_CELL_REAL:
      return a->real == b->real;
    case SW_CELL_TEXT:
      return a->length == b->length && memcmp (a->text, b->text, a->length) == 0;
    case SW_CELL_NULL:
    default:
      return TRUE;
    }
}

/* Backslash and newline as the format says; other control characters too, because some shells print
 * them in a changed form and the hash could then not be checked with them. */
static char *
escape_text (const char *text, gsize length)
{
  GString *line = g_string_sized_new (length + 16);

  for (gsize i = 0; i < length; i++)
    {
      unsigned char byte = (unsigned char)text[i];

      if (byte == '\\')
        g_string_append (line, "\\\\");
      else if (byte == '\n')
        g_string_append (line, "\\n");
      else if (byte < 0x20 || byte == 0x7f)
        g_string_append_printf (line, "\\x%02x", byte);
      else
        g_string_append_c (line, (char)byte);
    }
  return g_string_free (line, FALSE);
}

/* A digest of the Argon2id text: shows that a secret was exchanged, and tells nothing about it (the
 * text holds 16 random bytes of salt, so there is nothing to guess). */
static char *
digest_secret (const SwCell *cell)
{
  g_autofree char *digest
      = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *)cell->text, cell->length);

  return g_strconcat ("changed sha256:", digest, NULL);
}

char *
sw_cell_to_text (const SwCell *cell, SwColumnType type)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  switch (cell->kind)
    {
    case SW_CELL_INTEGER:
      return g_strdup_printf ("%" G_GINT64_FORMAT, cell->integer);
    case SW_CELL_REAL:
      return g_strdup (g_ascii_formatd (digits, sizeof digits, "%.17g", cell->real));
    case SW_CELL_TEXT:
      if (type == SW_COLUMN_SECRET)
        return digest_secret (cell);
      return escape_text (cell->text, cell->length);
    case SW_CELL_NULL:
    default:
      return NULL;
    }
}

int
sw_cell_bind (sqlite3_stmt *statement, int index, const SwCell *cell)
{
  switch (cell->kind)
    {
    case SW_CELL_INTEGER:
      return sqlite3_bind_int64 (statement, index, cell->integer);
    case SW_CELL_REAL:
      return sqlite3_bind_double (statement, index, cell->real);
    case SW_CELL_TEXT:
      /* transient: a cached statement lives longer than the struct */
      return sqlite3_bind_text (statement, index, cell->text, (int)cell->length, SQLITE_TRANSIENT);
    case SW_CELL_NULL:
    default:
      return sqlite3_bind_null (statement, index);
    }
}

SwCell
sw_cell_from_column (sqlite3_stmt *statement, int index)
{
  switch (sqlite3_column_type (statement, index))
    {
    case SQLITE_INTEGER:
      return sw_cell_integer (sqlite3_column_int64 (statement, index));
    case SQLITE_FLOAT:
      return (SwCell){ .kind = SW_CELL_REAL, .real = sqlite3_column_double (statement, index) };
    /* A STRICT table holds no blob where text belongs; read as text, it differs from any journal.
     */
    case SQLITE_TEXT:
    case SQLITE_BLOB:
      return (SwCell){ .kind = SW_CELL_TEXT,
                       .text = (const char *)sqlite3_column_text (statement, index),
                       .length = (gsize)sqlite3_column_bytes (statement, index) };
    case SQLITE_NULL:
    default:
      return SW_CELL_EMPTY;
    }
}
