/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Carrying out a restore: the window of the file goes, a worker restores, a window comes again. */
#pragma once

#include "app/application.h"
#include "workflow/restore.h"

G_BEGIN_DECLS

/* @order is copied. @from: the window that asked; the file's own goes. What went wrong is said
 * where the file then is: in its window, or on the page that explains why it cannot be opened. */
void sw_restore_in_place (SwApplication *application, GtkWindow *from, const SwRestoreOrder *order);

G_END_DECLS
