/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of files, and making a file under another name first, so that it is there whole or not at
 * all. */
#pragma once

#include "records/store.h"

G_BEGIN_DECLS

/* The path with links resolved, whether the file is there or not, so that two names of one file
 * have one lock. (transfer full) */
char *sw_path_resolve (const char *path);
/* Removes a database file and what SQLite puts beside it; none of them need be there. */
void sw_path_remove (const char *path);
/* Renames and syncs the folder. */
gboolean sw_path_move (const char *from, const char *to, GError **error);
/* Waits until what was written to @path, or to a folder, is on the disk. */
gboolean sw_path_sync (const char *path, GError **error);
/* "PATH: what". Returns FALSE. */
gboolean sw_path_error (GError **error, SwRecordsError code, const char *path, const char *what);

G_END_DECLS
