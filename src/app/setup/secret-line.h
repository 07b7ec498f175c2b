/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A person's secret on their form: whether there is one, who chose it, and the button that sets
 * another. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_SECRET_LINE (sw_secret_line_get_type ())
G_DECLARE_FINAL_TYPE (SwSecretLine, sw_secret_line, SW, SECRET_LINE, GtkWidget)

/* (transfer floating) */
GtkWidget *sw_secret_line_new (SwContext *context);
/* Of that person, 0 = one who is not saved yet. */
void sw_secret_line_show (SwSecretLine *self, gint64 person);

G_END_DECLS
