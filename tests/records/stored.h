/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files that earlier versions of the program wrote: data/README.md. */
#pragma once

#include "fixture.h"

G_BEGIN_DECLS

typedef struct
{
  const char *name; /* of the test's path */
  int version;
  gint64 journal_rows;
  gint64 last_ms; /* of its journal */
} Stored;

extern const Stored stored_files[];
extern const gsize stored_n_files;

/* For g_test_add with a Stored: a copy of it, closed, and a clock that stands a minute later. */
void stored_set_up (Fixture *fixture, gconstpointer data);

G_END_DECLS
