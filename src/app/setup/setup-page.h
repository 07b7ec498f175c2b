/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up: machines, methods, products and lots, people, site; a list and a form for each. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_SETUP_PAGE (sw_setup_page_get_type ())
G_DECLARE_FINAL_TYPE (SwSetupPage, sw_setup_page, SW, SETUP_PAGE, GtkWidget)

GtkWidget *sw_setup_page_new (SwContext *context);
/* "machines", "methods", "products", "lots", "droppers", "solvents", "people", "site"; NULL = where
 * it was left, at first "machines". A form that is open there stays open. */
void sw_setup_page_show (SwSetupPage *self, const char *section);
/* The form of one record, 0 = a new one, with the focus at a field (NULL = the first). */
void sw_setup_page_open (SwSetupPage *self, const char *section, gint64 id, const char *field);

G_END_DECLS
