/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Into the frame of the fit, and back (censored-private.h). */
#include "calc/censored-private.h"

#include <math.h>

/* Columns closer to each other than this, relative, are one. */
#define DEPENDENT 1e-10
#define MOST (SW_CENSORED_MOST + 1)

static double
dot_columns (const SwCensoredFrame *frame, gsize i, gsize j)
{
  double sum = 0.0;

  for (gsize row = 0; row < frame->n; row++)
    sum += frame->q[row * frame->k + i] * frame->q[row * frame->k + j];
  return sum;
}

void
sw_censored_frame_clear (SwCensoredFrame *frame)
{
  g_free (frame->q);
  g_free (frame->low);
  g_free (frame->high);
}

/* Takes column i's part out of column j, twice: once leaves rounding, twice leaves none. */
static void
take_out (SwCensoredFrame *frame, gsize i, gsize j)
{
  double *q = frame->q;

  for (int round = 0; round < 2; round++)
    {
      double part = dot_columns (frame, i, j);

      frame->r[i][j] += part;
      for (gsize row = 0; row < frame->n; row++)
        q[row * frame->k + j] -= part * q[row * frame->k + i];
    }
}

static gboolean
make_orthonormal (SwCensoredFrame *frame, const SwCensoredData *data)
{
  gsize k = data->k;

  frame->q = g_memdup2 (data->x, sizeof (double) * data->n * k);
  for (gsize j = 0; j < k; j++)
    {
      double before = sqrt (dot_columns (frame, j, j));

      for (gsize i = 0; i < j; i++)
        take_out (frame, i, j);
      frame->r[j][j] = sqrt (dot_columns (frame, j, j));
      if (!(frame->r[j][j] > DEPENDENT * before))
        return FALSE;
      for (gsize row = 0; row < data->n; row++)
        frame->q[row * k + j] /= frame->r[j][j];
    }
  return TRUE;
}

/* What least squares sees of an interval: its middle, or the end that is there. */
static double
get_middle (const SwInterval *y)
{
  if (isinf (y->low))
    return y->high;
  return isinf (y->high) ? y->low : y->low + 0.5 * (y->high - y->low);
}

static void
take_off_start (SwCensoredFrame *frame, const SwCensoredData *data)
{
  gsize k = data->k;
  double squares = 0.0;
  double widest = 0.0;

  for (gsize i = 0; i < data->n; i++)
    for (gsize j = 0; j < k; j++)
      frame->start[j] += get_middle (&data->y[i]) * frame->q[i * k + j];
  for (gsize i = 0; i < data->n; i++)
    {
      double line = sw_censored_dot (frame->start, frame->q + i * k, k);
      double residual = get_middle (&data->y[i]) - line;
      double width = data->y[i].high - data->y[i].low;

      squares += residual * residual;
      widest = isinf (width) ? widest : MAX (widest, width);
      frame->low[i] = data->y[i].low - line;
      frame->high[i] = data->y[i].high - line;
    }
  frame->scale = sqrt (squares / (double)data->n) + 0.3 * widest;
  if (!(frame->scale > 0.0))
    frame->scale = 1.0;
}

gboolean
sw_censored_frame_init (SwCensoredFrame *frame, const SwCensoredData *data)
{
  *frame = (SwCensoredFrame){ .n = data->n, .k = data->k };
  frame->low = g_new (double, data->n);
  frame->high = g_new (double, data->n);
  if (!make_orthonormal (frame, data))
    return FALSE;
  take_off_start (frame, data);
  for (gsize i = 0; i < data->n; i++)
    {
      frame->low[i] /= frame->scale;
      frame->high[i] /= frame->scale;
    }
  return TRUE;
}

void
sw_censored_frame_solve (const SwCensoredFrame *frame, const double *in, double *out)
{
  for (gsize i = frame->k; i-- > 0;)
    {
      out[i] = in[i];
      for (gsize j = i + 1; j < frame->k; j++)
        out[i] -= frame->r[i][j] * out[j];
      out[i] /= frame->r[i][i];
    }
}

/* Columns first, then rows: r^-1 C r^-T times scale^2; log sigma has no unit. */
void
sw_censored_frame_transform (const SwCensoredFrame *frame,
                             double inverse[MOST][MOST],
                             SwCensoredFit *fit)
{
  gsize k = frame->k;
  double half[MOST][MOST] = { { 0 } };
  double column[MOST] = { 0 };

  for (gsize j = 0; j <= k; j++)
    {
      for (gsize i = 0; i < k; i++)
        column[i] = inverse[i][j] * frame->scale;
      sw_censored_frame_solve (frame, column, half[j]);
      half[j][k] = inverse[k][j];
    }
  for (gsize i = 0; i <= k; i++)
    {
      for (gsize j = 0; j < k; j++)
        column[j] = half[j][i] * frame->scale;
      sw_censored_frame_solve (frame, column, fit->covariance[i]);
      fit->covariance[i][k] = half[k][i];
    }
}
