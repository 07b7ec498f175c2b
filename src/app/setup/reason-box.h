/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks for a reason: what it is for, one entry; and, where the deed is a step of its own, a button
 * that opens the question and two that answer it. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_REASON_BOX (sw_reason_box_get_type ())
G_DECLARE_FINAL_TYPE (SwReasonBox, sw_reason_box, SW, REASON_BOX, GtkWidget)

/* Why a saved record is changed: the entry stands open. */
GtkWidget *sw_reason_box_new_amend (SwContext *context);
/* Why a record is taken out of use: behind a button. @hint says what becomes of it. Emits
 * "confirmed". */
GtkWidget *sw_reason_box_new_void (SwContext *context, const char *hint);

/* The reason; NULL when there is none, and then it says so at the entry. (transfer full) */
char *sw_reason_box_read (SwReasonBox *self);
/* Whether something stands in the entry. */
gboolean sw_reason_box_is_filled (SwReasonBox *self);
/* Empty and closed. */
void sw_reason_box_reset (SwReasonBox *self);

G_END_DECLS
