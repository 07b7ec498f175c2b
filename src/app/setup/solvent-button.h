/* SPDX-License-Identifier: GPL-3.0-or-later */
/* "Add Solvent...": a solvent's form in a popover, for a form that needs one that is not on file
 * yet. What was typed stays when the popover is closed. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_SOLVENT_BUTTON (sw_solvent_button_get_type ())
G_DECLARE_FINAL_TYPE (SwSolventButton, sw_solvent_button, SW, SOLVENT_BUTTON, GtkWidget)

GtkWidget *sw_solvent_button_new (SwContext *context);

/* Signal "added": (id) of the solvent that was saved, after the context's "changed". */

G_END_DECLS
