/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the flask has been shaken, of how long it must be. The start is the file's, so that the
 * time goes on over a restart of the program. */
#pragma once

#include "app/context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_SHAKE_TIMER (sw_shake_timer_get_type ())
G_DECLARE_FINAL_TYPE (SwShakeTimer, sw_shake_timer, SW, SHAKE_TIMER, GtkWidget)

/* @started_ms 0 = not running. Signal "shake": the button was pressed. */
void
sw_shake_timer_show (SwShakeTimer *self, SwContext *context, gint64 started_ms, double shake_s);
void sw_shake_timer_stop (SwShakeTimer *self);
void sw_shake_timer_set_sensitive (SwShakeTimer *self, gboolean sensitive);

G_END_DECLS
