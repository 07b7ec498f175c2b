/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small field of colour, as it stands on a strip. Never alone: a word stands beside it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_STRIP_FIELD (sw_strip_field_get_type ())
G_DECLARE_FINAL_TYPE (SwStripField, sw_strip_field, SW, STRIP_FIELD, GtkWidget)

/* @colour "#E8C53A"; one that cannot be read is shown as an empty frame. */
GtkWidget *sw_strip_field_new (const char *colour);
void sw_strip_field_set_colour (SwStripField *self, const char *colour);

/* "#E8C53A" of a colour. (transfer full) */
char *sw_strip_field_format (const GdkRGBA *colour);

G_END_DECLS
