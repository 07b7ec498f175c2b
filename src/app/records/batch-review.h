/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reviews tests, one or many, under one signature. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

/* More than anybody has really looked at in one go; common practice, no source. */
#define SW_BATCH_MOST 200

/* Asks the person at the bench to sign that the titrations @ids (gint64) are right, over @near's
 * window. Those that cannot be reviewed by this person are left out, and it is said how many and
 * why; the context tells that the file changed. */
void sw_batch_review_ask (GtkWidget *near, SwContext *context, GArray *ids);

G_END_DECLS
