/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Journal rows as chapters, by any condition; an entry taken apart. */
#pragma once

#include "records/store-private.h"
#include "records/story.h"

G_BEGIN_DECLS

/* @where: "WHERE ..." over the journal. In the journal's order. (transfer full) */
GPtrArray *sw_story_select (
    SwStore *store, const char *where, const SwCell *cells, guint n_cells, GError **error);
/* The changes that an entry holds, by column; any text will do. (transfer full) */
GPtrArray *sw_story_read_entry (const char *entry);

G_END_DECLS
