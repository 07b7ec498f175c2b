/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures of widgets and windows, and a main loop that waits, for the tests of the window. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Shows @child in a window of @width x @height px with the program's style sheet; dark when asked.
 * gtk_window_destroy it at the end. (transfer none) */
GtkWindow *sw_snapshot_window (GtkWidget *child, int width, int height, gboolean dark);

/* Writes what @widget looks like as $SW_SNAPSHOT_DIR/@name.png; without the variable it is drawn,
 * but written nowhere. Fails the test when there is nothing to draw. */
void sw_snapshot (GtkWidget *widget, const char *name);

/* Runs the main loop until nothing is left to do and the widget has been drawn. */
void sw_snapshot_settle (GtkWidget *widget);

/* The first descendant of @widget of type @type whose buildable id or name is @name (NULL: any), or
 * NULL. (transfer none) */
GtkWidget *sw_find_widget (GtkWidget *widget, GType type, const char *name);
/* The first visible label or button below @widget that shows exactly @text, or NULL. (transfer
 * none) */
GtkWidget *sw_find_text (GtkWidget *widget, const char *text);
/* The first button below @widget with this label; fails the test when there is none. */
GtkWidget *sw_find_button (GtkWidget *widget, const char *label);
/* All the text that is visible below @widget, one label a line. (transfer full) */
char *sw_visible_text (GtkWidget *widget);

G_END_DECLS
