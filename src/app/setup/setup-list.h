/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of a section: ids in order, and a line of words for each that is made only when it
 * comes on screen. */
#pragma once

#include <gio/gio.h>

#include "app/context.h"

G_BEGIN_DECLS

/* One line. Properties: the strings "title", "detail" and "state". */
#define SW_TYPE_SETUP_ITEM (sw_setup_item_get_type ())
G_DECLARE_FINAL_TYPE (SwSetupItem, sw_setup_item, SW, SETUP_ITEM, GObject)

gint64 sw_setup_item_get_id (SwSetupItem *self);
/* Each (transfer full). */
void sw_setup_item_take_title (SwSetupItem *self, char *text);
void sw_setup_item_take_detail (SwSetupItem *self, char *text);
void sw_setup_item_take_state (SwSetupItem *self, char *text);

/* Fills a line. FALSE: the row cannot be read; the line says so. */
typedef gboolean (*SwSetupDescribe) (SwContext *context,
                                     gint64 id,
                                     SwSetupItem *item,
                                     GError **error);

#define SW_TYPE_SETUP_LIST (sw_setup_list_get_type ())
G_DECLARE_FINAL_TYPE (SwSetupList, sw_setup_list, SW, SETUP_LIST, GObject)

SwSetupList *sw_setup_list_new (SwContext *context, SwSetupDescribe describe);
/* Other ids (gint64, transfer full). */
void sw_setup_list_take_ids (SwSetupList *self, GArray *ids);

/* The title of one line, or NULL when the row cannot be read. (transfer full) */
char *sw_setup_list_dup_title (SwContext *context, SwSetupDescribe describe, gint64 id);

G_END_DECLS
