/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole test and its dose as a row of acts, for cutting short anywhere. */
#pragma once

#include "records/store-private.h"
#include "records/test.h"
#include "support/plant.h"

G_BEGIN_DECLS

#define SCRIPT_ACTS 11

typedef struct
{
  SwTestFolder *folder; /* Owned */
  char *path;           /* Owned */
  gint64 now_ms;
  SwClock clock;
  gboolean no_backup; /* migrates without the backup that comes before */
} Script;

/* The plant's file at rest, made once per program. */
void script_make_master (void);
void script_free_master (void);

/* A fresh copy of the plant in a folder of its own. */
void script_set_up (Script *script);
/* An empty folder: what a machine finds after a cut is written there. */
void script_set_up_empty (Script *script);
void script_tear_down (Script *script);

SwStore *script_open (Script *script, const char *vfs, GError **error);
/* Runs act @i, 0 to SCRIPT_ACTS - 1; the acts before it must stand in the file. The clock is set by
 * @i, so that the same act writes the same journal rows every time. */
gboolean script_run (Script *script, SwStore *store, int i, GError **error);
/* Heads of the journal: [0] before the first act, [i + 1] after act i. */
const char *const *script_heads (void);
/* How many acts the file holds, by its head; -1 when the head is that of no whole number of acts.
 */
int script_count_acts (SwStore *store);
/* Opens with the normal VFS, asserts that verify finds nothing and that the file holds between
 * @at_least and @at_most acts; then runs the acts that are left and closes. */
void script_assert_recovered (Script *script, int at_least, int at_most);

G_END_DECLS
