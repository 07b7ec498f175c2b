/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the site's strips show: for each colour field of a method its name and its colour. What a
 * field means is the method's and cannot be changed. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_STRIP_EDITOR (sw_strip_editor_get_type ())
G_DECLARE_FINAL_TYPE (SwStripEditor, sw_strip_editor, SW, STRIP_EDITOR, GtkWidget)

GtkWidget *sw_strip_editor_new (SwContext *context);
/* Shows copies of @fields (element SwColourField). What was typed for a meaning stays with it. */
void sw_strip_editor_set_fields (SwStripEditor *self, GPtrArray *fields);
/* Writes what was typed into fields of the same ranks. FALSE: a name is missing; it says so. */
gboolean sw_strip_editor_save (SwStripEditor *self, GPtrArray *fields);
gboolean sw_strip_editor_is_changed (SwStripEditor *self);
/* Forgets what was typed. */
void sw_strip_editor_reset (SwStripEditor *self);

G_END_DECLS
