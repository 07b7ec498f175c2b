/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The readings of a titration on a line of steps, and the interval in which its end point lies. */
#pragma once

#include <gtk/gtk.h>

#include "wording/wording.h"
#include "workflow/guided.h"

G_BEGIN_DECLS

#define SW_TYPE_INTERVAL_PICTURE (sw_interval_picture_get_type ())
G_DECLARE_FINAL_TYPE (SwIntervalPicture, sw_interval_picture, SW, INTERVAL_PICTURE, GtkWidget)

/* Copies what it draws. @words say the same to who cannot see it. */
void sw_interval_picture_show (SwIntervalPicture *self,
                               const SwWording *wording,
                               const SwGuidedTest *test,
                               const char *words);

G_END_DECLS
