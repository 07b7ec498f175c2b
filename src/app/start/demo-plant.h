/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demo plant: kept in the person's own data folder, made when it is first asked for. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* Where it is, or will be. (transfer full) */
char *sw_demo_plant_path (void);
/* Makes it in a thread where it is not there yet. */
void sw_demo_plant_ensure (GAsyncReadyCallback done, gpointer data);
/* The path. (transfer full) */
char *sw_demo_plant_ensure_finish (GAsyncResult *result, GError **error);

G_END_DECLS
