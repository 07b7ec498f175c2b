/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Journal entries, read and written. The input is read as an entry; and, split at its 0xff bytes,
 * it is what a person typed: reason, workstation, old and new value of a column.
 *
 * Invariants: whatever the entry, each column comes once, in order, with a value before or after;
 * an entry that the journal wrote gives exactly the columns that were written, each value can be
 * had back from its line, and no text can pass for a line of its own. */
#include "fuzz.h"

#include "records/cell-private.h"
#include "records/journal-private.h"
#include "records/story-private.h"

#include <string.h>

#define N_PARTS 4

static void
check_any (const char *entry)
{
  g_autoptr (GPtrArray) changes = sw_story_read_entry (entry);

  for (guint i = 0; i < changes->len; i++)
    {
      const SwChange *change = changes->pdata[i];
      const SwChange *before = i > 0 ? changes->pdata[i - 1] : NULL;

      g_assert_true (change->before != NULL || change->after != NULL);
      g_assert_true (before == NULL || strcmp (before->column, change->column) < 0);
      g_assert_null (strchr (change->column, '\n'));
      g_assert_null (strchr (change->column, '='));
    }
}

/* Undoes the escapes that docs/file-format.md lists, and no others. (transfer full) */
static GByteArray *
unescape (const char *line)
{
  GByteArray *bytes = g_byte_array_new ();

  while (*line != '\0')
    {
      guint8 byte = (guint8)*line++;

      if (byte == '\\' && *line == '\\')
        line++;
      else if (byte == '\\' && *line == 'n')
        {
          byte = '\n';
          line++;
        }
      else if (byte == '\\')
        {
          g_assert_true (line[0] == 'x' && g_ascii_isxdigit (line[1])
                         && g_ascii_isxdigit (line[2]));
          byte = (guint8)(g_ascii_xdigit_value (line[1]) * 16 + g_ascii_xdigit_value (line[2]));
          line += 3;
        }
      g_byte_array_append (bytes, &byte, 1);
    }
  return bytes;
}

/* Part @i of the input, which may hold NUL bytes as a foreign tool's text may. */
static SwCell
get_part (const uint8_t *data, size_t size, int i)
{
  const uint8_t *end = data + size;
  const uint8_t *start = data;
  const uint8_t *mark;

  while ((mark = memchr (start, 0xff, (gsize)(end - start))) != NULL && i-- > 0)
    start = mark + 1;
  if (i > 0)
    return SW_CELL_EMPTY;
  return (SwCell){ .kind = SW_CELL_TEXT,
                   .text = (const char *)start,
                   .length = (gsize)((mark != NULL ? mark : end) - start) };
}

static void
add_line (GString *entry, const char *start, const SwCell *cell)
{
  g_autofree char *text = sw_cell_to_text (cell, SW_COLUMN_TEXT);

  if (text != NULL)
    g_string_append_printf (entry, "\n%s=%s", start, text);
}

static void
check_value (const char *found, const SwCell *cell)
{
  g_autoptr (GByteArray) bytes = NULL;

  g_assert_true ((found != NULL) == (cell->kind == SW_CELL_TEXT));
  if (found == NULL)
    return;
  bytes = unescape (found);
  g_assert_cmpmem (bytes->data, bytes->len, cell->text, cell->length);
}

static void
check_written (const SwCell parts[N_PARTS])
{
  g_autofree char *reason
      = parts[0].kind == SW_CELL_TEXT ? g_strndup (parts[0].text, parts[0].length) : NULL;
  g_autofree char *workstation
      = parts[1].kind == SW_CELL_TEXT ? g_strndup (parts[1].text, parts[1].length) : NULL;
  const SwJournalRow row = { .seq = 2,
                             .act = 2,
                             .kind = "amend",
                             .identified_by = "secret",
                             .workstation = workstation,
                             .version = "0",
                             .reason = reason,
                             .action = "update",
                             .table = "sample",
                             .row = 1,
                             .prior_seq = 1 };
  g_autoptr (GString) entry = sw_journal_header (&row, "0");
  g_autoptr (GPtrArray) changes = NULL;
  const SwChange *change;

  add_line (entry, "new.remarks", &parts[2]);
  add_line (entry, "old.remarks", &parts[3]);
  changes = sw_story_read_entry (entry->str);
  if (parts[2].kind != SW_CELL_TEXT && parts[3].kind != SW_CELL_TEXT)
    {
      g_assert_cmpuint (changes->len, ==, 0);
      return;
    }
  g_assert_cmpuint (changes->len, ==, 1);
  change = changes->pdata[0];
  g_assert_cmpstr (change->column, ==, "remarks");
  check_value (change->after, &parts[2]);
  check_value (change->before, &parts[3]);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *text = fuzz_text (data, size);
  SwCell parts[N_PARTS];

  for (int i = 0; i < N_PARTS; i++)
    parts[i] = get_part (data, size, i);
  check_any (text);
  check_written (parts);
  return 0;
}
