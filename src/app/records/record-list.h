/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The records that a filter finds as a list model: ids in the order of the file's question, rows
 * loaded when they come on screen. */
#pragma once

#include "app/records/record-item.h"

G_BEGIN_DECLS

#define SW_TYPE_RECORD_LIST (sw_record_list_get_type ())
G_DECLARE_FINAL_TYPE (SwRecordList, sw_record_list, SW, RECORD_LIST, GObject)

SwRecordList *sw_record_list_new (SwContext *context);
/* Asks the file; @kind SW_KIND_JOURNAL: for acts, else filter->table is what is listed. What both
 * lists have at their ends stays, so that place and choice do. FALSE: the list is empty. */
gboolean
sw_record_list_ask (SwRecordList *self, int kind, const SwBrowseFilter *filter, GError **error);
int sw_record_list_get_kind (SwRecordList *self);
/* The id at a position; 0 past the end. */
gint64 sw_record_list_get_id (SwRecordList *self, guint position);
/* Where a record stands, or GTK_INVALID_LIST_POSITION's value, G_MAXUINT. */
guint sw_record_list_find (SwRecordList *self, gint64 id);

G_END_DECLS
