/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two things measured in turns in one run, so that a busy machine slows both down: what counts is
 * their ratio. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  GArray *times; /* Owned: double, seconds */
  gint64 started_us;
} Bench;

void bench_init (Bench *bench);
void bench_start (Bench *bench);
void bench_stop (Bench *bench);
double bench_median (const Bench *bench);
/* "name<TAB>median of what<TAB>median of base<TAB>ratio" */
void bench_print (const char *name, const Bench *what, const Bench *base);
void bench_clear (Bench *bench);

G_END_DECLS
