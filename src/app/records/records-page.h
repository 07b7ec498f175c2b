/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records: everything on file, filtered and searched; a record opens with its story. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"
#include "records/browse.h"

G_BEGIN_DECLS

#define SW_TYPE_RECORDS_PAGE (sw_records_page_get_type ())
G_DECLARE_FINAL_TYPE (SwRecordsPage, sw_records_page, SW, RECORDS_PAGE, GtkWidget)

GtkWidget *sw_records_page_new (SwContext *context);
/* The list with this filter; NULL = as it was left. */
void sw_records_page_show (SwRecordsPage *self, const SwBrowseFilter *filter);
/* One record, with the list behind it. */
void sw_records_page_open (SwRecordsPage *self, SwTable table, gint64 id);
/* The focus goes to the words to search. */
void sw_records_page_find (SwRecordsPage *self);

G_END_DECLS
