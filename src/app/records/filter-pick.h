/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One choice of a filter bar: a drop-down whose button shows what is chosen, cut where it is too
 * long, and whose list may have headings. Each line has a number and a word. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_FILTER_PICK (sw_filter_pick_get_type ())
G_DECLARE_FINAL_TYPE (SwFilterPick, sw_filter_pick, SW, FILTER_PICK, GtkWidget)

/* For templates: property "label", what is chosen here, for tooltip and screen reader. */

/* Takes all lines away. */
void sw_filter_pick_clear (SwFilterPick *self);
/* @heading: shown above this line; NULL = none. The first line is chosen at the start. */
void sw_filter_pick_add (SwFilterPick *self, gint64 value, const char *word, const char *heading);
gint64 sw_filter_pick_get (SwFilterPick *self);
/* A value without a line: the first line. Emits no signal. */
void sw_filter_pick_set (SwFilterPick *self, gint64 value);

/* Signal "changed": the person chose. */

G_END_DECLS
