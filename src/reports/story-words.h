/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal in words: a record's story, an act, one entry; for the window and the command line
 * alike. Times are told in the zone of @wording.
 */
#pragma once

#include "records/browse.h"
#include "records/story.h"
#include "wording/sentence-record.h"

G_BEGIN_DECLS

/* "Appearance: cloudy (before: clear)". */
typedef struct
{
  char *column; /* name of the column in the file */
  char *label;  /* "Appearance" */
  char *before; /* NULL = empty before, or the row was new */
  char *after;  /* NULL = empty now */
} SwStoryLine;

/* The line as one text. (transfer full) */
char *sw_story_line_say (const SwWording *wording, const SwStoryLine *line);

typedef struct
{
  gint64 seq;
  gint64 act;
  gint64 utc_ms;
  SwTable table; /* SW_N_TABLES: the entry speaks of no record (a migration) */
  gint64 row;
  char *record;   /* "Sample M-07-260504-1"; NULL for a migration */
  char *sentence; /* "Amended on ... by ...: ..." */
  char *hash;
  gboolean voids;   /* it takes the record out of use */
  GPtrArray *lines; /* Owned SwStoryLine, in the order of the record */
} SwStoryEntry;

void sw_story_entry_free (SwStoryEntry *entry);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwStoryEntry, sw_story_entry_free)

/* Element SwStoryEntry, oldest first; empty for a row that is not there. (transfer full) */
GPtrArray *
sw_story_tell (SwStore *store, const SwWording *wording, SwTable table, gint64 row, GError **error);
/* All entries of an act. (transfer full) */
GPtrArray *sw_story_tell_act (SwStore *store, const SwWording *wording, gint64 act, GError **error);
/* One chapter. (transfer full) */
SwStoryEntry *
sw_story_tell_chapter (SwStore *store, const SwWording *wording, const SwChapter *chapter);

/* "Sample M-07-260504-1". (transfer full) */
char *sw_story_record (
    SwStore *store, const SwWording *wording, SwTable table, gint64 row, GError **error);
/* What a row is called where its kind is clear: "M-07-260504-1", "N. Invented". (transfer full) */
char *
sw_story_name (SwStore *store, const SwWording *wording, SwTable table, gint64 row, GError **error);

/* A row as it stands now by its journal: one line per column that is not empty (before NULL).
 * (transfer full) */
GPtrArray *sw_story_columns (
    SwStore *store, const SwWording *wording, SwTable table, gint64 row, GError **error);

G_END_DECLS
