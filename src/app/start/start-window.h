/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Before a file is open: what to open, a new plant, and why a file could not be opened. */
#pragma once

#include "app/application.h"

G_BEGIN_DECLS

#define SW_TYPE_START_WINDOW (sw_start_window_get_type ())
G_DECLARE_FINAL_TYPE (SwStartWindow, sw_start_window, SW, START_WINDOW, GtkApplicationWindow)

SwStartWindow *sw_start_window_new (SwApplication *application);
/* Goes to the form for a new plant. */
void sw_start_window_new_plant (SwStartWindow *self);
/* Says why @path could not be opened, and what can be done. */
void sw_start_window_explain (SwStartWindow *self, const char *path, const GError *error);

/* Says that a backup is being restored, until a file opens or sw_start_window_explain. */
void sw_start_window_wait (SwStartWindow *self);

G_END_DECLS
