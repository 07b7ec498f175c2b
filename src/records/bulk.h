/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new file with thousands of acts at once: the demo plant, an import into a new file.
 *
 * Its acts are not synced one by one, so a power cut on the way leaves nothing to trust: the caller
 * makes the file under another name and gives it its own after sw_store_finish_bulk and
 * sw_store_close. Nobody's work may be recorded this way.
 */
#pragma once

#include "records/store.h"

G_BEGIN_DECLS

/* SW_OPEN_CREATE without syncing each act. (transfer full) */
SwStore *sw_store_create_bulk (const char *path, const SwClock *clock, GError **error);
/* Syncs everything; from then on each act is synced as usual. */
gboolean sw_store_finish_bulk (SwStore *store, GError **error);

G_END_DECLS
