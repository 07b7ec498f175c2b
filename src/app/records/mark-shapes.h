/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The marks of a record as small shapes, one beside the other; the words stand next to them. */
#pragma once

#include <gtk/gtk.h>

#include "wording/sentence-list.h"

G_BEGIN_DECLS

#define SW_TYPE_MARK_SHAPES (sw_mark_shapes_get_type ())
G_DECLARE_FINAL_TYPE (SwMarkShapes, sw_mark_shapes, SW, MARK_SHAPES, GtkWidget)

GtkWidget *sw_mark_shapes_new (void);
void sw_mark_shapes_set (SwMarkShapes *self, guint marks); /* SwMark bits */

G_END_DECLS
