/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rank correlation with a permutation p: how often would ranks drawn at random correlate as much?
 */
#include "calc/trend.h"

#include <gsl/gsl_permutation.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

#define FEWEST 4
#define EXACT_TO 8 /* 40,320 orders */
#define DRAWS 99999
#define SEED 19040101 /* any number: the same question gets the same answer */
/* Rounding of a correlation that is the same. */
#define SAME 1e-12

/* Equal values share their mean rank. */
static double *
make_ranks (const double *values, gsize n)
{
  g_autofree size_t *order = g_new (size_t, n);
  double *ranks = g_new (double, n);

  gsl_sort_index (order, values, 1, n);
  for (gsize i = 0, tied; i < n; i += tied)
    {
      for (tied = 1; i + tied < n && values[order[i + tied]] == values[order[i]];)
        tied++;
      for (gsize j = i; j < i + tied; j++)
        ranks[order[j]] = (double)i + ((double)tied + 1.0) / 2.0;
    }
  return ranks;
}

static gboolean
changes (const double *values, gsize n)
{
  for (gsize i = 1; i < n; i++)
    if (values[i] != values[0])
      return TRUE;
  return FALSE;
}

static double
correlate (const double *x, const double *y, gsize n)
{
  return gsl_stats_correlation (x, 1, y, 1, n);
}

static double
get_exact_p (const double *x, const double *y, gsize n, double rho)
{
  gsl_permutation *order = gsl_permutation_calloc (n);
  double shuffled[EXACT_TO];
  gsize extreme = 0;
  gsize all = 0;

  do
    {
      for (gsize i = 0; i < n; i++)
        shuffled[i] = y[gsl_permutation_get (order, i)];
      extreme += fabs (correlate (x, shuffled, n)) >= fabs (rho) - SAME;
      all++;
    }
  while (gsl_permutation_next (order) == GSL_SUCCESS);
  gsl_permutation_free (order);
  return (double)extreme / (double)all;
}

/* The order that was seen counts as one of the draws: p is never 0. */
static double
get_drawn_p (const double *x, const double *y, gsize n, double rho)
{
  gsl_rng *random = gsl_rng_alloc (gsl_rng_mt19937);
  g_autofree double *shuffled = g_memdup2 (y, sizeof *y * n);
  gsize extreme = 1;

  gsl_rng_set (random, SEED);
  for (int i = 0; i < DRAWS; i++)
    {
      gsl_ran_shuffle (random, shuffled, n, sizeof *shuffled);
      extreme += fabs (correlate (x, shuffled, n)) >= fabs (rho) - SAME;
    }
  gsl_rng_free (random);
  return (double)extreme / (DRAWS + 1.0);
}

gboolean
sw_spearman_compute (const double *x, const double *y, gsize n, SwSpearman *result)
{
  g_autofree double *rank_x = NULL;
  g_autofree double *rank_y = NULL;

  g_return_val_if_fail (x != NULL && y != NULL && result != NULL, FALSE);
  if (n < FEWEST || !changes (x, n) || !changes (y, n))
    return FALSE;
  rank_x = make_ranks (x, n);
  rank_y = make_ranks (y, n);
  result->rho = correlate (rank_x, rank_y, n);
  result->p = n <= EXACT_TO ? get_exact_p (rank_x, rank_y, n, result->rho)
                            : get_drawn_p (rank_x, rank_y, n, result->rho);
  return TRUE;
}
