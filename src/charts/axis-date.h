/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates on an axis, as short as they can be. */
#pragma once

#include "charts/ticks.h"
#include "wording/wording.h"

G_BEGIN_DECLS

/* "24 May" for steps of days, "May" for months, "2026" for January or years; with @with_year "24
 * May 2026", "May 2026". (transfer full) */
char *sw_axis_date_format (const SwWording *wording,
                           gint64 utc_ms,
                           const SwTimeStep *step,
                           gboolean with_year);

G_END_DECLS
