/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one row writer behind every record type's functions. Structs are untyped here: the table says
 * what they are. */
#pragma once

#include "records/table-private.h"

G_BEGIN_DECLS

gpointer sw_row_new (SwTable table);
void sw_row_free (SwTable table, gpointer record);
gpointer sw_row_copy (SwTable table, gconstpointer record);
gpointer sw_row_load (SwStore *store, SwTable table, gint64 id, GError **error);
gboolean sw_row_insert (SwStore *store, SwTable table, gpointer record, GError **error);
gboolean sw_row_update (SwStore *store, SwTable table, gpointer record, GError **error);

G_END_DECLS
