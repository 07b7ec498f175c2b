/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sampling points of a machine in order of preference, one to pick: name, directions, and
 * whether a dose may be worked out from there. */
#pragma once

#include <gtk/gtk.h>

#include "wording/wording.h"

G_BEGIN_DECLS

#define SW_TYPE_POINT_LIST (sw_point_list_get_type ())
G_DECLARE_FINAL_TYPE (SwPointList, sw_point_list, SW, POINT_LIST, GtkWidget)

/* @points: SwSamplingPoint, by rank; copied from. @chosen 0 = none. */
void
sw_point_list_fill (SwPointList *self, const SwWording *wording, GPtrArray *points, gint64 chosen);
gint64 sw_point_list_get (SwPointList *self);                       /* 0 = none */
void sw_point_list_set_error (SwPointList *self, const char *text); /* NULL clears it */
const char *sw_point_list_get_error (SwPointList *self);            /* NULL = none */

G_END_DECLS
