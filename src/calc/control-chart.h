/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charts for control (2-calculations 2.8): individuals with moving range, EWMA, CUSUM.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2 to 6.3.2.4.
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

/* Which way is worse: the rules look at that side only. */
typedef enum
{
  SW_SIDE_HIGH,
  SW_SIDE_LOW
} SwSide;

typedef struct
{
  double mean;
  double mean_range; /* of the moving ranges of two */
  double sigma;      /* mean_range / 1.128 */
  double low;        /* mean -+ 3 sigma */
  double high;
  double range_high; /* upper limit of a moving range: 3.267 mean_range */
} SwIndividuals;

/* Limits from @n >= 2 values. FALSE for fewer, or a value that is not finite. */
gboolean sw_individuals_compute (const double *values, gsize n, SwIndividuals *limits);

typedef enum
{
  SW_RULE_BEYOND = 1 << 0,       /* one point beyond 3 sigma */
  SW_RULE_TWO_OF_THREE = 1 << 1, /* two of three beyond 2 sigma, the last point one of them */
  SW_RULE_NINE = 1 << 2          /* nine in a row on the bad side of the mean */
} SwRule;

/* The rules that each point breaks, as flags in @broken[n]. */
void sw_rules_apply (
    const double *values, gsize n, double mean, double sigma, SwSide bad, guint *broken);

#define SW_EWMA_LAMBDA 0.2
#define SW_EWMA_L 2.962
/* The averages, and whether each is beyond its limit on the bad side: start -+ L * sigma *
 * sqrt (lambda / (2 - lambda)). @beyond may be NULL. */
void sw_ewma_compute (const double *values,
                      gsize n,
                      double lambda,
                      double l,
                      double start,
                      double sigma,
                      SwSide bad,
                      double *averages,
                      gboolean *beyond);
double sw_ewma_limit (double lambda, double l, double start, double sigma, SwSide side);

#define SW_CUSUM_K 0.5 /* times sigma */
#define SW_CUSUM_H 4.0
/* The sums of what lies beyond target by more than @k (both in the values' unit), never below 0. */
void
sw_cusum_compute (const double *values, gsize n, double target, double k, SwSide bad, double *sums);

G_END_DECLS
