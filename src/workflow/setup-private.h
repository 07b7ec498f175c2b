/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame of a set-up function: check, one act, and the caller's struct untouched on failure. */
#pragma once

#include "workflow/check-private.h"
#include "workflow/rights.h"
#include "workflow/setup.h"

G_BEGIN_DECLS

/* Begins an act in which the right is asked for. */
gboolean sw_setup_begin_act (
    SwStore *store, const SwActor *actor, SwActKind kind, SwRight right, GError **error);
/* The same: SW_ACT_SETUP for a new row, SW_ACT_AMEND (needs actor->reason) for a row with an id. */
gboolean
sw_setup_begin (SwStore *store, const SwActor *actor, gint64 id, SwRight right, GError **error);

/* Commits, or cancels when @failure (transfer full) is set. A rule of the file that the checks did
 * not foresee, such as a name of a voided row, becomes SW_FAULT_TEXT about @unique. */
gboolean sw_setup_end (SwStore *store, GError *failure, SwQuantityName unique, GError **error);

/* Needed text that no other row in use has; white space around it is dropped. */
gboolean sw_setup_check_unique (SwStore *store,
                                SwTable table,
                                const char *column,
                                SwQuantityName quantity,
                                char *text,
                                gint64 own,
                                GError **error);

/* A reference must lead to a row in use. NULL: it could not be loaded, @error is set. */
gboolean sw_setup_check_in_use (const SwRecord *record, SwQuantityName quantity, GError **error);

/* write_PREFIX: inserts or updates one checked row in an act of its own. */
#define SW_SETUP_DEFINE_WRITE(Type, prefix, unique, right)                                         \
  static gboolean write_##prefix (SwStore *store, const SwActor *actor, Type *row, GError **error) \
  {                                                                                                \
    const SwRecord before = row->record;                                                           \
    GError *failure = NULL;                                                                        \
                                                                                                   \
    if (!sw_setup_begin (store, actor, before.id, right, error))                                   \
      return FALSE;                                                                                \
    if (before.id != 0)                                                                            \
      prefix##_update (store, row, &failure);                                                      \
    else                                                                                           \
      prefix##_insert (store, row, &failure);                                                      \
    if (sw_setup_end (store, failure, unique, error))                                              \
      return TRUE;                                                                                 \
    row->record = before;                                                                          \
    return FALSE;                                                                                  \
  }

G_END_DECLS
