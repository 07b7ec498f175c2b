/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The readings of a portion so far, one line each: shape, steps, what the strip showed. */
#pragma once

#include <gtk/gtk.h>

#include "wording/wording.h"
#include "workflow/guided.h"

G_BEGIN_DECLS

#define SW_TYPE_LADDER (sw_ladder_get_type ())
G_DECLARE_FINAL_TYPE (SwLadder, sw_ladder, SW, LADDER, GtkWidget)

/* @waiting: a last line "read now" for titrant that no strip was read for. */
void sw_ladder_show (SwLadder *self,
                     const SwWording *wording,
                     const SwGuidedTest *test,
                     gboolean waiting);

G_END_DECLS
