/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maximum of the likelihood of a line through intervals.
 *
 * In delta = beta / sigma and tau = 1 / sigma the ends of an interval, a = tau * low - x . delta
 * and b = tau * high - x . delta, are linear, and log (Phi(b) - Phi(a)) is concave in them: there
 * is one hill, and damped Newton climbs it from anywhere (Olsen 1978 for one-sided censoring, from
 * memory).
 *
 *   columns of x   -> orthonormal q = x R^-1, so that no unit or origin of x matters
 *   y              -> residuals of the least-squares line through what is finite, over their size
 *   (delta, tau)   -> from (0, 1): that line
 *
 * Invariants
 * 1. tau > 0.
 * 2. The likelihood never falls from one step to the next.
 */
#include "calc/censored-private.h"

#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

#include "calc/normal.h"

#define MOST_ITERATIONS 200
#define MOST_HALVINGS 60
/* Newton's expected gain, in log likelihood, that is no gain any more. */
#define LEAST_GAIN 1e-13
#define MOST (SW_CENSORED_MOST + 1)

/* (delta, tau); tau is the last of the k + 1. */
typedef struct
{
  double theta[MOST];
  double log_likelihood;
  double gradient[MOST];
  double hessian[MOST][MOST];
} Point;

/* ---- likelihood, gradient, curvature ---- */

/* Of one observation as a function of its ends a and b. */
typedef struct
{
  double value, by_a, by_b, by_aa, by_ab, by_bb;
} Term;

static Term
make_term (double a, double b)
{
  double value = sw_normal_log_between (a, b);
  double at_a = isinf (a) ? 0.0 : exp (sw_normal_log_density (a) - value);
  double at_b = isinf (b) ? 0.0 : exp (sw_normal_log_density (b) - value);

  return (Term){ .value = value,
                 .by_a = -at_a,
                 .by_b = at_b,
                 .by_aa = isinf (a) ? 0.0 : at_a * (a - at_a),
                 .by_ab = at_a * at_b,
                 .by_bb = isinf (b) ? 0.0 : -at_b * (b + at_b) };
}

/* Adds @weight times the outer product of two vectors of the parameters. */
static void
add_outer (Point *point, double weight, const double *u, const double *v, gsize n)
{
  for (gsize i = 0; i < n; i++)
    for (gsize j = 0; j < n; j++)
      point->hessian[i][j] += weight * u[i] * v[j];
}

static void
add_slope (Point *point, double weight, const double *u, gsize n)
{
  for (gsize i = 0; i < n; i++)
    point->gradient[i] += weight * u[i];
}

static void
add_interval (Point *point, double a, double b, const double *by_a, const double *by_b, gsize n)
{
  Term term = make_term (a, b);

  point->log_likelihood += term.value;
  if (!isinf (a))
    {
      add_slope (point, term.by_a, by_a, n);
      add_outer (point, term.by_aa, by_a, by_a, n);
    }
  if (!isinf (b))
    {
      add_slope (point, term.by_b, by_b, n);
      add_outer (point, term.by_bb, by_b, by_b, n);
    }
  if (isinf (a) || isinf (b))
    return;
  add_outer (point, term.by_ab, by_a, by_b, n);
  add_outer (point, term.by_ab, by_b, by_a, n);
}

/* The density of an exact one is tau * phi(b), in units of the scale. */
static void
add_exact (Point *point, double b, const double *by_b, gsize n)
{
  double tau = point->theta[n - 1];

  point->log_likelihood += log (tau) + sw_normal_log_density (b);
  add_slope (point, -b, by_b, n);
  add_outer (point, -1.0, by_b, by_b, n);
  point->gradient[n - 1] += 1.0 / tau;
  point->hessian[n - 1][n - 1] -= 1.0 / (tau * tau);
}

