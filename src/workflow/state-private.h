/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Steps of the answer to "how does this machine stand", for state.c and todo.c. */
#pragma once

#include "workflow/due.h"

G_BEGIN_DECLS

/* The newest signed test of a machine that is no control test; NULL without an error when there is
 * none. (transfer full) */
SwTitration *sw_state_last_test (SwStore *store, gint64 machine, GError **error);

/* The active plan of a machine that is due first, with its last decision (either may be NULL).
 * @first_plan: the machine's first active plan, 0 = none. */
gboolean sw_state_next_decision (
    SwStore *store, gint64 machine, gint64 *first_plan, SwDecision **decision, GError **error);

/* Acid was found and nothing was dosed: the next test is due at once. */
gboolean sw_state_is_undosed_acid (const SwMachineState *state);

G_END_DECLS
