/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The time of a filter bar: a button that says which days are shown, and behind it a few usual
 * spans and two dates to type. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_DATE_PICK (sw_date_pick_get_type ())
G_DECLARE_FINAL_TYPE (SwDatePick, sw_date_pick, SW, DATE_PICK, GtkWidget)

void sw_date_pick_set_context (SwDatePick *self, SwContext *context);
/* [from_ms, to_ms), whole days of the reader; 0 = open. */
void sw_date_pick_get (SwDatePick *self, gint64 *from_ms, gint64 *to_ms);
/* Emits no signal. */
void sw_date_pick_set (SwDatePick *self, gint64 from_ms, gint64 to_ms);

/* Signal "changed": the person chose. */

G_END_DECLS
