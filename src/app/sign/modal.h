/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A box over a window: what lies below rests until it goes. It sits in the outermost GtkOverlay
 * around a widget, so it belongs to that window alone, needs no window manager, and cannot be lost
 * behind others. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_MODAL (sw_modal_get_type ())
G_DECLARE_FINAL_TYPE (SwModal, sw_modal, SW, MODAL, GtkWidget)

/* Shows @content (transfer floating) over @near's window and gives it the focus. It is given up by
 * Escape, when @near leaves the screen, when another box comes, and when the window goes: signal
 * "given-up", once; the box is closed by then. (transfer none) */
SwModal *sw_modal_show (GtkWidget *near, GtkWidget *content);
/* The box that @content lies in. (transfer none) */
SwModal *sw_modal_of (GtkWidget *content);
/* Takes the box away, and gives the focus back. No signal. */
void sw_modal_close (SwModal *self);
/* As Escape does. */
void sw_modal_give_up (SwModal *self);
/* The box over @near's window, or NULL. (transfer none) */
SwModal *sw_modal_over (GtkWidget *near);

G_END_DECLS
