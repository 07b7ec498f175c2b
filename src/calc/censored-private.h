/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The units in which the fit works: orthonormal columns, residuals of a first line over their size.
 * No unit, origin or scale of the data is left in them. */
#pragma once

#include "calc/censored.h"

G_BEGIN_DECLS

typedef struct
{
  gsize n;
  gsize k;
  double *q;   /* Owned: n x k, orthonormal columns */
  double *low; /* Owned: residuals over scale */
  double *high;
  double r[SW_CENSORED_MOST][SW_CENSORED_MOST]; /* x = q r, upper triangle */
  double start[SW_CENSORED_MOST];               /* the line that was taken off, in q */
  double scale;
} SwCensoredFrame;

gboolean sw_censored_frame_init (SwCensoredFrame *frame, const SwCensoredData *data);
void sw_censored_frame_clear (SwCensoredFrame *frame);
/* r^-1 of @in. */
void sw_censored_frame_solve (const SwCensoredFrame *frame, const double *in, double *out);
/* The covariance of (beta, log sigma) from that of (gamma, log sigma) in the frame. */
void sw_censored_frame_transform (const SwCensoredFrame *frame,
                                  double inverse[SW_CENSORED_MOST + 1][SW_CENSORED_MOST + 1],
                                  SwCensoredFit *fit);

static inline double
sw_censored_dot (const double *a, const double *b, gsize n)
{
  double sum = 0.0;

  for (gsize i = 0; i < n; i++)
    sum += a[i] * b[i];
  return sum;
}

G_END_DECLS
