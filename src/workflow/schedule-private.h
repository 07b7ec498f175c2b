/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedule decisions (2-calculations 2.7) from and into rows. */
#pragma once

#include "calc/schedule.h"
#include "records/test.h"

G_BEGIN_DECLS

/* The first decision of a plan: due at once. (transfer full) */
SwDecision *sw_schedule_first (const SwPlan *plan, gint64 now_ms, GError **error);

/* The decision after a closed titration of the plan; @facts but for elapsed_days. (transfer full)
 */
SwDecision *sw_schedule_decide (SwStore *store,
                                const SwPlan *plan,
                                const SwTitration *titration,
                                SwScheduleFacts *facts,
                                GError **error);

/* The last millisecond of the local day of @ms, by the store's offset then. */
gint64 sw_schedule_end_of_day (SwStore *store, gint64 ms);

G_END_DECLS
