/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The standard normal distribution where others run out of digits: logarithms of probabilities far
 * in a tail, and of the difference of two that are nearly equal. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* log of the density at @z. */
double sw_normal_log_density (double z);
/* log Phi(z). -INFINITY for -INFINITY. */
double sw_normal_log_below (double z);
/* log (Phi(b) - Phi(a)) for a < b; either may be infinite. Relative error about 1e-13 (checked
 * against 60 digits, tests/reference). */
double sw_normal_log_between (double a, double b);

G_END_DECLS
