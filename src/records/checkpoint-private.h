/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What comparing a file with its checkpoints shares with verify. */
#pragma once

#include "records/checkpoint.h"
#include "records/trust-folder-private.h"

G_BEGIN_DECLS

/* What became of a checkpoint that stands outside. */
typedef enum
{
  SW_TRUST_THERE,
  SW_TRUST_LOST,     /* the journal has another row there, or none */
  SW_TRUST_GIVEN_UP, /* the same, and a restoration says so */
  SW_TRUST_UNSIGNED  /* not there, and its signature is wrong: nobody's word */
} SwTrustState;

gboolean sw_trust_line_is_signed (const SwTrustLine *line, const char *uuid);
/* Invariant: a line whose head is there needs no signature, because it says nothing against the
 * file. */
gboolean sw_trust_line_find (SwStore *store,
                             const SwTrustLine *line,
                             const char *uuid,
                             GPtrArray *restorations,
                             SwTrustState *state,
                             GError **error);

/* Adds each line to *loss. */
gboolean sw_checkpoint_compare_lines (SwStore *store,
                                      const char *uuid,
                                      GArray *lines,
                                      GPtrArray *restorations,
                                      SwCheckpointLoss *loss,
                                      GError **error);

/* NULL when there is no such row. */
gboolean sw_checkpoint_find_hash (SwStore *store, gint64 seq, char **hash, GError **error);
/* SwRestoration of the whole file, by id. (transfer full) */
GPtrArray *sw_restorations_load (SwStore *store, GError **error);
/* The one that says that @line's head is gone, or NULL. (transfer none) */
const SwRestoration *sw_restorations_find (GPtrArray *restorations, const SwTrustLine *line);

G_END_DECLS
