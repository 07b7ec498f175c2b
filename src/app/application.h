/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program at the desktop: which files are open in which windows, and the program's actions. */
#pragma once

#include <gtk/gtk.h>

#include "app/window.h"
#include "records/store.h"
#include "wording/wording.h"

G_BEGIN_DECLS

#define SW_TYPE_APPLICATION (sw_application_get_type ())
G_DECLARE_FINAL_TYPE (SwApplication, sw_application, SW, APPLICATION, GtkApplication)

/* SW_NON_UNIQUE in the environment: a process of its own, for tests. */
SwApplication *sw_application_new (void);

/* How the program speaks before a file is open. (transfer none) */
SwWording *sw_application_get_wording (SwApplication *self);
/* The language of templates made from now on; NULL = sw_application_get_wording. */
void sw_application_speak (SwApplication *self, const SwWording *wording);
/* Opens a file in a window of its own; one that is open already comes to the front. FALSE when it
 * cannot be opened. */
gboolean
sw_application_open_path (SwApplication *self, const char *path, SwOpenMode mode, GError **error);
/* The same for a store that is open. Takes @store (transfer full). (transfer none) */
SwWindow *sw_application_open_store (SwApplication *self, SwStore *store);

G_END_DECLS
