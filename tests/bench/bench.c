/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Medians and their ratio. */
#include "bench.h"

void
bench_init (Bench *bench)
{
  bench->times = g_array_new (FALSE, FALSE, sizeof (double));
}

void
bench_start (Bench *bench)
{
  bench->started_us = g_get_monotonic_time ();
}

void
bench_stop (Bench *bench)
{
  const double seconds = (double)(g_get_monotonic_time () - bench->started_us) / 1e6;

  g_array_append_val (bench->times, seconds);
}

static int
compare_cb (gconstpointer a, gconstpointer b)
{
  const double left = *(const double *)a, right = *(const double *)b;

  return left < right ? -1 : left > right;
}

double
bench_median (const Bench *bench)
{
  g_assert_cmpuint (bench->times->len, >, 0);
  g_array_sort (bench->times, compare_cb);
  return g_array_index (bench->times, double, bench->times->len / 2);
}

void
bench_print (const char *name, const Bench *what, const Bench *base)
{
  const double one = bench_median (what), other = bench_median (base);

  g_print ("%s\t%.6f s\t%.6f s\t%.2f\t(median of %u)\n", name, one, other, one / other,
           what->times->len);
}

void
bench_clear (Bench *bench)
{
  g_clear_pointer (&bench->times, g_array_unref);
}
