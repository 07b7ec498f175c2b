/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A label that takes what room is left, and goes away when that is too little to read: what is nice
 * to know beside what must be read. Its end is kept, because of a code the end tells most. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_SPARE_LABEL (sw_spare_label_get_type ())
G_DECLARE_FINAL_TYPE (SwSpareLabel, sw_spare_label, SW, SPARE_LABEL, GtkWidget)

GtkWidget *sw_spare_label_new (const char *class);
GtkWidget *sw_spare_label_get_label (SwSpareLabel *self); /* (transfer none) */

G_END_DECLS
