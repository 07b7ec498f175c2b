/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes any sheet from its columns, a row at a time and in order, as constant_memory needs it. */
#include "reports/sheet-private.h"

#include <math.h>

#define HEADER_HEIGHT 62.0 /* four lines */
#define LAST_ROW 1048575u  /* of a sheet, counted from 0 */
#define PRINT_SCALE 65     /* per cent: about ten columns on a page */

void
sw_sheet_fill (const SwSheetColumn *column, const SwSheetRow *row, SwSheetValue *value)
{
  gconstpointer record = row->record[column->source];
  gconstpointer member
      = record != NULL ? G_STRUCT_MEMBER_P ((gpointer)record, column->offset) : NULL;

  *value = (SwSheetValue){ 0 };
  if (column->kind == SW_MEMBER_GET)
    {
      column->get (row, value);
      return;
    }
  if (member == NULL) /* the row has no such record: an empty cell */
    return;
  switch (column->kind)
    {
    case SW_MEMBER_TEXT:
      value->kind = SW_VALUE_TEXT;
      value->text = *(char *const *)member;
      break;
    case SW_MEMBER_NUMBER:
      value->kind = SW_VALUE_NUMBER;
      value->number = *(const double *)member;
      break;
    case SW_MEMBER_INTEGER:
      value->kind = SW_VALUE_NUMBER;
      value->number = *(const int *)member;
      break;
    case SW_MEMBER_ID:
      value->kind = *(const gint64 *)member != 0 ? SW_VALUE_NUMBER : SW_VALUE_EMPTY;
      value->number = (double)*(const gint64 *)member;
      break;
    case SW_MEMBER_TIME:
      value->kind = *(const gint64 *)member != 0 ? SW_VALUE_TIME : SW_VALUE_EMPTY;
      value->integer = *(const gint64 *)member;
      break;
    case SW_MEMBER_BOOLEAN:
      value->kind = SW_VALUE_BOOLEAN;
      value->integer = *(const gboolean *)member;
      break;
    case SW_MEMBER_NAME:
      value->kind = SW_VALUE_TEXT;
      value->text = sw_sheet_name (row->context, column->table, *(const gint64 *)member);
      break;
    case SW_MEMBER_GET:
      break;
    }
}

/* Records that rows share (the sample of many readings) are kept from row to row. */
static gboolean
load_source (const SwSheetSource *source, SwSheetRow *row, guint i, gint64 id, GError **error)
{
  const SwRecord *present = row->record[i];

  if (present != NULL && present->id == id && i > 0)
    return TRUE;
  g_clear_pointer (&row->record[i], source->free);
  row->record[i] = source->load (row->context->store, id, error);
  return row->record[i] != NULL;
}

static gboolean
load_row (const SwSheet *sheet, SwSheetRow *row, gint64 id, GError **error)
{
  if (!load_source (&sheet->sources[0], row, 0, id, error))
    return FALSE;
  for (guint i = 1; i < SW_SHEET_SOURCES && sheet->sources[i].load != NULL; i++)
    {
      const SwSheetSource *source = &sheet->sources[i];
      const gint64 linked = G_STRUCT_MEMBER (gint64, row->record[i - 1], source->link);

      if (!load_source (source, row, i, linked, error))
        return FALSE;
    }
  return TRUE;
}

static void
clear_row (const SwSheet *sheet, SwSheetRow *row)
{
  for (guint i = 0; i < SW_SHEET_SOURCES; i++)
    if (row->record[i] != NULL)
      sheet->sources[i].free (row->record[i]);
}

static void
write_header (const SwSheet *sheet, const SwSheetContext *context, lxw_worksheet *worksheet)
{
  for (guint i = 0; i < sheet->n_columns; i++)
    {
      const SwSheetColumn *column = &sheet->columns[i];
      const char *title = sw_trc (context->wording, "column", column->title);
      const char *unit = sw_unit_get_symbol (column->unit);
      g_autofree char *text = NULL;

      if (column->unit == SW_UNIT_STEP || unit[0] == '\0')
        text = g_strdup (title);
      else
        /* Translators: title of a column: 1 what it holds, 2 the unit's symbol. */
        text = g_strdup_printf (sw_trc (context->wording, "column", "%1$s, %2$s"), title, unit);
      worksheet_set_column (worksheet, (lxw_col_t)i, (lxw_col_t)i, column->width, NULL);
      worksheet_write_string (worksheet, 0, (lxw_col_t)i, text, context->header);
    }
}

