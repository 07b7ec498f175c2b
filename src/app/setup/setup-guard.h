/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may write in the set-up. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

/* TRUE when a row of @table may be written now. FALSE: *why is a sentence for the page (transfer
 * none), or NULL when the window around @widget has said it already. In an empty file nobody can be
 * picked yet: there the first person, and the site's name, may be written by nobody. */
gboolean
sw_setup_may_write (GtkWidget *widget, SwContext *context, SwTable table, const char **why);

G_END_DECLS
