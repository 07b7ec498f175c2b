/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "records/store.h"

#include <sqlite3.h>

G_BEGIN_DECLS

/* The one place where SQLite's codes become ours. @db may be NULL. Returns FALSE. */
gboolean sw_records_error_set (GError **error, sqlite3 *db, int code, const char *what);

G_END_DECLS
