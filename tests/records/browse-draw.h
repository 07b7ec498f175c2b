/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the seeded random hand draws from. */
#pragma once

#include "browse-plant.h"

G_BEGIN_DECLS

/* Two words, or NULL. (transfer full) */
char *browse_draw_text (BrowsePlant *plant);
gint64 browse_draw_id (BrowsePlant *plant, const gint64 *ids, int n);
#define DRAW(array) browse_draw_id (plant, array, G_N_ELEMENTS (array))
/* Half of them 0, which means now, half long ago; several at the same time. */
gint64 browse_draw_time (BrowsePlant *plant);
gint64 browse_find_last (BrowsePlant *plant, SwTable table);
gint64 browse_draw_row (BrowsePlant *plant, SwTable table);
/* An act of somebody, with a reason, a minute later. */
void browse_begin (BrowsePlant *plant, SwActKind kind);

/* Inserts with a drawn time, and frees. */
#define INSERT(prefix, row)                                                                        \
  G_STMT_START                                                                                     \
  {                                                                                                \
    GError *failure = NULL;                                                                        \
    (row)->record.happened_ms = browse_draw_time (plant);                                          \
    prefix##_insert (plant->base.store, row, &failure);                                            \
    g_assert_no_error (failure);                                                                   \
    plant->last_id = (row)->record.id;                                                             \
    prefix##_free (row);                                                                           \
  }                                                                                                \
  G_STMT_END

G_END_DECLS
