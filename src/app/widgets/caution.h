/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A caution: shape, words, and the line that defers to data sheets, manual and local rules. */
#pragma once

#include <gtk/gtk.h>

#include "wording/sentence.h"

G_BEGIN_DECLS

#define SW_TYPE_CAUTION_BAR (sw_caution_bar_get_type ())
G_DECLARE_FINAL_TYPE (SwCautionBar, sw_caution_bar, SW, CAUTION_BAR, GtkWidget)

GtkWidget *sw_caution_bar_new (void);
void sw_caution_bar_set (SwCautionBar *self, const SwWording *wording, SwCaution caution);
/* A further text of the method's own, above the line that defers; NULL = none. */
void sw_caution_bar_set_extra (SwCautionBar *self, const char *text);

G_END_DECLS
