/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long nobody has touched a window: no key, no pointer, no touch. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Watches @widget, as a rule a window, for as long as the widget is there. Controllers in the
 * capture phase see what any control in it is given. */
void sw_idle_watch (GtkWidget *widget);
/* Microseconds since the last input, or since the watch began. @monotonic_us and @real_us as from
 * g_get_monotonic_time and g_get_real_time: the first stands still while the computer sleeps, the
 * second can be set back, so the longer one counts. */
gint64 sw_idle_get_us (GtkWidget *widget, gint64 monotonic_us, gint64 real_us);
/* As if somebody had touched it now. */
void sw_idle_touch (GtkWidget *widget);

G_END_DECLS
