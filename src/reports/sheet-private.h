/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet is a table of columns; one writer draws them all.
 *
 * To add a sheet: a file with its columns and an SwSheet, and one line in workbook.c. To add a
 * column: one line. Cells that only copy a member need no function; a getter makes the rest.
 */
#pragma once

#include <xlsxwriter.h>

#include "records/test.h"
#include "reports/workbook.h"

G_BEGIN_DECLS

/* Records that make up one row; which is which stands in each sheet's file. */
#define SW_SHEET_SOURCES 3

typedef enum
{
  SW_VALUE_EMPTY,
  SW_VALUE_TEXT,
  SW_VALUE_NUMBER,
  SW_VALUE_TIME, /* UTC milliseconds in integer */
  SW_VALUE_BOOLEAN,
  SW_VALUE_FORMULA /* text, with its result in number */
} SwValueKind;

typedef struct
{
  SwValueKind kind;
  double number;
  gint64 integer;
  const char *text; /* borrowed from record, cache or owned */
  char *owned;      /* Owned, or NULL */
} SwSheetValue;

typedef struct
{
  SwStore *store;           /* Borrowed */
  const SwWording *wording; /* Borrowed */
  SwExportFilter filter;
  GHashTable *names;  /* Owned: "table id" to what the row is called */
  GError *error;      /* Owned: the first thing that could not be read */
  GTimeZone *zone;    /* Borrowed from wording */
  lxw_format *header; /* formats are Owned by the workbook */
  lxw_format *time;
  lxw_format *left;
  lxw_format *literal; /* text that a spreadsheet might take for a formula when it is edited */
  lxw_format *wrapped;
  lxw_format *title;
} SwSheetContext;

typedef struct
{
  SwSheetContext *context;
  gpointer record[SW_SHEET_SOURCES]; /* Owned by the writer */
  lxw_row_t row;                     /* in the sheet, header = 0 */
} SwSheetRow;

typedef enum
{
  SW_MEMBER_TEXT,    /* char * */
  SW_MEMBER_NUMBER,  /* double, NAN and infinities are empty */
  SW_MEMBER_INTEGER, /* int */
  SW_MEMBER_ID,      /* gint64 as a number, 0 is empty */
  SW_MEMBER_TIME,    /* gint64, 0 is empty */
  SW_MEMBER_BOOLEAN,
  SW_MEMBER_NAME, /* gint64: the id of a row of `table`, shown by its name */
  SW_MEMBER_GET   /* by `get` */
} SwMemberKind;

typedef struct
{
  const char *title; /* untranslated */
  SwUnit unit;
  double width; /* characters */
  SwMemberKind kind;
  guint source;
  gsize offset;
  SwTable table;
  void (*get) (const SwSheetRow *row, SwSheetValue *value);
} SwSheetColumn;

typedef struct
{
  SwTable table;
  gpointer (*load) (SwStore *store, gint64 id, GError **error);
  GDestroyNotify free;
  /* of source i > 0: member of source i - 1 that holds the id */
  gsize link;
} SwSheetSource;

typedef struct
{
  const char *name; /* untranslated, shorter than 32 characters */
  const SwSheetColumn *columns;
  guint n_columns;
  SwSheetSource sources[SW_SHEET_SOURCES]; /* sources[0] is the row's own record */
  guint frozen;                            /* columns that stay in view, and on each page */
} SwSheet;

