/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A rounded patch of one colour: the plant's data, not the theme's. Says nothing to a screen
 * reader; the words beside it do. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_SWATCH (sw_swatch_get_type ())
G_DECLARE_FINAL_TYPE (SwSwatch, sw_swatch, SW, SWATCH, GtkWidget)

/* "#E8C53A"; hides itself where that is no colour. */
void sw_swatch_set (SwSwatch *self, const char *colour);

G_END_DECLS
