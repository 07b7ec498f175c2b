/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of backups: what there is, where it goes, and what is made by hand. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"

G_BEGIN_DECLS

#define SW_TYPE_BACKUPS_PAGE (sw_backups_page_get_type ())
G_DECLARE_FINAL_TYPE (SwBackupsPage, sw_backups_page, SW, BACKUPS_PAGE, GtkWidget)

/* (transfer floating) */
GtkWidget *sw_backups_page_new (SwContext *context);

G_END_DECLS
