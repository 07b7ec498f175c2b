/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One message at the foot of the window. A newer one takes the place of the older. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_TOAST (sw_toast_get_type ())
G_DECLARE_FINAL_TYPE (SwToast, sw_toast, SW, TOAST, GtkWidget)

/* @stays: until it is dismissed; else for some seconds. */
void sw_toast_show (SwToast *self, const char *text, gboolean stays);
/* With a button labelled @action, whose press emits "action"; for some seconds. A later message
 * takes the button away. */
void sw_toast_offer (SwToast *self, const char *text, const char *action);
void sw_toast_hide (SwToast *self);
/* The text shown now, or NULL. (transfer none) */
const char *sw_toast_get_text (SwToast *self);

G_END_DECLS
