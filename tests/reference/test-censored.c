/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Probabilities and fits against figures from outside.
 *
 * log (Phi(b) - Phi(a)): mpmath, 60 digits. Fits: R 4.2.2, survival 3.5-3, survreg (Surv (lo, hi,
 * type = "interval2")) started from least squares, agreeing with mpmath to 1e-12. The series
 * drop-series-1.csv is invented; tobin.csv is the data set of R's survival package (durable goods,
 * left-censored at 0).
 */
#include "calc/censored.h"
#include "calc/normal.h"
#include "series.h"
#include "support/support.h"

#include <math.h>

/* ---- probabilities ---- */

typedef struct
{
  const char *name;
  double a, b, expected;
} LogRow;

static const LogRow log_rows[] = {
  { "far below", -INFINITY, -40.0, -804.60844201375379 },
  { "0 to 1", 0.0, 1.0, -1.0748623268620714 },
  { "5 to 6", 5.0, 6.0, -15.068446096529453 },
  { "8 to 9", 8.0, 9.0, -35.013618593437148 },
  { "37 to 38", 37.0, 38.0, -689.03058557689059 },
  { "-3 to 10", -3.0, 10.0, -0.0013508099647481938 },
};

static void
test_log (gconstpointer data)
{
  const LogRow *row = data;

  sw_assert_close (sw_normal_log_between (row->a, row->b), row->expected, 1e-13);
  sw_assert_close (sw_normal_log_between (-row->b, -row->a), row->expected, 1e-13);
}

/* ---- fits ---- */

typedef struct
{
  const char *name;
  gboolean open_below;
  double sigma; /* NAN = free */
  double intercept, slope, log_sigma, log_likelihood;
} FitRow;

static const FitRow fit_rows[] = {
  { "free", FALSE, NAN, -3.51619487380855, 0.114984185433671, -0.588935234485981,
    -17.4152103143316 },
  { "free open below", TRUE, NAN, -3.72555750332399, 0.11728369688945, -0.500958035171015,
    -14.1801738548267 },
  { "sigma 1", FALSE, 1.0, -3.59918156847, 0.114815557020, 0.0, -20.7474703787 },
  { "sigma 0.5", FALSE, 0.5, -3.50900548215219, 0.114999964542661, -0.6931471805599453,
    -17.5410334186491 },
};

static void
test_fit (gconstpointer data)
{
  const FitRow *row = data;
  Series series;
  SwCensoredFit fit;

  series_load_drops (&series, row->open_below);
  g_assert_true (sw_censored_fit (&series.data, row->sigma, NULL, NULL, &fit));
  sw_assert_close (fit.beta[0], row->intercept, 1e-9);
  sw_assert_close (fit.beta[1], row->slope, 1e-9);
  sw_assert_close (exp (log (fit.sigma) - row->log_sigma), 1.0, 1e-9);
  sw_assert_close (fit.log_likelihood, row->log_likelihood, 1e-10);
  g_assert_cmpint (fit.iterations, <, 20);
}

static void
test_covariance (void)
{
  static const double expected[3][3] = { { .0928243768562 },
                                         { -7.70289532060e-4, 8.27694749569e-6 },
                                         { -.00339493579309, -7.96037179296e-6, .0442993759667 } };
  Series series;
  SwCensoredFit fit;

  series_load_drops (&series, FALSE);
  g_assert_true (sw_censored_fit (&series.data, NAN, NULL, NULL, &fit));
  for (int i = 0; i < 3; i++)
    for (int j = 0; j <= i; j++)
      {
        sw_assert_close (fit.covariance[i][j], expected[i][j], 1e-8);
        sw_assert_close (fit.covariance[j][i], expected[i][j], 1e-8);
      }
}

/* Six tests of a machine that never shows acid twice alike: a line threads them all. */
static void
test_threaded (void)
{
  static const SwInterval y[] = { { 0, 1 }, { 0, 1 }, { 1, 2 }, { 2, 3 }, { 3, 4 }, { 4, 5 } };
  static const double x[] = { 1, 7, 1, 14, 1, 21, 1, 28, 1, 35, 1, 42 };
  const SwCensoredData data = { y, x, G_N_ELEMENTS (y), 2 };
  SwCensoredFit fit;

  g_assert_true (sw_censored_fit (&data, 0.5, NULL, NULL, &fit));
  sw_assert_close (fit.beta[0], -0.830339283833384, 1e-9);
  sw_assert_close (fit.beta[1], 0.122349091973604, 1e-9);
  sw_assert_close (fit.log_likelihood, -2.969836686006891, 1e-10);
}

/* Left-censored at 0, the rest exact, on two covariates. */
static void
test_tobin (void)
{
  /* survreg's own variances of (beta, log sigma) */
  static const double variances[]
      = { 258.548815287645, 0.047778788753497, 0.00339354197357237, 0.0963001906646251 };
  g_autoptr (GPtrArray) rows = series_read_rows ("tobin.csv");
  Series series;
  SwCensoredFit fit;

  for (guint i = 0; i < rows->len; i++)
    {
      char **cells = rows->pdata[i];
      double durable = g_ascii_strtod (cells[0], NULL);

      series.y[i] = (SwInterval){ durable > 0.0 ? durable : -INFINITY, durable };
      series.x[3 * i] = 1.0;
      series.x[3 * i + 1] = g_ascii_strtod (cells[1], NULL);
      series.x[3 * i + 2] = g_ascii_strtod (cells[2], NULL);
    }
  series.data = (SwCensoredData){ series.y, series.x, rows->len, 3 };
  g_assert_true (sw_censored_fit (&series.data, NAN, NULL, NULL, &fit));
  sw_assert_close (fit.beta[0], 15.1448663322209, 1e-9);
  sw_assert_close (fit.beta[1], -0.129059283864553, 1e-9);
  sw_assert_close (fit.beta[2], -0.0455416628896779, 1e-9);
  sw_assert_close (log (fit.sigma), 1.71785092236641, 1e-9);
  sw_assert_close (fit.log_likelihood, -28.9401331997207, 1e-10);
  for (int i = 0; i < 4; i++)
    sw_assert_close (fit.covariance[i][i], variances[i], 1e-8);
}

/* R's pnorm (z, log.p = TRUE) */
static void
test_log_below (void)
{
  sw_assert_close (sw_normal_log_below (1.0), -0.17275377902345, 1e-13);
  sw_assert_close (sw_normal_log_below (-40.0), -804.60844201375379, 1e-13);
  g_assert_true (isinf (sw_normal_log_below (-INFINITY)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/reference/normal/log-between", log_rows, test_log);
  SW_TEST_ROWS ("/reference/censored/drops", fit_rows, test_fit);
  g_test_add_func ("/reference/normal/log-below", test_log_below);
  g_test_add_func ("/reference/censored/covariance", test_covariance);
  g_test_add_func ("/reference/censored/threaded", test_threaded);
  g_test_add_func ("/reference/censored/tobin", test_tobin);
  return g_test_run ();
}
