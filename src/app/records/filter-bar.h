/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the list of records shows: kind, machine, days, person, outcome, state, words to search. */
#pragma once

#include <gtk/gtk.h>

#include "app/records/kind-table.h"

G_BEGIN_DECLS

#define SW_TYPE_FILTER_BAR (sw_filter_bar_get_type ())
G_DECLARE_FINAL_TYPE (SwFilterBar, sw_filter_bar, SW, FILTER_BAR, GtkWidget)

void sw_filter_bar_set_context (SwFilterBar *self, SwContext *context);
int sw_filter_bar_get_kind (SwFilterBar *self); /* SwTable, or SW_KIND_JOURNAL */
/* filter->search is borrowed until the next change. What a kind has not got is not asked for. */
void sw_filter_bar_get (SwFilterBar *self, SwBrowseFilter *filter);
/* Shows a filter; its table is the kind. Emits no signal. */
void sw_filter_bar_set (SwFilterBar *self, const SwBrowseFilter *filter);
/* Whether anything but the kind is narrowed down. */
gboolean sw_filter_bar_is_narrow (SwFilterBar *self);
/* All but the kind as at the start. Emits "changed". */
void sw_filter_bar_clear (SwFilterBar *self);
void sw_filter_bar_set_count (SwFilterBar *self, const char *words);
/* The focus goes to the words to search. */
void sw_filter_bar_find (SwFilterBar *self);

/* Signals: "changed", what is typed is told after a short pause; "leave", down to the list. */

G_END_DECLS
