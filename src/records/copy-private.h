/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The copying itself, for what gives copies their names: sw_store_copy, backups, restoring. */
#pragma once

#include "records/store-private.h"

G_BEGIN_DECLS

/* Copies every page, as @store sees it, into a new file at rest. @path may hold a half copy when it
 * fails; the caller removes it. @vfs: NULL = the default one. */
gboolean sw_copy_write (SwStore *store, const char *path, const char *vfs, GError **error);

G_END_DECLS
