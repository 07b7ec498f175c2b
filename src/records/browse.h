/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records as lists: ids by filter, and what a line of a list needs to know of one row. Made for
 * lists of 200,000 rows: the file sorts and filters, rows are loaded when they come on screen.
 *
 * Search knows no case in any script (Unicode case folding, composed form: "STRASSE" finds
 * "Straße"), but accents count ("Ol" does not find "Öl"). No character of it is a wildcard.
 */
#pragma once

#include "records/test.h"
#include "records/trust.h"

G_BEGIN_DECLS

typedef enum
{
  SW_BROWSE_CURRENT, /* not voided */
  SW_BROWSE_ALL,
  SW_BROWSE_VOIDED,
  SW_BROWSE_LATE,        /* written down late; voided or not */
  SW_BROWSE_AMENDED,     /* it, or a part of it (review-state.h), was amended; voided or not */
  SW_BROWSE_TO_REVIEW,   /* titrations: signed, never reviewed; not voided */
  SW_BROWSE_REVIEW_LOST, /* reviewed, and amended since; not voided */
  SW_N_BROWSE_STATES
} SwBrowseState;

typedef struct
{
  SwTable table;
  SwBrowseState state;
  gint64 machine; /* 0 = any; rows of tables without a machine have none */
  gint64 person;  /* 0 = any; who did it or had a hand in it, or wrote it when it names nobody */
  gint64 from_ms; /* [from_ms, to_ms) of happened_ms; 0 = open */
  gint64 to_ms;
  int outcome;        /* SwOutcomeKind of titrations and of what belongs to one; a sample has that
                         of its last portion with a result; -1 = any */
  const char *search; /* words, each of which must stand in one of the row's texts (code, name, tag,
                         remarks ...), whatever the case; NULL or "" = any */
} SwBrowseFilter;

/* Newest first (by happened_ms, then id). (transfer full) */
GArray *sw_browse_ids (SwStore *store, const SwBrowseFilter *filter, GError **error);

/* One line of a list; texts Owned, NULL = none. */
typedef struct
{
  gint64 id;
  SwTable table;
  gint64 happened_ms;
  int offset_min;
  gboolean late;
  gboolean voided;
  gboolean amended;
  gint64 machine;
  char *machine_tag;
  gint64 person; /* who did it; else who wrote it; 0 = the program */
  char *initials;
  char *title;    /* what people call it: sample code, lot code, name, tag; a number of versions,
                     readings and checkpoints (wording makes a name of it: sentence-record.h) */
  char *of;       /* what it belongs to, by the same kind of name: a lot's product */
  int outcome;    /* of titrations, else -1 */
  double net_low; /* steps; NAN */
  double net_high;
  double amount_ml; /* doses: added, else measured; NAN */
  char *word; /* a state in the file's words: "open", "retest_passed"; of a sign-in "accepted" or
               "refused"; NULL */
} SwBrowseRow;

void sw_browse_row_free (SwBrowseRow *row);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwBrowseRow, sw_browse_row_free)
/* (transfer full) */
SwBrowseRow *sw_browse_load (SwStore *store, SwTable table, gint64 id, GError **error);

/* Acts, newest first: first journal seq of each. The filter's table and state count only when
 * @of_table; search looks into reasons and entries. (transfer full) */
GArray *
sw_browse_acts (SwStore *store, const SwBrowseFilter *filter, gboolean of_table, GError **error);
/* The journal rows of an act, as chapters (records/story.h). (transfer full) */
GPtrArray *sw_browse_act (SwStore *store, gint64 act, GError **error);

G_END_DECLS
