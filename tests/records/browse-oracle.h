/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a list should hold, worked out the slow way: every row loaded, every reference followed,
 * every story read, in plain C without a word of SQL. */
#pragma once

#include "browse-plant.h"
#include "records/browse.h"
#include "records/review-state.h"

G_BEGIN_DECLS

/* All that a filter may ask of one row. */
typedef struct
{
  SwBrowseRow row;      /* as sw_browse_load should give it; texts Owned */
  SwReviewState review; /* by the stories of its signatures */
  GArray *people;       /* Owned, gint64: who had a hand in it, row.person included */
  int outcome;          /* of the test it is or belongs to; -1 = none */
  GPtrArray *texts;     /* Owned, folded */
} OracleRow;

/* Element OracleRow, by id. (transfer full) */
GPtrArray *oracle_read (BrowsePlant *plant, SwTable table);
gboolean oracle_matches (const OracleRow *row, const SwBrowseFilter *filter);
/* Each word of the search in one of the texts. */
gboolean oracle_finds (GPtrArray *texts, const char *search);
void oracle_add_text (GPtrArray *texts, const char *text);

G_END_DECLS
