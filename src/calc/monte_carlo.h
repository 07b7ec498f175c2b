/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Seeded Monte Carlo interval for doses of a few drops (JCGM 101:2008, 7.7: shortest or symmetric
 * coverage interval; here the probabilistically symmetric one). */
#pragma once

#include "calc/dose.h"

G_BEGIN_DECLS

/* 95 % interval of the best dose, mL, from @trials draws (>= 1000) with @seed. The end point is
 * drawn from a rectangle, the other lines from their own distributions (normal, or Student t where
 * freedom is finite). Same seed, same interval. */
gboolean sw_dose_monte_carlo (
    const SwDoseInput *input, gsize trials, guint32 seed, SwInterval *interval_ml, GError **error);

G_END_DECLS
