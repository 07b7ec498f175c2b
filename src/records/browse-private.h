/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How each table is browsed: SQL expressions by which its rows are filtered, searched and named,
 * and the builder that joins them into one statement. */
#pragma once

#include "records/browse.h"
#include "records/cell-private.h"

G_BEGIN_DECLS

#define SW_BROWSE_TEXTS 8

/* SQL expressions over @from; NULL = the table has no such thing. */
typedef struct
{
  const char *from;    /* the table, LEFT JOINed with what the expressions speak of */
  const char *machine; /* id; its row is joined as `place` */
  const char *person;  /* id of who did it, joined as `who`; NULL = who wrote the row first */
  const char *people;  /* ids of everybody else who had a hand in it, with commas */
  const char *outcome; /* of the titration that it is or belongs to, a word */
  const char *title;   /* these four: see SwBrowseRow */
  const char *of;
  const char *word;
  const char *amount;                 /* m3 */
  const char *texts[SW_BROWSE_TEXTS]; /* searched, besides the machine's tag and name */
} SwBrowseTable;

const SwBrowseTable *sw_browse_table (SwTable table);

/* A statement as it grows, with its parameters. */
typedef struct
{
  GString *sql; /* Owned */
  SwCell cells[8];
  guint n_cells;
  char *words;                            /* Owned: the search, folded; cells point to it */
  guint machine, person, outcome, search; /* numbers of their parameters; 0 = not bound yet */
} SwBrowseQuery;

void sw_browse_query_init (SwBrowseQuery *query);
void sw_browse_query_clear (SwBrowseQuery *query);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwBrowseQuery, sw_browse_query_clear)

/* "?3" for a further parameter */
void sw_browse_query_bind (SwBrowseQuery *query, SwCell cell);
/* " FROM ..." with place and who */
void sw_browse_query_from (SwBrowseQuery *query, SwTable table);
/* The condition of a state, in parentheses where it needs them */
void sw_browse_query_state (SwBrowseQuery *query, SwTable table, SwBrowseState state);
/* Each appends " AND ..." for what the filter asks for, and nothing else. */
void sw_browse_query_place (SwBrowseQuery *query, SwTable table, const SwBrowseFilter *filter);
void sw_browse_query_person (SwBrowseQuery *query, SwTable table, const SwBrowseFilter *filter);
void sw_browse_query_time (SwBrowseQuery *query, const char *column, const SwBrowseFilter *filter);
void sw_browse_query_search (SwBrowseQuery *query,
                             const char *search,
                             const char *const *texts,
                             guint n_texts);

/* Id of who did it, an SQL expression. (transfer full) */
char *sw_browse_person_sql (SwTable table);
/* Whether a row, or a part of it, was amended, an SQL condition. (transfer full) */
char *sw_browse_amended_sql (SwTable table);

G_END_DECLS
