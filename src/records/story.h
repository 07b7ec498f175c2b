/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The story of one record: its journal rows, for people to read. */
#pragma once

#include "records/record.h"

G_BEGIN_DECLS

/* One column that an act changed; texts as the journal has them (SI, words, escaped). */
typedef struct
{
  char *column;
  char *before; /* NULL = empty */
  char *after;  /* NULL = empty */
} SwChange;

typedef struct
{
  gint64 seq;
  gint64 act; /* rows with the same number belong to one action */
  gint64 utc_ms;
  int offset_min;
  gint64 person; /* 0 = the program */
  char *kind;    /* "amend" */
  char *identified_by;
  char *workstation;
  char *version;
  char *reason; /* NULL = none given */
  char *action; /* "insert", "update", "void", "migrate" */
  char *table;  /* whose row it is: "titration" */
  gint64 row;
  gint64 clock_back_ms;  /* the clock stood so far before the journal's last time; 0 = it did not */
  gint64 clock_ahead_ms; /* it had jumped ahead so far since the act before; 0 = it had not */
  char *hash;
  GPtrArray *changes; /* Owned SwChange, by column */
} SwChapter;

void sw_chapter_free (SwChapter *chapter);

/* Oldest first; empty for a row that is not there. (transfer full) */
GPtrArray *sw_story_read (SwStore *store, SwTable table, gint64 row, GError **error);

G_END_DECLS
