/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One machine: how it stands, what comes next and why, its history as chart and as list. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_MACHINE_PAGE (sw_machine_page_get_type ())
G_DECLARE_FINAL_TYPE (SwMachinePage, sw_machine_page, SW, MACHINE_PAGE, GtkWidget)

/* Gives it the file; follows "changed" from then on. */
void sw_machine_page_set_context (SwMachinePage *self, SwContext *context);
/* Which machine is shown; 0 = none. */
void sw_machine_page_show (SwMachinePage *self, gint64 machine);
gint64 sw_machine_page_get_machine (SwMachinePage *self);
/* Shows the file anew, for what changes with time alone. */
void sw_machine_page_refresh (SwMachinePage *self);

G_END_DECLS
