/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One section of the set-up: its list, and its form page behind it. */
#pragma once

#include "app/setup/section-spec.h"

G_BEGIN_DECLS

#define SW_TYPE_SETUP_SECTION (sw_setup_section_get_type ())
G_DECLARE_FINAL_TYPE (SwSetupSection, sw_setup_section, SW, SETUP_SECTION, GtkWidget)

/* @spec is static. (transfer floating) */
GtkWidget *sw_setup_section_new (SwContext *context, const SwSectionSpec *spec);
const SwSectionSpec *sw_setup_section_get_spec (SwSetupSection *self);
/* The form page with a record, 0 = a new one, and the focus at a field (NULL = the first). */
void sw_setup_section_open (SwSetupSection *self, gint64 id, const char *field);

/* Signal "open-other" as that of SwEditor. */

G_END_DECLS
