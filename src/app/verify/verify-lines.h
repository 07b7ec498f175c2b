/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What Verify has to say, a line each, in a box that held other lines before. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

/* A hash that is broken over lines gets no hyphen, which somebody would copy. */
void sw_verify_lines_keep_digits (GtkLabel *label);
/* Findings, each advice once behind those that it is for. */
void sw_verify_lines_findings (GtkBox *box, SwContext *context, const GPtrArray *findings);
void sw_verify_lines_notes (GtkBox *box, SwContext *context, const GPtrArray *notes);
/* What no verify can find. */
void sw_verify_lines_limits (GtkBox *box, SwContext *context);

G_END_DECLS