/* What of a translation a sheet can bear: its name has 31 characters, and some it may not have.
 * (transfer full) */
static char *
make_name (const char *translated)
{
  const glong n = MIN (g_utf8_strlen (translated, -1), 31);
  char *name = g_utf8_substring (translated, 0, n);

  return g_strstrip (g_strdelimit (name, "[]:*?/\\'", ' '));
}

lxw_worksheet *
sw_sheet_add (lxw_workbook *workbook, const SwSheetContext *context, const char *name)
{
  g_autofree char *translated = make_name (sw_trc (context->wording, "sheet", name));
  /* two sheets with one name: a bad translation must not cost the export */
  const gboolean fits = workbook_validate_sheet_name (workbook, translated) == LXW_NO_ERROR;
  lxw_worksheet *worksheet = workbook_add_worksheet (workbook, fits ? translated : name);

  if (sw_wording_is_right_to_left (context->wording))
    worksheet_right_to_left (worksheet);
  worksheet_set_landscape (worksheet);
  worksheet_set_paper (worksheet,
                       sw_wording_get_paper (context->wording) == SW_PAPER_LETTER ? 1 : 9);
  worksheet_set_margins (worksheet, 0.5, 0.5, 0.7, 0.7);
  return worksheet;
}

static void
set_up_page (const SwSheet *sheet, lxw_worksheet *worksheet, guint n_rows)
{
  worksheet_freeze_panes (worksheet, 1, (lxw_col_t)sheet->frozen);
  worksheet_repeat_rows (worksheet, 0, 0);
  worksheet_repeat_columns (worksheet, 0, (lxw_col_t)(sheet->frozen - 1));
  worksheet_autofilter (worksheet, 0, 0, n_rows, (lxw_col_t)(sheet->n_columns - 1));
  worksheet_set_print_scale (worksheet, PRINT_SCALE);
  worksheet_print_across (worksheet);
  worksheet_gridlines (worksheet, LXW_SHOW_ALL_GRIDLINES);
}

static gboolean
write_row (
    const SwSheet *sheet, lxw_worksheet *worksheet, SwSheetRow *row, gint64 id, GError **error)
{
  SwSheetContext *context = row->context;

  if (!load_row (sheet, row, id, error))
    return FALSE;
  for (guint i = 0; i < sheet->n_columns; i++)
    {
      SwSheetValue value;

      sw_sheet_fill (&sheet->columns[i], row, &value);
      sw_sheet_cell_write (worksheet, row->row, (lxw_col_t)i, context, &value);
      g_free (value.owned);
    }
  if (context->error == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&context->error));
  return FALSE;
}

gboolean
sw_sheet_write (const SwSheet *sheet,
                SwSheetContext *context,
                lxw_workbook *workbook,
                guint *n_rows,
                GError **error)
{
  g_autoptr (GArray) ids
      = sw_export_ids (context->store, sheet->sources[0].table, &context->filter, error);
  SwSheetRow row = { .context = context };
  lxw_worksheet *worksheet;
  gboolean good = TRUE;

  if (ids == NULL)
    return FALSE;
  if (ids->len > LAST_ROW)
    {
      g_set_error_literal (error, SW_REPORT_ERROR, SW_REPORT_ERROR_TOO_MANY_ROWS, sheet->name);
      return FALSE;
    }
  worksheet = sw_sheet_add (workbook, context, sheet->name);
  set_up_page (sheet, worksheet, ids->len);
  worksheet_set_row (worksheet, 0, HEADER_HEIGHT, NULL);
  write_header (sheet, context, worksheet);
  for (guint i = 0; good && i < ids->len; i++)
    {
      row.row = i + 1;
      good = write_row (sheet, worksheet, &row, g_array_index (ids, gint64, i), error);
    }
  clear_row (sheet, &row);
  *n_rows = ids->len;
  return good;
}
