/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The head of a record's page: what it is, what it bears, and what can be done with it. */
#pragma once

#include <gtk/gtk.h>

#include "app/records/kind-table.h"
#include "records/story.h"

G_BEGIN_DECLS

typedef enum
{
  SW_DEED_REVIEW,
  SW_DEED_AMEND,
  SW_DEED_VOID,
  SW_DEED_MACHINE,
  SW_DEED_EXPORT,
} SwDeed;

#define SW_TYPE_RECORD_HEAD (sw_record_head_get_type ())
G_DECLARE_FINAL_TYPE (SwRecordHead, sw_record_head, SW, RECORD_HEAD, GtkWidget)

void sw_record_head_set_context (SwRecordHead *self, SwContext *context);
/* Each shows what it is about, and asks anew what may be done. */
void sw_record_head_show (SwRecordHead *self, const SwBrowseRow *row);
void sw_record_head_show_act (SwRecordHead *self, const SwChapter *first);
void sw_record_head_show_error (SwRecordHead *self, const GError *error);
gint64 sw_record_head_get_machine (SwRecordHead *self); /* 0 = none */

/* Signal "deed" (int SwDeed): the person wants it. Actions "record.back" and "record.step" are the
 * page's. */

G_END_DECLS
