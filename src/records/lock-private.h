/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The owner lock of a file, and folders where no lock is safe. */
#pragma once

#include "records/store.h"

G_BEGIN_DECLS

/* Takes FILE.lock and writes who we are into it. -1 with SW_RECORDS_ERROR_BUSY when another program
 * has it. @since: local time as text. */
int sw_lock_take (const char *path, const char *since, GError **error);
/* Removes FILE.lock and lets go of it; -1 is accepted. */
void sw_lock_drop (const char *path, int fd);

/* Refuses a folder on a network file system. @fs_type: a statfs f_type to pretend, 0 = ask. */
gboolean sw_network_check (const char *path, long fs_type, GError **error);

G_END_DECLS
