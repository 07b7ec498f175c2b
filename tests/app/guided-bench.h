/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test's frame in a window of its own, over the invented plant, driven through its
 * widgets: what is pressed and typed here is what a person presses and types. */
#pragma once

#include "app/test/test-page.h"
#include "support/plant.h"
#include "tests/app/box.h"
#include "tests/app/snapshot.h"

G_BEGIN_DECLS

typedef struct
{
  int width;
  int height;
  gboolean dark;
  const char *language; /* NULL = English */
} SwBenchLook;

typedef struct
{
  SwTestPlant *plant; /* Owned; its store has gone to the context */
  SwWording *wording; /* Owned */
  SwContext *context; /* Owned */
  SwTestPage *page;   /* Owned by the window */
  GtkWindow *window;  /* Owned */
  SwGuidedTest *test; /* Borrowed: the page owns it; dangles once the test is left */
} SwBench;

/* @look NULL: 1280 x 900, light, English. The technician of the plant is at the bench. */
SwBench *sw_bench_new (const SwBenchLook *look);
/* Another person signed in. */
void sw_bench_work_as (SwBench *bench, gint64 person);
void sw_bench_free (SwBench *bench);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwBench, sw_bench_free)

void sw_bench_begin (SwBench *bench, SwPurpose purpose, gint64 answers_dose);
/* As after a restart of the program. */
void sw_bench_resume (SwBench *bench, gint64 titration);

/* The page that is shown. */
GtkWidget *sw_bench_shown (SwBench *bench);
/* A template child of it by id; fails the test when there is none. */
GtkWidget *sw_bench_find (SwBench *bench, GType type, const char *id);
void sw_bench_press (SwBench *bench, const char *id); /* a button by id */
void sw_bench_type (SwBench *bench, const char *id, const char *text);
void sw_bench_answer (SwBench *bench, const char *id, SwAnswer answer);
void sw_bench_tile (SwBench *bench, guint number); /* 1 = the first colour field */
/* The error beside a row of any kind, or NULL. (transfer none) */
const char *sw_bench_error (SwBench *bench, const char *id);
/* Whether the page shows these words anywhere. */
gboolean sw_bench_shows (SwBench *bench, const char *words);
#define sw_bench_assert_shows(bench, words)                                                        \
  G_STMT_START                                                                                     \
  {                                                                                                \
    if (!sw_bench_shows (bench, words))                                                            \
      {                                                                                            \
        g_autofree char *seen = sw_visible_text (GTK_WIDGET ((bench)->page));                      \
        g_error ("not shown: \"%s\" in:\n%s", words, seen);                                        \
      }                                                                                            \
  }                                                                                                \
  G_STMT_END

/* Fails the test, with what the page shows, when the test stands at another step. */
#define sw_bench_assert_step(bench, step)                                                          \
  G_STMT_START                                                                                     \
  {                                                                                                \
    if (sw_guided_test_get_step ((bench)->test) != (step))                                         \
      {                                                                                            \
        g_autofree char *seen = sw_visible_text (sw_bench_shown (bench));                          \
        g_error ("at step %d, not %s:\n%s", sw_guided_test_get_step ((bench)->test), #step, seen); \
      }                                                                                            \
  }                                                                                                \
  G_STMT_END

/* The box over the page, NULL = none. */
GtkWidget *sw_bench_box (SwBench *bench);
/* Presses Sign on the page and answers the box. */
void sw_bench_sign (SwBench *bench);

/* Whole pages, filled as a careful person would. */
void sw_bench_draw (SwBench *bench);
void sw_bench_prepare (SwBench *bench);
/* Acid at 0 to @drops - 1, then neutral twice at @drops; ends on Result or Check. */
void sw_bench_titrate (SwBench *bench, guint drops);

/* A digest of all that is in the file, to see that nothing was written. (transfer full) */
char *sw_bench_digest (SwBench *bench);

G_END_DECLS
