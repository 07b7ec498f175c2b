/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Descriptors of the tables about the file itself (trust.h). */
#include "records/table-private.h"
#include "records/trust.h"

#define ROW SwSignIn
static const SwColumn sign_in_columns[] = { ID (person), BOOLEAN (accepted) };
#undef ROW

#define ROW SwCheckpoint
static const SwColumn checkpoint_columns[]
    = { ID (seq), TEXT (head), TEXT (key), TEXT (signature) };
#undef ROW

#define ROW SwRestoration
static const SwColumn restoration_columns[] = {
  TEXT (backup), ID (kept_seq), TEXT (kept_head), ID (lost_seq), TEXT (lost_head),
};
#undef ROW

/* By SwTable, from SW_TABLE_SIGN_IN. */
const SwTableInfo sw_trust_tables[] = {
  TABLE ("sign_in", SwSignIn, sign_in_columns),
  TABLE ("checkpoint", SwCheckpoint, checkpoint_columns),
  TABLE ("restoration", SwRestoration, restoration_columns),
};
G_STATIC_ASSERT (G_N_ELEMENTS (sw_trust_tables) == SW_TABLE_RESTORATION - SW_TABLE_SIGN_IN + 1);
