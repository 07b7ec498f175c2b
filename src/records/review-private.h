/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one SQL condition behind every question about signatures: lists and single records ask the
 * same. It stands in a statement whose table `review` is the signature.
 *
 * A row's journal_seq is its last journal row: a part that was not written since the signature is
 * passed over without a look into the journal.
 */
#pragma once

#include "records/store.h"

/* The journal row that brought the signature. */
#define SW_REVIEW_BEGAN                                                                            \
  "(SELECT min(first.seq) FROM journal AS first"                                                   \
  " WHERE first.table_name = 'review' AND first.row_id = review.id)"

/* A journal row that does no more than take the re-test from a dose. LIKE patterns hold a line
 * feed, and no value in an entry does. */
#define SW_REVIEW_ONLY_UNLINKED                                                                    \
  "(journal.table_name = 'dose' AND journal.entry LIKE '%\nold.retest_sample=%'"                   \
  " AND journal.entry NOT LIKE '%\nold.%\nold.%' AND journal.entry NOT LIKE '%\nnew.%')"

/* @row of @table was amended or voided since. */
#define SW_REVIEW_CHANGED(table, row)                                                              \
  "EXISTS (SELECT 1 FROM journal WHERE journal.table_name = " table " AND journal.row_id = " row   \
  " AND journal.seq > " SW_REVIEW_BEGAN " AND journal.kind IN ('amend', 'void')"                   \
  " AND NOT " SW_REVIEW_ONLY_UNLINKED ")"

/* One of the rows of @table that belong to the titration signed. */
#define SW_REVIEW_PART(table, row, of)                                                             \
  "EXISTS (SELECT 1 FROM " table " WHERE " of " AND " table ".journal_seq > " SW_REVIEW_BEGAN      \
  " AND " SW_REVIEW_CHANGED ("'" table "'", row) ")"

#define SW_REVIEW_SAMPLE                                                                           \
  "sample.id = (SELECT test.sample FROM titration AS test WHERE test.id = review.subject)"
#define SW_REVIEW_SAMPLE_CHANGED SW_REVIEW_PART ("sample", "sample.id", SW_REVIEW_SAMPLE)
#define SW_REVIEW_READING_CHANGED                                                                  \
  SW_REVIEW_PART ("reading", "reading.id", "reading.titration = review.subject")
#define SW_REVIEW_DOSE_CHANGED SW_REVIEW_PART ("dose", "dose.id", "dose.titration = review.subject")
#define SW_REVIEW_SUBJECT_CHANGED SW_REVIEW_CHANGED ("review.subject_table", "review.subject")

/* TRUE when the signature no longer covers what it was given for. */
#define SW_REVIEW_TAKEN_AWAY                                                                       \
  "(" SW_REVIEW_SUBJECT_CHANGED " OR (review.subject_table = 'titration'"                          \
  " AND (" SW_REVIEW_SAMPLE_CHANGED " OR " SW_REVIEW_READING_CHANGED " OR " SW_REVIEW_DOSE_CHANGED \
  ")))"
