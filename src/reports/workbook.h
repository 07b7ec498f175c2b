/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The workbook: the whole record as a spreadsheet that an auditor can filter, print and
 * recalculate.
 *
 * One sheet per kind of record, one row per record, voided ones too; units in the headers, true
 * dates and numbers, and a last sheet that says where it all comes from. A dose is a formula over
 * its input cells. The same file, request and language give the same bytes.
 */
#pragma once

#include "records/export.h"
#include "wording/wording.h"

G_BEGIN_DECLS

typedef enum
{
  SW_REPORT_ERROR_EXISTS,        /* the file to write is there already */
  SW_REPORT_ERROR_SAME_FILE,     /* the file to write is the plant's own file */
  SW_REPORT_ERROR_IO,            /* message: the system's words */
  SW_REPORT_ERROR_TOO_MANY_ROWS, /* more than a sheet can hold */
  SW_REPORT_ERROR_NO_MACHINE     /* no machine has that tag; message: the tag */
} SwReportError;
#define SW_REPORT_ERROR (sw_report_error_quark ())
GQuark sw_report_error_quark (void);
/* One sentence for an error of this layer or of one below. (transfer full) */
char *sw_report_error_say (const SwWording *wording, const GError *error);

typedef struct
{
  const char *path; /* the file to write */
  gboolean force;   /* replace it when it is there */
  SwExportFilter filter;
  gint64 at_ms;   /* the time of the export, printed and stored in it */
  const char *by; /* who asked for it */
  char **head;    /* NULL, or where the head goes that the workbook names (transfer full) */
} SwWorkbookRequest;

/* Writes to a new file beside @request->path and renames it when it is whole: after an error
 * nothing is left. */
gboolean sw_workbook_write (SwStore *store,
                            const SwWording *wording,
                            const SwWorkbookRequest *request,
                            GError **error);

G_END_DECLS
