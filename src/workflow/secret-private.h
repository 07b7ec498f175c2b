/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is done with the text of a secret, and nothing else: measured, hashed, compared. */
#pragma once

#include "workflow/sign-in.h"

G_BEGIN_DECLS

/* How long one guess takes whoever has got hold of the file. */
typedef struct
{
  unsigned long long operations;
  gsize memory_bytes;
} SwSecretCost;

/* What secrets of the plant cost; a test takes the least that the library allows. */
extern const SwSecretCost sw_secret_cost;

/* An Argon2id text with a salt of its own. (transfer full) */
char *sw_secret_hash (const char *secret, const SwSecretCost *cost, GError **error);
/* FALSE also for what is no text, or no hash. */
gboolean sw_secret_matches (const char *hash, const char *secret);

/* Whether the file is guarded by somebody other than @person; 0 = by anybody. */
gboolean
sw_secret_guards_without (SwStore *store, gint64 person, gboolean *guarded, GError **error);

/* sw_secret_set at a cost. */
gboolean sw_secret_set_at (SwStore *store,
                           const SwActor *actor,
                           gint64 person,
                           const char *old,
                           const char *secret,
                           const SwSecretCost *cost,
                           GError **error);

G_END_DECLS
