/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An administrator at the set-up of a new, empty file: finds forms and fields by their names,
 * types, picks, ticks and presses buttons. */
#pragma once

#include "app/setup/form.h"
#include "app/setup/setup-page.h"
#include "app/window.h"
#include "support/support.h"
#include "tests/app/snapshot.h"

G_BEGIN_DECLS

/* 2026-11-24 05:00:00 UTC */
#define BENCH_NOW_MS G_GINT64_CONSTANT (1795496400000)

typedef struct
{
  SwTestFolder *folder; /* Owned */
  SwContext *context;   /* Owned */
  gint64 administrator; /* "I. Nobody", IN */
  SwWindow *window;     /* Owned: destroyed with the bench */
} Bench;

/* The secret of the only person on file. */
#define BENCH_SECRET "seven grey geese"

/* An empty file but for its administrator, who signed in, with set-up on screen. */
Bench *bench_new (const char *language, int width, int height, gboolean dark);
/* Closes the file and opens it again, in English, in the smallest window. */
void bench_reopen (Bench *bench, SwOpenMode mode);
void bench_free (Bench *bench);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Bench, bench_free)

SwStore *bench_store (Bench *bench);
/* The administrator signs in (again). */
void bench_sign_in (Bench *bench);
/* The section on screen. (transfer none) */
GtkWidget *bench_section (Bench *bench);
void bench_show (Bench *bench, const char *section);
/* A new record's form, or that of a saved one. */
void bench_open (Bench *bench, const char *section, gint64 id);

/* The form's row with that name; within the nth small form of a list with `list` not NULL. */
GtkWidget *bench_row (Bench *bench, const char *list, guint nth, const char *field);
void bench_type (Bench *bench, const char *field, const char *text);
void bench_pick (Bench *bench, const char *field, gint64 value);
void bench_tick (Bench *bench, const char *field, gboolean on);
/* The same in a small form of a list. */
void bench_type_in (Bench *bench, const char *list, guint nth, const char *field, const char *text);
void bench_pick_in (Bench *bench, const char *list, guint nth, const char *field, gint64 value);
void bench_tick_in (Bench *bench, const char *list, guint nth, const char *field, gboolean on);
void bench_add_to (Bench *bench, const char *list);
void bench_reason (Bench *bench, const char *text);
void bench_press (Bench *bench, const char *label);

/* Saves; FALSE when the form did not let go. */
gboolean bench_save (Bench *bench);
/* The error shown at a field, or NULL. (transfer none) */
const char *bench_error (Bench *bench, const char *field);
const char *bench_text (Bench *bench, const char *field);
/* The text on the page holds @part. */
void bench_assert_says (Bench *bench, const char *part);
/* The one row of a table in use; fails when there are more. */
gint64 bench_only (Bench *bench, SwTable table);

/* ---- a plant, through the forms ---- */
gint64 bench_add_solvent (Bench *bench);
gint64 bench_add_neutraliser (Bench *bench);
gint64 bench_add_lot (Bench *bench, gint64 product);
gint64 bench_add_dropper (Bench *bench, gint64 product);
gint64 bench_adopt_method (Bench *bench, gint64 titrant);
/* Fills the whole form of a machine that lacks nothing; does not save. */
void bench_fill_machine (Bench *bench, gint64 solvent, gint64 neutraliser, gint64 method);

G_END_DECLS
