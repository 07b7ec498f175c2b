/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scrolls to what has just been changed, once it has its place. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Brings all of @widget, a descendant, into view; NULL: the end. */
void sw_reveal (GtkScrolledWindow *scroller, GtkWidget *widget);

G_END_DECLS
