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

/* 2.7: an acid result of the plan's set size or above; off unless set. */
gboolean sw_schedule_goes_back (const SwPlan *plan, const SwTitration *titration);

/* The decision after a test of the plan was amended and now found acid: from the last decision that
 * counts, halved or back to the start, due at @now_ms. (transfer full) */
SwDecision *sw_schedule_decide_amended (SwStore *store,
                                        const SwPlan *plan,
                                        const SwTitration *titration,
                                        gint64 now_ms,
                                        GError **error);
/* The decision that keeps a day which a correction would have put off: the interval starts again,
 * and is never longer than the one that counts. @titration 0 = none. (transfer full) */
SwDecision *sw_schedule_keep_due (
    SwStore *store, const SwPlan *plan, gint64 titration, gint64 due_ms, GError **error);

/* The last millisecond of the local day of @ms, by the store's offset then. */
gint64 sw_schedule_end_of_day (SwStore *store, gint64 ms);

G_END_DECLS
