/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One colour field of the strip as a big button: swatch, shape, word, meaning and number key. */
#pragma once

#include <gtk/gtk.h>

#include "records/method.h"
#include "wording/wording.h"

G_BEGIN_DECLS

#define SW_TYPE_FIELD_TILE (sw_field_tile_get_type ())
G_DECLARE_FINAL_TYPE (SwFieldTile, sw_field_tile, SW, FIELD_TILE, GtkButton)

/* @key is the number key that presses it. */
GtkWidget *sw_field_tile_new (const SwWording *wording, const SwColourField *field, guint key);
gint64 sw_field_tile_get_field (SwFieldTile *self); /* id of the colour field */

G_END_DECLS
