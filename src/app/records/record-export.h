/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records as a workbook, for those who read them elsewhere. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"
#include "records/export.h"

G_BEGIN_DECLS

/* Whether a record of the kind belongs to a test that can be exported alone. */
gboolean sw_record_export_applies (int kind);
/* What lets through the test that a record belongs to, and nothing else. FALSE: it has none. */
gboolean
sw_record_export_filter (SwContext *context, SwTable table, gint64 id, SwExportFilter *filter);
/* Asks where to, writes beside the window's work, and tells when it is done. @name is proposed. */
void sw_record_export_ask (GtkWidget *near,
                           SwContext *context,
                           const SwExportFilter *filter,
                           const char *name);
/* Without the question. */
void sw_record_export_write (GtkWidget *near,
                             SwContext *context,
                             const SwExportFilter *filter,
                             const char *path);

G_END_DECLS
