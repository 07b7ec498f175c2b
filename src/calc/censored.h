/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A straight line through observations that are known as intervals only, by maximum likelihood:
 *
 *   z_i = x_i . beta + sigma * eps_i, eps_i standard normal, seen as low_i < z_i <= high_i
 *
 * An end may be open (infinite); low = high is an exact observation. This file finds the maximum
 * and its curvature; whether there is one is asked before (calc/line.h).
 *
 * Check: R survival::survreg, mpmath (tests/reference).
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

#define SW_CENSORED_MOST 3 /* regressors, the intercept's included */

typedef struct
{
  const SwInterval *y; /* n, low <= high, not both infinite */
  const double *x;     /* n rows of k regressors; independent columns */
  gsize n;
  gsize k; /* 1 to SW_CENSORED_MOST */
} SwCensoredData;

typedef struct
{
  double beta[SW_CENSORED_MOST];
  double sigma;
  gboolean sigma_given;
  double log_likelihood;
  /* of (beta, log sigma), from the observed information; row and column of log sigma are NAN when
   * sigma was given */
  double covariance[SW_CENSORED_MOST + 1][SW_CENSORED_MOST + 1];
  int iterations;
} SwCensoredFit;

/* Called with the log likelihood after each accepted step; for tests. */
typedef void (*SwCensoredTrace) (double log_likelihood, gpointer data);

/* @sigma > 0 is kept; NAN: it is fitted too. FALSE when no maximum was reached (columns that depend
 * on each other, or a likelihood that rises for ever). */
gboolean sw_censored_fit (const SwCensoredData *data,
                          double sigma,
                          SwCensoredTrace trace,
                          gpointer trace_data,
                          SwCensoredFit *fit);

/* The log likelihood at given parameters. */
double sw_censored_log_likelihood (const SwCensoredData *data, const double *beta, double sigma);

G_END_DECLS
