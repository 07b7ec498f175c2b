/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a machine still lacks before it can be tested and dosed, each with a button to the place
 * where it is mended. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_MACHINE_MISSING (sw_machine_missing_get_type ())
G_DECLARE_FINAL_TYPE (SwMachineMissing, sw_machine_missing, SW, MACHINE_MISSING, GtkWidget)

GtkWidget *sw_machine_missing_new (SwContext *context);
/* Asks the file about a machine; 0 = it is not saved yet: nothing is shown. */
void sw_machine_missing_show (SwMachineMissing *self, gint64 machine);

/* Signal "go-there": (section, id, field). An empty section is the machine's own form. */

G_END_DECLS
