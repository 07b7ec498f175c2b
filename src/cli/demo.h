/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demo plant: four invented machines with some 200 days of tests behind them.
 *
 * A seeded model forms acid day by day; invented people test it through the same guided tests and
 * set-up as real ones, with a clock that walks through those days. So the file is what real work
 * would have left, and verify and every recomputation hold for it.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  guint machines;
  guint tests; /* signed */
  guint doses; /* added */
} SwDemoCounts;

/* Makes a new file whose last moment is @at_ms; a file that is there is refused
 * (SW_RECORDS_ERROR_EXISTS). It has its name only once it is whole. @counts may be NULL. */
gboolean sw_demo_create (const char *path, gint64 at_ms, SwDemoCounts *counts, GError **error);

G_END_DECLS
