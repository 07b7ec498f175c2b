/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is wrong, with the mark of a mistake in front; takes no room while nothing is. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_ERROR_LINE (sw_error_line_get_type ())
G_DECLARE_FINAL_TYPE (SwErrorLine, sw_error_line, SW, ERROR_LINE, GtkWidget)

void sw_error_line_set (SwErrorLine *self, const char *text); /* NULL = nothing is wrong */
const char *sw_error_line_get (SwErrorLine *self);            /* NULL likewise */

G_END_DECLS
