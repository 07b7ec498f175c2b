/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A method as it is on file, to be read: every version with its figures, colours and texts. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_METHOD_VIEW (sw_method_view_get_type ())
G_DECLARE_FINAL_TYPE (SwMethodView, sw_method_view, SW, METHOD_VIEW, GtkWidget)

GtkWidget *sw_method_view_new (SwContext *context);
gboolean sw_method_view_show (SwMethodView *self, gint64 method, GError **error);

/* The figures of a version that are set, one line each, into a vertical box. */
void sw_method_add_facts (GtkBox *box, const SwWording *wording, const SwMethodVersion *version);

G_END_DECLS
