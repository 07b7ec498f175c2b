/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The closed tests of a machine as a list model: ids in the order of the file's question, rows
 * loaded when they come on screen. */
#pragma once

#include <gio/gio.h>

#include "app/context.h"

G_BEGIN_DECLS

/* One test, in words. Read it with the getters below; they load it the first time. */
#define SW_TYPE_TEST_ITEM (sw_test_item_get_type ())
G_DECLARE_FINAL_TYPE (SwTestItem, sw_test_item, SW, TEST_ITEM, GObject)

gint64 sw_test_item_get_titration (SwTestItem *self);
SwOutcomeKind sw_test_item_get_outcome (SwTestItem *self);
const char *sw_test_item_get_when (SwTestItem *self);   /* "24 May 2026 06:20" */
const char *sw_test_item_get_result (SwTestItem *self); /* "acid, 2 to 3 drops" */
const char *sw_test_item_get_dose (SwTestItem *self);   /* "1.26 L added 06:40, still"; "" = none */
const char *sw_test_item_get_signed (SwTestItem *self); /* initials */

#define SW_TYPE_TEST_LIST (sw_test_list_get_type ())
G_DECLARE_FINAL_TYPE (SwTestList, sw_test_list, SW, TEST_LIST, GObject)

SwTestList *sw_test_list_new (SwContext *context);
/* Asks the file for a machine's tests, newest first; 0 = of none. */
void sw_test_list_set_machine (SwTestList *self, gint64 machine);
/* Where a test stands, or -1. */
int sw_test_list_find (SwTestList *self, gint64 titration);

G_END_DECLS
