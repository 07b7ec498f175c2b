/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The records that a filter finds as a table; any number of them can be chosen. */
#pragma once

#include <gtk/gtk.h>

#include "app/records/record-list.h"

G_BEGIN_DECLS

#define SW_TYPE_RECORD_TABLE (sw_record_table_get_type ())
G_DECLARE_FINAL_TYPE (SwRecordTable, sw_record_table, SW, RECORD_TABLE, GtkWidget)

void sw_record_table_set_context (SwRecordTable *self, SwContext *context);
/* Asks the file; FALSE: the table is empty. */
gboolean
sw_record_table_ask (SwRecordTable *self, int kind, const SwBrowseFilter *filter, GError **error);
SwRecordList *sw_record_table_get_list (SwRecordTable *self); /* (transfer none) */

/* Ids chosen, at most @limit (0 = all), in the order of the list. (transfer full) */
GArray *sw_record_table_dup_chosen (SwRecordTable *self, guint limit);
guint sw_record_table_count_chosen (SwRecordTable *self);
/* Chooses one record alone and brings it into view; 0 = chooses none. */
void sw_record_table_choose (SwRecordTable *self, gint64 id);

/* Signals: "activated" (gint64 id), a row was opened; "chosen-changed". */

G_END_DECLS
