/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of records for the screen, loaded by id. All (transfer full), never NULL: a row that cannot
 * be read is shown as "?". */
#pragma once

#include "app/context.h"

G_BEGIN_DECLS

char *sw_plant_machine_name (SwContext *context, gint64 machine); /* "M-07 Long bed" */
char *sw_plant_machine_tag (SwContext *context, gint64 machine);  /* "M-07" */
char *sw_plant_product_name (SwContext *context, gint64 product);
char *sw_plant_person_initials (SwContext *context, gint64 person);

/* An error in words: a refused move as its fact, all else as sw_say_error does. */
char *sw_plant_say_error (const SwWording *wording, const GError *error);

G_END_DECLS
