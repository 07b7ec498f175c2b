/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the start window that makes a new plant: the site, its first administrator, and where
 * the file goes. Signal "back". */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_NEW_PAGE (sw_new_page_get_type ())
G_DECLARE_FINAL_TYPE (SwNewPage, sw_new_page, SW, NEW_PAGE, GtkWidget)

/* The page has come up: nothing is said to be wrong, the focus is on the first field. */
void sw_new_page_begin (SwNewPage *self);

G_END_DECLS
