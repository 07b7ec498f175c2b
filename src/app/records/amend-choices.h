/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be chosen in the forms that amend: ids (gint64) and what each is called. All (transfer
 * full). */
#pragma once

#include "app/context.h"

G_BEGIN_DECLS

GArray *sw_amend_people (SwContext *context, GError **error);
GArray *sw_amend_strip_lots (SwContext *context, GError **error);
/* Of the machine of a sample. */
GArray *sw_amend_points (SwContext *context, gconstpointer sample, GError **error);
/* Of the products of a titration's method. */
GArray *sw_amend_titrant_lots (SwContext *context, gconstpointer titration, GError **error);
GArray *sw_amend_caustic_lots (SwContext *context, gconstpointer titration, GError **error);
/* Of the method of a reading's test. */
GArray *sw_amend_colour_fields (SwContext *context, gconstpointer reading, GError **error);
/* Of the product dosed. */
GArray *sw_amend_dose_lots (SwContext *context, gconstpointer dose, GError **error);

char *sw_amend_say_person (SwContext *context, gint64 id);
char *sw_amend_say_point (SwContext *context, gint64 id);
char *sw_amend_say_lot (SwContext *context, gint64 id);
char *sw_amend_say_colour_field (SwContext *context, gint64 id);

G_END_DECLS
