/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record, or one act of the journal: what it says, its parts, its signatures, its story; and
 * what may be done with it. */
#pragma once

#include <gtk/gtk.h>

#include "app/records/kind-table.h"

G_BEGIN_DECLS

#define SW_TYPE_RECORD_VIEW (sw_record_view_get_type ())
G_DECLARE_FINAL_TYPE (SwRecordView, sw_record_view, SW, RECORD_VIEW, GtkWidget)

void sw_record_view_set_context (SwRecordView *self, SwContext *context);
/* Shows a record; Back leads away from it. */
void sw_record_view_show (SwRecordView *self, int kind, gint64 id);
/* The same on a link: Back leads to the record before. */
void sw_record_view_follow (SwRecordView *self, int kind, gint64 id);
int sw_record_view_get_kind (SwRecordView *self);
gint64 sw_record_view_get_id (SwRecordView *self);

/* Signals: "leave", Back where no record was followed; "step" (int by), the record before (-1) or
 * after (1) in the list is wanted. */

G_END_DECLS