/* For the sheets' files; ROW_n is the type of source n. */
#define SW_TEXT(title_, width_, n_, member)                                                        \
  {                                                                                                \
    .title = (title_), .width = (width_), .kind = SW_MEMBER_TEXT, .source = (n_),                  \
    .offset = G_STRUCT_OFFSET (ROW_##n_, member)                                                   \
  }
#define SW_MEMBER(title_, unit_, kind_, n_, member)                                                \
  {                                                                                                \
    .title = (title_), .unit = (unit_), .width = (kind_) == SW_MEMBER_TIME ? 17.0 : 12.5,          \
    .kind = (kind_), .source = (n_), .offset = G_STRUCT_OFFSET (ROW_##n_, member)                  \
  }
#define SW_NUMBER(title_, unit_, n_, member) SW_MEMBER (title_, unit_, SW_MEMBER_NUMBER, n_, member)
#define SW_INTEGER(title_, n_, member)                                                             \
  SW_MEMBER (title_, SW_UNIT_NONE, SW_MEMBER_INTEGER, n_, member)
#define SW_ID(title_, n_, member) SW_MEMBER (title_, SW_UNIT_NONE, SW_MEMBER_ID, n_, member)
#define SW_TIME(title_, n_, member) SW_MEMBER (title_, SW_UNIT_NONE, SW_MEMBER_TIME, n_, member)
#define SW_BOOLEAN(title_, n_, member)                                                             \
  SW_MEMBER (title_, SW_UNIT_NONE, SW_MEMBER_BOOLEAN, n_, member)
#define SW_NAME(title_, width_, n_, member, table_)                                                \
  {                                                                                                \
    .title = (title_), .width = (width_), .kind = SW_MEMBER_NAME, .source = (n_),                  \
    .offset = G_STRUCT_OFFSET (ROW_##n_, member), .table = (table_)                                \
  }
#define SW_GET(title_, unit_, width_, getter)                                                      \
  {                                                                                                \
    .title = (title_), .unit = (unit_), .width = (width_), .kind = SW_MEMBER_GET, .get = (getter)  \
  }

extern const SwSheet sw_sheet_machines, sw_sheet_tests, sw_sheet_readings, sw_sheet_doses;

/* ---- sheet-writer.c ---- */

/* Writes header and rows; @n_rows how many. */
gboolean sw_sheet_write (const SwSheet *sheet,
                         SwSheetContext *context,
                         lxw_workbook *workbook,
                         guint *n_rows,
                         GError **error);
/* The cell of @column in @row: a copied member, or what its getter makes. The caller frees
 * value->owned. */
void sw_sheet_fill (const SwSheetColumn *column, const SwSheetRow *row, SwSheetValue *value);
/* A sheet of that (untranslated) name, set up for paper. (transfer none) */
lxw_worksheet *
sw_sheet_add (lxw_workbook *workbook, const SwSheetContext *context, const char *name);

/* ---- sheet-cell.c ---- */

void sw_sheet_cell_write (lxw_worksheet *worksheet,
                          lxw_row_t row,
                          lxw_col_t column,
                          const SwSheetContext *context,
                          const SwSheetValue *value);
/* The text as the cell must hold it to be read back unchanged. (transfer full) */
char *sw_sheet_cell_escape (const char *text);
/* A time as spreadsheets count: days since 30 December 1899 in the reader's zone. */
double sw_sheet_cell_serial (gint64 utc_ms, GTimeZone *zone);

/* ---- sheet-names.c ---- */

/* What the row @id of @table is called; "" for 0. An error is kept in context->error. (transfer
 * none) */
const char *sw_sheet_name (SwSheetContext *context, SwTable table, gint64 id);

/* ---- sheet-words.c ---- */

const char *sw_word_purpose (const SwWording *wording, SwPurpose purpose);
const char *sw_word_answer (const SwWording *wording, SwAnswer answer);
const char *sw_word_step (const SwWording *wording, SwStep step);
const char *sw_word_dose_state (const SwWording *wording, SwDoseState state);
const char *sw_word_service (const SwWording *wording, SwServiceState state);

/* ---- provenance.c ---- */

typedef struct
{
  const SwSheet *sheet;
  guint n_rows;
} SwSheetCount;

gboolean sw_provenance_write (SwSheetContext *context,
                              lxw_workbook *workbook,
                              const SwWorkbookRequest *request,
                              const SwSheetCount *counts,
                              guint n_counts,
                              GError **error);

/* ---- output-file.c ---- */

typedef struct
{
  char *path;      /* Owned: where it is to be */
  char *temporary; /* Owned: where it is written */
  gboolean force;
} SwOutputFile;

gboolean sw_output_file_begin (
    SwOutputFile *file, const char *path, const char *not_this, gboolean force, GError **error);
/* Syncs the whole file and gives it its name. */
gboolean sw_output_file_finish (SwOutputFile *file, GError **error);
/* Removes what was not finished. */
void sw_output_file_clear (SwOutputFile *file);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwOutputFile, sw_output_file_clear)

G_END_DECLS
