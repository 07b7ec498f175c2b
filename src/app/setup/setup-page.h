/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up: machines, methods, products and lots, people, site; a list and a form for each. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_SETUP_PAGE (sw_setup_page_get_type ())
G_DECLARE_FINAL_TYPE (SwSetupPage, sw_setup_page, SW, SETUP_PAGE, GtkWidget)

GtkWidget *sw_setup_page_new (SwContext *context);
/* "machines", "methods", "products", "lots", "people", "site"; NULL = the first. */
void sw_setup_page_show (SwSetupPage *self, const char *section);

G_END_DECLS
