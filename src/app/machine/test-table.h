/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tests of a machine and what was dosed after each, one row a test, newest first. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_TEST_TABLE (sw_test_table_get_type ())
G_DECLARE_FINAL_TYPE (SwTestTable, sw_test_table, SW, TEST_TABLE, GtkWidget)

void sw_test_table_set_context (SwTestTable *self, SwContext *context);
/* Asks the file anew; 0 = no machine. */
void sw_test_table_set_machine (SwTestTable *self, gint64 machine);
/* Selects a test and brings it into view; nothing when it is not in the list. */
void sw_test_table_choose (SwTestTable *self, gint64 titration);

G_END_DECLS
