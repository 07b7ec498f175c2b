/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside wording: what a language or territory is used to. @locale is "de" or "de_CH". */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* "." or ",". (transfer none) */
const char *sw_territory_decimal_mark (const char *locale);
gboolean sw_territory_is_letter (const char *locale);
gboolean sw_territory_is_right_to_left (const char *locale);

G_END_DECLS