static void
evaluate (const SwCensoredFrame *frame, Point *point)
{
  gsize k = frame->k;
  double tau = point->theta[k];

  point->log_likelihood = 0.0;
  memset (point->gradient, 0, sizeof point->gradient);
  memset (point->hessian, 0, sizeof point->hessian);
  for (gsize i = 0; i < frame->n; i++)
    {
      double by_a[MOST];
      double by_b[MOST];
      double line = sw_censored_dot (frame->q + i * k, point->theta, k);

      for (gsize j = 0; j < k; j++)
        by_a[j] = by_b[j] = -frame->q[i * k + j];
      by_a[k] = frame->low[i];
      by_b[k] = frame->high[i];
      if (frame->low[i] < frame->high[i])
        add_interval (point, tau * frame->low[i] - line, tau * frame->high[i] - line, by_a, by_b,
                      k + 1);
      else
        add_exact (point, tau * frame->high[i] - line, by_b, k + 1);
    }
}

/* ---- the climb ---- */

/* Inverts a symmetric matrix that must be positive definite, the first @n rows and columns. */
static gboolean
invert (double matrix[MOST][MOST], gsize n)
{
  gsl_matrix *copy = gsl_matrix_alloc (n, n);
  gsl_matrix *inverse = gsl_matrix_alloc (n, n);
  gsl_permutation *order = gsl_permutation_alloc (n);
  gboolean definite = TRUE;

  for (gsize i = 0; i < n; i++)
    for (gsize j = 0; j < n; j++)
      gsl_matrix_set (copy, i, j, matrix[i][j]);
  gsl_linalg_pcholesky_decomp (copy, order);
  for (gsize i = 0; i < n; i++)
    definite = definite && gsl_matrix_get (copy, i, i) > 0.0;
  if (definite)
    {
      gsl_linalg_pcholesky_invert (copy, order, inverse);
      for (gsize i = 0; i < n; i++)
        for (gsize j = 0; j < n; j++)
          matrix[i][j] = gsl_matrix_get (inverse, i, j);
    }
  gsl_matrix_free (copy);
  gsl_matrix_free (inverse);
  gsl_permutation_free (order);
  return definite;
}

/* Newton's step for the first @n parameters; *gain is what the likelihood should rise by, twice. */
static gboolean
find_step (const Point *point, gsize n, double step[MOST], double *gain)
{
  double information[MOST][MOST];

  for (gsize i = 0; i < n; i++)
    for (gsize j = 0; j < n; j++)
      information[i][j] = -point->hessian[i][j];
  if (!invert (information, n))
    return FALSE;
  memset (step, 0, sizeof (double) * MOST);
  for (gsize i = 0; i < n; i++)
    step[i] = sw_censored_dot (information[i], point->gradient, n);
  *gain = sw_censored_dot (step, point->gradient, n);
  return isfinite (*gain);
}

/* Goes as much of the step as makes the likelihood rise. */
static gboolean
take_step (const SwCensoredFrame *frame, Point *point, const double step[MOST])
{
  Point next;
  double part = 1.0;

  for (int i = 0; i < MOST_HALVINGS; i++, part *= 0.5)
    {
      for (gsize j = 0; j <= frame->k; j++)
        next.theta[j] = point->theta[j] + part * step[j];
      if (!(next.theta[frame->k] > 0.0))
        continue;
      evaluate (frame, &next);
      if (next.log_likelihood >= point->log_likelihood)
        {
          *point = next;
          return TRUE;
        }
    }
  return FALSE;
}

/* Newton doubles the digits with each step: the last one, too small for the likelihood to show, is
 * taken whole. */
static void
polish (const SwCensoredFrame *frame, Point *point, const double step[MOST])
{
  for (gsize j = 0; j <= frame->k; j++)
    point->theta[j] += step[j];
  evaluate (frame, point);
}

/* @n: k + 1 parameters, or k when sigma is given. */
static gboolean
climb (const SwCensoredFrame *frame,
       Point *point,
       gsize n,
       SwCensoredTrace trace,
       gpointer data,
       int *steps)
{
  double step[MOST];
  double gain;

  evaluate (frame, point);
  for (*steps = 0; *steps < MOST_ITERATIONS; (*steps)++)
    {
      if (!find_step (point, n, step, &gain))
        return FALSE;
      if (gain < LEAST_GAIN * (1.0 + fabs (point->log_likelihood)))
        {
          polish (frame, point, step);
          return TRUE;
        }
      /* Where rounding hides the last rise, the top is reached as well as it can be. */
      if (!take_step (frame, point, step))
        return gain < sqrt (LEAST_GAIN);
      if (trace != NULL)
        trace (point->log_likelihood, data);
    }
  return FALSE;
}

