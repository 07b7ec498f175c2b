/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One backup, looked at: what it holds, what a restore would keep and lose, and the way there. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"
#include "records/backup.h"

G_BEGIN_DECLS

#define SW_TYPE_RESTORE_VIEW (sw_restore_view_get_type ())
G_DECLARE_FINAL_TYPE (SwRestoreView, sw_restore_view, SW, RESTORE_VIEW, GtkWidget)

/* @path: the file whose place it would take. @context: of that file; NULL where it cannot be
 * opened, and then the people of the backup sign. (transfer floating) */
GtkWidget *sw_restore_view_new (SwContext *context,
                                SwWording *wording,
                                const char *path,
                                const SwBackupInfo *backup);

/* Signal "back": the person wants to go back. */

G_END_DECLS