/* ---- back to the units of the data ---- */

/* Curvature in (gamma, log sigma), gamma = delta / tau in q, units of the scale: chain rule from
 * (delta, tau), where the gradient is 0 at the top. delta = gamma * tau, tau = exp (-log sigma). */
static void
make_information (const SwCensoredFrame *frame, const Point *point, double information[MOST][MOST])
{
  gsize k = frame->k;
  double tau = point->theta[k];
  double by[MOST][MOST] = { { 0 } }; /* d theta_i / d parameter_j */

  for (gsize i = 0; i < k; i++)
    {
      by[i][i] = tau;
      by[i][k] = -point->theta[i];
    }
  by[k][k] = -tau;
  for (gsize i = 0; i <= k; i++)
    for (gsize j = 0; j <= k; j++)
      {
        information[i][j] = 0.0;
        for (gsize u = 0; u <= k; u++)
          for (gsize v = 0; v <= k; v++)
            information[i][j] -= by[u][i] * point->hessian[u][v] * by[v][j];
      }
}

static gboolean
fill_covariance (const SwCensoredFrame *frame, const Point *point, SwCensoredFit *fit)
{
  gsize k = frame->k;
  double information[MOST][MOST];

  make_information (frame, point, information);
  if (!invert (information, fit->sigma_given ? k : k + 1))
    return FALSE;
  if (fit->sigma_given)
    for (gsize i = 0; i <= k; i++)
      information[i][k] = information[k][i] = 0.0;
  sw_censored_frame_transform (frame, information, fit);
  for (gsize i = 0; fit->sigma_given && i <= k; i++)
    fit->covariance[i][k] = fit->covariance[k][i] = NAN;
  return TRUE;
}

static gboolean
fill_fit (const SwCensoredData *data,
          const SwCensoredFrame *frame,
          const Point *point,
          SwCensoredFit *fit)
{
  gsize k = frame->k;
  double gamma[SW_CENSORED_MOST];

  for (gsize i = 0; i < k; i++)
    gamma[i] = frame->start[i] + frame->scale * point->theta[i] / point->theta[k];
  sw_censored_frame_solve (frame, gamma, fit->beta);
  fit->sigma = frame->scale / point->theta[k];
  fit->log_likelihood = sw_censored_log_likelihood (data, fit->beta, fit->sigma);
  return fill_covariance (frame, point, fit);
}

/* ---- public ---- */

gboolean
sw_censored_fit (const SwCensoredData *data,
                 double sigma,
                 SwCensoredTrace trace,
                 gpointer trace_data,
                 SwCensoredFit *fit)
{
  SwCensoredFrame frame;
  Point point = { 0 };
  gboolean found;

  g_return_val_if_fail (data != NULL && fit != NULL, FALSE);
  g_return_val_if_fail (data->k >= 1 && data->k <= SW_CENSORED_MOST && data->n >= 1, FALSE);
  g_return_val_if_fail (isnan (sigma) || sigma > 0.0, FALSE);

  *fit = (SwCensoredFit){ .sigma_given = !isnan (sigma) };
  found = sw_censored_frame_init (&frame, data);
  if (found)
    {
      point.theta[data->k] = isnan (sigma) ? 1.0 : frame.scale / sigma;
      found = climb (&frame, &point, isnan (sigma) ? data->k + 1 : data->k, trace, trace_data,
                     &fit->iterations)
              && fill_fit (data, &frame, &point, fit);
    }
  sw_censored_frame_clear (&frame);
  return found;
}

double
sw_censored_log_likelihood (const SwCensoredData *data, const double *beta, double sigma)
{
  double sum = 0.0;

  g_return_val_if_fail (data != NULL && beta != NULL && sigma > 0.0, NAN);
  for (gsize i = 0; i < data->n; i++)
    {
      double line = sw_censored_dot (data->x + i * data->k, beta, data->k);
      double a = (data->y[i].low - line) / sigma;
      double b = (data->y[i].high - line) / sigma;

      sum += a < b ? sw_normal_log_between (a, b) : sw_normal_log_density (b) - log (sigma);
    }
  return sum;
}
